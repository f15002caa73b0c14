/* The state of a jig: the first row of the contract's table that holds. */
#include "outcome.h"

#include "outcome/checks.h"

#include <stdlib.h>

static const struct state_row {
    const char *id, *key;
    int exit_status;
} state_rows[] = {
    [STATE_DO_NOT_USE] = {"do-not-use", "state.do-not-use", 1},
    [STATE_NOT_PROVEN] = {"not-proven", "state.not-proven", 1},
    [STATE_NOT_TESTED] = {"not-tested", "state.not-tested", 0},
    [STATE_FIT] = {"fit", "state.fit", 0},
};

/* A sled must be proven square: one of these methods must have a test that counts. They prove the same, so a newer test
   of one replaces a stale one of the other. */
static const bool needed_for_sleds[METHODS] = {[METHOD_FIVE_CUT] = true, [METHOD_SQUARE_GAP] = true};

struct line_list {
    struct finding_line *lines;
    size_t n, capacity;
};

static void add_line(struct line_list *list, struct finding_line line)
{
    list->lines = mem_grow(list->lines, list->n, &list->capacity, sizeof *list->lines);
    list->lines[list->n++] = line;
}

static const char *print_date(struct pool *pool, struct date d)
{
    char s[11];
    date_print(d, s);
    return pool_string(pool, s);
}

static const char *method_key(struct pool *pool, enum method m)
{
    return pool_printf(pool, "method.%s", job_method_name(m));
}

static struct saying say_undecided_remedy(const struct proof_test *t)
{
    if (t->further_strips >= 1)
        return SAYING("outcome.test_undecided.remedy", SAY_ARG("n", SAY_COUNT_WORD, t->further_strips),
                      SAY_KEY("strips", t->further_strips == 1 ? "outcome.strip" : "outcome.strips"));
    return t->further_strips == 0 ? SAYING_PLAIN("outcome.test_undecided.remedy_none") : t->decide;
}

bool outcome_is_replaced(const struct proof *proof, const struct proof_test *t)
{
    for (int m = 0; t->stale && needed_for_sleds[t->method] && m < METHODS; m++) {
        const struct proof_test *other = needed_for_sleds[m] ? proof_latest(proof, (enum method)m) : NULL;
        if (other && !other->stale && date_compare(other->job->date, t->job->date) >= 0)
            return true;
    }
    return false;
}

/* Of a sled squareness alone decides; of a saw or of another jig all that its job has tests of is what it stands for. */
static bool is_needed(const struct plan *plan, enum method m)
{
    return !plan->has_sled || needed_for_sleds[m];
}

static bool is_open(const struct proof_test *t)
{
    return t->stale || t->finding != FINDING_WITHIN;
}

/* What the last test of a method says against the jig; false: nothing. */
static bool judge_test(struct pool *pool, const struct plan *plan, const struct proof_test *t,
                       struct finding_line *out)
{
    struct saying plain = SAYING("", SAY_KEY("method", method_key(pool, t->method)), SAY_STR("date", print_date(pool, t->job->date)));
    *out = (struct finding_line){.verdict = VERDICT_CAUTION, .what = plain};
    if (t->stale) {
        out->what = t->stale_reason;
        out->remedy = SAYING_PLAIN("outcome.test_stale.remedy");
        return true;
    }
    switch (t->finding) {
    case FINDING_WITHIN:
        return false;
    case FINDING_OUTSIDE:
        out->verdict = is_needed(plan, t->method) ? VERDICT_FAIL : VERDICT_CAUTION;
        out->what.key = "outcome.test_outside";
        out->remedy = SAYING_PLAIN("outcome.test_outside.remedy");
        return true;
    case FINDING_UNDECIDED:
        out->what.key = "outcome.test_undecided";
        out->remedy = say_undecided_remedy(t);
        return true;
    }
    return false;
}

static void add_checks(struct line_list *list, const struct outcome *o, enum verdict verdict, bool hurts)
{
    for (size_t i = 0; i < o->n_checks; i++) {
        const struct plan_check *c = &o->checks[i];
        if (c->verdict == verdict && c->hurts == hurts)
            add_line(list, (struct finding_line){verdict, hurts, c->why, c->remedy, c->brief});
    }
}

