/* Page breaks.

   best[j] is the least cost of setter the items before j into whole pages; the page that ends at j may begin at any i
   that still fits, so best[j] = min over i of best[i] + cost(page i..j). Items are few on a page, so this is linear in
   n. */
#include "pages/breaks.h"

#include "base/mem.h"
#include "pages/metrics.h"

#include <math.h>
#include <stdlib.h>

#define FIT_SLACK 1e-9 /* sums of heights are not exact [pt] */

struct best {
    double cost;
    size_t from;
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

/* The cheapest beginning of the page that ends before `end`. */
static struct best find_page(const struct break_item *items, size_t n, size_t end, double page_height,
                             const struct best *best)
{
    struct best least = {INFINITY, end - 1};
    double below = 0, not_new = 0;
    for (size_t from = end; from-- > 0;) {
        bool alone = from + 1 == end;
        if (items[from].height + below > page_height + FIT_SLACK && !alone)
            break;
        double used = items[from].head + items[from].height + below;
        double cost = best[from].cost + page_cost(items, n, from, end, used, page_height) + not_new;
        if (cost < least.cost && (alone || used <= page_height + FIT_SLACK))
            least = (struct best){cost, from};
        below += items[from].above + items[from].height;
        if (items[from].new_page)
            not_new += BREAK_NOT_NEW;
    }
    return least;
}

double breaks_find(const struct break_item *items, size_t n, double page_height, size_t *ends, size_t *n_pages)
{
    struct best *best = mem_alloc((n + 1) * sizeof *best);
    for (size_t end = 1; end <= n; end++)
        best[end] = find_page(items, n, end, page_height, best);
    size_t pages = 0;
    for (size_t end = n; end > 0; end = best[end].from)
        pages++;
    *n_pages = pages;
    for (size_t end = n; end > 0; end = best[end].from)
        ends[--pages] = end;
    double cost = best[n].cost;
    free(best);
    return cost;
}
