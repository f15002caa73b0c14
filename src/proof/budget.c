/* What the methods share. Half-widths are rectangular, u = a/sqrt(3) (GUM 4.3.7, from memory); a mean of n readings
   scatters as s/sqrt(n) (GUM 4.2.3, from memory). */
#include "proof/budget.h"

#include "proof/statistics.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define SAME_LEAF 1e-6 /* nearer than this to a leaf is that leaf [mm] */

/* ---- gaps ---- */

static struct gap gap_between(double below, double above)
{
    return (struct gap){(below + above) / 2, (above - below) / 2, below, above};
}

struct gap gap_of(double given, const double *leaves, size_t n, double resolution)
{
    if (n == 0)
        return (struct gap){given, resolution / 2, NAN, NAN};
    if (given < SAME_LEAF)
        return gap_between(0, leaves[0]);
    double below = 0;
    for (size_t i = 0; i < n; i++) {
        if (fabs(given - leaves[i]) < SAME_LEAF)
            return gap_between(given, i + 1 < n ? leaves[i + 1] : given + leaves[0]);
        if (leaves[i] > given)
            return (struct gap){given, fmax(given - below, leaves[i] - given), below, leaves[i]};
        below = leaves[i];
    }
    return gap_between(given, given + leaves[0]);
}

struct gap gap_read(double given, const struct job_instrument *i)
{
    bool by_leaves = i && i->kind == INSTRUMENT_FEELER;
    return gap_of(given, by_leaves ? i->leaves : NULL, by_leaves ? i->n_leaves : 0,
                  instrument_tool(i, given).resolution);
}

struct gap gap_closed(const struct job_instrument *i)
{
    struct gap g = gap_read(0, i);
    return (struct gap){0, isnan(g.above) ? g.half_width : g.above, g.below, g.above};
}

/* ---- lines ---- */

void budget_begin(struct pool *pool, struct proof_test *t)
{
    t->lines = pool_alloc(pool, BUDGET_LINES_MOST * sizeof *t->lines);
    t->n_lines = 0;
}

static void add_line(struct proof_test *t, struct budget_line line)
{
    assert(t->n_lines < BUDGET_LINES_MOST && "a budget longer than any method makes");
    t->lines[t->n_lines++] = line;
}

void budget_add_limit(struct proof_test *t, struct saying source, double half_width, double sensitivity)
{
    double c = fabs(sensitivity);
    add_line(t, (struct budget_line){.source = source,
                                     .u = half_width / sqrt(3) * c,
                                     .dof = INFINITY,
                                     .shape = BUDGET_RECTANGULAR,
                                     .size = half_width,
                                     .sensitivity = c});
}

void budget_add_mean(struct proof_test *t, struct saying source, double deviation, int count, double dof,
                     double sensitivity)
{
    double c = fabs(sensitivity);
    add_line(t, (struct budget_line){.source = source,
                                     .u = deviation / sqrt(count) * c,
                                     .dof = dof,
                                     .shape = BUDGET_MEAN,
                                     .size = deviation,
                                     .count = count,
                                     .sensitivity = c});
}

void budget_add_standard(struct proof_test *t, struct saying source, double u, double dof, double sensitivity)
{
    double c = fabs(sensitivity);
    add_line(t, (struct budget_line){
                    .source = source, .u = u * c, .dof = dof, .shape = BUDGET_STANDARD, .size = u, .sensitivity = c});
}

void budget_add_tool(struct proof_test *t, const struct tool *tool, double share, double sensitivity)
{
    struct saying whole =
        SAYING("budget.limit", SAY_ARG("limit", SAY_UNSIGNED, tool->error_limit), SAY_KEY("from", tool->from));
    struct saying part = SAYING("budget.limit_share", SAY_ARG("share", SAY_RATIO, share),
                                SAY_ARG("limit", SAY_UNSIGNED, tool->error_limit), SAY_KEY("from", tool->from));
    budget_add_limit(t, share < 1 ? part : whole, share * tool->error_limit, sensitivity);
}

void budget_add_gap(struct proof_test *t, const struct gap *gap, const struct job_instrument *i, double sensitivity)
{
    struct tool tool = instrument_tool(i, gap->value);
    struct saying leaves =
        SAYING("budget.gap_leaves", SAY_ARG("below", SAY_LIMIT, gap->below), SAY_ARG("above", SAY_LIMIT, gap->above));
    struct saying step = SAYING("budget.gap_step", SAY_ARG("step", SAY_LIMIT, tool.resolution));
    budget_add_limit(t, isnan(gap->below) ? step : leaves, gap->half_width, sensitivity);
    budget_add_tool(t, &tool, 1, sensitivity);
}

