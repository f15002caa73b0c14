/* Every size of a sled: the job's where it is given, else derived by the rules of sizes_across.c, sizes_along.c and
   widest.c. The figures are common practice, no source. */
#include "plan/sizing.h"

#include <assert.h>
#include <math.h>

static const double least_capacity_thickness = 10;
static const struct figure above_work = {5, 3.0 / 16}, keep_out = {SLED_KEEP_OUT, 3}, chamfer = {2, 1.0 / 16};
enum { MOST_LAYERS = 40 };

double sizing_given_or(const struct num *n, double derived)
{
    return n->given ? n->v : derived;
}

double sizing_figure(const struct sizing *z, struct figure f)
{
    return z->job->units == UNITS_IN ? f.in * MM_PER_INCH : f.mm;
}

double sizing_on_a_rule(const struct sizing *z, double mm)
{
    return z->job->units == UNITS_IN ? sled_round_down(mm, z->step) : mm;
}

struct mark sizing_mark(const struct num *n, struct mark otherwise)
{
    return n->given ? n->mark : otherwise;
}

/* A length as the job's unit has it, for a message. */
const char *sizing_length_text(const struct sizing *z, double mm)
{
    struct pool *pool = &z->builder->plan->pool;

    return z->job->units == UNITS_IN ? pool_printf(pool, "%.4g in", unit_inches(mm)) : pool_printf(pool, "%.4g mm", mm);
}

int sizing_layers(double wanted, double layer, int least)
{
    double n = ceil(wanted / layer - 1e-9);

    return (int)fmin(fmax(n, least), MOST_LAYERS);
}

/* Rule 1. */
static bool size_heights(struct sizing *z, struct plan_sled *s)
{
    const struct job_blade *blade = &z->job->saw.blade;
    struct blade b = {blade->diameter.v / 2, blade->highest.v, z->job->saw.table.front_edge.v};
    double capacity;

    s->base_thickness = z->stocks.base->thickness.v;
    s->blade_above_work = sizing_given_or(&z->wish->blade_above_work, sizing_figure(z, above_work));
    s->least_above_work = fmin(SLED_LEAST_ABOVE_WORK, s->blade_above_work);
    capacity = travel_capacity(b, s->base_thickness, s->blade_above_work);
    s->capacity_thickness = sizing_given_or(&z->wish->capacity_thickness, sizing_on_a_rule(z, capacity));
    if (fmin(capacity, s->capacity_thickness) < least_capacity_thickness && !z->wish->capacity_thickness.given)
        return diag_at(z->builder->diags, DIAG_NO_SLED, blade->highest.mark, "saw.blade.highest",
                       "a blade %s high over a base of %s leaves %s for the work: at least %s is wanted",
                       sizing_length_text(z, b.highest), sizing_length_text(z, s->base_thickness), sizing_length_text(z, fmax(capacity, 0)),
                       sizing_length_text(z, least_capacity_thickness));
    return true;
}

/* A width of the runner that is left out is refused, not guessed, where none does. */
static bool check_runner_width(struct sizing *z, struct plan_sled *s)
{
    struct width_range range = sizes_runner_widths(z);

    z->no_width = range.low > range.high;
    s->plane_low = range.low;
    s->plane_high = range.high;
    if (!z->no_width || z->wish->runner_width.given)
        return true;
    return diag_at(
        z->builder->diags, DIAG_NO_SLED, sizing_mark(&z->wish->runner_width, z->wish->runners_mark), "jig.runners.width",
        "no runner width keeps its play within limits all year: it would have to be at least %s and at most %s; "
        "upright rings, another species or steadier air would help",
        sizing_length_text(z, s->plane_low), sizing_length_text(z, s->plane_high));
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
    s->chamfer = sizing_figure(&z, chamfer);
    s->keep_out = sizing_figure(&z, keep_out);
    s->screw_free = SLED_SCREW_FREE;
    s->reference.side = z.wish->reference_fence.side_given ? z.wish->reference_fence.side : FENCE_NEAR;
    s->other.side = s->reference.side == FENCE_NEAR ? FENCE_FAR : FENCE_NEAR;
    if (!size_heights(&z, s) || !sizes_across(&z, s) || !check_runner_width(&z, s))
        return false;
    if (z.wish->capacity_width.given)
        widest_given(&z, s);
    else if (!widest_search(&z, s))
        return false;
    b->plan->has_sled = true;
    return true;
}
