/* What follows from a sled's sizes. */
#include "plan/sled.h"

#include <math.h>

/* Stands for the hardwood strip to buy; values of hard maple (Wood Handbook tables 4-3 and 5-3, from memory). */
static const double strip_to_buy_density = 700, strip_to_buy_shrinkage = 4.8;

/* ---- stock ---- */

static bool better_base(const struct job_stock *a, const struct job_stock *b)
{
    bool a_thick = a->thickness.v >= SLED_BASE_LEAST, b_thick = b->thickness.v >= SLED_BASE_LEAST;

    if (a_thick != b_thick)
        return a_thick;
    return a_thick ? a->thickness.v < b->thickness.v : a->thickness.v > b->thickness.v;
}

static const struct job_stock *or_default(const struct job_stock *given, const struct job_stock *standard)
{
    return given ? given : standard;
}

struct sled_stocks sled_choose_stocks(const struct job *job)
{
    const struct job_sled *wish = &job->jig.as.sled;
    const struct job_stock *base = NULL, *thickest = NULL, *strip = NULL;

    for (size_t i = 0; i < job->n_stock; i++) {
        const struct job_stock *s = &job->stock[i];
        if (s->is_strip) {
            strip = strip ? strip : s;
            continue;
        }
        if (!base || better_base(s, base))
            base = s;
        if (!thickest || s->thickness.v > thickest->thickness.v)
            thickest = s;
    }
    return (struct sled_stocks){
        .base = or_default(wish->base_stock, base),
        .reference = or_default(wish->reference_fence.stock, thickest),
        .other = or_default(wish->other_fence.stock, thickest),
        .guard = or_default(wish->guard_stock, thickest),
        .runner = or_default(wish->runner_stock, strip),
        .travel_stop = or_default(wish->travel_stop_stock, or_default(wish->runner_stock, strip)),
        .flip_stop = or_default(wish->stop_stock, thickest),
    };
}

double sled_density(const struct job_stock *s)
{
    return s ? s->material.density : strip_to_buy_density;
}

double sled_least_edge_step(enum units units)
{
    return units == UNITS_IN ? MM_PER_INCH / 16 : 1;
}

double sled_width_step(enum units units)
{
    return units == UNITS_IN ? MM_PER_INCH / 4 : 5;
}

double sled_widest_tried(enum units units)
{
    return sled_round_down(SLED_WIDTH_MOST, sled_width_step(units));
}

double sled_round_up(double x, double step)
{
    return ceil(x / step - 1e-6) * step;
}

double sled_round_down(double x, double step)
{
    return floor(x / step + 1e-6) * step;
}

/* ---- wood ---- */

/* Shrinkage of the runner's width: radial where the rings stand upright in it. Mixed rings: the mean, from memory. */
static double width_shrinkage(const struct job_stock *s)
{
    if (!s)
        return strip_to_buy_shrinkage;
    switch (s->rings) {
    case RINGS_QUARTER:
        return s->material.shrink_radial;
    case RINGS_FLAT:
        return s->material.shrink_tangential;
    case RINGS_MIXED:
        break;
    }
    return (s->material.shrink_radial + s->material.shrink_tangential) / 2;
}

static double climate_moisture(const struct job_climate *c)
{
    return c->given ? wood_equilibrium(c->temperature.v, c->humidity.v) : NAN;
}

static struct runner_wood solid_runner(const struct job *job, double shrinkage)
{
    const struct num *measured = &job->jig.as.sled.runner_moisture;
    struct runner_wood w = {.solid = true,
                            .mc_driest = climate_moisture(&job->air.driest),
                            .mc_dampest = climate_moisture(&job->air.dampest)};

    w.mc_fitting = measured->given ? measured->v : climate_moisture(&job->air.at_fitting);
    w.r_driest = wood_ratio(shrinkage, w.mc_fitting, w.mc_driest);
    w.r_dampest = wood_ratio(shrinkage, w.mc_fitting, w.mc_dampest);
    w.per_percent = wood_per_percent(shrinkage, w.mc_fitting);
    return w;
}

static struct runner_wood panel_runner(const struct job *job, double movement)
{
    const struct job_air *air = &job->air;

    return (struct runner_wood){
        .mc_fitting = NAN,
        .mc_driest = NAN,
        .mc_dampest = NAN,
        .r_driest = wood_panel_ratio(movement, air->at_fitting.humidity.v, air->driest.humidity.v),
        .r_dampest = wood_panel_ratio(movement, air->at_fitting.humidity.v, air->dampest.humidity.v),
    };
}

