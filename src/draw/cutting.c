/* One sheet or strip and how it is cut: pieces with letter and size, cuts numbered in sawing order, waste hatched,
   offcuts worth keeping named with their size. */
#include "draw.h"

void draw_cut_sheet(const struct cutting_stock *stock, size_t sheet, enum units units, struct pool *pool,
                    struct drawing *out)
{
    (void)stock;
    (void)sheet;
    (void)units;
    (void)pool;
    *out = (struct drawing){0};
}
