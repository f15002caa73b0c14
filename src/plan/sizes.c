/* Every size of a sled: the job's where it is given, else derived by the rules below. Where the widest work is left
   out, widths are tried from the greatest down, each with all that hangs on it, until one makes a sound sled.

   The numbers of the rules are common practice, no source, unless said otherwise. */
#include "plan/build.h"

#include "plan/fence.h"
#include "plan/sled.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double least_capacity_thickness = 10;
static const double width_least = 100; /* of work, where the job leaves it out */
static const double side_beyond_slot = 60, side_least = 350;
static const double room_beyond_work = 10;
static const double deeper_most = 300, worth_deeper = 1.08;
static const double runner_below_slot = 0.5, free_runner_extra = 0.05;
static const double other_fence_least = 15;        /* thickness */
static const double yaw_caution = 2, yaw_fail = 3; /* times the tolerance */
enum { MOST_LAYERS = 40 };

/* A figure that is set by rule is round in the job's own unit. */
struct figure {
    double mm, in;
};
static const struct figure above_work = {5, 3.0 / 16}, fence_end_to_point = {50, 2}, guard_width = {100, 4};
static const struct figure stop_length = {60, 2.5}, keep_out = {SLED_KEEP_OUT, 3};
static const struct figure chamfer = {2, 1.0 / 16};

/* What a search for sizes works with. */
struct sizing {
    struct plan_builder *builder;
    const struct job *job;
    const struct job_sled *wish;
    struct sled_stocks stocks;
    struct runner_wood wood;
    double step;   /* derived sizes are rounded to it */
    double deeper; /* what a base of no given depth has beyond the least that the work needs */
    bool no_width; /* no runner width does over the year */
};

static double given_or(const struct num *n, double derived)
{
    return n->given ? n->v : derived;
}

static double round_figure(const struct sizing *z, struct figure f)
{
    return z->job->units == UNITS_IN ? f.in * MM_PER_INCH : f.mm;
}

static struct mark mark_of(const struct num *n, struct mark otherwise)
{
    return n->given ? n->mark : otherwise;
}

/* A length as the job's unit has it, for a message. */
static const char *length_text(const struct sizing *z, double mm)
{
    struct pool *pool = &z->builder->plan->pool;

    return z->job->units == UNITS_IN ? pool_printf(pool, "%.4g in", unit_inches(mm)) : pool_printf(pool, "%.4g mm", mm);
}

/* ---- layers and fences ---- */

static const double *equal_heights(struct sizing *z, int layers, double height)
{
    double *heights = pool_alloc(&z->builder->plan->pool, (size_t)layers * sizeof *heights);

    for (int i = 0; i < layers; i++)
        heights[i] = height;
    return heights;
}

static double tallest(const double *heights, int n)
{
    double most = heights[0];

    for (int i = 1; i < n; i++)
        most = fmax(most, heights[i]);
    return most;
}

static int count_layers(double wanted, double layer, int least)
{
    double n = ceil(wanted / layer - 1e-9);

    return (int)fmin(fmax(n, least), MOST_LAYERS);
}

/* Rule 3: thick enough that a hand does not bend the bridge by more than a tenth of the tolerance. */
static int reference_layers(const struct sizing *z, double height, double above_base)
{
    const struct job_limit *t = &z->job->tolerances.squareness;
    const struct job_stock *stock = z->stocks.reference;
    double bridge = fence_bridge(height, above_base), span = 2 * SLED_SCREW_AXIS;
    double stiffness = material_stiffness(&stock->material, stock->thickness.v);

    if (bridge <= 0)
        return 2; /* there is no bridge to stiffen: its own check fails */
    return count_layers(fence_thickness_wanted(SLED_HAND_FORCE, span, stiffness, bridge, t->error.v / t->over.v / 10),
                        stock->thickness.v, 2);
}