struct runner_wood sled_runner_wood(const struct job *job, const struct job_stock *runner)
{
    const struct job_air *air = &job->air;
    struct runner_wood w = {.r_driest = NAN, .r_dampest = NAN, .mc_fitting = NAN, .mc_driest = NAN, .mc_dampest = NAN};
    double shrinkage = width_shrinkage(runner);

    if (!air->driest.given || !air->dampest.given)
        return w;
    if (!isnan(shrinkage))
        w = solid_runner(job, shrinkage);
    else if (air->at_fitting.given)
        w = panel_runner(job, runner->material.movement);
    w.known = !isnan(w.r_driest) && !isnan(w.r_dampest);
    return w;
}

static double panel_shift(const struct job_stock *base, double length, double humidity_change)
{
    return length * base->material.movement * humidity_change / 10;
}

double sled_base_shift(const struct job *job, const struct job_stock *base, double length, const struct job_climate *c)
{
    const struct job_climate *fitting = &job->air.at_fitting;

    if (!fitting->given || !c->given)
        return NAN;
    return panel_shift(base, length, c->humidity.v - fitting->humidity.v);
}

double sled_base_shift_most(const struct job *job, const struct job_stock *base, double length)
{
    double dry = fabs(sled_base_shift(job, base, length, &job->air.driest));
    double damp = fabs(sled_base_shift(job, base, length, &job->air.dampest));

    if (isnan(dry) || isnan(damp))
        return fabs(panel_shift(base, length, SLED_NO_AIR_SWING));
    return fmax(dry, damp);
}

/* ---- travel ---- */

struct travel_sizes sled_travel_sizes(const struct job *job, const struct plan_sled *s)
{
    bool near = s->reference.side == FENCE_NEAR;

    return (struct travel_sizes){
        .blade = {job->saw.blade.diameter.v / 2, job->saw.blade.highest.v, job->saw.table.front_edge.v},
        .side = s->reference.side,
        .base_thickness = s->base_thickness,
        .base_depth = s->base_depth,
        .from_edge = near ? s->reference.v_outer : s->base_depth - s->reference.v_outer,
        .thickness = s->reference.thickness,
        .other_from_edge = near ? s->base_depth - s->other.v_outer : s->other.v_outer,
        .other_thickness = s->other.thickness,
        .least_above_work = s->least_above_work,
        .clearance = SLED_CLEARANCE,
        .overrun = SLED_OVERRUN,
    };
}

const struct plan_runner *sled_guide(const struct plan_sled *s)
{
    return s->runner[SIDE_LEFT].is_guide ? &s->runner[SIDE_LEFT] : &s->runner[SIDE_RIGHT];
}

double sled_runner_full_length(const struct job *job, const struct plan_sled *s)
{
    const struct num *length = &job->jig.as.sled.runner_length;

    return length->given ? length->v : s->base_depth;
}

struct sled_engaged sled_guide_engaged(const struct job *job, const struct plan_sled *s, double width)
{
    struct travel_sizes t = sled_travel_sizes(job, s);
    const struct plan_runner *g = sled_guide(s);
    double table = job->saw.table.depth.v;

    return (struct sled_engaged){
        .touch = travel_engaged(travel_edge_touch(&t, width), g->v0, g->length, table),
        .stop = travel_engaged(travel_edge_stop(&t, width), g->v0, g->length, table),
    };
}

/* A bar with play p in its slot can turn by p over its engaged length l: p/l. Geometry. */
double sled_yaw(const struct job *job, struct sled_engaged e, const struct runner_wood *wood, double runner_width)
{
    double least = wood->known ? fmin(1, fmin(wood->r_driest, wood->r_dampest)) : 1;
    double play = job->saw.slots.width_widest.v - runner_width * least;

    return play / fmin(e.touch, e.stop) * job->tolerances.squareness.over.v;
}

/* ---- masses ---- */

static double box_mass(const struct job_stock *stock, double a, double b, double c)
{
    return sled_density(stock) * 1e-9 * a * b * c;
}

static struct sled_load fence_load(enum part_kind kind, const struct plan_fence *f, const struct job_stock *stock)
{
    double layer = f->thickness / f->layers, away = f->v_outer > f->v_face ? 1 : -1;
    struct sled_load l = {.kind = kind, .x = f->x0 + f->length / 2};

