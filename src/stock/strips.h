/* stock/strips.h: lengths cut from strips: fewest new strips, then the longest offcut in one piece. Owns nothing.
   Private to src/stock. */
#ifndef FETTLE_STOCK_STRIPS_H
#define FETTLE_STOCK_STRIPS_H

#include "stock/slab.h"

/* A kerf is added to every length (see slab.h). */
struct strips_task {
    const int64_t *lengths; /* each at most `strip` */
    int n;
    int64_t strip;          /* a new one */
    const int64_t *offcuts; /* used first */
    int n_offcuts;
    long nodes;             /* limit of the search */
};
struct strips_result {
    int *bin;          /* of each length: 0 … n_offcuts - 1 an offcut, then new strips; in the pool */
    int fresh;         /* new strips */
    int at_least;      /* proven: no way with fewer new strips than this */
    int64_t longest_rest; /* the most that is left of one new strip */
};
void strips_pack(const struct strips_task *, struct pool *, struct strips_result *out);

#endif
