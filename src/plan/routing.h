/* plan/routing.h: passes of a router that makes a slot wider or deeper than its bit takes at once: pure functions of
   numbers. Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_ROUTING_H
#define FETTLE_PLAN_ROUTING_H

struct routing {
    int across;         /* passes side by side */
    double apart;       /* from one to the next; 0: one pass */
    double guide_least, guide_most; /* guide's edge from the slot's centre line, first and last pass */
    int deep;           /* passes one below the other */
    double each;        /* depth of each */
};
/* bit not wider than the slot; step: deepest pass. */
struct routing routing_passes(double width, double depth, double bit, double base_diameter, double step);

#endif
