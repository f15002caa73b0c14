/* plan/levers.h: what a remedy can turn: a value of the job, which way to move it, what goes with it. Owns nothing: what a
   changed job points at goes to the pool given. Private to src/plan. */
#ifndef FETTLE_PLAN_LEVERS_H
#define FETTLE_PLAN_LEVERS_H

#include "plan/build.h"

/* A number that the job would hold instead. */
struct lever {
    const char *key;         /* words key of the remedy */
    enum say_kind kind;      /* of {number} */
    int direction;           /* +1 up, -1 down; 0: `now` gives the one number to try, NAN: there is none */
    enum lever_step { STEP_SIZE, STEP_FIT, STEP_COUNT, STEP_TENTH } step;
    double least, most;      /* of the number */
    enum lever_says { SAYS_BASE, SAYS_GUARD, SAYS_FENCES, SAYS_RUNNERS, SAYS_WOOD, SAYS_KNIFE } says; /* what else its words tell */
    double (*now)(const struct job *, const struct plan *);
    void (*apply)(struct job *, struct pool *, const struct plan *, double); /* the plan: as it is without the change */
};

/* LEVER_PLANE to LEVER_PLAY_HIGH are those of the runners. */
enum lever_id {
    LEVER_NONE,
    LEVER_CAPACITY_WIDTH, LEVER_CAPACITY_THICKNESS, LEVER_DEEPER, LEVER_SHALLOWER, LEVER_NARROWER_BASE,
    LEVER_GUARD, LEVER_GUARD_EDGE, LEVER_GUARD_EDGE_DEPTH, LEVER_GUARD_HEIGHT,
    LEVER_HIGHER, LEVER_LOWER, LEVER_LAYERS, LEVER_LAYERS_DEPTH, LEVER_SHORTER_FENCES, LEVER_OTHER_IN,
    LEVER_PLANE, LEVER_PLANE_BOTH, LEVER_WIDEN, LEVER_WIDEN_BOTH, LEVER_WIDTH_UP, LEVER_FREE_WIDTH,
    LEVER_RUNNER_THICKNESS, LEVER_RINGS, LEVER_SPECIES, LEVER_AIR, LEVER_PLAY_HIGH,
    LEVER_KNIFE, LEVER_KNIFE_TOP, LEVER_KNIFE_BOTH,
    LEVERS
};
extern const struct lever runner_levers[]; /* from LEVER_PLANE on */

/* The sled of a job, and a number of it set. */
static inline struct job_sled *lever_sled(struct job *j)
{
    return &j->jig.as.sled;
}

static inline void lever_give(struct num *n, double v)
{
    n->v = v;
    n->given = true;
}

/* The i-th lever of a check, the one that leaves the job most as it is first; NULL: no more. */
const struct lever *lever_of(enum check_id, size_t i);

const char *lever_species(double n);   /* the material that the lever of species stands for at n, by its name in a job file */
double lever_fit_step(const struct job *);                             /* 0.01 mm or .001 in, as mm */
double lever_free_width(const struct job *, const struct plan *);      /* of the free runner; NAN: there is none */
double lever_knife_top(const struct job *, const struct plan *);       /* below the blade's top, as a remedy sets it */

#endif
