/* Checks of the blade, the stop, the guard, the fences and the knife. Limits without a source are common practice. */
#include "plan/checking.h"

#include "plan/fence.h"

#include <math.h>

static const double high_fence = 150;   /* over this a fence wants handles */
static const double bending_share = 10; /* a hand may bend the fence by a tenth of the tolerance */

/* ---- blade, stop, guard ---- */

void check_thickness_capacity(struct checking *k)
{
    bool asked = k->wish->capacity_thickness.given;
    double low = asked ? k->s->capacity_thickness : NAN;
    double value = travel_capacity(k->travel.blade, k->s->base_thickness, k->s->blade_above_work);
    struct plan_check *c = check_measure(k, CHECK_THICKNESS_CAPACITY, value, low, NAN);

    check_mark_at(c, &k->wish->capacity_thickness);
    check_say_why(c, asked ? "check.thickness_capacity.why" : "check.thickness_capacity.why.not_asked");
    check_say_also(c, "above", SAY_SIZE, k->s->blade_above_work);
}

void check_travel_stop(struct checking *k)
{
    double y = k->s->travel.y_stop, reach = travel_reach(&k->travel, k->s->capacity_width, 0);
    double guard = fmin(k->s->guard_depth, travel_guarded_v(&k->travel));
    struct plan_check *c = check_measure(k, CHECK_TRAVEL_STOP, y, y - SLED_OVERRUN, y + guard - reach - SLED_GUARD_MARGIN);

    if (k->wish->guard_layers.given)
        c->mark = k->wish->guard_layers.mark;
}

void check_exit_guard_depth(struct checking *k)
{
    double reach = travel_reach(&k->travel, k->s->capacity_width, 0), behind = travel_guarded_v(&k->travel);
    double value = fmin(k->s->guard_depth, behind);
    struct plan_check *c = check_measure(k, CHECK_EXIT_GUARD_DEPTH, value, fmax(reach, 0) + SLED_GUARD_MARGIN, NAN);

    if (k->wish->guard_layers.given)
        c->mark = k->wish->guard_layers.mark;
    if (k->s->guard_depth > behind + 1e-9)
        check_say_why(c, "check.exit_guard_depth.why.edge");
    check_say_also(c, "reach", SAY_THICKNESS, fmax(reach, 0)); /* as it is drawn */
    check_say_also(c, "margin", SAY_SIZE, SLED_GUARD_MARGIN);
}

void check_exit_guard_height(struct checking *k)
{
    double z0 = travel_exit_height(&k->travel, k->s->capacity_width);
    double fence = k->s->reference.side == FENCE_NEAR ? k->s->reference.height : k->s->other.height;
    double low = isnan(z0) ? NAN : fmin(z0 - k->s->base_thickness + SLED_GUARD_MARGIN, fence);
    struct plan_check *c = check_measure(k, CHECK_EXIT_GUARD_HEIGHT, k->s->guard_height, low, NAN);

    check_mark_at(c, &k->wish->guard_height);
    if (isnan(z0))
        check_say_why(c, "check.exit_guard_height.why.not_reached");
}

/* ---- fences ---- */

/* The fence whose bridge has least to spare. */
void check_fence_bridge(struct checking *k)
{
    const struct plan_fence *r = &k->s->reference, *o = &k->s->other;
    bool reference = r->bridge - fence_bridge_wanted(r->height) <= o->bridge - fence_bridge_wanted(o->height) + 1e-9;
    const struct plan_fence *f = reference ? r : o;
    struct plan_check *c = check_measure(k, CHECK_FENCE_BRIDGE, f->bridge, fence_bridge_wanted(f->height), NAN);
    double tallest = fmax(r->height, o->height);

    check_mark_at(c, reference ? &k->wish->reference_fence.height : &k->wish->other_fence.height);
    check_say_why(c, reference ? "check.fence_bridge.why" : "check.fence_bridge.why.other");
    if (c->verdict == VERDICT_PASS && check_above(tallest, high_fence)) {
        check_verdict_is(c, VERDICT_CAUTION);
        check_say_why(c, "check.fence_bridge.why.high");
    }
    check_say_also(c, "height", SAY_SIZE, c->verdict == VERDICT_CAUTION ? tallest : f->height);
}

