/* The dearest guillotine pattern by dynamic programming: the best of w by h is a piece, or the best two parts of any cut right
   across (Gilmore and Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13, 1965).

   Sizes are those of a raster (see raster.h), where need be a coarse one: rounding lengths down, each piece and the bin by itself,
   keeps every layout a layout, because the sum of the rounded is not above the rounded sum. */
#include "stock/pattern.h"

#include <assert.h>
#include <string.h>

static bool has_sizes(const struct piece *kinds, int n, int64_t unit_w, int64_t unit_h)
{
    for (int i = 0; i < n; i++)
        if (kinds[i].w < unit_w || kinds[i].h < unit_h || (kinds[i].turns && (kinds[i].h < unit_w || kinds[i].w < unit_h)))
            return false;
    return true;
}

static int64_t steps_of(int64_t nx, int64_t ny)
{
    return nx * ny * (nx + ny) / 4 + 1;
}

int64_t pattern_steps(const struct pattern_table *t)
{
    return steps_of(t->x.n, t->y.n);
}

bool pattern_open(struct pattern_table *t, const struct piece *kinds, int n, struct bin b, int64_t most_steps, struct pool *pool)
{
    int64_t unit_w = raster_unit(kinds, n, true, b.w), unit_h = raster_unit(kinds, n, false, b.h);

    for (;; unit_w *= 2, unit_h *= 2) {
        if (!has_sizes(kinds, n, unit_w, unit_h))
            return false;
        struct raster w = raster_of(kinds, n, true, unit_w, b.w, false, pool), h = raster_of(kinds, n, false, unit_h, b.h, false, pool);
        if (steps_of(w.n, h.n) > most_steps)
            continue;
        bool turned = h.n > w.n;
        *t = (struct pattern_table){kinds, n, turned, turned ? unit_h : unit_w, turned ? unit_w : unit_h, turned ? h : w, turned ? w : h, NULL};
        t->value = pool_alloc(pool, (size_t)t->x.n * (size_t)t->y.n * sizeof *t->value);
        return true;
    }
}

static int64_t size_x(const struct pattern_table *t, int kind, bool turned)
{
    return raster_length(&t->kinds[kind], !t->turned, turned) / t->unit_x;
}

static int64_t size_y(const struct pattern_table *t, int kind, bool turned)
{
    return raster_length(&t->kinds[kind], t->turned, turned) / t->unit_y;
}

int64_t pattern_pieces_most(const struct pattern_table *t)
{
    int64_t least = INT64_MAX;

    for (int k = 0; k < t->n_kinds; k++) {
        int64_t area = size_x(t, k, false) * size_y(t, k, false), turned = size_x(t, k, true) * size_y(t, k, true);
        area = t->kinds[k].turns && turned < area ? turned : area;
        least = area < least ? area : least;
    }
    return (int64_t)t->x.at[t->x.n - 1] * t->y.at[t->y.n - 1] / least;
}

static int32_t larger_of(int32_t a, int32_t b)
{
    return a > b ? a : b;
}

static void price_pieces(struct pattern_table *t, const int32_t *price)
{
    memset(t->value, 0, (size_t)t->x.n * (size_t)t->y.n * sizeof *t->value);
    for (int k = 0; k < t->n_kinds; k++)
        for (int turned = 0; turned <= t->kinds[k].turns; turned++) {
            int i = raster_point(&t->x, size_x(t, k, turned)), j = raster_point(&t->y, size_y(t, k, turned));
            if (i < t->x.n && j < t->y.n)
                t->value[i * t->y.n + j] = larger_of(t->value[i * t->y.n + j], price[k]);
        }
}

/* The points that a cut of point i can leave: for first part `a`, at most half, the second. Counts down from the last one. */
static int second_part(const struct raster *r, int i, int a, int last)
{
    while (r->at[last] > r->at[i] - r->at[a])
        last--;
    return last;
}

/* All cuts along y of the parts as wide as point i. */
static void cut_across_x(struct pattern_table *t, int i)
{
    int ny = t->y.n, b = i;
    int32_t *v = t->value + (size_t)i * (size_t)ny;

    for (int j = 0; j < ny; j++)
        v[j] = larger_of(v[j], v[j - ny]);
    for (int a = 1; 2 * t->x.at[a] <= t->x.at[i]; a++) {
        b = second_part(&t->x, i, a, b);
        const int32_t *first = t->value + (size_t)a * (size_t)ny, *second = t->value + (size_t)b * (size_t)ny;
        for (int j = 0; j < ny; j++)
            v[j] = larger_of(v[j], first[j] + second[j]);
    }
}

static void cut_across_y(struct pattern_table *t, int i)
{
    int32_t *v = t->value + (size_t)i * (size_t)t->y.n;

    for (int j = 1; j < t->y.n; j++) {
        int b = j;
        v[j] = larger_of(v[j], v[j - 1]);
        for (int a = 1; 2 * t->y.at[a] <= t->y.at[j]; a++) {
            b = second_part(&t->y, j, a, b);
            v[j] = larger_of(v[j], v[a] + v[b]);
        }
    }
}

int32_t pattern_dearest(struct pattern_table *t, const int32_t *price)
{
    price_pieces(t, price);
    for (int i = 1; i < t->x.n; i++) {
        cut_across_x(t, i);
        cut_across_y(t, i);
    }
    return t->value[t->x.n * t->y.n - 1];
}

/* Follows the table back to the pieces. */
static void take_apart(const struct pattern_table *t, const int32_t *price, int i, int j, int *uses)
{
    int ny = t->y.n, b = i;
    const int32_t *v = t->value;
    int32_t worth = v[i * ny + j];

    while (i > 0 && v[(i - 1) * ny + j] == worth)
        i--;
    while (j > 0 && v[i * ny + j - 1] == worth)
        j--;
    if (worth == 0)
        return;
    for (int k = 0; k < t->n_kinds; k++)
        for (int turned = 0; turned <= t->kinds[k].turns; turned++)
            if (price[k] == worth && size_x(t, k, turned) <= t->x.at[i] && size_y(t, k, turned) <= t->y.at[j]) {
                uses[k]++;
                return;
            }
    b = i;
    for (int a = 1; 2 * t->x.at[a] <= t->x.at[i]; a++) {
        b = second_part(&t->x, i, a, b);
        if (v[a * ny + j] + v[b * ny + j] == worth) {
            take_apart(t, price, a, j, uses);
            take_apart(t, price, b, j, uses);
            return;
        }
    }
    b = j;
    for (int a = 1; 2 * t->y.at[a] <= t->y.at[j]; a++) {
        b = second_part(&t->y, j, a, b);
        if (v[i * ny + a] + v[i * ny + b] == worth) {
            take_apart(t, price, i, a, uses);
            take_apart(t, price, i, b, uses);
            return;
        }
    }
    assert(!"what the table holds comes from a piece or a cut");
}

void pattern_uses(const struct pattern_table *t, const int32_t *price, int *uses)
{
    for (int k = 0; k < t->n_kinds; k++)
        uses[k] = 0;
    take_apart(t, price, t->x.n - 1, t->y.n - 1, uses);
}
