/* draw/ground.h: what stands where on the paper, kept by square so that only what is near is looked at.
   Private to src/draw. Owns: its entries, freed by ground_free. */
#ifndef FETTLE_DRAW_GROUND_H
#define FETTLE_DRAW_GROUND_H

#include "draw/clip.h"

enum { GROUND_SQUARES = 32 };
struct ground {
    struct rect box;                            /* what lies outside is kept in the squares along its edge */
    int newest[GROUND_SQUARES][GROUND_SQUARES]; /* of each square: index of an entry and 1; 0: empty */
    struct ground_entry {
        int item, older; /* the caller's number; the entry before it in the same square */
    } *entries;
    size_t n, capacity;
};
/* Keeps an item in every square that its box meets. */
void ground_add(struct ground *, const struct rect *, int item);
/* True where some item of those squares is the one: items are handed over newest first, some more than once. */
bool ground_holds(const struct ground *, const struct rect *,
                  bool (*is_the_one)(const void *context, int item, const struct rect *), const void *context);
void ground_free(struct ground *);

#endif
