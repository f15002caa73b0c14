/* Rectangles from sheets. Quick rules in all combinations find a layout; the bound says whether it can be bettered; then
   everything is tried (few pieces), or the order of pieces is changed step by step (many). With the number of sheets
   settled, short pieces are laid so that no panel gets too short to be held before its last cut. Then one sheet is made
   smaller, by a strip along or across, as far as all still fits: the strip is the offcut kept in one piece. Of layouts with
   the same largest offcut the one with the fewest fence settings is taken. */
#include "stock/sheets.h"

#include "stock/bound.h"
#include "stock/chance.h"
#include "stock/exact.h"
#include "stock/fill.h"
#include "stock/order.h"
#include "stock/price.h"
#include "stock/sequence.h"
#include "stock/tidy.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

enum { FEW_PIECES = 9 }; /* so few are tried in every way where the quick rules fail to keep an offcut whole */

struct hunt {
    const struct sheets_task *task;
    struct bin *bins;        /* offcuts, new sheets, and room for one more */
    int *order;
    struct layout trial, best;
    int fresh;               /* new sheets of `best` */
    int too_short;           /* its cuts of what is too short to be held */
    const struct saw *saw;   /* of the task; NULL as well where no piece is short */
    int64_t largest;         /* its largest rest of a new sheet */
    int settings;            /* its number of fence settings */
    struct fill_scratch scratch;
    int64_t *numbers;        /* scratch */
    int *slabs;              /* scratch of tidy_layout */
};

static int count_settings(struct hunt *h, const struct layout *l)
{
    return order_count_settings(l, h->task->saw, h->numbers);
}

/* Least newly cut stock, fewest cuts too short to be held, largest offcut, fewest settings. */
static void keep_if_better(struct hunt *h, struct layout *l, int fresh)
{
    if (fresh > h->fresh)
        return;
    tidy_layout(l, h->saw, h->slabs);
    int too_short = saw_count_short(h->saw, l);
    if (fresh == h->fresh && too_short > h->too_short)
        return;
    int64_t largest = layout_largest_rest(l, h->task->n_offcuts);
    bool better = fresh < h->fresh || too_short < h->too_short || largest > h->largest;
    if (!better && largest < h->largest)
        return;
    int settings = count_settings(h, l);
    if (better || settings < h->settings) {
        layout_copy(&h->best, l);
        h->fresh = fresh;
        h->too_short = too_short;
        h->largest = largest;
        h->settings = settings;
    }
}

static void use_new_sheets(struct hunt *h, int n)
{
    for (int i = 0; i < n; i++)
        h->bins[h->task->n_offcuts + i] = h->task->sheet;
}

static struct fill_task fill_of(const struct hunt *h, int fresh)
{
    const struct sheets_task *t = h->task;

    return (struct fill_task){t->pieces, h->order, t->n, h->bins, t->n_offcuts + fresh, t->n_offcuts, {NULL, false}};
}

/* A layout on a smaller last sheet is one on the whole sheet, with one more cut first. */
static void keep_on_whole(struct hunt *h, enum slab_kind cut)
{
    layout_widen(&h->trial, h->task->n_offcuts + h->fresh - 1, cut, h->task->sheet);
    keep_if_better(h, &h->trial, h->fresh);
}

enum { RULES = (int)FILL_CHOICES * FILL_SPLITS, CARES = 3 };

/* Number of rules to try: with each, where short pieces are among them, both ways of taking care. */
static int count_rules(const struct hunt *h)
{
    return h->saw ? CARES * RULES : RULES;
}

static int fill_by(struct hunt *h, struct fill_task *f, int number, long *nodes)
{
    int rule = number % RULES, care = number / RULES;

    f->care = (struct fill_care){care ? h->saw : NULL, care == 2};
    return fill_bins(f, (struct fill_rule){(enum fill_choice)(rule / FILL_SPLITS), (enum fill_split)(rule % FILL_SPLITS)}, &h->scratch,
                     &h->trial, nodes);
}

/* All rules in all orders, on at most `fresh` new sheets; `smaller`: the cut that makes the last of them smaller, or
   SLAB_REST: it is whole. */
static void try_rules(struct hunt *h, int fresh, enum slab_kind smaller, long nodes)
{
    struct fill_task f = fill_of(h, fresh);

    for (int by = 0; by < FILL_ORDERS; by++) {
        fill_sort(f.pieces, h->order, f.n, (enum fill_order)by);
        for (int rule = 0; rule < count_rules(h) && nodes > 0; rule++) {
            int open = fill_by(h, &f, rule, &nodes);
            if (open >= 0 && smaller == SLAB_REST)
                keep_if_better(h, &h->trial, open - f.n_open);
            else if (open >= 0)
                keep_on_whole(h, smaller);
        }
    }
}

