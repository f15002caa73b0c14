/* The record, for whoever must trust the jig later: what was read, what it comes to, by which rule, with which tools,
   and last of all the job itself, so that the paper holds all that its numbers came from. */
#include "sheet/findings.h"
#include "sheet/general.h"
#include "sheet/kinds.h"
#include "sheet/methods.h"

#include <math.h>
#include <string.h>

static const struct column_row identity_columns[] = {
    {NULL, ALIGN_LEFT, 0},
    {NULL, ALIGN_LEFT, 1},
};
static const struct column_row history_columns[] = {
    {"record.date", ALIGN_LEFT, 0},
    {"record.by", ALIGN_LEFT, 1},
    {"record.error", ALIGN_POINT, 0},
    {"record.u", ALIGN_POINT, 0},
    {"record.strips", ALIGN_RIGHT, 0},
    {"record.verdict", ALIGN_LEFT, 0},
    {"record.remark", ALIGN_LEFT, 2},
};
static const struct column_row between_columns[] = {
    {"record.date", ALIGN_LEFT, 0},
    {"record.done", ALIGN_LEFT, 1},
};
static const struct column_row tool_columns[] = {
    {"record.tool", ALIGN_LEFT, 1},
    {"record.resolution", ALIGN_RIGHT, 0},
    {"record.limit", ALIGN_RIGHT, 0},
    {"record.checked", ALIGN_LEFT, 0},
    {"record.certificate", ALIGN_LEFT, 1},
};

static const char *const finding_keys[] = {
    [FINDING_WITHIN] = "finding.within",
    [FINDING_OUTSIDE] = "finding.outside",
    [FINDING_UNDECIDED] = "finding.undecided",
};
static const char *const instrument_keys[] = {
    [INSTRUMENT_CALIPER] = "tool.caliper",
    [INSTRUMENT_FEELER] = "tool.feeler",
    [INSTRUMENT_RULE] = "tool.rule",
    [INSTRUMENT_TAPE] = "tool.tape",
    [INSTRUMENT_DIAL] = "tool.dial",
    [INSTRUMENT_SQUARE] = "tool.square",
    [INSTRUMENT_STRAIGHT_EDGE] = "tool.straight_edge",
    [INSTRUMENT_OTHER] = "tool.other",
};

static void add_wording(const struct sheet_builder *b, struct block_list *list)
{
    const char *shop = b->job->shop.s;
    block_paragraph(b, list, STYLE_LEAD,
                    SAYING(shop ? "record.wording_shop" : "record.wording", SAY_STR("shop", shop)));
}

/* A row of the head, left out where the job does not say. */
static void add_identity_row(const struct sheet_builder *b, struct block *table, const char *key, const char *value)
{
    if (!value || !*value)
        return;
    const char *const cells[] = {print_word(b, key), value};
    table_add_row(b, table, cells);
}

static void add_identity(const struct sheet_builder *b, struct block_list *list)
{
    const struct job *job = b->job;
    struct block table = table_begin(b, NULL, identity_columns, COUNT_OF(identity_columns));
    add_identity_row(b, &table, "record.item", pool_printf(b->pool, "%s, %s", job->number.s, job->title.s));
    add_identity_row(b, &table, "record.shop", job->shop.s);
    add_identity_row(b, &table, "record.saw", job->saw.name.s);
    add_identity_row(b, &table, "record.made_by", job->made_by.s);
    add_identity_row(b, &table, "record.issued", date_is_set(job->date) ? print_date(b, job->date) : NULL);
    add_identity_row(b, &table, "record.state", print_bold(b, print_word(b, outcome_state_key(b->outcome->state))));
    add_identity_row(b, &table, "record.id", record_id(b));
    add_identity_row(b, &table, "record.fingerprint", job->fingerprint);
    add_identity_row(b, &table, "record.program", "fettle " FETTLE_VERSION);
    block_append(b, list, table);
}

