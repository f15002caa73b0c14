/* The checks of a sled, one function each: value, limits, verdict, and which sentence is true. What to write into the
   job instead is found by remedy.c. Limits without a source are common practice. */
#include "plan/build.h"

#include "plan/fence.h"
#include "plan/sled.h"
#include "plan/stock_fit.h"

#include <math.h>

static const double high_fence = 150;              /* over this a fence wants handles */
static const double bending_share = 10;            /* a hand may bend the fence by a tenth of the tolerance */
static const double yaw_caution = 2, yaw_fail = 3; /* times the tolerance */
static const double runner_below_slot = 0.5;

struct checking {
    struct plan_builder *b;
    const struct job *job;
    const struct job_sled *wish;
    const struct plan_sled *s;
    struct sled_stocks stocks;
    struct runner_wood wood;
    struct travel_sizes travel;
};

/* What a value past its limits is called, and whether that can hurt someone. */
static const struct severity {
    enum verdict verdict;
    bool hurts;
} severities[CHECKS] = {
    [CHECK_THICKNESS_CAPACITY] = {VERDICT_FAIL, false},
    [CHECK_TRAVEL_STOP] = {VERDICT_FAIL, true},
    [CHECK_EXIT_GUARD_DEPTH] = {VERDICT_FAIL, true},
    [CHECK_EXIT_GUARD_HEIGHT] = {VERDICT_FAIL, true},
    [CHECK_FENCE_BRIDGE] = {VERDICT_FAIL, true},
    [CHECK_FENCE_BENDING] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY_DRIEST] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PLAY_DAMPEST] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_PAIR_PLAY] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_WIDTH_TO_PLANE] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_YAW] = {VERDICT_CAUTION, false},
    [CHECK_RUNNER_HEIGHT] = {VERDICT_FAIL, false},
    [CHECK_RUNNER_ENGAGED] = {VERDICT_FAIL, false},
    [CHECK_TIPPING_NEAR] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_FAR] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_SIDE] = {VERDICT_CAUTION, true},
    [CHECK_TIPPING_PARKED] = {VERDICT_CAUTION, false},
    [CHECK_WIDEST_WORK] = {VERDICT_FAIL, false},
    [CHECK_RIVING_KNIFE] = {VERDICT_FAIL, true},
    [CHECK_FIVE_CUT_STRIP] = {VERDICT_CAUTION, false},
};

static const struct check_words {
    const char *why;
    enum say_kind kind;
} check_words[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = {"check." name ".why", say},
#include "plan/checks.inc"
#undef CHECK
};

/* ---- helpers ---- */

static bool below(double value, double low)
{
    return value < low - 1e-9; /* false where either is NAN */
}

static bool above(double value, double high)
{
    return value > high + 1e-9;
}

static void say_why(struct plan_check *c, const char *key)
{
    enum say_kind kind = check_words[c->id].kind;

    c->why =
        SAYING(key, SAY_ARG("value", kind, c->value), SAY_ARG("low", kind, c->low), SAY_ARG("high", kind, c->high));
}

/* One more number for the sentence. */
static void say_also(struct plan_check *c, const char *name, enum say_kind kind, double number)
{
    for (int i = 0; i < SAY_MOST_ARGS; i++)
        if (!c->why.arg[i].name) {
            c->why.arg[i] = (struct say_arg)SAY_ARG(name, kind, number);
            return;
        }
}

static void set_verdict(struct plan_check *c, enum verdict verdict)
{
    c->verdict = verdict;
    c->hurts = verdict == VERDICT_FAIL && severities[c->id].hurts;
}

static struct plan_check *measure(struct checking *k, enum check_id id, double value, double low, double high)
{
    struct plan_check *c = build_add_check(k->b, id);

    c->value = value;
    c->low = low;
    c->high = high;
    c->mark = k->job->jig.mark;
    set_verdict(c, below(value, low) || above(value, high) ? severities[id].verdict : VERDICT_PASS);
    say_why(c, check_words[id].why);
    return c;
}

static void mark_at(struct plan_check *c, const struct num *n)
{
    if (n->given)
        c->mark = n->mark;
}

