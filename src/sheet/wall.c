/* The wall sheet: one page above the saw. It answers, from far to near: may I use it? how far off? until when? what
   must I not do? what next? */
#include "sheet/findings.h"
#include "sheet/general.h"
#include "sheet/kinds.h"
#include "sheet/methods.h"

#include <math.h>
#include <string.h>

enum { SHORT_COLUMNS = 3 };

static const enum mark_shape state_marks[] = {
    [STATE_DO_NOT_USE] = MARK_CROSS,
    [STATE_NOT_PROVEN] = MARK_HALF_SQUARE,
    [STATE_NOT_TESTED] = MARK_EMPTY_SQUARE,
    [STATE_FIT] = MARK_FILLED_SQUARE,
};

/* What gives way where the page is too full, least missed first: the reckoner (it stands on the bench sheet too), the
   size of further tests and of the plan view, of what comes next, cautions in full (their titles stay), the plan view. */
static const struct version_row {
    int reckoner_rows;
    double least_drawing; /* [mm]; 0: no plan view */
    enum text_style next, others; /* what comes next; tests beside the deciding one */
    int failures, large_cautions;
} version_rows[WALL_VERSIONS] = {
    {7, 85, STYLE_ARM, STYLE_ARM, 3, 3},
    {7, 85, STYLE_ARM, STYLE_LEAD, 3, 3},
    {6, 75, STYLE_ARM, STYLE_LEAD, 3, 3},
    {5, 65, STYLE_ARM, STYLE_LEAD, 3, 3},
    {4, 58, STYLE_ARM, STYLE_LEAD, 3, 3},
    {4, 50, STYLE_ARM, STYLE_LEAD, 3, 3},
    {3, 44, STYLE_ARM, STYLE_LEAD, 3, 3},
    {3, 44, STYLE_ARM, STYLE_LEAD, 3, 2},
    {0, 60, STYLE_ARM, STYLE_LEAD, 3, 3},
    {0, 45, STYLE_ARM, STYLE_LEAD, 3, 3},
    {0, 44, STYLE_ARM, STYLE_LEAD, 3, 2},
    {0, 45, STYLE_LEAD, STYLE_LEAD, 3, 3},
    {0, 40, STYLE_LEAD, STYLE_LEAD, 2, 2},
    {0, 0, STYLE_LEAD, STYLE_LEAD, 1, 1},
};

static const struct version_row *version_of(const struct sheet_builder *b)
{
    return &version_rows[b->brevity];
}

/* Then no cut at all before it has been tried. */
static bool knife_is_unknown(const struct sheet_builder *b)
{
    return b->plan->has_sled && b->job->saw.knife.kind == KNIFE_NOT_STATED;
}

/* Beside the state, as large: until when it holds, or what alone may be sawn till then. */
static const char *print_until(const struct sheet_builder *b)
{
    const struct outcome *o = b->outcome;
    switch (o->state) {
    case STATE_DO_NOT_USE:
        return print_word(b, checks_failed(b) > 0 ? "wall.only.no_cut" : "wall.only.no_work");
    case STATE_NOT_PROVEN:
        return print_word(b, "wall.only.test_cuts");
    case STATE_NOT_TESTED:
        return print_word(b, knife_is_unknown(b) ? "wall.only.no_cut_yet" : "wall.only.test_cuts");
    case STATE_FIT:
        break;
    }
    return date_is_set(o->due) ? print_saying(b, SAYING("wall.valid_to", SAY_STR("date", print_date(b, o->due)))) : "";
}

static void add_banner(const struct sheet_builder *b, struct block_list *list)
{
    struct block block = {.kind = BLOCK_BANNER};
    block.as.banner.mark = state_marks[b->outcome->state];
    block.as.banner.words = print_word(b, outcome_state_key(b->outcome->state));
    block.as.banner.right = print_until(b);
    block_append(b, list, block);
}

