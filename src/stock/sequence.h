/* stock/sequence.h: bins filled one after another, each as well as can be found: better layouts than the quick rules', no
   proof. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_SEQUENCE_H
#define FETTLE_STOCK_SEQUENCE_H

#include "stock/slab.h"

struct sequence_task {
    const struct piece *pieces;
    int n;
    const struct bin *bins; /* filled in this order */
    int n_bins;
    int points;             /* sizes looked at in each direction, about; the fewer, the more often all bins are filled anew */
    const int32_t *value;   /* of each piece, below 2^21, to begin with; NULL: by area */
    long nodes;             /* two parts joined: one */
};
/* Whether a layout of all pieces was found; `out` is it then. */
bool sequence_pack(const struct sequence_task *, struct layout *out);

#endif
