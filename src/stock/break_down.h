/* stock/break_down.h: large sheets parted by few cuts of a hand saw. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_BREAK_DOWN_H
#define FETTLE_STOCK_BREAK_DOWN_H

#include "stock/saw.h"

/* Where parts are cut one after another from a sheet that is too large for the saw, they are taken off as one panel by hand, and
   parted at the saw; there each part gets its size, so the panel is larger where a rest has room for that. `l` has room for
   twice as many slabs as it has. */
void break_down(struct layout *, const struct saw *);

#endif
