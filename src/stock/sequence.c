/* Bin after bin. Each kind of piece has a price, by its area or as given to begin with. A bin is filled by dynamic programming over the
   sizes of its parts (see raster.h), as in pattern.c, but no kind may be taken more often than it is left; since the dearest
   two parts often ask for the same pieces, the few dearest of each size are kept. A cut is tried only where it parts off the
   length of a piece. What is left over when the last bin is full becomes dearer, all else slightly cheaper, prices are shaken a
   little, and it starts again (sequential value correction: Mukhacheva, Belov, Kartak and Mukhacheva, "Linear one-dimensional
   cutting-packing problems: numerical experiments with the sequential value correction method", Pesquisa Operacional 20,
   2000; from memory). Prices are whole numbers, shaken by chance.h, so all is the same everywhere. */
#include "stock/sequence.h"

#include "stock/chance.h"
#include "stock/raster.h"

#include <string.h>

enum { KINDS_MOST = 64, CUTS_MOST = 2 * KINDS_MOST, PARTS_KEPT = 8, CELLS_A_NODE = 8, CLASSES_MOST = 16, PRICE_OF_ALL = 1 << 28 };

/* How often each kind is in a part: a field of bits for each, and a bit above it that stays clear while no more are taken
   than are left. */
struct held {
    uint64_t word[2];
};
struct field {
    int word, shift;
    uint64_t mask;
};
enum part_kind { PART_PIECE, PART_TURNED, PART_BESIDE, PART_BEYOND };
struct part {
    int32_t worth;
    enum part_kind kind;
    int first, second; /* the kind of piece; of the others two parts */
    struct held held;
};
struct cell { /* the dearest parts of one size, dearest first */
    struct part part[PARTS_KEPT];
    int n;
};
/* One direction of a bin. */
struct side {
    int64_t unit;
    struct raster r;
    int cut[CUTS_MOST], n_cuts;
    int *rest; /* the point that cut c leaves of point i, at i n_cuts + c; 0: nothing */
};
struct class_of_bins {
    struct bin size;
    struct side x, y;
};
struct sequence {
    const struct sequence_task *task;
    struct piece kind[KINDS_MOST];
    int count[KINDS_MOST], left[KINDS_MOST], n_kinds;
    int kind_of[KINDS_MOST]; /* of each piece */
    struct field field[KINDS_MOST];
    struct held guard, most; /* clear bits above the fields; what is left, with these bits set */
    int64_t value[KINDS_MOST];
    int32_t price[KINDS_MOST];
    struct class_of_bins class[CLASSES_MOST];
    int n_classes;
    const struct class_of_bins *in; /* being filled */
    struct cell *cells;
    bool used[KINDS_MOST]; /* pieces already laid */
    long nodes;
    uint64_t random;
};

/* ---- kinds ---- */

static bool gather_kinds(struct sequence *s)
{
    const struct sequence_task *t = s->task;

    if (t->n > KINDS_MOST)
        return false;
    for (int i = 0; i < t->n; i++) {
        int k = 0;
        while (k < s->n_kinds && !piece_is_like(&s->kind[k], &t->pieces[i]))
            k++;
        s->kind[k] = t->pieces[i];
        s->kind_of[i] = k;
        s->count[k]++;
        s->n_kinds += k == s->n_kinds;
    }
    return s->n_kinds > 0;
}

static bool place_fields(struct sequence *s)
{
    int word = 0, shift = 0;

    for (int k = 0; k < s->n_kinds; k++) {
        int bits = 1;
        while (s->count[k] >> bits)
            bits++;
        if (shift + bits + 1 > 64) {
            word++;
            shift = 0;
        }
        if (word > 1)
            return false;
        s->field[k] = (struct field){word, shift, ((uint64_t)1 << bits) - 1};
        shift += bits + 1;
        s->guard.word[word] |= (uint64_t)1 << (shift - 1);
    }
    return true;
}

static int count_held(const struct sequence *s, const struct held *h, int kind)
{
    const struct field *f = &s->field[kind];

    return (int)(h->word[f->word] >> f->shift & f->mask);
}

/* No kind more often than it is left. */
static bool can_hold(const struct sequence *s, struct held h)
{
    return ((s->most.word[0] - h.word[0]) & s->guard.word[0]) == s->guard.word[0] &&
           ((s->most.word[1] - h.word[1]) & s->guard.word[1]) == s->guard.word[1];
}

