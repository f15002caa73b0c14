/* Lower bounds by dual feasible functions.

   A function f on [0, C] with f(x1) + f(x2) + … <= f's whole whenever x1 + x2 + … <= C turns lengths into other lengths
   that still share strips as before; so the sum of the new ones, divided by the whole and rounded up, is a bound. For
   rectangles one function is taken for each direction, and the products are areas (Fekete and Schepers, "New classes of
   lower bounds for bin packing problems", Mathematical Programming 91, 2001, and "A general framework for bounds for
   higher-dimensional orthogonal packing problems", Math. Methods of Operations Research 60, 2004). A piece that may be
   turned counts with the lesser of its two products, which holds whichever way it lies.

   DFF_LARGE_AND_SMALL: lengths below k vanish, those above C - k count as C: the bound L2 of Martello and Toth ("Lower
   bounds and reduction procedures for the bin packing problem", Discrete Applied Mathematics 28, 1990), f0 of
   Carlier, Clautiaux and Moukrim ("New reduction procedures and lower bounds for the two-dimensional bin packing problem
   with fixed orientation", Computers & Operations Research 34, 2007). DFF_STEPS: their f2: lengths counted in whole k.
   DFF_ROUNDED: u(k) of Fekete and Schepers. The formulas are from memory; the tests try each on random sums. */
#include "stock/bound.h"

#include <assert.h>
#include <stdlib.h>

enum { SAMPLES = 48, MANY = 500, ROUNDED_MOST = 20, FUNCTIONS = 1 + 3 * SAMPLES + ROUNDED_MOST };

/* Sums that would not fit in 64 bits: whole sheets, and the part of one. */
struct sum {
    int64_t sheets, part;
};

static void sum_add(struct sum *s, int64_t v, int64_t whole)
{
    s->sheets += v / whole;
    s->part += v % whole;
    if (s->part >= whole) {
        s->part -= whole;
        s->sheets++;
    }
}

int64_t dff_whole(struct dff f, int64_t c)
{
    switch (f.kind) {
    case DFF_LENGTH:
    case DFF_LARGE_AND_SMALL:
        return c;
    case DFF_STEPS:
        return 2 * (c / f.k);
    case DFF_ROUNDED:
        return f.k * (f.k + 1);
    }
    return c;
}

int64_t dff_value(struct dff f, int64_t x, int64_t c)
{
    switch (f.kind) {
    case DFF_LENGTH:
        return x;
    case DFF_LARGE_AND_SMALL: /* k <= C/2 */
        return x < f.k ? 0 : x > c - f.k ? c : x;
    case DFF_STEPS: /* k >= 2 */
        if (2 * x == c)
            return c / f.k;
        return 2 * x > c ? 2 * (c / f.k - (c - x) / f.k) : 2 * (x / f.k);
    case DFF_ROUNDED: /* x (k+1)/C where that is whole, else its whole part times C/k: both in C/(k (k+1)) */
        return (f.k + 1) * x % c == 0 ? (f.k + 1) * x / c * f.k : (f.k + 1) * x / c * (f.k + 1);
    }
    return x;
}

static int compare_lengths(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

    return (x > y) - (x < y);
}

/* The functions worth trying: their k are lengths that occur. Sorts `lengths`. */
static int list_functions(int64_t *lengths, int n, int64_t c, struct dff *out)
{
    int m = 0, samples = n > MANY ? SAMPLES / 4 : SAMPLES, step = n > samples ? (n + samples - 1) / samples : 1;
    int64_t last = -1;

    qsort(lengths, (size_t)n, sizeof *lengths, compare_lengths);
    out[m++] = (struct dff){DFF_LENGTH, 0};
    for (int64_t k = 1; k <= ROUNDED_MOST; k++)
        out[m++] = (struct dff){DFF_ROUNDED, k};
    for (int i = 0; i < n; i += step) {
        int64_t x = lengths[i];
        if (x == last)
            continue;
        last = x;
        if (2 * x <= c) {
            out[m++] = (struct dff){DFF_LARGE_AND_SMALL, x};
            if (x >= 2)
                out[m++] = (struct dff){DFF_STEPS, x};
        } else {
            out[m++] = (struct dff){DFF_LARGE_AND_SMALL, c - x + 1 <= c / 2 ? c - x + 1 : c / 2};
        }
    }
    assert(m <= FUNCTIONS);
    return m;
}

static int round_up(struct sum s)
{
    return (int)(s.sheets + (s.part > 0));
}

int bound_lengths(const int64_t *lengths, int n, int64_t strip)
{
    struct dff f[FUNCTIONS];
    int64_t *sorted = mem_alloc((size_t)(n + 1) * sizeof *sorted);
    int best = n > 0;

    for (int i = 0; i < n; i++)
        sorted[i] = lengths[i];
    int m = list_functions(sorted, n, strip, f);
    free(sorted);
    for (int j = 0; j < m; j++) {
        struct sum s = {0, 0};
        for (int i = 0; i < n; i++)
            sum_add(&s, dff_value(f[j], lengths[i], strip), dff_whole(f[j], strip));
        best = round_up(s) > best ? round_up(s) : best;
    }
    return best;
}

