/* stock/order.h: the order of sawing, and the setting of fence or stop for each cut. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_ORDER_H
#define FETTLE_STOCK_ORDER_H

#include "stock/saw.h"

struct sawing {
    int slab;      /* the slab that is cut */
    int64_t fence; /* size of its first part, kerf included */
};
/* Number of different settings of all cuts: sizes at the fence and sizes at the stop count apart; saw NULL: sizes alone.
   `scratch` holds l->n numbers. */
int order_count_settings(const struct layout *, const struct saw *, int64_t *scratch);
/* All cuts in an order in which no slab is cut before it is there, settings changed seldom; gives their number.
   `out` holds l->n entries. */
int order_cuts(const struct layout *, const struct saw *, struct sawing *out);
/* Fence, stop, or by hand: what is set for a cut made so. */
enum { SET_FENCE, SET_STOP, SET_BY_HAND, SETS };
int order_what_is_set(enum cut_way);

#endif