    for (int i = 0; i < f->layers; i++) {
        double mass = box_mass(stock, f->length, f->layer_heights[i], layer);
        l.mass += mass;
        l.v += mass * (f->v_face + away * (i + 0.5) * layer);
    }
    l.v /= l.mass;
    return l;
}

/* Of the base's stock: it lies on the higher fence. */
bool sled_cover(const struct plan_sled *s, struct body *out)
{
    double top = s->base_thickness + fmax(s->reference.height, s->other.height);

    *out = (struct body){-s->keep_out, s->keep_out, s->other.v_outer, s->reference.v_outer, top, top + s->base_thickness};
    return s->reference.side == FENCE_FAR;
}

size_t sled_loads(const struct job *job, const struct plan_sled *s, struct sled_load out[SLED_LOADS])
{
    struct sled_stocks stocks = sled_choose_stocks(job);
    double full = sled_runner_full_length(job, s);
    struct body cover;
    size_t n = 0;

    out[n++] = (struct sled_load){PART_BASE, box_mass(stocks.base, s->base_width, s->base_depth, s->base_thickness),
                                  s->base_x0 + s->base_width / 2, s->base_depth / 2};
    out[n++] = fence_load(PART_REFERENCE_FENCE, &s->reference, stocks.reference);
    out[n++] = fence_load(PART_OTHER_FENCE, &s->other, stocks.other);
    out[n++] =
        (struct sled_load){PART_EXIT_GUARD, box_mass(stocks.guard, s->guard_width, s->guard_depth, s->guard_height), 0,
                           (s->guard_v0 + s->guard_v1) / 2};
    if (sled_cover(s, &cover))
        out[n++] = (struct sled_load){PART_BLADE_COVER,
                                      box_mass(stocks.base, cover.x1 - cover.x0, cover.v1 - cover.v0, cover.z1 - cover.z0),
                                      0, (cover.v0 + cover.v1) / 2};
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present)
            out[n++] =
                (struct sled_load){r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER,
                                   box_mass(stocks.runner, r->width, r->thickness, full), r->slot_x, r->v0 + full / 2};
    }
    return n;
}

/* ---- tipping ---- */

enum axis { ALONG_FEED, ACROSS_FEED };

/* The loads seen from an edge of the table, which lies at `edge` in the sled's frame. The blade cover is left out where it
   would hold the sled down: it is a loose part that may be missing, and to leave it out is on the safe side. It counts, as
   the work does, only where it makes things worse. Judgement. */
static size_t loads_from_edge(const struct job *job, const struct plan_sled *s, enum axis axis, double edge, int inward,
                              struct load out[SLED_LOADS])
{
    struct sled_load loads[SLED_LOADS];
    size_t n = sled_loads(job, s, loads), kept = 0;

    for (size_t i = 0; i < n; i++) {
        struct load seen = {loads[i].mass, inward * ((axis == ALONG_FEED ? loads[i].v : loads[i].x) - edge)};
        if (loads[i].kind != PART_BLADE_COVER || seen.inward < 0)
            out[kept++] = seen;
    }
    return kept;
}

static double fence_middle(const struct plan_fence *f)
{
    return (f->v_face + f->v_outer) / 2;
}

static const struct plan_fence *nearer_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? &s->reference : &s->other;
}

static const struct plan_fence *farther_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? &s->other : &s->reference;
}

static double work_kg_per_mm(const struct plan_sled *s)
{
    return SLED_WORK_DENSITY * 1e-9 * s->reference.length * s->capacity_thickness;
}

/* Tipping along the feed about the table's edge at `edge` in the sled's frame, hand on `fence`. */
static struct sled_tipping tip_along(const struct job *job, const struct plan_sled *s, double edge, int inward,
                                     const struct plan_fence *fence, double width)
{
    struct load loads[SLED_LOADS];
    size_t n = loads_from_edge(job, s, ALONG_FEED, edge, inward, loads);
    int work_side = s->reference.side == FENCE_NEAR ? 1 : -1;
    double work = balance_worst_work(work_kg_per_mm(s), inward * (s->reference.v_face - edge), inward * work_side,
                                     fmin(SLED_WORK_LEAST, width), width);
    struct sled_tipping t = {.moment = balance_moment(loads, n) + work, .arm = inward * (fence_middle(fence) - edge)};

    t.force = balance_force(t.moment, t.arm);
    return t;
}

/* Against a near fence narrower work starts farther in, so that its own widest start is the worst: only that width is
   looked at there. Against a far fence every width starts at one place. */
