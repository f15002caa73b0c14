/* The screws of a sled: which, and where. All go through the base: from below into the fences' edges, from above into
   the runners. The guard has none: no metal stands where the blade comes out. */
#include "plan/build.h"
#include "plan/screws.h"
#include "plan/sled.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { MOST_IN_ROW = 64, MOST_BESIDE = 8, LATER_MOVES = 2 };

/* Common practice, no source, unless said. */
static const double FENCE_DIAMETERS = 7;  /* into a fence: Wood Handbook, full lateral load, from memory */
static const double RUNNER_DIAMETERS = 1; /* the runner is glued as well */
static const double FENCE_TIP = 2, RUNNER_TIP = 1;
static const double SHARE_WANTED = 1 / 4.5; /* of a layer's thickness or a runner's width, for the screw's diameter */
static const double SHARE_MOST = 0.3;
static const double END_DIAMETERS = 10; /* end distance and least spacing along the grain: from memory */
static const double SPACING_FIXED = 150, SPACING_FENCE = 200;
static const size_t RUNNER_LEAST = 5;                /* screws a runner */
static const double BESIDE_RUNNER = 2;               /* wood between a head and a runner */
static const double DENSITY_TO_GRAVITY = 1 / 1120.0; /* kg/m3 at 12 % moisture content: 1000 x 1.12 */

/* The screw of one joint as it is used, and the worst joint so far, for the check. */
struct joint_result {
    struct screw_joint joint;
    struct screw_fit fit;  /* from the rack: what the check is about */
    struct screw_fit used; /* the same, or one to buy */
    enum part_kind part;
    double margin; /* least spare of hold and tip; -INFINITY: no screw at all */
};

struct placing {
    struct plan_builder *b;
    enum units units;
    const struct screw_kind *rack;
    size_t n_rack;
    struct screw_gap runners[2]; /* along x, under the row being placed */
    size_t n_runners;
    double runner_thickness;
    struct joint_result worst;
    bool any;
};

/* A row of screws along a fence. */
struct fence_row {
    const struct plan_fence *fence;
    const struct plan_part *part;
    struct screw_fit fit;
    double v;       /* middle of the layer that takes the screws */
    double nearest; /* axes at least this far off the blade plane */
    double apart;   /* least spacing and end distance */
    double clear;   /* axes at least this far off a runner */
};

/* The job's rack as rows like those of the standard series. */
static void read_rack(struct placing *p)
{
    const struct job *job = p->b->job;
    if (!job->n_screws) {
        p->rack = screw_series(p->units, &p->n_rack);
        build_add_assumed(
            p->b, SAYING("assumed.screws", SAY_KEY("series", p->units == UNITS_IN ? "screws.inch" : "screws.metric")));
        return;
    }
    struct screw_kind *rack = pool_alloc(&p->b->plan->pool, job->n_screws * sizeof *rack);
    for (size_t i = 0; i < job->n_screws; i++) {
        const struct job_screw *s = &job->screws[i];
        int number = p->units == UNITS_IN ? screw_number_of_shank(s->diameter) : 0;
        rack[i] = (struct screw_kind){.diameter = s->diameter,
                                      .number = number,
                                      .lengths = s->lengths,
                                      .n_lengths = s->n_lengths,
                                      .head = number ? screw_head_of_number(number) : 2 * s->diameter};
    }
    p->rack = rack;
    p->n_rack = job->n_screws;
}

/* The runners that reach under a row of screws at v. */
static void see_runners(struct placing *p, double v)
{
    const struct plan_sled *s = &p->b->plan->sled;
    p->n_runners = 0;
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (!r->present || v + BESIDE_RUNNER < r->v0 || v - BESIDE_RUNNER > r->v0 + r->length)
            continue;
        p->runners[p->n_runners++] = (struct screw_gap){r->slot_x - r->width / 2, r->slot_x + r->width / 2};
        p->runner_thickness = fmax(p->runner_thickness, r->thickness);
    }
}

static double gravity_of(const struct plan_part *part)
{
    return sled_density(part->stock) * DENSITY_TO_GRAVITY;
}