/* The heads of the i-th failed check and of all later ones that the same remedy puts right; at most `most`. Gives how many. */
static int add_heads(const struct sheet_builder *b, struct block_list *list, int i, int most)
{
    const struct plan_check *first = check_failed(b, i), *c;
    int n = 0;
    for (; n < most && (c = check_failed(b, i)) != NULL; i++)
        if (check_same_remedy(b, first, c)) {
            block_text(b, list, STYLE_ARM, print_bold(b, print_saying(b, c->brief)));
            n++;
        }
    return n;
}

/* What fails, at arm's length, and what puts it right, in the order in which to do it; the rest counted. */
static void add_failures(const struct sheet_builder *b, struct block_list *list)
{
    static const char *const keys[] = {"wall.put_right", "wall.put_right.both", "wall.put_right.all"};
    int n = checks_failed(b), most = version_of(b)->failures, told = 0;
    for (int i = 0; i < n && told < most; i++) {
        if (check_told_before(b, i))
            continue;
        bool then = told > 0;
        int heads = add_heads(b, list, i, most - told);
        told += heads;
        block_paragraph(b, list, version_of(b)->others,
                        SAYING(then ? "wall.put_right.then" : keys[heads < COUNT_OF(keys) ? heads - 1 : COUNT_OF(keys) - 1],
                               SAY_STR("remedy", print_saying(b, check_failed(b, i)->remedy))));
    }
    if (n > told)
        block_paragraph(b, list, STYLE_LEAD, SAYING("wall.more_failures", SAY_ARG("n", SAY_COUNT_WORD, n - told)));
    if (n > 0)
        block_paragraph(b, list, version_of(b)->next, SAYING_PLAIN("wall.next.failed"));
}

static const char *error_line_of(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct sheet_method *method = sheet_method(test->method);
    if (test->stale)
        return print_saying(b, SAYING("general.line.stale", SAY_KEY("subject", key_plain(b, method->subject_key)),
                                      SAY_STR("date", print_date(b, test->job->date)),
                                      SAY_STR("reason", print_saying(b, test->stale_reason))));
    return method->error_line ? method->error_line(b, test) : general_error_line(b, test);
}

/* When, and with how many strips, where strips are cut; the other methods' lines say when. */
static const char *print_tested(const struct sheet_builder *b)
{
    const struct proof_test *test = b->outcome->deciding;
    if (!test || test->strips == 0)
        return "";
    return print_saying(b, SAYING("five_cut.wall.tested", SAY_STR("date", print_date(b, test->job->date)),
                                  SAY_ARG("n", SAY_COUNT_WORD, test->strips),
                                  SAY_KEY("strips", test->strips == 1 ? "noun.strip" : "noun.strips")));
}

/* Fewer may decide it, but three are the least that show their own scatter. */
static const char *next_strips(const struct sheet_builder *b, const struct proof_test *test)
{
    if (test->strips + test->further_strips <= STRIPS_THAT_PROVE)
        return print_word(b, "wall.next.strips.till_three");
    return print_saying(b, SAYING("wall.next.strips", SAY_ARG("n", SAY_COUNT_WORD, test->further_strips),
                                  SAY_KEY("strips", test->further_strips == 1 ? "noun.strip" : "noun.strips")));
}

/* A sled that is square may be out in what only its stop, its mitre fence or its key does: until_then_key tells. */
static const char *key_of_move(const struct sheet_builder *b, const struct proof_test *test)
{
    if (b->plan->has_sled && test != b->outcome->deciding)
        return "wall.next.move_beside";
    return test->strips > 0 ? "wall.next.move" : "wall.next.move_it";
}

static bool is_open(const struct proof_test *test)
{
    return test->stale || test->finding != FINDING_WITHIN;
}

/* The runner is to be put right, and this was read with it as it was. */
static bool waits_for_play(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct proof_test *play = proof_latest(b->proof, METHOD_SIDE_PLAY);
    return play && is_open(play) && !outcome_is_replaced(b->proof, play) && play->finding == FINDING_OUTSIDE && sheet_method(test->method)->moved_by_play;
}

