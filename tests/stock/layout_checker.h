/* A layout of slabs against the checker: every piece once, as it may lie, and each bin's pieces as they must be. And pieces
   that are known to come from so many bins, because they were sawn from them. */
#ifndef FETTLE_TESTS_LAYOUT_CHECKER_H
#define FETTLE_TESTS_LAYOUT_CHECKER_H

#include "stock/slab.h"

#include "close.h"
#include "checker.h"

enum { CHECKED_PIECES_MOST = 64 };

/* Pieces found below a slab: taken out of the tree by its leaves alone. */
static inline int gather_rects(const struct layout *l, int slab, struct rect *out, int *piece, bool *turned, int n)
{
    const struct slab *s = &l->slabs[slab];
    if (s->kind == SLAB_PIECE) {
        out[n] = (struct rect){s->x, s->y, s->w, s->h};
        piece[n] = s->piece;
        turned[n] = s->turned;
        return n + 1;
    }
    if (s->kind == SLAB_REST)
        return n;
    n = gather_rects(l, s->child[0], out, piece, turned, n);
    return gather_rects(l, s->child[1], out, piece, turned, n);
}

/* With sizes as they are in the shop: each piece a kerf smaller than it was packed. `used`: of each bin. */
static inline void check_layout(const struct layout *l, const struct piece *pieces, int n_pieces, const struct bin *bins, int64_t kerf, bool *used)
{
    int seen[CHECKED_PIECES_MOST] = {0};
    for (int b = 0; b < l->n_bins; b++) {
        struct rect rects[CHECKED_PIECES_MOST];
        int piece[CHECKED_PIECES_MOST], n;
        bool turned[CHECKED_PIECES_MOST];
        n = gather_rects(l, b, rects, piece, turned, 0);
        used[b] = n > 0;
        for (int i = 0; i < n; i++) {
            const struct piece *p = &pieces[piece[i]];
            seen[piece[i]]++;
            assert_true(p->turns || !turned[i]);
            assert_int_equal(rects[i].w, turned[i] ? p->h : p->w);
            assert_int_equal(rects[i].h, turned[i] ? p->w : p->h);
            rects[i].w -= kerf;
            rects[i].h -= kerf;
        }
        assert_true(rects_lie_inside(rects, n, bins[b].w - kerf, bins[b].h - kerf));
        assert_true(rects_lie_apart(rects, n, kerf));
        assert_true(rects_are_guillotine(rects, n, kerf));
    }
    for (int i = 0; i < n_pieces; i++)
        assert_int_equal(seen[i], 1);
}

/* Cuts the first m pieces into n by cuts right across at random places; one cut in four loses up to `waste`. */
static inline void saw_at_random(uint64_t *random, struct piece *p, int m, int n, int64_t waste)
{
    for (; m < n; m++) {
        int i = 0;
        for (int k = 1; k < m; k++)
            i = p[k].w * p[k].h > p[i].w * p[i].h ? k : i;
        bool x = p[i].w >= p[i].h;
        int64_t size = x ? p[i].w : p[i].h, cut = draw_number(random, size / 4, size * 3 / 4);
        int64_t lost = waste > 0 && draw_number(random, 0, 3) == 0 ? draw_number(random, 0, waste) : 0;
        p[m] = p[i];
        *(x ? &p[i].w : &p[i].h) = cut;
        *(x ? &p[m].w : &p[m].h) = size - cut > lost ? size - cut - lost : size - cut;
    }
}

#endif