static const char *say_move(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct move *move = &test->move;
    switch (move->advice) {
    case ADVICE_LEAVE:
        return print_saying(b, SAYING(move->what.key ? "record.leave_it" : "record.leave", SAY_STR("reason", print_saying(b, move->reason))));
    case ADVICE_MEASURE_MORE:
        return print_saying(b, SAYING("record.measure_more", SAY_STR("reason", print_saying(b, move->reason))));
    case ADVICE_MOVE:
        return print_saying(b, SAYING("record.move", SAY_STR("move", move_sentence(b, move)),
                                      SAY_ARG("u", SAY_UNCERTAINTY, move->uncertainty),
                                      SAY_STR("reason", print_saying(b, move->reason))));
    }
    return "";
}

static void add_expected(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (isnan(test->move.expected_error))
        return;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("record.expected",
                           SAY_STR("error", print_over(b, test,
                                                       print_number(b, SAY_ERROR, test->move.expected_error *
                                                                                      test->over_length)))));
}

static void add_move(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (!test->has_move)
        return;
    block_heading(b, list, 2, SAYING_PLAIN("record.move_heading"));
    block_text(b, list, STYLE_BODY, say_move(b, test));
    if (test->move.advice != ADVICE_MOVE)
        return;
    block_keep_with_next(list);
    const struct sheet_method *method = sheet_method(test->method);
    if (method->add_move_steps)
        method->add_move_steps(b, list, test);
    else if (!test->move.what.key)
        move_steps(b, list, test);
    add_expected(b, list, test);
}

/* What would decide a test that decides nothing yet. */
static void add_what_decides(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (!test->decide.key)
        return;
    block_paragraph(b, list, STYLE_BODY, test->decide);
    if (test->largest_line.key)
        block_paragraph(b, list, STYLE_BODY,
                        SAYING(test->strips > 0 ? "record.largest_line" : "record.largest_line_of_all",
                               SAY_STR("line", print_saying(b, test->largest_line))));
}

static void add_warnings_of_test(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (test->stale)
        block_boxed(b, list, STYLE_LEAD,
                    print_saying(b, SAYING("record.stale", SAY_STR("reason", print_saying(b, test->stale_reason)))));
    if (test->wrong_way)
        block_boxed(b, list, STYLE_LEAD,
                    print_saying(b, SAYING("wrong_way",
                                           SAY_ARG("expected", SAY_ERROR, test->expected_error * test->over_length),
                                           SAY_ARG("error", SAY_ERROR, test->error_over),
                                           SAY_ARG("length", SAY_SIZE, test->over_length))));
}

/* What the job says of a test stands with it; with a history it stands there. */
static void add_note(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    int of_method = 0;
    for (size_t i = 0; i < b->proof->n_tests; i++)
        of_method += b->proof->tests[i].method == test->method;
    if (of_method == 1 && test->job->note.s)
        block_paragraph(b, list, STYLE_BODY, SAYING("record.note", SAY_STR("note", test->job->note.s)));
}

/* The test that decides, in full: readings and sum beside each other, then the budget, the verdict, the move. */
static void add_test(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct sheet_method *method = sheet_method(test->method);
    block_heading(
        b, list, 2,
        SAYING("record.test", SAY_KEY("method", method->name_key), SAY_STR("date", print_date(b, test->job->date))));
    size_t verdict = list->n;
    if (method->add_verdict)
        method->add_verdict(b, list, test);
    else
        general_add_verdict(b, list, test);
    add_warnings_of_test(b, list, test);
    block_keep_from(list, verdict);
    block_keep_with_next(list); /* a verdict stands with what it was made of */
    method->add_readings(b, list, test);
    add_note(b, list, test);
    method->add_sum(b, list, test);
    if (method->add_budget)
        method->add_budget(b, list, test);
    else
        general_add_budget(b, list, test, NULL);
    general_add_figures(b, list, test);
    add_what_decides(b, list, test);
    add_move(b, list, test);
}

