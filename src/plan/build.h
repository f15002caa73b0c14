/* plan/build.h: a plan while it is being made: the job it comes from and lists that grow. Private to src/plan. */
#ifndef FETTLE_PLAN_BUILD_H
#define FETTLE_PLAN_BUILD_H

#include "plan.h"

struct plan_builder {
    const struct job *job;      /* borrowed */
    struct diags *diags;        /* borrowed */
    struct plan *plan;          /* being filled; its lists live in its pool */
    size_t part_capacity, check_capacity, step_capacity, assumed_capacity, hole_capacity, need_capacity;
};
/* Each gives the new, zeroed entry (numbers that mean "none" when NAN are set to NAN); the pointer is good until the next
   call for the same list. */
struct plan_part *build_add_part(struct plan_builder *);
struct plan_check *build_add_check(struct plan_builder *, enum check_id);
struct plan_step *build_add_step(struct plan_builder *);
struct plan_assumed *build_add_assumed(struct plan_builder *, struct saying);
struct plan_hole *build_add_hole(struct plan_builder *);
struct plan_need *build_add_need(struct plan_builder *);
/* The screw that grips the stop block: as those of a runner, else as the pivot's. */
const struct plan_hole *build_stop_screw(const struct plan *);
/* A screw that holds the blade cover: as those of the other fence, else as the pivot's. */
const struct plan_hole *build_cover_screw(const struct plan *);
const struct plan_part *build_find_part(const struct plan *, enum part_kind); /* the first of its kind; NULL: none */

/* The stages of a plan, in this order, each in a file of its own. */
bool sled_resolve(struct plan_builder *);  /* sizes.c: every size of plan->sled, given or derived; false: no sled can be made */
void sled_plan_routing(struct plan_builder *); /* routing.c: plan->sled.routing */
void sled_plan_flip_stop(struct plan_builder *); /* flip_stop.c: plan->sled.flip */
void sled_list_parts(struct plan_builder *);  /* parts.c: parts with bodies, masses, centres */
void sled_list_flip_parts(struct plan_builder *); /* flip_stop.c: those of the flip stop, which slides: no bodies */
void sled_place_screws(struct plan_builder *); /* holes.c: screws; checks screw_free_strip and screw_length */
void sled_check(struct plan_builder *);    /* checks.c: all other checks */
void sled_write_steps(struct plan_builder *);  /* steps.c: building order */
void sled_write_cautions(struct plan_builder *); /* cautions.c: for whoever uses the sled, most needed first */
void sled_list_needs(struct plan_builder *); /* needs.c: tools, hardware, what is used up */
void plan_write_briefs(struct plan_builder *); /* brief.c: the short sentence of each check that does not pass */

#endif
