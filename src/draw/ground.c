/* The squares of the ground. */
#include "draw/ground.h"

#include <math.h>
#include <stdlib.h>

struct range {
    int x0, y0, x1, y1; /* last ones included */
};

static int square_of(double at, double low, double high)
{
    return (int)fmax(0, fmin(GROUND_SQUARES - 1, (at - low) / (high - low) * GROUND_SQUARES));
}

static struct range range_of(const struct ground *g, const struct rect *box)
{
    return (struct range){square_of(box->x0, g->box.x0, g->box.x1), square_of(box->y0, g->box.y0, g->box.y1),
                          square_of(box->x1, g->box.x0, g->box.x1), square_of(box->y1, g->box.y0, g->box.y1)};
}

void ground_add(struct ground *g, const struct rect *box, int item)
{
    struct range r = range_of(g, box);
    for (int y = r.y0; y <= r.y1; y++)
        for (int x = r.x0; x <= r.x1; x++) {
            g->entries = mem_grow(g->entries, g->n, &g->capacity, sizeof *g->entries);
            g->entries[g->n++] = (struct ground_entry){item, g->newest[y][x]};
            g->newest[y][x] = (int)g->n;
        }
}

bool ground_holds(const struct ground *g, const struct rect *box,
                  bool (*is_the_one)(const void *context, int item, const struct rect *), const void *context)
{
    struct range r = range_of(g, box);
    for (int y = r.y0; y <= r.y1; y++)
        for (int x = r.x0; x <= r.x1; x++)
            for (int e = g->newest[y][x]; e > 0; e = g->entries[e - 1].older)
                if (is_the_one(context, g->entries[e - 1].item, box))
                    return true;
    return false;
}

void ground_free(struct ground *g)
{
    free(g->entries);
    *g = (struct ground){0};
}
