/* Boxes of a sled and their order. Two boxes that do not meet are parted by a plane along two of the axes; the one on
   the viewer's side of it cannot be hidden by the other. Three boxes might each hide a part of the next; those of a
   sled, all stacked on one base, do not. */
#include "draw/solid.h"

#include "draw/sled.h"

#include <math.h>

static const double touching = 1e-6; /* boxes as near as this do not meet [mm] */

struct draw_point isometric_point(double x, double v, double z)
{
    const double c = sqrt(3) / 2, s = 0.5; /* cosine and sine of 30 degrees */
    return (struct draw_point){c * (x + v), s * (v - x) + z};
}

void solid_corners(const struct body *b, enum solid_side side, struct draw_point corners[4])
{
    corners[0] = isometric_point(b->x0, b->v0, b->z1);
    corners[1] = isometric_point(b->x1, b->v0, b->z1);
    switch (side) {
    case SOLID_TOP:
        corners[2] = isometric_point(b->x1, b->v1, b->z1);
        corners[3] = isometric_point(b->x0, b->v1, b->z1);
        return;
    case SOLID_NEAR:
        corners[2] = isometric_point(b->x1, b->v0, b->z0);
        corners[3] = isometric_point(b->x0, b->v0, b->z0);
        return;
    case SOLID_RIGHT:
        corners[0] = isometric_point(b->x1, b->v1, b->z1);
        corners[2] = isometric_point(b->x1, b->v0, b->z0);
        corners[3] = isometric_point(b->x1, b->v1, b->z0);
        return;
    case SOLID_SIDES:
        return;
    }
}

static void add_solid(struct solid *out, size_t *n, const struct plan_part *part, struct body body)
{
    if (part && *n < SOLIDS_MOST)
        out[(*n)++] = (struct solid){body, part};
}

static void add_bodies(const struct plan *plan, enum part_kind kind, struct solid *out, size_t *n)
{
    for (const struct plan_part *p = find_part(plan, kind); p; p = next_part(plan, kind, p))
        for (size_t k = 0; k < p->n_bodies; k++)
            add_solid(out, n, p, p->bodies[k]);
}

double solids_flip_x(const struct plan_flip *f)
{
    double way = f->side == SIDE_LEFT ? -1 : 1, half_kerf = f->tape_zero - f->body_length;
    return way * (half_kerf + (f->shortest + f->longest) / 2);
}

/* Body on the fence's top, cheek behind its outer face, arm before its working face. */
static void add_flip_stop(const struct plan *plan, struct solid *out, size_t *n)
{
    const struct plan_flip *f = &plan->sled.flip;
    const struct plan_fence *fence = &plan->sled.reference;
    double way = f->side == SIDE_LEFT ? -1 : 1, x = solids_flip_x(f), t = f->body_thickness;
    double x_body = x + way * f->body_length, x_arm = x + way * f->arm_width,
           top = plan->sled.base_thickness + fence->height;
    double work = fence->v_face > fence->v_outer ? 1 : -1, back = fence->v_face - work * f->body_width;
    if (!f->present)
        return;
    struct body body = {fmin(x, x_body), fmax(x, x_body), fmin(fence->v_face, back), fmax(fence->v_face, back), top,
                        top + t};
    struct body cheek = {
        body.x0, body.x1, fmin(fence->v_outer, back), fmax(fence->v_outer, back), top - f->cheek_height, top};
    struct body arm = {fmin(x, x_arm),
                       fmax(x, x_arm),
                       fmin(fence->v_face, fence->v_face + work * t),
                       fmax(fence->v_face, fence->v_face + work * t),
                       top + t - f->arm_length,
                       top + t};
    add_solid(out, n, find_part(plan, PART_FLIP_STOP), body);
    if (f->cheek_height > 0)
        add_solid(out, n, find_part(plan, PART_FLIP_CHEEK), cheek);
    add_solid(out, n, find_part(plan, PART_FLIP_ARM), arm);
}

size_t solids_of_sled(const struct plan *plan, struct solid out[SOLIDS_MOST])
{
    static const enum part_kind kinds[] = {PART_BASE,        PART_EXIT_GUARD,      PART_GUIDE_RUNNER,
                                           PART_FREE_RUNNER, PART_REFERENCE_FENCE, PART_OTHER_FENCE,
                                           PART_BLADE_COVER};
    size_t n = 0;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        add_bodies(plan, kinds[i], out, &n);
    add_flip_stop(plan, out, &n);
    return n;
}

/* On paper: along a line of sight, which runs (-1, 1, -1), these three sums stay the same. */
static bool overlap_on_paper(const struct body *a, const struct body *b)
{
    return a->x0 + a->v0 < b->x1 + b->v1 - touching && b->x0 + b->v0 < a->x1 + a->v1 - touching &&
           a->x0 - a->z1 < b->x1 - b->z0 - touching && b->x0 - b->z1 < a->x1 - a->z0 - touching &&
           a->v0 + a->z0 < b->v1 + b->z1 - touching && b->v0 + b->z0 < a->v1 + a->z1 - touching;
}

/* The viewer stands to the right, near and above: no box to the left of another, beyond it or below it hides it. */
static bool hides(const struct body *front, const struct body *back)
{
    bool behind =
        front->x1 <= back->x0 + touching || front->v0 >= back->v1 - touching || front->z1 <= back->z0 + touching;
    return !behind && overlap_on_paper(front, back);
}

static bool hides_none(const struct solid *solids, size_t n, size_t i)
{
    for (size_t k = 0; k < n; k++)
        if (k != i && hides(&solids[i].body, &solids[k].body))
            return false;
    return true;
}

void solids_sort(struct solid *solids, size_t n)
{
    for (; n > 1; solids++, n--) {
        size_t next = 0;
        while (next + 1 < n && !hides_none(solids, n, next))
            next++;
        struct solid first = solids[next];
        solids[next] = solids[0];
        solids[0] = first;
    }
}