static void leave_out(struct checking *k, const char *key)
{
    build_add_assumed(k->b, SAYING_PLAIN(key));
}

/* ---- blade, stop, guard ---- */

static void check_thickness_capacity(struct checking *k)
{
    bool asked = k->wish->capacity_thickness.given;
    double low = asked ? k->s->capacity_thickness : NAN;
    double value = travel_capacity(k->travel.blade, k->s->base_thickness, k->s->blade_above_work);
    struct plan_check *c = measure(k, CHECK_THICKNESS_CAPACITY, value, low, NAN);

    mark_at(c, &k->wish->capacity_thickness);
    say_why(c, asked ? "check.thickness_capacity.why" : "check.thickness_capacity.why.not_asked");
    say_also(c, "above", SAY_SIZE, k->s->blade_above_work);
}

static void check_travel_stop(struct checking *k)
{
    double y = k->s->travel.y_stop, reach = travel_reach(&k->travel, k->s->capacity_width, 0);
    double guard = fmin(k->s->guard_depth, travel_guarded_v(&k->travel));
    struct plan_check *c = measure(k, CHECK_TRAVEL_STOP, y, y - SLED_OVERRUN, y + guard - reach - SLED_GUARD_MARGIN);

    if (k->wish->guard_layers.given)
        c->mark = k->wish->guard_layers.mark;
}

static void check_exit_guard_depth(struct checking *k)
{
    double reach = travel_reach(&k->travel, k->s->capacity_width, 0), behind = travel_guarded_v(&k->travel);
    double value = fmin(k->s->guard_depth, behind);
    struct plan_check *c = measure(k, CHECK_EXIT_GUARD_DEPTH, value, fmax(reach, 0) + SLED_GUARD_MARGIN, NAN);

    if (k->wish->guard_layers.given)
        c->mark = k->wish->guard_layers.mark;
    if (k->s->guard_depth > behind + 1e-9)
        say_why(c, "check.exit_guard_depth.why.edge");
    say_also(c, "reach", SAY_SIZE, fmax(reach, 0));
    say_also(c, "margin", SAY_SIZE, SLED_GUARD_MARGIN);
}

static void check_exit_guard_height(struct checking *k)
{
    double z0 = travel_exit_height(&k->travel, k->s->capacity_width);
    double fence = k->s->reference.side == FENCE_NEAR ? k->s->reference.height : k->s->other.height;
    double low = isnan(z0) ? NAN : fmin(z0 - k->s->base_thickness + SLED_GUARD_MARGIN, fence);
    struct plan_check *c = measure(k, CHECK_EXIT_GUARD_HEIGHT, k->s->guard_height, low, NAN);

    mark_at(c, &k->wish->guard_height);
    if (isnan(z0))
        say_why(c, "check.exit_guard_height.why.not_reached");
}

/* ---- fences ---- */

/* The fence whose bridge has least to spare. */
static void check_fence_bridge(struct checking *k)
{
    const struct plan_fence *r = &k->s->reference, *o = &k->s->other;
    bool reference = r->bridge - fence_bridge_wanted(r->height) <= o->bridge - fence_bridge_wanted(o->height) + 1e-9;
    const struct plan_fence *f = reference ? r : o;
    struct plan_check *c = measure(k, CHECK_FENCE_BRIDGE, f->bridge, fence_bridge_wanted(f->height), NAN);
    double tallest = fmax(r->height, o->height);

    mark_at(c, reference ? &k->wish->reference_fence.height : &k->wish->other_fence.height);
    say_why(c, reference ? "check.fence_bridge.why" : "check.fence_bridge.why.other");
    if (c->verdict == VERDICT_PASS && above(tallest, high_fence)) {
        set_verdict(c, VERDICT_CAUTION);
        say_why(c, "check.fence_bridge.why.high");
    }
    say_also(c, "height", SAY_SIZE, c->verdict == VERDICT_CAUTION ? tallest : f->height);
}

