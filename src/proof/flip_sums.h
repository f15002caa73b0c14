/* flip_sums.h: the sum of the flip test, as a pure function of numbers. Owns nothing. May be included by src/proof and
   its tests. */
#ifndef FETTLE_PROOF_FLIP_SUMS_H
#define FETTLE_PROOF_FLIP_SUMS_H

#include "job.h"

/* +1: a gap that opens there after that half was rolled over means that the top of the blade leans right. */
int flip_sign(enum open_at, enum side turned);
/* Lean of the blade [rad], without sign, for a gap over that height [mm]. */
double flip_lean(double gap, double height);
/* A board that is high enough to show a lean and can still be found [mm]: 60 mm or 2.5 in; common practice, no source. */
double flip_usual_height(enum units);

#endif