static const char *say_remark(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct job_moved *moved = &test->job->moved;
    const char *remark = test->job->practice ? print_word(b, "record.practice")
                         : test->stale       ? print_word(b, "record.overtaken")
                                             : "";
    if (moved->given)
        remark = pool_printf(b->pool, "%s%s%s", remark, *remark ? "; " : "",
                             print_saying(b, SAYING("record.moved", SAY_KEY("end", key_of_side(moved->end)),
                                                    SAY_KEY("toward", key_of_toward(moved->toward)),
                                                    SAY_ARG("distance", SAY_MOVE, moved->distance.v))));
    if (test->job->note.s)
        remark = pool_printf(b->pool, "%s%s%s", remark, *remark ? "; " : "", test->job->note.s);
    return remark;
}

static void add_history_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    struct printed_result result = print_result(b, test);
    const char *const cells[] = {
        print_date(b, test->job->date),
        test->job->by.s ? pool_string(b->pool, test->job->by.s) : "",
        result.value,
        result.u,
        test->strips > 0 ? print_number(b, SAY_COUNT, test->strips) : "",
        print_word(b, finding_keys[test->finding]),
        say_remark(b, test),
    };
    table_add_row(b, table, cells)->bold = test->counts;
}

/* The i-th test of a method, practice included; NULL: no more. */
static const struct proof_test *find_test(const struct proof *proof, enum method method, int i)
{
    for (size_t k = 0; k < proof->n_tests; k++)
        if (proof->tests[k].method == method && i-- == 0)
            return &proof->tests[k];
    return NULL;
}

static void add_drift(const struct sheet_builder *b, struct block_list *list, enum method method)
{
    const struct history *h = &b->proof->history[method];
    const struct proof_test *last = proof_latest(b->proof, method);
    if (!h->has_drift || !last)
        return;
    double a_month = 365.25 / 12 * last->over_length;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("record.drift", SAY_ARG("drift", SAY_ERROR, h->drift_per_day * a_month),
                           SAY_ARG("u", SAY_UNCERTAINTY, h->drift_u * a_month),
                           SAY_STR("over", proof_is_angle(last) ? print_over_length(b, last) : "")));
    if (date_is_set(h->drift_due))
        block_paragraph(b, list, STYLE_BODY, SAYING("record.drift_due", SAY_STR("date", print_date(b, h->drift_due))));
}

static void add_history(const struct sheet_builder *b, struct block_list *list, enum method method)
{
    struct drawing drawing = {0};
    const struct proof_test *first = find_test(b->proof, method, 0);
    if (!first || (proof_latest(b->proof, method) && !find_test(b->proof, method, 1)))
        return; /* practice alone is shown even if there is one test only */
    block_heading(b, list, 2, SAYING("record.history", SAY_KEY("method", sheet_method(method)->name_key)));
    if (draw_history(b->job, b->proof, method, b->pool, &drawing))
        block_drawing(b, list, drawing, STYLE_BODY, 35, 55);
    block_keep_with_next(list);
    struct block table = table_begin(b, NULL, history_columns, COUNT_OF(history_columns));
    for (int i = 0; find_test(b->proof, method, i); i++)
        add_history_row(b, &table, find_test(b->proof, method, i));
    table.as.table.drop_empty = true;
    block_append(b, list, table);
    block_keep_with_next(list);
    block_paragraph(b, list, STYLE_SMALL,
                    SAYING(proof_is_angle(first) ? "record.history.note_angle" : "record.history.note",
                           SAY_KEY("unit", key_of_unit(b->units)), SAY_STR("over", print_over_length(b, first))));
    add_drift(b, list, method);
}

static void add_changes(const struct sheet_builder *b, struct block_list *list)
{
    if (b->job->n_changes == 0)
        return;
    struct block table = table_begin(b, "record.changes", between_columns, COUNT_OF(between_columns));
    for (size_t i = 0; i < b->job->n_changes; i++) {
        const struct job_change *c = &b->job->changes[i];
        const char *const cells[] = {print_date(b, c->date), c->what.s ? pool_string(b->pool, c->what.s) : ""};
        table_add_row(b, &table, cells);
    }
    block_append(b, list, table);
}

