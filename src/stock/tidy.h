/* stock/tidy.h: the same pieces by fewer and safer cuts. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_TIDY_H
#define FETTLE_STOCK_TIDY_H

#include "stock/saw.h"

/* Parts of a panel that cuts side by side make: their rests become one, at its end; and where a short piece would be left
   for the last cut, the parts are cut off shortest first, so that the longest is the one in hand. `scratch` holds 2 l->n. */
void tidy_layout(struct layout *, const struct saw *, int *scratch);

#endif
