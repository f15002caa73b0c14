/* Paragraphs: a slab a line, so that pages may break between lines but never leave one alone; boxed ones stay whole. */
#include "pages/blocks.h"

#include <math.h>

#define LINE_BREAK_COST 6.0

static double space_above(const struct rich *rich)
{
    return 0.42 * rich->leading;
}

static void set_boxed(const struct setter *setter, const struct rich *rich, const struct block *b, double width,
                      struct slabs *out)
{
    double pad = 0.55 * rich->leading, inner = width - 2 * pad;
    struct lines lines;
    lines_break(setter->widths, setter->pool, rich, b->as.paragraph.text, inner, &lines);
    struct slab *slab = slabs_add(out);
    slab->above = 0.8 * rich->leading;
    slab->height = lines_height(&lines) + pad;
    ink_add_rect(&slab->inks, 0, 0, width, slab->height, false, COLOR_BLACK, RULE_MEDIUM * setter->scale);
    lines_ink(&lines, setter->widths, 0, lines.n, pad, pad / 2, inner, b->as.paragraph.align, &slab->inks);
}

void set_paragraph(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(b->as.paragraph.style, setter->scale);
    if (b->as.paragraph.boxed) {
        set_boxed(setter, &rich, b, width, out);
        return;
    }
    double measure = b->as.paragraph.align == ALIGN_LEFT ? fmin(width, MEASURE_MOST_EMS * rich.size) : width;
    struct lines lines;
    lines_break(setter->widths, setter->pool, &rich, b->as.paragraph.text, measure, &lines);
    for (size_t i = 0; i < lines.n; i++) {
        struct slab *slab = slabs_add(out);
        slab->above = i ? 0 : space_above(&rich);
        slab->height = rich.leading;
        slab->break_cost = LINE_BREAK_COST;
        slab->keep_with_next = i + 1 < lines.n && (i == 0 || i + 2 == lines.n);
        lines_ink(&lines, setter->widths, i, i + 1, 0, 0, measure, b->as.paragraph.align, &slab->inks);
    }
}
