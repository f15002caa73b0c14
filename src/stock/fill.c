/* Pieces laid down one after another, each in the corner of a rest, which is then parted by two cuts right across: so all
   layouts are guillotine layouts. The choices and splits are those of the guillotine heuristics in Jylänki, "A thousand
   ways to pack the bin" (2010), from memory. */
#include "stock/fill.h"

#include <limits.h>
#include <stdlib.h>

struct how { /* a slab is parted for a piece */
    enum slab_kind first;
    int64_t carrier; /* see slab_place */
    int too_short;   /* of the cuts */
};
struct place {
    int at;      /* index in scratch->places; -1: none */
    bool turned;
    struct how how;
    int64_t first, second; /* the less the better, after how.too_short */
};

struct filling {
    struct fill_rule rule;
    const struct fill_care *care;
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

/* Cuts too short to be held where a piece w by h is taken from a slab so. */
static int count_too_short(const struct saw *saw, const struct slab *s, int64_t w, int64_t h, enum slab_kind first, int64_t carrier)
{
    bool x = first == SLAB_CUT_X;
    enum slab_kind second = x ? SLAB_CUT_Y : SLAB_CUT_X;
    int64_t whole = x ? s->w : s->h, other = x ? s->h : s->w, own = x ? w : h, own_other = x ? h : w;
    int64_t size = least(most(carrier, own), whole);
    int n = 0;

    if (size < whole)
        n += saw_way_of_slab(saw, first, s->w, s->h, size) == CUT_TOO_SHORT;
    if (own_other < other)
        n += saw_way_of_slab(saw, second, x ? size : s->w, x ? s->h : size, own_other) == CUT_TOO_SHORT;
    if (own < size)
        n += saw_way_of_slab(saw, first, x ? size : w, x ? h : size, own) == CUT_TOO_SHORT;
    return n;
}

/* The way that the rule says, unless another has fewer cuts too short to be held. */
static struct how settle_how(const struct slab *s, int64_t w, int64_t h, enum fill_split split, const struct fill_care *care)
{
    static const struct {
        bool carrier, other;
    } ways[2][4] = {{{false, false}, {false, true}, {true, false}, {true, true}},
                    {{true, false}, {true, true}, {false, false}, {false, true}}};
    enum slab_kind first = split_of(split, w, h, s->w - w, s->h - h);
    struct how best = {first, 0, INT_MAX};

    if (!care->saw || most(w, h) - care->saw->kerf >= care->saw->at_fence) /* long enough for any cut: see saw.h */
        return (struct how){first, 0, 0};
    for (int k = 0; k < 4 && best.too_short > 0; k++) {
        bool carrier = ways[care->carriers][k].carrier, x_first = (first == SLAB_CUT_X) != ways[care->carriers][k].other;
        if (carrier && (x_first ? h == s->h : w == s->w))
            continue; /* no cut across a carrier, so none is needed */
        struct how how = {x_first ? SLAB_CUT_X : SLAB_CUT_Y, carrier ? care->saw->at_fence + care->saw->kerf : 0, 0};
        how.too_short = count_too_short(care->saw, s, w, h, how.first, how.carrier);
        if (how.too_short < best.too_short)
            best = how;
    }
    return best;
}

/* Whether a piece lying w by h would lie better here than at the best place so far. */
static void weigh_place(const struct slab *s, int at, int64_t w, int64_t h, bool turned, const struct filling *f, struct place *best)
{
    int64_t rest_w = s->w - w, rest_h = s->h - h, first = 0, second = 0;

    if (rest_w < 0 || rest_h < 0)
        return;
    switch (f->rule.choice) {
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
    bool nearer = best->at < 0 || first < best->first || (first == best->first && second < best->second);
    if (!nearer && best->how.too_short == 0)
        return;
    struct how how = settle_how(s, w, h, f->rule.split, f->care);
    if (best->at < 0 || how.too_short < best->how.too_short || (nearer && how.too_short == best->how.too_short))
        *best = (struct place){at, turned, how, first, second};
}

static struct place find_place(const struct layout *l, const int *places, int n, const struct piece *p, const struct filling *f)
{
    struct place best = {.at = -1};

    for (int i = 0; i < n; i++) {
        const struct slab *s = &l->slabs[places[i]];
        weigh_place(s, i, p->w, p->h, false, f, &best);
        if (p->turns)
            weigh_place(s, i, p->h, p->w, true, f, &best);
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
    const struct filling f = {rule, &t->care};
    int n_places = 0, open = t->n_open, *places = scratch->places;

    layout_start(out, t->bins, t->n_bins);
    for (int i = 0; i < open; i++)
        places[n_places++] = i;
    for (int k = 0; k < t->n; k++) {
        const struct piece *p = &t->pieces[t->order[k]];
        struct place best = find_place(out, places, n_places, p, &f);
        *nodes -= n_places + 1;
        while (best.at < 0 && open < t->n_bins) {
            places[n_places++] = open++;
            best = find_place(out, places + n_places - 1, 1, p, &f);
            if (best.at >= 0)
                best.at = n_places - 1;
        }
        if (best.at < 0)
            return -1;
        int before = out->n;
        slab_place(out, places[best.at], p, t->order[k], best.turned, best.how.first, best.how.carrier);
        n_places = replace_place(out, places, n_places, best.at, before);
    }
    return open;
}
