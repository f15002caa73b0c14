/* Stacks of slabs. */
#include "pages/slab.h"

#include <math.h>
#include <string.h>

struct slab *slabs_add(struct slabs *slabs)
{
    if (slabs->n == slabs->capacity) {
        size_t capacity = slabs->capacity ? 2 * slabs->capacity : 16;
        struct slab *list = pool_alloc(slabs->pool, capacity * sizeof *list);
        if (slabs->n)
            memcpy(list, slabs->list, slabs->n * sizeof *list);
        slabs->list = list;
        slabs->capacity = capacity;
    }
    struct slab *s = &slabs->list[slabs->n++];
    *s = (struct slab){.inks = {.pool = slabs->pool}};
    return s;
}

static double head_height(const struct slab *s)
{
    return s->head ? s->head->height : 0;
}

/* One past the slabs that stand with slab i: the rows of its band. */
static size_t end_of_run(const struct slabs *slabs, size_t i, size_t end)
{
    size_t j = i + 1;
    while (slabs->list[i].band && j < end && slabs->list[j].band == slabs->list[i].band)
        j++;
    return j;
}

static double run_height(const struct slabs *slabs, size_t from, size_t end)
{
    const struct slab *first = &slabs->list[from];
    double height = 0;
    if (!first->band)
        return first->height;
    const size_t *top = first->band->upto[first->row], *bottom = first->band->upto[slabs->list[end - 1].row + 1];
    for (int c = 0; c < first->band->n; c++)
        height = fmax(height, slabs_height(&first->band->columns[c], top[c], bottom[c]));
    return height;
}

double slabs_height(const struct slabs *slabs, size_t from, size_t end)
{
    double height = 0;
    for (size_t i = from, next; i < end; i = next) {
        next = end_of_run(slabs, i, end);
        height += run_height(slabs, i, next) + (i == from ? head_height(&slabs->list[i]) : slabs->list[i].above);
    }
    return height;
}

double band_start(const struct band *band, size_t row, int column)
{
    const struct slabs *slabs = &band->columns[column];
    size_t next = band->upto[row][column];
    if (next >= slabs->n)
        return INFINITY;
    return slabs_height(slabs, 0, next) + (next ? slabs->list[next].above - head_height(&slabs->list[next]) : 0);
}

double band_bottom(const struct band *band, size_t row, int column)
{
    return slabs_height(&band->columns[column], 0, band->upto[row + 1][column]);
}

static void put_inks(const struct inks *from, bool copy, double x, double y, struct inks *into)
{
    for (size_t i = 0; i < from->n; i++) {
        struct ink ink = from->list[i];
        if (copy && ink.kind == INK_PATH)
            ink.as.path.ops = pool_copy(into->pool, ink.as.path.ops, ink.as.path.n * sizeof *ink.as.path.ops);
        ink_move(&ink, x, y);
        ink_add(into, ink);
    }
}

static void stack_run(const struct slabs *slabs, size_t from, size_t end, double x, double y, struct inks *into)
{
    const struct slab *first = &slabs->list[from];
    put_inks(&first->inks, false, x, y, into);
    if (!first->band)
        return;
    const size_t *top = first->band->upto[first->row], *bottom = first->band->upto[slabs->list[end - 1].row + 1];
    for (int c = 0; c < first->band->n; c++)
        slabs_stack(&first->band->columns[c], top[c], bottom[c], x + first->band->x[c], y, 0, into);
}

double slabs_stack(const struct slabs *slabs, size_t from, size_t end, double x, double y, double stretch,
                   struct inks *into)
{
    double top = y;
    for (size_t i = from, next; i < end; i = next) {
        const struct slab *s = &slabs->list[i];
        next = end_of_run(slabs, i, end);
        if (i > from) {
            double above = s->above + (s->above > 0 ? stretch : 0);
            if (s->rule > 0)
                ink_add_line(into, x, y + 0.6 * above, x + s->rule, y + 0.6 * above, SLAB_RULE_WIDTH, COLOR_BLACK);
            y += above;
        } else if (s->head) {
            put_inks(&s->head->inks, true, x, y, into);
            y += s->head->height;
        }
        stack_run(slabs, i, next, x, y, into);
        y += run_height(slabs, i, next);
    }
    return y - top;
}
