/* The order of sawing: the fence stays where it is while any slab at hand needs that setting; then it goes to the setting
   of the largest slab at hand, so that large work gets small early. */
#include "stock/order.h"

#include <stdlib.h>

static bool is_cut(const struct slab *s)
{
    return s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y;
}

static int64_t setting_of(const struct layout *l, const struct slab *s)
{
    const struct slab *first = &l->slabs[s->child[0]];

    return s->kind == SLAB_CUT_X ? first->w : first->h;
}

static int compare_settings(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

    return (x > y) - (x < y);
}

int order_count_settings(const struct layout *l, int64_t *scratch)
{
    int n = 0, different = 0;

    for (int i = 0; i < l->n; i++)
        if (is_cut(&l->slabs[i]))
            scratch[n++] = setting_of(l, &l->slabs[i]);
    qsort(scratch, (size_t)n, sizeof *scratch, compare_settings);
    for (int i = 0; i < n; i++)
        different += i == 0 || scratch[i] != scratch[i - 1];
    return different;
}

/* Where in the list of slabs at hand the next cut is: same setting, else the largest slab, the earlier of equals. */
static int choose_next(const struct layout *l, const int *at_hand, int n, int64_t fence)
{
    int best = -1;

    for (int i = 0; i < n; i++) {
        const struct slab *s = &l->slabs[at_hand[i]], *b = best < 0 ? s : &l->slabs[at_hand[best]];
        bool same = setting_of(l, s) == fence, best_same = best >= 0 && setting_of(l, b) == fence;
        int64_t area = s->w * s->h, best_area = b->w * b->h;
        if (best < 0 || (same && !best_same) ||
            (same == best_same && (area > best_area || (area == best_area && at_hand[i] < at_hand[best]))))
            best = i;
    }
    return best;
}

int order_cuts(const struct layout *l, struct sawing *out)
{
    int *at_hand = mem_alloc((size_t)(l->n + 1) * sizeof *at_hand), n = 0, cuts = 0;
    int64_t fence = 0;

    for (int i = 0; i < l->n_bins; i++)
        if (is_cut(&l->slabs[i]))
            at_hand[n++] = i;
    while (n > 0) {
        int next = choose_next(l, at_hand, n, fence), slab = at_hand[next];
        const struct slab *s = &l->slabs[slab];
        fence = setting_of(l, s);
        out[cuts++] = (struct sawing){slab, fence};
        at_hand[next] = at_hand[--n];
        for (int c = 0; c < 2; c++)
            if (is_cut(&l->slabs[s->child[c]]))
                at_hand[n++] = s->child[c];
    }
    free(at_hand);
    return cuts;
}
