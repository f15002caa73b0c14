/* verdict.h: from a budget to a verdict. Owns the decision rule. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_VERDICT_H
#define FETTLE_PROOF_VERDICT_H

#include "proof.h"

#define CONFIDENCE 0.95 /* of every expanded uncertainty */

/* Within when |e| + U <= T, outside when |e| - U > T, else undecided. */
enum finding verdict_find(double error, double expanded, double tolerance);
/* Fills from error, lines, tolerance and over_length: error_over, u_c, dof, k, U, conformance probability, finding. */
void verdict_conclude(struct proof_test *);

#endif