struct sled_tipping sled_tip_near(const struct job *job, const struct plan_sled *s, double width)
{
    struct travel_sizes t = sled_travel_sizes(job, s);
    double edge = -travel_edge_start(&t, width);
    struct sled_tipping tip = tip_along(job, s, edge, 1, nearer_fence(s), width);

    if (s->reference.side == FENCE_NEAR) {
        struct load loads[SLED_LOADS];
        size_t n = loads_from_edge(job, s, ALONG_FEED, edge, 1, loads);
        tip.moment = balance_moment(loads, n) +
                     balance_worst_work(work_kg_per_mm(s), s->reference.v_face - edge, 1, width, width);
        tip.force = balance_force(tip.moment, tip.arm);
    }
    return tip;
}

struct sled_tipping sled_tip_far(const struct job *job, const struct plan_sled *s, double width)
{
    struct travel_sizes t = sled_travel_sizes(job, s);

    return tip_along(job, s, job->saw.table.depth.v - travel_edge_stop(&t, width), -1, farther_fence(s), width);
}

static struct sled_tipping tip_across(const struct job *job, const struct plan_sled *s, double edge, int inward,
                                      double width)
{
    struct load loads[SLED_LOADS];
    size_t n = loads_from_edge(job, s, ACROSS_FEED, edge, inward, loads);
    const struct plan_fence *f = s->reference.length >= s->other.length ? &s->reference : &s->other;
    double work_at = inward * (s->reference.x0 + s->reference.length / 2 - edge);
    double end = inward > 0 ? f->x0 : f->x0 + f->length;
    struct sled_tipping t = {.moment = balance_moment(loads, n), .arm = inward * (end - edge)};

    t.moment += fmin(work_kg_per_mm(s) * BALANCE_GRAVITY * width * work_at, 0);
    t.force = balance_force(t.moment, t.arm);
    return t;
}

/* What a hand may press: nothing where the sled falls by itself, anything where the arm is inside. */
static double borne(const struct sled_tipping *t)
{
    return t->moment <= 0 ? -INFINITY : isnan(t->force) ? INFINITY : t->force;
}

bool sled_tip_side(const struct job *job, const struct plan_sled *s, double width, struct sled_tipping *out)
{
    const struct job_table *table = &job->saw.table;
    struct sled_tipping left, right;

    if (!table->width.given || !table->left_of_blade.given)
        return false;
    left = tip_across(job, s, -table->left_of_blade.v, 1, width);
    right = tip_across(job, s, table->width.v - table->left_of_blade.v, -1, width);
    *out = borne(&left) <= borne(&right) ? left : right;
    return true;
}

struct sled_tipping sled_tip_parked(const struct job *job, const struct plan_sled *s)
{
    struct travel_sizes t = sled_travel_sizes(job, s);

    return tip_along(job, s, -travel_edge_parked(&t), 1, nearer_fence(s), fmin(SLED_WORK_LEAST, s->capacity_width));
}

double sled_parked_ratio(const struct job *job, const struct plan_sled *s)
{
    struct travel_sizes t = sled_travel_sizes(job, s);
    struct load loads[SLED_LOADS];
    double edge = -travel_edge_parked(&t);
    size_t n = loads_from_edge(job, s, ALONG_FEED, edge, 1, loads);
    int work_side = s->reference.side == FENCE_NEAR ? 1 : -1;
    double work = balance_worst_work(work_kg_per_mm(s), s->reference.v_face - edge, work_side,
                                     fmin(SLED_WORK_LEAST, s->capacity_width), s->capacity_width);

    return balance_ratio(loads, n, work);
}

/* ---- widest work ---- */

static bool width_works(const struct job *job, const struct plan_sled *s, double width)
{
    struct sled_engaged e = sled_guide_engaged(job, s, width);

    return fmin(e.touch, e.stop) >= SLED_ENGAGED_LEAST * sled_guide(s)->length - 1e-9 &&
           sled_tip_near(job, s, width).moment > 0 && sled_tip_far(job, s, width).moment > 0;
}

double sled_widest_work(const struct job *job, const struct plan_sled *s)
{
    struct travel_sizes t = sled_travel_sizes(job, s);
    double low = 0, high = travel_room(&t);

    if (high <= 0 || width_works(job, s, high))
        return high;
    for (int i = 0; i < 50; i++) { /* a wider work only makes these worse: halve down to far below a micrometre */
        double middle = (low + high) / 2;
        if (width_works(job, s, middle))
            low = middle;
        else
            high = middle;
    }
    return low;
}
