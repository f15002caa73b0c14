/* stock/supply.h: what is to be cut from what: the parts that name one stock, as pieces; its new sheets and the offcuts on
   the rack, as bins. Owns nothing: arrays belong to the cutting's pool. Private to src/stock. */
#ifndef FETTLE_STOCK_SUPPLY_H
#define FETTLE_STOCK_SUPPLY_H

#include "cutting.h"
#include "stock/slab.h"


enum { SUPPLY_OFFCUTS_MOST = 200, SUPPLY_PIECES_MOST = 5000 };

struct supply {
    const struct job_stock *stock;
    int64_t kerf, trim_x, trim_y; /* trims of a new sheet; a strip has none across */
    struct bin fresh;             /* a new one, trimmed, a kerf added; w 0: its length is not stated */
    struct bin *offcuts;
    const struct job_stock **offcut_stock;
    int n_offcuts;
    struct piece *pieces;         /* one each, a kerf added */
    const struct plan_part **part; /* of each piece */
    int n;
    bool too_many;
    bool ripped;                  /* a strip wide enough to rip parts from it side by side: laid out as a sheet */
    double length_needed;         /* strips [mm] */
    enum units units;             /* of the job */
};

int64_t supply_units(double mm);
double supply_planing(enum units); /* parts of strips are ripped so much over and planed after [mm] */
/* False where no part names the stock. Parts that fit nowhere are put aside into cutting->misfits. */
bool supply_gather(const struct job *, const struct plan *, const struct job_stock *, struct cutting *, struct supply *out);

#endif
