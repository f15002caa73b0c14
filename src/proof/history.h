/* history.h: what tests of one method say together: what overtook them, what was expected of them, drift. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_HISTORY_H
#define FETTLE_PROOF_HISTORY_H

#include "proof.h"

/* Days until a line that stands at `error` and changes by `drift` a day reaches +limit or -limit; 0: it stands there
   already; INFINITY: never. */
double history_days_left(double error, double drift, double limit);
/* Fills counts, stale, due, expected_error, wrong_way of the tests of a method, and its history. Tests are proven, and
   stand oldest first. */
void history_build(const struct job *, enum method, struct proof *);

#endif
