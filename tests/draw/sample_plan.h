/* A plan filled by hand: the worked sled of the job-file reference (760 x 580 base, 254 mm blade), or one of any sizes
   by the same rules, with the reference fence near or far. */
#ifndef FETTLE_TESTS_DRAW_SAMPLE_PLAN_H
#define FETTLE_TESTS_DRAW_SAMPLE_PLAN_H

#include "plan.h"

#include <math.h>

struct sample {
    enum fence_side side;
    double blade_diameter, highest, front_edge;
    double base_width, base_depth, base_thickness, left_of_blade;
    double reference_thickness, other_thickness, fence_height, reference_length, other_length;
    double guard_depth, capacity_width, above_work;
    double pivot_x, moving_x, slot_left, slot_right; /* slot 0: absent */
    enum side guide;
    double runner_width;
};

#define SAMPLE_WORKED                                                                                                  \
    {                                                                                                                  \
        .side = FENCE_NEAR, .blade_diameter = 254, .highest = 80, .front_edge = 500, .base_width = 760,                \
        .base_depth = 580, .base_thickness = 12, .left_of_blade = 400, .reference_thickness = 36,                      \
        .other_thickness = 18, .fence_height = 100, .reference_length = 760, .other_length = 600, .guard_depth = 90,   \
        .capacity_width = 420, .above_work = 5, .pivot_x = -330, .moving_x = 280, .slot_left = 142, .slot_right = 178, \
        .guide = SIDE_LEFT, .runner_width = 19                                                                         \
    }

static inline void sample_part(struct plan *plan, char letter, enum part_kind kind, struct body body)
{
    struct plan_part *part = &plan->parts[plan->n_parts++];
    *part = (struct plan_part){.letter = {letter}, .kind = kind, .quantity = 1, .n_bodies = 1};
    part->bodies = pool_copy(&plan->pool, &body, sizeof body);
}

static inline void sample_check(struct plan *plan, enum check_id id, double value, double high)
{
    plan->checks[plan->n_checks++] =
        (struct plan_check){.id = id, .value = value, .low = NAN, .high = high, .fail_low = NAN, .fail_high = NAN};
}

static inline void sample_travel(const struct sample *a, struct plan_sled *s)
{
    double r = a->blade_diameter / 2, q = fmin(3, a->above_work), up = r - a->highest;
    struct plan_travel *t = &s->travel;
    *t = (struct plan_travel){
        .blade_radius = r, .blade_axis_y = a->front_edge, .highest = a->highest, .y_near_face = NAN};
    t->y_stop = a->front_edge - sqrt(2 * r * q - q * q) + 5 + (a->side == FENCE_FAR ? a->capacity_width : 0);
    t->edge_stop = t->y_stop - s->reference.v_face;
    t->edge_start = a->front_edge - sqrt(r * r - (up + a->base_thickness) * (up + a->base_thickness)) -
                    a->capacity_width - 5 - s->reference.v_face;
    if (a->side == FENCE_FAR)
        t->y_near_face = t->edge_stop + s->other.v_face;
}

static inline void sample_fence(struct plan_fence *f, enum fence_side side, double v_outer, double thickness,
                                double height, double length, double x0, int layers)
{
    double way = side == FENCE_NEAR ? 1 : -1;
    *f = (struct plan_fence){.side = side,
                             .v_outer = v_outer,
                             .v_face = v_outer + way * thickness,
                             .thickness = thickness,
                             .height = height};
    f->length = length;
    f->x0 = x0;
    f->layers = layers;
}

static inline struct body sample_fence_body(const struct plan_sled *s, const struct plan_fence *f)
{
    return (struct body){f->x0,
                         f->x0 + f->length,
                         fmin(f->v_outer, f->v_face),
                         fmax(f->v_outer, f->v_face),
                         s->base_thickness,
                         s->base_thickness + f->height};
}

