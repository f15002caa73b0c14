/* Columns of the 12-column grid, side by side: a band of rows, between which a page may end. */
#include "pages/blocks.h"

#include <assert.h>
#include <math.h>

#define CUT_COST 14.0        /* of a page break across columns */
#define SHORT_CUT_COST 110.0 /* the same in low ones: more than a page */
#define SHORT_MOST 0.25      /* of a page */
#define UNEVEN_COST 40.0     /* of a break after which a column has nothing left */

static void set_in_columns(const struct setter *setter, const struct block *b, double width, double squeeze,
                           struct band *band)
{
    double at = 0;
    struct setter inner = *setter;
    inner.squeeze = squeeze;
    inner.in_columns = true;
    band->n = b->as.columns.n;
    for (int i = 0; i < band->n; i++) {
        band->columns[i] = (struct slabs){.pool = setter->pool};
        band->x[i] = grid_left(setter, width, at);
        set_blocks(&inner, &b->as.columns.list[i], grid_width(setter, width, b->as.columns.weight[i]),
                   &band->columns[i]);
        at += b->as.columns.weight[i];
    }
}

/* Each row is a slab of one column: the one that ends highest of those that come next. */
static void order_rows(struct band *band, struct pool *pool)
{
    size_t n = 0;
    for (int c = 0; c < band->n; c++)
        n += band->columns[c].n;
    band->n_rows = n;
    band->upto = pool_alloc(pool, (n + 1) * sizeof *band->upto);
    for (size_t r = 0; r < n; r++) {
        size_t *now = band->upto[r], *next = band->upto[r + 1];
        int first = -1;
        double highest = INFINITY;
        for (int c = 0; c < band->n; c++) {
            next[c] = now[c];
            double bottom = now[c] < band->columns[c].n ? slabs_height(&band->columns[c], 0, now[c] + 1) : INFINITY;
            if (bottom < highest) {
                highest = bottom;
                first = c;
            }
        }
        next[first]++;
    }
}

/* No break after a row where a column has not begun, or ends in what belongs to its next. */
static bool stays_together(const struct band *band, size_t row)
{
    const size_t *placed = band->upto[row + 1];
    for (int c = 0; c < band->n; c++) {
        const struct slabs *slabs = &band->columns[c];
        if (slabs->n && (placed[c] == 0 || (placed[c] < slabs->n && slabs->list[placed[c] - 1].keep_with_next)))
            return true;
    }
    return false;
}

static double cost_of_cut(const struct band *band, size_t row)
{
    double cost = 0, uneven = 0;
    for (int c = 0; c < band->n; c++) {
        if (band->upto[row][c] < band->columns[c].n)
            cost = fmax(cost, band->columns[c].list[band->upto[row][c]].break_cost);
        else if (band->columns[c].n)
            uneven = UNEVEN_COST;
    }
    return cost + uneven;
}

static void add_row(const struct setter *setter, const struct band *band, size_t row, double cut, struct slabs *out)
{
    struct slab *slab = slabs_add(out);
    slab->band = band;
    slab->row = row;
    slab->break_cost = cut + cost_of_cut(band, row);
    slab->keep_with_next = row + 1 < band->n_rows && (setter->in_columns || stays_together(band, row));
    for (int c = 0; c < band->n; c++)
        for (size_t k = band->upto[row][c]; k < band->upto[row + 1][c]; k++) {
            const struct slab *inner = &band->columns[c].list[k];
            slab->left_out += inner->left_out;
            slab->true_scale = slab->true_scale || inner->true_scale;
            slab->scale_share += inner->scale_share;
        }
}

/* The rows are those of the columns with drawings as high as they may be: the same for every squeeze. */
void set_columns(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    assert(b->as.columns.n >= 1 && b->as.columns.n <= COLUMNS_MOST && "one to three columns");
    struct band *band = pool_alloc(setter->pool, sizeof *band);
    size_t first = out->n;
    double above = 0, highest = 0;
    set_in_columns(setter, b, width, 0, band);
    order_rows(band, setter->pool);
    if (setter->squeeze > 0)
        set_in_columns(setter, b, width, setter->squeeze, band);
    for (int c = 0; c < band->n; c++) {
        highest = fmax(highest, slabs_height(&band->columns[c], 0, band->columns[c].n));
        above = band->columns[c].n ? fmax(above, band->columns[c].list[0].above) : above;
    }
    for (size_t r = 0; r < band->n_rows; r++)
        add_row(setter, band, r, highest < SHORT_MOST * setter->page_height ? SHORT_CUT_COST : CUT_COST, out);
    if (out->n > first)
        out->list[first].above = above;
}
