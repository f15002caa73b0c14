/* What a remedy can turn: a value of the job, which way to move it, what goes with it; and which check tries which. */
#include "plan/levers.h"

#include "plan/sled.h"

#include <math.h>

static struct job_sled *sled_of(struct job *j)
{
    return &j->jig.as.sled;
}

static void give(struct num *n, double v)
{
    n->v = v;
    n->given = true;
}

/* ---- work ---- */

static double now_capacity_width(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.capacity_width;
}

static void apply_capacity_width(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->capacity_width, n);
}

static double now_capacity_thickness(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.capacity_thickness;
}

static void apply_capacity_thickness(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->capacity_thickness, n);
}

/* ---- base ---- */

static double now_base_depth(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.base_depth;
}

static void apply_base_depth(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->base_depth, n);
}

static double now_base_width(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.base_width;
}

/* A narrower base keeps the blade where it is in it, and its fences end with it. */
static void apply_base_width(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = sled_of(j);

    (void)pool;
    give(&s->base_left_of_blade, sled_round_down(n * -p->sled.base_x0 / p->sled.base_width, sled_least_edge_step(j->units)));
    give(&s->base_width, n);
    s->reference_fence.length.given = s->reference_fence.length.given && s->reference_fence.length.v < n;
    s->other_fence.length.given = s->other_fence.length.given && s->other_fence.length.v < n;
}

/* ---- guard ---- */

static double now_guard_layers(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.guard_layers;
}

static void apply_guard_layers(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    sled_of(j)->guard_layers.given = true;
    sled_of(j)->guard_layers.count = (int)n;
}

static struct num *guarded_from_edge(struct job_sled *s, const struct plan *p)
{
    return p->sled.reference.side == FENCE_NEAR ? &s->reference_fence.from_edge : &s->other_fence.from_edge;
}

/* The fence goes in so far that the base lies under the whole guard. */
static void apply_guard_and_edge(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double layer = p->sled.guard_depth / p->sled.guard_layers;

    apply_guard_layers(j, pool, p, n);
    give(guarded_from_edge(sled_of(j), p), sled_round_up(n * layer, sled_least_edge_step(j->units)));
}

/* The base grows by as much. */
static void apply_guard_edge_and_depth(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double before = p->sled.guard_v1;

    apply_guard_and_edge(j, pool, p, n);
    give(&sled_of(j)->base_depth, sled_round_up(p->sled.base_depth + guarded_from_edge(sled_of(j), p)->v - before,
                                                sled_least_edge_step(j->units)));
}

static double now_guard_height(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.guard_height;
}

static void apply_guard_height(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->guard_height, n);
}

/* ---- fences ---- */

static double now_lower_fence(const struct job *j, const struct plan *p)
{
    (void)j;
    return fmin(p->sled.reference.height, p->sled.other.height);
}

/* Layers of heights of their own: the tallest is raised. */
static void set_height(struct job_fence *f, struct pool *pool, const struct plan_fence *now, double n)
{
    int tallest = 0;
    double *heights;

    if (!f->layers.given || !f->layers.heights) {
        give(&f->height, n);
        return;
    }
    heights = pool_copy(pool, f->layers.heights, (size_t)now->layers * sizeof *heights);
    for (int i = 1; i < now->layers; i++)
        if (heights[i] > heights[tallest])
            tallest = i;
    heights[tallest] = n;
    f->layers.heights = heights;
}

static void apply_fence_heights(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = sled_of(j);

    if (p->sled.reference.height < n)
        set_height(&s->reference_fence, pool, &p->sled.reference, n);
    if (p->sled.other.height < n)
        set_height(&s->other_fence, pool, &p->sled.other, n);
}

static double now_higher_fence(const struct job *j, const struct plan *p)
{
    (void)j;
    return fmax(p->sled.reference.height, p->sled.other.height);
}

static void apply_fence_heights_down(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = sled_of(j);

    if (p->sled.reference.height > n)
        set_height(&s->reference_fence, pool, &p->sled.reference, n);
    if (p->sled.other.height > n)
        set_height(&s->other_fence, pool, &p->sled.other, n);
}

static double now_reference_layers(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.reference.layers;
}

static void apply_reference_layers(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_layers *l = &sled_of(j)->reference_fence.layers;

    (void)pool;
    (void)p;
    if (l->heights)
        give(&sled_of(j)->reference_fence.height, p->sled.reference.height);
    l->given = true;
    l->heights = NULL;
    l->count = (int)n;
}

