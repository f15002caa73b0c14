/* plan/balance.h: statics of a sled that overhangs the table: moments about an edge, the hand force it bears.
   Owns nothing. Private to src/plan. Moments in N mm, positive: holds the sled down. */
#ifndef FETTLE_PLAN_BALANCE_H
#define FETTLE_PLAN_BALANCE_H

#include <stddef.h>

#define BALANCE_GRAVITY 9.81 /* m/s2, rounded; 9.80665 is the standard value */
#define BALANCE_MARGIN 1.2   /* on what overturns: common practice, no source */

/* A mass at a distance from the edge, inward positive. */
struct load {
    double mass;   /* kg */
    double inward; /* mm */
};
double balance_moment(const struct load *, size_t n);
/* Work of `kg_per_mm` of its width, one side at `face` (inward positive), lying from there inward (+1) or outward (-1):
   the least moment of any width from low to high; 0 where no width makes things worse. */
double balance_worst_work(double kg_per_mm, double face, int direction, double low, double high);
/* Force down at `arm` (inward positive) that the sled bears with the margin; NAN where the arm is inside the table or at its edge. */
double balance_force(double moment, double arm);
/* What holds down as a multiple of what overturns; INFINITY where nothing does. `work`: its moment, not above 0. */
double balance_ratio(const struct load *, size_t n, double work);

#endif
