/* Trying everything, for few pieces.

   What one sheet holds. The smallest rectangles into which a set of pieces can be laid by guillotine cuts come from those
   of its parts: a set is two sets side by side, or one beyond the other. Of those rectangles only the ones are kept that
   no other beats in both directions; each set's list is made once. (The exact way to build guillotine patterns bottom up:
   Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Operations Research 31, 1983, here by
   sets of pieces.) Sets of more than SET_MOST pieces are only tried by the quick rules.

   Which pieces share a sheet. The piece with the fewest sheets that could still take it goes first, into each of these in
   turn. A way is given up where a piece has no sheet left, or where the sheets that can still take something have less
   area than the pieces left. Of empty sheets alike only the first is tried, and of equal pieces the later never goes into
   an earlier sheet. */
#include "stock/exact.h"

#include "stock/fill.h"

#include <stdlib.h>

enum { SET_MOST = 16, FRONT_MOST = 48, BINS_MOST = 64 };
enum { SUBSETS_A_NODE = 16 }; /* looking at a way to part a set costs less than joining two lists */

enum lie { LIE_STRAIGHT, LIE_TURNED, LIE_BESIDE, LIE_BEYOND };
struct rectangle {
    int64_t w, h;
    enum lie lie;
    int a, b;      /* rectangles of the two parts; of single pieces a is the piece */
};
struct front { /* the smallest rectangles of a set: rectangles[first … first + n) */
    uint64_t set;  /* 0: free entry */
    int first, n;
};

struct exact {
    const struct exact_task *task;
    int order[EXACT_PIECES_MOST];    /* pieces, largest first, equal ones together; sets speak of places in it */
    int alike_from[EXACT_PIECES_MOST]; /* first place of a piece equal to this one */
    int64_t most_w, most_h;          /* of any bin */
    struct rectangle *rectangles;
    size_t n_rectangles, rectangle_capacity;
    struct front *fronts;            /* hashed by set */
    size_t n_fronts, front_capacity; /* capacity a power of two */
    uint64_t held[BINS_MOST];        /* the pieces in each bin */
    int last_bin[EXACT_PIECES_MOST]; /* where the last of the equal pieces went; by alike_from */
    uint64_t left;
    long nodes;
    bool cut_short;
    struct layout scratch;           /* for the quick rules */
    struct fill_scratch fill_scratch;
};

static int count_set(uint64_t set)
{
    int n = 0;

    for (; set; set &= set - 1)
        n++;
    return n;
}

static const struct piece *piece_at(const struct exact *e, int place)
{
    return &e->task->pieces[e->order[place]];
}

static bool are_alike(const struct piece *a, const struct piece *b)
{
    return a->w == b->w && a->h == b->h && a->turns == b->turns;
}

/* The same set, with the first of equal pieces in place of later ones. */
static uint64_t plain_set(const struct exact *e, uint64_t set)
{
    uint64_t plain = 0;
    int from = -1, next = 0;

    for (int i = 0; set >> i; i++) {
        if (!(set >> i & 1))
            continue;
        if (e->alike_from[i] != from)
            from = next = e->alike_from[i];
        plain |= (uint64_t)1 << next++;
        if (i == EXACT_PIECES_MOST - 1)
            break;
    }
    return plain;
}

static int64_t set_area(const struct exact *e, uint64_t set)
{
    int64_t area = 0;

    for (int i = 0; i < e->task->n && set >> i; i++)
        if (set >> i & 1)
            area += piece_at(e, i)->w * piece_at(e, i)->h;
    return area;
}

/* ---- fronts ---- */

static size_t find_entry(const struct exact *e, uint64_t set)
{
    uint64_t hash = set * 0x9E3779B97F4A7C15u;
    size_t i = (size_t)(hash >> 20) & (e->front_capacity - 1);

    while (e->fronts[i].set != 0 && e->fronts[i].set != set)
        i = (i + 1) & (e->front_capacity - 1);
    return i;
}

static void store_front(struct exact *e, struct front f)
{
    if (2 * (e->n_fronts + 1) > e->front_capacity) {
        struct front *old = e->fronts;
        size_t n = e->front_capacity;
        e->front_capacity = n ? 2 * n : 1024;
        e->fronts = mem_alloc(e->front_capacity * sizeof *e->fronts);
        for (size_t i = 0; i < n; i++)
            if (old[i].set)
                e->fronts[find_entry(e, old[i].set)] = old[i];
        free(old);
    }
    e->fronts[find_entry(e, f.set)] = f;
    e->n_fronts++;
}

