/* stock/order.h: the order of sawing, and the fence setting of each cut. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_ORDER_H
#define FETTLE_STOCK_ORDER_H

#include "stock/slab.h"

struct sawing {
    int slab;      /* the slab that is cut */
    int64_t fence; /* size of its first part, kerf included */
};
/* Number of different settings of all cuts; `scratch` holds l->n numbers. */
int order_count_settings(const struct layout *, int64_t *scratch);
/* All cuts in an order in which no slab is cut before it is there, settings changed seldom; gives their number.
   `out` holds l->n entries. */
int order_cuts(const struct layout *, struct sawing *out);

#endif
