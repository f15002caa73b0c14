/* The screws of a sled seen from above, each kind by its own sign: a ring for a head on top, a cross for one underneath, an
   oblique cross for the moving end's second hole, a stroke for a place that is kept free for a later move. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static const double arm_of_gap = 0.4;    /* signs of neighbours leave a fifth of the gap between them white */
static const double ring_of_arm = 0.75;  /* a ring is as large as a cross to the eye */
static const double gap_of_arm = 1.6;    /* half of what a line leaves free round a sign */

static double gap_to_next(const struct plan *plan, size_t hole)
{
    const struct plan_hole *a = &plan->holes[hole];
    double gap = INFINITY;
    for (size_t i = 0; i < plan->n_holes; i++)
        if (i != hole)
            gap = fmin(gap, hypot(plan->holes[i].x - a->x, plan->holes[i].v - a->v));
    return gap;
}

/* A sign is found at any scale. */
static double arm_of(const struct plan *plan, size_t hole)
{
    return fmin(plan->sled.base_width / 150, arm_of_gap * gap_to_next(plan, hole));
}

static void add_cross(struct model *m, const struct plan_hole *hole, double arm, double lean)
{
    double dx = arm * cos(lean), dy = arm * sin(lean);
    add_line(m, hole->x - dx, hole->v - dy, hole->x + dx, hole->v + dy, LINE_NARROW);
    add_line(m, hole->x + dy, hole->v - dx, hole->x - dy, hole->v + dx, LINE_NARROW);
}

static void add_hole(struct model *m, const struct plan_hole *hole, double arm)
{
    switch (hole->role) {
    case HOLE_PIVOT:
        return;
    case HOLE_RESERVED:
        add_line(m, hole->x, hole->v - arm, hole->x, hole->v + arm, LINE_NARROW);
        return;
    case HOLE_FRESH:
        add_cross(m, hole, arm, 0.25 * UNIT_PI);
        return;
    case HOLE_FIXED:
    case HOLE_TRIAL:
    case HOLE_REST:
        if (hole->from_above)
            add_circle(m, hole->x, hole->v, ring_of_arm * arm, LINE_NARROW, FILL_WHITE);
        else
            add_cross(m, hole, arm, 0);
    }
}

void add_holes(struct model *m, const struct plan *plan)
{
    for (size_t i = 0; i < plan->n_holes; i++)
        add_hole(m, &plan->holes[i], arm_of(plan, i));
}

double between_screws(const struct plan *plan, double x, double v)
{
    double below = -INFINITY, above = INFINITY;
    for (size_t i = 0; i < plan->n_holes; i++) {
        const struct plan_hole *h = &plan->holes[i];
        if (fabs(h->x - x) > 0.1)
            continue;
        if (h->v <= v)
            below = fmax(below, h->v);
        else
            above = fmin(above, h->v);
    }
    return isinf(below) || isinf(above) ? v : (below + above) / 2;
}

static const struct plan_hole *hole_of(const struct plan *plan, enum hole_role role)
{
    for (size_t i = 0; i < plan->n_holes; i++)
        if (plan->holes[i].role == role)
            return &plan->holes[i];
    return NULL;
}

/* Of the moving end, at the working face: there is room on the base, and no gauge mark. */
void label_moving_holes(struct model *m, const struct plan *plan)
{
    const struct plan_fence *f = &plan->sled.reference;
    const struct plan_hole *one = hole_of(plan, HOLE_TRIAL), *two = hole_of(plan, HOLE_FRESH);
    if (!one)
        return;
    const char *key = !two ? "draw.hole_1" : one->x < two->x ? "draw.holes_1_2" : "draw.holes_2_1";
    double x = two ? (one->x + two->x) / 2 : one->x;
    add_leader(m, x, f->v_face, words_get(key))->anchor = f->side == FENCE_NEAR ? ANCHOR_ABOVE : ANCHOR_BELOW;
}

void add_gauge_line(struct model *m, const struct plan *plan, bool with_holes)
{
    const struct plan_sled *s = &plan->sled;
    double low = fence_low_v(&s->reference), high = fence_high_v(&s->reference);
    const struct plan_hole *one = with_holes ? hole_of(plan, HOLE_TRIAL) : NULL;
    double free = one ? gap_of_arm * arm_of(plan, (size_t)(one - plan->holes)) : 0;
    if (!one || fabs(one->x - s->moving_x) > free) {
        add_line(m, s->moving_x, low, s->moving_x, high, LINE_NARROW);
        return;
    }
    if (one->v - free > low)
        add_line(m, s->moving_x, low, s->moving_x, one->v - free, LINE_NARROW);
    if (one->v + free < high)
        add_line(m, s->moving_x, one->v + free, s->moving_x, high, LINE_NARROW);
}
