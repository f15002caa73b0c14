/* stock/slab.h: pieces to be cut, and the tree of cuts that makes them, in whole numbers. Owns nothing: a layout's arrays
   belong to the pool they were made in. Private to src/stock.

   Every size here has one kerf added to it, those of sheets and strips too. Then a cut has no width: a sheet W + k parts
   exactly into pieces w_i + k, as W = w_1 + k + w_2 + … does in the shop. */
#ifndef FETTLE_STOCK_SLAB_H
#define FETTLE_STOCK_SLAB_H

#include "base/mem.h"

#include <stdbool.h>
#include <stdint.h>

/* Whole numbers, so that every machine finds the same layout: 1/8000 mm holds thousandths of a millimetre and 1/64 in
   exactly. Lengths stay below 2^26, areas below 2^52. */
#define UNITS_PER_MM 8000

struct piece {
    int64_t w, h; /* along and across the grain */
    bool turns;   /* may lie either way */
};
bool piece_is_like(const struct piece *, const struct piece *);
struct bin { /* one sheet, strip or offcut to cut from */
    int64_t w, h;
};

/* A slab is a piece, a rest, or is cut in two right across. */
enum slab_kind { SLAB_REST, SLAB_PIECE, SLAB_CUT_X, SLAB_CUT_Y }; /* CUT_X: a line of constant x parts it */
struct slab {
    enum slab_kind kind;
    int64_t x, y, w, h; /* near left corner in its bin, size */
    int piece;          /* of SLAB_PIECE */
    bool turned;
    int child[2];       /* of the cuts: the part at lower x or y first; that one is cut to size */
};

/* Slab i < n_bins is the whole of bin i; an unused bin is a SLAB_REST. */
struct layout {
    struct slab *slabs;
    int n, n_bins;
};

int layout_room(int n_pieces, int most_bins); /* slabs that a layout may come to have */
struct layout layout_new(struct pool *, int n_pieces, int most_bins);
void layout_start(struct layout *, const struct bin *bins, int n_bins); /* all bins whole */
void layout_copy(struct layout *to, const struct layout *from);
/* Cuts slab i so that its first part is `size` wide (high); gives that part. No cut where it is as wide already: i itself. */
int slab_cut(struct layout *, int i, enum slab_kind cut, int64_t size);
/* Puts a piece into the near left corner of a rest by at most three cuts: the first as given, its first part the piece's
   size or `carrier`, whichever is larger; then across that; and the piece from the carrier last. */
void slab_place(struct layout *, int i, const struct piece *, int piece, bool turned, enum slab_kind first, int64_t carrier);
/* A whole bin becomes the first part of a larger one, from which one cut parts it. */
void layout_widen(struct layout *, int bin, enum slab_kind cut, struct bin larger);
/* Largest rest, by area, in the used bins from `first_bin` on. */
int64_t layout_largest_rest(const struct layout *, int first_bin);

#endif
