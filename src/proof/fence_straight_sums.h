/* fence_straight_sums.h: the sums of a straight edge held to a fence, as pure functions of numbers. Lengths mm, angles
   rad. Owns nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_FENCE_STRAIGHT_SUMS_H
#define FETTLE_PROOF_FENCE_STRAIGHT_SUMS_H

#include "proof.h"

/* The least zone between two parallels that holds all points, by their convex hull. Points in ascending order of x, at
   least three. */
struct face_zone fence_straight_zone(const struct face_point *, size_t n);
/* What a point's dev adds to the zone's width for each mm of its own: 1 at the apex, less 1 shared by the other two. */
double fence_straight_weight(const struct face_point *, const struct face_zone *, size_t i);
/* The line between neighbouring points. x inside the fence. */
double fence_straight_dev(const struct face_point *, size_t n, double x);
/* Where work of that length leans most: |dev(a + w) - dev(a)|/w; *from is a. Work longer than the face counts as long
   as the face. */
double fence_straight_angle(const struct face_point *, size_t n, double work, double *from);

/* DIN 874-1, grade 2: 8 um + L/40 (L in mm; from memory): what an unstated straight edge is taken for [mm]. */
double fence_straight_edge_limit(double length);

#endif