void check_fence_bending(struct checking *k)
{
    const struct plan_fence *f = &k->s->reference;
    const struct job_stock *stock = k->stocks.reference;
    const struct job_limit *t = &k->job->tolerances.squareness;
    double inertia = fence_inertia(f->layer_heights, f->layers, f->thickness / f->layers, f->height - f->bridge);
    double stiffness = material_stiffness(&stock->material, stock->thickness.v);
    struct plan_check *c;

    if (!(inertia > 0) || !(stiffness > 0)) {
        check_leave_out(k, "assumed.no_bending");
        return;
    }
    c = check_measure(k, CHECK_FENCE_BENDING, fence_angle(SLED_HAND_FORCE, 2 * SLED_SCREW_AXIS, stiffness, inertia), NAN,
                t->error.v / t->over.v / bending_share);
    if (k->wish->reference_fence.layers.given)
        c->mark = k->wish->reference_fence.layers.mark;
    c->why = SAYING("check.fence_bending.why", SAY_ARG("force", SAY_FORCE, SLED_HAND_FORCE),
                    SAY_ARG("span", SAY_SIZE, 2 * SLED_SCREW_AXIS), SAY_ARG("turn", SAY_UNSIGNED, c->value * t->over.v),
                    SAY_ARG("over", SAY_SIZE, t->over.v), SAY_ARG("most", SAY_UNSIGNED, c->high * t->over.v));
}

/* ---- knife ---- */

static void check_knife_size(struct checking *k)
{
    const struct job_knife *knife = &k->job->saw.knife;
    const struct job_blade *blade = &k->job->saw.blade;
    double low = blade->plate.given ? blade->plate.v : NAN;
    struct plan_check *c = check_measure(k, CHECK_RIVING_KNIFE, knife->thickness.v, low, blade->kerf.v);
    bool touches = knife->thickness.v >= blade->kerf.v - 1e-9 || knife->thickness.v <= low + 1e-9;

    check_mark_at(c, &knife->thickness);
    check_verdict_is(c, touches ? VERDICT_FAIL : VERDICT_PASS);
    if (!blade->plate.given)
        check_leave_out(k, "assumed.no_plate");
    if (knife->below_top.given && check_below(knife->below_top.v, 0)) {
        check_verdict_is(c, VERDICT_FAIL);
        check_mark_at(c, &knife->below_top);
        check_say_why(c, touches ? "check.riving_knife.why.both" : "check.riving_knife.why.high");
        check_say_also(c, "over", SAY_SIZE, -knife->below_top.v);
    } else if (!knife->below_top.given && c->verdict == VERDICT_PASS) {
        check_verdict_is(c, VERDICT_CAUTION);
        check_say_why(c, "check.riving_knife.why.top_unknown");
    }
}

void check_riving_knife(struct checking *k)
{
    const struct job_knife *knife = &k->job->saw.knife;
    struct plan_check *c;

    if ((knife->kind == KNIFE_RIVING || knife->kind == KNIFE_SPLITTER) && knife->thickness.given) {
        check_knife_size(k);
        return;
    }
    c = check_measure(k, CHECK_RIVING_KNIFE, NAN, NAN, k->job->saw.blade.kerf.v);
    c->mark = k->job->saw.mark;
    if (knife->kind == KNIFE_NONE) {
        check_say_why(c, "check.riving_knife.why.none");
        return;
    }
    check_verdict_is(c, VERDICT_CAUTION);
    check_say_why(c, "check.riving_knife.why.unknown");
    c->remedy = SAYING_PLAIN("check.riving_knife.remedy"); /* no number helps */
}
