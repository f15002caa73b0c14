/* Along the feed, for work of one width: guard, fences and the base's depth, runners, the stop. The rules' figures are
   common practice, no source. */
#include "plan/sizing.h"

#include <math.h>

static const double room_beyond_work = 10;
static const double free_runner_extra = 0.05;
static const struct figure guard_width = {100, 4}, stop_length = {60, 2.5};

/* ---- along the feed ---- */

static void place_fences_along(struct plan_sled *s, double from_edge, double other_from_edge)
{
    struct plan_fence *near = s->reference.side == FENCE_NEAR ? &s->reference : &s->other;
    struct plan_fence *far = s->reference.side == FENCE_NEAR ? &s->other : &s->reference;
    double near_edge = s->reference.side == FENCE_NEAR ? from_edge : other_from_edge;
    double far_edge = s->reference.side == FENCE_NEAR ? other_from_edge : from_edge;

    near->v_outer = near_edge;
    near->v_face = near_edge + near->thickness;
    far->v_outer = s->base_depth - far_edge;
    far->v_face = far->v_outer - far->thickness;
}

/* How far the blade stands out of the guarded fence on the stop, p(0). The guarded fence's outer face lies, from the
   stop: near fence: its own thickness; far fence: the room, of which W and a little is wanted, and the other's
   thickness. */
static double blade_past_fence(const struct sizing *z, const struct plan_sled *s)
{
    struct blade b = {z->job->saw.blade.diameter.v / 2, z->job->saw.blade.highest.v, z->job->saw.table.front_edge.v};
    struct travel_sizes t = {
        .blade = b, .side = s->reference.side, .least_above_work = s->least_above_work, .overrun = SLED_OVERRUN};
    double back = s->reference.side == FENCE_NEAR ? s->reference.thickness
                                                  : s->capacity_width + room_beyond_work + z->deeper + s->other.thickness;

    return travel_stop_face(&t, s->capacity_width) - back - (b.axis_y - blade_half_chord(b, 0));
}

/* Rules 4 and 5. */
void sizes_base_along(const struct sizing *z, struct plan_sled *s)
{
    bool near = s->reference.side == FENCE_NEAR;
    double layer = z->stocks.guard->thickness.v, from_edge, other_from_edge, behind_guarded;

    s->guard_layers = z->wish->guard_layers.given
                          ? z->wish->guard_layers.count
                          : sizing_layers(fmax(blade_past_fence(z, s), 0) + SLED_GUARD_MARGIN, layer, 1);
    s->guard_depth = s->guard_layers * layer;
    behind_guarded = sled_round_up(s->guard_depth, z->step);
    from_edge = sizing_given_or(&z->wish->reference_fence.from_edge, near ? behind_guarded : 0);
    other_from_edge = sizing_given_or(&z->wish->other_fence.from_edge, near ? 0 : behind_guarded);
    s->base_depth =
        sizing_given_or(&z->wish->base_depth, sled_round_up(from_edge + s->reference.thickness + s->capacity_width +
                                                         room_beyond_work + s->other.thickness + other_from_edge +
                                                         z->deeper,
                                                     z->step));
    place_fences_along(s, from_edge, other_from_edge);
    s->guard_v1 = near ? s->reference.v_outer : s->other.v_outer;
    s->guard_v0 = s->guard_v1 - s->guard_depth;
    s->guard_width = sizing_given_or(&z->wish->guard_width, sizing_figure(z, guard_width));
    s->guard_height = sizing_given_or(&z->wish->guard_height, near ? s->reference.height : s->other.height);
}

/* ---- runners ---- */

static double fit_step(const struct sizing *z)
{
    return z->job->units == UNITS_IN ? MM_PER_INCH / 1000 : 0.01;
}

struct width_range sizes_runner_widths(const struct sizing *z)
{
    const struct job_slots *slots = &z->job->saw.slots;
    const struct job_tolerances *t = &z->job->tolerances;
    double low = z->wood.known ? fmin(1, fmin(z->wood.r_driest, z->wood.r_dampest)) : 1;
    double high = z->wood.known ? fmax(1, fmax(z->wood.r_driest, z->wood.r_dampest)) : 1;

    return wood_runner_widths(slots->width.v, slots->width_widest.v, t->side_play_low.v, t->side_play_high.v, low,
                              high);
}

double sizes_yaw_limit(const struct job *job, double times)
{
    return times * job->tolerances.squareness.error.v;
}

/* Rule 9: the middle of what fits, or as much more as yaw asks for, short of binding at one per cent more moisture. */
static double guide_width(const struct sizing *z, const struct plan_sled *s, struct width_range range)
{
    double middle = (range.low + range.high) / 2, step = fit_step(z);
    double most = range.high * (1 - z->wood.per_percent);
    double width = sled_round_down(middle, step);
    struct sled_engaged e = sled_guide_engaged(z->job, s, s->capacity_width);

    if (middle - width > step / 2)
        width += step;
    if (width < range.low || width > range.high)
        width = middle; /* less room than a rounding step */
    if (fmin(e.touch, e.stop) <= 0)
        return width;
    while (sled_yaw(z->job, e, &z->wood, width) > sizes_yaw_limit(z->job, SLED_YAW_CAUTION) && width + step <= most)
        width += step;
    return width;
}

