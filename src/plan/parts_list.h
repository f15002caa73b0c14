/* plan/parts_list.h: the kind of jig that a list of parts describes. Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_PARTS_LIST_H
#define FETTLE_PLAN_PARTS_LIST_H

#include "plan/build.h"

void parts_list_parts(struct plan_builder *); /* its parts table; no bodies: nothing is known of where they go */
void parts_list_check(struct plan_builder *); /* stock_fits */

#endif
