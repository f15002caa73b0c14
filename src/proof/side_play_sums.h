/* side_play_sums.h: the sums of a runner's play in its slot, as pure functions of numbers. Lengths mm, angles rad. Owns
   nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_SIDE_PLAY_SUMS_H
#define FETTLE_PROOF_SIDE_PLAY_SUMS_H

#include <stddef.h>

/* The place whose play is farthest from the middle of its limits, counted from 0. */
size_t side_play_worst(const double *plays, size_t n, double low, double high);
/* How far a sled can yaw either way: p/l [rad]. */
double side_play_yaw(double play, double engaged);

#endif
