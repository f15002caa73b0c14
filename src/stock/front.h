/* stock/front.h: into how small a rectangle a set of pieces can be laid by guillotine cuts. A set has a bit for each place
   in the order of `fronts`. Owns its tables: fronts_free. Private to src/stock. */
#ifndef FETTLE_STOCK_FRONT_H
#define FETTLE_STOCK_FRONT_H

#include "stock/slab.h"

enum { FRONT_PIECES_MOST = 64 };
enum front_answer { FRONT_NO, FRONT_YES, FRONT_UNDECIDED };

struct fronts {
    const struct piece *pieces;
    int n;
    int order[FRONT_PIECES_MOST];      /* pieces, largest first, equal ones together */
    int alike_from[FRONT_PIECES_MOST]; /* first place of a piece equal to this one */
    int64_t most_w, most_h;            /* larger rectangles are of no use */
    long *nodes;                       /* counted down */
    struct rectangle *rectangles;
    size_t n_rectangles, rectangle_capacity;
    struct front *table;               /* hashed by set */
    size_t n_fronts, capacity;         /* capacity a power of two */
};

void fronts_start(struct fronts *, const struct piece *, int n, int64_t most_w, int64_t most_h, long *nodes);
const struct piece *fronts_piece(const struct fronts *, int place);
/* The same set, with the first of equal pieces in place of later ones. */
uint64_t fronts_plain(const struct fronts *, uint64_t set);
enum front_answer fronts_fit(struct fronts *, uint64_t set, struct bin);
/* Lays a set that fits into a rest of the bin's size. */
void fronts_lay(struct fronts *, uint64_t set, struct layout *out, int slab);
void fronts_free(struct fronts *);

#endif