/* A screw that no series has: the wanted diameter nearest in the series, as long as the joint needs it. */
static struct screw_fit made_to_measure(struct placing *p, const struct screw_joint *j)
{
    size_t n;
    const struct screw_kind *series = screw_series(p->units, &n), *kind = series;
    for (size_t i = 1; i < n; i++)
        if (fabs(series[i].diameter - j->wanted_diameter) < fabs(kind->diameter - j->wanted_diameter))
            kind = &series[i];
    double step = p->units == UNITS_IN ? MM_PER_INCH / 4 : 5;
    struct screw_fit f = {.kind = kind, .serves = false};
    f.length = ceil((j->through + j->least_diameters * kind->diameter) / step - 1e-9) * step;
    f.hold = f.length - j->through;
    f.tip = j->into - f.hold;
    return f;
}

/* The joint's screw from the rack, else from the standard series; what the rack gives is kept for the check. */
static struct joint_result choose_for(struct placing *p, const struct screw_joint *j, enum part_kind part)
{
    struct joint_result r = {.joint = *j, .part = part};
    r.fit = screw_choose(p->rack, p->n_rack, j);
    r.margin = r.fit.kind ? screw_spare(&r.fit, j) : -INFINITY;
    r.used = r.fit;
    if (!r.fit.serves) {
        size_t n;
        const struct screw_kind *series = screw_series(p->units, &n);
        r.used = screw_choose(series, n, j);
    }
    if (!r.used.serves && part != PART_GUIDE_RUNNER && part != PART_FREE_RUNNER)
        r.used = made_to_measure(p, j);
    if (!p->any || r.margin < p->worst.margin)
        p->worst = r;
    p->any = true;
    return r;
}

static void add_hole(struct placing *p, const struct plan_part *part, const struct screw_fit *fit, double x, double v,
                     enum hole_role role)
{
    static const char *const keys[] = {[HOLE_FIXED] = "hole.fixed",
                                       [HOLE_PIVOT] = "hole.pivot",
                                       [HOLE_TRIAL] = "hole.trial",
                                       [HOLE_FRESH] = "hole.fresh",
                                       [HOLE_REST] = "hole.rest",
                                       [HOLE_RESERVED] = "hole.reserved"};
    struct pool *pool = &p->b->plan->pool;
    struct plan_hole *h = build_add_hole(p->b);
    h->part = pool_string(pool, part->letter);
    h->x = x;
    h->v = v;
    h->role = role;
    h->from_above = part->kind == PART_GUIDE_RUNNER || part->kind == PART_FREE_RUNNER;
    h->screw_diameter = fit->kind->diameter;
    h->screw_length = fit->length;
    h->head_diameter = fit->kind->head;
    h->tip = fit->tip;
    h->diameter = screw_drill(screw_pilot(fit->kind->diameter, gravity_of(part)), p->units);
    h->screw = screw_name(pool, fit->kind, fit->length, p->units);
    h->pilot_drill = screw_drill_name(pool, h->diameter, p->units);
    h->clearance_drill = screw_drill_name(pool, screw_drill(fit->kind->diameter, p->units), p->units);
    h->what = SAYING(h->from_above ? "hole.runner" : keys[role], SAY_STR("screw", h->screw),
                     SAY_STR("pilot", h->pilot_drill), SAY_STR("clearance", h->clearance_drill));
}

/* Screws of a fence go into the middle of one layer: the middle one, of an even number the outer of the middle two. */
static struct screw_joint fence_joint(const struct plan_fence *f, double through)
{
    double layer = fabs(f->v_face - f->v_outer) / f->layers;
    return (struct screw_joint){
        .through = through,
        .into = f->layer_heights ? f->layer_heights[f->layers / 2] : f->height,
        .least_diameters = FENCE_DIAMETERS,
        .tip_inside = FENCE_TIP,
        .wanted_diameter = layer * SHARE_WANTED,
        .most_diameter = layer * SHARE_MOST,
    };
}

/* Layers of unequal height are parts of their own, listed from the working face outward. */
static const struct plan_part *part_of_layer(const struct plan *plan, enum part_kind kind, int layer)
{
    for (size_t i = 0; i < plan->n_parts; i++)
        if (plan->parts[i].kind == kind && (layer -= plan->parts[i].quantity) < 0)
            return &plan->parts[i];
    return NULL;
}

