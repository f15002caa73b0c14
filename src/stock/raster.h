/* stock/raster.h: the sizes that parts of a bin need have in one direction, where pieces are taken from it as often as one
   likes. Owns nothing: points belong to the pool they were made in. Private to src/stock. */
#ifndef FETTLE_STOCK_RASTER_H
#define FETTLE_STOCK_RASTER_H

#include "stock/slab.h"

struct raster {
    int n, *at; /* ascending, the first 0, in units */
};

/* Length of a piece along the bin's w or h, lying straight or turned. */
int64_t raster_length(const struct piece *, bool of_w, bool turned);
/* The unit that all lengths are whole in; a coarser one where there would be too many in `whole`. */
int64_t raster_unit(const struct piece *kinds, int n, bool of_w, int64_t whole);
/* `up`: pieces are rounded up to whole units, so that what fits in units fits; else down, so that what fits, fits in units. */
struct raster raster_of(const struct piece *kinds, int n, bool of_w, int64_t unit, int64_t size, bool up, struct pool *);
int raster_point(const struct raster *, int64_t size); /* the first not below a size in units; n: none */

#endif