/* Rules 2 and 3. */
static void size_fence(struct sizing *z, const struct job_fence *wish, const struct job_stock *stock, bool reference,
                       double above_base, struct plan_fence *f)
{
    if (wish->layers.given && wish->layers.heights) {
        f->layers = wish->layers.count;
        f->layer_heights = wish->layers.heights;
        f->height = tallest(f->layer_heights, f->layers);
    } else {
        f->height = given_or(&wish->height, sled_round_up(fence_height_wanted(above_base), z->step));
        f->layers = wish->layers.given ? wish->layers.count
                    : reference        ? reference_layers(z, f->height, above_base)
                                       : count_layers(other_fence_least, stock->thickness.v, 1);
        f->layer_heights = equal_heights(z, f->layers, f->height);
    }
    f->thickness = f->layers * stock->thickness.v;
    f->bridge = fence_bridge(f->height, above_base);
}

/* ---- across ---- */

/* Rule 7: one side of the base from the blade plane. */
static double side_width(const struct sizing *z, const struct num *slot, double table)
{
    double wanted = fmax(slot->given ? slot->v + side_beyond_slot : 0, side_least);
    double step = z->job->units == UNITS_IN ? MM_PER_INCH / 2 : 10;

    wanted = sled_round_up(wanted, step);
    return table > 0 ? fmin(wanted, table) : wanted;
}

static void size_base_width(struct sizing *z, struct plan_sled *s)
{
    const struct job_slots *slots = &z->job->saw.slots;
    const struct job_table *table = &z->job->saw.table;
    bool known = table->width.given && table->left_of_blade.given;
    double left = side_width(z, &slots->left, known ? table->left_of_blade.v : 0);
    double right = side_width(z, &slots->right, known ? table->width.v - table->left_of_blade.v : 0);

    if (z->wish->base_width.given) {
        left = z->wish->base_width.v * left / (left + right);
        right = z->wish->base_width.v - left;
    }
    if (z->wish->base_left_of_blade.given) {
        if (z->wish->base_width.given)
            right = z->wish->base_width.v - z->wish->base_left_of_blade.v;
        left = z->wish->base_left_of_blade.v;
    }
    s->base_width = left + right;
    s->base_x0 = -left;
}

static void place_fence_across(const struct plan_sled *s, const struct job_fence *wish, struct plan_fence *f)
{
    f->length = given_or(&wish->length, s->base_width);
    f->x0 = s->base_x0 + (s->base_width - f->length) / 2;
}

static double point_x(const struct job_point *p)
{
    return p->side == SIDE_LEFT ? -p->from_blade.v : p->from_blade.v;
}

/* A place on that side, in from the fence's end, clear of the strip without screws. */
static double point_near_end(const struct sizing *z, const struct plan_fence *f, enum side side)
{
    double reach = side == SIDE_LEFT ? -f->x0 : f->x0 + f->length;
    double from_blade = fmax(reach - round_figure(z, fence_end_to_point), SLED_SCREW_AXIS);

    return side == SIDE_LEFT ? -from_blade : from_blade;
}

/* A point that the job states must lie on the fence. */
static bool check_point(struct sizing *z, const struct plan_fence *f, const struct job_point *p, const char *path)
{
    double reach = p->side == SIDE_LEFT ? -f->x0 : f->x0 + f->length;

    if (!p->given || p->from_blade.v <= reach)
        return true;
    return diag_at(z->builder->diags, DIAG_CONTRADICTION, p->from_blade.mark, path,
                   "%s from the blade plane is beyond the fence's end, which is %s from it on that side",
                   length_text(z, p->from_blade.v), length_text(z, reach));
}

/* Rule 8. */
static bool place_points(struct sizing *z, struct plan_sled *s)
{
    const struct job_fence *wish = &z->wish->reference_fence;
    const struct plan_fence *f = &s->reference;
    enum side longer = f->x0 + f->length > -f->x0 + 1e-9 ? SIDE_RIGHT : SIDE_LEFT;
    enum side pivot = longer;

    if (wish->moving.given)
        pivot = wish->moving.side == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    if (wish->pivot.given)
        pivot = wish->pivot.side;
    s->pivot_x = wish->pivot.given ? point_x(&wish->pivot) : point_near_end(z, f, pivot);
    s->moving_x =
        wish->moving.given ? point_x(&wish->moving) : point_near_end(z, f, pivot == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT);
    return check_point(z, f, &wish->pivot, "jig.reference_fence.pivot.from_blade") &&
           check_point(z, f, &wish->moving, "jig.reference_fence.moving.from_blade");
}