static void apply_reference_layers_and_depth(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double layer = p->sled.reference.thickness / p->sled.reference.layers;

    apply_reference_layers(j, pool, p, n);
    give(&sled_of(j)->base_depth,
         sled_round_up(p->sled.base_depth + (n - p->sled.reference.layers) * layer, sled_least_edge_step(j->units)));
}

static double now_longer_fence(const struct job *j, const struct plan *p)
{
    (void)j;
    return fmax(p->sled.reference.length, p->sled.other.length);
}

static void apply_fence_lengths(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = sled_of(j);

    (void)pool;
    if (p->sled.reference.length > n)
        give(&s->reference_fence.length, n);
    if (p->sled.other.length > n)
        give(&s->other_fence.length, n);
}

static double now_other_from_edge(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.reference.side == FENCE_NEAR ? p->sled.base_depth - p->sled.other.v_outer : p->sled.other.v_outer;
}

static void apply_other_from_edge(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->other_fence.from_edge, n);
}

/* ---- runners ---- */

double lever_fit_step(const struct job *j)
{
    return j->units == UNITS_IN ? MM_PER_INCH / 1000 : 0.01;
}

/* The middle of what fits all year. */
static double aim_width(const struct job *j, const struct plan *p)
{
    if (p->sled.plane_low > p->sled.plane_high)
        return NAN;
    return sled_round_down((p->sled.plane_low + p->sled.plane_high) / 2, lever_fit_step(j));
}

static double aim_narrower(const struct job *j, const struct plan *p)
{
    double aim = aim_width(j, p);

    return aim < sled_guide(&p->sled)->width ? aim : NAN;
}

static double aim_wider(const struct job *j, const struct plan *p)
{
    double aim = aim_width(j, p);

    return aim > sled_guide(&p->sled)->width ? aim : NAN;
}

static double now_width(const struct job *j, const struct plan *p)
{
    (void)j;
    return sled_guide(&p->sled)->width;
}

static void apply_width(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->runner_width, n);
}

/* The free runner then follows its rule. */
static void apply_both_widths(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    apply_width(j, pool, p, n);
    sled_of(j)->runner_free_width.given = false;
}

double lever_free_width(const struct job *j, const struct plan *p)
{
    const struct plan_runner *r = p->sled.runner;

    (void)j;
    if (!r[SIDE_LEFT].present || !r[SIDE_RIGHT].present)
        return NAN;
    return r[SIDE_LEFT].is_guide ? r[SIDE_RIGHT].width : r[SIDE_LEFT].width;
}

static void apply_free_width(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->runner_free_width, n);
}

static double now_runner_thickness(const struct job *j, const struct plan *p)
{
    (void)j;
    return sled_guide(&p->sled)->thickness;
}

static void apply_runner_thickness(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&sled_of(j)->runner_thickness, n);
}

/* Both widths are derived anew. */
static void free_widths(struct job *j)
{
    sled_of(j)->runner_width.given = false;
    sled_of(j)->runner_free_width.given = false;
}

static double aim_upright_rings(const struct job *j, const struct plan *p)
{
    const struct job_stock *s = sled_choose_stocks(j).runner;

    (void)p;
    return s && s->rings != RINGS_QUARTER && !isnan(s->material.shrink_radial) ? 1 : NAN;
}

static void apply_upright_rings(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_stock *quarter = pool_copy(pool, sled_choose_stocks(j).runner, sizeof *quarter);

    (void)p;
    (void)n;
    quarter->rings = RINGS_QUARTER;
    quarter->rings_given = true;
    sled_of(j)->runner_stock = quarter;
    free_widths(j);
}

/* Timbers that wear well and move less and less: radial shrinkage 4.8, 3.7, 3.0 per cent (Wood Handbook, as in the table of
   materials). */
static const char *const species[] = {"hard-maple", "cherry", "teak"};
enum { SPECIES = sizeof species / sizeof *species };

const char *lever_species(double n)
{
    return species[n < 0 ? 0 : n > SPECIES - 1 ? SPECIES - 1 : (int)n];
}

/* The first that moves less than the job's own; NAN: none does. */
static double now_species(const struct job *j, const struct plan *p)
{
    const struct job_stock *s = sled_choose_stocks(j).runner;

    (void)p;
    for (int i = 0; s && i < SPECIES; i++)
        if (material_find(species[i])->shrink_radial < s->material.shrink_radial)
            return i;
    return NAN;
}