/* `plan` must be freed with pool_free(&plan->pool). */
static inline void sample_plan_of(const struct sample *a, struct plan *plan)
{
    *plan = (struct plan){.has_sled = true};
    struct plan_sled *s = &plan->sled;
    plan->parts = pool_alloc(&plan->pool, 16 * sizeof *plan->parts);
    plan->checks = pool_alloc(&plan->pool, 16 * sizeof *plan->checks);
    plan->holes = pool_alloc(&plan->pool, 16 * sizeof *plan->holes);
    *s = (struct plan_sled){
        .capacity_width = a->capacity_width, .blade_above_work = a->above_work, .least_above_work = 3};
    s->capacity_thickness = a->highest - a->base_thickness - a->above_work - 3;
    s->base_width = a->base_width, s->base_depth = a->base_depth, s->base_thickness = a->base_thickness,
    s->base_x0 = -a->left_of_blade;
    bool near = a->side == FENCE_NEAR;
    double other_x0 = -a->left_of_blade + (a->base_width - a->other_length) / 2;
    double reference_x0 = -a->left_of_blade + (a->base_width - a->reference_length) / 2;
    sample_fence(&s->reference, a->side, near ? a->guard_depth : a->base_depth, a->reference_thickness, a->fence_height,
                 a->reference_length, reference_x0, 2);
    sample_fence(&s->other, near ? FENCE_FAR : FENCE_NEAR, near ? a->base_depth : a->guard_depth, a->other_thickness,
                 a->fence_height, a->other_length, other_x0, 1);
    sample_travel(a, s);
    s->pivot_x = a->pivot_x, s->moving_x = a->moving_x;
    s->guard_depth = a->guard_depth, s->guard_width = 100, s->guard_height = a->fence_height, s->guard_v0 = 0,
    s->guard_v1 = a->guard_depth, s->guard_layers = 5;
    s->keep_out = 75, s->screw_free = 40;
    double slot[] = {[SIDE_LEFT] = -a->slot_left, [SIDE_RIGHT] = a->slot_right};
    for (int side = 0; side < 2; side++)
        s->runner[side] =
            (struct plan_runner){.present = slot[side] != 0,
                                 .slot_x = slot[side],
                                 .width = side == (int)a->guide ? a->runner_width : a->runner_width - 0.15,
                                 .thickness = 9,
                                 .length = side == (int)a->guide ? a->base_depth : 0.67 * a->base_depth,
                                 .is_guide = side == (int)a->guide};
    sample_part(
        plan, 'A', PART_BASE,
        (struct body){-a->left_of_blade, a->base_width - a->left_of_blade, 0, a->base_depth, 0, a->base_thickness});
    sample_part(plan, 'B', PART_REFERENCE_FENCE, sample_fence_body(s, &s->reference));
    sample_part(plan, 'C', PART_OTHER_FENCE, sample_fence_body(s, &s->other));
    sample_part(plan, 'D', PART_EXIT_GUARD,
                (struct body){-50, 50, 0, a->guard_depth, a->base_thickness, a->base_thickness + a->fence_height});
    for (int side = 0; side < 2; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present)
            sample_part(
                plan, (char)('E' + !r->is_guide), r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER,
                (struct body){r->slot_x - r->width / 2, r->slot_x + r->width / 2, 0, r->length, -r->thickness, 0});
        if (r->present && !r->is_guide) {
            s->stop_in_slot = true, s->stop_slot = (enum side)side, s->stop_length = 60,
            s->stop_y = s->travel.edge_stop + r->length;
            sample_part(plan, 'G', PART_TRAVEL_STOP,
                        (struct body){r->slot_x - r->width / 2, r->slot_x + r->width / 2, r->length, r->length + 60,
                                      -r->thickness, 0});
        }
    }
    sample_check(plan, CHECK_RUNNER_PLAY, 0.10, 0.25);
    sample_check(plan, CHECK_RUNNER_HEIGHT, 9.0, 9.1);
    double hole_x[] = {a->pivot_x, a->moving_x, a->pivot_x / 2, a->moving_x / 2};
    for (int i = 0; i < 4; i++)
        plan->holes[plan->n_holes++] = (struct plan_hole){
            .part = "B", .x = hole_x[i], .v = (s->reference.v_outer + s->reference.v_face) / 2 - 7, .diameter = 4};
    plan->setting = (struct setting){.has_fence = true,
                                     .fence_side = a->side,
                                     .pivot_x = a->pivot_x,
                                     .moving_x = a->moving_x,
                                     .capacity_width = a->capacity_width};
    plan->setting.pivot_to_moving = fabs(a->moving_x - a->pivot_x);
    plan->setting.proof_length = floor((a->capacity_width - 40) / 50) * 50;
}

static inline void sample_plan(struct plan *plan)
{
    struct sample worked = SAMPLE_WORKED;
    sample_plan_of(&worked, plan);
}

#endif
