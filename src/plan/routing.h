/* plan/routing.h: passes of a router that makes a slot wider or deeper than its bit takes at once: pure functions of
   numbers. Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_ROUTING_H
#define FETTLE_PLAN_ROUTING_H

#include "plan.h"

/* bit not wider than the slot; step: deepest pass. */
struct plan_routing routing_passes(double width, double depth, double bit, double base_diameter, double step);

#endif
