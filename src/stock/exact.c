/* Trying everything, for few pieces, in two ways, since each finds what the other does not.

   Piece by piece: the piece with the fewest bins that could still take it goes first, into each of these in turn.

   Bin by bin: one after another is filled. Into a bin goes a set of pieces to which no other left can be added, since a smaller set
   leaves more for the others; and where all bins left are alike, the largest piece left goes into the first (bin completion:
   Martello and Toth, "Knapsack Problems", 1990, for lengths). A set is given up as soon as the other bins could not hold
   what it would leave, by any of a few measures (see bound.h). What was found hopeless once, the same pieces left for the
   same bins, is not tried again. Whether a bin holds a set at all is asked of the measures, then of the quick rules, then of
   the smallest rectangles of the set (see front.h). */
#include "stock/exact.h"

#include "stock/bound.h"
#include "stock/fill.h"

#include <stdlib.h>

enum { BINS_MOST = 64, PIECEWISE_SHARE = 2 /* of the nodes, one in so many goes piece by piece */ };

/* A table of answers by a set and a bin. */
struct answer {
    uint64_t set;
    int bin;
    bool used, holds;
};
struct answers {
    struct answer *table;
    size_t n, capacity; /* a power of two */
};

struct exact {
    const struct exact_task *task;
    struct fronts fronts;
    struct measure measure[MEASURES_MOST];
    int n_measures;
    int class_of[BINS_MOST];         /* first bin like this one */
    int alike_from;                  /* from this bin on all are alike */
    int64_t after[BINS_MOST + 1][MEASURES_MOST]; /* what the bins from this one on hold */
    uint64_t held[BINS_MOST];        /* the pieces in each bin */
    int last_bin[EXACT_PIECES_MOST]; /* where the last of equal pieces went; by first place */
    uint64_t left;
    struct answers taken, hopeless;
    long nodes;
    bool cut_short;
    struct layout scratch;           /* for the quick rules */
    struct fill_scratch fill_scratch;
};
/* Sums of values, by measure. */
struct sums {
    int64_t of[MEASURES_MOST];
};
/* A bin that is being filled. */
struct filling {
    int bin;
    bool forced;      /* the first piece left goes into it */
    uint64_t set;
    uint64_t skipped; /* left out though they would have fitted */
    struct sums in, ahead; /* of the set; of what is left and not decided upon */
};

static uint64_t bit(int place)
{
    return (uint64_t)1 << place;
}

/* ---- answers ---- */

static size_t find_answer(const struct answers *a, uint64_t set, int bin)
{
    uint64_t hash = (set + (uint64_t)bin * 0xD1B54A32D192ED03u) * 0x9E3779B97F4A7C15u;
    size_t i = (size_t)(hash >> 20) & (a->capacity - 1);

    while (a->table[i].used && (a->table[i].set != set || a->table[i].bin != bin))
        i = (i + 1) & (a->capacity - 1);
    return i;
}

static void store_answer(struct answers *a, uint64_t set, int bin, bool holds)
{
    if (2 * (a->n + 1) > a->capacity) {
        struct answers old = *a;
        a->capacity = old.capacity ? 2 * old.capacity : 1024;
        a->table = mem_alloc(a->capacity * sizeof *a->table);
        for (size_t i = 0; i < old.capacity; i++)
            if (old.table[i].used)
                a->table[find_answer(a, old.table[i].set, old.table[i].bin)] = old.table[i];
        free(old.table);
    }
    a->table[find_answer(a, set, bin)] = (struct answer){set, bin, true, holds};
    a->n++;
}

static const struct answer *known_answer(const struct answers *a, uint64_t set, int bin)
{
    const struct answer *known = a->capacity ? &a->table[find_answer(a, set, bin)] : NULL;

    return known && known->used ? known : NULL;
}

/* ---- what one bin holds ---- */

/* By the quick rules; the layout is in e->scratch. */
static bool fill_one_bin(struct exact *e, uint64_t set, struct bin b)
{
    static const struct fill_rule rules[] = {{CHOOSE_AREA, SPLIT_LARGE_REST}, {CHOOSE_SHORT_SIDE, SPLIT_SHORT_REST},
                                             {CHOOSE_AREA, SPLIT_X}, {CHOOSE_AREA, SPLIT_Y}};
    int order[EXACT_PIECES_MOST];
    struct fill_task t = {.pieces = e->task->pieces, .order = order, .bins = &b, .n_bins = 1, .n_open = 1};

    for (int i = 0; i < e->task->n; i++)
        if (set >> i & 1)
            order[t.n++] = e->fronts.order[i];
    for (int o = ORDER_AREA; o <= ORDER_LONG_SIDE; o++) {
        fill_sort(e->task->pieces, order, t.n, (enum fill_order)o);
        for (size_t r = 0; r < sizeof rules / sizeof *rules; r++)
            if (fill_bins(&t, rules[r], &e->fill_scratch, &e->scratch, &e->nodes) >= 0)
                return true;
    }
    return false;
}

