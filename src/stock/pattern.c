/* The dearest guillotine pattern by dynamic programming: the best of w by h is a piece, or the best two parts of any cut right
   across (Gilmore and Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13, 1965).

   Sizes are those of a raster (see raster.h), where need be a coarse one: rounding lengths down, each piece and the bin by itself,
   keeps every layout a layout, because the sum of the rounded is not above the rounded sum.

   A kind that is counted is taken only as often as there are: the value is then one of size and of the numbers allowed, and two
   parts share these in every way. Each kind counted makes it slower by the square of their number, so only those are
   that would be taken too often (Christofides and Whitlock, "An algorithm for two-dimensional cutting problems", Operations
   Research 25, 1977; Righini and Salani, "New dynamic programming algorithms for the resource constrained elementary shortest
   path problem", Networks 51, 2008, for counting step by step; from memory). */
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

enum { STATES_MOST = 400 };

static int64_t steps_of(int64_t nx, int64_t ny, int64_t n_splits)
{
    return nx * ny * (nx + ny) / 4 * n_splits + 1;
}

int64_t pattern_steps(const struct pattern_table *t)
{
    return steps_of(t->x.n, t->y.n, t->n_splits);
}

/* How many of a kind a state allows. */
static int allowed(const struct pattern_table *t, int state, int kind)
{
    return state / t->stride[kind] % (t->limit[kind] + 1);
}

static bool allows_no_more(const struct pattern_table *t, int state, int other)
{
    for (int k = 0; k < t->n_kinds; k++)
        if (t->stride[k] > 0 && allowed(t, state, k) > allowed(t, other, k))
            return false;
    return true;
}

static bool open_states(struct pattern_table *t, struct pool *pool)
{
    int64_t splits = 1;

    t->n_states = 1;
    t->stride = pool_alloc(pool, (size_t)(t->n_kinds + 1) * sizeof *t->stride);
    for (int k = 0; k < t->n_kinds; k++)
        if (t->limit[k] > 0) {
            t->stride[k] = t->n_states;
            t->n_states *= t->limit[k] + 1;
            splits = splits * (t->limit[k] + 1) * (t->limit[k] + 2) / 2;
            if (t->n_states > STATES_MOST)
                return false;
        }
    t->split = pool_alloc(pool, (size_t)splits * sizeof *t->split);
    for (int whole = 0; whole < t->n_states; whole++)
        for (int first = 0; first <= whole; first++)
            if (allows_no_more(t, first, whole))
                t->split[t->n_splits++] = (struct pattern_split){whole, first, whole - first};
    return true;
}

