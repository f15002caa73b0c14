/* stock/lay.h: a layout in whole numbers to sheets, pieces, rests and cuts in millimetres. Owns nothing: arrays belong to
   the pool given. Private to src/stock. */
#ifndef FETTLE_STOCK_LAY_H
#define FETTLE_STOCK_LAY_H

#include "stock/saw.h"
#include "stock/supply.h"

/* Fills sheets, cuts and settings of `out` from a layout whose bins are the supply's offcuts, then new sheets. */
/* Whether an offcut so large is put aside for other work. */
bool lay_is_worth_keeping(int64_t w, int64_t h, bool is_strip);
void lay_out(const struct supply *, const struct layout *, const struct saw *, struct pool *, struct cutting_stock *out);

#endif
