/* Blocks and their growing lists, all in the sheet's pool. */
#include "sheet/blocks.h"

#include <assert.h>
#include <string.h>

/* Room for one more in a list that doubles at 4, 8, 16 …; earlier copies stay in the pool until it is freed. */
static void *grow_in_pool(struct pool *pool, void *items, int n, size_t element)
{
    bool full = n == 0 || (n >= 4 && (n & (n - 1)) == 0);
    if (!full)
        return items;
    void *larger = pool_alloc(pool, (n == 0 ? 4 : 2 * (size_t)n) * element);
    if (n > 0)
        memcpy(larger, items, (size_t)n * element);
    return larger;
}

void block_append(const struct sheet_builder *b, struct block_list *list, struct block block)
{
    list->blocks = grow_in_pool(b->pool, list->blocks, (int)list->n, sizeof *list->blocks);
    list->blocks[list->n++] = block;
}

void block_heading(const struct sheet_builder *b, struct block_list *list, int level, struct saying saying)
{
    struct block block = {.kind = BLOCK_HEADING, .keep_with_next = true};
    block.as.heading.level = level;
    block.as.heading.text = print_saying(b, saying);
    block.as.heading.aside = "";
    block_append(b, list, block);
}

static struct block make_paragraph(enum text_style style, const char *text)
{
    struct block block = {.kind = BLOCK_PARAGRAPH};
    block.as.paragraph.style = style;
    block.as.paragraph.text = text;
    return block;
}

void block_text(const struct sheet_builder *b, struct block_list *list, enum text_style style, const char *text)
{
    block_append(b, list, make_paragraph(style, text));
}

void block_paragraph(const struct sheet_builder *b, struct block_list *list, enum text_style style,
                     struct saying saying)
{
    block_text(b, list, style, print_saying(b, saying));
}

void block_boxed(const struct sheet_builder *b, struct block_list *list, enum text_style style, const char *text)
{
    struct block block = make_paragraph(style, text);
    block.as.paragraph.boxed = true;
    block_append(b, list, block);
}

void block_keep_with_next(struct block_list *list)
{
    if (list->n > 0)
        list->blocks[list->n - 1].keep_with_next = true;
}

void block_keep_from(struct block_list *list, size_t first)
{
    for (size_t i = first; i + 1 < list->n; i++)
        list->blocks[i].keep_with_next = true;
}

void block_let_float(struct block_list *list)
{
    if (list->n > 0)
        list->blocks[list->n - 1].floats = true;
}

void block_note_text(const struct sheet_builder *b, struct block_list *list, const char *text)
{
    block_keep_with_next(list);
    block_text(b, list, STYLE_SMALL, text);
    list->blocks[list->n - 1].whole = true;
}

void block_note(const struct sheet_builder *b, struct block_list *list, const char *key)
{
    block_note_text(b, list, print_word(b, key));
}

void block_bar(const struct sheet_builder *b, struct block_list *list, bool upright)
{
    struct block block = {.kind = BLOCK_BAR};
    bool inches = b->units == UNITS_IN;
    block.as.bar.length = inches ? 4 * MM_PER_INCH : 100;
    block.as.bar.parts = inches ? 8 : 10;
    block.as.bar.upright = upright;
    block.as.bar.label = upright ? "" : print_word(b, inches ? "sheet.bar_in" : "sheet.bar_mm");
    block_append(b, list, block);
}

void block_drawing(const struct sheet_builder *b, struct block_list *list, struct drawing drawing,
                   enum text_style style, double least, double most)
{
    struct block block = {.kind = BLOCK_DRAWING};
    block.as.drawing.drawing = pool_copy(b->pool, &drawing, sizeof drawing);
    block.as.drawing.style = style;
    block.as.drawing.least_height = least;
    block.as.drawing.most_height = most;
    block_append(b, list, block);
}

void block_columns(const struct sheet_builder *b, struct block_list *list, int n, const struct block_list *lists,
                   const double *weights)
{
    struct block block = {.kind = BLOCK_COLUMNS};
    assert(n >= 2 && n <= 3 && "a row has two or three columns");
    block.as.columns.n = n;
    for (int i = 0; i < n; i++) {
        block.as.columns.list[i] = lists[i];
        block.as.columns.weight[i] = weights[i];
    }
    block_append(b, list, block);
}

static const char *join_items(const struct sheet_builder *b, const char *const *texts, size_t n)
{
    const char *lines = "";
    for (size_t i = 0; i < n; i++)
        lines = pool_printf(b->pool, "%s%s%s", lines, i ? "\n" : "",
                            print_saying(b, SAYING("sheet.item", SAY_STR("text", texts[i]))));
    return lines;
}

/* How many lines a text takes in half a page, about: that columns end at one height. */
static size_t guess_lines(const char *text)
{
    enum { CHARACTERS = 52 };
    return 1 + strlen(text) / CHARACTERS;
}

