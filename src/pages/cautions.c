/* Cautions: a signal panel and, beside it, the sentence; the panels of one block are equally wide. */
#include "pages/blocks.h"

#include <math.h>

static double widest_panel(const struct setter *setter, const struct rich *rich, const struct block *b)
{
    double widest = 0;
    for (int i = 0; i < b->as.cautions.n; i++)
        if (b->as.cautions.items[i].signal != SIGNAL_NONE)
            widest = fmax(widest, signal_panel_width(setter, rich, b->as.cautions.items[i].signal));
    return widest;
}

void set_cautions(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(b->as.cautions.style, setter->scale);
    double panel = widest_panel(setter, &rich, b), height = signal_panel_height(&rich);
    double left = panel > 0 ? panel + 0.7 * rich.size : 0, measure = fmin(width - left, MEASURE_MOST_EMS * rich.size);
    for (int i = 0; i < b->as.cautions.n; i++) {
        const struct caution_item *item = &b->as.cautions.items[i];
        struct slab *slab = slabs_add(out);
        slab->above = (i ? 0.32 : 0.5) * rich.leading;
        slab->break_cost = 3;
        put_signal_panel(setter, &rich, item->signal, 0, 0, panel, &slab->inks);
        double top = item->signal == SIGNAL_NONE ? 0 : (height - rich.leading) / 2;
        slab->height = top + put_text(setter, &rich, item->text, left, top, measure, &slab->inks);
        if (item->signal != SIGNAL_NONE)
            slab->height = fmax(slab->height, height);
    }
}
