/* Leaves: every sum of one leaf, then of two, three, four is looked at, thickest leaf first, leaving out what can no
   longer come nearer. A count of the sums looked at bounds the search for a set of absurd size. */
#include "proof/leaves.h"

#include <math.h>
#include <stdbool.h>

enum { MOST_SUMS = 4000000 }; /* all of 26 leaves by four are 17,901; all of 100 are 4,087,975 before any is left out */
#define SAME 1e-9 /* sums nearer to each other than this are the same: decimal leaves are not exact in binary [mm] */

struct search {
    const double *leaves;
    double distance;
    struct leaves_pick now, best;
    double best_off;
    long looked_at;
};

static void look_at_sum(struct search *s)
{
    double off = fabs(s->now.sum - s->distance);
    if (off < s->best_off - SAME) {
        s->best = s->now;
        s->best_off = off;
    }
}

/* Adds `more` leaves, all below index n of the set, to the sum that stands. */
static void search_below(struct search *s, size_t n, int more)
{
    if (more == 0) {
        look_at_sum(s);
        return;
    }
    double start = s->now.sum;
    for (size_t i = n; i-- > (size_t)(more - 1) && s->looked_at++ < MOST_SUMS;) {
        if (start + more * s->leaves[i] < s->distance - s->best_off) /* thinner leaves only lead further away */
            break;
        if (start + s->leaves[i] > s->distance + s->best_off)
            continue;
        s->now.leaf[s->now.n++] = s->leaves[i];
        s->now.sum = start + s->leaves[i];
        search_below(s, i, more - 1);
        s->now.n--;
    }
    s->now.sum = start;
}

struct leaves_pick leaves_find(const double *leaves, size_t n, double distance)
{
    struct search s = {.leaves = leaves, .distance = distance, .best_off = fabs(distance)};
    for (int count = 1; s.best_off > LEAVES_NEAR + SAME && count <= LEAVES_MAX && (size_t)count <= n; count++)
        search_below(&s, n, count);
    return s.best;
}