static void check_fence_bending(struct checking *k)
{
    const struct plan_fence *f = &k->s->reference;
    const struct job_stock *stock = k->stocks.reference;
    const struct job_limit *t = &k->job->tolerances.squareness;
    double inertia = fence_inertia(f->layer_heights, f->layers, f->thickness / f->layers, f->height - f->bridge);
    double stiffness = material_stiffness(&stock->material, stock->thickness.v);
    struct plan_check *c;

    if (!(inertia > 0) || !(stiffness > 0)) {
        leave_out(k, "assumed.no_bending");
        return;
    }
    c = measure(k, CHECK_FENCE_BENDING, fence_angle(SLED_HAND_FORCE, 2 * SLED_SCREW_AXIS, stiffness, inertia), NAN,
                t->error.v / t->over.v / bending_share);
    if (k->wish->reference_fence.layers.given)
        c->mark = k->wish->reference_fence.layers.mark;
    c->why = SAYING("check.fence_bending.why", SAY_ARG("force", SAY_FORCE, SLED_HAND_FORCE),
                    SAY_ARG("span", SAY_SIZE, 2 * SLED_SCREW_AXIS), SAY_ARG("turn", SAY_UNSIGNED, c->value * t->over.v),
                    SAY_ARG("over", SAY_SIZE, t->over.v), SAY_ARG("most", SAY_UNSIGNED, c->high * t->over.v));
}

/* ---- runners ---- */

/* The narrowest place of the slot decides binding, the widest rattling. */
static struct plan_check *measure_play(struct checking *k, enum check_id id, double ratio)
{
    const struct job_slots *slots = &k->job->saw.slots;
    const struct job_tolerances *t = &k->job->tolerances;
    double width = sled_guide(k->s)->width * ratio, narrow = slots->width.v - width,
           wide = slots->width_widest.v - width;
    bool rattles = !below(narrow, t->side_play_low.v) && above(wide, t->side_play_high.v);
    struct plan_check *c = measure(k, id, rattles ? wide : narrow, t->side_play_low.v, t->side_play_high.v);

    mark_at(c, &k->wish->runner_width);
    return c;
}

static void check_runner_play(struct checking *k)
{
    measure_play(k, CHECK_RUNNER_PLAY, 1);
}

static void check_runner_play_driest(struct checking *k)
{
    if (k->wood.known)
        measure_play(k, CHECK_RUNNER_PLAY_DRIEST, k->wood.r_driest);
    else
        leave_out(k, "assumed.no_driest");
}

static void check_runner_play_dampest(struct checking *k)
{
    if (k->wood.known)
        measure_play(k, CHECK_RUNNER_PLAY_DAMPEST, k->wood.r_dampest);
    else
        leave_out(k, "assumed.no_dampest");
}

static double pair_play(const struct checking *k, double ratio, double shift)
{
    const struct plan_runner *r = k->s->runner;
    double slot = k->job->saw.slots.width.v;

    return wood_pair_play(slot - r[SIDE_LEFT].width * ratio, slot - r[SIDE_RIGHT].width * ratio, shift);
}

