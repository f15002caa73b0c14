/* Thousands of saws at random, each sled looked over by a judge of its own (judge.h): it agrees on every limit, passes
   every derived sled, finds hardly wider work by trying sizes in 5 mm steps, and no sled at all where one is refused. */
#include "close.h"
#include "judge.h"
#include "plan_jobs.h"
#include "random.h"

#include <stdio.h>
#include <string.h>

enum { NEAR_SAWS = 2500, FAR_SAWS = 1000 };
static const double shrinkage = 4.8;  /* hard maple, radial: Wood Handbook table 4-3 */
static const double step = 5;         /* of the search */

/* How closely the judge looks. */
struct look {
    double work_step;           /* of the widths of work that are weighed */
    double little, force, ratio; /* what does not make a sled unsound: mm, N, share */
};
static const struct look at_a_plan = {1, 0.02, 0.2, 0.005}, at_a_try = {20, 1e-6, 0, 0};

/* ---- saws ---- */

static void random_wide_saw(struct random *r, struct test_job *t, bool air)
{
    struct job *j = &t->job;
    double diameter = round(random_between(r, 160, 400)), depth = round(diameter * random_between(r, 1.5, 4));

    empty_job(t);
    set_saw(j, diameter, 2.6, round(diameter * random_between(r, 0.25, 0.4)), round(depth * random_between(r, 0.4, 0.7)), depth);
    set_slots(j, round(random_between(r, 12, 30) * 10) / 10, round(random_between(r, 7, 12) * 10) / 10);
    if (random_below(r, 4) > 0)
        j->saw.slots.left = given(round(random_between(r, 80, 220)));
    if (random_below(r, 4) > 0 || !j->saw.slots.left.given)
        j->saw.slots.right = given(round(random_between(r, 80, 220)));
    if (random_below(r, 2)) {
        j->saw.table.left_of_blade = given(round(random_between(r, 300, 500)));
        j->saw.table.width = given(j->saw.table.left_of_blade.v + round(random_between(r, 300, 700)));
    }
    t->stock[0] = plywood("thin", round(random_between(r, 90, 125)) / 10, random_below(r, 2) ? 1220 : 1500, random_below(r, 2) ? 610 : 1220);
    t->stock[1] = plywood("thick", round(random_between(r, 145, 188)) / 10, 1220, 610);
    t->stock[2] = maple_strip("maple", 20, 40, random_below(r, 2) ? 1200 : 700);
    j->n_stock = 3;
    if (random_below(r, 4) == 0) /* an equally wide free runner, which binds when the base moves */
        j->jig.as.sled.runner_free_width = given(j->saw.slots.width.v - 0.12);
    if (air) {
        double fitting = round(random_between(r, 42, 58));
        j->air = (struct job_air){.given = true,
                                  .at_fitting = climate(round(random_between(r, 15, 22)), fitting),
                                  .driest = climate(round(random_between(r, 18, 24)), fitting - round(random_between(r, 2, 14))),
                                  .dampest = climate(round(random_between(r, 12, 20)), fitting + round(random_between(r, 2, 14)))};
    }
}

/* ---- the plan's sizes as the judge reads them ---- */

static void read_fence(const struct plan_fence *f, double density, struct judge_fence *out)
{
    *out = (struct judge_fence){f->v_outer, f->v_face, f->thickness / f->layers, f->length, f->x0, density * 1e-9, f->layers, {0}};
    for (int i = 0; i < f->layers; i++)
        out->heights[i] = f->layer_heights[i];
}

