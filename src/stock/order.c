/* The order of sawing: the fence stays where it is while any slab at hand needs that setting. Then it goes to a setting that
   need not come again, because all slabs that need it are at hand; of these, or of all if there is none, to that of the
   largest slab, so that large work gets small early. By hand nothing stays set: there one sheet is sawn before the next is
   fetched. */
#include "stock/order.h"

#include <stdlib.h>

static bool is_cut(const struct slab *s)
{
    return s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y;
}

static int64_t fence_of(const struct layout *l, const struct slab *s)
{
    const struct slab *first = &l->slabs[s->child[0]];

    return s->kind == SLAB_CUT_X ? first->w : first->h;
}

int order_what_is_set(enum cut_way way)
{
    switch (way) {
    case CUT_AT_FENCE:
        return SET_FENCE;
    case CUT_AT_STOP:
    case CUT_ON_SLED:
        return SET_STOP;
    case CUT_TOO_LARGE:
    case CUT_PAST_FENCE:
    case CUT_PAST_GAUGE:
    case CUT_TOO_SHORT:
        break;
    }
    return SET_BY_HAND;
}

/* A number that tells settings apart. */
static int64_t setting_of(const struct layout *l, const struct saw *saw, const struct slab *s)
{
    int64_t fence = fence_of(l, s);

    return fence * SETS + (saw ? order_what_is_set(saw_way_of_slab(saw, s->kind, s->w, s->h, fence)) : 0);
}

static int compare_settings(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

    return (x > y) - (x < y);
}

/* Those of all cuts, each once, ascending; gives their number. */
static int list_settings(const struct layout *l, const struct saw *saw, int64_t *out)
{
    int n = 0, different = 0;

    for (int i = 0; i < l->n; i++)
        if (is_cut(&l->slabs[i]))
            out[n++] = setting_of(l, saw, &l->slabs[i]);
    qsort(out, (size_t)n, sizeof *out, compare_settings);
    for (int i = 0; i < n; i++)
        if (i == 0 || out[i] != out[different - 1])
            out[different++] = out[i];
    return different;
}

int order_count_settings(const struct layout *l, const struct saw *saw, int64_t *scratch)
{
    return list_settings(l, saw, scratch);
}

struct queue {
    const struct layout *layout;
    int *bin;                  /* of each slab */
    bool *by_hand;             /* of each slab that is cut */
    int *setting;              /* of each slab that is cut: its place in the list of settings */
    int *at_hand, n;           /* slabs that can be cut now */
    int *to_come;              /* by setting: slabs that need it and are not at hand yet */
};

static void take_to_hand(struct queue *q, int slab)
{
    if (!is_cut(&q->layout->slabs[slab]))
        return;
    q->at_hand[q->n++] = slab;
    q->to_come[q->setting[slab]]--;
}

/* Nothing has to be set or fetched anew; last -1: nothing was sawn yet. */
static bool goes_on(const struct queue *q, int slab, int last)
{
    if (last < 0 || q->by_hand[slab] != q->by_hand[last])
        return false;
    return q->by_hand[slab] ? q->bin[slab] == q->bin[last] : q->setting[slab] == q->setting[last];
}

static bool goes_before(const struct queue *q, int a, int b, int last)
{
    const struct slab *s = &q->layout->slabs[a], *t = &q->layout->slabs[b];
    bool stays_a = goes_on(q, a, last), stays_b = goes_on(q, b, last);
    bool last_a = q->to_come[q->setting[a]] == 0, last_b = q->to_come[q->setting[b]] == 0;
    int64_t area_a = s->w * s->h, area_b = t->w * t->h;

    if (stays_a != stays_b)
        return stays_a;
    if (last_a != last_b)
        return last_a;
    return area_a != area_b ? area_a > area_b : a < b;
}

static int take_next(struct queue *q, int last)
{
    int best = 0;

    for (int i = 1; i < q->n; i++)
        if (goes_before(q, q->at_hand[i], q->at_hand[best], last))
            best = i;
    int slab = q->at_hand[best];
    q->at_hand[best] = q->at_hand[--q->n];
    return slab;
}

static void mark_bin(struct queue *q, int slab, int bin)
{
    q->bin[slab] = bin;
    for (int k = 0; k < 2 && is_cut(&q->layout->slabs[slab]); k++)
        mark_bin(q, q->layout->slabs[slab].child[k], bin);
}

static void list_cuts(struct queue *q, const struct saw *saw)
{
    const struct layout *l = q->layout;
    int64_t *settings = mem_alloc((size_t)(l->n + 1) * sizeof *settings);
    int different = list_settings(l, saw, settings);

    for (int i = 0; i < l->n; i++) {
        if (!is_cut(&l->slabs[i]))
            continue;
        int64_t own = setting_of(l, saw, &l->slabs[i]);
        const int64_t *place = bsearch(&own, settings, (size_t)different, sizeof *settings, compare_settings);
        q->setting[i] = (int)(place - settings);
        q->by_hand[i] = own % SETS == SET_BY_HAND;
        q->to_come[q->setting[i]]++;
    }
    free(settings);
}

int order_cuts(const struct layout *l, const struct saw *saw, struct sawing *out)
{
    size_t room = (size_t)(l->n + 1) * sizeof(int);
    struct queue q = {l, mem_alloc(room), mem_alloc((size_t)(l->n + 1) * sizeof(bool)), mem_alloc(room), mem_alloc(room), 0, mem_alloc(room)};
    int cuts = 0, last = -1;

    list_cuts(&q, saw);
    for (int i = 0; i < l->n_bins; i++) {
        mark_bin(&q, i, i);
        take_to_hand(&q, i);
    }
    while (q.n > 0) {
        int slab = take_next(&q, last);
        const struct slab *s = &l->slabs[slab];
        last = slab;
        out[cuts++] = (struct sawing){slab, fence_of(l, s)};
        take_to_hand(&q, s->child[0]);
        take_to_hand(&q, s->child[1]);
    }
    free(q.bin);
    free(q.by_hand);
    free(q.setting);
    free(q.at_hand);
    free(q.to_come);
    return cuts;
}
