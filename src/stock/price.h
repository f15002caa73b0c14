/* stock/price.h: a bound by prices: each kind of piece has a price such that no layout of a sheet is worth more than so much;
   what all pieces are worth, less what the offcuts can be worth, then needs so many sheets. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_PRICE_H
#define FETTLE_STOCK_PRICE_H

#include "stock/slab.h"

enum { PRICE_KINDS_MOST = 128 };

struct price_task {
    const struct piece *pieces; /* each fits a new sheet */
    int n;
    struct bin sheet;           /* a new one */
    const struct bin *offcuts;  /* used first */
    int n_offcuts;
    int enough;                 /* a larger bound is of no use: so many new sheets do */
    bool counted;               /* kinds of which patterns have more than there are get counted, one after another */
    long nodes;
    int32_t *value;             /* of each piece, its price at the end, from 1; NULL: not asked for */
};
/* Proven: no guillotine layout has fewer new sheets. 0 where there are too many kinds or too few nodes. */
int price_bound(const struct price_task *);
/* What prices of kinds prove: the test of a bound, in whole numbers alone. `dearest`: of a sheet, then of each class of
   offcuts, of which there are so many. */
int price_proves(const int32_t *price, const int *count, int n_kinds, const int32_t *dearest, const int *n_of_class, int n_classes);

#endif
