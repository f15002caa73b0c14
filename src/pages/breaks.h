/* breaks.h: where pages end, and how far the drawings of each give way: the cheapest set of page breaks for a stack of slabs,
   by dynamic programming over all of them. A pure function of heights. Private to src/pages. */
#ifndef FETTLE_PAGES_BREAKS_H
#define FETTLE_PAGES_BREAKS_H

#include <stdbool.h>
#include <stddef.h>

enum { BREAK_COLUMNS = 3 };

struct break_item {
    double above, height; /* [pt]; above is dropped at the head of a page */
    double head;          /* height of what is repeated above it at the head of a page */
    double cost;          /* of a break before it */
    double squeezed;      /* cost of being set as low as it is */
    bool keep_with_next, new_page;
    int band;             /* items of one band stand in columns: 0 is none; their height is that of the highest column */
    double start[BREAK_COLUMNS], bottom[BREAK_COLUMNS]; /* of a page that begins with it, and of itself, in each column */
};

/* What is minded, worst first. A page costs BREAK_PAGE. */
#define BREAK_TOO_HIGH 1e8     /* an item higher than the page */
#define BREAK_KEPT 1e6         /* a break between two that are kept together */
#define BREAK_NEARLY_EMPTY 1e4 /* a page under FILLED_LEAST which is not the only one */
#define BREAK_NOT_NEW 1e3      /* no break where a page was asked for */
#define BREAK_PAGE 100.0
#define BREAK_TIGHTER 3.0 /* each level that a page is at */
#define BREAK_WHITE 600.0 /* times the squared share of white on a page before the last */

/* The same n items `levels` times, one after the other, with drawings the lower, and the less white, the higher the level; every page has a level
   of its own. Of page p, ends[p] is the index after its last item, level[p] its level; there is room for n. Gives the
   cost; n_pages is 0 if n is. */
double breaks_find(const struct break_item *, size_t levels, size_t n, double page_height, size_t *ends, size_t *level,
                   size_t *n_pages);

#endif
