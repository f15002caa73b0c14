/* stock/fill.h: pieces laid on sheets one after another by a rule: quick, good, without proof. Owns nothing.
   Private to src/stock. */
#ifndef FETTLE_STOCK_FILL_H
#define FETTLE_STOCK_FILL_H

#include "stock/saw.h"

/* Which place a piece takes, and how the slab around it is parted. */
enum fill_choice { CHOOSE_FIRST, CHOOSE_AREA, CHOOSE_SHORT_SIDE, CHOOSE_LONG_SIDE, FILL_CHOICES };
enum fill_split { SPLIT_SHORT_REST, SPLIT_LONG_REST, SPLIT_LARGE_REST, SPLIT_EVEN_REST, SPLIT_X, SPLIT_Y, FILL_SPLITS };
enum fill_order { ORDER_AREA, ORDER_W, ORDER_H, ORDER_LONG_SIDE, ORDER_SHORT_SIDE, ORDER_PERIMETER, FILL_ORDERS };
struct fill_rule {
    enum fill_choice choice;
    enum fill_split split;
};
/* With a saw: a place and a split where nothing is too short to be held go before what the rule says. */
struct fill_care {
    const struct saw *saw; /* NULL: it does not matter how a cut is held */
    bool carriers;         /* short pieces are cut from a length just long enough for the fence, rather than from all of it */
};

/* Scratch of one fill, made once. */
struct fill_scratch {
    int *places; /* rests that something may still go into */
};

struct fill_task {
    const struct piece *pieces;
    const int *order; /* n of them, numbers of pieces */
    int n;
    const struct bin *bins;
    int n_bins;
    int n_open;       /* bins at hand from the start; the others are opened one by one as they are needed */
    struct fill_care care;
};

void fill_sort(const struct piece *, int *order, int n, enum fill_order); /* descending; equal ones as they stood */
/* Gives the number of bins opened, or -1 where a piece found no place. Each slab looked at costs a node. */
int fill_bins(const struct fill_task *, struct fill_rule, struct fill_scratch *, struct layout *out, long *nodes);

#endif