static void read_sled(const struct plan *p, struct judge_sled *d)
{
    const struct plan_sled *s = &p->sled;

    *d = (struct judge_sled){
        .far = s->reference.side == FENCE_FAR,
        .work_width = s->capacity_width, .work_thickness = s->capacity_thickness,
        .base_x0 = s->base_x0, .base_width = s->base_width, .base_depth = s->base_depth, .base_thickness = s->base_thickness,
        .base_density = 685e-9, .guard_density = 685e-9,
        .guard_depth = s->guard_depth, .guard_width = s->guard_width, .guard_height = s->guard_height,
        .guide = s->runner[SIDE_LEFT].is_guide ? SIDE_LEFT : SIDE_RIGHT,
    };
    read_fence(&s->reference, 685, &d->reference);
    read_fence(&s->other, 685, &d->other);
    for (int i = 0; i < 2; i++)
        d->runner[i] = (struct judge_runner){s->runner[i].present, s->runner[i].slot_x, s->runner[i].width, s->runner[i].thickness,
                                             s->base_depth, s->runner[i].length, 700e-9};
}

/* ---- agreement ---- */

struct opinion {
    const struct plan *plan;
    int saw;
    int disagreements;
};

static bool is_near(double a, double b, double within)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= within;
}

static void agree(struct opinion *o, enum check_id id, double value, double low, double high, double within)
{
    const struct plan_check *c = plan_find_check(o->plan, id);

    bool past = value < low - within || value > high + within; /* false where either is NAN */

    if (c && is_near(c->value, value, within) && is_near(c->low, low, within) && is_near(c->high, high, within) &&
        !(past && c->verdict == VERDICT_PASS))
        return;
    o->disagreements++;
    print_error("saw %d, %s: plan %g in %g to %g, judge %g in %g to %g\n", o->saw, plan_check_name(id), c ? c->value : NAN,
                c ? c->low : NAN, c ? c->high : NAN, value, low, high);
}

static double force_or_none(struct judge_tip t)
{
    double force = judge_bears(t);

    return isinf(force) ? NAN : force;
}

/* Far more than a hand presses, or than tips the sled, or nothing that does: both say so, and that is enough. */
static bool is_much(double force)
{
    return isnan(force) || force > 1000;
}

static bool agree_it_is_much(const struct opinion *o, enum check_id id, double force)
{
    const struct plan_check *c = plan_find_check(o->plan, id);

    return c && is_much(c->value) && is_much(force);
}

static void agree_on_force(struct opinion *o, enum check_id id, struct judge_tip t)
{
    double force = force_or_none(t);

    if (!agree_it_is_much(o, id, force))
        agree(o, id, force, 50, NAN, 0.2);
}

static void agree_on_blade(struct opinion *o, const struct judge_saw *s, const struct judge_sled *d)
{
    double face = judge_stop(s, d) + d->reference.face, reach = judge_reach(s, d), outer = judge_near_fence(d)->outer;
    double guard = fmin(d->guard_depth, outer), height = NAN;

    if (reach > 0)
        height = fmin(judge_height_before(s, judge_stop(s, d) + outer) - d->base_thickness + JUDGE_MARGIN, judge_tallest(judge_near_fence(d)));
    agree(o, CHECK_THICKNESS_CAPACITY, s->highest - d->base_thickness - o->plan->sled.blade_above_work, NAN, NAN, 1e-6);
    agree(o, CHECK_TRAVEL_STOP, face, face - JUDGE_OVERRUN, face + guard - reach - JUDGE_MARGIN, 0.01);
    agree(o, CHECK_EXIT_GUARD_DEPTH, guard, fmax(reach, 0) + JUDGE_MARGIN, NAN, 0.01);
    agree(o, CHECK_EXIT_GUARD_HEIGHT, d->guard_height, height, NAN, 0.01);
}

static void agree_on_fences(struct opinion *o, const struct judge_saw *s, const struct judge_sled *d, double stiffness)
{
    double above = s->highest - d->base_thickness, r = judge_tallest(&d->reference), t = judge_tallest(&d->other);
    double want_r = fmax(20, r / 4), want_t = fmax(20, t / 4);
    bool reference = r - above - want_r <= t - above - want_t;

    agree(o, CHECK_FENCE_BRIDGE, (reference ? r : t) - above, reference ? want_r : want_t, NAN, 1e-6);
    agree(o, CHECK_FENCE_BENDING, judge_bending(&d->reference, above, stiffness), NAN, 0.10 / 300 / 10, 1e-7);
}

