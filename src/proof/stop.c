/* A stop: what the pieces came out as against what its scale was set to. The mean error is put right by a shift; what
   goes with the setting is not. */
#include "proof/stop_sums.h"

#include "proof/budget.h"
#include "proof/methods.h"
#include "proof/verdict.h"

#include <math.h>

/* Judgement of this program, printed in the budget. */
#define SETTING_HALF_WIDTH 0.25 /* how well one setting is read off the scale [mm] */
enum { SLOPE_PAIRS = 3, FURTHER_MOST = 20 };

struct pairs {
    double *set, *error;
    size_t n;
    struct stat_line line;
};

static struct pairs split_pairs(const struct stop_readings *r, struct pool *pool)
{
    struct pairs p = {.n = r->n_pairs};
    p.set = pool_alloc(pool, p.n * sizeof *p.set);
    p.error = pool_alloc(pool, p.n * sizeof *p.error);
    for (size_t i = 0; i < r->n_pairs; i++) {
        p.set[i] = r->pairs[i].first;
        p.error[i] = r->pairs[i].second - r->pairs[i].first;
    }
    return p;
}

static void find_extremes(const struct pairs *p, struct stop_sum *sum)
{
    sum->shortest = sum->longest = p->set[0];
    for (size_t i = 1; i < p->n; i++) {
        sum->shortest = fmin(sum->shortest, p->set[i]);
        sum->longest = fmax(sum->longest, p->set[i]);
    }
}

static void sum_up(struct pairs *p, struct stop_sum *sum)
{
    sum->n = p->n;
    sum->mean_set = stat_mean(p->set, p->n);
    sum->mean_error = stat_mean(p->error, p->n);
    sum->scatter = stat_deviation(p->error, p->n);
    find_extremes(p, sum);
    for (size_t i = 0; i < p->n; i++) {
        sum->sum_products += (p->set[i] - sum->mean_set) * p->error[i];
        sum->sum_squares += (p->set[i] - sum->mean_set) * (p->set[i] - sum->mean_set);
    }
    sum->has_slope = p->n >= SLOPE_PAIRS && sum->longest > sum->shortest;
    if (!sum->has_slope)
        return;
    p->line = stat_fit_line(p->set, p->error, p->n);
    sum->slope = p->line.slope;
    sum->scatter = p->line.residual;
}

/* ---- budget ---- */

static size_t lost_dof(const struct stop_sum *sum)
{
    return sum->has_slope ? 2 : 1;
}

/* Scatter from piece to piece holds setting and reading as well; one pair shows none. */
static void add_scatter_lines(const struct stop_sum *sum, double step, struct proof_test *t)
{
    double n = (double)sum->n;
    if (sum->n > 1 && sum->scatter / sqrt(n) > step / sqrt(12)) {
        budget_add_mean(t, SAYING("stop.budget.pairs", SAY_ARG("n", SAY_COUNT_WORD, n)), sum->scatter, (int)sum->n,
                        n - (double)lost_dof(sum), 1);
        return;
    }
    budget_add_limit(t, SAYING("stop.budget.step", SAY_ARG("step", SAY_LIMIT, step)), step / 2, 1);
    if (sum->n == 1)
        budget_add_limit(t, SAYING("stop.budget.setting", SAY_ARG("within", SAY_LIMIT, SETTING_HALF_WIDTH)),
                         SETTING_HALF_WIDTH, 1);
}

static void write_budget(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct stop_sum *sum = &t->as.stop;
    struct tool tool = instrument_tool(test->instrument, sum->longest + sum->mean_error);
    budget_begin(p->pool, t);
    add_scatter_lines(sum, tool.resolution, t);
    budget_add_tool(t, &tool, 1, 1);
    if (sum->n == 1 && !isnan(sum->spread))
        budget_add_mean(t, SAYING_PLAIN("stop.budget.repeats"), sum->spread, 1, (double)test->as.stop.repeats.n - 1, 1);
}

/* ---- further results ---- */

static void add_length_figure(struct proof_test *t, const char *id, struct saying what, enum say_kind kind,
                              double value, double expanded)
{
    proof_add_figure(t, (struct proof_figure){.id = id,
                                              .what = what,
                                              .unit = "mm",
                                              .kind = kind,
                                              .value = value,
                                              .expanded_uncertainty = expanded,
                                              .limit = NAN});
}

/* The tool stretches or shrinks over its length by at most its limit: sqrt(2) E / sqrt(3) between two lengths. */
static struct stat_budget slope_budget(const struct pairs *p, const struct stop_sum *sum, double error_limit)
{
    const struct stat_term terms[] = {{p->line.u_slope, p->line.dof},
                                      {error_limit * sqrt(2.0 / 3) / (sum->longest - sum->shortest), INFINITY}};
    return stat_expand(terms, 2, CONFIDENCE);
}

/* b and what a shift leaves of it at both ends. */
static void add_slope(const struct pairs *p, double error_limit, struct proof_test *t)
{
    const struct stop_sum *sum = &t->as.stop;
    double thousand = 1000, expanded = slope_budget(p, sum, error_limit).expanded;
    double low = sum->shortest - sum->mean_set, high = sum->longest - sum->mean_set;
    double most = fmax(fabs(sum->slope * low), fabs(sum->slope * high));
    proof_add_figure(t, (struct proof_figure){.id = "slope",
                                              .what = SAYING_PLAIN("stop.slope"),
                                              .unit = "1",
                                              .kind = SAY_GROWTH,
                                              .value = sum->slope * thousand,
                                              .expanded_uncertainty = expanded * thousand,
                                              .limit = NAN});
    add_length_figure(t, "left_at_shortest", SAYING("stop.left", SAY_ARG("set", SAY_SIZE, sum->shortest)), SAY_ERROR,
                      sum->slope * low, expanded * fabs(low));
    add_length_figure(t, "left_at_longest", SAYING("stop.left", SAY_ARG("set", SAY_SIZE, sum->longest)), SAY_ERROR,
                      sum->slope * high, expanded * fabs(high));
    t->remarks[0] = SAYING(most > t->tolerance ? "stop.not_by_shift" : "stop.shift_enough",
                           SAY_ARG("most", SAY_UNSIGNED, most), SAY_ARG("limit", SAY_LIMIT, t->tolerance));
}

