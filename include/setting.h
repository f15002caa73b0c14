/* setting.h: the few numbers of a plan that a test needs: where the fence turns, where it is moved, what it serves.
   Made by src/plan. The only header of plan that proof may include. */
#ifndef FETTLE_SETTING_H
#define FETTLE_SETTING_H

#include "job.h"

struct setting {
    bool has_fence;              /* false: a job without a sled; the test then carries pivot_to_moving itself */
    enum fence_side fence_side;  /* side of the work on which the reference fence stands */
    double pivot_x, moving_x;    /* along the fence from the blade plane, right positive [mm] */
    double pivot_to_moving;      /* D = |moving_x - pivot_x| [mm] */
    double capacity_width;       /* widest work along the feed [mm] */
    double proof_length;         /* L asked for on reckoner and bench sheet [mm]: greatest multiple of 50 mm (2 in in
                                    inch jobs) not above capacity_width - 40 */
    double engaged_length;       /* least length of the guide runner in its slot while cutting [mm]; NAN: not known */
};

#endif