/* A free runner that the program sizes never binds before the guide does, however the base moves. */
static void agree_on_free_runner(struct opinion *o, const struct job *j, const struct judge_sled *d, const struct judge_wood *w)
{
    const double widths[] = {1, w->driest, w->dampest};
    double slot = j->saw.slots.width.v, shift = (d->runner[1].x - d->runner[0].x) * 2.0e-5 * w->swing;

    for (size_t i = 0; !j->jig.as.sled.runner_free_width.given && i < 3; i++) {
        double guide = slot - d->runner[d->guide].width * widths[i], other = slot - d->runner[1 - d->guide].width * widths[i];
        if (judge_pair(guide, other, shift) >= guide - 1e-9)
            continue;
        o->disagreements++;
        print_error("saw %d: the runners bind together sooner than the guide alone\n", o->saw);
    }
}

static void agree_on_runners(struct opinion *o, const struct job *j, const struct judge_saw *s, const struct judge_sled *d,
                             const struct judge_wood *w)
{
    const struct judge_runner *g = &d->runner[d->guide], *f = &d->runner[1 - d->guide];
    double slot = j->saw.slots.width.v, engaged = judge_least_engaged(s, d), most = fmax(1, fmax(w->driest, w->dampest));
    double least = fmin(1, fmin(w->driest, w->dampest));
    double shift = (d->runner[1].x - d->runner[0].x) * 2.0e-5 * w->swing;

    agree(o, CHECK_RUNNER_HEIGHT, g->thickness, NAN, j->saw.slots.depth.v - 0.5, 1e-6);
    agree(o, CHECK_RUNNER_ENGAGED, engaged / g->length, 0.5, NAN, 1e-4);
    agree(o, CHECK_RUNNER_PLAY, slot - g->width, 0.05, 0.25, 1e-6);
    agree(o, CHECK_RUNNER_WIDTH_TO_PLANE, g->width, (slot - 0.25) / least, (slot - 0.05) / most, 0.003);
    agree(o, CHECK_RUNNER_YAW, (slot - g->width * least) / engaged * 300, NAN, 0.20, 0.005);
    if (j->air.given) {
        agree(o, CHECK_RUNNER_PLAY_DRIEST, slot - g->width * w->driest, 0.05, 0.25, 0.003);
        agree(o, CHECK_RUNNER_PLAY_DAMPEST, slot - g->width * w->dampest, 0.05, 0.25, 0.003);
    }
    if (!f->present)
        return;
    agree_on_free_runner(o, j, d, w);
    if (j->air.given) {
        double dry = judge_pair(slot - g->width * w->driest, slot - f->width * w->driest,
                                (d->runner[1].x - d->runner[0].x) * 2.0e-5 * (j->air.at_fitting.humidity.v - j->air.driest.humidity.v));
        double damp = judge_pair(slot - g->width * w->dampest, slot - f->width * w->dampest,
                                 (d->runner[1].x - d->runner[0].x) * 2.0e-5 * (j->air.dampest.humidity.v - j->air.at_fitting.humidity.v));
        agree(o, CHECK_RUNNER_PAIR_PLAY, fmin(judge_pair(slot - g->width, slot - f->width, 0), fmin(dry, damp)), 0.05, NAN, 0.003);
    } else {
        agree(o, CHECK_RUNNER_PAIR_PLAY, judge_pair(slot - g->width, slot - f->width, shift), 0.05, NAN, 1e-6);
    }
}

static void agree_on_balance(struct opinion *o, const struct judge_saw *s, const struct judge_sled *d)
{
    double parked = judge_parked_ratio(s, d, 1);

    agree_on_force(o, CHECK_TIPPING_NEAR, judge_tip_near(s, d, 1));
    agree_on_force(o, CHECK_TIPPING_FAR, judge_tip_far(s, d, 1));
    parked = isinf(parked) ? NAN : parked;
    if (!agree_it_is_much(o, CHECK_TIPPING_PARKED, parked))
        agree(o, CHECK_TIPPING_PARKED, parked, 1.2, NAN, 0.002 * parked);
    if (!isnan(s->table_left)) {
        struct judge_tip left = judge_tip_side(d, s->table_left, 1), right = judge_tip_side(d, s->table_right, -1);
        agree_on_force(o, CHECK_TIPPING_SIDE, judge_bears(left) < judge_bears(right) ? left : right);
    }
}