/* Worst first: failures that hurt, other failures, tests outside, tests undecided or stale, cautions. */
static void list_findings(const struct plan *plan, const struct proof *proof, struct outcome *out, struct line_list *list)
{
    add_checks(list, out, VERDICT_FAIL, true);
    add_checks(list, out, VERDICT_FAIL, false);
    for (int pass = VERDICT_FAIL; pass >= VERDICT_CAUTION; pass--)
        for (int m = 0; m < METHODS; m++) {
            const struct proof_test *t = proof_latest(proof, (enum method)m);
            struct finding_line line;
            if (!t || outcome_is_replaced(proof, t) || !judge_test(&out->pool, plan, t, &line) ||
                (int)line.verdict != pass)
                continue;
            add_line(list, line);
            out->open = out->open ? out->open : t;
        }
    if (out->deciding && is_open(out->deciding) &&
        (out->deciding->finding == FINDING_OUTSIDE || out->open->finding != FINDING_OUTSIDE))
        out->open = out->deciding;
    for (size_t i = 0; i < list->n; i++)
        out->n_failed += list->lines[i].verdict == VERDICT_FAIL;
    add_checks(list, out, VERDICT_CAUTION, true);
    add_checks(list, out, VERDICT_CAUTION, false);
}

/* Of two tests of squareness: one that is not replaced, else the one that speaks against use, else the surer. */
static bool tells_more(const struct proof *proof, const struct proof_test *a, const struct proof_test *b)
{
    bool a_replaced = outcome_is_replaced(proof, a), b_replaced = outcome_is_replaced(proof, b);
    if (a_replaced != b_replaced)
        return b_replaced;
    if (is_open(a) != is_open(b))
        return is_open(a);
    return a->expanded_uncertainty < b->expanded_uncertainty;
}

static const struct proof_test *find_deciding(const struct proof *proof)
{
    const struct proof_test *found = NULL;
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *t = needed_for_sleds[m] ? proof_latest(proof, (enum method)m) : NULL;
        if (t && (!found || tells_more(proof, t, found)))
            found = t;
    }
    return found;
}

static bool some_latest_is_open(const struct proof *proof)
{
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *t = proof_latest(proof, (enum method)m);
        if (t && !outcome_is_replaced(proof, t) && (t->stale || t->finding == FINDING_UNDECIDED))
            return true;
    }
    return false;
}

/* A sled that nothing proves square, or a saw on its own without a test that counts. Of a list of parts nothing is asked. */
static bool lacks_its_test(const struct plan *plan, const struct proof *proof, const struct outcome *o)
{
    for (int m = 0; !plan->has_sled && m < METHODS; m++)
        if (proof_latest(proof, (enum method)m))
            return false;
    return plan->has_sled ? !o->deciding : plan->n_parts == 0;
}

static enum state find_state(const struct plan *plan, const struct proof *proof, const struct outcome *o)
{
    if (o->n_failed > 0)
        return STATE_DO_NOT_USE;
    if (some_latest_is_open(proof))
        return STATE_NOT_PROVEN;
    if (lacks_its_test(plan, proof, o))
        return STATE_NOT_TESTED;
    return STATE_FIT;
}

static struct date earlier(struct date a, struct date b)
{
    if (!date_is_set(a))
        return b;
    return date_is_set(b) && date_compare(b, a) < 0 ? b : a;
}

/* The earliest day on which a proof that counts runs out. */
static void find_due(const struct proof *proof, struct outcome *o)
{
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *t = proof_latest(proof, (enum method)m);
        if (!t || t->stale)
            continue;
        struct date drift = proof->history[m].drift_due, before = o->due;
        o->due = earlier(earlier(o->due, t->due), drift);
        if (date_is_set(o->due) && !(date_is_set(before) && date_compare(before, o->due) == 0))
            o->due_is_drift = date_is_set(drift) && date_compare(drift, o->due) == 0;
    }
}

void outcome_build(const struct plan *plan, const struct cutting *cutting, const struct proof *proof,
                   struct outcome *out)
{
    *out = (struct outcome){0};
    struct line_list list = {0};
    outcome_list_checks(plan, cutting, out);
    out->deciding = find_deciding(proof);
    list_findings(plan, proof, out, &list);
    out->lines = pool_copy(&out->pool, list.lines, list.n * sizeof *list.lines);
    out->n_lines = list.n;
    free(list.lines);
    out->state = find_state(plan, proof, out);
    find_due(proof, out);
}

void outcome_free(struct outcome *o)
{
    if (o)
        pool_free(&o->pool);
}

bool outcome_is_overdue(const struct outcome *o, struct date today)
{
    return date_is_set(o->due) && date_compare(today, o->due) > 0;
}

enum state outcome_state_on(const struct outcome *o, struct date today)
{
    return o->state == STATE_FIT && outcome_is_overdue(o, today) ? STATE_NOT_PROVEN : o->state;
}

int outcome_exit_status(enum state s)
{
    return state_rows[s].exit_status;
}

const char *outcome_state_id(enum state s)
{
    return state_rows[s].id;
}

const char *outcome_state_key(enum state s)
{
    return state_rows[s].key;
}