/* ---- fewer sheets ---- */

/* Prices are a better bound than sizes, and take longer. `value`: the prices. */
static void raise_bound(const struct hunt *h, int32_t *value, int *at_least)
{
    const struct sheets_task *t = h->task;
    struct price_task p = {t->pieces, t->n, t->sheet, t->offcuts, t->n_offcuts, h->fresh, true, t->nodes, value};
    int proven = price_bound(&p);

    *at_least = proven > *at_least ? proven : *at_least;
}

static bool fill_in_turn(struct hunt *h, int fresh, int points, const int32_t *value, long nodes)
{
    const struct sheets_task *t = h->task;
    bool found = sequence_pack(&(struct sequence_task){t->pieces, t->n, h->bins, t->n_offcuts + fresh, points, value, nodes}, &h->trial);

    if (found)
        keep_if_better(h, &h->trial, fresh);
    return found;
}

/* Whether so many new sheets do: what is quick to find, or to prove too few, goes first. */
static void try_sheets(struct hunt *h, int fresh, int32_t *value, int *at_least)
{
    enum { QUICK = 12, COARSE = 60, FINE = 150 };
    const struct sheets_task *t = h->task;
    struct exact_task e = {t->pieces, t->n, h->bins, t->n_offcuts + fresh, t->nodes};

    if (fill_in_turn(h, fresh, FINE, NULL, t->nodes / QUICK))
        return;
    if (fresh == *at_least)
        raise_bound(h, value, at_least);
    if (*at_least > fresh || fill_in_turn(h, fresh, FINE, value, t->nodes / QUICK))
        return;
    enum exact_answer answer = exact_pack(&e, &h->trial);
    if (answer == EXACT_YES)
        keep_if_better(h, &h->trial, fresh);
    else if (answer == EXACT_NO && fresh == *at_least)
        *at_least = fresh + 1;
    else if (answer == EXACT_UNDECIDED && !fill_in_turn(h, fresh, FINE, NULL, t->nodes / 2))
        fill_in_turn(h, fresh, COARSE, NULL, t->nodes);
}

/* One number of new sheets after another, from the bound up. */
static void try_everything(struct hunt *h, int *at_least)
{
    int32_t *value = mem_alloc((size_t)h->task->n * sizeof *value + 1);

    for (int fresh = *at_least; fresh < h->fresh; fresh = fresh + 1 > *at_least ? fresh + 1 : *at_least) {
        use_new_sheets(h, fresh);
        try_sheets(h, fresh, value, at_least);
    }
    free(value);
}

static int64_t area_of_pieces(const struct layout *l, int i)
{
    const struct slab *s = &l->slabs[i];

    switch (s->kind) {
    case SLAB_PIECE:
        return s->w * s->h;
    case SLAB_CUT_X:
    case SLAB_CUT_Y:
        return area_of_pieces(l, s->child[0]) + area_of_pieces(l, s->child[1]);
    case SLAB_REST:
        break;
    }
    return 0;
}

/* Area of pieces in the new sheet that has least: the nearer to none, the nearer to one sheet fewer. */
static int64_t least_load(const struct layout *l, int first_bin, int open)
{
    int64_t least = INT64_MAX;

    for (int b = first_bin; b < open; b++) {
        int64_t area = area_of_pieces(l, b);
        least = area < least ? area : least;
    }
    return least;
}

static void swap_two(int *order, int i, int j)
{
    int x = order[i];

    order[i] = order[j];
    order[j] = x;
}

static struct fill_rule draw_rule(uint64_t *random)
{
    int choice = (int)(chance_next(random) % FILL_CHOICES), split = (int)(chance_next(random) % FILL_SPLITS);

    return (struct fill_rule){(enum fill_choice)choice, (enum fill_split)split};
}

/* Changes the order of pieces by two at a time, keeps what is no worse, until one sheet fewer does. Another rule and a
   fresh order where nothing has become better for long. */