bool bin_holds(struct bin b, const struct piece *p)
{
    return (p->w <= b.w && p->h <= b.h) || (p->turns && p->h <= b.w && p->w <= b.h);
}

/* All values of one direction: row j for function j, of the pieces as they lie or turned; -1: does not fit so. */
static int64_t *value_table(const struct piece *p, int n, const struct dff *f, int m, int64_t c, bool of_w)
{
    int64_t *table = mem_alloc((size_t)n * (size_t)m * sizeof *table + 1);

    for (int j = 0; j < m; j++)
        for (int i = 0; i < n; i++) {
            int64_t x = of_w ? p[i].w : p[i].h;
            table[j * n + i] = x <= c ? dff_value(f[j], x, c) : -1;
        }
    return table;
}

/* Values of width and height under every function, for both ways of lying. */
struct areas {
    int n;
    int64_t *w, *h;               /* of w along the sheet, h across */
    int64_t *turned_w, *turned_h; /* of h along, w across */
};

/* The lesser product of piece i under a pair of functions. */
static int64_t value_of(const struct areas *a, const struct piece *p, int i, int jx, int jy)
{
    int64_t w = a->w[jx * a->n + i], h = a->h[jy * a->n + i];
    int64_t area = w < 0 || h < 0 ? INT64_MAX : w * h;

    if (p[i].turns) {
        w = a->turned_w[jx * a->n + i];
        h = a->turned_h[jy * a->n + i];
        if (w >= 0 && h >= 0 && w * h < area)
            area = w * h;
    }
    assert(area != INT64_MAX && "each piece can be laid on the sheet");
    return area;
}

/* Every length that can lie in a direction: w, and h of pieces that turn (or the other way round). */
static int list_lengths(const struct piece *p, int n, bool along, int64_t c, int64_t *out)
{
    int m = 0;

    for (int i = 0; i < n; i++) {
        int64_t straight = along ? p[i].w : p[i].h, turned = along ? p[i].h : p[i].w;
        if (straight <= c)
            out[m++] = straight;
        if (p[i].turns && turned <= c)
            out[m++] = turned;
    }
    return m;
}

/* All functions of both directions, and what they make of the pieces. */
struct pairs {
    const struct piece *p;
    struct bin sheet;
    struct dff fx[FUNCTIONS], fy[FUNCTIONS];
    int mx, my;
    struct areas a;
};

static void open_pairs(struct pairs *q, const struct piece *p, int n, struct bin sheet)
{
    int64_t *lengths = mem_alloc((size_t)(2 * n + 1) * sizeof *lengths);

    q->p = p;
    q->sheet = sheet;
    q->mx = list_functions(lengths, list_lengths(p, n, true, sheet.w, lengths), sheet.w, q->fx);
    q->my = list_functions(lengths, list_lengths(p, n, false, sheet.h, lengths), sheet.h, q->fy);
    q->a = (struct areas){n, value_table(p, n, q->fx, q->mx, sheet.w, true), value_table(p, n, q->fy, q->my, sheet.h, false),
                          value_table(p, n, q->fx, q->mx, sheet.w, false), value_table(p, n, q->fy, q->my, sheet.h, true)};
    free(lengths);
}

static void close_pairs(struct pairs *q)
{
    free(q->a.w);
    free(q->a.h);
    free(q->a.turned_w);
    free(q->a.turned_h);
}

static int64_t whole_of(const struct pairs *q, int jx, int jy)
{
    return dff_whole(q->fx[jx], q->sheet.w) * dff_whole(q->fy[jy], q->sheet.h);
}

/* What lengths within x can come to: beside them a length of C - x would still find room. */
static int64_t reach_within(struct dff f, int64_t x, int64_t c)
{
    return dff_whole(f, c) - dff_value(f, c - x, c);
}

/* What a bin holds at most under a pair: by its size where it lies within a sheet, and by the pieces that it takes at all. */
static int64_t held_by(const struct pairs *q, struct bin b, int jx, int jy)
{
    int64_t taken = 0, by_size = INT64_MAX;

    if (b.w <= q->sheet.w && b.h <= q->sheet.h)
        by_size = reach_within(q->fx[jx], b.w, q->sheet.w) * reach_within(q->fy[jy], b.h, q->sheet.h);
    for (int i = 0; i < q->a.n && taken < by_size; i++)
        if (bin_holds(b, &q->p[i]))
            taken += value_of(&q->a, q->p, i, jx, jy);
    return taken < by_size ? taken : by_size;
}

