/* slot_parallel_sums.h: the sum of the blade against a slot. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_SLOT_PARALLEL_SUMS_H
#define FETTLE_PROOF_SLOT_PARALLEL_SUMS_H

#include "job.h"

/* +1 in the right slot: the plunger looks left at the blade, so a back that stands further right pushes it in. */
int slot_parallel_sign(enum side slot);

#endif
