/* Stacks of slabs. */
#include "pages/slab.h"

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

double slabs_height(const struct slabs *slabs, size_t from, size_t end)
{
    double height = 0;
    for (size_t i = from; i < end; i++)
        height += slabs->list[i].height + (i == from ? head_height(&slabs->list[i]) : slabs->list[i].above);
    return height;
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

double slabs_stack(const struct slabs *slabs, size_t from, size_t end, double x, double y, double stretch,
                   struct inks *into)
{
    double top = y;
    for (size_t i = from; i < end; i++) {
        const struct slab *s = &slabs->list[i];
        if (i > from) {
            double above = s->above + (s->above > 0 ? stretch : 0);
            if (s->rule > 0)
                ink_add_line(into, x, y + 0.6 * above, x + s->rule, y + 0.6 * above, SLAB_RULE_WIDTH, COLOR_BLACK);
            y += above;
        } else if (s->head) {
            put_inks(&s->head->inks, true, x, y, into);
            y += s->head->height;
        }
        put_inks(&s->inks, false, x, y, into);
        y += s->height;
    }
    return y - top;
}

size_t slabs_fit(const struct slabs *slabs, size_t from, double most)
{
    size_t end = from + 1;
    while (end < slabs->n && slabs_height(slabs, from, end + 1) <= most)
        end++;
    if (end >= slabs->n)
        return slabs->n;
    size_t kept = end;
    while (kept > from + 1 && slabs->list[kept - 1].keep_with_next)
        kept--;
    return slabs->list[kept - 1].keep_with_next ? end : kept;
}
