/* The five-cut test as a method: from the readings of a job to sums, budget, verdict, what would decide, move. */
#include "proof/five_cut.h"

#include "proof/instruments.h"
#include "proof/turning.h"
#include "proof/verdict.h"

#include <math.h>

/* Where the job is silent, and judgement of this program: sheets print these as assumed. */
#define DEFAULT_SPREAD (0.03 / 300) /* s0: of runs on a sound sled [rad]; judgement */
#define DEFAULT_SPREAD_DOF 2        /* nu0: how little that is known; judgement */
#define STRIP_WIDTH 25              /* about what is measured, for a limit taken from a table [mm] */
#define HISTORY_DOF 3               /* earlier tests stand in for the default from here on */

/* The runs of earlier tests, each about its own mean; practice does not count. */
struct stat_term five_cut_own_spread(const struct proof_test *tests, size_t n)
{
    double squares = 0, dof = 0;
    for (size_t i = 0; i < n; i++) {
        if (tests[i].method != METHOD_FIVE_CUT || tests[i].job->practice || tests[i].strips < 2)
            continue;
        squares += tests[i].as.five_cut.run_spread * tests[i].as.five_cut.run_spread * (tests[i].strips - 1);
        dof += tests[i].strips - 1;
    }
    return (struct stat_term){dof > 0 ? sqrt(squares / dof) : 0, dof};
}

struct stat_term five_cut_earlier_spread(const struct five_cut_readings *r, const struct proof_test *earlier,
                                         size_t n_earlier, const char **from)
{
    if (r && r->spread_error.given) {
        *from = "spread.job";
        return (struct stat_term){r->spread_error.v / r->spread_over.v, r->spread_dof.v};
    }
    struct stat_term pooled = five_cut_own_spread(earlier, n_earlier);
    *from = pooled.dof >= HISTORY_DOF ? "spread.history" : "spread.default";
    return pooled.dof >= HISTORY_DOF ? pooled : (struct stat_term){DEFAULT_SPREAD, DEFAULT_SPREAD_DOF};
}

double five_cut_resolution(const struct job_instrument *tool)
{
    return instrument_tool(tool, STRIP_WIDTH).resolution;
}

double five_cut_error_limit(const struct job_instrument *tool)
{
    return instrument_tool(tool, STRIP_WIDTH).error_limit;
}

const struct job_instrument *five_cut_leaf_set(const struct job *job)
{
    for (size_t i = 0; i < job->n_instruments; i++)
        if (job->instruments[i].kind == INSTRUMENT_FEELER && job->instruments[i].n_leaves > 0)
            return &job->instruments[i];
    return NULL;
}

static struct five_cut_widths *widths_of(const struct five_cut_readings *r, struct pool *pool)
{
    struct five_cut_widths *w = pool_alloc(pool, r->n_strips * sizeof *w);
    for (size_t i = 0; i < r->n_strips; i++)
        w[i] = (struct five_cut_widths){r->strips[i].fence_end.v, r->strips[i].far_end.v, r->strips[i].fence_end.n,
                                        r->strips[i].far_end.n};
    return w;
}

static double least_reading(const struct five_cut_widths *w, size_t n)
{
    double least = INFINITY;
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < w[i].n_fence_end; k++)
            least = fmin(least, w[i].fence_end[k]);
        for (size_t k = 0; k < w[i].n_far_end; k++)
            least = fmin(least, w[i].far_end[k]);
    }
    return least;
}

static void add_up_runs(const struct five_cut_widths *w, int n, struct pool *pool, struct five_cut_sum *sum)
{
    double *slopes = pool_alloc(pool, (size_t)n * sizeof *slopes);
    sum->runs = pool_alloc(pool, (size_t)n * sizeof *sum->runs);
    sum->n_runs = n;
    for (int i = 0; i < n; i++) {
        sum->runs[i] = five_cut_run_of(&w[i], sum->length);
        slopes[i] = sum->runs[i].slope;
    }
    sum->mean_difference = 4 * sum->length * stat_mean(slopes, (size_t)n);
    sum->run_spread = stat_deviation(slopes, (size_t)n);
}

static struct saying runs_source(const struct five_cut_basis *b, const char *spread_from)
{
    if (b->strips == 1)
        return SAYING("budget.one_strip", SAY_ARG("spread", SAY_RADIANS, b->earlier.u), SAY_KEY("from", spread_from));
    if (b->strips == 2)
        return SAYING("budget.two_strips", SAY_ARG("own", SAY_RADIANS, b->run_spread),
                      SAY_ARG("spread", SAY_RADIANS, b->earlier.u), SAY_KEY("from", spread_from));
    if (b->reading.u > b->run_spread)
        return SAYING("budget.reading_of_strips", SAY_ARG("strips", SAY_COUNT_WORD, b->strips),
                      SAY_ARG("reading", SAY_RADIANS, b->reading.u));
    return SAYING("budget.strips", SAY_ARG("strips", SAY_COUNT_WORD, b->strips),
                  SAY_ARG("own", SAY_RADIANS, b->run_spread));
}

