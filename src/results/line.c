/* The line a job on standard output: number, state, why, file. */
#include "results.h"

#include "words.h"

#include <string.h>

/* Narrow and no-break spaces are for paper: a terminal gets plain blanks. */
static void add_with_plain_blanks(struct text *out, const char *s)
{
    while (*s) {
        bool thin = strncmp(s, THIN, strlen(THIN)) == 0, hard = strncmp(s, NBSP, strlen(NBSP)) == 0;
        if (thin || hard)
            text_add_char(out, ' ');
        else
            text_add_char(out, *s);
        s += thin ? strlen(THIN) : hard ? strlen(NBSP) : 1;
    }
}

static void add_saying(struct text *out, const struct saying *s, enum units units)
{
    struct text t = {0};
    words_put_plain(&t, s, units);
    add_with_plain_blanks(out, text_string(&t));
    text_free(&t);
}

/* Squareness by that name, any other test by its method's. */
static void add_test(struct text *out, const struct proof_test *t, const struct proof_test *deciding, enum units units)
{
    static const char *const keys[] = {
        [FINDING_WITHIN] = "line.within", [FINDING_OUTSIDE] = "line.outside", [FINDING_UNDECIDED] = "line.undecided"};
    struct text value = {0}, u = {0}, method = {0};
    text_printf(&method, "method.%s", job_method_name(t->method));
    const char *key = !proof_is_angle(t) ? "line.length" : t == deciding ? "line.squareness" : "line.angle";
    words_value_and_u(&value, &u, t->error_over, proof_has_sign(t), t->expanded_uncertainty * t->over_length, t->tolerance * t->over_length, units);
    struct saying s = SAYING(key, SAY_KEY("method", text_string(&method)), SAY_STR("error", text_string(&value)), SAY_STR("u", text_string(&u)),
                             SAY_STR("unit", words_unit(units)),
                             SAY_KEY("in", units == UNITS_IN ? "line.in_inches" : "line.in_mm"),
                             SAY_ARG("over", SAY_SIZE, t->over_length),
                             SAY_KEY("finding", keys[t->finding]), SAY_ARG("limit", SAY_LIMIT, t->tolerance * t->over_length));
    add_saying(out, &s, units);
    text_free(&value);
    text_free(&u);
    text_free(&method);
}

/* The first latest test that leaves the proof open; NULL: none. */
static const struct proof_test *unproven_test(const struct proof *proof)
{
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *t = proof_latest(proof, (enum method)m);
        if (t && !outcome_is_replaced(proof, t) && (t->stale || t->finding == FINDING_UNDECIDED))
            return t;
    }
    return NULL;
}

/* Of a job without a test of squareness: the one that stands against use, else the newest. What a sled is fit for in spite
   of, a stop outside its limit say, does not tell why it is not proven. */
static const struct proof_test *telling_test(const struct result_job *r)
{
    const struct outcome *o = r->outcome;
    if (o->state == STATE_NOT_PROVEN && !(o->open && (o->open->stale || o->open->finding == FINDING_UNDECIDED)))
        return unproven_test(r->proof);
    if (o->deciding && (!o->open || o->open == o->deciding || o->state == STATE_FIT))
        return o->deciding;
    if (o->open)
        return o->open;
    for (size_t i = r->proof->n_tests; i-- > 0;)
        if (!r->proof->tests[i].job->practice)
            return &r->proof->tests[i];
    return NULL;
}

static void add_reason(struct text *out, const struct result_job *r, struct date today)
{
    const struct outcome *o = r->outcome;
    const struct proof_test *test = telling_test(r);
    enum units units = r->job->units;
    char date[11];
    if (outcome_state_on(o, today) != o->state) {
        date_print(o->due, date);
        struct saying s = SAYING("line.overdue", SAY_STR("date", date));
        add_saying(out, &s, units);
    } else if (o->n_failed && strcmp(o->lines[0].what.key, "outcome.test_outside") != 0) {
        add_saying(out, o->lines[0].brief.key ? &o->lines[0].brief : &o->lines[0].what, units);
    } else if (o->state == STATE_NOT_TESTED) {
        add_saying(out, &SAYING_PLAIN(r->plan->has_sled ? "line.not-tested" : "line.not-tested_saw"), units);
    } else if (test && test->stale) {
        add_saying(out, &test->stale_reason, units);
    } else if (test) {
        add_test(out, test, o->deciding, units);
    }
}

static void add_remedy(struct text *out, const struct saying *remedy, enum units units, enum units file_units)
{
    struct text change = {0};
    text_add_char(out, ' ');
    add_saying(out, remedy, units);
    if (words_put_job_change(&change, remedy, file_units))
        text_printf(out, " %s %s.", words_get("line.in_the_job"), text_string(&change));
    text_free(&change);
}

void results_findings(const struct result_job *r, struct text *out)
{
    for (size_t i = 0; i < r->outcome->n_lines; i++) {
        const struct finding_line *line = &r->outcome->lines[i];
        text_printf(out, "%s: %s: ", r->job->number.s, words_get(line->verdict == VERDICT_FAIL ? "verdict.fail" : "verdict.caution"));
        add_saying(out, &line->what, r->job->units);
        if (line->remedy.key)
            add_remedy(out, &line->remedy, r->job->units, r->job->file_units);
        text_add_char(out, '\n');
    }
}

void results_job_line(const struct result_job *r, struct date today, struct text *out)
{
    text_printf(out, "%s: ", r->job->number.s ? r->job->number.s : r->file);
    if (!r->outcome) {
        text_printf(out, "not read: %zu error%s", diags_count_errors(r->diags), diags_count_errors(r->diags) == 1 ? "" : "s");
        return;
    }
    text_add(out, words_get(outcome_state_key(outcome_state_on(r->outcome, today))));
    struct text reason = {0};
    add_reason(&reason, r, today);
    if (reason.size)
        text_printf(out, ": %s", text_string(&reason));
    text_free(&reason);
    if (r->sheet_file)
        text_printf(out, "; %s, %d page%s", r->sheet_file, r->pages, r->pages == 1 ? "" : "s");
}
