/* A bar of known length to hold a rule against, and plain rules. */
#include "pages/blocks.h"

#include <math.h>

/* Across its length the bar is 2.5 mm, the ticks at its ends and in the middle reach 1.2 mm beyond. */
static const double bar_across = 2.5, tick_past = 1.2;

/* From a0 to a1 along the bar, c0 to c1 across it; along an upright bar is up the page. */
static void add_bar_rect(struct inks *inks, const struct block *b, double a0, double a1, double c0, double c1)
{
    if (b->as.bar.upright)
        ink_add_rect(inks, c0, pt_of_mm(b->as.bar.length) - a1, c1, pt_of_mm(b->as.bar.length) - a0, true, COLOR_BLACK,
                     0);
    else
        ink_add_rect(inks, a0, c0, a1, c1, true, COLOR_BLACK, 0);
}

/* All of its ink lies between its ends: from outer edge to outer edge it is as long as it says. */
static void add_bar(struct inks *inks, const struct block *b)
{
    double length = pt_of_mm(b->as.bar.length), tick = pt_of_mm(tick_past), high = pt_of_mm(bar_across),
           line = RULE_THIN;
    double part = length / b->as.bar.parts, at[] = {0, (length - line) / 2, length - line};
    for (int i = 0; i < b->as.bar.parts; i += 2)
        add_bar_rect(inks, b, i * part, (i + 1) * part, tick, tick + high);
    add_bar_rect(inks, b, 0, length, tick, tick + line);
    add_bar_rect(inks, b, 0, length, tick + high - line, tick + high);
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        add_bar_rect(inks, b, at[i], at[i] + line, 0, high + 2 * tick);
}

void set_bar(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    double length = pt_of_mm(b->as.bar.length), high = pt_of_mm(bar_across + 2 * tick_past);
    struct slab *slab = slabs_add(out);
    slab->above = 8 * setter->scale;
    slab->true_scale = true;
    add_bar(&slab->inks, b);
    slab->height = b->as.bar.upright ? length : high;
    if (b->as.bar.upright)
        return;
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
