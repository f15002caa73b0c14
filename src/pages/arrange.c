/* A sheet's blocks on pages. Drawings give way page by page, at one of a few levels, and that is weighed together with
   the breaks. Where a page still ends in much white because a drawing that may float does not fit it, what follows is tried
   before the drawing. */
#include "pages/arrange.h"

#include "pages/breaks.h"

#include <stdlib.h>
#include <string.h>

#define SQUEEZE_COST 80.0 /* times the share of its scale that a drawing loses */
#define SCALE_LEAST 0.59  /* share of its scale that a drawing keeps: 1 : 5 may become 1 : 8, not 1 : 10 */
#define WHITE_GIVES 0.45  /* share of the white between blocks that goes at the highest level */
#define FLOAT_COST 4.0    /* of each block that comes before a drawing which it should follow */
#define MUCH_WHITE 0.12   /* of a page: worth a trial */
enum { FLOAT_MOST = 4, FLOAT_TRIALS = 60 };

static const double squeezes[] = {0, 0.35, 0.7, 1};
enum { LEVELS = sizeof squeezes / sizeof *squeezes };

/* The slabs of every level, and the order in which their groups are tried: a group is what is kept together from the
   beginning of a block. */
struct trial {
    const struct slabs *sets;
    size_t levels, n;
    double page_height;
    struct group {
        size_t from, end; /* slabs */
        bool floats, fixed;
    } *groups;
    size_t n_groups;
    size_t *slab; /* by place: index in the sets */
    struct break_item *items, *ordered;
    size_t *ends, *level, n_pages;
    double cost;
};

static struct break_item item_of(const struct slab *s, int *band, const struct slab *before, double squeezed)
{
    struct break_item item = {
        .above = s->above,
        .height = s->height,
        .head = s->head ? s->head->height : 0,
        .cost = s->break_cost,
        .squeezed = squeezed,
        .keep_with_next = s->keep_with_next,
        .new_page = s->new_page,
    };
    if (!s->band)
        return item;
    if (!before || before->band != s->band)
        ++*band;
    item.band = *band;
    for (int c = 0; c < s->band->n; c++) {
        item.start[c] = band_start(s->band, s->row, c);
        item.bottom[c] = band_bottom(s->band, s->row, c);
    }
    return item;
}

static void make_items(struct trial *t)
{
    t->items = mem_alloc(t->levels * t->n * sizeof *t->items);
    t->ordered = mem_alloc(t->levels * t->n * sizeof *t->ordered);
    for (size_t k = 0; k < t->levels; k++) {
        int band = 0;
        for (size_t i = 0; i < t->n; i++) {
            const struct slab *s = &t->sets[k].list[i];
            double full = t->sets[0].list[i].scale_share, lost = full > 0 ? 1 - s->scale_share / full : 0;
            t->items[k * t->n + i] = item_of(s, &band, i ? s - 1 : NULL, SQUEEZE_COST * lost);
        }
    }
}

static void make_groups(struct trial *t)
{
    const struct slab *list = t->sets[0].list;
    t->groups = mem_alloc((t->n + 1) * sizeof *t->groups);
    for (size_t i = 0; i < t->n; i++) {
        if (i == 0 || (list[i].begins_block && !list[i - 1].keep_with_next))
            t->groups[t->n_groups++] = (struct group){.from = i, .floats = list[i].floats, .fixed = list[i].fixed};
        t->groups[t->n_groups - 1].end = i + 1;
    }
}

static void find_breaks(struct trial *t)
{
    size_t place = 0;
    for (size_t g = 0; g < t->n_groups; g++)
        for (size_t i = t->groups[g].from; i < t->groups[g].end; i++, place++) {
            t->slab[place] = i;
            for (size_t k = 0; k < t->levels; k++)
                t->ordered[k * t->n + place] = t->items[k * t->n + i];
        }
    t->cost = breaks_find(t->ordered, t->levels, t->n, t->page_height, t->ends, t->level, &t->n_pages);
}

static struct trial begin_trial(const struct slabs *sets, size_t levels, double page_height)
{
    struct trial t = {.sets = sets, .levels = levels, .n = sets[0].n, .page_height = page_height};
    t.slab = mem_alloc((t.n + 1) * sizeof *t.slab);
    t.ends = mem_alloc((t.n + 1) * sizeof *t.ends);
    t.level = mem_alloc((t.n + 1) * sizeof *t.level);
    make_items(&t);
    make_groups(&t);
    find_breaks(&t);
    return t;
}

