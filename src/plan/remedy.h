/* plan/remedy.h: what to change so that a check passes. Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_REMEDY_H
#define FETTLE_PLAN_REMEDY_H

#include "plan/build.h"

/* Gives every check that does not pass its remedy, unless it has one already. They are to be done in the order of the
   sheets: failures that hurt, other failures, cautions. One remedy stands with all checks that it puts right together; a
   later one is reckoned with those before it done. A number in it is proved by planning the whole job again with it: that
   check then passes and no other comes to fail. */
void sled_find_remedies(struct plan_builder *);

#endif