static void check_runner_pair_play(struct checking *k)
{
    const struct plan_runner *r = k->s->runner;
    double spacing = r[SIDE_RIGHT].slot_x - r[SIDE_LEFT].slot_x, value;
    double most = sled_base_shift_most(k->job, k->stocks.base, spacing);
    struct plan_check *c;

    if (!r[SIDE_LEFT].present || !r[SIDE_RIGHT].present)
        return; /* one runner: nothing to fight with */
    if (isnan(most)) {
        leave_out(k, "assumed.no_pair_play");
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
    c = measure(k, CHECK_RUNNER_PAIR_PLAY, value, k->job->tolerances.side_play_low.v, NAN);
    c->fail_low = 0;
    if (value <= 1e-9)
        set_verdict(c, VERDICT_FAIL);
    mark_at(c, &k->wish->runner_free_width);
    say_also(c, "shift", SAY_FIT, most);
}

static void check_runner_width_to_plane(struct checking *k)
{
    double width = sled_guide(k->s)->width, low = k->s->plane_low, high = k->s->plane_high;
    struct plan_check *c = measure(k, CHECK_RUNNER_WIDTH_TO_PLANE, width, low, high);

    mark_at(c, &k->wish->runner_width);
    if (low > high) {
        set_verdict(c, VERDICT_CAUTION);
        say_why(c, "check.runner_width_to_plane.why.none");
        say_also(c, "short", SAY_FIT, low - high);
    } else if (c->verdict != VERDICT_PASS) {
        say_why(c, width > high ? "check.runner_width_to_plane.why.wide" : "check.runner_width_to_plane.why.slack");
    } else if (!k->wood.known) {
        set_verdict(c, VERDICT_CAUTION);
        say_why(c, "check.runner_width_to_plane.why.no_air");
    } else if ((high - low) / 2 < width * k->wood.per_percent) {
        set_verdict(c, VERDICT_CAUTION);
        say_why(c, "check.runner_width_to_plane.why.tight");
        say_also(c, "percent", SAY_FIT, width * k->wood.per_percent);
    }
}

static void check_runner_yaw(struct checking *k)
{
    const struct job_limit *t = &k->job->tolerances.squareness;
    struct sled_engaged e = sled_guide_engaged(k->job, k->s, k->s->capacity_width);
    struct plan_check *c;

    if (fmin(e.touch, e.stop) <= 0)
        return; /* the runner is out of its slot: runner_engaged says so */
    c = measure(k, CHECK_RUNNER_YAW, sled_yaw(k->job, e, &k->wood, sled_guide(k->s)->width), NAN,
                yaw_caution * t->error.v);
    c->fail_high = yaw_fail * t->error.v;
    if (above(c->value, c->fail_high))
        set_verdict(c, VERDICT_FAIL);
    mark_at(c, &k->wish->runner_width);
    say_also(c, "over", SAY_SIZE, t->over.v);
    say_also(c, "engaged", SAY_SIZE, fmin(e.touch, e.stop));
}

static void check_runner_height(struct checking *k)
{
    struct plan_check *c = measure(k, CHECK_RUNNER_HEIGHT, sled_guide(k->s)->thickness, NAN,
                                   k->job->saw.slots.depth.v - runner_below_slot);

    mark_at(c, &k->wish->runner_thickness);
    say_also(c, "slot", SAY_THICKNESS, k->job->saw.slots.depth.v);
}

static void check_runner_engaged(struct checking *k)
{
    struct sled_engaged e = sled_guide_engaged(k->job, k->s, k->s->capacity_width);
    double length = sled_guide(k->s)->length;
    struct plan_check *c = measure(k, CHECK_RUNNER_ENGAGED, fmin(e.touch, e.stop) / length, SLED_ENGAGED_LEAST, NAN);

    mark_at(c, &k->wish->capacity_width);
    say_also(c, "touch", SAY_SIZE, e.touch);
    say_also(c, "stop", SAY_SIZE, e.stop);
}

/* ---- tipping ---- */

/* The sentences of one edge. */
struct tipping_words {
    const char *inside, *bears, *light, *falls;
};
#define TIPPING_WORDS(id) \
    {"check." id ".why.inside", "check." id ".why", "check." id ".why.light", "check." id ".why.falls"}
static const struct tipping_words near_words = TIPPING_WORDS("tipping_near"), far_words = TIPPING_WORDS("tipping_far"),
                                  side_words = TIPPING_WORDS("tipping_side");

static struct plan_check *check_tipping(struct checking *k, enum check_id id, const struct sled_tipping *t,
                                        const struct tipping_words *words, enum verdict light)
{
    struct plan_check *c = measure(k, id, t->force, SLED_HAND_FORCE, NAN);

    if (t->moment <= 0) {
        set_verdict(c, VERDICT_FAIL);
        say_why(c, words->falls);
    } else if (isnan(t->force)) {
        say_why(c, words->inside);
    } else {
        set_verdict(c, below(t->force, SLED_HAND_FORCE) ? light : VERDICT_PASS);
        say_why(c, c->verdict == VERDICT_PASS ? words->bears : words->light);
    }
    c->fail_low = light == VERDICT_FAIL ? NAN : 0;
    mark_at(c, &k->wish->capacity_width);
    say_also(c, "out", SAY_SIZE, fmax(-t->arm, 0));
    return c;
}

static void check_tipping_near(struct checking *k)
{
    struct sled_tipping t = sled_tip_near(k->job, k->s, k->s->capacity_width);

    check_tipping(k, CHECK_TIPPING_NEAR, &t, &near_words, VERDICT_CAUTION);
}

/* The hand is on the reference fence at the end of every cut; on the other fence it need not be. */
static void check_tipping_far(struct checking *k)
{
    struct sled_tipping t = sled_tip_far(k->job, k->s, k->s->capacity_width);
    bool reference = k->s->reference.side == FENCE_FAR;

    check_tipping(k, CHECK_TIPPING_FAR, &t, &far_words, reference ? VERDICT_FAIL : VERDICT_CAUTION);
}

static void check_tipping_side(struct checking *k)
{
    struct sled_tipping t;

    if (sled_tip_side(k->job, k->s, k->s->capacity_width, &t))
        check_tipping(k, CHECK_TIPPING_SIDE, &t, &side_words, VERDICT_CAUTION);
    else
        leave_out(k, "assumed.no_side_tipping");
}

static void check_tipping_parked(struct checking *k)
{
    double ratio = sled_parked_ratio(k->job, k->s);
    struct plan_check *c = measure(k, CHECK_TIPPING_PARKED, isinf(ratio) ? NAN : ratio, BALANCE_MARGIN, NAN);

    if (isinf(ratio))
        say_why(c, "check.tipping_parked.why.inside");
    else if (c->verdict != VERDICT_PASS)
        say_why(c, "check.tipping_parked.why.light");
}

static void check_widest_work(struct checking *k)
{
    bool asked = k->wish->capacity_width.given;
    double room = travel_room(&k->travel), value = sled_widest_work(k->job, k->s);
    struct plan_check *c = measure(k, CHECK_WIDEST_WORK, value, asked ? k->s->capacity_width : NAN, NAN);

    mark_at(c, &k->wish->capacity_width);
    if (below(value, room))
        say_why(c, "check.widest_work.why.travel");
    say_also(c, "room", SAY_SIZE, room);
}

/* ---- knife, strip, stock ---- */

static void check_knife_size(struct checking *k)
{
    const struct job_knife *knife = &k->job->saw.knife;
    const struct job_blade *blade = &k->job->saw.blade;
    double low = blade->plate.given ? blade->plate.v : NAN;
    struct plan_check *c = measure(k, CHECK_RIVING_KNIFE, knife->thickness.v, low, blade->kerf.v);
    bool touches = knife->thickness.v >= blade->kerf.v - 1e-9 || knife->thickness.v <= low + 1e-9;

    mark_at(c, &knife->thickness);
    set_verdict(c, touches ? VERDICT_FAIL : VERDICT_PASS);
    if (!blade->plate.given)
        leave_out(k, "assumed.no_plate");
    if (knife->below_top.given && below(knife->below_top.v, 0)) {
        set_verdict(c, VERDICT_FAIL);
        mark_at(c, &knife->below_top);
        say_why(c, touches ? "check.riving_knife.why.both" : "check.riving_knife.why.high");
        say_also(c, "over", SAY_SIZE, -knife->below_top.v);
    } else if (!knife->below_top.given && c->verdict == VERDICT_PASS) {
        set_verdict(c, VERDICT_CAUTION);
        say_why(c, "check.riving_knife.why.top_unknown");
    }
}

static void check_riving_knife(struct checking *k)
{
    const struct job_knife *knife = &k->job->saw.knife;
    struct plan_check *c;

    if ((knife->kind == KNIFE_RIVING || knife->kind == KNIFE_SPLITTER) && knife->thickness.given) {
        check_knife_size(k);
        return;
    }
    c = measure(k, CHECK_RIVING_KNIFE, NAN, NAN, k->job->saw.blade.kerf.v);
    c->mark = k->job->saw.mark;
    if (knife->kind == KNIFE_NONE) {
        say_why(c, "check.riving_knife.why.none");
        return;
    }
    set_verdict(c, VERDICT_CAUTION);
    say_why(c, "check.riving_knife.why.unknown");
}

static double least_reading(const struct five_cut_readings *f)
{
    double least = INFINITY;

    for (size_t i = 0; i < f->n_strips; i++) {
        const struct readings *ends[] = {&f->strips[i].fence_end, &f->strips[i].far_end};
        for (size_t e = 0; e < 2; e++)
            for (size_t m = 0; m < ends[e]->n; m++)
                least = fmin(least, ends[e]->v[m]);
    }
    return least;
}

static void check_five_cut_strip(struct checking *k)
{
    const struct job_test *last = NULL;
    struct plan_check *c;

    for (size_t i = 0; i < k->job->n_tests; i++)
        if (k->job->tests[i].method == METHOD_FIVE_CUT && k->job->tests[i].as.five_cut.n_strips > 0)
            last = &k->job->tests[i];
    if (!last) {
        leave_out(k, "assumed.no_strip");
        return;
    }
    c = measure(k, CHECK_FIVE_CUT_STRIP, least_reading(&last->as.five_cut), SLED_STRIP_LEAST, NAN);
    c->mark = last->mark;
    if (c->verdict != VERDICT_PASS)
        c->remedy = SAYING("check.five_cut_strip.remedy", SAY_ARG("low", SAY_FIT, SLED_STRIP_LEAST));
}

static void check_stock_fits(struct checking *k)
{
    stock_check_fits(k->b);
}

/* screw_free_strip and screw_length are made where the screws are placed. */
static void (*const checks[CHECKS])(struct checking *) = {
    [CHECK_THICKNESS_CAPACITY] = check_thickness_capacity,
    [CHECK_TRAVEL_STOP] = check_travel_stop,
    [CHECK_EXIT_GUARD_DEPTH] = check_exit_guard_depth,
    [CHECK_EXIT_GUARD_HEIGHT] = check_exit_guard_height,
    [CHECK_FENCE_BRIDGE] = check_fence_bridge,
    [CHECK_FENCE_BENDING] = check_fence_bending,
    [CHECK_RUNNER_PLAY] = check_runner_play,
    [CHECK_RUNNER_PLAY_DRIEST] = check_runner_play_driest,
    [CHECK_RUNNER_PLAY_DAMPEST] = check_runner_play_dampest,
    [CHECK_RUNNER_PAIR_PLAY] = check_runner_pair_play,
    [CHECK_RUNNER_WIDTH_TO_PLANE] = check_runner_width_to_plane,
    [CHECK_RUNNER_YAW] = check_runner_yaw,
    [CHECK_RUNNER_HEIGHT] = check_runner_height,
    [CHECK_RUNNER_ENGAGED] = check_runner_engaged,
    [CHECK_TIPPING_NEAR] = check_tipping_near,
    [CHECK_TIPPING_FAR] = check_tipping_far,
    [CHECK_TIPPING_SIDE] = check_tipping_side,
    [CHECK_TIPPING_PARKED] = check_tipping_parked,
    [CHECK_WIDEST_WORK] = check_widest_work,
    [CHECK_RIVING_KNIFE] = check_riving_knife,
    [CHECK_FIVE_CUT_STRIP] = check_five_cut_strip,
    [CHECK_STOCK_FITS] = check_stock_fits,
};

/* In the order of checks.inc, whoever made them; each id at most once. */
static void sort_checks(struct plan *p)
{
    for (size_t i = 1; i < p->n_checks; i++) {
        struct plan_check c = p->checks[i];
        size_t at = i;
        for (; at > 0 && p->checks[at - 1].id > c.id; at--)
            p->checks[at] = p->checks[at - 1];
        p->checks[at] = c;
    }
}

void sled_check(struct plan_builder *b)
{
    struct checking k = {
        .b = b, .job = b->job, .wish = &b->job->jig.as.sled, .s = &b->plan->sled, .stocks = sled_choose_stocks(b->job)};

    k.wood = sled_runner_wood(b->job, k.stocks.runner);
    k.travel = sled_travel_sizes(b->job, k.s);
    for (int id = 0; id < CHECKS; id++)
        if (checks[id])
            checks[id](&k);
    sort_checks(b->plan);
}
