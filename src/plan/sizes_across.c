/* Across the feed: fences, the base's width, pivot and gauge, which slots bear runners. The rules' figures are common
   practice, no source. */
#include "plan/sizing.h"

#include "plan/fence.h"

#include <math.h>

static const double side_beyond_slot = 60, side_least = 350;
static const double other_fence_least = 15; /* thickness */
static const struct figure fence_end_to_point = {50, 2};

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

/* Rule 3: thick enough that a hand does not bend the bridge by more than a tenth of the tolerance. */
static int reference_layers(const struct sizing *z, double height, double above_base)
{
    const struct job_limit *t = &z->job->tolerances.squareness;
    const struct job_stock *stock = z->stocks.reference;
    double bridge = fence_bridge(height, above_base), span = 2 * SLED_SCREW_AXIS;
    double stiffness = material_stiffness(&stock->material, stock->thickness.v);

    if (bridge <= 0)
        return 2; /* there is no bridge to stiffen: its own check fails */
    return sizing_layers(fence_thickness_wanted(SLED_HAND_FORCE, span, stiffness, bridge, t->error.v / t->over.v / 10),
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
        f->height = sizing_given_or(&wish->height, sled_round_up(fence_height_wanted(above_base), z->step));
        f->layers = wish->layers.given ? wish->layers.count
                    : reference        ? reference_layers(z, f->height, above_base)
                                       : sizing_layers(other_fence_least, stock->thickness.v, 1);
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
        left = sizing_on_a_rule(z, z->wish->base_width.v * left / (left + right));
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
    f->length = sizing_given_or(&wish->length, s->base_width);
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
    double from_blade = fmax(sizing_on_a_rule(z, reach - sizing_figure(z, fence_end_to_point)), sled_round_up(SLED_SCREW_AXIS, z->step));

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
                   sizing_length_text(z, p->from_blade.v), sizing_length_text(z, reach));
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
        return diag_at(z->builder->diags, DIAG_NO_SLED, sizing_mark(&z->wish->base_width, z->wish->base_mark),
                       "jig.base.width", "the base, %s left and %s right of the blade, covers no mitre slot",
                       sizing_length_text(z, reach[0]), sizing_length_text(z, reach[1]));
    guide = slots->right.given && (!slots->left.given || slots->right.v < slots->left.v) ? SIDE_RIGHT : SIDE_LEFT;
    if (z->wish->guide_given)
        guide = z->wish->guide;
    if (!s->runner[guide].present)
        guide = guide == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    s->runner[guide].is_guide = true;
    return true;
}

/* Sizes on which the widest work has no say. */
bool sizes_across(struct sizing *z, struct plan_sled *s)
{
    double above_base = z->job->saw.blade.highest.v - s->base_thickness;

    size_base_width(z, s);
    size_fence(z, &z->wish->reference_fence, z->stocks.reference, true, above_base, &s->reference);
    size_fence(z, &z->wish->other_fence, z->stocks.other, false, above_base, &s->other);
    place_fence_across(s, &z->wish->reference_fence, &s->reference);
    place_fence_across(s, &z->wish->other_fence, &s->other);
    return place_points(z, s) && choose_runners(z, s);
}
