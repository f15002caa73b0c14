/* slab.h: slabs: pieces of a sheet that are never split, stacked from the top of a column down. Every kind of block is
   set into slabs; pages and columns are stacks of them. Private to src/pages. */
#ifndef FETTLE_PAGES_SLAB_H
#define FETTLE_PAGES_SLAB_H

#include "ink.h"

#include <stdbool.h>

#define SLAB_RULE_WIDTH 1.0 /* [pt] */

struct slab {
    struct inks inks;  /* from (0, 0), the slab's top left */
    double height;     /* [pt] */
    double above;      /* white above it, dropped at the head of a column [pt] */
    double rule;       /* length of a rule within that white, dropped with it; 0: none [pt] */
    double break_cost; /* how unwelcome a page break just before it is: 0 between blocks */
    bool keep_with_next;
    bool new_page;
    bool true_scale;         /* holds a drawing at 1 : 1 */
    size_t left_out;         /* labels of drawings that found no room */
    const struct slab *head; /* repeated above it where it comes to stand at the head of a page: a table's head; NULL */
};

/* Lives in its pool. */
struct slabs {
    struct pool *pool; /* borrowed */
    struct slab *list;
    size_t n, capacity;
};

struct slab *slabs_add(struct slabs *); /* valid until the next; its inks are ready to be added to */
/* Height of slabs from up to before end, stacked: the first without its white, under its repeated head if
   it has one. */
double slabs_height(const struct slabs *, size_t from, size_t end);
/* Puts the same stack with its top left at (x, y), `stretch` more white above each that has some but
   the first. The inks are moved: once only. */
double slabs_stack(const struct slabs *, size_t from, size_t end, double x, double y, double stretch,
                   struct inks *into);
/* The longest run from `from` that is no higher than `most`, at least one, not ending in a slab kept with the next. */
size_t slabs_fit(const struct slabs *, size_t from, double most);

#endif
