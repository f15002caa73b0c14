/* Page breaks.

   best[j] is the least cost of setting the items before j into whole pages; the page that ends at j may begin at any i
   that still fits at some level, so best[j] = min over i and level of best[i] + cost(page i..j at the level). Items are few
   on a page, so this is linear in n. */
#include "pages/breaks.h"

#include "base/mem.h"
#include "pages/metrics.h"

#include <math.h>
#include <stdlib.h>

#define FIT_SLACK 1e-9 /* sums of heights are not exact [pt] */

struct best {
    double cost;
    size_t from, level;
};

static double page_cost(const struct break_item *items, size_t n, size_t from, size_t end, double used,
                        double page_height)
{
    double filled = used / page_height;
    bool last = end == n, only = last && from == 0;
    double cost = BREAK_PAGE;
    if (filled > 1 + 1e-9)
        cost += BREAK_TOO_HIGH * filled;
    if (filled < FILLED_LEAST && !only)
        cost += BREAK_NEARLY_EMPTY;
    if (last)
        return cost;
    if (items[end - 1].keep_with_next)
        cost += BREAK_KEPT;
    if (!items[end].new_page)
        cost += items[end].cost + BREAK_WHITE * (1 - filled) * (1 - filled);
    return cost;
}

/* Of the items from..last, which are one item or rows of one band. */
static double run_height(const struct break_item *from, const struct break_item *last)
{
    double height = 0;
    if (!from->band)
        return from->height;
    for (int c = 0; c < BREAK_COLUMNS; c++)
        height = fmax(height, last->bottom[c] - from->start[c]);
    return height;
}

/* The cheapest beginning of the page that ends before `end`, at one level. */
static void find_page(const struct break_item *items, size_t level, size_t n, size_t end, double page_height,
                      const struct best *best, struct best *least)
{
    double below = 0, asked = BREAK_TIGHTER * (double)level; /* what stands under the run that `from` is in; costs of what stands on the page */
    size_t last = end - 1;       /* of that run */
    for (size_t from = end; from-- > 0;) {
        const struct break_item *item = &items[from];
        bool alone = from + 1 == end;
        if (!alone && !(item->band && item->band == items[from + 1].band)) {
            below += items[from + 1].above + run_height(&items[from + 1], &items[last]);
            last = from;
        }
        double height = run_height(item, &items[last]), used = item->head + height + below;
        if (height + below > page_height + FIT_SLACK && !alone)
            break;
        asked += item->squeezed;
        double cost = best[from].cost + page_cost(items, n, from, end, used, page_height) + asked;
        if (cost < least->cost && (alone || used <= page_height + FIT_SLACK))
            *least = (struct best){cost, from, level};
        if (item->new_page)
            asked += BREAK_NOT_NEW;
    }
}

double breaks_find(const struct break_item *items, size_t levels, size_t n, double page_height, size_t *ends,
                   size_t *level, size_t *n_pages)
{
    struct best *best = mem_alloc((n + 1) * sizeof *best);
    for (size_t end = 1; end <= n; end++) {
        best[end] = (struct best){INFINITY, end - 1, 0};
        for (size_t k = 0; k < levels; k++)
            find_page(items + k * n, k, n, end, page_height, best, &best[end]);
    }
    size_t pages = 0;
    for (size_t end = n; end > 0; end = best[end].from)
        pages++;
    *n_pages = pages;
    for (size_t end = n; end > 0; end = best[end].from) {
        ends[--pages] = end;
        level[pages] = best[end].level;
    }
    double cost = best[n].cost;
    free(best);
    return cost;
}