/* Where the sled stands, and the block that halts it. */
static void agree_on_travel(struct opinion *o, const struct judge_saw *s, const struct judge_sled *d)
{
    const struct plan_sled *p = &o->plan->sled;
    const struct plan_travel *t = &p->travel;
    const struct judge_runner *r = &d->runner[p->stop_slot];
    double stop = judge_stop(s, d);
    const double pairs[][2] = {
        {t->y_stop, stop + d->reference.face},
        {t->edge_stop, stop},
        {t->edge_start, judge_touch(s, d, d->work_width) - JUDGE_CLEARANCE},
        {t->edge_parked, judge_parked(s, d)},
        {t->guard_needed, judge_reach(s, d)},
        {t->y_near_face, d->far ? stop + d->other.face : NAN},
        {t->bare_start, d->far ? 2 * s->axis - s->front_at_base - (judge_touch(s, d, d->work_width) - JUDGE_CLEARANCE + d->reference.outer) : NAN},
        {t->bare_stop, d->far ? stop + d->reference.face - d->work_width - s->front_at_base : NAN},
        {p->stop_y, stop + (p->stop_in_slot ? r->length : d->base_depth)},
    };

    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (!is_near(pairs[i][0], pairs[i][1], 0.01)) {
            o->disagreements++;
            print_error("saw %d, place %zu: plan %g, judge %g\n", o->saw, i, pairs[i][0], pairs[i][1]);
        }
    if (p->stop_in_slot && p->stop_y + p->stop_length > s->table_depth + 1e-6) {
        o->disagreements++;
        print_error("saw %d: the stop hangs over the table's far edge\n", o->saw);
    }
}

/* Whether work that wide finds the guide half in its slot and the sled on the table. */
static bool can_cut(const struct judge_saw *s, const struct judge_sled *d, double width)
{
    struct judge_sled wide = *d;

    wide.work_width = width;
    return judge_least_engaged(s, &wide) >= d->runner[d->guide].length / 2 - 1e-6 && judge_tip_near_with(s, &wide, width, 20).moment > 0 &&
           judge_tip_far(s, &wide, 20).moment > 0;
}

/* By trying: the room, then a millimetre less at a time. */
static void agree_on_widest(struct opinion *o, const struct judge_saw *s, const struct judge_sled *d)
{
    double width = judge_room(d);

    if (!can_cut(s, d, width))
        for (width = floor(width); width > 0 && !can_cut(s, d, width);)
            width--;
    agree(o, CHECK_WIDEST_WORK, width, NAN, NAN, 1.01);
}

/* ---- the judge's own verdict ---- */

/* The guard's height over the blade where that comes out of the fence. */
static bool guard_is_high_enough(const struct judge_saw *s, const struct judge_sled *d, const struct look *l)
{
    const struct judge_fence *f = judge_near_fence(d);
    double out = judge_height_before(s, judge_stop(s, d) + f->outer);

    return d->guard_height >= fmin(out - d->base_thickness + JUDGE_MARGIN, judge_tallest(f)) - l->little;
}

static bool has_bridge(const struct judge_saw *s, const struct judge_sled *d, const struct judge_fence *f, const struct look *l)
{
    double height = judge_tallest(f);

    return height - (s->highest - d->base_thickness) >= fmax(20, height / 4) - l->little;
}

