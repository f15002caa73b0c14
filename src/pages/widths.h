/* widths.h: widths of texts, each shaped once a document: the same words are measured again and again, by cells, lines
   and trials. Private to src/pages. */
#ifndef FETTLE_PAGES_WIDTHS_H
#define FETTLE_PAGES_WIDTHS_H

#include "type.h"

struct width_entry;

/* {.faces = …} is empty; freed by widths_free. */
struct widths {
    const struct faces *faces; /* borrowed */
    struct pool pool;
    struct width_entry **slots; /* by hash, chained; in the pool */
    size_t n, n_slots;
};

double widths_of(struct widths *, enum face, unsigned features, const char *s, size_t n); /* as type_width: in em */
void widths_free(struct widths *);

#endif