/* One past the last item of a column that takes its share of the lines. */
static size_t end_of_column(const char *const *texts, size_t n, size_t from, size_t share)
{
    size_t end = from, lines = 0;
    while (end < n && (end == from || lines + guess_lines(texts[end]) <= share))
        lines += guess_lines(texts[end++]);
    return end;
}

void block_items(const struct sheet_builder *b, struct block_list *list, enum text_style style,
                 const char *const *texts, size_t n, int columns)
{
    static const double weights[4][3] = {{0}, {12}, {6, 6}, {4, 4, 4}};
    struct block_list lists[3] = {{0}, {0}, {0}};
    size_t lines = 0, first = 0;
    if (n == 0)
        return;
    if (columns == 1) {
        block_text(b, list, style, join_items(b, texts, n));
        return;
    }
    for (size_t i = 0; i < n; i++)
        lines += guess_lines(texts[i]);
    for (size_t left = (size_t)columns, i = 0; left > 0; left--, i++) {
        size_t end = left == 1 ? n : end_of_column(texts, n, first, (lines + left - 1) / left);
        for (size_t k = first; k < end; k++)
            lines -= guess_lines(texts[k]);
        block_text(b, &lists[i], style, join_items(b, texts + first, end - first));
        first = end;
    }
    block_columns(b, list, columns, lists, weights[columns]);
}

struct block table_begin(const struct sheet_builder *b, const char *caption_key, const struct column_row *rows,
                         int n_columns)
{
    struct block block = {.kind = BLOCK_TABLE};
    block.as.table.caption = caption_key ? print_word(b, caption_key) : "";
    block.as.table.style = STYLE_BODY;
    block.as.table.n_columns = n_columns;
    block.as.table.columns = pool_alloc(b->pool, (size_t)n_columns * sizeof *block.as.table.columns);
    for (int i = 0; i < n_columns; i++)
        block.as.table.columns[i] =
            (struct table_column){.head = rows[i].head_key ? print_word(b, rows[i].head_key) : "",
                                  .align = rows[i].align,
                                  .weight = rows[i].weight};
    return block;
}

struct table_row *table_add_row(const struct sheet_builder *b, struct block *table, const char *const *cells)
{
    int n = table->as.table.n_rows++;
    size_t bytes = (size_t)table->as.table.n_columns * sizeof *cells;
    table->as.table.rows = grow_in_pool(b->pool, table->as.table.rows, n, sizeof *table->as.table.rows);
    struct table_row *row = &table->as.table.rows[n];
    *row = (struct table_row){.cells = pool_copy(b->pool, cells, bytes)};
    for (int i = 0; i < table->as.table.n_columns; i++)
        assert(row->cells[i] && "every cell holds a text");
    return row;
}

struct block steps_begin(void)
{
    return (struct block){.kind = BLOCK_STEPS};
}

void steps_add(const struct sheet_builder *b, struct block *steps, struct step_item item)
{
    int n = steps->as.steps.n++;
    steps->as.steps.items = grow_in_pool(b->pool, steps->as.steps.items, n, sizeof item);
    steps->as.steps.items[n] = item;
}

struct block boxes_begin(void)
{
    return (struct block){.kind = BLOCK_BOXES};
}

static void add_box_item(const struct sheet_builder *b, struct block *boxes, struct box_item item)
{
    int n = boxes->as.boxes.n++;
    boxes->as.boxes.items = grow_in_pool(b->pool, boxes->as.boxes.items, n, sizeof item);
    boxes->as.boxes.items[n] = item;
}

void boxes_add_word(const struct sheet_builder *b, struct block *boxes, const char *text)
{
    add_box_item(b, boxes, (struct box_item){.text = text, .caption = ""});
}

void boxes_add_text(const struct sheet_builder *b, struct block *boxes, struct saying saying)
{
    boxes_add_word(b, boxes, print_saying(b, saying));
}

void boxes_add_box(const struct sheet_builder *b, struct block *boxes, const char *caption_key, double width_mm)
{
    const char *caption = caption_key ? print_word(b, caption_key) : "";
    add_box_item(b, boxes, (struct box_item){.text = "", .caption = caption, .width = width_mm});
}

void boxes_add_filled(const struct sheet_builder *b, struct block *boxes, const char *inside, double width_mm)
{
    add_box_item(b, boxes, (struct box_item){.text = "", .caption = "", .width = width_mm, .inside = inside});
}

struct block cautions_begin(enum text_style style)
{
    struct block block = {.kind = BLOCK_CAUTIONS};
    block.as.cautions.style = style;
    return block;
}

void cautions_add(const struct sheet_builder *b, struct block *cautions, enum signal signal, const char *text)
{
    int n = cautions->as.cautions.n++;
    cautions->as.cautions.items =
        grow_in_pool(b->pool, cautions->as.cautions.items, n, sizeof *cautions->as.cautions.items);
    cautions->as.cautions.items[n] = (struct caution_item){.signal = signal, .text = text};
}
