/* Lists of blocks: the one table of kinds. */
#include "pages/blocks.h"

#define JOIN_COST 200.0   /* of a page break before a block that joins the last: more than a page */
#define BELOW_HEADING 0.4 /* share of its white that a block keeps below a heading: the two belong together */

static set_block_fn *function_of(enum block_kind kind)
{
    switch (kind) {
    case BLOCK_HEADING:
        return set_heading;
    case BLOCK_PARAGRAPH:
        return set_paragraph;
    case BLOCK_TABLE:
        return set_table;
    case BLOCK_STEPS:
        return set_steps;
    case BLOCK_CAUTIONS:
        return set_cautions;
    case BLOCK_BANNER:
        return set_banner;
    case BLOCK_FIGURES:
        return set_figures;
    case BLOCK_DRAWING:
        return set_drawing;
    case BLOCK_BOXES:
        return set_boxes;
    case BLOCK_SIGNATURES:
        return set_signatures;
    case BLOCK_COLUMNS:
        return set_columns;
    case BLOCK_SOURCE:
        return set_source;
    case BLOCK_BAR:
        return set_bar;
    case BLOCK_RULE:
        return set_rule;
    }
    return NULL;
}

void set_blocks(const struct setter *setter, const struct block_list *list, double width, struct slabs *out)
{
    double line = style_of(STYLE_BODY)->leading * setter->scale;
    for (size_t i = 0; i < list->n; i++) {
        const struct block *b = &list->blocks[i];
        size_t first = out->n;
        function_of(b->kind)(setter, b, width, out);
        if (out->n == first)
            continue;
        if (i && list->blocks[i - 1].kind == BLOCK_HEADING)
            out->list[first].above *= BELOW_HEADING;
        out->list[first].above += b->space_before * line;
        out->list[first].new_page = b->new_page;
        out->list[first].break_cost = b->joins_last ? JOIN_COST : 0;
        out->list[first].begins_block = true;
        out->list[first].floats = b->floats;
        out->list[first].fixed = b->new_page || (b->kind == BLOCK_HEADING && b->as.heading.level < 3);
        for (size_t k = first; b->whole && k + 1 < out->n; k++)
            out->list[k].keep_with_next = true;
        out->list[out->n - 1].keep_with_next = b->keep_with_next || b->kind == BLOCK_HEADING;
    }
}

double grid_width(const struct setter *setter, double width, double span)
{
    double gutter = GUTTER * setter->scale;
    return (width + gutter) / 12 * span - gutter;
}

double grid_left(const struct setter *setter, double width, double first)
{
    return (width + GUTTER * setter->scale) / 12 * first;
}

double put_text(const struct setter *setter, const struct rich *rich, const char *text, double x, double y,
                double width, struct inks *inks)
{
    struct lines lines;
    lines_break(setter->widths, setter->pool, rich, text, width, &lines);
    lines_ink(&lines, setter->widths, 0, lines.n, x, y, width, ALIGN_LEFT, inks);
    return lines_height(&lines);
}

void put_polygon(struct inks *inks, const double (*points)[2], size_t n, double x, double y, double unit,
                 struct color color)
{
    struct path_op *ops = pool_alloc(inks->pool, (n + 1) * sizeof *ops);
    for (size_t i = 0; i < n; i++)
        ops[i] = (struct path_op){
            .verb = i ? PATH_LINE : PATH_MOVE, .x = x + unit * points[i][0], .y = y + unit * points[i][1]};
    ops[n] = (struct path_op){.verb = PATH_CLOSE, .x = ops[0].x, .y = ops[0].y};
    struct ink ink = {.kind = INK_PATH};
    ink.as.path.ops = ops;
    ink.as.path.n = n + 1;
    ink.as.path.fill = true;
    ink.as.path.fill_color = color;
    ink_add(inks, ink);
}
