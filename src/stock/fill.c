/* Pieces laid down one after another, each in the corner of a rest, which is then parted by two cuts right across: so all
   layouts are guillotine layouts. The choices and splits are those of the guillotine heuristics in Jylänki, "A thousand
   ways to pack the bin" (2010), from memory. */
#include "stock/fill.h"

#include <stdlib.h>

struct place {
    int at;      /* index in scratch->places; -1: none */
    bool turned;
    int64_t first, second; /* the less the better */
};

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t most(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static int64_t order_key(const struct piece *p, enum fill_order order)
{
    switch (order) {
    case ORDER_AREA:
        return p->w * p->h;
    case ORDER_W:
        return p->w;
    case ORDER_H:
        return p->h;
    case ORDER_LONG_SIDE:
        return most(p->w, p->h);
    case ORDER_SHORT_SIDE:
        return least(p->w, p->h);
    case ORDER_PERIMETER:
    case FILL_ORDERS:
        break;
    }
    return p->w + p->h;
}

/* a goes before b. */
static bool goes_before(const struct piece *p, int a, int b, enum fill_order order)
{
    int64_t x = order_key(&p[a], order), y = order_key(&p[b], order);

    if (x != y)
        return x > y;
    x = p[a].w * p[a].h;
    y = p[b].w * p[b].h;
    return x != y ? x > y : p[a].w != p[b].w ? p[a].w > p[b].w : a < b;
}

void fill_sort(const struct piece *p, int *order, int n, enum fill_order by)
{
    for (int gap = n / 2; gap > 0; gap /= 2) /* Shell's sort: the order is total, so the result is the same everywhere */
        for (int i = gap; i < n; i++) {
            int x = order[i], j = i;
            for (; j >= gap && goes_before(p, x, order[j - gap], by); j -= gap)
                order[j] = order[j - gap];
            order[j] = x;
        }
}

static enum slab_kind split_of(enum fill_split split, int64_t w, int64_t h, int64_t rest_w, int64_t rest_h)
{
    /* first cut X leaves rest_w by all of the height, and w by rest_h; first cut Y the other way round */
    bool x_larger = most(rest_w * (h + rest_h), w * rest_h) > most((w + rest_w) * rest_h, rest_w * h);

    switch (split) {
    case SPLIT_SHORT_REST:
        return rest_w < rest_h ? SLAB_CUT_X : SLAB_CUT_Y;
    case SPLIT_LONG_REST:
        return rest_w < rest_h ? SLAB_CUT_Y : SLAB_CUT_X;
    case SPLIT_LARGE_REST:
        return x_larger ? SLAB_CUT_X : SLAB_CUT_Y;
    case SPLIT_EVEN_REST:
        return x_larger ? SLAB_CUT_Y : SLAB_CUT_X;
    case SPLIT_X:
        return SLAB_CUT_X;
    case SPLIT_Y:
    case FILL_SPLITS:
        break;
    }
    return SLAB_CUT_Y;
}

/* Whether a piece lying w by h would lie better here than at the best place so far. */
static void weigh_place(const struct slab *s, int at, int64_t w, int64_t h, bool turned, enum fill_choice choice, struct place *best)
{
    int64_t rest_w = s->w - w, rest_h = s->h - h, first = 0, second = 0;

    if (rest_w < 0 || rest_h < 0)
        return;
    switch (choice) {
    case CHOOSE_FIRST:
    case FILL_CHOICES:
        first = at;
        second = least(rest_w, rest_h);
        break;
    case CHOOSE_AREA:
        first = s->w * s->h - w * h;
        second = least(rest_w, rest_h);
        break;
    case CHOOSE_SHORT_SIDE:
        first = least(rest_w, rest_h);
        second = most(rest_w, rest_h);
        break;
    case CHOOSE_LONG_SIDE:
        first = most(rest_w, rest_h);
        second = least(rest_w, rest_h);
        break;
    }
    if (best->at < 0 || first < best->first || (first == best->first && second < best->second))
        *best = (struct place){at, turned, first, second};
}

static struct place find_place(const struct layout *l, const int *places, int n, const struct piece *p, enum fill_choice choice)
{
    struct place best = {.at = -1};

    for (int i = 0; i < n; i++) {
        const struct slab *s = &l->slabs[places[i]];
        weigh_place(s, i, p->w, p->h, false, choice, &best);
        if (p->turns)
            weigh_place(s, i, p->h, p->w, true, choice, &best);
    }
    return best;
}

/* Takes the rests made by a placement into the list in place of the one that was used. */
static int replace_place(const struct layout *l, int *places, int n, int at, int old_n)
{
    for (int i = at; i + 1 < n; i++)
        places[i] = places[i + 1];
    n--;
    for (int i = old_n; i < l->n; i++)
        if (l->slabs[i].kind == SLAB_REST)
            places[n++] = i;
    return n;
}

int fill_bins(const struct fill_task *t, struct fill_rule rule, struct fill_scratch *scratch, struct layout *out, long *nodes)
{
    int n_places = 0, open = t->n_open, *places = scratch->places;

    layout_start(out, t->bins, t->n_bins);
    for (int i = 0; i < open; i++)
        places[n_places++] = i;
    for (int k = 0; k < t->n; k++) {
        const struct piece *p = &t->pieces[t->order[k]];
        struct place best = find_place(out, places, n_places, p, rule.choice);
        *nodes -= n_places + 1;
        while (best.at < 0 && open < t->n_bins) {
            places[n_places++] = open++;
            best = find_place(out, places + n_places - 1, 1, p, rule.choice);
            if (best.at >= 0)
                best.at = n_places - 1;
        }
        if (best.at < 0)
            return -1;
        const struct slab *s = &out->slabs[places[best.at]];
        int64_t w = best.turned ? p->h : p->w, h = best.turned ? p->w : p->h;
        enum slab_kind first = split_of(rule.split, w, h, s->w - w, s->h - h);
        int before = out->n;
        slab_place(out, places[best.at], p, t->order[k], best.turned, first);
        n_places = replace_place(out, places, n_places, best.at, before);
    }
    return open;
}
