/* The smallest rectangles into which a set of pieces can be laid by guillotine cuts come from those of its parts: a set is
   two sets side by side, or one beyond the other. Of those rectangles only the ones are kept that no other beats in both
   directions; each set's list is made once. (The exact way to build guillotine patterns bottom up: Wang, "Two algorithms
   for constrained two-dimensional cutting stock problems", Operations Research 31, 1983, here by sets of pieces.) Of equal
   pieces only their number counts, so a set has few parts where many of its pieces are equal. */
#include "stock/front.h"

#include "stock/fill.h"

#include <stdlib.h>

enum { PARTS_MOST = 1 << 16 }; /* a set that can be parted in more ways is left undecided */
enum { RECTANGLES_MOST = 64 }; /* of one set */
enum { PARTS_A_NODE = 16 };    /* looking at a way to part a set costs less than joining two lists */

enum lie { LIE_STRAIGHT, LIE_TURNED, LIE_BESIDE, LIE_BEYOND };
struct rectangle {
    int64_t w, h;
    enum lie lie;
    int a, b;      /* rectangles of the two parts; of single pieces a is the place */
};
struct front { /* of a set: rectangles[first … first + n) */
    uint64_t set;  /* 0: free entry */
    int first, n;
    bool sure;     /* there are no others */
};
/* A list in the making. */
struct front_list {
    struct rectangle r[RECTANGLES_MOST];
    int n;
    bool sure;
};
/* The equal pieces of a set. */
struct kinds {
    int from[FRONT_PIECES_MOST], count[FRONT_PIECES_MOST], n;
    long parts; /* ways to part the set */
};

const struct piece *fronts_piece(const struct fronts *f, int place)
{
    return &f->pieces[f->order[place]];
}

static uint64_t bit(int place)
{
    return (uint64_t)1 << place;
}

static uint64_t first_bits(int n)
{
    return n >= 64 ? ~(uint64_t)0 : bit(n) - 1;
}

static struct kinds kinds_of(const struct fronts *f, uint64_t set)
{
    struct kinds k = {.parts = 1};

    for (int i = 0; i < f->n && set >> i; i++) {
        if (!(set >> i & 1))
            continue;
        if (k.n == 0 || k.from[k.n - 1] != f->alike_from[i]) {
            k.from[k.n] = f->alike_from[i];
            k.count[k.n++] = 0;
        }
        k.count[k.n - 1]++;
    }
    for (int i = 0; i < k.n && k.parts <= PARTS_MOST; i++)
        k.parts *= k.count[i] + 1;
    return k;
}

uint64_t fronts_plain(const struct fronts *f, uint64_t set)
{
    struct kinds k = kinds_of(f, set);
    uint64_t plain = 0;

    for (int i = 0; i < k.n; i++)
        plain |= first_bits(k.count[i]) << k.from[i];
    return plain;
}

static int64_t set_area(const struct fronts *f, uint64_t set)
{
    int64_t area = 0;

    for (int i = 0; i < f->n && set >> i; i++)
        if (set >> i & 1)
            area += fronts_piece(f, i)->w * fronts_piece(f, i)->h;
    return area;
}

/* ---- the table ---- */

static size_t find_entry(const struct fronts *f, uint64_t set)
{
    uint64_t hash = set * 0x9E3779B97F4A7C15u;
    size_t i = (size_t)(hash >> 20) & (f->capacity - 1);

    while (f->table[i].set != 0 && f->table[i].set != set)
        i = (i + 1) & (f->capacity - 1);
    return i;
}

static void store_front(struct fronts *f, struct front front)
{
    if (2 * (f->n_fronts + 1) > f->capacity) {
        struct front *old = f->table;
        size_t n = f->capacity;
        f->capacity = n ? 2 * n : 1024;
        f->table = mem_alloc(f->capacity * sizeof *f->table);
        for (size_t i = 0; i < n; i++)
            if (old[i].set)
                f->table[find_entry(f, old[i].set)] = old[i];
        free(old);
    }
    f->table[find_entry(f, front.set)] = front;
    f->n_fronts++;
}

/* ---- lists of smallest rectangles ---- */

/* Keeps r unless another is as small both ways; drops those that r beats. */
static void keep_smallest(const struct fronts *f, struct front_list *l, struct rectangle r)
{
    int kept = 0;

    if (r.w > f->most_w || r.h > f->most_h)
        return;
    for (int i = 0; i < l->n; i++)
        if (l->r[i].w <= r.w && l->r[i].h <= r.h)
            return;
    for (int i = 0; i < l->n; i++)
        if (l->r[i].w < r.w || l->r[i].h < r.h)
            l->r[kept++] = l->r[i];
    if (kept == RECTANGLES_MOST)
        l->sure = false;
    else
        l->r[kept++] = r;
    l->n = kept;
}

