/* Drawings: title and scale, then the drawing, as high as the squeeze lets it be. */
#include "pages/blocks.h"

#include "words.h"

#include <math.h>

#define SKETCH_SHARE 0.75 /* what is not to scale may become so much smaller than what is */
#define SKETCH_LOSS 0.5   /* and that counts for so much of what it loses */

struct placed_entry {
    struct placed_entry *next;
    const struct drawing *drawing;
    double width, height, size;
    struct placed_drawing placed;
};

/* Placing tries many scales and many places for each label: each drawing is placed once for each box it is tried in. */
static const struct placed_drawing *place_once(const struct setter *setter, const struct drawing *d, double width,
                                               double height, double size)
{
    for (struct placed_entry *e = setter->placings->list; e; e = e->next)
        if (e->drawing == d && e->width == width && e->height == height && e->size == size)
            return &e->placed;
    struct placed_entry *e = pool_alloc(setter->pool, sizeof *e);
    *e = (struct placed_entry){setter->placings->list, d, width, height, size, {.scale = 0}};
    draw_place(d, setter->widths->faces, width, height, size, setter->pool, &e->placed);
    setter->placings->list = e;
    return &e->placed;
}

/* Moving an ink changes the points of its path: this one gets points of its own. */
static struct ink copy_of_ink(const struct ink *ink, struct pool *pool)
{
    struct ink copy = *ink;
    if (copy.kind == INK_PATH)
        copy.as.path.ops = pool_copy(pool, ink->as.path.ops, ink->as.path.n * sizeof *ink->as.path.ops);
    return copy;
}

/* The height asked for, or the next larger at which the scale is not much smaller, and no more labels are left out, than at
   the most. `full` gets the scale at that one. */
static const struct placed_drawing *place_squeezed(const struct setter *setter, const struct block *b, double width,
                                                   double title, double size, double *full)
{
    const struct drawing *d = b->as.drawing.drawing;
    double least = setter->scale * pt_of_mm(b->as.drawing.least_height);
    double most = fmax(least, setter->scale * pt_of_mm(b->as.drawing.most_height)), room = setter->page_height - title;
    const struct placed_drawing *highest = place_once(setter, d, width, fmin(most, room), size);
    double share = setter->scale_least * (d->to_scale ? 1 : SKETCH_SHARE);
    *full = highest->scale;
    for (double squeeze = setter->squeeze; squeeze > 0.01; squeeze -= 0.25) {
        const struct placed_drawing *placed =
            place_once(setter, d, width, fmin(most - squeeze * (most - least), room), size);
        if (placed->n_labels >= highest->n_labels && placed->scale >= share * *full)
            return placed;
    }
    return highest;
}

void set_drawing(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    const struct drawing *d = b->as.drawing.drawing;
    struct rich rich = rich_of(b->as.drawing.style, setter->scale);
    bool titled = d->title && *d->title;
    double title = titled ? 1.25 * rich.leading : 0, full;
    const struct placed_drawing *placed = place_squeezed(setter, b, width, title, rich.size, &full);
    struct slab *slab = slabs_add(out);
    slab->above = 9 * setter->scale;
    if (titled) {
        bool scaled = placed->scale_text && *placed->scale_text;
        const char *text = pool_printf(setter->pool, "%c%s%c%s%s", TEXT_BOLD_ON, d->title, TEXT_BOLD_OFF,
                                       scaled ? NBSP NBSP " " : "", scaled ? placed->scale_text : "");
        title = put_text(setter, &rich, text, 0, 0, width, &slab->inks) + 0.25 * rich.leading;
    }
    double left = titled ? 0 : fmax(0, (width - placed->width) / 2); /* a title and its drawing stand at one edge */
    for (size_t i = 0; i < placed->inks.n; i++) {
        struct ink ink = copy_of_ink(&placed->inks.list[i], setter->pool);
        ink_move(&ink, left, title);
        ink_add(&slab->inks, ink);
    }
    slab->height = title + placed->height;
    slab->scale_share = 1 - (1 - placed->scale / full) * (d->to_scale ? 1 : SKETCH_LOSS);
    slab->left_out = d->n_labels - placed->n_labels;
    slab->true_scale = d->to_scale && fabs(placed->scale - 1) < 1e-9;
}
