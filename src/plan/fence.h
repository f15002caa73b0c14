/* plan/fence.h: what is left of a fence over the blade, and how far a hand bends it: pure functions of numbers.
   Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_FENCE_H
#define FETTLE_PLAN_FENCE_H

/* Wood left over the blade at its highest: the fence stands on the base, the blade comes `above_base` out of that. */
double fence_bridge(double height, double above_base);
double fence_bridge_wanted(double height); /* the least that will do */
double fence_height_wanted(double above_base); /* the least height whose bridge will do */
/* Second moment of area [mm4] of the bridge about the upright line through its middle: n layers, each `layer` thick, the
   first at the working face. */
double fence_inertia(const double *heights, int n, double layer, double above_base);
/* Angle [rad] by which the fence turns at the screws next to the kerf when `force` [N] presses midway between them,
   `span` apart. stiffness in N/mm2. */
double fence_angle(double force, double span, double stiffness, double inertia);
/* Thickness [mm] at which a bridge of one height turns by no more than `angle`. */
double fence_thickness_wanted(double force, double span, double stiffness, double bridge, double angle);

#endif