static bool stays_put(const struct judge_saw *s, const struct judge_sled *d, const struct look *l)
{
    struct judge_tip near_tip = judge_tip_near_with(s, d, d->work_width, l->work_step), far_tip;

    if (near_tip.moment <= 0 || judge_bears(near_tip) < JUDGE_HAND - l->force || judge_parked_ratio(s, d, l->work_step) < JUDGE_ON_OVERTURNING - l->ratio)
        return false;
    far_tip = judge_tip_far(s, d, l->work_step);
    return far_tip.moment > 0 && (!d->far || judge_bears(far_tip) > JUDGE_HAND - l->force);
}

static bool is_sound(const struct job *j, const struct judge_saw *s, const struct judge_sled *d, const struct judge_wood *w, const struct look *l)
{
    const struct judge_runner *g = &d->runner[d->guide];
    double reach = judge_reach(s, d), engaged = judge_least_engaged(s, d);
    double thinnest = g->width * fmin(1, fmin(w->driest, w->dampest));

    return engaged >= (g->length - l->little) / 2 && g->thickness <= j->saw.slots.depth.v - 0.5 + l->little &&
           (j->saw.slots.width.v - thinnest) / engaged * 300 <= 0.30 + l->ratio && judge_room(d) >= d->work_width - l->little &&
           fmin(d->guard_depth, judge_near_fence(d)->outer) >= fmax(reach, 0) + JUDGE_MARGIN - l->little &&
           has_bridge(s, d, &d->reference, l) && has_bridge(s, d, &d->other, l) && stays_put(s, d, l) &&
           (reach <= 0 || guard_is_high_enough(s, d, l));
}

static bool fits(double length, double width, double along, double across)
{
    return length <= along + 0.01 && width <= across + 0.01;
}

static bool fits_stock(const struct job *j, const struct judge_sled *d)
{
    const struct job_stock *base = &j->stock[0], *thick = &j->stock[1];

    return (fits(d->base_width, d->base_depth, base->sheet_along.v, base->sheet_across.v) ||
            fits(d->base_depth, d->base_width, base->sheet_along.v, base->sheet_across.v)) &&
           fits(d->reference.length, judge_tallest(&d->reference), thick->sheet_along.v, thick->sheet_across.v) &&
           d->base_depth <= j->stock[2].length.v + 0.01;
}

/* ---- the judge's own search ---- */

static double up_to(double x, double by)
{
    return ceil(x / by - 1e-6) * by;
}

/* What stays the same for every width of work. False: the saw leaves less than 10 mm for the work. */
static bool begin_search(const struct job *j, const struct judge_wood *w, bool far, double stiffness, struct judge_sled *d)
{
    const struct job_slots *slots = &j->saw.slots;
    const struct num *distance[2] = {&slots->left, &slots->right};
    double above = j->saw.blade.highest.v - j->stock[0].thickness.v, reach[2], height = 1, layer = j->stock[1].thickness.v;
    double low = (slots->width.v - 0.25) / fmin(1, fmin(w->driest, w->dampest));
    double high = (slots->width.v - 0.05) / fmax(1, fmax(w->driest, w->dampest));

    *d = (struct judge_sled){.far = far, .base_thickness = j->stock[0].thickness.v, .base_density = 685e-9, .guard_density = 685e-9,
                             .work_thickness = above - 5, .guard_width = 100};
    if (d->work_thickness < 10 || low > high)
        return false;
    for (int i = 0; i < 2; i++)
        reach[i] = up_to(fmax(350, distance[i]->given ? distance[i]->v + 60 : 0), 10);
    if (j->saw.table.width.given) {
        reach[0] = fmin(reach[0], j->saw.table.left_of_blade.v);
        reach[1] = fmin(reach[1], j->saw.table.width.v - j->saw.table.left_of_blade.v);
    }
    d->base_x0 = -reach[0];
    d->base_width = reach[0] + reach[1];
    while (height - above < fmax(20, height / 4))
        height += 1;
    d->guard_height = height;
    for (int i = 0; i < 40; i++)
        d->reference.heights[i] = d->other.heights[i] = height;
    d->reference.layer = d->other.layer = layer;
    d->reference.length = d->other.length = d->base_width;
    d->reference.x0 = d->other.x0 = d->base_x0;
    d->reference.density = d->other.density = 685e-9;
    d->other.layers = (int)up_to(15 / layer, 1);
    d->reference.layers = 2;
    while (judge_bending(&d->reference, above, stiffness) > 0.10 / 300 / 10)
        d->reference.layers++;
    d->guide = slots->right.given && (!slots->left.given || slots->right.v < slots->left.v);
    for (int i = 0; i < 2; i++)
        d->runner[i] = (struct judge_runner){.present = distance[i]->given && distance[i]->v + slots->width.v / 2 <= reach[i],
                                             .x = i ? distance[i]->v : -distance[i]->v, .width = floor(100 * fmax(high * (1 - w->percent), (low + high) / 2)) / 100,
                                             .thickness = floor(2 * (slots->depth.v - 0.5)) / 2, .density = 700e-9};
    if (!d->runner[d->guide].present)
        d->guide = 1 - d->guide;
    return d->runner[d->guide].present;
}