static struct fence_row begin_fence(struct placing *p, const struct plan_fence *f, enum part_kind kind)
{
    const struct plan_part *part = part_of_layer(p->b->plan, kind, f->layers / 2);
    assert(part && "the parts of a sled are listed before its screws are placed");
    double layer = (f->v_outer - f->v_face) / f->layers;
    struct screw_joint j = fence_joint(f, p->b->plan->sled.base_thickness);
    struct fence_row row = {.fence = f, .part = part, .fit = choose_for(p, &j, part->kind).used};
    row.v = f->v_face + layer * (f->layers / 2 + 0.5);
    row.nearest = sled_round_up(fmax(SLED_SCREW_AXIS, p->b->plan->sled.screw_free + row.fit.kind->head / 2),
                                sled_least_edge_step(p->units));
    row.apart = END_DIAMETERS * row.fit.kind->diameter;
    row.clear = row.fit.kind->head / 2 + BESIDE_RUNNER;
    see_runners(p, row.v);
    return row;
}

/* A place that the job gives may lie under a runner: the screw then goes through the runner as well. */
static void add_fence_hole(struct placing *p, const struct fence_row *row, double x, enum hole_role role)
{
    struct screw_fit fit = row->fit;
    if (!screw_is_clear(x, p->runners, p->n_runners, fit.kind->head / 2)) {
        struct screw_joint j = fence_joint(row->fence, p->b->plan->sled.base_thickness + p->runner_thickness);
        fit = choose_for(p, &j, row->part->kind).used;
    }
    add_hole(p, row->part, &fit, x, row->v, role);
}

/* How far out on a side a screw may stand: off the ends of fence and base. */
static double end_of(const struct placing *p, const struct fence_row *row, int sign)
{
    const struct plan_sled *s = &p->b->plan->sled;
    double fence = sign > 0 ? row->fence->x0 + row->fence->length : -row->fence->x0;
    double base = sign > 0 ? s->base_x0 + s->base_width : -s->base_x0;
    return sled_round_down(fmin(fence, base) - row->apart, sled_least_edge_step(p->units));
}

/* Screws on one side of the blade from row->nearest out to `to`, and there as well unless `held` by another. */
static void add_side(struct placing *p, const struct fence_row *row, int sign, double to, bool held,
                     enum hole_role role)
{
    double place[MOST_IN_ROW], step = sled_least_edge_step(p->units);
    if (to < row->nearest)
        return;
    size_t n = screw_spread(row->nearest, to, role == HOLE_FIXED ? SPACING_FIXED : SPACING_FENCE, 2, row->apart, place,
                            MOST_IN_ROW);
    for (size_t i = 0; i < (held ? n - 1 : n); i++) {
        double x = sign * round(place[i] / step) * step;
        add_fence_hole(p, row, screw_clear_of(x, p->runners, p->n_runners, row->clear, row->nearest, to), role);
    }
}

static void place_other_fence(struct placing *p)
{
    struct fence_row row = begin_fence(p, &p->b->plan->sled.other, PART_OTHER_FENCE);
    for (int sign = -1; sign <= 1; sign += 2)
        add_side(p, &row, sign, end_of(p, &row, sign), false, HOLE_FIXED);
}

/* A fresh hole stands this far off every other of the row. */
static bool is_beside_all(const struct placing *p, const struct fence_row *row, double x, double beside)
{
    const struct plan *plan = p->b->plan;
    for (size_t i = 0; i < plan->n_holes; i++)
        if (strcmp(plan->holes[i].part, row->part->letter) == 0 && fabs(plan->holes[i].x - x) < beside - 1e-9)
            return false;
    return true;
}

/* The nearest place for a fresh hole instead of the one at x, outward where there is room; NAN: none. */
static double fresh_place(const struct placing *p, const struct fence_row *row, double x)
{
    double beside = screw_beside(row->fit.kind->diameter, p->units);
    int sign = x < 0 ? -1 : 1;
    for (int k = 1; k <= MOST_BESIDE; k++)
        for (int way = 1; way >= -1; way -= 2) {
            double off = fabs(x) + way * k * beside;
            if (off <= end_of(p, row, sign) && off >= row->nearest &&
                screw_is_clear(sign * off, p->runners, p->n_runners, row->clear) &&
                is_beside_all(p, row, sign * off, beside))
                return sign * off;
        }
    return NAN;
}

