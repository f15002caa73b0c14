/* How wide the work may be: widths are tried from the greatest down, each with all that hangs on it, until one makes a
   sound sled. The figures are common practice, no source. */
#include "plan/sizing.h"

#include <math.h>

static const double width_least = 100; /* of work, where the job leaves it out */
static const double deeper_most = 300, worth_deeper = 1.08;

static bool fence_fits(const struct plan_fence *f, const struct job_stock *stock, double trim)
{
    double along = stock->is_strip ? stock->length.v : stock->sheet_along.v;
    double across = stock->is_strip ? stock->strip_width.v : stock->sheet_across.v;

    return !(f->length > along - trim) &&
           !(f->height > across - (stock->is_strip ? 0 : trim)); /* true for NAN: not known */
}

/* Why a width is no good. */
enum obstacle {
    OBSTACLE_NONE,
    OBSTACLE_BASE_STOCK,
    OBSTACLE_FENCE_STOCK,
    OBSTACLE_RUNNER_STOCK,
    OBSTACLE_FAR,
    OBSTACLE_PARKED,
    OBSTACLE_ENGAGED_STOP,
    OBSTACLE_ENGAGED_TOUCH,
    OBSTACLE_NEAR,
    OBSTACLE_YAW,
    OBSTACLES
};
static const struct {
    const char *text;
    bool deeper_helps[2]; /* by enum fence_side: a base deeper than the work needs may do away with it */
} obstacles[OBSTACLES] = {
    [OBSTACLE_BASE_STOCK] = {"the base does not fit its sheet", {false, false}},
    [OBSTACLE_FENCE_STOCK] = {"a fence as long as the base does not fit its stock", {false, false}},
    [OBSTACLE_RUNNER_STOCK] = {"the runners do not fit their strip", {false, false}},
    [OBSTACLE_FAR] = {"the sled tips off the table's far edge at the end of the cut", {false, true}},
    [OBSTACLE_PARKED] = {"the sled tips off the table when it is drawn clear of the blade", {false, true}},
    [OBSTACLE_ENGAGED_STOP] = {"less than half of the guide runner stays in its slot at the end of the cut", {false, false}},
    [OBSTACLE_ENGAGED_TOUCH] = {"less than half of the guide runner is in its slot at the start of the cut", {true, false}},
    [OBSTACLE_NEAR] = {"the sled tips off the table's near edge at the start of the cut", {true, true}},
    [OBSTACLE_YAW] = {"the runner's play lets the sled yaw by more than three times the tolerance", {true, false}},
};

static enum obstacle stock_obstacle(const struct sizing *z, const struct plan_sled *s)
{
    const struct job_stock *base = z->stocks.base, *runner = z->stocks.runner;
    double trim = z->job->trim.given ? 2 * z->job->trim.v : 0;
    double long_side = fmax(base->sheet_along.v, base->sheet_across.v) - trim;
    double short_side = fmin(base->sheet_along.v, base->sheet_across.v) - trim;

    if (fmax(s->base_width, s->base_depth) > long_side || fmin(s->base_width, s->base_depth) > short_side)
        return OBSTACLE_BASE_STOCK;
    if (!fence_fits(&s->reference, z->stocks.reference, trim) || !fence_fits(&s->other, z->stocks.other, trim))
        return OBSTACLE_FENCE_STOCK;
    if (runner && runner->length.given && sled_runner_full_length(z->job, s) > runner->length.v - trim)
        return OBSTACLE_RUNNER_STOCK;
    return OBSTACLE_NONE;
}

static enum obstacle width_obstacle(const struct sizing *z, const struct plan_sled *s)
{
    enum obstacle stock = stock_obstacle(z, s);
    struct sled_engaged e;
    struct sled_tipping near, far;

    if (stock)
        return stock;
    e = sled_guide_engaged(z->job, s, s->capacity_width);
    far = sled_tip_far(z->job, s, s->capacity_width);
    if (far.moment <= 0 || (s->reference.side == FENCE_FAR && far.force < SLED_HAND_FORCE))
        return OBSTACLE_FAR;
    if (sled_parked_ratio(z->job, s) < BALANCE_MARGIN)
        return OBSTACLE_PARKED;
    if (e.stop < SLED_ENGAGED_LEAST * sled_guide(s)->length)
        return OBSTACLE_ENGAGED_STOP;
    if (e.touch < SLED_ENGAGED_LEAST * sled_guide(s)->length)
        return OBSTACLE_ENGAGED_TOUCH;
    near = sled_tip_near(z->job, s, s->capacity_width);
    if (near.moment <= 0 || near.force < SLED_HAND_FORCE)
        return OBSTACLE_NEAR;
    if (sled_yaw(z->job, e, &z->wood, sled_guide(s)->width) > sizes_yaw_limit(z->job, SLED_YAW_FAIL))
        return OBSTACLE_YAW;
    return OBSTACLE_NONE;
}

/* Sizes for work of one width; the base no deeper than it must be to have no obstacle, at most `deepest` beyond its
   least. Depth moves weight over the table before a near fence; behind a far one it saves layers of the guard. */
static enum obstacle try_width(struct sizing *z, double width, double deepest, struct plan_sled *s)
{
    double step = sled_width_step(z->job->units);
    bool may_deepen = !z->wish->base_depth.given;
    enum obstacle o;

    z->deeper = 0;
    sizes_for_width(z, width, s);
    o = width_obstacle(z, s);
    while (may_deepen && obstacles[o].deeper_helps[s->reference.side] && z->deeper < deepest - 1e-9) {
        z->deeper += step;
        sizes_for_width(z, width, s);
        o = width_obstacle(z, s);
    }
    return o;
}

/* Not even on a base as small as it can be; s is sized no further than that. */
static enum obstacle stock_too_small(struct sizing *z, double width, struct plan_sled *s)
{
    z->deeper = 0;
    s->capacity_width = width;
    sizes_base_along(z, s);
    return stock_obstacle(z, s);
}

/* The widest work, not narrower than `least`; 0: there is none, and o is what speaks against the narrowest. */
static double try_widths(struct sizing *z, double least, double step, double deepest, struct plan_sled *s,
                         enum obstacle *o)
{
    for (double w = sled_widest_tried(z->job->units); w >= least - 1e-9; w -= step) {
        *o = stock_too_small(z, w, s);
        if (*o == OBSTACLE_NONE)
            *o = try_width(z, w, deepest, s);
        if (*o == OBSTACLE_NONE)
            return w;
    }
    return 0;
}

/* Rule 6. A base deeper than the work needs is heavy and in the way: it must gain a good part of the work's width. */
bool widest_search(struct sizing *z, struct plan_sled *s)
{
    double step = sled_width_step(z->job->units), compact;
    enum obstacle o = OBSTACLE_NONE, o_deep;

    compact = try_widths(z, width_least, step, 0, s, &o);
    if (try_widths(z, fmax(width_least, worth_deeper * compact), step, deeper_most, s, &o_deep) > 0)
        return true;
    if (compact > 0)
        return try_width(z, compact, 0, s) == OBSTACLE_NONE;
    return diag_at(z->builder->diags, DIAG_NO_SLED, z->job->jig.mark, "jig.capacity.width",
                   "even for work of %s along the feed: %s", sizing_length_text(z, sled_round_up(width_least, step)),
                   obstacles[o].text);
}

/* Work of a given width gets its sled whatever speaks against it: the checks say so. */
void widest_given(struct sizing *z, struct plan_sled *s)
{
    double width = z->wish->capacity_width.v;

    if (try_width(z, width, deeper_most, s) != OBSTACLE_NONE)
        try_width(z, width, 0, s);
}
