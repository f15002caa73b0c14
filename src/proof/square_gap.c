/* The square on the sawn edge. What it finds is the fence's error and the square's own, and no reading tells the two
   apart: below the square's grade it decides nothing. */
#include "proof/square_gap_sums.h"

#include "proof/budget.h"
#include "proof/five_cut.h"
#include "proof/five_cut_sums.h"
#include "proof/methods.h"
#include "proof/reading_table.h"
#include "proof/turning.h"
#include "proof/verdict.h"

#include <math.h>

/* DIN 875-1 has the grades 00, 0, 1, 2. */
static const char *budget_key(const char *grade)
{
    int class = job_tool_class(grade);

    if (!grade)
        return "square_gap.budget.unknown";
    return class >= -1 && class <= 2 ? "square_gap.budget.square" : "square_gap.budget.odd";
}

static void write_budget(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct square_gap_sum *sum = &t->as.square_gap;
    const char *grade = test->as.square_gap.grade.s;
    struct saying square =
        SAYING(budget_key(grade), SAY_STR("grade", grade), SAY_ARG("limit", SAY_UNSIGNED, sum->square_limit),
               SAY_ARG("length", SAY_SIZE, sum->length));
    budget_begin(p->pool, t);
    budget_add_gap(t, &sum->gap, test->instrument, 1 / sum->length);
    budget_add_limit(t, square, sum->square_limit, 1 / sum->length);
    budget_add_limit(t,
                     SAYING("budget.length", SAY_ARG("length", SAY_SIZE, sum->length),
                            SAY_ARG("within", SAY_LIMIT, LENGTH_HALF_WIDTH)),
                     LENGTH_HALF_WIDTH, t->error / sum->length);
}

/* What the square leaves open even where no light shows: about 95 % of its rectangular limits' normal equivalent, as k
   = 2 takes it. */
static double least_uncertainty(const struct square_gap_sum *sum)
{
    return 1.96 * sum->square_limit / sqrt(3) / sum->length;
}

static void say_what_it_cannot_decide(struct proof_test *t)
{
    double least = least_uncertainty(&t->as.square_gap) * t->over_length, limit = t->tolerance * t->over_length;
    t->remarks[0] = SAYING("square_gap.own_error", SAY_ARG("least", SAY_UNCERTAINTY, least),
                           SAY_ARG("over", SAY_SIZE, t->over_length));
    if (least >= limit)
        t->remarks[1] = SAYING("square_gap.never_within", SAY_ARG("limit", SAY_LIMIT, limit));
}

static void advise(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct square_gap_readings *r = &test->as.square_gap;
    const struct job_instrument *set = five_cut_leaf_set(p->job);
    enum side moving_end;
    t->has_move = turning_find_pivot(p->setting, &r->pivot_to_moving, r->moving_end_given, r->moving_end,
                                     &t->as.square_gap.pivot_to_moving, &moving_end);
    if (!t->has_move)
        return;
    turning_advise(t, t->as.square_gap.pivot_to_moving, moving_end, set, &t->move);
    advice_choose(t, set ? set->leaves[0] : 0, &t->move);
}

static void square_gap_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct square_gap_readings *r = &test->as.square_gap;
    struct square_gap_sum *sum = &t->as.square_gap;
    sum->length = r->length.v;
    sum->sign = r->end_given ? square_gap_sign(p->setting->fence_side, r->offcut, r->end) : 0;
    sum->gap = r->end_given ? gap_read(r->gap.v, test->instrument) : gap_closed(test->instrument);
    sum->square_limit = instrument_square_limit(r->grade.s, sum->length);
    t->error = sum->sign * sum->gap.value / sum->length;
    proof_limit_angle(t, &p->job->tolerances.squareness);
    write_budget(p, test, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    say_what_it_cannot_decide(t);
    advise(p, test, t);
}

static double square_gap_after_move(const struct proof_test *t, double error, const struct job_moved *moved)
{
    double d = t->as.square_gap.pivot_to_moving;
    if (!(d > 0) || !moved->distance.given)
        return NAN;
    return turning_error_after(error, d, moved->end, moved->toward, moved->distance.v);
}

/* For the length of the last test; moves where it is known what turns. */
static bool square_gap_reckon(const struct proving *p, const struct proof_test *latest, struct reading_table *out)
{
    (void)p;
    if (!latest)
        return false;
    out->at = latest->as.square_gap.length;
    out->over = latest->has_move ? latest->as.square_gap.pivot_to_moving : 0;
    out->error_per_mm = 1 / out->at;
    out->factor = out->error_per_mm * out->over;
    out->last = latest->job->as.square_gap.gap.v;
    out->reads_gap = true;
    return true;
}

static void square_gap_read(double at, const double *read, struct job_test *out)
{
    out->as.square_gap.length.v = at;
    out->as.square_gap.gap.v = *read;
    out->as.square_gap.end_given = true;
}

const struct method_row square_gap_method = {.prove = square_gap_prove,
                                             .after_move = square_gap_after_move,
                                             .reckon = square_gap_reckon,
                                             .read = square_gap_read,
                                             .is_of_fence = true};