static double free_width(const struct sizing *z, const struct plan_sled *s, double guide)
{
    double spacing = s->runner[SIDE_RIGHT].slot_x - s->runner[SIDE_LEFT].slot_x;
    double shift = sled_base_shift_most(z->job, z->stocks.base, spacing);

    return sled_round_down(guide - 2 * (isnan(shift) ? 0 : shift) - free_runner_extra, fit_step(z));
}

static void size_runners(struct sizing *z, struct plan_sled *s)
{
    struct width_range range = sizes_runner_widths(z);
    double thickness_step = z->job->units == UNITS_IN ? MM_PER_INCH / 32 : 0.5;
    double thickness = sled_round_down(z->job->saw.slots.depth.v - SLED_RUNNER_BELOW_SLOT, thickness_step);
    double guide;

    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        s->runner[side].thickness = sizing_given_or(&z->wish->runner_thickness, thickness);
        s->runner[side].length = sled_runner_full_length(z->job, s);
        s->runner[side].v0 = 0;
    }
    guide = z->wish->runner_width.given ? z->wish->runner_width.v : guide_width(z, s, range);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++)
        s->runner[side].width =
            s->runner[side].is_guide ? guide : sizing_given_or(&z->wish->runner_free_width, free_width(z, s, guide));
    s->plane_to = z->no_width ? NAN : guide;
    if (!z->no_width && (guide < range.low || guide > range.high))
        s->plane_to = guide_width(z, s, range);
    s->mc_fitting = z->wood.mc_fitting;
    s->mc_driest = z->wood.mc_driest;
    s->mc_dampest = z->wood.mc_dampest;
}

/* ---- the stop ---- */

/* Cuts that runner so that a block before the table's far edge meets its end. False, and nothing changed, where that
   leaves too little of it. */
static bool cut_runner(const struct sizing *z, struct plan_sled *s, enum side side, double most, bool wanted)
{
    struct plan_runner *r = &s->runner[side];
    double full = r->length;
    struct sled_engaged e;

    if (!r->present || most < SLED_LEAST_SHORT_RUNNER)
        return false;
    r->length = fmin(full, most);
    if (!r->is_guide || wanted || r->length == full)
        return true;
    e = sled_guide_engaged(z->job, s, s->capacity_width);
    if (fmin(e.touch, e.stop) >= SLED_ENGAGED_LEAST * r->length &&
        sled_yaw(z->job, e, &z->wood, r->width) <= sizes_yaw_limit(z->job, SLED_YAW_CAUTION))
        return true;
    r->length = full;
    return false;
}

/* Rule 10. */
static void place_stop(const struct sizing *z, struct plan_sled *s)
{
    struct travel_sizes t = sled_travel_sizes(z->job, s);
    double edge = travel_edge_stop(&t, s->capacity_width), most;
    enum side guide = s->runner[SIDE_LEFT].is_guide ? SIDE_LEFT : SIDE_RIGHT;
    enum side other = guide == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;

    s->stop_length = sizing_given_or(&z->wish->travel_stop_length, sizing_figure(z, stop_length));
    most = sled_round_down(z->job->saw.table.depth.v - s->stop_length - edge, z->step);
    s->stop_slot = s->runner[other].present ? other : guide;
    if (z->wish->travel_stop_in_given)
        s->stop_slot = z->wish->travel_stop_in;
    s->stop_in_slot = cut_runner(z, s, s->stop_slot, most, z->wish->travel_stop_in_given);
    s->stop_y = edge + (s->stop_in_slot ? s->runner[s->stop_slot].v0 + s->runner[s->stop_slot].length : s->base_depth);
}

static void tell_travel(const struct sizing *z, struct plan_sled *s)
{
    struct travel_sizes t = sled_travel_sizes(z->job, s);
    double w = s->capacity_width, edge_stop = travel_edge_stop(&t, w);

    s->travel = (struct plan_travel){
        .blade_radius = t.blade.radius,
        .blade_axis_y = t.blade.axis_y,
        .highest = t.blade.highest,
        .y_stop = travel_stop_face(&t, w),
        .edge_start = travel_edge_start(&t, w),
        .edge_stop = edge_stop,
        .edge_parked = travel_edge_parked(&t),
        .y_near_face = t.side == FENCE_FAR ? edge_stop + s->other.v_face : NAN,
        .bare_start = travel_bare_start(&t, w),
        .bare_stop = travel_bare_stop(&t, w),
        .guard_needed = travel_reach(&t, w, 0),
        .setting_above_table = s->base_thickness + s->capacity_thickness + s->blade_above_work,
    };
}

/* All that hangs on the widest work. */
void sizes_for_width(struct sizing *z, double width, struct plan_sled *s)
{
    s->capacity_width = width;
    sizes_base_along(z, s);
    size_runners(z, s);
    place_stop(z, s);
    tell_travel(z, s);
}
