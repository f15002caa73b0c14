/* plan/stock_fit.h: whether the stock is large enough for each part, one by one. How parts share a sheet is src/stock's.
   Owns nothing. Private to src/plan. */
#ifndef FETTLE_PLAN_STOCK_FIT_H
#define FETTLE_PLAN_STOCK_FIT_H

#include "plan/build.h"

/* How much larger than the part its stock is in the direction where it is least so [mm]; negative: too small; NAN: the
   stock's size is not known, or it is to be bought. */
double stock_slack(const struct plan_part *, double trim);
/* Check stock_fits: the least slack of all parts, at least 0. Left out where no stock's size is known. */
void stock_check_fits(struct plan_builder *);

#endif