static void set_along(struct judge_sled *d, double depth, double from_edge)
{
    struct judge_fence *near = d->far ? &d->other : &d->reference, *far = d->far ? &d->reference : &d->other;

    d->base_depth = depth;
    near->outer = from_edge;
    near->face = from_edge + near->layers * near->layer;
    far->outer = depth;
    far->face = depth - far->layers * far->layer;
    for (int i = 0; i < 2; i++)
        d->runner[i].full = d->runner[i].length = depth;
}

/* Is there any sled for work as wide as that? Deeper bases and edges are tried as well. */
static bool width_can_be_had(const struct job *j, const struct judge_saw *s, const struct judge_wood *w, struct judge_sled *d, double width)
{
    double layer = d->reference.layer, thick = (d->reference.layers + d->other.layers) * layer, most = 1500, reach;

    d->work_width = width;
    set_along(d, 1000, 0); /* how far the blade reaches out does not hang on the edge, but on the room */
    for (double room = width + 10; room <= width + 300; room += step) {
        set_along(d, thick + room, 0);
        reach = judge_reach(s, d);
        d->guard_depth = up_to((fmax(reach, 0) + JUDGE_MARGIN) / layer, 1) * layer;
        for (double edge = up_to(d->guard_depth, step); edge <= up_to(d->guard_depth, step) + 40; edge += 4 * step) {
            double depth = edge + thick + room;
            if (depth > most)
                break;
            set_along(d, depth, edge);
            if (!fits_stock(j, d))
                break;
            if (is_sound(j, s, d, w, &at_a_try))
                return true;
        }
    }
    return false;
}

/* Not narrower than `least`; 0: there is none. */
static double widest_by_search(const struct job *j, bool far, double stiffness, double least, struct judge_sled *d)
{
    struct judge_saw s = judge_read_saw(j, j->stock[0].thickness.v, 5);
    struct judge_wood w = judge_read_wood(j, shrinkage);

    if (!begin_search(j, &w, far, stiffness, d))
        return 0;
    for (double width = 600; width >= least; width -= step)
        if (width_can_be_had(j, &s, &w, d, width))
            return width;
    return 0;
}

/* ---- screws ---- */

static void look_at_screws(const struct plan *p, struct opinion *o)
{
    double least = INFINITY;

    for (size_t i = 0; i < p->n_holes; i++) {
        const struct plan_hole *h = &p->holes[i];
        const struct plan_fence *f = fabs(h->v - (p->sled.reference.v_outer + p->sled.reference.v_face) / 2) <
                                             fabs(h->v - (p->sled.other.v_outer + p->sled.other.v_face) / 2)
                                         ? &p->sled.reference
                                         : &p->sled.other;
        double layer = f->thickness / f->layers, in = fabs(h->v - f->v_face) / layer;
        bool bad = fabs(h->x) - h->head_diameter / 2 < 40 - 1e-6;
        if (!h->from_above) /* the middle of one layer, tip inside */
            bad = bad || fabs(in - floor(in) - 0.5) > 0.01 || in > f->layers || h->screw_length - p->sled.base_thickness > f->height - 2 ||
                  h->x < f->x0 || h->x > f->x0 + f->length;
        if (bad) {
            o->disagreements++;
            print_error("saw %d: a screw at %g, %g\n", o->saw, h->x, h->v);
        }
        least = fmin(least, fabs(h->x) - h->head_diameter / 2);
    }
    agree(o, CHECK_SCREW_FREE_STRIP, least, 40, NAN, 1e-6);
}

