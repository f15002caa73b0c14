/* reckoner.h: the table at the saw that turns a difference of strip ends into a move. Owns nothing. May be included by
   src/proof and its tests. */
#ifndef FETTLE_PROOF_RECKONER_H
#define FETTLE_PROOF_RECKONER_H

#include "proof.h"
#include "proof/five_cut.h"

struct reckoner_limit {
    double leave_below; /* difference of the ends [mm] */
    int strips;         /* 1, 3, or 0 with leave_below 0: no difference that small can be told */
};
/* "Leave it alone if the ends differ by less than": 4 L (T - U), U of one strip by the spread that is known beforehand, of
   three where one leaves nothing: three will have a spread of their own, of which `own` is the best guess. */
struct reckoner_limit reckoner_leave_below(double length, double tolerance, struct stat_term beforehand, struct stat_term own,
                                           double resolution, double error_limit);
/* The tests of the proof are judged already. */
void reckoner_build(const struct job *, const struct setting *, const struct proof *, struct reckoner *out);

#endif
