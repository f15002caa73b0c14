/* A frame of mitred pieces as a method: the error of the mitre from the gap of its last joint. */
#include "proof/budget.h"
#include "proof/frame_sums.h"
#include "proof/methods.h"
#include "proof/reading_table.h"
#include "proof/verdict.h"

#include <math.h>

static void sum_up(const struct frame_readings *r, const struct job_instrument *tool, struct frame_sum *sum)
{
    sum->pieces = (int)lround(r->pieces.v);
    sum->leg = r->leg.v;
    sum->sign = !r->open_given ? 0 : r->open == OPEN_INSIDE ? 1 : -1;
    sum->gap = r->open_given ? gap_read(r->gap.v, tool) : gap_closed(tool);
    sum->reads_both = r->gap_other.given && r->gap_other.v > 0; /* else the joint touches there */
    if (sum->reads_both)
        sum->gap_other = gap_read(r->gap_other.v, tool);
}

static void write_budget(const struct proving *p, const struct frame_sum *sum, struct proof_test *t)
{
    double each_mm = frame_sensitivity(sum->pieces, sum->leg);
    budget_begin(p->pool, t);
    budget_add_gap(t, &sum->gap, t->job->instrument, each_mm);
    if (sum->reads_both)
        budget_add_gap(t, &sum->gap_other, t->job->instrument, each_mm);
    budget_add_limit(t,
                     SAYING("frame.budget.joints", SAY_ARG("n", SAY_COUNT_WORD, sum->pieces - 1),
                            SAY_ARG("limit", SAY_LIMIT, FRAME_JOINT_HALF_WIDTH)),
                     FRAME_JOINT_HALF_WIDTH, sqrt(sum->pieces - 1) * each_mm);
    budget_add_limit(t,
                     SAYING("frame.budget.leg", SAY_ARG("leg", SAY_THICKNESS, sum->leg),
                            SAY_ARG("limit", SAY_LIMIT, FRAME_LEG_HALF_WIDTH)),
                     FRAME_LEG_HALF_WIDTH, t->error / sum->leg);
}

static const char *key_of_fences(const struct frame_readings *r)
{
    static const char *const keys[] = {[FRAME_LEFT_FENCE] = "frame.the_left",
                                       [FRAME_RIGHT_FENCE] = "frame.the_right",
                                       [FRAME_BOTH_FENCES] = "frame.each"};
    return keys[r->fence];
}

/* A mitre is measured from a square cut: too large, and the fence must come nearer to where it would cut square. Where
   the pivot is not known the move is told over the tolerance's length. */
static void advise(struct proof_test *t)
{
    const struct frame_readings *r = &t->job->as.frame;
    bool knows_pivot = r->pivot_to_moving.given;
    double length = knows_pivot ? r->pivot_to_moving.v : t->over_length;
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = length * tan(fabs(t->error));
    m->uncertainty = length * t->expanded_uncertainty;
    m->what = SAYING(t->error > 0 ? "frame.too_large" : "frame.too_small", SAY_KEY("fence", key_of_fences(r)),
                     SAY_ARG("move", SAY_FIT, m->distance), SAY_ARG("length", SAY_SIZE, length));
    m->expected_error = 0;
    advice_choose(t, 0, m);
}

static void frame_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct frame_readings *r = &test->as.frame;
    struct frame_sum *sum = &t->as.frame;
    sum_up(r, test->instrument, sum);
    t->error = sum->sign * frame_error(sum->pieces, sum->leg, sum->gap.value, sum->gap_other.value);
    proof_limit_angle(t, &p->job->tolerances.mitre);
    write_budget(p, sum, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    advise(t);
    t->remarks[0] = SAYING_PLAIN(r->fence == FRAME_BOTH_FENCES ? "frame.both_fences" : "frame.one_fence");
}

/* For a frame like the last one. */
static bool frame_reckon(const struct proving *p, const struct proof_test *latest, struct reading_table *out)
{
    if (!latest)
        return false;
    const struct frame_sum *sum = &latest->as.frame;
    const struct num *pivot = &latest->job->as.frame.pivot_to_moving;
    out->at = sum->leg;
    out->over = pivot->given ? pivot->v : p->job->tolerances.mitre.over.v;
    out->error_per_mm = frame_sensitivity(sum->pieces, sum->leg);
    out->factor = out->error_per_mm * out->over;
    out->last = latest->job->as.frame.gap.v;
    out->reads_gap = true;
    return true;
}

/* The joint touches at its other end, as the bench page asks. */
static void frame_read(double at, const double *read, struct job_test *out)
{
    out->as.frame.leg.v = at;
    out->as.frame.gap.v = *read;
    out->as.frame.gap_other = (struct num){0};
    out->as.frame.open_given = true;
}

const struct method_row frame_method = {.prove = frame_prove, .reckon = frame_reckon, .read = frame_read};
