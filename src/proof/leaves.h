/* leaves.h: which leaves of a feeler gauge make up a distance. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_LEAVES_H
#define FETTLE_PROOF_LEAVES_H

#include <stddef.h>

#define LEAVES_NEAR 0.01 /* a sum this near to the distance is as good as the distance [mm]; judgement */
enum { LEAVES_MAX = 4 }; /* more leaves in one stack spring (common practice, no source) */

struct leaves_pick {
    double leaf[LEAVES_MAX]; /* thickest first [mm] */
    int n;                   /* 0: no leaf at all is nearest */
    double sum;              /* [mm] */
};
/* The fewest leaves whose sum lies within LEAVES_NEAR of the distance, among these the nearest sum; where there is
   none, the nearest sum of at most four, the fewest leaves among equals. Each leaf is used once. `leaves` ascending
   [mm]. */
struct leaves_pick leaves_find(const double *leaves, size_t n, double distance);

#endif