static void try_orders(struct hunt *h, int at_least, long nodes)
{
    enum { PATIENCE = 400 };
    struct fill_task f = fill_of(h, h->fresh);
    uint64_t random = CHANCE_SEED;
    int64_t load = INT64_MAX;
    struct fill_rule rule = {CHOOSE_AREA, SPLIT_LARGE_REST};

    fill_sort(f.pieces, h->order, f.n, ORDER_AREA);
    for (int waited = 0; nodes > 0 && h->fresh > at_least && f.n > 1; waited++) {
        int i = (int)(chance_next(&random) % (uint64_t)f.n), j = (int)(chance_next(&random) % (uint64_t)f.n);
        if (waited > PATIENCE) {
            waited = 0;
            load = INT64_MAX;
            rule = draw_rule(&random);
            fill_sort(f.pieces, h->order, f.n, (enum fill_order)(chance_next(&random) % FILL_ORDERS));
        }
        if (f.n_bins > h->task->n_offcuts + h->fresh) {
            f.n_bins = h->task->n_offcuts + h->fresh;
            load = INT64_MAX;
        }
        swap_two(h->order, i, j);
        int open = fill_bins(&f, rule, &h->scratch, &h->trial, &nodes);
        int64_t now = open < 0 ? INT64_MAX : least_load(&h->trial, f.n_open, open);
        if (open >= 0)
            keep_if_better(h, &h->trial, open - f.n_open);
        waited = now < load ? 0 : waited;
        if (now <= load)
            load = now;
        else
            swap_two(h->order, i, j);
    }
}

/* The same for fewer cuts of what is too short to be held, on the sheets there are. */
static void try_safer_orders(struct hunt *h, long nodes)
{
    enum { PATIENCE = 40 };
    struct fill_task f = fill_of(h, h->fresh);
    uint64_t random = CHANCE_SEED;
    int least_short = INT_MAX;
    struct fill_rule rule = {CHOOSE_AREA, SPLIT_LARGE_REST};

    for (int waited = PATIENCE + 1; nodes > 0 && h->too_short > 0 && f.n > 1; waited++) {
        int i = (int)(chance_next(&random) % (uint64_t)f.n), j = (int)(chance_next(&random) % (uint64_t)f.n);
        if (waited > PATIENCE) {
            waited = 0;
            least_short = INT_MAX;
            rule = draw_rule(&random);
            f.care = (struct fill_care){h->saw, chance_next(&random) % 2 == 0};
            fill_sort(f.pieces, h->order, f.n, (enum fill_order)(chance_next(&random) % FILL_ORDERS));
        }
        swap_two(h->order, i, j);
        int now = INT_MAX;
        int open = fill_bins(&f, rule, &h->scratch, &h->trial, &nodes);
        if (open >= 0) {
            keep_if_better(h, &h->trial, open - f.n_open);
            now = saw_count_short(h->saw, &h->trial);
        }
        waited = now < least_short ? 0 : waited;
        if (now <= least_short)
            least_short = now;
        else
            swap_two(h->order, i, j);
    }
}

/* ---- the largest offcut ---- */

/* How far the pieces below slab i reach along x (cut X) or y. */
static int64_t reach_of_pieces(const struct layout *l, int i, enum slab_kind cut)
{
    const struct slab *s = &l->slabs[i];

    if (s->kind == SLAB_REST)
        return 0;
    if (s->kind == SLAB_PIECE)
        return cut == SLAB_CUT_X ? s->x + s->w : s->y + s->h;
    int64_t a = reach_of_pieces(l, s->child[0], cut), b = reach_of_pieces(l, s->child[1], cut);
    return a > b ? a : b;
}

/* Whether the layout in h->trial has no more cuts too short to be held than the best has. */
static bool is_held_as_well(struct hunt *h)
{
    if (!h->saw)
        return true;
    tidy_layout(&h->trial, h->saw, h->slabs);
    return saw_count_short(h->saw, &h->trial) <= h->too_short;
}

/* Whether all fits where the last new sheet is as it stands in h->bins: the first rule that does, or, with few pieces,
   any layout. h->trial is the layout then; gives how far its pieces reach, 0: none found. */
static int64_t reach_on_smaller(struct hunt *h, enum slab_kind cut, long nodes)
{
    struct fill_task f = fill_of(h, h->fresh);
    bool found = false;

    for (int by = 0; by < FILL_ORDERS && !found; by++) {
        fill_sort(f.pieces, h->order, f.n, (enum fill_order)by);
        for (int rule = 0; rule < count_rules(h) && nodes > 0 && !found; rule++)
            found = fill_by(h, &f, rule, &nodes) >= 0 && is_held_as_well(h);
    }
    if (!found && f.n <= FEW_PIECES) {
        struct exact_task e = {f.pieces, f.n, f.bins, f.n_bins, h->task->nodes / 10};
        found = exact_pack(&e, &h->trial) == EXACT_YES && is_held_as_well(h);
    }
    return found ? reach_of_pieces(&h->trial, f.n_bins - 1, cut) : 0;
}

/* Least size of the last sheet in one direction, by area. */
static int64_t least_size(const struct hunt *h, enum slab_kind cut)
{
    const struct sheets_task *t = h->task;
    int64_t other = cut == SLAB_CUT_X ? t->sheet.h : t->sheet.w, area = 0;

    for (int i = 0; i < t->n; i++)
        area += t->pieces[i].w * t->pieces[i].h;
    for (int b = 0; b < t->n_offcuts + h->fresh - 1; b++)
        area -= h->bins[b].w * h->bins[b].h;
    return area > 0 ? (area + other - 1) / other : 1;
}