/* Rule 9: which slots; a slot that the base does not cover bears no runner. */
static bool choose_runners(struct sizing *z, struct plan_sled *s)
{
    const struct job_slots *slots = &z->job->saw.slots;
    const struct num *distance[2] = {[SIDE_LEFT] = &slots->left, [SIDE_RIGHT] = &slots->right};
    const double reach[2] = {[SIDE_LEFT] = -s->base_x0, [SIDE_RIGHT] = s->base_x0 + s->base_width};
    enum side guide;

    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        s->runner[side].slot_x = side == SIDE_LEFT ? -distance[side]->v : distance[side]->v;
        s->runner[side].present = distance[side]->given && distance[side]->v + slots->width.v / 2 <= reach[side];
    }
    if (!s->runner[SIDE_LEFT].present && !s->runner[SIDE_RIGHT].present)
        return diag_at(z->builder->diags, DIAG_NO_SLED, mark_of(&z->wish->base_width, z->wish->base_mark),
                       "jig.base.width", "the base, %s left and %s right of the blade, covers no mitre slot",
                       length_text(z, reach[0]), length_text(z, reach[1]));
    guide = slots->right.given && (!slots->left.given || slots->right.v < slots->left.v) ? SIDE_RIGHT : SIDE_LEFT;
    if (z->wish->guide_given)
        guide = z->wish->guide;
    if (!s->runner[guide].present)
        guide = guide == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    s->runner[guide].is_guide = true;
    return true;
}

/* Sizes on which the widest work has no say. */
static bool size_across(struct sizing *z, struct plan_sled *s)
{
    double above_base = z->job->saw.blade.highest.v - s->base_thickness;

    size_base_width(z, s);
    size_fence(z, &z->wish->reference_fence, z->stocks.reference, true, above_base, &s->reference);
    size_fence(z, &z->wish->other_fence, z->stocks.other, false, above_base, &s->other);
    place_fence_across(s, &z->wish->reference_fence, &s->reference);
    place_fence_across(s, &z->wish->other_fence, &s->other);
    return place_points(z, s) && choose_runners(z, s);
}

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
static void size_along(const struct sizing *z, struct plan_sled *s)
{
    bool near = s->reference.side == FENCE_NEAR;
    double layer = z->stocks.guard->thickness.v, from_edge, other_from_edge, behind_guarded;

    s->guard_layers = z->wish->guard_layers.given
                          ? z->wish->guard_layers.count
                          : count_layers(fmax(blade_past_fence(z, s), 0) + SLED_GUARD_MARGIN, layer, 1);
    s->guard_depth = s->guard_layers * layer;
    behind_guarded = sled_round_up(s->guard_depth, z->step);
    from_edge = given_or(&z->wish->reference_fence.from_edge, near ? behind_guarded : 0);
    other_from_edge = given_or(&z->wish->other_fence.from_edge, near ? 0 : behind_guarded);
    s->base_depth =
        given_or(&z->wish->base_depth, sled_round_up(from_edge + s->reference.thickness + s->capacity_width +
                                                         room_beyond_work + s->other.thickness + other_from_edge +
                                                         z->deeper,
                                                     z->step));
    place_fences_along(s, from_edge, other_from_edge);
    s->guard_v1 = near ? s->reference.v_outer : s->other.v_outer;
    s->guard_v0 = s->guard_v1 - s->guard_depth;
    s->guard_width = given_or(&z->wish->guard_width, round_figure(z, guard_width));
    s->guard_height = given_or(&z->wish->guard_height, near ? s->reference.height : s->other.height);
}

/* ---- runners ---- */

static double fit_step(const struct sizing *z)
{
    return z->job->units == UNITS_IN ? MM_PER_INCH / 1000 : 0.01;
}

static struct width_range runner_widths(const struct sizing *z)
{
    const struct job_slots *slots = &z->job->saw.slots;
    const struct job_tolerances *t = &z->job->tolerances;
    double low = z->wood.known ? fmin(1, fmin(z->wood.r_driest, z->wood.r_dampest)) : 1;
    double high = z->wood.known ? fmax(1, fmax(z->wood.r_driest, z->wood.r_dampest)) : 1;

