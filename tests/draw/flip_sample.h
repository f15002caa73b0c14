/* A flip stop on the sample's fence. */
#ifndef FETTLE_TESTS_DRAW_FLIP_SAMPLE_H
#define FETTLE_TESTS_DRAW_FLIP_SAMPLE_H

#include "sample_plan.h"

/* Two layers, the outer one lower: two parts, each with a body. */
static inline void sample_split_fence(struct plan *plan, double lower)
{
    const struct plan_fence *f = &plan->sled.reference;
    for (size_t i = 0, n = plan->n_parts; i < n; i++) {
        if (plan->parts[i].kind != PART_REFERENCE_FENCE)
            continue;
        struct body work = plan->parts[i].bodies[0], outer = work;
        double middle = (work.v0 + work.v1) / 2;
        bool near = f->v_outer < f->v_face;
        *(near ? &work.v0 : &work.v1) = middle;
        *(near ? &outer.v1 : &outer.v0) = middle;
        outer.z1 -= lower;
        plan->parts[i].bodies = pool_copy(&plan->pool, &work, sizeof work);
        sample_part(plan, 'K', PART_REFERENCE_FENCE, outer);
    }
}

/* A stop of 18 mm stock on the sample's fence; its cheek, or a rebate of 14 mm for the track. */
static inline void sample_flip_stop(struct plan *plan, enum side side, bool rebate)
{
    static const double stepped[] = {0, 14};
    struct plan_sled *s = &plan->sled;
    double end = side == SIDE_LEFT ? -s->reference.x0 : s->reference.x0 + s->reference.length;
    double *heights = pool_alloc(&plan->pool, 2 * sizeof *heights);
    for (int i = 0; i < 2; i++)
        heights[i] = s->reference.height - (rebate ? stepped[i] : 0);
    s->reference.layer_heights = heights;
    s->flip = (struct plan_flip){.present = true,
                                 .side = side,
                                 .body_length = 80,
                                 .body_width = s->reference.thickness + (rebate ? 0 : 15 + 18),
                                 .body_thickness = 18,
                                 .arm_length = s->reference.height + 18 - 3,
                                 .arm_width = 40,
                                 .cheek_height = rebate ? 0 : 40,
                                 .bolt_along = rebate ? 60 : 40,
                                 .bolt_hole = 6.5,
                                 .bolt_across = rebate ? s->reference.thickness * 3 / 4 : 20,
                                 .rebate_height = rebate ? 14 : 0,
                                 .rebate_width = rebate ? s->reference.thickness / 2 : 0,
                                 .track_height = rebate ? 14 : 15,
                                 .gap = 3,
                                 .track_from = 75,
                                 .track_length = end - 75,
                                 .tape_zero = 81.4,
                                 .shortest = 74,
                                 .longest = end - 82};
    if (rebate)
        sample_split_fence(plan, 14);
    plan->parts[plan->n_parts++] = (struct plan_part){.letter = "H", .kind = PART_FLIP_STOP, .quantity = 1};
    if (!rebate)
        plan->parts[plan->n_parts++] = (struct plan_part){.letter = "I", .kind = PART_FLIP_CHEEK, .quantity = 1};
    plan->parts[plan->n_parts++] = (struct plan_part){.letter = "J", .kind = PART_FLIP_ARM, .quantity = 1};
}

#endif
