/* Lines to sign on, side by side, each with its label below. */
#include "pages/blocks.h"

#include <math.h>

void set_signatures(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    if (b->as.signatures.n < 1)
        return;
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    double room = pt_of_mm(11), span = 12.0 / b->as.signatures.n, deepest = 0;
    struct slab *slab = slabs_add(out);
    for (int i = 0; i < b->as.signatures.n; i++) {
        double x = grid_left(setter, width, span * i), w = grid_width(setter, width, span);
        ink_add_line(&slab->inks, x, room, x + w, room, RULE_THIN * setter->scale, COLOR_BLACK);
        deepest = fmax(deepest, put_text(setter, &rich, b->as.signatures.labels[i], x, room + 1, w, &slab->inks));
    }
    slab->above = 6 * setter->scale;
    slab->height = room + 1 + deepest;
}
