/* The checks of a sled: their severity, what they share, and all of them one after the other. */
#include "plan/checking.h"

#include "plan/stock_fit.h"

#include <math.h>

/* What a value past its limits is called, and whether that can hurt someone. */
static const struct severity {
    enum verdict verdict;
    bool hurts;
} severities[CHECKS] = {
    [CHECK_THICKNESS_CAPACITY] = {VERDICT_FAIL, false},
    [CHECK_TRAVEL_STOP] = {VERDICT_FAIL, true},
    [CHECK_EXIT_GUARD_DEPTH] = {VERDICT_FAIL, true},
    [CHECK_EXIT_GUARD_HEIGHT] = {VERDICT_FAIL, true},
    [CHECK_FENCE_BRIDGE] = {VERDICT_FAIL, true},
    [CHECK_FENCE_BENDING] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY_DRIEST] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY_DAMPEST] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PAIR_PLAY] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_WIDTH_TO_PLANE] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_YAW] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_HEIGHT] = {VERDICT_FAIL, false},
    [CHECK_RUNNER_ENGAGED] = {VERDICT_FAIL, false},
    [CHECK_TIPPING_NEAR] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_FAR] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_SIDE] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_PARKED] = {VERDICT_CAUTION, false},
    [CHECK_WIDEST_WORK] = {VERDICT_FAIL, false},
    [CHECK_RIVING_KNIFE] = {VERDICT_FAIL, true},
    [CHECK_FIVE_CUT_STRIP] = {VERDICT_CAUTION, false},
};

static const struct check_words {
    const char *why;
    enum say_kind kind;
} check_words[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = {"check." name ".why", say},
#include "plan/checks.inc"
#undef CHECK
};

/* ---- helpers ---- */

bool check_below(double value, double low)
{
    return value < low - 1e-9; /* false where either is NAN */
}

bool check_above(double value, double high)
{
    return value > high + 1e-9;
}

void check_say_why(struct plan_check *c, const char *key)
{
    enum say_kind kind = check_words[c->id].kind;

    c->why =
        SAYING(key, SAY_ARG("value", kind, c->value), SAY_ARG("low", kind, c->low), SAY_ARG("high", kind, c->high));
}

/* One more number for the sentence. */
void check_say_also(struct plan_check *c, const char *name, enum say_kind kind, double number)
{
    for (int i = 0; i < SAY_MOST_ARGS; i++)
        if (!c->why.arg[i].name) {
            c->why.arg[i] = (struct say_arg)SAY_ARG(name, kind, number);
            return;
        }
}

void check_verdict_is(struct plan_check *c, enum verdict verdict)
{
    c->verdict = verdict;
    c->hurts = verdict == VERDICT_FAIL && severities[c->id].hurts;
}

struct plan_check *check_measure(struct checking *k, enum check_id id, double value, double low, double high)
{
    struct plan_check *c = build_add_check(k->b, id);

    c->value = value;
    c->low = low;
    c->high = high;
    c->mark = k->job->jig.mark;
    check_verdict_is(c, check_below(value, low) || check_above(value, high) ? severities[id].verdict : VERDICT_PASS);
    check_say_why(c, check_words[id].why);
    return c;
}

void check_mark_at(struct plan_check *c, const struct num *n)
{
    if (n->given)
        c->mark = n->mark;
}

void check_leave_out(struct checking *k, const char *key)
{
    build_add_assumed(k->b, SAYING_PLAIN(key));
}

/* ---- strip, stock ---- */

static double least_reading(const struct five_cut_readings *f)
{
    double least = INFINITY;

    for (size_t i = 0; i < f->n_strips; i++) {
        const struct readings *ends[] = {&f->strips[i].fence_end, &f->strips[i].far_end};
        for (size_t e = 0; e < 2; e++)
            for (size_t m = 0; m < ends[e]->n; m++)
                least = fmin(least, ends[e]->v[m]);
    }
    return least;
}

static void check_five_cut_strip(struct checking *k)
{
    const struct job_test *last = NULL;
    struct plan_check *c;

    for (size_t i = 0; i < k->job->n_tests; i++)
        if (k->job->tests[i].method == METHOD_FIVE_CUT && k->job->tests[i].as.five_cut.n_strips > 0)
            last = &k->job->tests[i];
    if (!last) {
        check_leave_out(k, "assumed.no_strip");
        return;
    }
    c = check_measure(k, CHECK_FIVE_CUT_STRIP, least_reading(&last->as.five_cut), SLED_STRIP_LEAST, NAN);
    c->mark = last->mark;
    if (c->verdict != VERDICT_PASS)
        c->remedy = SAYING("check.five_cut_strip.remedy", SAY_ARG("low", SAY_FIT, SLED_STRIP_LEAST));
}

static void check_stock_fits(struct checking *k)
{
    stock_check_fits(k->b);
}

/* screw_free_strip and screw_length are made where the screws are placed. */
static void (*const checks[CHECKS])(struct checking *) = {
    [CHECK_THICKNESS_CAPACITY] = check_thickness_capacity,
    [CHECK_TRAVEL_STOP] = check_travel_stop,
    [CHECK_EXIT_GUARD_DEPTH] = check_exit_guard_depth,
    [CHECK_EXIT_GUARD_HEIGHT] = check_exit_guard_height,
    [CHECK_FENCE_BRIDGE] = check_fence_bridge,
    [CHECK_FENCE_BENDING] = check_fence_bending,
    [CHECK_RUNNER_PLAY] = check_runner_play,
    [CHECK_RUNNER_PLAY_DRIEST] = check_runner_play_driest,
    [CHECK_RUNNER_PLAY_DAMPEST] = check_runner_play_dampest,
    [CHECK_RUNNER_PAIR_PLAY] = check_runner_pair_play,
    [CHECK_RUNNER_WIDTH_TO_PLANE] = check_runner_width_to_plane,
    [CHECK_RUNNER_YAW] = check_runner_yaw,
    [CHECK_RUNNER_HEIGHT] = check_runner_height,
    [CHECK_RUNNER_ENGAGED] = check_runner_engaged,
    [CHECK_TIPPING_NEAR] = check_tipping_near,
    [CHECK_TIPPING_FAR] = check_tipping_far,
    [CHECK_TIPPING_SIDE] = check_tipping_side,
    [CHECK_TIPPING_PARKED] = check_tipping_parked,
    [CHECK_WIDEST_WORK] = check_widest_work,
    [CHECK_RIVING_KNIFE] = check_riving_knife,
    [CHECK_FIVE_CUT_STRIP] = check_five_cut_strip,
    [CHECK_STOCK_FITS] = check_stock_fits,
};

/* In the order of checks.inc, whoever made them; each id at most once. */
static void sort_checks(struct plan *p)
{
    for (size_t i = 1; i < p->n_checks; i++) {
        struct plan_check c = p->checks[i];
        size_t at = i;
        for (; at > 0 && p->checks[at - 1].id > c.id; at--)
            p->checks[at] = p->checks[at - 1];
        p->checks[at] = c;
    }
}

void sled_check(struct plan_builder *b)
{
    struct checking k = {
        .b = b, .job = b->job, .wish = &b->job->jig.as.sled, .s = &b->plan->sled, .stocks = sled_choose_stocks(b->job)};

    k.wood = sled_runner_wood(b->job, k.stocks.runner);
    k.travel = sled_travel_sizes(b->job, k.s);
    for (int id = 0; id < CHECKS; id++)
        if (checks[id])
            checks[id](&k);
    sort_checks(b->plan);
}
