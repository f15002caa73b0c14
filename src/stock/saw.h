/* stock/saw.h: how a cut is made on the saw of the job, and whether the piece can be held there at all. Sizes in whole
   numbers as in slab.h, but as they are in the shop: no kerf added. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_SAW_H
#define FETTLE_STOCK_SAW_H

#include "cutting.h"
#include "stock/slab.h"

struct saw {
    bool strip;                     /* the stock is a strip */
    int64_t kerf;
    int64_t at_fence, in_hand, narrow; /* limits of struct cutting */
    int64_t table_width, table_depth; /* INT64_MAX: not stated */
    int64_t runs_off, mark;         /* of a cut by hand: how far it may be off; it is marked in such steps */
    int64_t reach;                  /* largest setting of the rip fence; INT64_MAX: not stated */
};
struct saw saw_of_job(const struct job *, const struct cutting *, const struct job_stock *);
/* The panel lies `across` wide across the blade and `along` long beside it; `crosscut`: the blade runs across the grain. */
enum cut_way saw_way(const struct saw *, bool crosscut, int64_t across, int64_t along, int64_t fence);
/* The same of a slab that is cut so: `size` of its first part, a kerf added as to all sizes of slabs. */
enum cut_way saw_way_of_slab(const struct saw *, enum slab_kind cut, int64_t w, int64_t h, int64_t size);
bool saw_is_by_hand(enum cut_way); /* with a portable saw or a hand saw, for it is too large */
/* Cuts of a layout that are left to the handsaw because the piece is too short to be held. saw NULL: 0. */
int saw_count_short(const struct saw *, const struct layout *);

#endif
