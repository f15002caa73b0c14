/* plan/assumed.h: the defaults that a sled's sizes and the limits of tools rest on, for the block "assumed, not stated in the job".
   Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_ASSUMED_H
#define FETTLE_PLAN_ASSUMED_H

#include "plan/build.h"

void sled_list_assumed(struct plan_builder *);
void plan_list_assumed_grades(struct plan_builder *); /* of tools, where no table has them */

#endif
