/* What a remedy can turn: a value of the job, which way to move it, what goes with it; and which check tries which. */
#include "plan/levers.h"

#include "plan/sled.h"

#include <math.h>

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
    lever_give(&lever_sled(j)->capacity_width, n);
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
    lever_give(&lever_sled(j)->capacity_thickness, n);
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
    lever_give(&lever_sled(j)->base_depth, n);
}

static double now_base_width(const struct job *j, const struct plan *p)
{
    (void)j;
    return p->sled.base_width;
}

/* A narrower base keeps the blade where it is in it, and its fences end with it. */
static void apply_base_width(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = lever_sled(j);

    (void)pool;
    lever_give(&s->base_left_of_blade, sled_round_down(n * -p->sled.base_x0 / p->sled.base_width, sled_least_edge_step(j->units)));
    lever_give(&s->base_width, n);
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
    lever_sled(j)->guard_layers.given = true;
    lever_sled(j)->guard_layers.count = (int)n;
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
    lever_give(guarded_from_edge(lever_sled(j), p), sled_round_up(n * layer, sled_least_edge_step(j->units)));
}

/* The base grows by as much. */
static void apply_guard_edge_and_depth(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double before = p->sled.guard_v1;

    apply_guard_and_edge(j, pool, p, n);
    lever_give(&lever_sled(j)->base_depth, sled_round_up(p->sled.base_depth + guarded_from_edge(lever_sled(j), p)->v - before,
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
    lever_give(&lever_sled(j)->guard_height, n);
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
        lever_give(&f->height, n);
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
    struct job_sled *s = lever_sled(j);

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
    struct job_sled *s = lever_sled(j);

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
    struct job_layers *l = &lever_sled(j)->reference_fence.layers;

    (void)pool;
    (void)p;
    if (l->heights)
        lever_give(&lever_sled(j)->reference_fence.height, p->sled.reference.height);
    l->given = true;
    l->heights = NULL;
    l->count = (int)n;
}

static void apply_reference_layers_and_depth(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    double layer = p->sled.reference.thickness / p->sled.reference.layers;

    apply_reference_layers(j, pool, p, n);
    lever_give(&lever_sled(j)->base_depth,
         sled_round_up(p->sled.base_depth + (n - p->sled.reference.layers) * layer, sled_least_edge_step(j->units)));
}

static double now_longer_fence(const struct job *j, const struct plan *p)
{
    (void)j;
    return fmax(p->sled.reference.length, p->sled.other.length);
}

static void apply_fence_lengths(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    struct job_sled *s = lever_sled(j);

    (void)pool;
    if (p->sled.reference.length > n)
        lever_give(&s->reference_fence.length, n);
    if (p->sled.other.length > n)
        lever_give(&s->other_fence.length, n);
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
    lever_give(&lever_sled(j)->other_fence.from_edge, n);
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
    lever_give(&j->saw.knife.thickness, n);
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
    lever_give(&j->saw.knife.below_top, n);
}

static void apply_knife_both(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    apply_knife(j, pool, p, n);
    apply_knife_top(j, pool, p, lever_knife_top(j, p));
}

/* ---- tables ---- */

/* Those of the runners stand in levers_runners.c. */
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

    if (id >= LEVER_PLANE && id <= LEVER_PLAY_HIGH)
        return &runner_levers[id - LEVER_PLANE];
    return id == LEVER_NONE ? NULL : &levers[id];
}
