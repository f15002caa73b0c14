/* stock/sheets.h: rectangles cut from sheets: fewest new sheets, then the fewest cuts of what is too short to be held, then
   the largest offcut in one piece, then the fewest fence settings. The first is proven or said not to be; the offcut is
   looked for along one edge of a sheet, and of few pieces on one sheet a larger one is missed by some four lists in a
   hundred; the settings are the fewest of the layouts that were looked at. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_SHEETS_H
#define FETTLE_STOCK_SHEETS_H

#include "stock/saw.h"

/* A kerf is added to every size (see slab.h). */
struct sheets_task {
    const struct piece *pieces; /* each fits a new sheet */
    int n;
    struct bin sheet;           /* a new one */
    const struct bin *offcuts;  /* used first */
    int n_offcuts;
    long nodes;                 /* limit of each part of the search */
    const struct saw *saw;      /* NULL: it does not matter how a cut is held */
};
struct sheets_result {
    struct layout layout; /* bins: the offcuts in their order, then the new sheets; in the pool */
    int fresh;            /* new sheets */
    int at_least;         /* proven: no guillotine layout with fewer new sheets */
};
void sheets_pack(const struct sheets_task *, struct pool *, struct sheets_result *out);

#endif
