/* A sled from the operator's place: x to the right, z up. What stands nearer hides what stands behind it. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static const enum part_kind upright_parts[] = {PART_REFERENCE_FENCE, PART_OTHER_FENCE, PART_EXIT_GUARD};

/* The far fence first, the guard last. */
static void add_upright_parts(struct model *m, const struct plan *plan)
{
    bool near = plan->sled.reference.side == FENCE_NEAR;
    enum part_kind order[] = {near ? PART_OTHER_FENCE : PART_REFERENCE_FENCE,
                              near ? PART_REFERENCE_FENCE : PART_OTHER_FENCE, PART_EXIT_GUARD, PART_BLADE_COVER};
    for (size_t i = 0; i < sizeof order / sizeof *order; i++)
        add_parts(m, plan, order[i], VIEW_FRONT, LINE_VISIBLE, FILL_WHITE);
}

static void dimension_front(struct model *m, const struct plan_sled *s)
{
    const struct plan_fence *near = near_fence(s), *far = far_fence(s);
    double t = s->base_thickness, right = s->base_x0 + s->base_width, top = t + near->height;
    add_dim(m, s->base_x0, 0, s->base_x0, t, DIM_LEFT, SAY_THICKNESS);
    add_dim(m, near->x0, t, near->x0, top, DIM_LEFT, SAY_SIZE);
    add_dim(m, 0, s->travel.highest, near->x0 + near->length, top, DIM_RIGHT, SAY_THICKNESS); /* from the blade's top */
    add_dim(m, right, 0, 0, s->travel.highest, DIM_RIGHT, SAY_SIZE);
    if (fabs(far->height - near->height) > 0.5)
        add_dim(m, far->x0, t, far->x0, t + far->height, DIM_LEFT, SAY_SIZE);
    if (s->guard_v1 > s->guard_v0) {
        add_dim(m, -s->guard_width / 2, t + s->guard_height, s->guard_width / 2, t + s->guard_height, DIM_ABOVE,
                SAY_SIZE);
        if (fabs(s->guard_height - near->height) > 0.5)
            add_dim(m, s->guard_width / 2, t, s->guard_width / 2, t + s->guard_height, DIM_RIGHT, SAY_SIZE);
    }
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present)
            add_dim(m, r->slot_x - r->width / 2, -r->thickness, r->slot_x + r->width / 2, -r->thickness, DIM_BELOW,
                    SAY_FIT);
    }
}

/* Of a fence's parts, the one that stands before the others. */
static const struct plan_part *nearest_part(const struct plan *plan, enum part_kind kind)
{
    const struct plan_part *nearest = find_part(plan, kind);
    for (const struct plan_part *p = nearest; p; p = next_part(plan, kind, p))
        if (p->n_bodies > 0 && nearest->n_bodies > 0 && p->bodies[0].v0 < nearest->bodies[0].v0)
            nearest = p;
    return nearest;
}

static void label_front(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    for (size_t i = 0; i < sizeof upright_parts / sizeof *upright_parts; i++) {
        const struct plan_part *part = nearest_part(plan, upright_parts[i]);
        if (!part || part->n_bodies == 0)
            continue;
        struct flat f = body_flat(&part->bodies[0], VIEW_FRONT);
        bool hidden = &s->other == far_fence(s) ? part->kind == PART_OTHER_FENCE : part->kind == PART_REFERENCE_FENCE;
        if (part->kind == PART_EXIT_GUARD)
            add_part_label(m, part, 0.35 * f.x0, f.y0 + 0.3 * (f.y1 - f.y0));
        else if (!hidden)
            add_part_label(m, part, 0.6 * f.x0, (f.y0 + f.y1) / 2);
    }
    const struct plan_part *base = find_part(plan, PART_BASE), *cover = find_part(plan, PART_BLADE_COVER);
    if (cover && cover->n_bodies > 0)
        add_part_label(m, cover, 0.8 * cover->bodies[0].x1, (cover->bodies[0].z0 + cover->bodies[0].z1) / 2);
    if (base)
        add_part_label(m, base, 0.3 * s->base_x0, s->base_thickness / 2);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        const struct plan_part *part = find_part(plan, r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER);
        if (r->present && part)
            add_part_label(m, part, r->slot_x, -r->thickness / 2);
    }
    struct draw_label *blade = add_leader(m, 0, 0.75 * s->travel.highest, words_get("draw.blade_highest"));
    blade->anchor = ANCHOR_RIGHT;
    blade->end = END_HEAD;
}

void draw_front_view(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.front");
    const struct plan_sled *s = &plan->sled;
    double top = s->base_thickness + fmax(s->reference.height, s->other.height);
    add_parts(&m, plan, PART_GUIDE_RUNNER, VIEW_FRONT, LINE_VISIBLE, FILL_DARK_TINT);
    add_parts(&m, plan, PART_FREE_RUNNER, VIEW_FRONT, LINE_VISIBLE, FILL_DARK_TINT);
    add_parts(&m, plan, PART_BASE, VIEW_FRONT, LINE_VISIBLE, FILL_WHITE);
    add_upright_parts(&m, plan);
    add_line(&m, 0, -0.12 * top, 0, s->travel.highest, LINE_HIDDEN); /* the blade, seen on edge */
    dimension_front(&m, s);
    label_front(&m, plan);
}
