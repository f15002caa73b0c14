/* A row of box-joint fingers as a method: pitch, fit, and whether the key or the cutter is wrong. */
#include "proof/box_joint_sums.h"
#include "proof/budget.h"
#include "proof/methods.h"
#include "proof/statistics.h"
#include "proof/verdict.h"

#include <math.h>

static void sum_up(const struct box_joint_readings *r, const struct job_instrument *i, struct box_joint_sum *sum)
{
    struct tool tool = instrument_tool(i, r->got.v);
    sum->fingers = (int)lround(r->fingers.v);
    sum->got = r->got.v;
    sum->finger = r->finger.v;
    sum->slot = r->slot.given ? r->slot.v : NAN;
    sum->pitch = box_joint_pitch(sum->fingers, sum->got, sum->finger);
    sum->half_width = tool.resolution / 2;
    sum->error_limit = tool.error_limit;
    sum->fit = sum->slot - sum->finger;
    double u = sqrt(2) * hypot(sum->half_width, instrument_tool(i, r->finger.v).error_limit) / sqrt(3);
    sum->fit_u = isnan(sum->fit) ? NAN : stat_expand(&(struct stat_term){u, INFINITY}, 1, CONFIDENCE).expanded;
}

static void add_tool_at(struct proof_test *t, const char *key, const struct tool *tool, double sensitivity)
{
    budget_add_limit(t, SAYING(key, SAY_ARG("limit", SAY_UNSIGNED, tool->error_limit), SAY_KEY("from", tool->from)),
                     tool->error_limit, sensitivity);
}

static void write_budget(const struct proving *p, const struct box_joint_sum *sum, struct proof_test *t)
{
    double steps = sum->fingers - 1;
    struct tool far = instrument_tool(t->job->instrument, sum->got),
                near = instrument_tool(t->job->instrument, sum->finger);
    budget_begin(p->pool, t);
    budget_add_limit(t, SAYING("box_joint.budget.reading", SAY_ARG("step", SAY_LIMIT, 2 * sum->half_width)),
                     sum->half_width, sqrt(2) / steps);
    add_tool_at(t, "box_joint.budget.row", &far, 1 / steps);
    add_tool_at(t, "box_joint.budget.finger", &near, 1 / steps);
    budget_add_limit(t,
                     SAYING("box_joint.budget.seat", SAY_ARG("n", SAY_COUNT, steps),
                            SAY_ARG("limit", SAY_LIMIT, BOX_SEAT_HALF_WIDTH)),
                     BOX_SEAT_HALF_WIDTH, 1 / sqrt(steps));
}

static struct saying say_key(const struct box_remedy *r)
{
    return SAYING(r->toward >= 0 ? "box_joint.toward" : "box_joint.away", SAY_ARG("move", SAY_FIT, fabs(r->toward)));
}

static struct saying say_cutter(const struct box_joint_sum *sum, const struct box_remedy *r)
{
    return SAYING(r->cutter_wider > 0 ? "box_joint.cutter_wider" : "box_joint.cutter_narrower",
                  SAY_ARG("by", SAY_FIT, fabs(r->cutter_wider)), SAY_ARG("cut", SAY_FIT, sum->slot + r->cutter_wider),
                  SAY_ARG("finger", SAY_FIT, sum->finger - r->toward));
}

static void say_why(const struct proof_test *t, struct move *m)
{
    const struct box_joint_sum *sum = &t->as.box_joint;
    m->advice = ADVICE_MOVE;
    if (t->finding == FINDING_WITHIN)
        m->reason = SAYING("box_joint.fit_is_wrong", SAY_ARG("fit", SAY_FIT, sum->fit),
                           SAY_ARG("low", SAY_FIT, BOX_FIT_LOW), SAY_ARG("high", SAY_FIT, BOX_FIT_HIGH));
    else
        m->reason = SAYING_PLAIN(t->finding == FINDING_OUTSIDE ? "advice.move.outside" : "advice.move.likely");
}

/* What pitch and fit come to together stands above the rule for the pitch alone: a fit that is wrong is put right even
   where the pitch is within. */
static void advise(struct proof_test *t)
{
    struct box_joint_sum *sum = &t->as.box_joint;
    struct box_remedy r = box_joint_remedy(t->error, t->expanded_uncertainty, t->tolerance, sum->fit, sum->fit_u);
    struct move *m = &t->move;
    t->has_move = true;
    sum->change_cutter = r.answer == BOX_CHANGE_CUTTER;
    sum->toward = r.toward;
    sum->fit_after = r.fit_after;
    sum->cutter_wider = r.cutter_wider;
    m->distance = fabs(sum->change_cutter ? r.cutter_wider : r.answer == BOX_LEAVE ? t->error : r.toward);
    /* Half of either difference where both have a say, so half of both uncertainties. */
    m->uncertainty = sum->change_cutter ? hypot(t->expanded_uncertainty, sum->fit_u) / 2 : t->expanded_uncertainty;
    m->what = sum->change_cutter ? say_cutter(sum, &r) : say_key(&r);
    m->expected_error = sum->change_cutter ? 0 : t->error - r.toward;
    if (r.answer == BOX_LEAVE)
        advice_choose(t, 0, m);
    else
        say_why(t, m);
}

static void add_fit(struct proof_test *t)
{
    const struct box_joint_sum *sum = &t->as.box_joint;
    int n = 0;
    if (isnan(sum->fit)) {
        t->remarks[n++] = SAYING_PLAIN("box_joint.fit_not_read");
        return;
    }
    proof_add_figure(t, (struct proof_figure){.id = "fit",
                                              .what = SAYING("box_joint.fit", SAY_ARG("low", SAY_FIT, BOX_FIT_LOW),
                                                             SAY_ARG("high", SAY_FIT, BOX_FIT_HIGH)),
                                              .unit = "mm",
                                              .kind = SAY_MOVE,
                                              .value = sum->fit,
                                              .expanded_uncertainty = sum->fit_u,
                                              .limit = NAN});
    if (sum->change_cutter)
        t->remarks[n++] = SAYING_PLAIN("box_joint.cutter");
}

static void box_joint_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    struct box_joint_sum *sum = &t->as.box_joint;
    sum_up(&test->as.box_joint, test->instrument, sum);
    t->error = sum->pitch - test->as.box_joint.set.v;
    proof_limit_length(t, &p->job->tolerances.box_pitch);
    write_budget(p, sum, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    advise(t);
    add_fit(t);
}

const struct method_row box_joint_method = {.prove = box_joint_prove};