/* What a test that is open asks for: the move, more strips, another test. */
static const char *next_after_test(const struct sheet_builder *b, const struct proof_test *test)
{
    if (test->stale)
        return print_word(b, "wall.next.stale");
    if (waits_for_play(b, test))
        return print_word(b, "wall.next.after_play");
    if (test->finding == FINDING_OUTSIDE && test->has_move && test->move.advice == ADVICE_MOVE)
        return print_saying(b, SAYING(key_of_move(b, test), SAY_STR("move", move_sentence(b, &test->move))));
    if (test->finding == FINDING_UNDECIDED && test->further_strips > 0)
        return next_strips(b, test);
    if (test->finding == FINDING_UNDECIDED && test->further_strips < 0 && test->decide.key)
        return print_saying(b, test->decide);
    return print_word(b, "wall.next.measure");
}

/* A test that is within beside another that is not. */
static bool is_no_leave(const struct sheet_builder *b, const struct proof_test *test)
{
    return test && !is_open(test) && b->outcome->open;
}

/* Which fence it was: without a sled only whoever tested it knows. */
static const char *add_note(const struct sheet_builder *b, const struct proof_test *test, const char *line)
{
    if (b->plan->has_sled || !sheet_method(test->method)->moved_by_play || !test->job->note.s)
        return line;
    return pool_printf(b->pool, "%s %s", line, print_saying(b, SAYING("wall.noted", SAY_STR("note", test->job->note.s))));
}

/* What decides squareness, at arm's length, and what it asks for. */
static void add_deciding(const struct sheet_builder *b, struct block_list *list)
{
    const struct proof_test *test = b->outcome->deciding;
    if (!test)
        return;
    if (checks_failed(b) > 0) /* then a good test must not read as a pass */
        block_paragraph(b, list, STYLE_LEAD, SAYING("wall.last_test", SAY_STR("line", error_line_of(b, test))));
    else
        block_text(b, list, is_no_leave(b, test) ? version_of(b)->others : STYLE_ARM, add_note(b, test, error_line_of(b, test)));
    if (!test->stale && b->outcome->state != STATE_FIT && test->strips > 0)
        block_text(b, list, STYLE_LEAD, print_tested(b));
    if (is_open(test))
        block_paragraph(b, list, version_of(b)->next, SAYING("wall.next", SAY_STR("what", next_after_test(b, test))));
}

/* How far off, what to do, and what the jig is no good for until then. */
static void add_other_test(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct sheet_method *method = sheet_method(test->method);
    const char *line = add_note(b, test, error_line_of(b, test)), *next = test == b->outcome->open ? "wall.next" : "wall.then";
    if (is_open(test))
        line = pool_printf(b->pool, "%s %s", line, print_saying(b, SAYING(next, SAY_STR("what", next_after_test(b, test)))));
    if (is_open(test) && b->plan->has_sled && method->until_then_key)
        line = pool_printf(b->pool, "%s %s", line, print_word(b, method->until_then_key));
    if (method->tells_remark && test->remarks[0].key)
        line = pool_printf(b->pool, "%s %s", line, print_saying(b, test->remarks[0]));
    bool worst = test == b->outcome->open;
    block_text(b, list, worst ? version_of(b)->next : version_of(b)->others, line);
}

/* Of a sled's tests those of other methods only where they are open; of a saw on its own, or another jig, all. The worst
   first. */
static void add_other_tests(const struct sheet_builder *b, struct block_list *list)
{
    static const enum finding order[] = {FINDING_OUTSIDE, FINDING_UNDECIDED, FINDING_WITHIN};
    for (size_t pass = 0; pass < COUNT_OF(order); pass++)
        for (int m = 0; m < METHODS; m++) {
            const struct proof_test *test = proof_latest(b->proof, (enum method)m);
            if (!test || test == b->outcome->deciding || outcome_is_replaced(b->proof, test) ||
                (test->stale ? FINDING_UNDECIDED : test->finding) != order[pass])
                continue;
            if (is_open(test) || !b->plan->has_sled)
                add_other_test(b, list, test);
        }
}

static const char *next_when_fit(const struct sheet_builder *b)
{
    return print_saying(b, SAYING(date_is_set(b->outcome->due) ? "wall.next.fit_until" : "wall.next.fit",
                                  SAY_STR("date", print_date(b, b->outcome->due)), SAY_KEY("after", again_after_key(b))));
}