/* Wording A where a certificate was seen, B where only the maker's word stands behind the tool. */
static const char *say_backing(const struct sheet_builder *b, const struct job_instrument *tool)
{
    if (!tool)
        return print_saying(b, SAYING("tool.assumed", SAY_ARG("step", SAY_FIT, 0.01), SAY_ARG("limit", SAY_FIT, 0.03)));
    const char *key = tool->certificate.s ? "tool.wording_a" : "tool.wording_b";
    return print_saying(b, SAYING(key, SAY_STR("tool", tool->name), SAY_STR("certificate", tool->certificate.s),
                                  SAY_STR("date", date_is_set(tool->checked) ? print_date(b, tool->checked)
                                                                             : print_word(b, "tool.unknown_date")),
                                  SAY_ARG("limit", SAY_LIMIT, tool->error_limit.v)));
}

/* Wording C for a method that needs no standard, with A or B for the lengths; else A or B alone. B claims nothing as it
   is. */
static const char *say_tool(const struct sheet_builder *b, const struct proof_test *test)
{
    const char *backing = say_backing(b, test->job->instrument);
    if (sheet_method(test->method)->needs_no_standard)
        backing = print_saying(b, SAYING(test->job->instrument && test->job->instrument->certificate.s ? "tool.wording_c" : "tool.wording_c_untraced",
                                         SAY_STR("backing", backing)));
    return backing;
}

static const char *print_limit_or_dash(const struct sheet_builder *b, struct num number)
{
    return print_quantity(b, SAY_LIMIT, number.given ? number.v : NAN);
}

/* "caliper-3, caliper"; a tool that the job calls by its kind is named once. */
static const char *name_tool(const struct sheet_builder *b, const struct job_instrument *t)
{
    const char *kind = print_word(b, instrument_keys[t->kind]);
    size_t named = strlen(t->name), n = strlen(kind);
    bool by_kind = named <= n && strcmp(kind + n - named, t->name) == 0;
    return by_kind ? kind : pool_printf(b->pool, "%s, %s", t->name, kind);
}

static void add_tool_row(const struct sheet_builder *b, struct block *table, const struct job_instrument *t)
{
    const char *const cells[] = {
        name_tool(b, t),
        print_limit_or_dash(b, t->resolution),
        print_limit_or_dash(b, t->error_limit),
        date_is_set(t->checked) ? print_date(b, t->checked) : print_word(b, "tool.unknown_date"),
        t->certificate.s ? pool_string(b->pool, t->certificate.s) : print_word(b, "tool.no_certificate"),
    };
    table_add_row(b, table, cells);
}

/* What stands behind the tools of the tests that decide, each sentence once. */
static void add_tool_wordings(const struct sheet_builder *b, struct block_list *list)
{
    const char *said[METHODS];
    int n = 0;
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *test = proof_latest(b->proof, (enum method)m);
        if (!test)
            continue;
        said[n] = say_tool(b, test);
        int i = 0;
        while (strcmp(said[i], said[n]) != 0)
            i++;
        if (i == n)
            block_text(b, list, STYLE_BODY, said[n++]);
    }
}

static void add_tools(const struct sheet_builder *b, struct block_list *list)
{
    if (b->proof->n_tests == 0 && b->job->n_instruments == 0)
        return;
    size_t first = list->n;
    block_heading(b, list, 2, SAYING_PLAIN("record.tools"));
    add_tool_wordings(b, list);
    if (b->job->n_instruments == 0)
        return;
    block_keep_from(list, first);
    block_keep_with_next(list);
    struct block table = table_begin(b, NULL, tool_columns, COUNT_OF(tool_columns));
    for (size_t i = 0; i < b->job->n_instruments; i++)
        add_tool_row(b, &table, &b->job->instruments[i]);
    block_append(b, list, table);
}

static void add_climate(const struct sheet_builder *b, struct block_list *list, const char *key,
                        const struct job_climate *air)
{
    if (air->given)
        block_paragraph(b, list, STYLE_BODY,
                        SAYING(key, SAY_ARG("temperature", SAY_TEMPERATURE, air->temperature.v),
                               SAY_ARG("humidity", SAY_PERCENT, air->humidity.v)));
}

