/* frame_sums.h: the sums of a frame of mitred pieces, as pure functions of numbers. Lengths mm, angles rad. Owns
   nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_FRAME_SUMS_H
#define FETTLE_PROOF_FRAME_SUMS_H

/* Judgement of this program, printed in the budget. */
#define FRAME_LEG_HALF_WIDTH 0.5    /* how well the leg's length is known, rectangular [mm] */
#define FRAME_JOINT_HALF_WIDTH 0.02 /* what light a joint called tight may still let through [mm] */

/* The size of e. Open inside: the mitre, measured from a square cut, is too large, e > 0; open outside: too small. */
double frame_error(int pieces, double leg, double gap, double gap_other);

/* What one mm of gap makes of the error [rad/mm]. */
double frame_sensitivity(int pieces, double leg);

#endif