static void add_not_tested(const struct sheet_builder *b, struct block_list *list)
{
    const struct job_limit *limit = &b->job->tolerances.squareness;
    block_paragraph(b, list, version_of(b)->next,
                    SAYING(knife_is_unknown(b) ? "wall.next.not_tested.knife" : "wall.next.not_tested",
                           SAY_ARG("limit", SAY_LIMIT, limit->error.v), SAY_STR("over", print_over_size(b, limit->over.v))));
}

/* How far off, and what comes next; what speaks against use before what does not. */
static void add_tests(const struct sheet_builder *b, struct block_list *list)
{
    bool last = is_no_leave(b, b->outcome->deciding);
    if (!last)
        add_deciding(b, list);
    if (b->outcome->state == STATE_NOT_TESTED)
        add_not_tested(b, list);
    add_other_tests(b, list);
    if (last)
        add_deciding(b, list);
    if (b->outcome->state == STATE_FIT)
        block_text(b, list, version_of(b)->others, pool_printf(b->pool, "%s %s", print_tested(b), next_when_fit(b)));
}

static struct figure_item make_figure(const struct sheet_builder *b, double mm, struct saying label)
{
    return (struct figure_item){.number = print_bold(b, print_number(b, SAY_SIZE, mm)),
                                .unit = words_unit(b->units),
                                .label = print_saying(b, label)};
}

/* A setting read off a rule: in inches to the nearest 64th, without the decimal beside it. */
static double by_the_rule(const struct sheet_builder *b, double mm)
{
    return b->units == UNITS_IN ? round(mm / MM_PER_INCH * 64) / 64 * MM_PER_INCH : mm;
}

/* Settings for use: not for a jig that must not be built or used like this. */
static void add_figures(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *sled = &b->plan->sled;
    double sum = by_the_rule(b, sled->base_thickness + sled->blade_above_work);
    const struct figure_item items[] = {
        make_figure(b, sled->capacity_width, SAYING_PLAIN("wall.widest")),
        make_figure(b, sled->capacity_thickness, SAYING_PLAIN("wall.thickest")),
        make_figure(b, sled->blade_above_work, SAYING("wall.blade_above", SAY_ARG("sum", SAY_SIZE, sum))),
        make_figure(b, sled_clamp_below(b->units), SAYING_PLAIN("wall.clamp_below")),
    };
    struct block block = {.kind = BLOCK_FIGURES};
    block.as.figures.items = pool_copy(b->pool, items, sizeof items);
    block.as.figures.n = COUNT_OF(items);
    block_append(b, list, block);
}

static void add_plan_view(const struct sheet_builder *b, struct block_list *list)
{
    struct drawing drawing = {0};
    draw_plan_view(b->plan, b->units, true, b->pool, &drawing);
    block_drawing(b, list, drawing, STYLE_BODY, version_of(b)->least_drawing, 100);
}

static void add_reckoners(const struct sheet_builder *b, struct block_list *list)
{
    int rows = version_of(b)->reckoner_rows;
    for (int m = 0; rows > 0 && b->outcome->state != STATE_DO_NOT_USE && m < METHODS; m++)
        if (sheet_method((enum method)m)->add_reckoner)
            sheet_method((enum method)m)->add_reckoner(b, list, rows);
}

/* ---- cautions ---- */

/* For whatever is no sled of the plan's. */
static const struct plan_caution general_cautions[] = {
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.guard"}, .title = {.key = "wall.general.guard"}},
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.wait"}, .title = {.key = "wall.general.wait"}},
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.unplug"}, .title = {.key = "wall.general.unplug"}},
    {.signal = SIGNAL_WARNING, .text = {.key = "caution.beside"}, .title = {.key = "caution.beside.title"}},
    {.signal = SIGNAL_CAUTION, .text = {.key = "caution.eyes"}, .title = {.key = "caution.eyes.title"}},
    {.signal = SIGNAL_CAUTION, .text = {.key = "caution.gloves"}, .title = {.key = "caution.gloves.title"}},
    {.signal = SIGNAL_NOTICE, .text = {.key = "caution.knock"}, .title = {.key = "caution.knock.title"}},
};