/* ---- sizes ---- */

/* Points too near each other are left out, but for the lengths of pieces: what is cut there loses a little. */
static void thin_out(struct raster *r, int most, const int *keep, int n_keep)
{
    int gap = r->at[r->n - 1] / 4000 + 1, widest = r->at[r->n - 1] / 20;

    for (; r->n > most && gap <= widest; gap += gap / 2 + 1) {
        int n = 1, last = r->n - 1;
        for (int i = 1; i <= last; i++) {
            bool kept = i == last || r->at[i] - r->at[n - 1] >= gap;
            for (int k = 0; k < n_keep && !kept; k++)
                kept = r->at[i] == keep[k];
            if (kept)
                r->at[n++] = r->at[i];
        }
        r->n = n;
    }
}

static int size_in_units(const struct sequence *s, int kind, bool of_w, bool turned, int64_t unit)
{
    return (int)((raster_length(&s->kind[kind], of_w, turned) + unit - 1) / unit);
}

static void add_cut(struct side *d, int at)
{
    for (int c = 0; c < d->n_cuts; c++)
        if (d->cut[c] == at)
            return;
    if (at < d->r.n)
        d->cut[d->n_cuts++] = at;
}

static void open_side(const struct sequence *s, bool of_w, int64_t size, struct pool *pool, struct side *d)
{
    int lengths[CUTS_MOST], n = 0;

    d->unit = raster_unit(s->kind, s->n_kinds, of_w, size);
    d->r = raster_of(s->kind, s->n_kinds, of_w, d->unit, size, true, pool);
    for (int k = 0; k < s->n_kinds; k++)
        for (int turned = 0; turned <= s->kind[k].turns; turned++) {
            int point = raster_point(&d->r, size_in_units(s, k, of_w, turned, d->unit));
            if (point < d->r.n)
                lengths[n++] = d->r.at[point];
        }
    thin_out(&d->r, s->task->points, lengths, n);
    for (int i = 0; i < n; i++)
        add_cut(d, raster_point(&d->r, lengths[i]));
    d->rest = pool_alloc(pool, (size_t)d->r.n * (size_t)(d->n_cuts + 1) * sizeof *d->rest);
    for (int i = 0; i < d->r.n; i++)
        for (int c = 0; c < d->n_cuts; c++) {
            int rest = i;
            while (rest > 0 && d->r.at[rest] > d->r.at[i] - d->r.at[d->cut[c]])
                rest--;
            d->rest[i * d->n_cuts + c] = rest;
        }
}

static const struct class_of_bins *class_for(struct sequence *s, struct bin b)
{
    for (int c = 0; c < s->n_classes; c++)
        if (s->class[c].size.w == b.w && s->class[c].size.h == b.h)
            return &s->class[c];
    return NULL;
}

static bool open_classes(struct sequence *s, struct pool *pool)
{
    int most = 1;

    for (int b = 0; b < s->task->n_bins; b++) {
        struct bin size = s->task->bins[b];
        if (class_for(s, size))
            continue;
        if (s->n_classes == CLASSES_MOST)
            return false;
        struct class_of_bins *c = &s->class[s->n_classes++];
        c->size = size;
        open_side(s, true, size.w, pool, &c->x);
        open_side(s, false, size.h, pool, &c->y);
        most = c->x.r.n * c->y.r.n > most ? c->x.r.n * c->y.r.n : most;
    }
    s->cells = pool_alloc(pool, (size_t)most * sizeof *s->cells);
    return true;
}

/* ---- one bin ---- */

static bool same_pieces(struct held a, struct held b)
{
    return a.word[0] == b.word[0] && a.word[1] == b.word[1];
}

static void keep_part(struct cell *c, const struct part *p)
{
    int i = c->n;

    if (c->n == PARTS_KEPT && p->worth <= c->part[PARTS_KEPT - 1].worth)
        return;
    for (int j = 0; j < c->n; j++)
        if (same_pieces(c->part[j].held, p->held))
            return;
    if (c->n == PARTS_KEPT)
        i--;
    else
        c->n++;
    for (; i > 0 && c->part[i - 1].worth < p->worth; i--)
        c->part[i] = c->part[i - 1];
    c->part[i] = *p;
}

