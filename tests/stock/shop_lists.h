/* shop_lists.h: lists of rectangles as a shop cuts them, at random: the parts of jigs (a base, layers of fences, blocks) and
   of drawers (sides, fronts, bottoms, a case), from sheets as they are sold and up to three heaps of offcuts. The same
   seed gives the same list on every machine. Sizes of sheets: common trade sizes, no source. */
#ifndef FETTLE_TESTS_SHOP_LISTS_H
#define FETTLE_TESTS_SHOP_LISTS_H

#include "stock/bound.h"

#include "checker.h"

enum { SHOP_PIECES_MOST = 40, SHOP_HEAPS_MOST = 6 };
enum shop_list_kind { SHOP_JIGS, SHOP_DRAWERS, SHOP_LIST_KINDS };

struct shop_list {
    struct piece pieces[SHOP_PIECES_MOST];
    int n;
    struct bin sheet, offcuts[SHOP_HEAPS_MOST];
    int n_offcuts;
};

static inline void shop_add(struct shop_list *l, int most, int quantity, int64_t along, int64_t across, bool turns, int64_t kerf)
{
    struct piece p = {along * UNITS_PER_MM + kerf, across * UNITS_PER_MM + kerf, turns};
    for (; quantity > 0 && l->n < most && bin_holds(l->sheet, &p); quantity--)
        l->pieces[l->n++] = p;
}

static inline void shop_add_jig(struct shop_list *l, int most, uint64_t *random, int64_t kerf)
{
    int64_t width = 10 * draw_number(random, 30, 80), depth = 10 * draw_number(random, 25, 60), fence = draw_number(random, 60, 120);
    shop_add(l, most, 1, width, depth, draw_number(random, 0, 1), kerf);
    shop_add(l, most, (int)draw_number(random, 1, 3), width, fence, false, kerf);
    shop_add(l, most, (int)draw_number(random, 0, 2), width - 10 * draw_number(random, 0, 12), fence, false, kerf);
    shop_add(l, most, (int)draw_number(random, 2, 6), 100, fence, false, kerf);
    shop_add(l, most, (int)draw_number(random, 0, 2), 10 * draw_number(random, 15, 45), draw_number(random, 120, 300), true, kerf);
}

static inline void shop_add_drawers(struct shop_list *l, int most, uint64_t *random, int64_t kerf)
{
    int64_t height = 10 * draw_number(random, 7, 22), depth = 10 * draw_number(random, 30, 55), width = 10 * draw_number(random, 25, 65);
    int drawers = (int)draw_number(random, 1, 4);
    shop_add(l, most, 2 * drawers, depth, height, false, kerf);
    shop_add(l, most, 2 * drawers, width, height, false, kerf);
    if (draw_number(random, 0, 1))
        shop_add(l, most, drawers, width, depth - 15, true, kerf);
    if (draw_number(random, 0, 2) == 0) {
        shop_add(l, most, 2, 10 * draw_number(random, 40, 80), depth + 20, false, kerf);
        shop_add(l, most, 2, width + 40, depth + 20, false, kerf);
    }
}

/* A list of exactly n pieces. */
static inline void draw_shop_list(struct shop_list *l, enum shop_list_kind kind, int n, uint64_t *random)
{
    static const int64_t sheets[][2] = {{1220, 610}, {1220, 1220}, {1525, 1525}, {1250, 625}, {2440, 1220}};
    static const int kerfs[] = {24, 28, 32};
    int64_t kerf = kerfs[draw_number(random, 0, 2)] * UNITS_PER_MM / 10, trim = draw_number(random, 0, 1) * 5;
    const int64_t *sheet = sheets[draw_number(random, 0, 4)];
    *l = (struct shop_list){.sheet = {(sheet[0] - 2 * trim) * UNITS_PER_MM + kerf, (sheet[1] - 2 * trim) * UNITS_PER_MM + kerf}};
    for (int heaps = (int)draw_number(random, -3, 3); heaps > 0; heaps--) {
        struct bin heap = {10 * draw_number(random, 20, 61) * UNITS_PER_MM + kerf, 10 * draw_number(random, 10, 40) * UNITS_PER_MM + kerf};
        for (int k = (int)draw_number(random, 1, 2); k > 0; k--)
            l->offcuts[l->n_offcuts++] = heap;
    }
    while (l->n < n)
        if (kind == SHOP_JIGS)
            shop_add_jig(l, n, random, kerf);
        else
            shop_add_drawers(l, n, random, kerf);
}

#endif