/* Halves the doubt about how small the last sheet can be; then all rules on the smallest, for the fewest settings. */
static void keep_large_offcut(struct hunt *h, enum slab_kind cut)
{
    enum { STEPS = 14 };
    struct bin *last = &h->bins[h->task->n_offcuts + h->fresh - 1];
    int64_t *size = cut == SLAB_CUT_X ? &last->w : &last->h, whole = *size;
    int64_t low = least_size(h, cut), high = whole, next = low;

    for (int step = 0; step < STEPS && low < high; step++) {
        *size = next;
        int64_t reach = reach_on_smaller(h, cut, h->task->nodes / 8);
        if (reach > 0) {
            keep_on_whole(h, cut);
            high = next;
        } else {
            low = next + 1;
        }
        next = reach > 0 && reach < next ? reach : low + (high - low) / 2;
    }
    if (high < whole) {
        *size = high;
        try_rules(h, h->fresh, cut, h->task->nodes / 4);
    }
    *size = whole;
}

/* A panel that holds a piece long enough for the fence can be held at any cut: see saw_way. */
static bool some_piece_is_short(const struct sheets_task *t)
{
    for (int i = 0; t->saw && i < t->n; i++) {
        const struct piece *p = &t->pieces[i];
        if ((p->w > p->h ? p->w : p->h) - t->saw->kerf < t->saw->at_fence)
            return true;
    }
    return false;
}

static struct hunt start_hunt(const struct sheets_task *t, struct pool *pool)
{
    int most_bins = t->n_offcuts + t->n + 1;
    struct hunt h = {.task = t, .fresh = INT_MAX, .trial = layout_new(pool, t->n, most_bins), .best = layout_new(pool, t->n, most_bins)};
    size_t slabs = (size_t)layout_room(t->n, most_bins);

    h.bins = pool_alloc(pool, (size_t)most_bins * sizeof *h.bins);
    h.order = pool_alloc(pool, (size_t)t->n * sizeof *h.order + 1);
    h.scratch.places = pool_alloc(pool, slabs * sizeof *h.scratch.places);
    h.numbers = pool_alloc(pool, slabs * sizeof *h.numbers);
    h.slabs = pool_alloc(pool, 2 * slabs * sizeof *h.slabs);
    h.saw = some_piece_is_short(t) ? t->saw : NULL;
    for (int i = 0; i < t->n_offcuts; i++)
        h.bins[i] = t->offcuts[i];
    for (int i = 0; i < t->n; i++)
        h.order[i] = i;
    return h;
}

static void hunt_layout(struct hunt *h, int *at_least)
{
    const struct sheets_task *t = h->task;

    use_new_sheets(h, t->n);
    try_rules(h, t->n, SLAB_REST, t->nodes);
    try_everything(h, at_least);
    use_new_sheets(h, h->fresh);
    try_orders(h, *at_least, t->nodes);
    try_safer_orders(h, t->nodes / 4);
    if (h->fresh > 0) {
        keep_large_offcut(h, SLAB_CUT_X);
        keep_large_offcut(h, SLAB_CUT_Y);
    }
}

/* Pieces that may turn are also tried as they lie: turning is a chance, never a loss. */
static void hunt_unturned(const struct sheets_task *t, struct pool *pool, struct hunt *turning, int at_least)
{
    struct piece *fixed = pool_copy(pool, t->pieces, (size_t)t->n * sizeof *fixed);
    bool any = false;

    for (int i = 0; i < t->n; i++) {
        any |= fixed[i].turns;
        fixed[i].turns = false;
        if (!bin_holds(t->sheet, &fixed[i]))
            return;
    }
    if (!any || turning->fresh == at_least)
        return;
    struct sheets_task task = *t;
    task.pieces = fixed;
    struct hunt h = start_hunt(&task, pool);
    int own_bound = at_least;
    hunt_layout(&h, &own_bound);
    if (h.fresh < turning->fresh)
        *turning = h;
}

void sheets_pack(const struct sheets_task *t, struct pool *pool, struct sheets_result *out)
{
    struct pool own = {0};
    struct hunt h = start_hunt(t, &own);
    int at_least = bound_with_offcuts(t->pieces, t->n, t->sheet, t->offcuts, t->n_offcuts);

    hunt_layout(&h, &at_least);
    hunt_unturned(t, &own, &h, at_least);
    out->fresh = h.fresh;
    out->at_least = at_least;
    out->layout = layout_new(pool, t->n, t->n_offcuts + t->n + 1);
    layout_copy(&out->layout, &h.best);
    pool_free(&own);
}