static void keep_all(struct cell *c, const struct cell *smaller)
{
    for (int i = 0; i < smaller->n; i++)
        keep_part(c, &smaller->part[i]);
}

static void join_cells(struct sequence *s, struct cell *c, int a, int b, enum part_kind kind)
{
    const struct cell *first = &s->cells[a], *second = &s->cells[b];

    for (int i = 0; i < first->n; i++)
        for (int j = 0; j < second->n; j++) {
            const struct part *p = &first->part[i], *q = &second->part[j];
            int32_t worth = p->worth + q->worth;
            if (c->n == PARTS_KEPT && worth <= c->part[PARTS_KEPT - 1].worth)
                break;
            struct held held = {{p->held.word[0] + q->held.word[0], p->held.word[1] + q->held.word[1]}};
            if (can_hold(s, held))
                keep_part(c, &(struct part){worth, kind, a * PARTS_KEPT + i, b * PARTS_KEPT + j, held});
        }
    s->nodes--;
}

static void keep_pieces(struct sequence *s)
{
    const struct side *x = &s->in->x, *y = &s->in->y;

    for (int k = 0; k < s->n_kinds; k++)
        for (int turned = 0; turned <= s->kind[k].turns; turned++) {
            int i = raster_point(&x->r, size_in_units(s, k, true, turned, x->unit));
            int j = raster_point(&y->r, size_in_units(s, k, false, turned, y->unit));
            struct part p = {s->price[k], turned ? PART_TURNED : PART_PIECE, k, 0, {{0, 0}}};
            p.held.word[s->field[k].word] = (uint64_t)1 << s->field[k].shift;
            if (s->left[k] > 0 && i < x->r.n && j < y->r.n)
                keep_part(&s->cells[i * y->r.n + j], &p);
        }
}

static void fill_cell(struct sequence *s, int i, int j)
{
    const struct side *x = &s->in->x, *y = &s->in->y;
    int ny = y->r.n;
    struct cell *c = &s->cells[i * ny + j];

    if (i > 0)
        keep_all(c, c - ny);
    if (j > 0)
        keep_all(c, c - 1);
    for (int k = 0; k < x->n_cuts; k++)
        if (x->cut[k] < i && x->rest[i * x->n_cuts + k] > 0)
            join_cells(s, c, x->cut[k] * ny + j, x->rest[i * x->n_cuts + k] * ny + j, PART_BESIDE);
    for (int k = 0; k < y->n_cuts; k++)
        if (y->cut[k] < j && y->rest[j * y->n_cuts + k] > 0)
            join_cells(s, c, i * ny + y->cut[k], i * ny + y->rest[j * y->n_cuts + k], PART_BEYOND);
}

/* The dearest part found of a bin; NULL: nothing goes in, or the nodes are at an end. */
static const struct part *fill_bin(struct sequence *s, struct bin b)
{
    s->in = class_for(s, b);
    int nx = s->in->x.r.n, ny = s->in->y.r.n;

    s->most = s->guard;
    for (int k = 0; k < s->n_kinds; k++)
        s->most.word[s->field[k].word] |= (uint64_t)s->left[k] << s->field[k].shift;
    for (int i = 0; i < nx * ny; i++)
        s->cells[i].n = 0;
    keep_pieces(s);
    s->nodes -= nx * ny / CELLS_A_NODE;
    for (int i = 0; i < nx && s->nodes > 0; i++)
        for (int j = 0; j < ny; j++)
            fill_cell(s, i, j);
    const struct cell *whole = &s->cells[nx * ny - 1];
    return s->nodes > 0 && whole->n > 0 ? &whole->part[0] : NULL;
}

/* ---- the layout ---- */

static const struct part *part_at(const struct sequence *s, int number)
{
    return &s->cells[number / PARTS_KEPT].part[number % PARTS_KEPT];
}

/* Size that a part's pieces take along w or h. */
static int64_t extent_of(const struct sequence *s, const struct part *p, bool of_w)
{
    if (p->kind == PART_PIECE || p->kind == PART_TURNED)
        return raster_length(&s->kind[p->first], of_w, p->kind == PART_TURNED);
    int64_t a = extent_of(s, part_at(s, p->first), of_w), b = extent_of(s, part_at(s, p->second), of_w);
    return of_w == (p->kind == PART_BESIDE) ? a + b : a > b ? a : b;
}