/* Length of a piece from a setting: line, scatter of one piece, tool. */
static void add_forecast(const struct pairs *p, const struct tool *tool, double set, struct proof_test *t)
{
    struct stop_forecast f = stop_foretell(&p->line, p->n, set);
    const struct stat_term terms[] = {{f.u_single, p->line.dof}, {tool->error_limit / sqrt(3), INFINITY}};
    add_length_figure(t, "foretold", SAYING("stop.foretold", SAY_ARG("set", SAY_SIZE, set)), SAY_MOVE, set + f.value,
                      stat_expand(terms, 2, CONFIDENCE).expanded);
}

static void add_forecasts(const struct pairs *p, const struct stop_readings *r, const struct tool *tool,
                          struct proof_test *t)
{
    const double ends[] = {t->as.stop.shortest, t->as.stop.longest};
    const double *sets = r->predict.n ? r->predict.v : ends;
    size_t n = r->predict.n ? r->predict.n : 2;
    for (size_t i = 0; i < n; i++)
        add_forecast(p, tool, sets[i], t);
}

/* The standard deviation of n values is itself known to s / sqrt(2 (n - 1)) (GUM E.4.3, from memory). */
static double spread_uncertainty(double spread, size_t n)
{
    return stat_student_quantile((1 + CONFIDENCE) / 2, (double)n - 1) * spread / sqrt(2 * ((double)n - 1));
}

static void add_spread(const struct proving *p, const struct stop_readings *r, struct proof_test *t)
{
    const struct num *limit = &p->job->tolerances.stop_spread;
    double spread = t->as.stop.spread;
    if (isnan(spread))
        return;
    proof_add_figure(
        t, (struct proof_figure){.id = "spread",
                                 .what = SAYING("stop.spread", SAY_ARG("n", SAY_COUNT_WORD, (double)r->repeats.n)),
                                 .unit = "mm",
                                 .kind = SAY_UNSIGNED,
                                 .value = spread,
                                 .expanded_uncertainty = spread_uncertainty(spread, r->repeats.n),
                                 .limit = limit->v});
    if (spread > limit->v)
        t->remarks[1] = SAYING("stop.spread_beyond", SAY_ARG("spread", SAY_UNSIGNED, spread),
                               SAY_ARG("limit", SAY_LIMIT, limit->v));
}

/* ---- what would decide, and the shift ---- */

static void say_what_decides(const struct stop_sum *sum, const struct job_test *test, struct proof_test *t)
{
    struct tool tool = instrument_tool(test->instrument, sum->longest);
    decide_by_largest_line(t);
    if (t->finding != FINDING_UNDECIDED || sum->n < 2)
        return;
    int more = stop_further(t->error, sum->scatter, sum->n, lost_dof(sum), tool.error_limit / sqrt(3), t->tolerance,
                            FURTHER_MOST);
    if (more == 0)
        return;
    t->decide = SAYING("stop.decide", SAY_ARG("n", SAY_COUNT_WORD, more));
    t->largest_line = (struct saying){0};
}

static void advise(struct proof_test *t)
{
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = fabs(t->error);
    m->uncertainty = t->expanded_uncertainty;
    m->what =
        SAYING(t->error > 0 ? "stop.move.too_long" : "stop.move.too_short", SAY_ARG("distance", SAY_MOVE, m->distance));
    advice_choose(t, 0, m);
}

static void prove_pairs(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct stop_readings *r = &test->as.stop;
    struct stop_sum *sum = &t->as.stop;
    struct pairs pairs = split_pairs(r, p->pool);
    sum_up(&pairs, sum);
    struct tool tool = instrument_tool(test->instrument, sum->longest);
    t->error = sum->mean_error;
    proof_limit_length(t, &p->job->tolerances.stop_error);
    write_budget(p, test, t);
    verdict_conclude(t);
    say_what_decides(sum, test, t);
    if (sum->has_slope) {
        add_slope(&pairs, tool.error_limit, t);
        add_forecasts(&pairs, r, &tool, t);
    }
    advise(t);
}

/* Pieces of one setting alone: the setting may be anything, so what is judged is how far they differ. */
static void prove_spread(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    double spread = t->as.stop.spread, dof = (double)test->as.stop.repeats.n - 1;
    t->error = spread;
    t->is_spread = true;
    proof_limit_length(t, &p->job->tolerances.stop_spread);
    budget_begin(p->pool, t);
    budget_add_standard(t, SAYING_PLAIN("stop.budget.spread"), spread / sqrt(2 * dof), dof, 1);
    verdict_conclude(t);
    decide_by_largest_line(t);
    t->remarks[0] = SAYING_PLAIN("stop.only_spread");
}

static void stop_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct stop_readings *r = &test->as.stop;
    t->as.stop.spread = r->repeats.n > 1 ? stat_deviation(r->repeats.v, r->repeats.n) : NAN;
    if (r->n_pairs > 0) {
        prove_pairs(p, test, t);
        add_spread(p, r, t);
    } else {
        prove_spread(p, test, t);
    }
}

const struct method_row stop_method = {.prove = stop_prove};
