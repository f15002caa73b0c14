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

static int bound_by_pair(const struct areas *a, const struct piece *p, int jx, int jy, int64_t whole)
{
    struct sum s = {0, 0};

    for (int i = 0; i < a->n; i++) {
        int64_t w = a->w[jx * a->n + i], h = a->h[jy * a->n + i];
        int64_t area = w < 0 || h < 0 ? INT64_MAX : w * h;
        if (p[i].turns) {
            w = a->turned_w[jx * a->n + i];
            h = a->turned_h[jy * a->n + i];
            if (w >= 0 && h >= 0 && w * h < area)
                area = w * h;
        }
        assert(area != INT64_MAX && "each piece can be laid on the sheet");
        sum_add(&s, area, whole);
    }
    return round_up(s);
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

int bound_pieces(const struct piece *p, int n, struct bin sheet)
{
    struct dff fx[FUNCTIONS], fy[FUNCTIONS];
    int64_t *lengths = mem_alloc((size_t)(2 * n + 1) * sizeof *lengths);
    int mx = list_functions(lengths, list_lengths(p, n, true, sheet.w, lengths), sheet.w, fx);
    int my = list_functions(lengths, list_lengths(p, n, false, sheet.h, lengths), sheet.h, fy);
    struct areas a = {n, value_table(p, n, fx, mx, sheet.w, true), value_table(p, n, fy, my, sheet.h, false),
                      value_table(p, n, fx, mx, sheet.w, false), value_table(p, n, fy, my, sheet.h, true)};
    int best = n > 0;

    for (int jx = 0; jx < mx; jx++)
        for (int jy = 0; jy < my; jy++) {
            int b = bound_by_pair(&a, p, jx, jy, dff_whole(fx[jx], sheet.w) * dff_whole(fy[jy], sheet.h));
            best = b > best ? b : best;
        }
    free(lengths);
    free(a.w);
    free(a.h);
    free(a.turned_w);
    free(a.turned_h);
    return best;
}

/* Pieces that no offcut holds need new sheets among themselves; and what the offcuts cannot hold by area does. */
int bound_with_offcuts(const struct piece *p, int n, struct bin sheet, const struct bin *offcuts, int n_offcuts)
{
    struct piece *large = mem_alloc((size_t)(n + 1) * sizeof *large);
    struct sum all = {0, 0}, held = {0, 0};
    int64_t whole = sheet.w * sheet.h;
    int m = 0;

    for (int i = 0; i < n; i++) {
        bool fits = false;
        for (int j = 0; j < n_offcuts && !fits; j++)
            fits = bin_holds(offcuts[j], &p[i]);
        if (!fits)
            large[m++] = p[i];
        sum_add(&all, p[i].w * p[i].h, whole);
    }
    for (int j = 0; j < n_offcuts; j++)
        sum_add(&held, offcuts[j].w * offcuts[j].h, whole);
    int by_area = (int)(all.sheets - held.sheets) + (all.part > held.part);
    int by_size = bound_pieces(large, m, sheet);
    free(large);
    return by_size > by_area ? by_size : by_area;
}