static void write_budget(const struct five_cut_basis *b, const char *spread_from, struct pool *pool,
                         struct proof_test *t)
{
    struct stat_term u[FIVE_CUT_LINES];
    five_cut_lines(b, u);
    const struct saying sources[FIVE_CUT_LINES] = {
        [FIVE_CUT_RUNS] = runs_source(b, spread_from),
        [FIVE_CUT_READING] = SAYING_PLAIN("budget.reading"),
        [FIVE_CUT_TOOL] = SAYING("budget.tool", SAY_ARG("limit", SAY_LIMIT, b->error_limit),
                                 SAY_ARG("share", SAY_RATIO, DIFFERENCE_SHARE)),
        [FIVE_CUT_LENGTH] = SAYING("budget.length", SAY_ARG("length", SAY_SIZE, b->length),
                                   SAY_ARG("within", SAY_LIMIT, LENGTH_HALF_WIDTH)),
    };
    t->lines = pool_alloc(pool, FIVE_CUT_LINES * sizeof *t->lines);
    for (int i = 0; i < FIVE_CUT_LINES; i++)
        if (i != FIVE_CUT_READING || b->strips == 1)
            t->lines[t->n_lines++] = (struct budget_line){.source = sources[i], .u = u[i].u, .dof = u[i].dof};
}

/* Of the lines that further strips leave as they are, the larger. */
static struct saying largest_standing_line(const struct proof_test *t)
{
    const struct budget_line *tool = &t->lines[t->n_lines - 2], *length = &t->lines[t->n_lines - 1];
    return tool->u >= length->u ? tool->source : length->source;
}

/* Would strips decide if tool and length were perfect? Then the larger of them stands in the way; else the error lies
   too near to the limit. */
static bool standing_lines_are_to_blame(const struct five_cut_basis *b, double tolerance)
{
    struct five_cut_basis perfect = *b;
    perfect.length = INFINITY; /* both go with 1/L; u_read and spreads are angles already */
    return five_cut_further(&perfect, tolerance) > 0;
}

static void say_what_decides(const struct five_cut_basis *b, struct proof_test *t)
{
    t->further_strips = -1;
    if (t->finding != FINDING_UNDECIDED)
        return;
    t->further_strips = five_cut_further(b, t->tolerance);
    if (t->further_strips > 0) {
        bool too_few = t->strips + t->further_strips < STRIPS_THAT_PROVE;
        t->decide = SAYING(too_few ? "decide.strips.till_three" : "decide.strips", SAY_ARG("strips", SAY_COUNT_WORD, t->further_strips),
                           SAY_KEY("noun", t->further_strips == 1 ? "noun.strip" : "noun.strips"));
        return;
    }
    t->largest_line = largest_standing_line(t);
    t->decide = SAYING_PLAIN(standing_lines_are_to_blame(b, t->tolerance) ? "decide.line" : "decide.near_limit");
}

static void sum_up(const struct proving *p, const struct job_test *test, const struct five_cut_widths *w,
                   struct five_cut_sum *sum)
{
    const struct five_cut_readings *r = &test->as.five_cut;
    double resolution = five_cut_resolution(test->instrument);
    struct stat_term reading = five_cut_reading_spread(w, r->n_strips, resolution);
    struct stat_term earlier = five_cut_earlier_spread(r, p->earlier, p->n_earlier, &sum->spread_from);
    sum->length = r->length.v;
    sum->sign = five_cut_sign(p->setting->fence_side, r->offcut);
    add_up_runs(w, (int)r->n_strips, p->pool, sum);
    sum->reading_spread = reading.u;
    sum->reading_dof = reading.dof;
    sum->u_reading = five_cut_u_reading(w, r->n_strips, reading.u, resolution, sum->length);
    sum->spread_used = earlier.u;
    sum->spread_dof = earlier.dof;
    sum->least_reading = least_reading(w, r->n_strips);
}

static struct five_cut_basis basis_of(const struct five_cut_sum *sum, double error, const struct job_instrument *tool)
{
    return (struct five_cut_basis){
        .strips = sum->n_runs,
        .error = error,
        .length = sum->length,
        .run_spread = sum->run_spread,
        .reading = {sum->u_reading,   sum->reading_dof},
        .earlier = {sum->spread_used, sum->spread_dof },
        .error_limit = five_cut_error_limit(tool),
    };
}

void five_cut_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct five_cut_readings *r = &test->as.five_cut;
    const struct job_limit *limit = &p->job->tolerances.squareness;
    struct five_cut_sum *sum = &t->as.five_cut;
    sum_up(p, test, widths_of(r, p->pool), sum);
    t->strips = sum->n_runs;
    t->error = sum->sign * sum->mean_difference / (4 * sum->length);
    t->tolerance = limit->error.v / limit->over.v;
    t->over_length = limit->over.v;
    t->tolerance_is_default = !limit->error.given;
    struct five_cut_basis basis = basis_of(sum, t->error, test->instrument);
    write_budget(&basis, sum->spread_from, p->pool, t);
    verdict_conclude(t);
    say_what_decides(&basis, t);
    enum side moving_end;
    t->has_move = turning_find_pivot(p->setting, &r->pivot_to_moving, r->moving_end_given, r->moving_end,
                                     &sum->pivot_to_moving, &moving_end);
    if (t->has_move)
        turning_advise(t, sum->pivot_to_moving, moving_end, five_cut_leaf_set(p->job), &t->move);
}

double five_cut_after_move(const struct proof_test *t, double error, const struct job_moved *moved)
{
    double d = t->as.five_cut.pivot_to_moving;
    if (!(d > 0) || !moved->distance.given)
        return NAN;
    return turning_error_after(error, d, moved->end, moved->toward, moved->distance.v);
}

const struct method_row five_cut_method = {
    .prove = five_cut_prove, .after_move = five_cut_after_move, .is_of_fence = true};
