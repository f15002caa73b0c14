/* square_gap_sums.h: the sum of the test with a square. Owns nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_SQUARE_GAP_SUMS_H
#define FETTLE_PROOF_SQUARE_GAP_SUMS_H

#include "job.h"

/* Sign of the fence's error where the light shows at that end of the sawn edge. */
int square_gap_sign(enum fence_side, enum side offcut, enum edge_end);

#endif