    return wood_runner_widths(slots->width.v, slots->width_widest.v, t->side_play_low.v, t->side_play_high.v, low,
                              high);
}

static double yaw_limit(const struct job *job, double times)
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
    while (sled_yaw(z->job, e, &z->wood, width) > yaw_limit(z->job, yaw_caution) && width + step <= most)
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
    struct width_range range = runner_widths(z);
    double thickness_step = z->job->units == UNITS_IN ? MM_PER_INCH / 32 : 0.5;
    double thickness = sled_round_down(z->job->saw.slots.depth.v - runner_below_slot, thickness_step);
    double guide;

    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        s->runner[side].thickness = given_or(&z->wish->runner_thickness, thickness);
        s->runner[side].length = sled_runner_full_length(z->job, s);
        s->runner[side].v0 = 0;
    }
    guide = z->wish->runner_width.given ? z->wish->runner_width.v : guide_width(z, s, range);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++)
        s->runner[side].width =
            s->runner[side].is_guide ? guide : given_or(&z->wish->runner_free_width, free_width(z, s, guide));
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
        sled_yaw(z->job, e, &z->wood, r->width) <= yaw_limit(z->job, yaw_caution))
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

    s->stop_length = given_or(&z->wish->travel_stop_length, round_figure(z, stop_length));
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
        .guard_needed = travel_reach(&t, w, 0),
        .setting_above_table = s->base_thickness + s->capacity_thickness + s->blade_above_work,
    };
}

/* All that hangs on the widest work. */
static void size_for_width(struct sizing *z, double width, struct plan_sled *s)
{
    s->capacity_width = width;
    size_along(z, s);
    size_runners(z, s);
    place_stop(z, s);
    tell_travel(z, s);
}

/* ---- the widest work ---- */

static bool fence_fits(const struct plan_fence *f, const struct job_stock *stock, double trim)
{
    double along = stock->is_strip ? stock->length.v : stock->sheet_along.v;
    double across = stock->is_strip ? stock->strip_width.v : stock->sheet_across.v;

    return !(f->length > along - trim) &&
           !(f->height > across - (stock->is_strip ? 0 : trim)); /* true for NAN: not known */
}

/* Why a width is no good. */
enum obstacle {
    OBSTACLE_NONE,
    OBSTACLE_BASE_STOCK,
    OBSTACLE_FENCE_STOCK,
    OBSTACLE_RUNNER_STOCK,
    OBSTACLE_FAR,
    OBSTACLE_PARKED,
    OBSTACLE_ENGAGED_STOP,
    OBSTACLE_ENGAGED_TOUCH,
    OBSTACLE_NEAR,
    OBSTACLE_YAW,
    OBSTACLES
};
static const struct {
    const char *text;
    bool deeper_helps[2]; /* by enum fence_side: a base deeper than the work needs may do away with it */
} obstacles[OBSTACLES] = {
    [OBSTACLE_BASE_STOCK] = {"the base does not fit its sheet", {false, false}},
    [OBSTACLE_FENCE_STOCK] = {"a fence as long as the base does not fit its stock", {false, false}},
    [OBSTACLE_RUNNER_STOCK] = {"the runners do not fit their strip", {false, false}},
    [OBSTACLE_FAR] = {"the sled tips off the table's far edge at the end of the cut", {false, true}},
    [OBSTACLE_PARKED] = {"the sled tips off the table when it is drawn clear of the blade", {false, true}},
    [OBSTACLE_ENGAGED_STOP] = {"less than half of the guide runner stays in its slot at the end of the cut", {false, false}},
    [OBSTACLE_ENGAGED_TOUCH] = {"less than half of the guide runner is in its slot at the start of the cut", {true, false}},
    [OBSTACLE_NEAR] = {"the sled tips off the table's near edge at the start of the cut", {true, true}},
    [OBSTACLE_YAW] = {"the runner's play lets the sled yaw by more than three times the tolerance", {true, false}},
};

static enum obstacle stock_obstacle(const struct sizing *z, const struct plan_sled *s)
{
    const struct job_stock *base = z->stocks.base, *runner = z->stocks.runner;
    double trim = z->job->trim.given ? 2 * z->job->trim.v : 0;
    double long_side = fmax(base->sheet_along.v, base->sheet_across.v) - trim;
    double short_side = fmin(base->sheet_along.v, base->sheet_across.v) - trim;