static void lay_part(struct sequence *s, const struct part *p, struct layout *out, int slab)
{
    if (p->kind == PART_BESIDE || p->kind == PART_BEYOND) {
        bool beside = p->kind == PART_BESIDE;
        const struct part *a = part_at(s, p->first);
        int first = slab_cut(out, slab, beside ? SLAB_CUT_X : SLAB_CUT_Y, extent_of(s, a, beside));
        lay_part(s, a, out, first);
        lay_part(s, part_at(s, p->second), out, first + 1);
        return;
    }
    int i = 0;
    while (s->used[i] || s->kind_of[i] != p->first)
        i++;
    s->used[i] = true;
    slab_place(out, slab, &s->task->pieces[i], i, p->kind == PART_TURNED, SLAB_CUT_X, 0);
}

/* ---- prices ---- */

/* So that all pieces together are worth about PRICE_OF_ALL: no product gets too large. */
static void settle_values(struct sequence *s)
{
    int64_t all = 0;

    for (int k = 0; k < s->n_kinds; k++)
        all += s->value[k] * s->count[k];
    for (int k = 0; k < s->n_kinds; k++)
        s->value[k] = s->value[k] * PRICE_OF_ALL / all + 1;
}

static void start_values(struct sequence *s)
{
    int64_t all = 0;

    for (int k = 0; k < s->n_kinds; k++)
        all += s->kind[k].w * s->kind[k].h / s->task->n; /* areas stay below 2^52 */
    for (int k = 0; k < s->n_kinds; k++)
        s->value[k] = s->kind[k].w * s->kind[k].h / (all / PRICE_OF_ALL + 1) + 1;
    for (int i = 0; s->task->value && i < s->task->n; i++)
        s->value[s->kind_of[i]] = (int64_t)s->task->value[i] + 1;
    settle_values(s);
}

static void set_prices(struct sequence *s, bool shaken)
{
    int64_t all = 0, value[KINDS_MOST];

    for (int k = 0; k < s->n_kinds; k++) {
        value[k] = shaken ? s->value[k] / 1000 * (970 + (int64_t)(chance_next(&s->random) % 60)) + 1 : s->value[k];
        all += value[k] * s->count[k];
    }
    for (int k = 0; k < s->n_kinds; k++)
        s->price[k] = (int32_t)(value[k] * PRICE_OF_ALL / all) + 1;
}

static void correct_values(struct sequence *s)
{
    for (int k = 0; k < s->n_kinds; k++)
        s->value[k] += s->left[k] > 0 ? s->value[k] / 5 * s->left[k] / s->count[k] : -(s->value[k] / 200);
    settle_values(s);
}

/* All bins once; true where nothing is left. */
static bool fill_all(struct sequence *s, struct layout *out)
{
    const struct part *p;
    int left = s->task->n;

    s->nodes -= s->task->n; /* even where there is nothing to be filled, an end comes */
    layout_start(out, s->task->bins, s->task->n_bins);
    memcpy(s->left, s->count, sizeof s->left);
    memset(s->used, 0, sizeof s->used);
    for (int b = 0; b < s->task->n_bins && left > 0; b++) {
        if (!(p = fill_bin(s, s->task->bins[b])))
            continue;
        for (int k = 0; k < s->n_kinds; k++) {
            s->left[k] -= count_held(s, &p->held, k);
            left -= count_held(s, &p->held, k);
        }
        lay_part(s, p, out, b);
    }
    return left == 0;
}

bool sequence_pack(const struct sequence_task *t, struct layout *out)
{
    struct pool pool = {0};
    struct sequence *s = pool_alloc(&pool, sizeof *s);
    bool found = false;

    s->task = t;
    s->nodes = t->nodes;
    s->random = CHANCE_SEED;
    if (gather_kinds(s) && place_fields(s) && open_classes(s, &pool)) {
        start_values(s);
        for (bool shaken = false; s->nodes > 0 && !found; shaken = true) {
            set_prices(s, shaken);
            found = fill_all(s, out);
            correct_values(s);
        }
    }
    pool_free(&pool);
    return found;
}