static void apply_species(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_stock *other = pool_copy(pool, sled_choose_stocks(j).runner, sizeof *other);

    (void)p;
    other->material = *material_find(lever_species(n));
    other->rings = RINGS_QUARTER;
    other->rings_given = true;
    sled_of(j)->runner_stock = other;
    free_widths(j);
}

/* How far the air goes from that at fitting, either way [per cent RH]. */
static double now_air(const struct job *j, const struct plan *p)
{
    const struct job_air *a = &j->air;

    (void)p;
    if (!a->at_fitting.given || !a->driest.given || !a->dampest.given)
        return NAN;
    return fmax(fabs(a->driest.humidity.v - a->at_fitting.humidity.v), fabs(a->dampest.humidity.v - a->at_fitting.humidity.v));
}

static double within(double v, double middle, double most)
{
    return fmin(fmax(v, middle - most), middle + most);
}

static void apply_air(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double today = j->air.at_fitting.humidity.v;

    (void)pool;
    (void)p;
    give(&j->air.driest.humidity, within(j->air.driest.humidity.v, today, n));
    give(&j->air.dampest.humidity, within(j->air.dampest.humidity.v, today, n));
    free_widths(j);
}

static double now_play_high(const struct job *j, const struct plan *p)
{
    (void)p;
    return j->tolerances.side_play_high.v;
}

static void apply_play_high(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&j->tolerances.side_play_high, n);
    free_widths(j);
}

/* ---- knife ---- */

/* Halfway between plate and kerf. */
static double aim_knife(const struct job *j, const struct plan *p)
{
    const struct job_blade *b = &j->saw.blade;

    (void)p;
    if (!j->saw.knife.thickness.given)
        return NAN;
    return sled_round_down(b->plate.given ? (b->plate.v + b->kerf.v) / 2 : b->kerf.v * 0.8, lever_fit_step(j));
}

static void apply_knife(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&j->saw.knife.thickness, n);
}

double lever_knife_top(const struct job *j, const struct plan *p)
{
    (void)p;
    return j->units == UNITS_IN ? MM_PER_INCH / 16 : 2; /* EN 1870-1 as quoted in user guidance: within 2 mm of the blade's top */
}

static void apply_knife_top(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    (void)pool;
    (void)p;
    give(&j->saw.knife.below_top, n);
}

static void apply_knife_both(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    apply_knife(j, pool, p, n);
    apply_knife_top(j, pool, p, lever_knife_top(j, p));
}

/* ---- tables ---- */

enum lever_id {
    LEVER_NONE,
    LEVER_CAPACITY_WIDTH, LEVER_CAPACITY_THICKNESS, LEVER_DEEPER, LEVER_SHALLOWER, LEVER_NARROWER_BASE,
    LEVER_GUARD, LEVER_GUARD_EDGE, LEVER_GUARD_EDGE_DEPTH, LEVER_GUARD_HEIGHT,
    LEVER_HIGHER, LEVER_LOWER, LEVER_LAYERS, LEVER_LAYERS_DEPTH, LEVER_SHORTER_FENCES, LEVER_OTHER_IN,
    LEVER_PLANE, LEVER_PLANE_BOTH, LEVER_WIDEN, LEVER_WIDEN_BOTH, LEVER_WIDTH_UP, LEVER_FREE_WIDTH,
    LEVER_RUNNER_THICKNESS, LEVER_RINGS, LEVER_SPECIES, LEVER_AIR, LEVER_PLAY_HIGH,
    LEVER_KNIFE, LEVER_KNIFE_TOP, LEVER_KNIFE_BOTH,
    LEVERS
};