    if (fmax(s->base_width, s->base_depth) > long_side || fmin(s->base_width, s->base_depth) > short_side)
        return OBSTACLE_BASE_STOCK;
    if (!fence_fits(&s->reference, z->stocks.reference, trim) || !fence_fits(&s->other, z->stocks.other, trim))
        return OBSTACLE_FENCE_STOCK;
    if (runner && runner->length.given && sled_runner_full_length(z->job, s) > runner->length.v - trim)
        return OBSTACLE_RUNNER_STOCK;
    return OBSTACLE_NONE;
}

static enum obstacle width_obstacle(const struct sizing *z, const struct plan_sled *s)
{
    enum obstacle stock = stock_obstacle(z, s);
    struct sled_engaged e;
    struct sled_tipping near, far;

    if (stock)
        return stock;
    e = sled_guide_engaged(z->job, s, s->capacity_width);
    far = sled_tip_far(z->job, s, s->capacity_width);
    if (far.moment <= 0 || (s->reference.side == FENCE_FAR && far.force < SLED_HAND_FORCE))
        return OBSTACLE_FAR;
    if (sled_parked_ratio(z->job, s) < BALANCE_MARGIN)
        return OBSTACLE_PARKED;
    if (e.stop < SLED_ENGAGED_LEAST * sled_guide(s)->length)
        return OBSTACLE_ENGAGED_STOP;
    if (e.touch < SLED_ENGAGED_LEAST * sled_guide(s)->length)
        return OBSTACLE_ENGAGED_TOUCH;
    near = sled_tip_near(z->job, s, s->capacity_width);
    if (near.moment <= 0 || near.force < SLED_HAND_FORCE)
        return OBSTACLE_NEAR;
    if (sled_yaw(z->job, e, &z->wood, sled_guide(s)->width) > yaw_limit(z->job, yaw_fail))
        return OBSTACLE_YAW;
    return OBSTACLE_NONE;
}

/* Sizes for work of one width; the base no deeper than it must be to have no obstacle, at most `deepest` beyond its
   least. Depth moves weight over the table before a near fence; behind a far one it saves layers of the guard. */
static enum obstacle try_width(struct sizing *z, double width, double deepest, struct plan_sled *s)
{
    double step = z->job->units == UNITS_IN ? MM_PER_INCH / 4 : 5;
    bool may_deepen = !z->wish->base_depth.given;
    enum obstacle o;

    z->deeper = 0;
    size_for_width(z, width, s);
    o = width_obstacle(z, s);
    while (may_deepen && obstacles[o].deeper_helps[s->reference.side] && z->deeper < deepest - 1e-9) {
        z->deeper += step;
        size_for_width(z, width, s);
        o = width_obstacle(z, s);
    }
    return o;
}

/* Not even on a base as small as it can be; s is sized no further than that. */
static enum obstacle stock_too_small(struct sizing *z, double width, struct plan_sled *s)
{
    z->deeper = 0;
    s->capacity_width = width;
    size_along(z, s);
    return stock_obstacle(z, s);
}

/* The widest work, not narrower than `least`; 0: there is none, and o is what speaks against the narrowest. */
static double try_widths(struct sizing *z, double least, double step, double deepest, struct plan_sled *s,
                         enum obstacle *o)
{
    for (double w = sled_round_down(SLED_WIDTH_MOST, step); w >= least - 1e-9; w -= step) {
        *o = stock_too_small(z, w, s);
        if (*o == OBSTACLE_NONE)
            *o = try_width(z, w, deepest, s);
        if (*o == OBSTACLE_NONE)
            return w;
    }
    return 0;
}

