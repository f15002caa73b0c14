/* Levers of the runners: their widths, the wood that they are of, the air, the play that is allowed. */
#include "plan/levers.h"

#include "plan/sled.h"

#include <math.h>

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
    lever_give(&lever_sled(j)->runner_width, n);
}

/* The free runner then follows its rule. */
static void apply_both_widths(struct job *j, struct pool *pool, const struct plan *p, double n)
{
    apply_width(j, pool, p, n);
    lever_sled(j)->runner_free_width.given = false;
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
    lever_give(&lever_sled(j)->runner_free_width, n);
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
    lever_give(&lever_sled(j)->runner_thickness, n);
}

/* Both widths are derived anew. */
static void free_widths(struct job *j)
{
    lever_sled(j)->runner_width.given = false;
    lever_sled(j)->runner_free_width.given = false;
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
    lever_sled(j)->runner_stock = quarter;
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
    lever_sled(j)->runner_stock = other;
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
    lever_give(&j->air.driest.humidity, within(j->air.driest.humidity.v, today, n));
    lever_give(&j->air.dampest.humidity, within(j->air.dampest.humidity.v, today, n));
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
    lever_give(&j->tolerances.side_play_high, n);
    free_widths(j);
}

const struct lever runner_levers[] = {
    [LEVER_PLANE - LEVER_PLANE] = {.key = "remedy.plane", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_narrower, .apply = apply_width},
    [LEVER_PLANE_BOTH - LEVER_PLANE] = {.key = "remedy.plane_both", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_narrower, .apply = apply_both_widths},
    [LEVER_WIDEN - LEVER_PLANE] = {.key = "remedy.widen", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_wider, .apply = apply_width},
    [LEVER_WIDEN_BOTH - LEVER_PLANE] = {.key = "remedy.widen_both", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = 0,
        .step = STEP_FIT, .least = 0, .most = 100, .now = aim_wider, .apply = apply_both_widths},
    [LEVER_WIDTH_UP - LEVER_PLANE] = {.key = "remedy.widen", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = +1,
        .step = STEP_FIT, .least = 0, .most = 100, .now = now_width, .apply = apply_width},
    [LEVER_FREE_WIDTH - LEVER_PLANE] = {.key = "remedy.free_width", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = -1,
        .step = STEP_FIT, .least = 1, .most = 100, .now = lever_free_width, .apply = apply_free_width},
    [LEVER_RUNNER_THICKNESS - LEVER_PLANE] = {.key = "remedy.runner_thickness", .kind = SAY_THICKNESS, .direction = -1,
        .step = STEP_TENTH, .least = 1, .most = 100, .now = now_runner_thickness, .apply = apply_runner_thickness},
    [LEVER_RINGS - LEVER_PLANE] = {.key = "remedy.rings", .says = SAYS_RUNNERS, .kind = SAY_COUNT, .direction = 0,
        .step = STEP_COUNT, .least = 0, .most = 1, .now = aim_upright_rings, .apply = apply_upright_rings},
    [LEVER_SPECIES - LEVER_PLANE] = {.key = "remedy.species", .says = SAYS_WOOD, .kind = SAY_COUNT, .direction = +1,
        .step = STEP_COUNT, .least = 0, .most = SPECIES - 1, .now = now_species, .apply = apply_species},
    [LEVER_AIR - LEVER_PLANE] = {.key = "remedy.air", .says = SAYS_WOOD, .kind = SAY_PERCENT, .direction = -1,
        .step = STEP_COUNT, .least = 1, .most = 100, .now = now_air, .apply = apply_air},
    [LEVER_PLAY_HIGH - LEVER_PLANE] = {.key = "remedy.play_high", .says = SAYS_RUNNERS, .kind = SAY_FIT, .direction = +1,
        .step = STEP_FIT, .least = 0, .most = 3, .now = now_play_high, .apply = apply_play_high},
};
