/* sheet/kinds.h: the four sheets, each filled by one function. Private to src/sheet. */
#ifndef FETTLE_SHEET_KINDS_H
#define FETTLE_SHEET_KINDS_H

#include "sheet/blocks.h"

enum { WALL_VERSIONS = 14 };
void wall_fill(const struct sheet_builder *, struct block_list *);
void build_fill(const struct sheet_builder *, struct block_list *);
void record_fill(const struct sheet_builder *, struct block_list *);
void bench_fill(const struct sheet_builder *, struct block_list *);
/* Under a heading: all that was assumed, not stated in the job; nothing where nothing was. For build and record. */
void sheet_add_assumed(const struct sheet_builder *, struct block_list *, enum text_style);
/* Build sheet: how the parts are cut from the stock. Nothing where there is no cutting. */
void sheet_add_cutting(const struct sheet_builder *, struct block_list *);
/* number, date of issue and the first 16 hex digits of the fingerprint */
const char *record_id(const struct sheet_builder *);

#endif