bool pattern_open(struct pattern_table *t, const struct piece *kinds, const int *limit, int n, struct bin b, int64_t most_steps, struct pool *pool)
{
    int64_t unit_w = raster_unit(kinds, n, true, b.w), unit_h = raster_unit(kinds, n, false, b.h);

    *t = (struct pattern_table){.kinds = kinds, .n_kinds = n, .limit = limit};
    if (!open_states(t, pool))
        return false;
    for (;; unit_w *= 2, unit_h *= 2) {
        if (!has_sizes(kinds, n, unit_w, unit_h))
            return false;
        struct raster w = raster_of(kinds, n, true, unit_w, b.w, false, pool), h = raster_of(kinds, n, false, unit_h, b.h, false, pool);
        if (steps_of(w.n, h.n, t->n_splits) > most_steps) {
            if (t->n_states > 1)
                return false;
            continue;
        }
        t->turned = h.n > w.n;
        t->unit_x = t->turned ? unit_h : unit_w;
        t->unit_y = t->turned ? unit_w : unit_h;
        t->x = t->turned ? h : w;
        t->y = t->turned ? w : h;
        t->value = pool_alloc(pool, (size_t)t->x.n * (size_t)t->y.n * (size_t)t->n_states * sizeof *t->value);
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

static int32_t *value_at(const struct pattern_table *t, int i, int state)
{
    return t->value + ((size_t)i * (size_t)t->n_states + (size_t)state) * (size_t)t->y.n;
}

static bool may_have(const struct pattern_table *t, int state, int kind)
{
    return t->stride[kind] == 0 || allowed(t, state, kind) > 0;
}

static void price_pieces(struct pattern_table *t, const int32_t *price)
{
    memset(t->value, 0, (size_t)t->x.n * (size_t)t->y.n * (size_t)t->n_states * sizeof *t->value);
    for (int k = 0; k < t->n_kinds; k++)
        for (int turned = 0; turned <= t->kinds[k].turns; turned++) {
            int i = raster_point(&t->x, size_x(t, k, turned)), j = raster_point(&t->y, size_y(t, k, turned));
            for (int s = 0; s < t->n_states && i < t->x.n && j < t->y.n; s++)
                if (may_have(t, s, k))
                    value_at(t, i, s)[j] = larger_of(value_at(t, i, s)[j], price[k]);
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

    for (int s = 0; s < t->n_states; s++)
        for (int j = 0; j < ny; j++)
            value_at(t, i, s)[j] = larger_of(value_at(t, i, s)[j], value_at(t, i - 1, s)[j]);
    for (int a = 1; 2 * t->x.at[a] <= t->x.at[i]; a++) {
        b = second_part(&t->x, i, a, b);
        for (int k = 0; k < t->n_splits; k++) {
            int32_t *v = value_at(t, i, t->split[k].whole);
            const int32_t *first = value_at(t, a, t->split[k].first), *second = value_at(t, b, t->split[k].second);
            for (int j = 0; j < ny; j++)
                v[j] = larger_of(v[j], first[j] + second[j]);
        }
    }
}

static void cut_across_y(struct pattern_table *t, int i)
{
    int ny = t->y.n;
    int32_t *v = value_at(t, i, 0);

    for (int j = 1; j < ny; j++) {
        int b = j;
        for (int s = 0; s < t->n_states; s++)
            v[s * ny + j] = larger_of(v[s * ny + j], v[s * ny + j - 1]);
        for (int a = 1; 2 * t->y.at[a] <= t->y.at[j]; a++) {
            b = second_part(&t->y, j, a, b);
            for (int k = 0; k < t->n_splits; k++) {
                const struct pattern_split *p = &t->split[k];
                v[p->whole * ny + j] = larger_of(v[p->whole * ny + j], v[p->first * ny + a] + v[p->second * ny + b]);
            }
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
    return value_at(t, t->x.n - 1, t->n_states - 1)[t->y.n - 1];
}

struct take {
    const struct pattern_table *t;
    const int32_t *price;
    int *uses;
};

static int32_t worth_of(const struct take *k, int i, int j, int state)
{
    return value_at(k->t, i, state)[j];
}

/* Finds the piece that fills a part, if one does. */
static bool take_piece(const struct take *p, int i, int j, int state)
{
    const struct pattern_table *t = p->t;

    for (int k = 0; k < t->n_kinds; k++)
        for (int turned = 0; turned <= t->kinds[k].turns; turned++)
            if (p->price[k] == worth_of(p, i, j, state) && may_have(t, state, k) && size_x(t, k, turned) <= t->x.at[i] &&
                size_y(t, k, turned) <= t->y.at[j]) {
                p->uses[k]++;
                return true;
            }
    return false;
}

/* Follows the table back to the pieces. */
static void take_apart(const struct take *p, int i, int j, int state)
{
    const struct pattern_table *t = p->t;
    int32_t worth = worth_of(p, i, j, state);

    while (i > 0 && worth_of(p, i - 1, j, state) == worth)
        i--;
    while (j > 0 && worth_of(p, i, j - 1, state) == worth)
        j--;
    if (worth == 0 || take_piece(p, i, j, state))
        return;
    for (int k = 0; k < t->n_splits; k++) {
        int first = t->split[k].first, second = t->split[k].second;
        if (t->split[k].whole != state)
            continue;
        for (int a = 1, b = i; 2 * t->x.at[a] <= t->x.at[i]; a++) {
            b = second_part(&t->x, i, a, b);
            if (worth_of(p, a, j, first) + worth_of(p, b, j, second) == worth) {
                take_apart(p, a, j, first);
                take_apart(p, b, j, second);
                return;
            }
        }
        for (int a = 1, b = j; 2 * t->y.at[a] <= t->y.at[j]; a++) {
            b = second_part(&t->y, j, a, b);
            if (worth_of(p, i, a, first) + worth_of(p, i, b, second) == worth) {
                take_apart(p, i, a, first);
                take_apart(p, i, b, second);
                return;
            }
        }
    }
    assert(!"what the table holds comes from a piece or a cut");
}

void pattern_uses(const struct pattern_table *t, const int32_t *price, int *uses)
{
    struct take p = {t, price, uses};

    for (int k = 0; k < t->n_kinds; k++)
        uses[k] = 0;
    take_apart(&p, t->x.n - 1, t->y.n - 1, t->n_states - 1);
}
