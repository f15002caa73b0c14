/* arrange.h: a sheet's blocks on as many pages as they take: how low each page's drawings are, and which of them let what
   follows come before them. Private to src/pages. */
#ifndef FETTLE_PAGES_ARRANGE_H
#define FETTLE_PAGES_ARRANGE_H

#include "pages/blocks.h"

struct arrangement {
    struct slabs slabs;    /* in the order in which they are placed */
    size_t *ends, n_pages; /* page p holds the slabs up to before ends[p] */
    double cost;           /* as in breaks.h */
};

/* As the slabs stand. */
void arrange_set(const struct slabs *, double page_height, struct arrangement *out);
/* The cheapest found; the setter's own squeeze does not matter. */
void arrange_blocks(const struct setter *, const struct block_list *, double width, struct arrangement *out);

#endif
