/* Drawings: title and scale, then the drawing, as high as the squeeze lets it be. */
#include "pages/blocks.h"

#include "words.h"

#include <math.h>

static double box_height(const struct setter *setter, const struct block *b, double title)
{
    double least = setter->scale * pt_of_mm(b->as.drawing.least_height);
    double most = fmax(least, setter->scale * pt_of_mm(b->as.drawing.most_height));
    double height = most - setter->squeeze * (most - least);
    return fmin(height, setter->page_height - title);
}

void set_drawing(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    const struct drawing *d = b->as.drawing.drawing;
    struct rich rich = rich_of(b->as.drawing.style, setter->scale);
    bool titled = d->title && *d->title;
    double title = titled ? 1.25 * rich.leading : 0;
    struct placed_drawing placed = {0};
    draw_place(d, setter->widths->faces, width, box_height(setter, b, title), rich.size, setter->pool, &placed);
    struct slab *slab = slabs_add(out);
    slab->above = 9 * setter->scale;
    if (titled) {
        bool scaled = placed.scale_text && *placed.scale_text;
        const char *text = pool_printf(setter->pool, "%c%s%c%s%s", TEXT_BOLD_ON, d->title, TEXT_BOLD_OFF,
                                       scaled ? NBSP NBSP " " : "", scaled ? placed.scale_text : "");
        title = put_text(setter, &rich, text, 0, 0, width, &slab->inks) + 0.25 * rich.leading;
    }
    double left = titled ? 0 : fmax(0, (width - placed.width) / 2); /* a title and its drawing stand at one edge */
    for (size_t i = 0; i < placed.inks.n; i++) {
        ink_move(&placed.inks.list[i], left, title);
        ink_add(&slab->inks, placed.inks.list[i]);
    }
    slab->height = title + placed.height;
    slab->true_scale = d->to_scale && fabs(placed.scale - 1) < 1e-9;
}