static bool bin_takes(struct exact *e, uint64_t set, int bin)
{
    uint64_t plain = fronts_plain(&e->fronts, set);
    const struct answer *known = known_answer(&e->taken, plain, e->class_of[bin]);
    struct bin b = e->task->bins[bin];

    e->nodes--;
    if (known)
        return known->holds;
    bool holds = fill_one_bin(e, plain, b);
    if (!holds) {
        enum front_answer answer = fronts_fit(&e->fronts, plain, b);
        holds = answer == FRONT_YES;
        e->cut_short |= answer == FRONT_UNDECIDED;
    }
    store_answer(&e->taken, plain, e->class_of[bin], holds);
    return holds;
}

/* ---- which pieces share a bin ---- */

static int64_t value_at(const struct exact *e, int m, int place)
{
    return e->measure[m].value[e->fronts.order[place]];
}

static struct sums sums_of(const struct exact *e, uint64_t set)
{
    struct sums s = {{0}};

    for (int i = 0; i < e->task->n && set >> i; i++)
        for (int m = 0; m < e->n_measures && set >> i & 1; m++)
            s.of[m] += value_at(e, m, i);
    return s;
}

/* Whether one measure says that a piece more is too much for the bin. */
static bool is_too_much(const struct exact *e, const struct filling *f, int place)
{
    for (int m = 0; m < e->n_measures; m++)
        if (f->in.of[m] + value_at(e, m, place) > e->measure[m].holds[f->bin])
            return true;
    return false;
}

/* Whether the bins after this one could not hold what is left out of it for certain. */
static bool leaves_too_much(const struct exact *e, const struct filling *f, const struct sums *left)
{
    for (int m = 0; m < e->n_measures; m++)
        if (left->of[m] - f->in.of[m] - f->ahead.of[m] > e->after[f->bin + 1][m])
            return true;
    return false;
}

/* ---- piece by piece ---- */

static int count_set(uint64_t set)
{
    int n = 0;

    for (; set; set &= set - 1)
        n++;
    return n;
}

static bool is_over(const struct exact *e, uint64_t set, int bin)
{
    struct sums s = sums_of(e, set);

    for (int m = 0; m < e->n_measures; m++)
        if (s.of[m] > e->measure[m].holds[bin])
            return true;
    return false;
}

/* The bins that can take a piece, as a set; of empty bins alike only the first. */
static uint64_t bins_for(struct exact *e, int place)
{
    uint64_t bins = 0, empty = 0;

    for (int b = 0; b < e->task->n_bins; b++) {
        bool repeated = !e->held[b] && (empty >> e->class_of[b] & 1);
        if (!e->held[b])
            empty |= bit(e->class_of[b]);
        uint64_t with = e->held[b] | bit(place);
        if (b >= e->last_bin[e->fronts.alike_from[place]] && !repeated && !is_over(e, with, b) && bin_takes(e, with, b))
            bins |= bit(b);
    }
    return bins;
}

/* The piece left with the fewest bins, and these; -1: this way is given up. */
static int hardest_piece(struct exact *e, uint64_t *bins)
{
    int hardest = -1, fewest = BINS_MOST + 1;

    for (int i = 0; i < e->task->n; i++) {
        bool earlier = i > e->fronts.alike_from[i] && (e->left >> (i - 1) & 1); /* an equal one goes before */
        if (!(e->left >> i & 1) || earlier)
            continue;
        uint64_t can = bins_for(e, i);
        if (!can)
            return -1;
        if (count_set(can) < fewest) {
            fewest = count_set(can);
            hardest = i;
            *bins = can;
        }
    }
    return hardest;
}

static bool place_left(struct exact *e)
{
    uint64_t bins = 0;

    if (!e->left)
        return true;
    if (e->nodes <= 0) {
        e->cut_short = true;
        return false;
    }
    int place = hardest_piece(e, &bins);
    if (place < 0)
        return false;
    int *last = &e->last_bin[e->fronts.alike_from[place]], before = *last;
    for (int b = 0; b < e->task->n_bins; b++) {
        if (!(bins >> b & 1))
            continue;
        e->held[b] |= bit(place);
        e->left &= ~bit(place);
        *last = b;
        if (place_left(e))
            return true;
        e->held[b] &= ~bit(place);
        e->left |= bit(place);
        *last = before;
    }
    return false;
}

/* ---- bin by bin ---- */

static bool some_piece_could_be_added(struct exact *e, const struct filling *f)
{
    for (int i = 0; i < e->task->n; i++)
        if ((f->skipped >> i & 1) && !is_too_much(e, f, i) && bin_takes(e, f->set | bit(i), f->bin))
            return true;
    return false;
}

static bool fill_from(struct exact *e, int bin);

static bool settle_bin(struct exact *e, const struct filling *f)
{
    if (some_piece_could_be_added(e, f))
        return false;
    e->held[f->bin] = f->set;
    e->left &= ~f->set;
    bool found = fill_from(e, f->bin + 1);
    if (!found)
        e->left |= f->set;
    return found;
}

