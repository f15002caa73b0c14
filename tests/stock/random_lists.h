/* random_lists.h: random lists of parts with sheets, strips and heaps of offcuts, as job texts. The same seed gives the
   same list on every machine. */
#ifndef FETTLE_TESTS_RANDOM_LISTS_H
#define FETTLE_TESTS_RANDOM_LISTS_H

#include "base/text.h"

#include <stdint.h>

struct chance_of_lists {
    uint64_t state;
};

/* Steele, Lea, Flood: SplitMix64. */
static inline uint64_t list_next(struct chance_of_lists *c)
{
    uint64_t z = c->state += 0x9E3779B97F4A7C15u;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9u;
    z = (z ^ z >> 27) * 0x94D049BB133111EBu;
    return z ^ z >> 31;
}

static inline int list_between(struct chance_of_lists *c, int low, int high)
{
    return low + (int)(list_next(c) % (uint64_t)(high - low + 1));
}

/* Sizes in whole millimetres, kerf in halves: what is printed is exact. */
static inline void random_list(unsigned seed, struct text *yaml)
{
    static const char *const grains[] = {"along", "across", "any"};
    struct chance_of_lists c = {seed};
    int n = list_between(&c, 1, 7), half_kerfs = list_between(&c, 4, 8), trim = list_between(&c, 0, 2) == 0 ? list_between(&c, 3, 12) : 0;
    text_printf(yaml,
                "fettle: 1\n"
                "job: {number: LIST-%u, title: Random list}\n"
                "units: mm\n"
                "saw: {blade: {diameter: 250, kerf: %g}, table: {front_edge: 400, depth: %d, width: %d}}\n",
                seed, half_kerfs / 2.0, list_between(&c, 500, 800), list_between(&c, 600, 1100));
    if (trim)
        text_printf(yaml, "cutting: {trim: %d}\n", trim);
    text_printf(yaml, "stock:\n  ply: {material: birch-plywood, thickness: 12, sheet: [%d, %d]%s}\n",
                list_between(&c, 900, 1500), list_between(&c, 600, 1300), list_between(&c, 0, 1) ? ", have: 1" : "");
    text_add(yaml, "  ply-heap: {material: birch-plywood, thickness: 12, sheet: [500, 380], have: 2}\n");
    text_printf(yaml, "  oak: {material: red-oak, strip: [20, %d], length: %d, have: %d}\n", list_between(&c, 30, 80),
                list_between(&c, 1000, 2400), list_between(&c, 1, 3));
    text_add(yaml, "jig:\n  kind: parts\n  parts:\n");
    for (int i = 0; i < n; i++) {
        bool strip = list_between(&c, 0, 3) == 0;
        if (strip)
            text_printf(yaml, "    - {name: rail %d, stock: oak, length: %d, quantity: %d%s}\n", i, list_between(&c, 90, 900),
                        list_between(&c, 1, 3), list_between(&c, 0, 2) ? "" : ", width: 12");
        else
            text_printf(yaml, "    - {name: panel %d, stock: ply, length: %d, width: %d, quantity: %d, grain: %s}\n", i,
                        list_between(&c, 60, 520), list_between(&c, 60, 480), list_between(&c, 1, 3),
                        grains[list_between(&c, 0, 2)]);
    }
}

#endif
