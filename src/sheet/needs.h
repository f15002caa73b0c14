/* sheet/needs.h: tools, hardware and what is used up, on the build sheet. Private to src/sheet. */
#ifndef FETTLE_SHEET_NEEDS_H
#define FETTLE_SHEET_NEEDS_H

#include "sheet/blocks.h"

void needs_add(const struct sheet_builder *, struct block_list *); /* nothing where the plan has none */

#endif
