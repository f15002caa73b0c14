/* A sum with boxes to fill in by pencil: texts and boxes on one line, going on below where the width ends; what a box
   is for stands under it. */
#include "pages/blocks.h"

#include <math.h>

#define BOX_HEIGHT_MM 8.0

struct sum_cursor {
    double x;     /* where the next item begins */
    double high;  /* box's height, or the text's */
    double below; /* of the captions */
};

static double text_width(const struct setter *setter, const struct rich *text, const struct box_item *item)
{
    double own = item->text && *item->text ? lines_natural_width(setter->widths, text, item->text) : 0;
    return fmax(own, pt_of_mm(item->text_width));
}

/* What the job tells is in its box already: a number or a word that fits it. */
static void put_inside(const struct setter *setter, const struct rich *text, const struct box_item *item, double x,
                       double w, struct inks *inks)
{
    struct rich bold = rich_bolder(*text);
    struct lines lines;
    lines_break(setter->widths, setter->pool, &bold, item->inside, w, &lines);
    lines_ink(&lines, setter->widths, 0, lines.n, x, (pt_of_mm(BOX_HEIGHT_MM) - lines_height(&lines)) / 2, w,
              ALIGN_CENTRE, inks);
}

static double item_width(const struct setter *setter, const struct rich *text, const struct box_item *item)
{
    double w = text_width(setter, text, item);
    return w + (item->width > 0 ? pt_of_mm(item->width) + (w > 0 ? 0.4 * text->size : 0) : 0);
}

static void put_item(const struct setter *setter, const struct rich *text, const struct rich *small,
                     const struct box_item *item, double width, struct sum_cursor *c, struct inks *inks)
{
    double high = pt_of_mm(BOX_HEIGHT_MM);
    if (item->text && *item->text) {
        struct lines lines;
        lines_break(setter->widths, setter->pool, text, item->text, width - c->x, &lines);
        lines_ink(&lines, setter->widths, 0, lines.n, c->x, (high - text->leading) / 2, lines.widest, ALIGN_LEFT, inks);
        c->high = fmax(c->high, (high - text->leading) / 2 + lines_height(&lines));
        c->x += fmax(lines.widest, pt_of_mm(item->text_width)) + (item->width > 0 ? 0.4 * text->size : 0);
    }
    if (item->width <= 0)
        return;
    double w = pt_of_mm(item->width);
    ink_add_rect(inks, c->x, 0, c->x + w, high, false, COLOR_BLACK, RULE_MEDIUM * setter->scale);
    c->high = fmax(c->high, high);
    if (item->inside && *item->inside)
        put_inside(setter, text, item, c->x, w, inks);
    if (item->caption && *item->caption) {
        struct lines lines;
        lines_break(setter->widths, setter->pool, small, item->caption, w, &lines);
        lines_ink(&lines, setter->widths, 0, lines.n, c->x, high + 1, w, ALIGN_CENTRE, inks);
        c->below = fmax(c->below, 1 + lines_height(&lines));
    }
    c->x += w;
}

void set_boxes(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich text = rich_of(STYLE_LEAD, setter->scale), small = rich_of(STYLE_SMALL, setter->scale);
    double gap = 0.5 * text.size;
    for (int i = 0; i < b->as.boxes.n;) {
        struct sum_cursor c = {0};
        struct slab *slab = slabs_add(out);
        slab->above = (i ? 6 : 9) * setter->scale;
        slab->break_cost = 20;
        do {
            put_item(setter, &text, &small, &b->as.boxes.items[i++], width, &c, &slab->inks);
            c.x += gap;
        } while (i < b->as.boxes.n && c.x + item_width(setter, &text, &b->as.boxes.items[i]) <= width);
        slab->height = c.high + c.below;
        slab->keep_with_next = i < b->as.boxes.n;
    }
}
