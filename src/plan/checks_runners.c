/* Checks of the runners: play now and over the year, yaw, height, how much of them is in the slot. Limits without a source
   are common practice. */
#include "plan/checking.h"

#include <math.h>

/* The narrowest place of the slot decides binding, the widest rattling. */
static struct plan_check *measure_play(struct checking *k, enum check_id id, double ratio)
{
    const struct job_slots *slots = &k->job->saw.slots;
    const struct job_tolerances *t = &k->job->tolerances;
    double width = sled_guide(k->s)->width * ratio, narrow = slots->width.v - width,
           wide = slots->width_widest.v - width;
    bool rattles = !check_below(narrow, t->side_play_low.v) && check_above(wide, t->side_play_high.v);
    struct plan_check *c = check_measure(k, id, rattles ? wide : narrow, t->side_play_low.v, t->side_play_high.v);

    check_mark_at(c, &k->wish->runner_width);
    return c;
}

void check_runner_play(struct checking *k)
{
    measure_play(k, CHECK_RUNNER_PLAY, 1);
}

void check_runner_play_driest(struct checking *k)
{
    if (k->wood.known)
        measure_play(k, CHECK_RUNNER_PLAY_DRIEST, k->wood.r_driest);
    else
        check_leave_out(k, "assumed.no_driest");
}

void check_runner_play_dampest(struct checking *k)
{
    if (k->wood.known)
        measure_play(k, CHECK_RUNNER_PLAY_DAMPEST, k->wood.r_dampest);
    else
        check_leave_out(k, "assumed.no_dampest");
}

static double pair_play(const struct checking *k, double ratio, double shift)
{
    const struct plan_runner *r = k->s->runner;
    double slot = k->job->saw.slots.width.v;

    return wood_pair_play(slot - r[SIDE_LEFT].width * ratio, slot - r[SIDE_RIGHT].width * ratio, shift);
}

void check_runner_pair_play(struct checking *k)
{
    const struct plan_runner *r = k->s->runner;
    double spacing = r[SIDE_RIGHT].slot_x - r[SIDE_LEFT].slot_x, value;
    double most = sled_base_shift_most(k->job, k->stocks.base, spacing);
    struct plan_check *c;

    if (!r[SIDE_LEFT].present || !r[SIDE_RIGHT].present)
        return; /* one runner: nothing to fight with */
    if (isnan(most)) {
        check_leave_out(k, "assumed.no_pair_play");
        return;
    }
    value = pair_play(k, 1, 0);
    if (k->wood.known) {
        value = fmin(value, pair_play(k, k->wood.r_driest,
                                      sled_base_shift(k->job, k->stocks.base, spacing, &k->job->air.driest)));
        value = fmin(value, pair_play(k, k->wood.r_dampest,
                                      sled_base_shift(k->job, k->stocks.base, spacing, &k->job->air.dampest)));
    } else {
        value = fmin(value, pair_play(k, 1, most));
    }
    c = check_measure(k, CHECK_RUNNER_PAIR_PLAY, value, k->job->tolerances.side_play_low.v, NAN);
    c->fail_low = 0;
    if (value <= 1e-9)
        check_verdict_is(c, VERDICT_FAIL);
    check_mark_at(c, &k->wish->runner_free_width);
    check_say_also(c, "shift", SAY_FIT, most);
}

void check_runner_width_to_plane(struct checking *k)
{
    double width = sled_guide(k->s)->width, low = k->s->plane_low, high = k->s->plane_high;
    struct plan_check *c = check_measure(k, CHECK_RUNNER_WIDTH_TO_PLANE, width, low, high);

    check_mark_at(c, &k->wish->runner_width);
    if (low > high) {
        check_verdict_is(c, VERDICT_CAUTION);
        check_say_why(c, "check.runner_width_to_plane.why.none");
        check_say_also(c, "short", SAY_FIT, low - high);
    } else if (c->verdict != VERDICT_PASS) {
        check_say_why(c, width > high ? "check.runner_width_to_plane.why.wide" : "check.runner_width_to_plane.why.slack");
    } else if (!k->wood.known) {
        check_verdict_is(c, VERDICT_CAUTION);
        check_say_why(c, "check.runner_width_to_plane.why.no_air");
        c->remedy = SAYING_PLAIN("check.runner_width_to_plane.remedy"); /* no number helps */
    } else if ((high - low) / 2 < width * k->wood.per_percent) {
        check_verdict_is(c, VERDICT_CAUTION);
        check_say_why(c, "check.runner_width_to_plane.why.tight");
        check_say_also(c, "percent", SAY_FIT, width * k->wood.per_percent);
    }
}

void check_runner_yaw(struct checking *k)
{
    const struct job_limit *t = &k->job->tolerances.squareness;
    struct sled_engaged e = sled_guide_engaged(k->job, k->s, k->s->capacity_width);
    struct plan_check *c;

    if (fmin(e.touch, e.stop) <= 0)
        return; /* the runner is out of its slot: runner_engaged says so */
    c = check_measure(k, CHECK_RUNNER_YAW, sled_yaw(k->job, e, &k->wood, sled_guide(k->s)->width), NAN,
                SLED_YAW_CAUTION * t->error.v);
    c->fail_high = SLED_YAW_FAIL * t->error.v;
    if (check_above(c->value, c->fail_high))
        check_verdict_is(c, VERDICT_FAIL);
    check_mark_at(c, &k->wish->runner_width);
    check_say_also(c, "over", SAY_SIZE, t->over.v);
    check_say_also(c, "engaged", SAY_SIZE, fmin(e.touch, e.stop));
}

void check_runner_height(struct checking *k)
{
    struct plan_check *c = check_measure(k, CHECK_RUNNER_HEIGHT, sled_guide(k->s)->thickness, NAN,
                                   k->job->saw.slots.depth.v - SLED_RUNNER_BELOW_SLOT);

    check_mark_at(c, &k->wish->runner_thickness);
    check_say_also(c, "slot", SAY_THICKNESS, k->job->saw.slots.depth.v);
}

void check_runner_engaged(struct checking *k)
{
    struct sled_engaged e = sled_guide_engaged(k->job, k->s, k->s->capacity_width);
    double length = sled_guide(k->s)->length;
    struct plan_check *c = check_measure(k, CHECK_RUNNER_ENGAGED, fmin(e.touch, e.stop) / length, SLED_ENGAGED_LEAST, NAN);

    check_mark_at(c, &k->wish->capacity_width);
    check_say_also(c, "touch", SAY_SIZE, e.touch);
    check_say_also(c, "stop", SAY_SIZE, e.stop);
}
