/* plan/flip_stop.h: the shop-made stop for repeated lengths on the reference fence: sums of its sizes and of what it
   reaches, pure functions of numbers. Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_FLIP_STOP_H
#define FETTLE_PLAN_FLIP_STOP_H

#include "plan.h"

/* What the fence gives the stop; distances from the blade plane are along the fence on the kept side. */
struct flip_seat {
    enum side side;              /* of the blade on which the kept piece lies */
    double fence_end;            /* of the fence on that side, from the blade plane */
    double fence_height, fence_thickness;
    double rebate_height, rebate_width; /* 0: no rebate for a track */
    bool rebate_at_work;         /* on the working face's side of the fence */
    double stock_thickness, kerf;
    double keep_out;             /* no metal and no hand nearer to the blade plane */
    double gap;                  /* under the arm, for dust */
    double body_length, arm_width, cheek_height, track_height, bolt_hole; /* figures of the shop, in round numbers of the job's unit */
    double step;                 /* derived sizes are rounded down to it */
};
/* present false: the fence is too short on that side. */
struct plan_flip flip_stop_sizes(const struct flip_seat *);
/* How far the lower of the first and last layer stays below the tallest; 0: there is no rebate. */
double flip_rebate_height(const double *heights, int layers);

#endif