/* Air at the tests that decide, and at fitting the runners. */
static void add_air(const struct sheet_builder *b, struct block_list *list)
{
    bool said = false;
    block_heading(b, list, 2, SAYING_PLAIN("record.air"));
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *test = proof_latest(b->proof, (enum method)m);
        if (!test)
            continue;
        add_climate(b, list, "record.air.test", &test->job->air);
        said = said || test->job->air.given;
    }
    if (!said)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("record.air.unknown"));
    add_climate(b, list, "record.air.fitting", &b->job->air.at_fitting);
}

static void add_validity(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING_PLAIN("record.validity"));
    block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN(b->job->jig.given ? "record.relates" : "record.relates_saw"));
    if (date_is_set(b->outcome->due))
        block_paragraph(b, list, STYLE_BODY,
                        SAYING(b->outcome->due_is_drift ? "record.again_drift" : "record.again_by",
                               SAY_STR("date", print_date(b, b->outcome->due)), SAY_KEY("after", again_after_key(b))));
    else
        block_paragraph(b, list, STYLE_BODY, SAYING("record.again_after", SAY_KEY("after", again_after_key(b))));
}

static void add_signatures(const struct sheet_builder *b, struct block_list *list)
{
    static const char *const keys[] = {"record.sign.tested", "record.sign.checked", "record.sign.date"};
    const char *labels[COUNT_OF(keys)];
    struct block block = {.kind = BLOCK_SIGNATURES};
    for (int i = 0; i < COUNT_OF(keys); i++)
        labels[i] = print_word(b, keys[i]);
    block.as.signatures.labels = pool_copy(b->pool, labels, sizeof labels);
    block.as.signatures.n = COUNT_OF(keys);
    block_keep_with_next(list);
    block_append(b, list, block);
}

/* The same job makes the same sheets in whatever folder it lies. */
static const char *name_without_folder(const struct sheet_builder *b, const char *path)
{
    const char *slash = strrchr(path, '/');
    return pool_string(b->pool, slash ? slash + 1 : path);
}

static void add_sources(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING_PLAIN("record.source"));
    block_note(b, list, "record.source.note");
    list->blocks[list->n - 1].keep_with_next = true;
    for (size_t i = 0; i < b->job->n_sources; i++) {
        struct block block = {.kind = BLOCK_SOURCE};
        block.as.source.name = name_without_folder(b, b->job->sources[i].name);
        block.as.source.text = pool_string_n(b->pool, b->job->sources[i].text, b->job->sources[i].size);
        block_append(b, list, block);
    }
}

/* Each with what makes it pass and what to write into the job file for it. */
static void add_open_checks(const struct sheet_builder *b, struct block_list *list)
{
    if (checks_failed(b) + checks_cautioned(b) == 0)
        return;
    block_heading(b, list, 2, SAYING_PLAIN("record.checks"));
    for (int verdict = VERDICT_FAIL; verdict > VERDICT_PASS; verdict--)
        for (size_t i = 0; i < b->outcome->n_checks; i++) {
            const struct plan_check *c = &b->outcome->checks[i];
            if ((int)c->verdict == verdict)
                block_paragraph(b, list, STYLE_BODY,
                                SAYING("record.check", SAY_STR("verdict", check_verdict(b, c)),
                                       SAY_STR("check", check_sentence(b, c)), SAY_STR("change", check_job_change(b, c))));
        }
}

void record_fill(const struct sheet_builder *b, struct block_list *list)
{
    add_wording(b, list);
    add_identity(b, list);
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *test = proof_latest(b->proof, (enum method)m);
        if (test)
            add_test(b, list, test);
        add_history(b, list, (enum method)m);
    }
    add_changes(b, list);
    add_tools(b, list);
    add_air(b, list);
    add_validity(b, list);
    add_open_checks(b, list);
    sheet_add_assumed(b, list, STYLE_SMALL);
    add_signatures(b, list);
    add_sources(b, list);
}
