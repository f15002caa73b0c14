/* A runner's play as a method: whether it binds or rattles anywhere on its way, and how far the sled can yaw by it. */
#include "proof/budget.h"
#include "proof/methods.h"
#include "proof/side_play_sums.h"
#include "proof/verdict.h"

#include <math.h>

/* What the plan works out, as it is printed and as a rule reads: to 0.1 mm or 0.01 in. */
static double read_by_rule(double mm, enum units units)
{
    double step = units == UNITS_IN ? 0.01 * MM_PER_INCH : 0.1;
    return round(mm / step) * step;
}

static void sum_up(const struct proving *p, const struct job_test *test, struct side_play_sum *sum)
{
    const struct side_play_readings *r = &test->as.side_play;
    struct gap *plays = pool_alloc(p->pool, r->plays.n * sizeof *plays);
    double *values = pool_alloc(p->pool, r->plays.n * sizeof *values);
    *sum = (struct side_play_sum){.plays = plays, .n = r->plays.n, .least = INFINITY, .most = -INFINITY};
    for (size_t i = 0; i < r->plays.n; i++) {
        plays[i] = gap_read(r->plays.v[i], test->instrument);
        values[i] = plays[i].value;
        sum->least = fmin(sum->least, values[i]);
        sum->most = fmax(sum->most, values[i]);
    }
    sum->low = p->job->tolerances.side_play_low.v;
    sum->high = p->job->tolerances.side_play_high.v;
    sum->worst = side_play_worst(values, r->plays.n, sum->low, sum->high);
    sum->engaged = r->engaged.given ? r->engaged.v : read_by_rule(p->setting->engaged_length, p->job->units);
    sum->yaw = sum->engaged > 0 ? side_play_yaw(sum->most, sum->engaged) : NAN;
}

static void write_budget(const struct proving *p, const struct side_play_sum *sum, struct proof_test *t)
{
    budget_begin(p->pool, t);
    budget_add_gap(t, &sum->plays[sum->worst], t->job->instrument, 1);
}

static void add_yaw(const struct proving *p, struct proof_test *t)
{
    const struct side_play_sum *sum = &t->as.side_play;
    const struct job_limit *squareness = &p->job->tolerances.squareness;
    if (isnan(sum->yaw))
        return;
    proof_add_figure(t,
                     (struct proof_figure){.id = "yaw",
                                           .what = SAYING("side_play.yaw", SAY_ARG("engaged", SAY_SIZE, sum->engaged),
                                                          SAY_ARG("over", SAY_SIZE, squareness->over.v)),
                                           .unit = "mm",
                                           .kind = SAY_UNSIGNED,
                                           .value = sum->yaw * squareness->over.v,
                                           .expanded_uncertainty = NAN,
                                           .limit = NAN});
}

/* No width of runner fits then. */
static bool is_uneven(const struct side_play_sum *sum)
{
    return sum->most - sum->least > sum->high - sum->low;
}

/* The width that puts least and most play equally far inside the limits. */
static void advise(struct proof_test *t)
{
    const struct side_play_sum *sum = &t->as.side_play;
    double more = (sum->low + sum->high) / 2 - (sum->least + sum->most) / 2;
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = fabs(more);
    m->uncertainty = t->expanded_uncertainty;
    m->what = is_uneven(sum) ? SAYING("side_play.uneven", SAY_ARG("differ", SAY_FIT, sum->most - sum->least))
                             : SAYING(more > 0 ? "side_play.plane" : "side_play.pad", SAY_ARG("move", SAY_FIT, m->distance),
                     SAY_ARG("place", SAY_COUNT, (double)sum->worst + 1));
    m->expected_error = (more > 0 ? -1 : 1) * (sum->most - sum->least) / 2;
    advice_choose(t, 0, m);
}

/* What the advised change leaves may be no more decided than what was found. */
static void say_what_is_left(struct proof_test *t)
{
    const struct side_play_sum *sum = &t->as.side_play;
    double middle = (sum->low + sum->high) / 2, left = (sum->most - sum->least) / 2;
    if (t->move.advice == ADVICE_MOVE && !is_uneven(sum) && left + t->expanded_uncertainty > t->tolerance)
        t->remarks[0] = SAYING("side_play.still_undecided", SAY_ARG("least", SAY_LIMIT, middle - left),
                               SAY_ARG("most", SAY_LIMIT, middle + left));
}

static void side_play_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    struct side_play_sum *sum = &t->as.side_play;
    sum_up(p, test, sum);
    t->error = sum->plays[sum->worst].value - (sum->low + sum->high) / 2;
    proof_limit_length(t, &p->job->tolerances.side_play_low);
    t->tolerance = (sum->high - sum->low) / 2;
    t->tolerance_is_default = !p->job->tolerances.side_play_low.given && !p->job->tolerances.side_play_high.given;
    write_budget(p, sum, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    add_yaw(p, t);
    advise(t);
    say_what_is_left(t);
}

const struct method_row side_play_method = {.prove = side_play_prove};
