/* Columns of the 12-column grid, side by side. They stand in one slab; columns too high for the page become several,
   each column going on where it stopped. */
#include "pages/blocks.h"

#include <assert.h>
#include <math.h>

enum { COLUMNS_MOST = 3 };

struct column {
    struct slabs slabs;
    double x, width;
    size_t next; /* the first slab not yet placed */
};

static bool all_placed(const struct column *columns, int n)
{
    for (int i = 0; i < n; i++)
        if (columns[i].next < columns[i].slabs.n)
            return false;
    return true;
}

static void set_band(struct column *columns, int n, double most, struct slabs *out)
{
    struct slab *slab = slabs_add(out);
    for (int i = 0; i < n; i++) {
        struct column *c = &columns[i];
        if (c->next >= c->slabs.n)
            continue;
        size_t end = slabs_fit(&c->slabs, c->next, most);
        slab->height = fmax(slab->height, slabs_stack(&c->slabs, c->next, end, c->x, 0, 0, &slab->inks));
        for (size_t k = c->next; k < end; k++) {
            slab->left_out += c->slabs.list[k].left_out;
            slab->true_scale = slab->true_scale || c->slabs.list[k].true_scale;
        }
        c->next = end;
    }
}

void set_columns(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    int n = b->as.columns.n;
    assert(n >= 1 && n <= COLUMNS_MOST && "one to three columns");
    struct column columns[COLUMNS_MOST] = {0};
    double at = 0, highest = 0, above = 0, most = setter->columns_most * setter->page_height;
    for (int i = 0; i < n; i++) {
        struct column *c = &columns[i];
        c->slabs.pool = setter->pool;
        c->x = grid_left(setter, width, at);
        c->width = grid_width(setter, width, b->as.columns.weight[i]);
        set_blocks(setter, &b->as.columns.list[i], c->width, &c->slabs);
        highest = fmax(highest, slabs_height(&c->slabs, 0, c->slabs.n));
        above = c->slabs.n ? fmax(above, c->slabs.list[0].above) : above;
        at += b->as.columns.weight[i];
    }
    size_t first = out->n;
    while (!all_placed(columns, n))
        set_band(columns, n, highest > most ? highest / ceil(highest / most) : INFINITY, out);
    for (size_t i = first; i < out->n; i++)
        out->list[i].above = i == first ? above : style_of(STYLE_BODY)->leading * setter->scale / 2;
}
