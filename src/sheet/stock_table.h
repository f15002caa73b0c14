/* sheet/stock_table.h: the stock that the parts are cut from: what is on the rack, to be bought, cut into, left. Private to
   src/sheet. */
#ifndef FETTLE_SHEET_STOCK_TABLE_H
#define FETTLE_SHEET_STOCK_TABLE_H

#include "sheet/blocks.h"

/* NULL: a strip that the job does not name. */
const char *stock_name(const struct sheet_builder *, const struct job_stock *);
void stock_add_table(const struct sheet_builder *, struct block_list *);

#endif