static const struct lever levers[LEVERS] = {
    [LEVER_CAPACITY_WIDTH] = {.key = "remedy.capacity_width", .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 20, .most = 2000, .now = now_capacity_width, .apply = apply_capacity_width},
    [LEVER_CAPACITY_THICKNESS] = {.key = "remedy.capacity_thickness", .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 1, .most = 300, .now = now_capacity_thickness, .apply = apply_capacity_thickness},
    [LEVER_DEEPER] = {.key = "remedy.base_deeper", .kind = SAY_SIZE, .direction = +1,
        .step = STEP_SIZE, .least = 0, .most = 3000, .now = now_base_depth, .apply = apply_base_depth},
    [LEVER_SHALLOWER] = {.key = "remedy.base_shallower", .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 100, .most = 3000, .now = now_base_depth, .apply = apply_base_depth},
    [LEVER_NARROWER_BASE] = {.key = "remedy.base_narrower", .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 200, .most = 4000, .now = now_base_width, .apply = apply_base_width},
    [LEVER_GUARD] = {.key = "remedy.guard_layers", .says = SAYS_GUARD, .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 1, .most = 60, .now = now_guard_layers, .apply = apply_guard_layers},
    [LEVER_GUARD_EDGE] = {.key = "remedy.guard_and_edge", .says = SAYS_GUARD, .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 1, .most = 60, .now = now_guard_layers, .apply = apply_guard_and_edge},
    [LEVER_GUARD_EDGE_DEPTH] = {.key = "remedy.guard_edge_and_depth", .says = SAYS_GUARD, .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 1, .most = 60, .now = now_guard_layers, .apply = apply_guard_edge_and_depth},
    [LEVER_GUARD_HEIGHT] = {.key = "remedy.guard_height", .says = SAYS_GUARD, .kind = SAY_SIZE, .direction = +1,
        .step = STEP_SIZE, .least = 0, .most = 400, .now = now_guard_height, .apply = apply_guard_height},
    [LEVER_HIGHER] = {.key = "remedy.fences_higher", .says = SAYS_FENCES, .kind = SAY_SIZE, .direction = +1,
        .step = STEP_SIZE, .least = 0, .most = 500, .now = now_lower_fence, .apply = apply_fence_heights},
    [LEVER_LOWER] = {.key = "remedy.fences_lower", .says = SAYS_FENCES, .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 20, .most = 1000, .now = now_higher_fence, .apply = apply_fence_heights_down},
    [LEVER_LAYERS] = {.key = "remedy.reference_layers", .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 1, .most = 20, .now = now_reference_layers, .apply = apply_reference_layers},
    [LEVER_LAYERS_DEPTH] = {.key = "remedy.reference_layers_and_depth", .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 1, .most = 20, .now = now_reference_layers,
        .apply = apply_reference_layers_and_depth},
    [LEVER_SHORTER_FENCES] = {.key = "remedy.fences_shorter", .says = SAYS_FENCES, .kind = SAY_SIZE, .direction = -1,
        .step = STEP_SIZE, .least = 200, .most = 4000, .now = now_longer_fence, .apply = apply_fence_lengths},
    [LEVER_OTHER_IN] = {.key = "remedy.other_in", .kind = SAY_SIZE, .direction = +1,
        .step = STEP_SIZE, .least = 0, .most = 1000, .now = now_other_from_edge, .apply = apply_other_from_edge},
    [LEVER_PLANE] = {.key = "remedy.plane", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_narrower, .apply = apply_width},
    [LEVER_PLANE_BOTH] = {.key = "remedy.plane_both", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_narrower, .apply = apply_both_widths},
    [LEVER_WIDEN] = {.key = "remedy.widen", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_wider, .apply = apply_width},
    [LEVER_WIDEN_BOTH] = {.key = "remedy.widen_both", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_wider, .apply = apply_both_widths},
    [LEVER_WIDTH_UP] = {.key = "remedy.widen", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = +1,
        .step = STEP_FIT, .least = 0, .most = 100, .now = now_width, .apply = apply_width},
    [LEVER_FREE_WIDTH] = {.key = "remedy.free_width", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = -1,
        .step = STEP_FIT, .least = 1, .most = 100, .now = lever_free_width, .apply = apply_free_width},
    [LEVER_RUNNER_THICKNESS] = {.key = "remedy.runner_thickness", .kind = SAY_THICKNESS, .direction = -1,
        .step = STEP_TENTH, .least = 1, .most = 100, .now = now_runner_thickness, .apply = apply_runner_thickness},
    [LEVER_RINGS] = {.key = "remedy.rings", .says = SAYS_RUNNERS, .kind = SAY_COUNT, .direction = 0,
        .step = STEP_COUNT, .least = 0, .most = 1, .now = aim_upright_rings, .apply = apply_upright_rings},
    [LEVER_SPECIES] = {.key = "remedy.species", .says = SAYS_WOOD, .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 0, .most = SPECIES - 1, .now = now_species, .apply = apply_species},
    [LEVER_AIR] = {.key = "remedy.air", .says = SAYS_WOOD, .kind = SAY_PERCENT, .direction = -1,
        .step = STEP_COUNT, .least = 1, .most = 100, .now = now_air, .apply = apply_air},
    [LEVER_PLAY_HIGH] = {.key = "remedy.play_high", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = +1,
        .step = STEP_FIT, .least = 0, .most = 3, .now = now_play_high, .apply = apply_play_high},
    [LEVER_KNIFE] = {.key = "remedy.knife_thickness", .says = SAYS_KNIFE, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 10, .now = aim_knife, .apply = apply_knife},
    [LEVER_KNIFE_TOP] = {.key = "remedy.knife_top", .says = SAYS_KNIFE, .kind = SAY_SIZE, .direction = 0,
        .step = STEP_SIZE, .least = 0, .most = 10, .now = lever_knife_top, .apply = apply_knife_top},
    [LEVER_KNIFE_BOTH] = {.key = "remedy.knife_both", .says = SAYS_KNIFE, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 10, .now = aim_knife, .apply = apply_knife_both},
};

