/* stock/pattern.h: the dearest that can be sawn from one sheet, strip or offcut where each kind of piece has a price and may
   be taken as often as one likes, or some kinds only so often as there are. So it is never less than what any real layout of
   that bin is worth. Owns nothing: a table's arrays belong to the pool it was made in. Private to src/stock. */
#ifndef FETTLE_STOCK_PATTERN_H
#define FETTLE_STOCK_PATTERN_H

#include "stock/raster.h"

/* How many pieces of each counted kind a part may have is a number in a mixed radix: a state. */
struct pattern_split { /* what two parts may have together */
    int whole, first, second;
};
struct pattern_table {
    const struct piece *kinds;
    int n_kinds;
    bool turned;                 /* the longer raster is x, whichever direction of the bin it is */
    int64_t unit_x, unit_y;
    struct raster x, y;
    int n_states, n_splits;
    const int *limit;            /* of each kind; 0: not counted */
    int *stride;                 /* of each kind, in states; 0: not counted */
    struct pattern_split *split;
    int32_t *value;              /* of point (i, j) of the rasters and a state, at (i n_states + state) y.n + j */
};

/* `limit` stays the caller's. `most_steps`: where nothing is counted, sizes are rounded down, more and more coarsely, until one
   call of pattern_dearest takes no more steps; that only makes patterns dearer. False: so coarse that a piece has no size
   left; or, where kinds are counted, it takes more steps. */
bool pattern_open(struct pattern_table *, const struct piece *kinds, const int *limit, int n_kinds, struct bin, int64_t most_steps, struct pool *);
int64_t pattern_steps(const struct pattern_table *);
int64_t pattern_pieces_most(const struct pattern_table *); /* no pattern has more pieces */
/* Prices from 0; the largest times pattern_pieces_most is at most INT32_MAX. */
int32_t pattern_dearest(struct pattern_table *, const int32_t *price);
/* How often each kind is in the pattern that was found last. */
void pattern_uses(const struct pattern_table *, const int32_t *price, int *uses);

#endif