/* Keeps r unless another is as small both ways; drops those that r beats. Gives the new number. */
static int keep_smallest(struct exact *e, struct rectangle *list, int n, struct rectangle r)
{
    int kept = 0;

    if (r.w > e->most_w || r.h > e->most_h)
        return n;
    for (int i = 0; i < n; i++)
        if (list[i].w <= r.w && list[i].h <= r.h)
            return n;
    for (int i = 0; i < n; i++)
        if (list[i].w < r.w || list[i].h < r.h)
            list[kept++] = list[i];
    if (kept == FRONT_MOST) {
        e->cut_short = true;
        return kept;
    }
    list[kept] = r;
    return kept + 1;
}

static int64_t larger_of(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static int join_fronts(struct exact *e, struct front a, struct front b, struct rectangle *list, int n)
{
    for (int i = a.first; i < a.first + a.n; i++)
        for (int j = b.first; j < b.first + b.n; j++) {
            const struct rectangle *p = &e->rectangles[i], *q = &e->rectangles[j];
            n = keep_smallest(e, list, n, (struct rectangle){p->w + q->w, larger_of(p->h, q->h), LIE_BESIDE, i, j});
            n = keep_smallest(e, list, n, (struct rectangle){larger_of(p->w, q->w), p->h + q->h, LIE_BEYOND, i, j});
        }
    e->nodes -= a.n * b.n;
    return n;
}

static int single_front(struct exact *e, uint64_t set, struct rectangle *list)
{
    int place = 0, n = 0;

    while (!(set >> place & 1))
        place++;
    const struct piece *p = piece_at(e, place);
    n = keep_smallest(e, list, n, (struct rectangle){p->w, p->h, LIE_STRAIGHT, place, 0});
    if (p->turns)
        n = keep_smallest(e, list, n, (struct rectangle){p->h, p->w, LIE_TURNED, place, 0});
    return n;
}

/* `set` is plain and not empty. Out of nodes the answer is empty, and no proof. */
static struct front front_of(struct exact *e, uint64_t set)
{
    struct rectangle list[FRONT_MOST];
    uint64_t lowest = set & (~set + 1);
    int n = 0;

    if (e->front_capacity > 0) {
        struct front known = e->fronts[find_entry(e, set)];
        if (known.set)
            return known;
    }
    if (e->nodes <= 0) {
        e->cut_short = true;
        return (struct front){set, 0, 0};
    }
    if (set == lowest) {
        n = single_front(e, set, list);
    } else if (set_area(e, set) <= e->most_w * e->most_h) {
        e->nodes -= ((long)1 << count_set(set)) / SUBSETS_A_NODE;
        for (uint64_t a = (set - 1) & set; a; a = (a - 1) & set) {
            if (!(a & lowest) || plain_set(e, a) != a)
                continue;
            struct front fa = front_of(e, a);
            if (fa.n > 0)
                n = join_fronts(e, fa, front_of(e, plain_set(e, set & ~a)), list, n);
        }
    }
    struct front f = {set, (int)e->n_rectangles, n};
    for (int i = 0; i < n; i++) {
        e->rectangles = mem_grow(e->rectangles, e->n_rectangles, &e->rectangle_capacity, sizeof *e->rectangles);
        e->rectangles[e->n_rectangles++] = list[i];
    }
    store_front(e, f);
    return f;
}

/* ---- what one bin holds ---- */

static const struct rectangle *find_rectangle(struct exact *e, uint64_t set, struct bin b)
{
    struct front f = front_of(e, plain_set(e, set));

    for (int i = f.first; i < f.first + f.n; i++)
        if (e->rectangles[i].w <= b.w && e->rectangles[i].h <= b.h)
            return &e->rectangles[i];
    return NULL;
}

/* By the quick rules; the layout is in e->scratch. */
static bool fill_one_bin(struct exact *e, uint64_t set, struct bin b)
{
    static const struct fill_rule rules[] = {{CHOOSE_AREA, SPLIT_LARGE_REST}, {CHOOSE_SHORT_SIDE, SPLIT_SHORT_REST},
                                             {CHOOSE_AREA, SPLIT_X}, {CHOOSE_AREA, SPLIT_Y}};
    int order[EXACT_PIECES_MOST];
    struct fill_task t = {.pieces = e->task->pieces, .order = order, .bins = &b, .n_bins = 1, .n_open = 1};

    for (int i = 0; i < e->task->n; i++)
        if (set >> i & 1)
            order[t.n++] = e->order[i];
    for (int o = ORDER_AREA; o <= ORDER_LONG_SIDE; o++) {
        fill_sort(e->task->pieces, order, t.n, (enum fill_order)o);
        for (size_t r = 0; r < sizeof rules / sizeof *rules; r++)
            if (fill_bins(&t, rules[r], &e->fill_scratch, &e->scratch, &e->nodes) >= 0)
                return true;
    }
    return false;
}

static bool bin_takes(struct exact *e, uint64_t set, struct bin b)
{
    e->nodes--;
    if (set_area(e, set) > b.w * b.h)
        return false;
    if (count_set(set) <= SET_MOST)
        return find_rectangle(e, set, b) != NULL;
    if (fill_one_bin(e, set, b))
        return true;
    e->cut_short = true;
    return false;
}

/* ---- which pieces share a bin ---- */

static bool is_repeated_empty(const struct exact *e, int bin)
{
    const struct bin *bins = e->task->bins;

    if (e->held[bin])
        return false;
    for (int i = 0; i < bin; i++)
        if (!e->held[i] && bins[i].w == bins[bin].w && bins[i].h == bins[bin].h)
            return true;
    return false;
}

/* The bins that can take a piece, as a set. */
static uint64_t bins_for(struct exact *e, int place)
{
    uint64_t bins = 0;

    for (int b = e->last_bin[e->alike_from[place]]; b < e->task->n_bins; b++)
        if (!is_repeated_empty(e, b) && bin_takes(e, e->held[b] | (uint64_t)1 << place, e->task->bins[b]))
            bins |= (uint64_t)1 << b;
    return bins;
}

/* Free area of the bins that can still take something; of empty bins alike, all if one can. */
static int64_t usable_area(const struct exact *e, uint64_t usable)
{
    const struct bin *bins = e->task->bins;
    int64_t area = 0;

    for (int b = 0; b < e->task->n_bins; b++) {
        bool counts = usable >> b & 1;
        for (int i = 0; i < b && !counts && !e->held[b]; i++)
            counts = (usable >> i & 1) && !e->held[i] && bins[i].w == bins[b].w && bins[i].h == bins[b].h;
        if (counts)
            area += bins[b].w * bins[b].h - set_area(e, e->held[b]);
    }
    return area;
}

/* The piece left with the fewest bins, and these; -1: this way is given up. */
static int hardest_piece(struct exact *e, uint64_t *bins)
{
    uint64_t usable = 0;
    int hardest = -1, fewest = BINS_MOST + 1;

    for (int i = 0; i < e->task->n; i++) {
        bool earlier = i > e->alike_from[i] && (e->left >> (i - 1) & 1); /* an equal one goes before */
        if (!(e->left >> i & 1) || earlier)
            continue;
        uint64_t can = bins_for(e, i);
        if (!can)
            return -1;
        usable |= can;
        if (count_set(can) < fewest) {
            fewest = count_set(can);
            hardest = i;
            *bins = can;
        }
    }
    return usable_area(e, usable) < set_area(e, e->left) ? -1 : hardest;
}

static bool pack_left(struct exact *e)
{
    uint64_t bins = 0;

    if (!e->left)
        return true;
    if (e->nodes <= 0) {
        e->cut_short = true;
        return false;
    }
    int place = hardest_piece(e, &bins), from = place < 0 ? 0 : e->alike_from[place], before = e->last_bin[from];
    if (place < 0)
        return false;
    uint64_t bit = (uint64_t)1 << place;
    for (int b = 0; b < e->task->n_bins; b++) {
        if (!(bins >> b & 1))
            continue;
        e->held[b] |= bit;
        e->left &= ~bit;
        e->last_bin[from] = b;
        if (pack_left(e))
            return true;
        e->held[b] &= ~bit;
        e->left |= bit;
        e->last_bin[from] = before;
    }
    return false;
}

/* ---- the layout of what was found ---- */

/* Takes a piece out of the set: the first that is equal to the one in that place. */
static int take_alike(const struct exact *e, int place, uint64_t *set)
{
    int i = e->alike_from[place];

    while (!(*set >> i & 1))
        i++;
    *set &= ~((uint64_t)1 << i);
    return e->order[i];
}

static void lay_rectangle(const struct exact *e, int rectangle, uint64_t *set, struct layout *out, int slab)
{
    const struct rectangle *r = &e->rectangles[rectangle];

    if (r->lie == LIE_STRAIGHT || r->lie == LIE_TURNED) {
        int piece = take_alike(e, r->a, set);
        slab_place(out, slab, &e->task->pieces[piece], piece, r->lie == LIE_TURNED, SLAB_CUT_X, 0);
        return;
    }
    bool beside = r->lie == LIE_BESIDE;
    const struct rectangle *a = &e->rectangles[r->a];
    int first = slab_cut(out, slab, beside ? SLAB_CUT_X : SLAB_CUT_Y, beside ? a->w : a->h);
    lay_rectangle(e, r->a, set, out, first);
    lay_rectangle(e, r->b, set, out, first + 1);
}

/* Copies the first bin of a layout made for it alone. */
static void graft_slab(const struct layout *from, int i, struct layout *out, int at)
{
    const struct slab *s = &from->slabs[i];
    struct slab *to = &out->slabs[at];

    if (s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y) {
        const struct slab *first = &from->slabs[s->child[0]];
        int a = slab_cut(out, at, s->kind, s->kind == SLAB_CUT_X ? first->w : first->h);
        graft_slab(from, s->child[0], out, a);
        graft_slab(from, s->child[1], out, a + 1);
    } else {
        to->kind = s->kind;
        to->piece = s->piece;
        to->turned = s->turned;
    }
}

static void lay_bins(struct exact *e, struct layout *out)
{
    layout_start(out, e->task->bins, e->task->n_bins);
    for (int b = 0; b < e->task->n_bins; b++) {
        uint64_t set = e->held[b];
        if (set == 0)
            continue;
        if (count_set(set) <= SET_MOST) {
            const struct rectangle *r = find_rectangle(e, set, e->task->bins[b]);
            lay_rectangle(e, (int)(r - e->rectangles), &set, out, b);
        } else {
            fill_one_bin(e, set, e->task->bins[b]);
            graft_slab(&e->scratch, 0, out, b);
        }
    }
}

static void sort_pieces(struct exact *e)
{
    int n = e->task->n;

    for (int i = 0; i < n; i++)
        e->order[i] = i;
    fill_sort(e->task->pieces, e->order, n, ORDER_AREA);
    for (int i = 0; i < n; i++)
        e->alike_from[i] = i > 0 && are_alike(piece_at(e, i), piece_at(e, i - 1)) ? e->alike_from[i - 1] : i;
}

enum exact_answer exact_pack(const struct exact_task *t, struct layout *out)
{
    struct pool pool = {0};
    struct exact *e;

    if (t->n > EXACT_PIECES_MOST || t->n_bins > BINS_MOST)
        return EXACT_UNDECIDED;
    e = pool_alloc(&pool, sizeof *e);
    e->task = t;
    e->nodes = t->nodes;
    e->left = t->n == EXACT_PIECES_MOST ? ~(uint64_t)0 : ((uint64_t)1 << t->n) - 1;
    e->scratch = layout_new(&pool, t->n, 1);
    e->fill_scratch.places = pool_alloc(&pool, (size_t)(4 * t->n + 8) * sizeof *e->fill_scratch.places);
    for (int b = 0; b < t->n_bins; b++) {
        e->most_w = larger_of(e->most_w, t->bins[b].w);
        e->most_h = larger_of(e->most_h, t->bins[b].h);
    }
    sort_pieces(e);
    bool found = pack_left(e);
    if (found)
        lay_bins(e, out);
    enum exact_answer answer = found ? EXACT_YES : e->cut_short ? EXACT_UNDECIDED : EXACT_NO;
    free(e->rectangles);
    free(e->fronts);
    pool_free(&pool);
    return answer;
}