/* Places for later moves, for every screw but the pivot: an old hole would draw its screw, and the fence, back. */
static void reserve_places(struct placing *p, const struct fence_row *row)
{
    const struct plan *plan = p->b->plan;
    size_t n = plan->n_holes;
    for (int round = 0; round < LATER_MOVES; round++)
        for (size_t i = 0; i < n; i++) {
            const struct plan_hole *h = &plan->holes[i];
            if (strcmp(h->part, row->part->letter) != 0 || (h->role != HOLE_FRESH && h->role != HOLE_REST))
                continue;
            double x = fresh_place(p, row, h->x);
            if (!isnan(x))
                add_fence_hole(p, row, x, HOLE_RESERVED);
        }
}

static void place_reference_fence(struct placing *p)
{
    const struct plan_sled *s = &p->b->plan->sled;
    struct fence_row row = begin_fence(p, &s->reference, PART_REFERENCE_FENCE);
    double have[] = {s->pivot_x, s->moving_x, NAN};
    add_fence_hole(p, &row, have[0], HOLE_PIVOT);
    add_fence_hole(p, &row, have[1], HOLE_TRIAL);
    have[2] = fresh_place(p, &row, s->moving_x);
    if (isnan(have[2]))
        have[2] = s->moving_x - copysign(screw_beside(row.fit.kind->diameter, p->units), s->moving_x);
    add_fence_hole(p, &row, have[2], HOLE_FRESH);
    for (int sign = -1; sign <= 1; sign += 2) {
        double held = INFINITY; /* the screw nearest to the blade that this side has already */
        for (size_t i = 0; i < sizeof have / sizeof *have; i++)
            if (have[i] * sign > 0)
                held = fmin(held, have[i] * sign);
        if (isinf(held))
            add_side(p, &row, sign, end_of(p, &row, sign), false, HOLE_REST);
        else if (held - row.nearest >= row.apart)
            add_side(p, &row, sign, held, true, HOLE_REST);
    }
    reserve_places(p, &row);
}

/* A runner under the screw-free strip, or one that no screw suits, is glued only: it has no holes. */
static void place_runner(struct placing *p, enum side side)
{
    const struct plan_sled *s = &p->b->plan->sled;
    const struct plan_runner *r = &s->runner[side];
    const struct plan_part *part = build_find_part(p->b->plan, r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER);
    if (!r->present || !part)
        return;
    struct screw_joint j = {.through = s->base_thickness,
                            .into = r->thickness,
                            .least_diameters = RUNNER_DIAMETERS,
                            .tip_inside = RUNNER_TIP,
                            .wanted_diameter = fmin(r->width * SHARE_WANTED, r->thickness / 2),
                            .most_diameter = r->width * SHARE_MOST,
                            .deep = true};
    struct screw_fit fit = choose_for(p, &j, part->kind).used;
    if (!fit.serves || fabs(r->slot_x) - fit.kind->head / 2 < s->screw_free)
        return;
    double margin = END_DIAMETERS * fit.kind->diameter, place[MOST_IN_ROW];
    double step = sled_least_edge_step(p->units), from = sled_round_up(fmax(r->v0, 0) + margin, step);
    double to = sled_round_down(fmin(r->v0 + r->length, s->base_depth) - margin, step);
    if (to < from)
        return;
    size_t n = screw_spread(from, to, SPACING_FIXED, RUNNER_LEAST, margin, place, MOST_IN_ROW);
    for (size_t i = 0; i < n; i++)
        add_hole(p, part, &fit, r->slot_x, place[i], HOLE_FIXED);
}

/* The job places the pivot and the screw at the gauge mark; all others follow from those. */
static struct saying strip_remedy(const struct plan_hole *h, double need)
{
    const char *key = h->role == HOLE_PIVOT   ? "check.screw_free_strip.remedy.pivot"
                      : h->role == HOLE_TRIAL ? "check.screw_free_strip.remedy.moving"
                                              : "check.screw_free_strip.remedy";
    return SAYING(key, SAY_ARG("at", SAY_SIZE, fabs(h->x)), SAY_ARG("need", SAY_SIZE, need));
}