void budget_add_readings(struct proof_test *t, struct saying source, const double *readings, size_t n,
                         double resolution, double sensitivity)
{
    double s = n > 1 ? stat_deviation(readings, n) : 0;
    if (s / sqrt((double)n) > resolution / sqrt(12))
        budget_add_mean(t, source, s, (int)n, (double)n - 1, sensitivity);
    else
        budget_add_limit(t, source, resolution / 2, sensitivity);
}

/* ---- tolerances and figures ---- */

void proof_limit_angle(struct proof_test *t, const struct job_limit *limit)
{
    t->unit = "rad";
    t->tolerance = limit->error.v / limit->over.v;
    t->over_length = limit->over.v;
    t->tolerance_is_default = !limit->error.given;
}

void proof_limit_length(struct proof_test *t, const struct num *error)
{
    t->unit = "mm";
    t->tolerance = error->v;
    t->over_length = 1;
    t->tolerance_is_default = !error->given;
}

struct proof_figure *proof_add_figure(struct proof_test *t, struct proof_figure figure)
{
    assert(t->n_figures < FIGURES_MOST && "more further results than any method has");
    t->figures[t->n_figures] = figure;
    return &t->figures[t->n_figures++];
}

/* ---- advice ---- */

void advice_choose(const struct proof_test *t, double thinnest, struct move *m)
{
    m->advice = ADVICE_LEAVE;
    if (t->finding == FINDING_WITHIN) {
        m->reason = SAYING_PLAIN("advice.leave.within");
    } else if (m->distance < m->uncertainty) {
        m->reason = SAYING("advice.leave.unclear", SAY_ARG("move", SAY_MOVE, m->distance),
                           SAY_ARG("u", SAY_UNCERTAINTY, m->uncertainty));
    } else if (m->distance < thinnest / 2) {
        m->reason =
            SAYING("advice.leave.thin", SAY_ARG("move", SAY_MOVE, m->distance), SAY_ARG("leaf", SAY_LIMIT, thinnest));
    } else if (t->finding == FINDING_OUTSIDE) {
        m->advice = ADVICE_MOVE;
        m->reason = SAYING_PLAIN("advice.move.outside");
    } else if (fabs(t->error) <= t->tolerance) {
        m->advice = ADVICE_MEASURE_MORE;
        m->reason = SAYING_PLAIN("advice.measure_finer");
    } else {
        m->advice = ADVICE_MOVE;
        m->reason = SAYING_PLAIN("advice.move.likely");
    }
}

/* What helps against the largest line, where that is no reading. */
static const struct {
    const char *line, *decide;
} cures[] = {
    {"budget.gap_leaves", "decide.leaves"},
    {"fence_straight.budget.gap", "decide.leaves"},
    {"box_joint.budget.seat", "decide.row"},
    {"diagonals.budget.reading", "decide.diagonals"},
    {"fence_straight.budget.edge", "decide.edge"},
    {"fence_straight.budget.edge_assumed", "decide.edge"},
    {"fence_straight.budget.shim", "decide.shims"},
    {"flip.budget.base", "decide.board"},
    {"flip.budget.faces", "decide.board"},
    {"frame.budget.joints", "decide.joints"},
    {"slot_parallel.budget.bar", "decide.bar"},
    {"square_gap.budget.square", "decide.square"},
    {"square_gap.budget.unknown", "decide.square"},
    {"stop.budget.pairs", "decide.pieces"},
    {"stop.budget.setting", "decide.pieces"},
    {"stop.budget.repeats", "decide.pieces"},
    {"stop.budget.spread", "decide.pieces"},
};

static const char *cure_of(const struct saying *line)
{
    for (size_t i = 0; i < sizeof cures / sizeof *cures; i++)
        if (strcmp(line->key, cures[i].line) == 0)
            return cures[i].decide;
    return "decide.finer";
}

void decide_by_largest_line(struct proof_test *t)
{
    const struct budget_line *largest = t->lines;
    if (t->finding != FINDING_UNDECIDED)
        return;
    for (int i = 1; i < t->n_lines; i++)
        if (t->lines[i].u > largest->u)
            largest = &t->lines[i];
    t->decide = SAYING_PLAIN(cure_of(&largest->source));
    t->largest_line = largest->source;
}
