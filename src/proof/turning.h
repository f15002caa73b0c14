/* turning.h: a fence that turns about its pivot when its other end is moved: which way, how far, with which leaves, and
   whether it should be. Owns nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_TURNING_H
#define FETTLE_PROOF_TURNING_H

#include "proof.h"

/* Fence error e > 0: the right end stands too far from the operator [rad]. Distances along the fence and moves [mm]. */

/* Where the fence turns: the plan's fence, else what the test itself says. False: not known, so no move can be told. */
bool turning_find_pivot(const struct setting *, const struct num *stated, bool end_stated, enum side stated_end,
                        double *distance, enum side *moving_end);
/* Which way the moving end goes to put an error right. */
enum toward turning_toward(double error, enum side moving_end);
/* The error after an end of a fence was moved by that distance about a pivot that far away. */
double turning_error_after(double error, double pivot_to_moving, enum side end, enum toward, double distance);
/* Expanded uncertainty of the distance D tan e: u_c of the error, and D known to half a millimetre either way. */
double turning_move_uncertainty(double error, double u_c, double coverage_factor, double pivot_to_moving);
/* The move that puts a concluded test right, and whether to make it. `set`: leaves to gauge it with; NULL: none. */
void turning_advise(const struct proof_test *, double pivot_to_moving, enum side moving_end,
                    const struct job_instrument *set, struct move *out);

#endif
