/* random_lists.h: random lists of parts with sheets, strips and heaps of offcuts, as job texts in either unit. The same seed gives the
   same list on every machine. */
#ifndef FETTLE_TESTS_RANDOM_LISTS_H
#define FETTLE_TESTS_RANDOM_LISTS_H

#include "base/text.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

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

/* A length of whole millimetres; in inches the nearest sixteenth. */
static inline const char *list_length(char buffer[32], int mm, bool inches)
{
    int sixteenths = (int)(mm * 16 / 25.4 + 0.5);
    if (inches && sixteenths % 16)
        snprintf(buffer, 32, "%d %d/16", sixteenths / 16, sixteenths % 16);
    else
        snprintf(buffer, 32, "%d", inches ? sixteenths / 16 : mm);
    return buffer;
}

/* Sizes in whole millimetres or sixteenths of an inch, kerf in half millimetres or 64ths: what is printed is exact, but for
   what the kerf makes of it. */
static inline void random_list_in(unsigned seed, bool inches, struct text *yaml)
{
    static const char *const grains[] = {"along", "across", "any"};
    struct chance_of_lists c = {seed};
    char a[32], b[32];
    int n = list_between(&c, 1, 7), half_kerfs = list_between(&c, 4, 8), trim = list_between(&c, 0, 2) == 0 ? list_between(&c, 3, 12) : 0;
    text_printf(yaml,
                "fettle: 1\n"
                "job: {number: LIST-%u, title: Random list}\n"
                "units: %s\n"
                "saw: {blade: {diameter: %s, kerf: %g}, table: {front_edge: %s, ",
                seed, inches ? "in" : "mm", inches ? "10" : "250", inches ? (half_kerfs + 1) / 64.0 : half_kerfs / 2.0, inches ? "16" : "400");
    text_printf(yaml, "depth: %s, ", list_length(a, list_between(&c, 500, 800), inches));
    text_printf(yaml, "width: %s}}\n", list_length(a, list_between(&c, 600, 1100), inches));
    if (trim)
        text_printf(yaml, "cutting: {trim: %s}\n", list_length(a, trim, inches));
    const char *along = list_length(a, list_between(&c, 900, 1500), inches), *across = list_length(b, list_between(&c, 600, 1300), inches);
    text_printf(yaml, "stock:\n  ply: {material: birch-plywood, thickness: %s, sheet: [%s, %s]%s}\n", inches ? "1/2" : "12", along, across,
                list_between(&c, 0, 1) ? ", have: 1" : "");
    text_printf(yaml, "  ply-heap: {material: birch-plywood, thickness: %s, sheet: [%s, %s], have: 2}\n", inches ? "1/2" : "12",
                list_length(a, 500, inches), list_length(b, 380, inches));
    const char *wide = list_length(a, list_between(&c, 30, 80), inches), *length = list_length(b, list_between(&c, 1000, 2400), inches);
    text_printf(yaml, "  oak: {material: red-oak, strip: [%s, %s], length: %s, have: %d}\n", inches ? "3/4" : "20", wide, length, list_between(&c, 1, 3));
    text_add(yaml, "jig:\n  kind: parts\n  parts:\n");
    for (int i = 0; i < n; i++) {
        bool strip = list_between(&c, 0, 3) == 0;
        if (strip) {
            text_printf(yaml, "    - {name: rail %d, stock: oak, length: %s, ", i, list_length(a, list_between(&c, 90, 900), inches));
            text_printf(yaml, "quantity: %d%s}\n", list_between(&c, 1, 3), list_between(&c, 0, 2) ? "" : inches ? ", width: 1/2" : ", width: 12");
        } else {
            text_printf(yaml, "    - {name: panel %d, stock: ply, length: %s, ", i, list_length(a, list_between(&c, 60, 520), inches));
            text_printf(yaml, "width: %s, ", list_length(b, list_between(&c, 60, 480), inches));
            text_printf(yaml, "quantity: %d, ", list_between(&c, 1, 3));
            text_printf(yaml, "grain: %s}\n", grains[list_between(&c, 0, 2)]);
        }
    }
}

static inline void random_list(unsigned seed, struct text *yaml)
{
    random_list_in(seed, false, yaml);
}

#endif
