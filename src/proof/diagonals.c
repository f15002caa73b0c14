/* Two diagonals as a method: how far a panel is from square, and whether a rule can tell. */
#include "proof/budget.h"
#include "proof/diagonals_sums.h"
#include "proof/five_cut_sums.h"
#include "proof/methods.h"
#include "proof/statistics.h"
#include "proof/verdict.h"

#include <math.h>

static double differ(const struct readings *r)
{
    return r->n == 2 ? r->v[1] - r->v[0] : NAN;
}

static void sum_up(const struct diagonals_readings *r, const struct job_instrument *i, double tolerance,
                   struct diagonals_sum *sum)
{
    struct tool tool = instrument_tool(i, fmax(r->d1.v, r->d2.v));
    sum->width = stat_mean(r->width.v, r->width.n);
    sum->depth = stat_mean(r->depth.v, r->depth.n);
    sum->d1 = r->d1.v;
    sum->d2 = r->d2.v;
    sum->half_width = tool.resolution / 2;
    sum->error_limit = tool.error_limit;
    sum->widths_differ = differ(&r->width);
    sum->depths_differ = differ(&r->depth);
    double step = 2 * sum->half_width;
    sum->disagree = diagonals_disagree(sum->widths_differ, step, sum->depth, tolerance) ||
                    diagonals_disagree(sum->depths_differ, step, sum->width, tolerance);
}

/* Two like lengths are compared, so that only a share of the tool's limit counts; the sides only scale the error. What
   stands first would be left on a panel that is square. */
enum { LEAST_LINES = 2 };
static void write_budget(const struct proving *p, const struct diagonals_sum *sum, struct proof_test *t)
{
    double each_mm = diagonals_sensitivity(sum->width, sum->depth, sum->d1, sum->d2);
    double side = hypot(sum->half_width, sum->error_limit);
    struct tool tool = instrument_tool(t->job->instrument, fmax(sum->d1, sum->d2));
    budget_begin(p->pool, t);
    budget_add_limit(t, SAYING("diagonals.budget.reading", SAY_ARG("step", SAY_LIMIT, 2 * sum->half_width)),
                     sum->half_width, sqrt(2) * each_mm);
    budget_add_tool(t, &tool, DIFFERENCE_SHARE, each_mm);
    budget_add_limit(t, SAYING("diagonals.budget.sides", SAY_ARG("limit", SAY_LIMIT, side)), side,
                     t->error * hypot(1 / sum->width, 1 / sum->depth));
}

static double least_u(const struct proof_test *t)
{
    struct stat_term terms[LEAST_LINES];
    for (int i = 0; i < LEAST_LINES; i++)
        terms[i] = (struct stat_term){t->lines[i].u, t->lines[i].dof};
    return stat_expand(terms, LEAST_LINES, CONFIDENCE).expanded;
}

/* The longer diagonal gives way by half of what it is longer, the shorter grows by as much. */
static void advise(struct proof_test *t)
{
    const struct diagonals_sum *sum = &t->as.diagonals;
    double each_mm = diagonals_sensitivity(sum->width, sum->depth, sum->d1, sum->d2);
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = fabs(sum->d2 - sum->d1) / 2;
    m->uncertainty = t->expanded_uncertainty / each_mm / 2;
    m->what = SAYING(t->error > 0 ? "diagonals.push_2" : "diagonals.push_1", SAY_ARG("move", SAY_FIT, m->distance),
                     SAY_ARG("then", SAY_FIT, (sum->d1 + sum->d2) / 2));
    m->expected_error = 0;
    advice_choose(t, 0, m);
}

static void say_what_it_cannot(struct proof_test *t)
{
    const struct diagonals_sum *sum = &t->as.diagonals;
    double each_mm = diagonals_sensitivity(sum->width, sum->depth, sum->d1, sum->d2);
    int n = 0;
    if (sum->least_u > t->tolerance)
        t->remarks[n++] = SAYING("diagonals.never", SAY_ARG("u", SAY_UNCERTAINTY, sum->least_u / each_mm),
                                 SAY_ARG("differ", SAY_LIMIT, t->tolerance / each_mm));
    if (isnan(sum->widths_differ) || isnan(sum->depths_differ))
        t->remarks[n++] = SAYING_PLAIN("diagonals.sides_not_checked");
}

/* Sides that disagree: whatever the diagonals say, nothing is proven, and nothing is to be moved by them. */
static void void_it(struct proof_test *t)
{
    const struct diagonals_sum *sum = &t->as.diagonals;
    bool widths = diagonals_disagree(sum->widths_differ, 2 * sum->half_width, sum->depth, t->tolerance);
    t->finding = FINDING_UNDECIDED;
    t->largest_line = (struct saying){0};
    t->decide = widths ? SAYING("diagonals.widths", SAY_ARG("differ", SAY_LIMIT, fabs(sum->widths_differ)))
                       : SAYING("diagonals.depths", SAY_ARG("differ", SAY_LIMIT, fabs(sum->depths_differ)));
}

static void diagonals_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    struct diagonals_sum *sum = &t->as.diagonals;
    proof_limit_angle(t, &p->job->tolerances.squareness);
    sum_up(&test->as.diagonals, test->instrument, t->tolerance, sum);
    t->error = diagonals_error(sum->width, sum->depth, sum->d1, sum->d2);
    write_budget(p, sum, t);
    sum->least_u = least_u(t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    say_what_it_cannot(t);
    if (sum->disagree)
        void_it(t);
    else
        advise(t);
}

const struct method_row diagonals_method = {.prove = diagonals_prove};
