/* The blade against a mitre slot: one tooth, turned by hand, read by a dial at the front and at the back. */
#include "proof/slot_parallel_sums.h"

#include "proof/budget.h"
#include "proof/five_cut_sums.h"
#include "proof/methods.h"
#include "proof/reading_table.h"
#include "proof/statistics.h"
#include "proof/verdict.h"

#include <math.h>

#define BAR_HALF_WIDTH 0.01 /* a bar pressed to one wall still stands this uncertain at each place [mm]; judgement */

static void write_budget(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct slot_parallel_readings *r = &test->as.slot_parallel;
    double span = t->as.slot_parallel.span;
    struct tool tool = instrument_tool(test->instrument, 1);
    budget_begin(p->pool, t);
    budget_add_readings(t, SAYING_PLAIN("slot_parallel.budget.front"), r->front.v, r->front.n, tool.resolution,
                        1 / span);
    budget_add_readings(t, SAYING_PLAIN("slot_parallel.budget.back"), r->back.v, r->back.n, tool.resolution, 1 / span);
    budget_add_tool(t, &tool, DIFFERENCE_SHARE, 1 / span);
    budget_add_limit(t, SAYING("slot_parallel.budget.bar", SAY_ARG("within", SAY_LIMIT, BAR_HALF_WIDTH)), BAR_HALF_WIDTH,
                     sqrt(2) / span);
    budget_add_limit(
        t, SAYING("budget.length", SAY_ARG("length", SAY_SIZE, span), SAY_ARG("within", SAY_LIMIT, LENGTH_HALF_WIDTH)),
        LENGTH_HALF_WIDTH, t->error / span);
}

/* By how much the back of the blade widens the kerf: its slant over the whole blade at most. */
static void add_kerf(const struct proving *p, struct proof_test *t)
{
    const struct num *diameter = &p->job->saw.blade.diameter;
    if (!diameter->given)
        return;
    proof_add_figure(t, (struct proof_figure){.id = "kerf_widening",
                                              .what = SAYING_PLAIN("slot_parallel.kerf"),
                                              .unit = "mm",
                                              .kind = SAY_UNSIGNED,
                                              .value = fabs(t->error) * diameter->v,
                                              .expanded_uncertainty = t->expanded_uncertainty * diameter->v,
                                              .limit = NAN});
}

static void advise(struct proof_test *t)
{
    struct move *m = &t->move;
    bool back_right = t->error > 0;
    t->has_move = true;
    m->distance = fabs(t->error_over);
    m->uncertainty = t->expanded_uncertainty * t->over_length;
    m->what =
        SAYING("slot_parallel.move", SAY_ARG("distance", SAY_MOVE, m->distance),
               SAY_ARG("over", SAY_SIZE, t->over_length), SAY_KEY("blade", back_right ? "side.left" : "side.right"),
               SAY_KEY("table", back_right ? "side.right" : "side.left"));
    advice_choose(t, 0, m);
    bool certain = fabs(t->error) > t->expanded_uncertainty;
    t->remarks[0] = SAYING(certain ? "slot_parallel.throws" : "slot_parallel.not_square", SAY_KEY("side", back_right ? "side.right" : "side.left"));
}

static void slot_parallel_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct slot_parallel_readings *r = &test->as.slot_parallel;
    struct slot_parallel_sum *sum = &t->as.slot_parallel;
    sum->front = stat_mean(r->front.v, r->front.n);
    sum->back = stat_mean(r->back.v, r->back.n);
    sum->span = r->span.v;
    sum->sign = slot_parallel_sign(r->slot);
    t->error = sum->sign * (sum->back - sum->front) / sum->span;
    proof_limit_angle(t, &p->job->tolerances.slot);
    write_budget(p, test, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    add_kerf(p, t);
    advise(t);
}

/* For the span of the last test: at the table's rear edge where it is known how far that is from the front, else over the
   tolerance's length. A bolted table turns about its front bolts, which stand near enough to its front edge; judgement. */
static bool slot_parallel_reckon(const struct proving *p, const struct proof_test *latest, struct reading_table *out)
{
    const struct num *depth = &p->job->saw.table.depth;
    if (!latest)
        return false;
    out->at = latest->as.slot_parallel.span;
    out->over = depth->given ? depth->v : p->job->tolerances.slot.over.v;
    out->error_per_mm = 1 / out->at;
    out->factor = out->error_per_mm * out->over;
    out->last = fabs(latest->as.slot_parallel.back - latest->as.slot_parallel.front);
    return true;
}

/* Readings that agree, as the bench page asks. */
static void slot_parallel_read(double at, const double *read, struct job_test *out)
{
    static const double none = 0;
    out->as.slot_parallel.span.v = at;
    out->as.slot_parallel.front = (struct readings){.v = &none, .n = 1};
    out->as.slot_parallel.back = (struct readings){.v = read, .n = 1};
}

const struct method_row slot_parallel_method = {
    .prove = slot_parallel_prove, .reckon = slot_parallel_reckon, .read = slot_parallel_read};