/* For a jig that must not be used at all: cautions for use would read as leave to use it. */
static const struct plan_caution banned_cautions[] = {
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.unplug"}, .title = {.key = "wall.general.unplug"}},
};

static const struct plan_caution *cautions_of(const struct sheet_builder *b, size_t *n)
{
    if (checks_failed(b) > 0) {
        *n = COUNT_OF(banned_cautions);
        return banned_cautions;
    }
    bool general = b->plan->n_cautions == 0;
    *n = general ? COUNT_OF(general_cautions) : b->plan->n_cautions;
    return general ? general_cautions : b->plan->cautions;
}

static size_t count_large(const struct sheet_builder *b, size_t n)
{
    size_t most = (size_t)version_of(b)->large_cautions;
    return n < most ? n : most;
}

static void add_large_cautions(const struct sheet_builder *b, struct block_list *list)
{
    size_t n;
    const struct plan_caution *cautions = cautions_of(b, &n);
    struct block block = cautions_begin(STYLE_ARM);
    for (size_t i = 0; i < count_large(b, n); i++)
        cautions_add(b, &block, cautions[i].signal, print_saying(b, cautions[i].text));
    block_append(b, list, block);
}

/* Short titles of the others. */
static void add_short_cautions(const struct sheet_builder *b, struct block_list *list, int columns)
{
    size_t n;
    const struct plan_caution *cautions = cautions_of(b, &n);
    size_t large = count_large(b, n);
    const char **titles = pool_alloc(b->pool, (n + 1) * sizeof *titles);
    for (size_t i = large; i < n; i++)
        titles[i - large] = print_saying(b, cautions[i].title);
    if (n > large)
        block_items(b, list, STYLE_BODY, titles, n - large, columns);
}

/* Cautions from the checks, in short sentences. */
static void add_check_cautions(const struct sheet_builder *b, struct block_list *list)
{
    struct text all = {0};
    for (size_t i = 0; i < b->plan->n_checks; i++)
        if (b->plan->checks[i].verdict == VERDICT_CAUTION)
            text_printf(&all, " %s", print_saying(b, b->plan->checks[i].brief));
    if (*text_string(&all))
        block_paragraph(b, list, STYLE_BODY, SAYING("wall.check_briefs", SAY_STR("briefs", pool_string(b->pool, text_string(&all)))));
    text_free(&all);
}

/* What is read at hand distance beside the plan view: the reckoner, else the short cautions. */
static void add_picture(const struct sheet_builder *b, struct block_list *list, const struct block_list *beside)
{
    struct block_list picture = {0};
    add_plan_view(b, &picture);
    block_columns(b, list, 2, (const struct block_list[]){picture, *beside}, (const double[]){6, 6});
}

static void append_all(const struct sheet_builder *b, struct block_list *list, const struct block_list *more)
{
    for (size_t i = 0; i < more->n; i++)
        block_append(b, list, more->blocks[i]);
}

/* Plan view with the reckoner or, where there is none, the short cautions beside it; the large cautions; what is left. */
static void add_lower_half(const struct sheet_builder *b, struct block_list *list)
{
    bool picture = b->plan->has_sled && version_of(b)->least_drawing > 0 && checks_failed(b) == 0;
    struct block_list reckoner = {0}, notes = {0};
    add_reckoners(b, &reckoner);
    bool notes_beside = picture && reckoner.n == 0;
    add_short_cautions(b, &notes, notes_beside ? 1 : SHORT_COLUMNS);
    add_check_cautions(b, &notes);
    if (picture)
        add_picture(b, list, notes_beside ? &notes : &reckoner);
    else
        append_all(b, list, &reckoner);
    add_large_cautions(b, list);
    if (!notes_beside)
        append_all(b, list, &notes);
}

void wall_fill(const struct sheet_builder *b, struct block_list *list)
{
    add_banner(b, list);
    add_failures(b, list);
    add_tests(b, list);
    if (b->plan->has_sled && checks_failed(b) == 0)
        add_figures(b, list);
    add_lower_half(b, list);
}
