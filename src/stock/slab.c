/* The tree of cuts. A piece takes at most three cuts, or two and one that parts it from its neighbours, a bin one more that
   keeps a large offcut whole; each cut makes two slabs. */
#include "stock/slab.h"

#include <assert.h>
#include <string.h>

enum { SLABS_A_PIECE = 6, SLABS_A_BIN = 3 };

bool piece_is_like(const struct piece *a, const struct piece *b)
{
    return a->w == b->w && a->h == b->h && a->turns == b->turns;
}

int layout_room(int n_pieces, int most_bins)
{
    return n_pieces * SLABS_A_PIECE + most_bins * SLABS_A_BIN;
}

struct layout layout_new(struct pool *pool, int n_pieces, int most_bins)
{
    return (struct layout){.slabs = pool_alloc(pool, (size_t)layout_room(n_pieces, most_bins) * sizeof(struct slab))};
}

void layout_start(struct layout *l, const struct bin *bins, int n_bins)
{
    l->n = l->n_bins = n_bins;
    for (int i = 0; i < n_bins; i++)
        l->slabs[i] = (struct slab){.w = bins[i].w, .h = bins[i].h, .piece = -1};
}

void layout_copy(struct layout *to, const struct layout *from)
{
    to->n = from->n;
    to->n_bins = from->n_bins;
    memcpy(to->slabs, from->slabs, (size_t)from->n * sizeof *to->slabs);
}

int slab_cut(struct layout *l, int i, enum slab_kind cut, int64_t size)
{
    struct slab *s = &l->slabs[i], *a = &l->slabs[l->n], *b = a + 1;

    assert(s->kind == SLAB_REST && "only a rest is cut");
    if (size == (cut == SLAB_CUT_X ? s->w : s->h))
        return i;
    *a = *b = *s;
    s->kind = cut;
    s->child[0] = l->n++;
    s->child[1] = l->n++;
    if (cut == SLAB_CUT_X) {
        a->w = size;
        b->x += size;
        b->w -= size;
    } else {
        a->h = size;
        b->y += size;
        b->h -= size;
    }
    assert((cut == SLAB_CUT_X ? b->w : b->h) > 0 && "a cut lies inside its slab");
    return s->child[0];
}

void slab_place(struct layout *l, int i, const struct piece *p, int piece, bool turned, enum slab_kind first, int64_t carrier)
{
    int64_t w = turned ? p->h : p->w, h = turned ? p->w : p->h;
    bool x_first = first == SLAB_CUT_X;
    int64_t own = x_first ? w : h, whole = x_first ? l->slabs[i].w : l->slabs[i].h, size = carrier > own ? carrier : own;

    i = slab_cut(l, i, first, size < whole ? size : whole);
    i = slab_cut(l, i, x_first ? SLAB_CUT_Y : SLAB_CUT_X, x_first ? h : w);
    i = slab_cut(l, i, first, own);
    l->slabs[i].kind = SLAB_PIECE;
    l->slabs[i].piece = piece;
    l->slabs[i].turned = turned;
}

void layout_widen(struct layout *l, int bin, enum slab_kind cut, struct bin larger)
{
    struct slab old = l->slabs[bin];

    l->slabs[bin] = (struct slab){.w = larger.w, .h = larger.h, .piece = -1};
    int first = slab_cut(l, bin, cut, cut == SLAB_CUT_X ? old.w : old.h);
    assert(first != bin && "the larger bin is larger");
    l->slabs[first] = old;
}

static int64_t largest_rest_in(const struct layout *l, int i)
{
    const struct slab *s = &l->slabs[i];

    if (s->kind == SLAB_PIECE)
        return 0;
    if (s->kind == SLAB_REST)
        return s->w * s->h;
    int64_t a = largest_rest_in(l, s->child[0]), b = largest_rest_in(l, s->child[1]);
    return a > b ? a : b;
}

int64_t layout_largest_rest(const struct layout *l, int first_bin)
{
    int64_t most = 0;

    for (int i = first_bin; i < l->n_bins; i++) {
        int64_t rest = l->slabs[i].kind == SLAB_REST ? 0 : largest_rest_in(l, i);
        if (rest > most)
            most = rest;
    }
    return most;
}