static void end_trial(struct trial *t, struct arrangement *out)
{
    struct pool *pool = t->sets[0].pool;
    *out = (struct arrangement){.slabs = {.pool = pool}, .n_pages = t->n_pages, .cost = t->cost};
    out->ends = pool_copy(pool, t->ends, (t->n + 1) * sizeof *t->ends);
    for (size_t p = 0, i = 0; p < t->n_pages; p++)
        for (; i < t->ends[p]; i++)
            *slabs_add(&out->slabs) = t->sets[t->level[p]].list[t->slab[i]];
    free(t->slab);
    free(t->ends);
    free(t->level);
    free(t->items);
    free(t->ordered);
    free(t->groups);
}

/* ---- floats ---- */

/* The group whose first slab stands at a place. */
static size_t group_at(const struct trial *t, size_t place)
{
    size_t at = 0, g = 0;
    while (at + (t->groups[g].end - t->groups[g].from) <= place)
        at += t->groups[g].end - t->groups[g].from, g++;
    return g;
}

static double white_of_page(const struct trial *t, size_t p)
{
    size_t from = p ? t->ends[p - 1] : 0;
    struct slabs page = {.n = t->ends[p] - from};
    page.list = mem_alloc(page.n * sizeof *page.list);
    for (size_t i = 0; i < page.n; i++)
        page.list[i] = t->sets[t->level[p]].list[t->slab[from + i]];
    double white = 1 - slabs_height(&page, 0, page.n) / t->page_height;
    free(page.list);
    return white;
}

/* Group g comes after the next `by`; nothing changes where something there is fixed or it does not pay. */
static bool try_float(struct trial *t, size_t g, size_t by)
{
    struct group moved = t->groups[g];
    double before = t->cost;
    if (g + by >= t->n_groups || t->groups[g + by].fixed)
        return false;
    memmove(&t->groups[g], &t->groups[g + 1], by * sizeof moved);
    t->groups[g + by] = moved;
    find_breaks(t);
    if (t->cost + FLOAT_COST * (double)by < before) {
        t->cost += FLOAT_COST * (double)by;
        return true;
    }
    memmove(&t->groups[g + 1], &t->groups[g], by * sizeof moved);
    t->groups[g] = moved;
    find_breaks(t);
    return false;
}

/* The first group of page p or one of the next after it that floats. */
static bool fill_page(struct trial *t, size_t p, int *trials)
{
    size_t g = group_at(t, t->ends[p]);
    if (!t->groups[g].floats)
        return false;
    for (size_t by = 1; by <= FLOAT_MOST && *trials > 0; by++, --*trials) {
        if (g + by >= t->n_groups || t->groups[g + by].fixed)
            return false;
        if (try_float(t, g, by))
            return true;
    }
    return false;
}

static void let_drawings_float(struct trial *t)
{
    int trials = FLOAT_TRIALS;
    for (size_t p = 0; p + 1 < t->n_pages && trials > 0;)
        p = white_of_page(t, p) > MUCH_WHITE && fill_page(t, p, &trials) ? 0 : p + 1;
}

/* ---- both ---- */

void arrange_set(const struct slabs *slabs, double page_height, struct arrangement *out)
{
    struct trial t = begin_trial(slabs, 1, page_height);
    end_trial(&t, out);
}

static void tighten(struct slabs *slabs, double share)
{
    for (size_t i = 0; i < slabs->n; i++) {
        const struct band *band = slabs->list[i].band;
        slabs->list[i].above *= share;
        for (int c = 0; band && slabs->list[i].row == 0 && c < band->n; c++) {
            struct slabs inner = band->columns[c];
            tighten(&inner, share);
        }
    }
}

void arrange_blocks(const struct setter *setter, const struct block_list *blocks, double width, struct arrangement *out)
{
    struct slabs sets[LEVELS];
    for (size_t k = 0; k < LEVELS; k++) {
        struct setter at = *setter;
        at.squeeze = squeezes[k];
        at.scale_least = SCALE_LEAST;
        sets[k] = (struct slabs){.pool = setter->pool};
        set_blocks(&at, blocks, width, &sets[k]);
        tighten(&sets[k], 1 - WHITE_GIVES * squeezes[k]);
    }
    struct trial t = begin_trial(sets, LEVELS, setter->page_height);
    let_drawings_float(&t);
    end_trial(&t, out);
}