static int bound_by_pair(const struct pairs *q, int jx, int jy, const struct bin *offcuts, int n_offcuts)
{
    int64_t whole = whole_of(q, jx, jy);
    struct sum s = {0, 0}, held = {0, 0};

    for (int i = 0; i < q->a.n; i++)
        sum_add(&s, value_of(&q->a, q->p, i, jx, jy), whole);
    for (int j = 0; j < n_offcuts; j++)
        sum_add(&held, held_by(q, offcuts[j], jx, jy), whole);
    return (int)(s.sheets - held.sheets) + (s.part > held.part);
}

static int bound_with_pairs(const struct piece *p, int n, struct bin sheet, const struct bin *offcuts, int n_offcuts)
{
    struct pairs q;
    int best = 0;

    open_pairs(&q, p, n, sheet);
    for (int jx = 0; jx < q.mx; jx++)
        for (int jy = 0; jy < q.my; jy++) {
            int b = bound_by_pair(&q, jx, jy, offcuts, n_offcuts);
            best = b > best ? b : best;
        }
    close_pairs(&q);
    return best;
}

int bound_pieces(const struct piece *p, int n, struct bin sheet)
{
    int best = bound_with_pairs(p, n, sheet, NULL, 0);

    return n > 0 && best < 1 ? 1 : best;
}

static int bound_by_area(const struct piece *p, int n, struct bin sheet, const struct bin *offcuts, int n_offcuts)
{
    struct sum all = {0, 0}, held = {0, 0};
    int64_t whole = sheet.w * sheet.h;

    for (int i = 0; i < n; i++)
        sum_add(&all, p[i].w * p[i].h, whole);
    for (int j = 0; j < n_offcuts; j++)
        sum_add(&held, offcuts[j].w * offcuts[j].h, whole);
    return (int)(all.sheets - held.sheets) + (all.part > held.part);
}

static int larger_of(int a, int b)
{
    return a > b ? a : b;
}

/* Pieces that no offcut holds need new sheets among themselves; and what the offcuts cannot hold does. */
int bound_with_offcuts(const struct piece *p, int n, struct bin sheet, const struct bin *offcuts, int n_offcuts)
{
    struct piece *large = mem_alloc((size_t)(n + 1) * sizeof *large);
    int m = 0, best = bound_by_area(p, n, sheet, offcuts, n_offcuts);

    for (int i = 0; i < n; i++) {
        bool fits = false;
        for (int j = 0; j < n_offcuts && !fits; j++)
            fits = bin_holds(offcuts[j], &p[i]);
        if (!fits)
            large[m++] = p[i];
    }
    best = larger_of(best, bound_pieces(large, m, sheet));
    if (m < n && n <= MANY)
        best = larger_of(best, bound_with_pairs(p, n, sheet, offcuts, n_offcuts));
    free(large);
    return best;
}

/* ---- measures ---- */

struct pair {
    int jx, jy;
    double excess; /* of all pieces over what the bins hold, in wholes */
};

static double excess_of(const struct pairs *q, int jx, int jy, const struct bin *bins, int n_bins)
{
    double excess = 0, whole = (double)whole_of(q, jx, jy);

    for (int i = 0; i < q->a.n; i++)
        excess += (double)value_of(&q->a, q->p, i, jx, jy) / whole;
    for (int b = 0; b < n_bins; b++)
        excess -= (double)held_by(q, bins[b], jx, jy) / whole;
    return excess;
}

/* The pairs with the largest excess, each excess once; gives their number. */
static int tightest_pairs(const struct pairs *q, const struct bin *bins, int n_bins, struct pair *out, int most)
{
    int n = 0;

    for (int jx = 0; jx < q->mx; jx++)
        for (int jy = 0; jy < q->my; jy++) {
            struct pair p = {jx, jy, excess_of(q, jx, jy, bins, n_bins)};
            int at = n;
            while (at > 0 && out[at - 1].excess < p.excess)
                at--;
            if (at == most || (at > 0 && out[at - 1].excess - p.excess < 1e-9))
                continue;
            n += n < most;
            for (int i = n - 1; i > at; i--)
                out[i] = out[i - 1];
            out[at] = p;
        }
    return n;
}

int bound_measures(const struct piece *p, int n, struct bin sheet, const struct bin *bins, int n_bins, struct pool *pool,
                   struct measure *out)
{
    struct pairs q;
    struct pair pair[MEASURES_MOST];

    open_pairs(&q, p, n, sheet);
    int m = tightest_pairs(&q, bins, n_bins, pair, MEASURES_MOST);
    for (int j = 0; j < m; j++) {
        out[j].value = pool_alloc(pool, (size_t)(n + 1) * sizeof *out[j].value);
        out[j].holds = pool_alloc(pool, (size_t)(n_bins + 1) * sizeof *out[j].holds);
        for (int i = 0; i < n; i++)
            out[j].value[i] = value_of(&q.a, p, i, pair[j].jx, pair[j].jy);
        for (int b = 0; b < n_bins; b++)
            out[j].holds[b] = held_by(&q, bins[b], pair[j].jx, pair[j].jy);
    }
    close_pairs(&q);
    return m;
}
