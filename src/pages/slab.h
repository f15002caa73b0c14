/* slab.h: slabs: pieces of a sheet that are never split, stacked from the top of a column down. Every kind of block is
   set into slabs; pages and columns are stacks of them. Private to src/pages. */
#ifndef FETTLE_PAGES_SLAB_H
#define FETTLE_PAGES_SLAB_H

#include "ink.h"

#include <stdbool.h>

#define SLAB_RULE_WIDTH 1.0 /* [pt] */

/* A slab may be a row of a band: columns side by side, cut between their own slabs from the top down. Rows of one band that
   stand on one page are stacked column by column, so that no column waits for another; after a break each column goes on at
   the head of the next page. */
struct slab {
    struct inks inks;  /* from (0, 0), the slab's top left */
    double height;     /* [pt]; of a row: nothing, a band's height is no sum of its rows' */
    const struct band *band; /* NULL: it stands for itself */
    size_t row;              /* of the band */
    double above;      /* white above it, dropped at the head of a column [pt] */
    double rule;       /* length of a rule within that white, dropped with it; 0: none [pt] */
    double break_cost; /* how unwelcome a page break just before it is: 0 between blocks */
    bool keep_with_next;
    bool new_page;
    bool begins_block; /* of those that the sheet lists */
    bool floats;       /* its block may come later than what follows */
    bool fixed;        /* nothing that floats passes it */
    double scale_share; /* of drawings in it: what is left of their scale, 1 each where nothing gave way */
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

enum { COLUMNS_MOST = 3 };
struct band {
    int n;
    struct slabs columns[COLUMNS_MOST];
    double x[COLUMNS_MOST]; /* their left edges [pt] */
    size_t (*upto)[COLUMNS_MOST], n_rows; /* slabs of each column before row r; n_rows + 1 of them */
};
/* Of a row, in each column's own stack [pt]: where a page that begins with the row begins, and where the row ends. */
double band_start(const struct band *, size_t row, int column);
double band_bottom(const struct band *, size_t row, int column);

#endif