/* Levers of each check, the one that leaves the job most as it is first. */
enum { MOST_LEVERS = 9 };
#define PLAY_LEVERS {LEVER_PLANE, LEVER_WIDEN, LEVER_PLANE_BOTH, LEVER_WIDEN_BOTH, LEVER_RINGS, LEVER_SPECIES, LEVER_AIR, LEVER_PLAY_HIGH}
#define GUARD_LEVERS {LEVER_GUARD, LEVER_GUARD_EDGE, LEVER_GUARD_EDGE_DEPTH}
static const enum lever_id levers_of[CHECKS][MOST_LEVERS] = {
    [CHECK_THICKNESS_CAPACITY] = {LEVER_CAPACITY_THICKNESS},
    [CHECK_TRAVEL_STOP] = GUARD_LEVERS,
    [CHECK_EXIT_GUARD_DEPTH] = GUARD_LEVERS,
    [CHECK_EXIT_GUARD_HEIGHT] = {LEVER_GUARD_HEIGHT},
    [CHECK_FENCE_BRIDGE] = {LEVER_HIGHER, LEVER_LOWER},
    [CHECK_FENCE_BENDING] = {LEVER_LAYERS, LEVER_LAYERS_DEPTH, LEVER_HIGHER},
    [CHECK_RUNNER_PLAY] = PLAY_LEVERS,
    [CHECK_RUNNER_PLAY_DRIEST] = PLAY_LEVERS,
    [CHECK_RUNNER_PLAY_DAMPEST] = PLAY_LEVERS,
    [CHECK_RUNNER_PAIR_PLAY] = {LEVER_FREE_WIDTH, LEVER_PLANE, LEVER_PLANE_BOTH, LEVER_RINGS, LEVER_SPECIES, LEVER_AIR, LEVER_PLAY_HIGH},
    [CHECK_RUNNER_WIDTH_TO_PLANE] = PLAY_LEVERS,
    [CHECK_RUNNER_YAW] = {LEVER_WIDTH_UP, LEVER_DEEPER, LEVER_CAPACITY_WIDTH},
    [CHECK_RUNNER_HEIGHT] = {LEVER_RUNNER_THICKNESS},
    [CHECK_RUNNER_ENGAGED] = {LEVER_CAPACITY_WIDTH, LEVER_DEEPER},
    [CHECK_TIPPING_NEAR] = {LEVER_CAPACITY_WIDTH, LEVER_DEEPER},
    [CHECK_TIPPING_FAR] = {LEVER_SHALLOWER, LEVER_OTHER_IN, LEVER_CAPACITY_WIDTH},
    [CHECK_TIPPING_SIDE] = {LEVER_SHORTER_FENCES, LEVER_NARROWER_BASE},
    [CHECK_TIPPING_PARKED] = {LEVER_CAPACITY_WIDTH, LEVER_SHALLOWER},
    [CHECK_WIDEST_WORK] = {LEVER_DEEPER, LEVER_CAPACITY_WIDTH},
    [CHECK_RIVING_KNIFE] = {LEVER_KNIFE, LEVER_KNIFE_TOP, LEVER_KNIFE_BOTH},
};

const struct lever *lever_of(enum check_id check, size_t i)
{
    enum lever_id id = i < MOST_LEVERS ? levers_of[check][i] : LEVER_NONE;

    return id == LEVER_NONE ? NULL : &levers[id];
}