static void check_strip(struct placing *p)
{
    const struct plan *plan = p->b->plan;
    const struct plan_hole *nearest = NULL;
    double value = INFINITY;
    for (size_t i = 0; i < plan->n_holes; i++) {
        double edge = fabs(plan->holes[i].x) - plan->holes[i].head_diameter / 2;
        if (edge < value) {
            value = edge;
            nearest = &plan->holes[i];
        }
    }
    if (!nearest)
        return;
    const struct job_fence *fence = &p->b->job->jig.as.sled.reference_fence;
    double low = plan->sled.screw_free;
    struct plan_check *c = build_add_check(p->b, CHECK_SCREW_FREE_STRIP);
    c->value = value;
    c->low = low;
    c->verdict = value >= low - 1e-9 ? VERDICT_PASS : VERDICT_FAIL;
    c->hurts = c->verdict == VERDICT_FAIL;
    c->mark = nearest->role == HOLE_PIVOT ? fence->pivot.from_blade.mark : fence->moving.from_blade.mark;
    c->why = SAYING("check.screw_free_strip.why", SAY_ARG("value", SAY_SIZE, value), SAY_ARG("low", SAY_ABOUT, low));
    if (c->verdict == VERDICT_FAIL)
        c->remedy = strip_remedy(nearest, sled_round_up(low + nearest->head_diameter / 2, sled_least_edge_step(p->units)));
}

/* What to do where the rack has nothing that serves. */
static struct saying length_remedy(struct placing *p, const struct joint_result *r)
{
    struct pool *pool = &p->b->plan->pool;
    const char *part = plan_part_key(r->part);
    if (r->used.kind && r->used.serves)
        return SAYING("check.screw_length.buy", SAY_KEY("part", part),
                      SAY_STR("screw", screw_name(pool, r->used.kind, r->used.length, p->units)));
    if (r->part == PART_GUIDE_RUNNER || r->part == PART_FREE_RUNNER)
        return SAYING("check.screw_length.glue_only", SAY_KEY("part", part));
    return SAYING("check.screw_length.no_screw", SAY_KEY("part", part), SAY_ARG("into", SAY_SIZE, r->joint.into),
                  SAY_ARG("need", SAY_SIZE, r->joint.least_diameters * r->used.kind->diameter + r->joint.tip_inside));
}

static void check_length(struct placing *p)
{
    const struct joint_result *r = &p->worst;
    const struct job *job = p->b->job;
    bool runner = r->part == PART_GUIDE_RUNNER || r->part == PART_FREE_RUNNER;
    const struct screw_kind *kind = r->fit.kind ? r->fit.kind : r->used.kind;
    double diameter = kind ? kind->diameter : r->joint.most_diameter;
    struct plan_check *c = build_add_check(p->b, CHECK_SCREW_LENGTH);
    c->value = r->fit.kind ? r->fit.hold : NAN;
    c->low = r->joint.least_diameters * diameter;
    c->high = r->joint.into - r->joint.tip_inside;
    c->verdict = r->fit.serves ? VERDICT_PASS : VERDICT_CAUTION;
    c->mark = job->n_screws ? job->screws[0].mark : job->jig.mark;
    if (r->fit.kind)
        c->why = SAYING(runner ? "check.screw_length.why.runner" : "check.screw_length.why.fence",
                        SAY_STR("screw", screw_name(&p->b->plan->pool, kind, r->fit.length, p->units)),
                        SAY_KEY("part", plan_part_key(r->part)), SAY_ARG("value", SAY_THICKNESS, r->fit.hold),
                        SAY_ARG("low", SAY_THICKNESS, c->low), SAY_ARG("high", SAY_THICKNESS, c->high));
    else
        c->why = SAYING("check.screw_length.why.none", SAY_KEY("part", plan_part_key(r->part)),
                        SAY_ARG("most", SAY_THICKNESS, r->joint.most_diameter));
    if (!r->fit.serves)
        c->remedy = length_remedy(p, r);
}

void sled_place_screws(struct plan_builder *b)
{
    struct placing p = {.b = b, .units = b->job->units};
    read_rack(&p);
    place_runner(&p, SIDE_LEFT);
    place_runner(&p, SIDE_RIGHT);
    place_other_fence(&p);
    place_reference_fence(&p);
    check_strip(&p);
    check_length(&p);
}
