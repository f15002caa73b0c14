/* sheet/cutting_table.h: the table of cuts of one stock, in sawing order. Private to src/sheet. */
#ifndef FETTLE_SHEET_CUTTING_TABLE_H
#define FETTLE_SHEET_CUTTING_TABLE_H

#include "sheet/blocks.h"

/* Nothing where no cut is needed. */
void cutting_add_table(const struct sheet_builder *, const struct cutting_stock *, struct block_list *);

/* Of a strip: its thickness becomes the part's width. */
bool cutting_is_on_edge(const struct cut_piece *);
/* Words of the table that ask for a rule. A block on the rip fence as the stop: what is cut to size is too short to be held. */
bool cutting_needs_block(const struct cutting *, const struct cut_line *);
/* Ripped so narrow that no push stick fits beside the blade. */
bool cutting_is_thin(const struct sheet_builder *, const struct cut_line *);
double cutting_thin_below(const struct sheet_builder *);

#endif
