/* Figures: up to four numbers read from afar, each over its label, in equal cells between rules. Where they do not fit
   beside each other, two stand in a row, then one: they never shrink below STYLE_FAR. */
#include "pages/blocks.h"

#include "words.h"

#include <math.h>

static const double sizes[] = {40, 36, 33, 30}; /* the largest that fits [pt] */

#define LABEL_GAP 1.5 /* between a number and its label [pt] */

struct cell_style {
    struct rich number; /* the unit is its bold = false part */
    struct rich label;
};

static struct cell_style style_at(const struct setter *setter, double size)
{
    struct cell_style s = {rich_of(STYLE_FAR, setter->scale), rich_of(STYLE_BODY, setter->scale)};
    s.number.bold_size = size * setter->scale;
    s.number.size = style_of(STYLE_LEAD)->size * setter->scale;
    s.number.leading = 1.07 * s.number.bold_size;
    return s;
}

static const char *number_text(struct pool *pool, const struct figure_item *item)
{
    const char *unit = item->unit ? item->unit : "";
    return pool_printf(pool, "%c%s%c%s%s", TEXT_BOLD_ON, item->number, TEXT_BOLD_OFF, *unit ? THIN : "", unit);
}

static bool all_fit(const struct setter *setter, const struct cell_style *style, const struct block *b, double width)
{
    for (int i = 0; i < b->as.figures.n; i++)
        if (lines_natural_width(setter->widths, &style->number, number_text(setter->pool, &b->as.figures.items[i])) >
            width)
            return false;
    return true;
}

/* As many to a row as fit, at the largest size that fits. */
static int choose_row(const struct setter *setter, const struct block *b, double width, struct cell_style *style)
{
    for (int row = b->as.figures.n < 4 ? b->as.figures.n : 4; row >= 1; row--) {
        double cell = grid_width(setter, width, 12.0 / row);
        for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
            *style = style_at(setter, sizes[i]);
            if (all_fit(setter, style, b, cell))
                return row;
        }
    }
    return 1;
}

static void set_row(const struct setter *setter, const struct cell_style *style, const struct figure_item *items, int n,
                    int row, double width, struct slabs *out)
{
    double scale = setter->scale, top = 3 * scale, deepest = 0, cell = grid_width(setter, width, 12.0 / row);
    struct slab *slab = slabs_add(out);
    for (int i = 0; i < n; i++) {
        double x = grid_left(setter, width, 12.0 / row * i);
        double y =
            top + put_text(setter, &style->number, number_text(setter->pool, &items[i]), x, top, cell, &slab->inks);
        y += LABEL_GAP * scale;
        y += put_text(setter, &style->label, items[i].label, x, y, cell, &slab->inks);
        deepest = fmax(deepest, y);
    }
    slab->height = deepest + 3 * scale;
    for (int i = 1; i < n; i++) {
        double x = grid_left(setter, width, 12.0 / row * i) - 0.55 * GUTTER * scale;
        ink_add_line(&slab->inks, x, 0, x, slab->height, RULE_THIN * scale, COLOR_BLACK);
    }
    ink_add_line(&slab->inks, 0, 0, width, 0, RULE_MEDIUM * scale, COLOR_BLACK);
    ink_add_line(&slab->inks, 0, slab->height, width, slab->height, RULE_MEDIUM * scale, COLOR_BLACK);
}

void set_figures(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    if (b->as.figures.n < 1)
        return;
    struct cell_style style;
    int row = choose_row(setter, b, width, &style);
    if (row == 3 && b->as.figures.n == 4)
        row = 2;
    for (int i = 0; i < b->as.figures.n; i += row) {
        size_t at = out->n;
        set_row(setter, &style, b->as.figures.items + i, b->as.figures.n - i < row ? b->as.figures.n - i : row, row,
                width, out);
        out->list[at].above = i ? 0 : 7 * setter->scale;
        out->list[at].keep_with_next = i + row < b->as.figures.n;
    }
}
