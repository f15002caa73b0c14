/* stock/bound.h: how many sheets or strips are needed at the least, proven, in whole numbers. Owns nothing.
   Private to src/stock. */
#ifndef FETTLE_STOCK_BOUND_H
#define FETTLE_STOCK_BOUND_H

#include "stock/slab.h"

/* A dual feasible function: whatever lengths share a strip of C share, after it, a strip of bound_whole(). */
enum dff_kind { DFF_LENGTH, DFF_LARGE_AND_SMALL, DFF_STEPS, DFF_ROUNDED };
struct dff {
    enum dff_kind kind;
    int64_t k;
};
int64_t dff_whole(struct dff, int64_t c);
int64_t dff_value(struct dff, int64_t x, int64_t c); /* 0 <= x <= c */

int bound_lengths(const int64_t *lengths, int n, int64_t strip);
/* Pieces that can be laid on a sheet each. Holds for any layout, sawn right across or not. */
int bound_pieces(const struct piece *, int n, struct bin sheet);
/* The same where offcuts are used first: least number of new sheets. */
int bound_with_offcuts(const struct piece *, int n, struct bin sheet, const struct bin *offcuts, int n_offcuts);
/* What any layout must keep to: in each bin at most `holds`, summed over its pieces. */
enum { MEASURES_MOST = 10 };
struct measure {
    int64_t *value; /* by piece */
    int64_t *holds; /* by bin */
};
/* The measures that come nearest to what all bins hold; gives their number. Pieces as above, not more than 64. */
int bound_measures(const struct piece *, int n, struct bin sheet, const struct bin *bins, int n_bins, struct pool *,
                   struct measure *out);
bool bin_holds(struct bin, const struct piece *); /* one piece alone */

#endif
