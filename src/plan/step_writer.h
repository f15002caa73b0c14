/* plan/step_writer.h: a building order while it is being written: the sled it is for, and what its chapters share.
   Owns nothing: strings go to the plan's pool. Private to src/plan. */
#ifndef FETTLE_PLAN_STEP_WRITER_H
#define FETTLE_PLAN_STEP_WRITER_H

#include "plan/build.h"

#define STEP_FLUSH_WITHIN 0.25 /* mm: nearer to an edge than this is flush with it */

/* A figure of the shop in round numbers of either unit. Common practice, no source. */
struct step_figure {
    double mm, in;
};

struct step_writer {
    struct plan_builder *b;
    const struct job *job;
    const struct job_sled *asked;
    const struct plan *plan;
    const struct plan_sled *s;
    int stage;
    const char *title;
    /* Letters of the parts; "" where there is no such part. */
    const char *base, *reference, *other, *guard, *guide, *free, *stop, *cover, *flip, *cheek, *arm;
    bool far;
};

/* Steps under one heading, in order; each function writes one step, or none where the sled has no use for it. */
enum { STEPS_IN_CHAPTER = 10 };
struct step_chapter {
    const char *title;                                   /* words key */
    void (*write[STEPS_IN_CHAPTER])(struct step_writer *); /* ends with NULL */
};
extern const struct step_chapter steps_hold, steps_saw, steps_parts, steps_base, steps_kerf, steps_fence, steps_proof;

/* The new step; more of it may be set until the next call. */
struct plan_step *step_add(struct step_writer *, const char *parts, struct saying what, struct saying know, struct saying why);
void step_warn(struct plan_step *, enum signal, struct saying caution);

double step_in_units(const struct step_writer *, struct step_figure); /* mm */
double step_sawn_within(const struct step_writer *);                  /* of a part's size [mm] */
const char *step_letter_of(struct step_writer *, enum part_kind);     /* "" where there is no such part */
const char *step_letters(struct step_writer *, const char *a, const char *b, const char *c); /* joined */
const char *step_glue_of(struct step_writer *, enum part_kind, enum part_kind); /* words key */
const char *step_side_key(double x);                 /* words keys of a side of the blade plane, of a slot's, … */
const char *step_slot_key(enum side);
const char *step_edge_key(const struct plan_fence *); /* of the edge that a fence's outer face is measured from */
const char *step_place_key(double edge);             /* of a place of the base's near edge, from the table's */
double step_from_edge(struct step_writer *, const struct plan_fence *); /* a fence's outer face from that edge [mm] */
/* The first screw of a kind of part in a role, and how many there are; NULL: none. */
const struct plan_hole *step_find_hole(struct step_writer *, enum part_kind, enum hole_role, int *count);
const struct plan_runner *step_free_of(const struct plan_sled *);       /* the runner that does not guide; NULL: none */
enum side step_side_of(const struct plan_sled *, const struct plan_runner *);
double step_guard_need(const struct plan_sled *);    /* depth that the guard must have [mm] */
bool step_guard_is_short(const struct plan_sled *);
bool step_guard_covers(const struct step_writer *);  /* the blade, wherever it comes out: not short, and no check of it fails */
bool step_knife_stays(struct step_writer *);         /* it goes up and down with the blade, and stands behind it in every cut */
double step_first_kerf_end(const struct step_writer *); /* on the base's top, from its near edge [mm] */

#endif
