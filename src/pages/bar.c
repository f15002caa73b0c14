/* A bar of known length to hold a rule against, and plain rules. */
#include "pages/blocks.h"

#include <math.h>

enum { BAR_PARTS = 10 };

void set_bar(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    double length = pt_of_mm(b->as.bar.length), high = pt_of_mm(2.5), line = RULE_THIN;
    struct slab *slab = slabs_add(out);
    slab->above = 8 * setter->scale;
    slab->true_scale = true;
    for (int i = 0; i < BAR_PARTS; i += 2)
        ink_add_rect(&slab->inks, length * i / BAR_PARTS, 0, length * (i + 1) / BAR_PARTS, high, true, COLOR_BLACK, 0);
    ink_add_line(&slab->inks, 0, line / 2, length, line / 2, line, COLOR_BLACK);
    ink_add_line(&slab->inks, 0, high - line / 2, length, high - line / 2, line, COLOR_BLACK);
    ink_add_line(&slab->inks, length - line / 2, 0, length - line / 2, high, line, COLOR_BLACK);
    double gap = 0.8 * rich.size, beside = width - length - gap;
    bool right = lines_natural_width(setter->widths, &rich, b->as.bar.label) <= beside;
    double x = right ? length + gap : 0, y = right ? (high - rich.leading) / 2 : high + 2 * setter->scale;
    if (y < 0) { /* the label is higher than the bar: both move down, the bar stays in the middle */
        for (size_t i = 0; i < slab->inks.n; i++)
            ink_move(&slab->inks.list[i], 0, -y);
        high -= y;
        y = 0;
    }
    slab->height = fmax(high, y + put_text(setter, &rich, b->as.bar.label, x, y, right ? beside : width, &slab->inks));
}

void set_rule(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    (void)b;
    struct slab *slab = slabs_add(out);
    slab->above = 8 * setter->scale;
    slab->height = RULE_THIN * setter->scale;
    ink_add_line(&slab->inks, 0, slab->height / 2, width, slab->height / 2, slab->height, COLOR_BLACK);
}
