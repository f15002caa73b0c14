/* sheet/cutting_table.h: the table of cuts of one stock, in sawing order. Private to src/sheet. */
#ifndef FETTLE_SHEET_CUTTING_TABLE_H
#define FETTLE_SHEET_CUTTING_TABLE_H

#include "sheet/blocks.h"

/* Nothing where no cut is needed. */
void cutting_add_table(const struct sheet_builder *, const struct cutting_stock *, struct block_list *);

#endif