static int64_t larger_of(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static void join_fronts(struct fronts *f, struct front a, struct front b, struct front_list *l)
{
    for (int i = a.first; i < a.first + a.n; i++)
        for (int j = b.first; j < b.first + b.n; j++) {
            const struct rectangle *p = &f->rectangles[i], *q = &f->rectangles[j];
            keep_smallest(f, l, (struct rectangle){p->w + q->w, larger_of(p->h, q->h), LIE_BESIDE, i, j});
            keep_smallest(f, l, (struct rectangle){larger_of(p->w, q->w), p->h + q->h, LIE_BEYOND, i, j});
        }
    l->sure = l->sure && a.sure && b.sure;
    *f->nodes -= a.n * b.n;
}

static void list_single(const struct fronts *f, int place, struct front_list *l)
{
    const struct piece *p = fronts_piece(f, place);

    keep_smallest(f, l, (struct rectangle){p->w, p->h, LIE_STRAIGHT, place, 0});
    if (p->turns)
        keep_smallest(f, l, (struct rectangle){p->h, p->w, LIE_TURNED, place, 0});
}

static struct front front_of(struct fronts *, uint64_t set);

/* All ways to part a set, one part holding its first piece. */
static void list_parts(struct fronts *f, const struct kinds *k, struct front_list *l)
{
    int count[FRONT_PIECES_MOST] = {1}; /* in the part that holds the first piece */

    *f->nodes -= k->parts / PARTS_A_NODE;
    for (;;) {
        uint64_t a = 0, b = 0;
        int i = 0;
        for (int j = 0; j < k->n; j++) {
            a |= first_bits(count[j]) << k->from[j];
            b |= first_bits(k->count[j] - count[j]) << k->from[j];
        }
        struct front fa = b ? front_of(f, a) : (struct front){.sure = true};
        if (fa.n > 0)
            join_fronts(f, fa, front_of(f, b), l);
        l->sure = l->sure && fa.sure;
        while (i < k->n && count[i] == k->count[i]) {
            count[i] = i == 0;
            i++;
        }
        if (i == k->n)
            return;
        count[i]++;
    }
}

/* `set` is plain and not empty. */
static struct front front_of(struct fronts *f, uint64_t set)
{
    struct front_list l = {.sure = true};

    if (f->capacity > 0) {
        struct front known = f->table[find_entry(f, set)];
        if (known.set)
            return known;
    }
    struct kinds k = kinds_of(f, set);
    if (*f->nodes <= 0 || k.parts > PARTS_MOST)
        return (struct front){.set = set};
    if (set == bit(k.from[0]))
        list_single(f, k.from[0], &l);
    else if (set_area(f, set) <= f->most_w * f->most_h)
        list_parts(f, &k, &l);
    struct front front = {set, (int)f->n_rectangles, l.n, l.sure};
    for (int i = 0; i < l.n; i++) {
        f->rectangles = mem_grow(f->rectangles, f->n_rectangles, &f->rectangle_capacity, sizeof *f->rectangles);
        f->rectangles[f->n_rectangles++] = l.r[i];
    }
    store_front(f, front);
    return front;
}

/* ---- of a bin ---- */

static int find_rectangle(const struct fronts *f, struct front front, int64_t w, int64_t h)
{
    for (int i = front.first; i < front.first + front.n; i++)
        if (f->rectangles[i].w <= w && f->rectangles[i].h <= h)
            return i;
    return -1;
}

enum front_answer fronts_fit(struct fronts *f, uint64_t set, struct bin b)
{
    struct front front = front_of(f, fronts_plain(f, set));

    return find_rectangle(f, front, b.w, b.h) >= 0 ? FRONT_YES : front.sure ? FRONT_NO : FRONT_UNDECIDED;
}

/* Takes a piece out of the set: the first that is equal to the one in that place. */
static int take_alike(const struct fronts *f, int place, uint64_t *set)
{
    int i = f->alike_from[place];

    while (!(*set >> i & 1))
        i++;
    *set &= ~bit(i);
    return f->order[i];
}

static void lay_rectangle(const struct fronts *f, int rectangle, uint64_t *set, struct layout *out, int slab)
{
    const struct rectangle *r = &f->rectangles[rectangle];

    if (r->lie == LIE_STRAIGHT || r->lie == LIE_TURNED) {
        int piece = take_alike(f, r->a, set);
        slab_place(out, slab, &f->pieces[piece], piece, r->lie == LIE_TURNED, SLAB_CUT_X, 0);
        return;
    }
    bool beside = r->lie == LIE_BESIDE;
    const struct rectangle *a = &f->rectangles[r->a];
    int first = slab_cut(out, slab, beside ? SLAB_CUT_X : SLAB_CUT_Y, beside ? a->w : a->h);
    lay_rectangle(f, r->a, set, out, first);
    lay_rectangle(f, r->b, set, out, first + 1);
}

void fronts_lay(struct fronts *f, uint64_t set, struct layout *out, int slab)
{
    const struct slab *s = &out->slabs[slab];
    int rectangle = find_rectangle(f, front_of(f, fronts_plain(f, set)), s->w, s->h);

    lay_rectangle(f, rectangle, &set, out, slab);
}

void fronts_start(struct fronts *f, const struct piece *pieces, int n, int64_t most_w, int64_t most_h, long *nodes)
{
    *f = (struct fronts){.pieces = pieces, .n = n, .most_w = most_w, .most_h = most_h, .nodes = nodes};
    for (int i = 0; i < n; i++)
        f->order[i] = i;
    fill_sort(pieces, f->order, n, ORDER_AREA);
    for (int i = 0; i < n; i++)
        f->alike_from[i] = i > 0 && piece_is_like(fronts_piece(f, i), fronts_piece(f, i - 1)) ? f->alike_from[i - 1] : i;
}

void fronts_free(struct fronts *f)
{
    free(f->rectangles);
    free(f->table);
}