/* ---- all of it ---- */

struct tally {
    int made, refused, wrongly_refused, narrow, unsound, disagreements;
};

static void judge_made(const struct job *j, const struct plan *p, bool far, double stiffness, int i, struct tally *t)
{
    struct opinion o = {p, i, 0};
    struct judge_sled d, best;
    struct judge_saw s = judge_read_saw(j, p->sled.base_thickness, p->sled.blade_above_work);
    struct judge_wood w = judge_read_wood(j, shrinkage);
    double widest;

    read_sled(p, &d);
    agree_on_blade(&o, &s, &d);
    agree_on_fences(&o, &s, &d, stiffness);
    agree_on_runners(&o, j, &s, &d, &w);
    agree_on_balance(&o, &s, &d);
    agree_on_travel(&o, &s, &d);
    agree_on_widest(&o, &s, &d);
    look_at_screws(p, &o);
    t->disagreements += o.disagreements;
    if (!is_sound(j, &s, &d, &w, &at_a_plan) || !fits_stock(j, &d)) {
        t->unsound++;
        print_error("saw %d: the judge does not pass the sled\n", i);
    }
    widest = widest_by_search(j, far, stiffness, p->sled.capacity_width / 0.9 + 1e-6, &best);
    if (widest > 0) {
        t->narrow++;
        print_error("saw %d: work %g wide is offered, %g can be had with a base %g deep (plan %g)\n", i, p->sled.capacity_width, widest,
                    best.base_depth, p->sled.base_depth);
    }
}

static struct tally judge_saws(uint64_t seed, int saws, bool far)
{
    struct random r = {seed};
    struct tally t = {0};
    static struct test_job job;

    for (int i = 0; i < saws; i++) {
        struct diags diags = {0};
        struct plan plan;
        double stiffness;

        random_wide_saw(&r, &job, i % 2);
        job.job.jig.as.sled.reference_fence.side = far ? FENCE_FAR : FENCE_NEAR;
        job.job.jig.as.sled.reference_fence.side_given = far;
        stiffness = material_stiffness(&job.stock[1].material, job.stock[1].thickness.v);
        if (plan_build(&job.job, &diags, &plan)) {
            t.made++;
            judge_made(&job.job, &plan, far, stiffness, i, &t);
        } else {
            struct judge_sled best;
            double widest = widest_by_search(&job.job, far, stiffness, 100, &best);
            t.refused++;
            if (widest > 0) {
                t.wrongly_refused++;
                print_error("saw %d refused (%s), but work %g wide can be had with a base %g deep\n", i, diags.list[0].detail, widest, best.base_depth);
            }
        }
        plan_free(&plan);
        diags_free(&diags);
    }
    print_message("%d sleds, %d refused\n", t.made, t.refused);
    return t;
}

static void expect_agreement(struct tally t, int saws)
{
    assert_true(t.made > saws / 4 && t.refused > 0);
    assert_int_equal(t.disagreements, 0);
    assert_int_equal(t.unsound, 0);
    assert_int_equal(t.narrow, 0);
    assert_int_equal(t.wrongly_refused, 0);
}

static void test_plan_build_near_fences_judged(void **state)
{
    (void)state;
    expect_agreement(judge_saws(20261201, NEAR_SAWS, false), NEAR_SAWS);
}

static void test_plan_build_far_fences_judged(void **state)
{
    (void)state;
    expect_agreement(judge_saws(20261202, FAR_SAWS, true), FAR_SAWS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_build_near_fences_judged),
        cmocka_unit_test(test_plan_build_far_fences_judged),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