/* Decides upon the pieces from `place` on: first with each, then without it and those equal to it. */
static bool grow_set(struct exact *e, struct filling f, int place, const struct sums *left)
{
    if (e->nodes-- <= 0) {
        e->cut_short = true;
        return false;
    }
    if (leaves_too_much(e, &f, left))
        return false;
    while (place < e->task->n && !(e->left >> place & 1))
        place++;
    if (place == e->task->n)
        return settle_bin(e, &f);
    struct filling with = f;
    for (int m = 0; m < e->n_measures; m++) {
        with.in.of[m] += value_at(e, m, place);
        with.ahead.of[m] -= value_at(e, m, place);
    }
    with.set |= bit(place);
    if (!is_too_much(e, &f, place) && bin_takes(e, with.set, f.bin)) {
        if (grow_set(e, with, place + 1, left))
            return true;
        f.skipped |= bit(place);
    }
    if (f.forced && f.set == 0)
        return false;
    for (int i = place; i < e->task->n && e->fronts.alike_from[i] == e->fronts.alike_from[place]; i++)
        for (int m = 0; m < e->n_measures && e->left >> i & 1; m++)
            f.ahead.of[m] -= value_at(e, m, i);
    int next = place;
    while (next < e->task->n && e->fronts.alike_from[next] == e->fronts.alike_from[place])
        next++;
    return grow_set(e, f, next, left);
}

/* The pieces left into the bins from this one on. */
static bool fill_from(struct exact *e, int bin)
{
    struct sums left = sums_of(e, e->left);

    if (!e->left)
        return true;
    if (bin == e->task->n_bins)
        return false;
    for (int m = 0; m < e->n_measures; m++)
        if (left.of[m] > e->after[bin][m])
            return false;
    uint64_t plain = fronts_plain(&e->fronts, e->left);
    if (known_answer(&e->hopeless, plain, bin))
        return false;
    bool found = grow_set(e, (struct filling){.bin = bin, .forced = bin >= e->alike_from, .ahead = left}, 0, &left);
    if (!found)
        store_answer(&e->hopeless, plain, bin, false);
    return found;
}

/* ---- the layout of what was found ---- */

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
        if (e->held[b] == 0)
            continue;
        if (fill_one_bin(e, e->held[b], e->task->bins[b]))
            graft_slab(&e->scratch, 0, out, b);
        else
            fronts_lay(&e->fronts, e->held[b], out, b);
    }
}

/* The largest bin of the task stands for the sheet of which the measures speak. */
static void start_measures(struct exact *e, struct pool *pool)
{
    const struct exact_task *t = e->task;
    struct bin sheet = {0, 0};

    for (int b = 0; b < t->n_bins; b++) {
        sheet.w = t->bins[b].w > sheet.w ? t->bins[b].w : sheet.w;
        sheet.h = t->bins[b].h > sheet.h ? t->bins[b].h : sheet.h;
        e->class_of[b] = b;
        for (int i = b; i-- > 0;)
            if (t->bins[i].w == t->bins[b].w && t->bins[i].h == t->bins[b].h)
                e->class_of[b] = i;
        if (b > 0 && e->class_of[b] != e->class_of[b - 1])
            e->alike_from = b;
    }
    fronts_start(&e->fronts, t->pieces, t->n, sheet.w, sheet.h, &e->nodes);
    for (int i = 0; i < t->n; i++)
        if (!bin_holds(sheet, &t->pieces[i]))
            return; /* without measures, which speak only of what a sheet holds */
    e->n_measures = bound_measures(t->pieces, t->n, sheet, t->bins, t->n_bins, pool, e->measure);
    for (int b = t->n_bins; b-- > 0;)
        for (int m = 0; m < e->n_measures; m++)
            e->after[b][m] = e->after[b + 1][m] + e->measure[m].holds[b];
}

enum exact_answer exact_pack(const struct exact_task *t, struct layout *out)
{
    struct pool pool = {0};
    struct exact *e;

    if (t->n > EXACT_PIECES_MOST || t->n_bins > BINS_MOST)
        return EXACT_UNDECIDED;
    e = pool_alloc(&pool, sizeof *e);
    e->task = t;
    e->left = t->n == EXACT_PIECES_MOST ? ~(uint64_t)0 : bit(t->n) - 1;
    e->scratch = layout_new(&pool, t->n, 1);
    e->fill_scratch.places = pool_alloc(&pool, (size_t)(4 * t->n + 8) * sizeof *e->fill_scratch.places);
    start_measures(e, &pool);
    e->nodes = t->nodes / PIECEWISE_SHARE;
    bool found = place_left(e);
    if (!found && e->cut_short) {
        e->cut_short = false;
        e->nodes += t->nodes - t->nodes / PIECEWISE_SHARE;
        found = fill_from(e, 0);
    }
    if (found)
        lay_bins(e, out);
    enum exact_answer answer = found ? EXACT_YES : e->cut_short ? EXACT_UNDECIDED : EXACT_NO;
    fronts_free(&e->fronts);
    free(e->taken.table);
    free(e->hopeless.table);
    pool_free(&pool);
    return answer;
}
