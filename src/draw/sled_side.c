/* A sled from the operator's right: away from the operator to the right, z up, on the table without the saw. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static void dimension_runner(struct model *m, const struct plan_runner *r)
{
    if (!r->present)
        return;
    add_dim(m, r->v0, -r->thickness, r->v0 + r->length, -r->thickness, DIM_BELOW, SAY_SIZE);
    add_dim(m, 0, 0, r->v0, -r->thickness, DIM_BELOW, SAY_SIZE);
}

static void dimension_side(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    const struct plan_fence *far = far_fence(s);
    const struct plan_runner *left = &s->runner[SIDE_LEFT], *right = &s->runner[SIDE_RIGHT];
    const struct plan_part *stop = find_part(plan, PART_TRAVEL_STOP);
    double t = s->base_thickness;
    dimension_runner(m, right);
    if (!right->present || fabs(left->length - right->length) > 0.5)
        dimension_runner(m, left);
    if (stop && stop->n_bodies > 0)
        add_dim(m, stop->bodies[0].v0, stop->bodies[0].z0, stop->bodies[0].v1, stop->bodies[0].z0, DIM_BELOW, SAY_SIZE);
    add_dim(m, fence_high_v(far), t, fence_high_v(far), t + far->height, DIM_RIGHT, SAY_SIZE);
    if (s->guard_v1 > s->guard_v0)
        add_dim(m, s->guard_v0, t + s->guard_height, s->guard_v1, t + s->guard_height, DIM_ABOVE, SAY_THICKNESS);
    add_dim(m, s->reference.v_outer, t + s->reference.height, s->reference.v_face, t + s->reference.height, DIM_ABOVE,
            SAY_THICKNESS);
    double thickness = right->present ? right->thickness : left->thickness, v0 = right->present ? right->v0 : left->v0;
    add_dim(m, v0, -thickness, v0, 0, DIM_LEFT, SAY_THICKNESS);
}

static void label_side_parts(struct model *m, const struct plan *plan, enum part_kind kind, double along, double up)
{
    for (const struct plan_part *p = find_part(plan, kind); p; p = next_part(plan, kind, p)) {
        if (p->n_bodies == 0)
            continue;
        struct flat f = body_flat(&p->bodies[0], VIEW_SIDE);
        add_part_label(m, p, f.x0 + along * (f.x1 - f.x0), f.y0 + up * (f.y1 - f.y0));
    }
}

/* Where it is not hidden by what ends at `edge`. */
static void label_beyond(struct model *m, const struct plan *plan, enum part_kind kind, double edge)
{
    const struct plan_part *p = find_part(plan, kind);
    if (p && p->n_bodies > 0 && p->bodies[0].v1 <= edge)
        label_side_parts(m, plan, kind, kind == PART_TRAVEL_STOP ? 0.5 : 0.96, 0.5);
    else if (p && p->n_bodies > 0)
        add_part_label(m, p, middle_beyond(edge, p->bodies[0].v0, p->bodies[0].v1), (p->bodies[0].z0 + p->bodies[0].z1) / 2)
            ->anchor = kind == PART_TRAVEL_STOP ? ANCHOR_ABOVE : ANCHOR_CENTRE;
}

void draw_side_view(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.side");
    const struct plan_sled *s = &plan->sled;
    bool right_is_guide = s->runner[SIDE_RIGHT].is_guide;
    enum part_kind left = right_is_guide ? PART_FREE_RUNNER : PART_GUIDE_RUNNER,
                   right = right_is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER;
    add_parts(&m, plan, left, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_parts(&m, plan, PART_TRAVEL_STOP, VIEW_SIDE, LINE_PHANTOM, FILL_NONE);
    add_parts(&m, plan, right, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_parts(&m, plan, PART_BLADE_COVER, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_parts(&m, plan, PART_EXIT_GUARD, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_guard_layers(&m, s, VIEW_SIDE);
    add_parts(&m, plan, PART_OTHER_FENCE, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_parts(&m, plan, PART_REFERENCE_FENCE, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    add_fence_layers(&m, &s->other, s->base_thickness, VIEW_SIDE);
    add_fence_layers(&m, &s->reference, s->base_thickness, VIEW_SIDE);
    add_parts(&m, plan, PART_BASE, VIEW_SIDE, LINE_VISIBLE, FILL_WHITE);
    dimension_side(&m, plan);
    label_side_parts(&m, plan, PART_BASE, 0.5, 0.5);
    label_side_parts(&m, plan, PART_REFERENCE_FENCE, 0.75, 0.55);
    label_side_parts(&m, plan, PART_OTHER_FENCE, 0.5, 0.55);
    label_side_parts(&m, plan, PART_EXIT_GUARD, 0.5, 0.5);
    label_side_parts(&m, plan, PART_BLADE_COVER, 0.5, 0.5);
    label_side_parts(&m, plan, right, 0.45, 0.5);
    const struct plan_part *before = find_part(plan, right);
    label_beyond(&m, plan, left, before && before->n_bodies > 0 ? before->bodies[0].v1 : s->base_depth);
    label_beyond(&m, plan, PART_TRAVEL_STOP, s->base_depth);
}
