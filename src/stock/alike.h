/* stock/alike.h: sheets that are cut the same way, and the numbers of cuts. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_ALIKE_H
#define FETTLE_STOCK_ALIKE_H

#include "cutting.h"

/* Fills in `alike` and `n_alike` of all sheets and `number` of all cuts. */
void alike_number(struct cutting_stock *);

#endif