/* Rule 6. A base deeper than the work needs is heavy and in the way: it must gain a good part of the work's width. */
static bool search_width(struct sizing *z, struct plan_sled *s)
{
    double step = z->job->units == UNITS_IN ? MM_PER_INCH / 4 : 5, compact;
    enum obstacle o = OBSTACLE_NONE, o_deep;

    compact = try_widths(z, width_least, step, 0, s, &o);
    if (try_widths(z, fmax(width_least, worth_deeper * compact), step, deeper_most, s, &o_deep) > 0)
        return true;
    if (compact > 0)
        return try_width(z, compact, 0, s) == OBSTACLE_NONE;
    return diag_at(z->builder->diags, DIAG_NO_SLED, z->job->jig.mark, "jig.capacity.width",
                   "even for work of %s along the feed: %s", length_text(z, sled_round_up(width_least, step)),
                   obstacles[o].text);
}

/* Work of a given width gets its sled whatever speaks against it: the checks say so. */
static void size_given_width(struct sizing *z, struct plan_sled *s)
{
    double width = z->wish->capacity_width.v;

    if (try_width(z, width, deeper_most, s) != OBSTACLE_NONE)
        try_width(z, width, 0, s);
}

/* Rule 1. */
static bool size_heights(struct sizing *z, struct plan_sled *s)
{
    const struct job_blade *blade = &z->job->saw.blade;
    struct blade b = {blade->diameter.v / 2, blade->highest.v, z->job->saw.table.front_edge.v};
    double capacity;

    s->base_thickness = z->stocks.base->thickness.v;
    s->blade_above_work = given_or(&z->wish->blade_above_work, round_figure(z, above_work));
    s->least_above_work = fmin(SLED_LEAST_ABOVE_WORK, s->blade_above_work);
    capacity = travel_capacity(b, s->base_thickness, s->blade_above_work);
    s->capacity_thickness = given_or(&z->wish->capacity_thickness, capacity);
    if (fmin(capacity, s->capacity_thickness) < least_capacity_thickness && !z->wish->capacity_thickness.given)
        return diag_at(z->builder->diags, DIAG_NO_SLED, blade->highest.mark, "saw.blade.highest",
                       "a blade %s high over a base of %s leaves %s for the work: at least %s is wanted",
                       length_text(z, b.highest), length_text(z, s->base_thickness), length_text(z, fmax(capacity, 0)),
                       length_text(z, least_capacity_thickness));
    return true;
}

/* A width of the runner that is left out is refused, not guessed, where none does. */
static bool check_runner_width(struct sizing *z, struct plan_sled *s)
{
    struct width_range range = runner_widths(z);

    z->no_width = range.low > range.high;
    s->plane_low = range.low;
    s->plane_high = range.high;
    if (!z->no_width || z->wish->runner_width.given)
        return true;
    return diag_at(
        z->builder->diags, DIAG_NO_SLED, mark_of(&z->wish->runner_width, z->wish->runners_mark), "jig.runners.width",
        "no runner width keeps its play within limits all year: it would have to be at least %s and at most %s; "
        "upright rings, another species or steadier air would help",
        length_text(z, s->plane_low), length_text(z, s->plane_high));
}

bool sled_resolve(struct plan_builder *b)
{
    const struct job *job = b->job;
    struct plan_sled *s = &b->plan->sled;
    struct sizing z = {.builder = b,
                       .job = job,
                       .wish = &job->jig.as.sled,
                       .stocks = sled_choose_stocks(job),
                       .step = sled_least_edge_step(job->units)};

    assert(job->jig.given && job->jig.kind == JIG_CROSSCUT_SLED);
    if (!z.stocks.base)
        return diag_at(b->diags, DIAG_NO_SLED, job->jig.mark, "stock", "there is no sheet to make a base of");
    z.wood = sled_runner_wood(job, z.stocks.runner);
    s->chamfer = round_figure(&z, chamfer);
    s->keep_out = round_figure(&z, keep_out);
    s->screw_free = SLED_SCREW_FREE;
    s->reference.side = z.wish->reference_fence.side_given ? z.wish->reference_fence.side : FENCE_NEAR;
    s->other.side = s->reference.side == FENCE_NEAR ? FENCE_FAR : FENCE_NEAR;
    if (!size_heights(&z, s) || !size_across(&z, s) || !check_runner_width(&z, s))
        return false;
    if (z.wish->capacity_width.given)
        size_given_width(&z, s);
    else if (!search_width(&z, s))
        return false;
    b->plan->has_sled = true;
    return true;
}
