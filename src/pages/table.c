/* Tables: columns as wide as they need, cells that wrap, points under each other, rows never split, heads repeated. */
#include "pages/table.h"

#include "pages/blocks.h"
#include "words.h"

#include <math.h>
#include <string.h>

#define GAP_EMS 1.1       /* between columns */
#define GAP_MOST_EMS 2.2  /* where there is room to spare: the eye still keeps to its row (by eye, no source) */
#define CAPTION_GAP 0.3    /* in leadings, between a title and the heads: it is not one of them */
#define PAD_LEADINGS 0.14 /* above and below a row's text */
#define ROW_BREAK_COST 4.0        /* of a break between two rows */
#define SHORT_BREAK_COST 110.0    /* the same in a short table: more than a page */
#define SHORT_MOST (1.0 / 3)      /* of a page */
#define WHOLE_MOST 0.85 /* of a page: a table that is to stay whole and is higher is broken after all */
enum { SHARE_STEPS = 60 };
#define SLASH "\xE2\x81\x84" /* U+2044 fraction slash */

static double sum_of(const struct column_need *need, int n, bool flexible, size_t offset)
{
    double sum = 0;
    for (int i = 0; i < n; i++)
        if ((need[i].weight > 0) == flexible)
            sum += *(const double *)((const char *)&need[i] + offset);
    return sum;
}

/* Shares room among the columns with a weight, none under its least width nor over its natural one. */
static void share_room(const struct column_need *need, int n, double room, double *widths)
{
    double low = 0, high = 0;
    for (int i = 0; i < n; i++)
        if (need[i].weight > 0)
            high = fmax(high, need[i].natural / need[i].weight);
    for (int step = 0; step < SHARE_STEPS; step++) { /* halves the interval of the width for a weight of 1 */
        double share = (low + high) / 2, used = 0;
        for (int i = 0; i < n; i++)
            if (need[i].weight > 0) {
                widths[i] = fmin(fmax(share * need[i].weight, need[i].least), need[i].natural);
                used += widths[i];
            }
        if (used > room)
            high = share;
        else
            low = share;
    }
}

/* Where not even the widest words have room, the columns with the widest give way first, to one width. */
static void cut_down(const struct column_need *need, int n, double room, double *widths)
{
    double high = room / n;
    for (int step = 0; step < n; step++) { /* columns narrower than the common width leave their rest to the others */
        double rest = room;
        int wide = 0;
        for (int i = 0; i < n; i++) {
            wide += need[i].least > high;
            rest -= need[i].least > high ? 0 : need[i].least;
        }
        if (!wide)
            break;
        high = rest / wide;
    }
    for (int i = 0; i < n; i++)
        widths[i] = fmin(need[i].least, high);
}

void table_widths(const struct column_need *need, int n, double room, double *widths)
{
    double fixed_least = sum_of(need, n, false, offsetof(struct column_need, least));
    double fixed_body = sum_of(need, n, false, offsetof(struct column_need, body));
    double fixed_natural = sum_of(need, n, false, offsetof(struct column_need, natural));
    double least = sum_of(need, n, true, offsetof(struct column_need, least));
    double natural = sum_of(need, n, true, offsetof(struct column_need, natural));
    double rest = room - least,
           squeeze = fixed_body > fixed_least ? fmax(0, (rest - fixed_least) / (fixed_body - fixed_least)) : 0;
    double used = 0;
    if (fixed_least + least > room) {
        cut_down(need, n, room, widths);
        return;
    }
    for (int i = 0; i < n; i++) {
        if (fixed_natural + natural <= room || (natural <= 0 && fixed_natural <= room))
            widths[i] = need[i].natural;
        else if (fixed_body <= rest)
            widths[i] = need[i].body;
        else
            widths[i] = need[i].least + squeeze * (need[i].body - need[i].least);
        used += need[i].weight > 0 ? 0 : widths[i];
    }
    if (least > 0)
        share_room(need, n, room - used, widths);
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

size_t table_point(const char *s)
{
    size_t start = 0;
    while (s[start] && !is_digit(s[start]) && !(s[start] == '.' && is_digit(s[start + 1])))
        start++;
    size_t end = start;
    for (;;) {
        if (is_digit(s[end]))
            end++;
        else if (strncmp(s + end, THIN, strlen(THIN)) == 0 && is_digit(s[end + strlen(THIN)]) && end > start)
            end += strlen(THIN);
        else
            break;
    }
    if (strncmp(s + end, SLASH, strlen(SLASH)) != 0)
        return end;
    /* the digits just read are a numerator: all of them, or those after the last blank */
    while (end > start && is_digit(s[end - 1]))
        end--;
    return end > start ? end - strlen(THIN) : end;
}

/* One table being set. Arrays have a place for each column and live in the setter's pool. */
struct table {
    const struct setter *setter;
    const struct block *block;
    struct rich rich, bold;
    double *widths, *lefts;
    double *before, *after; /* ALIGN_POINT: widest part before the point and from it on */
    double width, room;     /* of all, and what it may take [pt] */
};

static int column_count(const struct table *t)
{
    return t->block->as.table.n_columns;
}

static const char *cell_text(const struct table *t, int row, int column)
{
    const char *s = t->block->as.table.rows[row].cells[column];
    return s ? s : "";
}

static const char *head_text(const struct table *t, int column)
{
    const char *s = t->block->as.table.columns[column].head;
    return s ? s : "";
}

static const struct rich *row_rich(const struct table *t, int row)
{
    return t->block->as.table.rows[row].bold ? &t->bold : &t->rich;
}

/* Width of the part of a cell before its point. Bold marks do not count: a cell's number is in one face. */
static double before_point(const struct table *t, const struct rich *rich, const char *s)
{
    char *part = pool_string_n(t->setter->pool, s, table_point(s));
    return lines_natural_width(t->setter->widths, rich, part);
}

static void measure_points(struct table *t, int column)
{
    for (int r = 0; r < t->block->as.table.n_rows; r++) {
        const char *s = cell_text(t, r, column);
        double before = before_point(t, row_rich(t, r), s),
               all = lines_natural_width(t->setter->widths, row_rich(t, r), s);
        t->before[column] = fmax(t->before[column], before);
        t->after[column] = fmax(t->after[column], all - before);
    }
}

static struct column_need measure_column(struct table *t, int column)
{
    const struct table_column *c = &t->block->as.table.columns[column];
    struct column_need need = {.weight = c->weight};
    for (int r = 0; r < t->block->as.table.n_rows; r++) {
        const char *s = cell_text(t, r, column);
        need.body = fmax(need.body, lines_natural_width(t->setter->widths, row_rich(t, r), s));
        need.least = fmax(need.least, lines_least_width(t->setter->widths, row_rich(t, r), s));
    }
    if (c->align == ALIGN_POINT) {
        measure_points(t, column);
        need.body = fmax(need.body, t->before[column] + t->after[column]);
    }
    double head = lines_least_width(t->setter->widths, &t->bold, head_text(t, column));
    need.least = fmax(need.least, head);
    need.body = fmax(need.body, need.least);
    need.natural = fmax(need.body, lines_natural_width(t->setter->widths, &t->bold, head_text(t, column)));
    return need;
}

static void lay_columns(struct table *t, double width)
{
    int n = column_count(t);
    struct column_need *needs = pool_alloc(t->setter->pool, (size_t)n * sizeof *needs);
    double gap = GAP_EMS * t->rich.size, used = 0;
    for (int c = 0; c < n; c++)
        needs[c] = measure_column(t, c);
    table_widths(needs, n, width - gap * (n - 1), t->widths);
    for (int c = 0; c < n; c++)
        used += t->widths[c];
    if (n > 1)
        gap = fmin((width - used) / (n - 1), GAP_MOST_EMS * t->rich.size);
    for (int c = 0; c < n; c++)
        t->lefts[c] = c ? t->lefts[c - 1] + t->widths[c - 1] + gap : 0;
    t->room = width;
    t->width = n ? t->lefts[n - 1] + t->widths[n - 1] : 0;
}

static enum align head_align(enum align align)
{
    return align == ALIGN_POINT ? ALIGN_RIGHT : align;
}

/* Puts a cell's lines; gives their height. Points are put under each other at the right of the column. */
static double put_cell(const struct table *t, const struct rich *rich, int column, const char *s, bool head, double y,
                       struct inks *inks)
{
    enum align align = t->block->as.table.columns[column].align;
    double x = t->lefts[column], width = t->widths[column];
    struct lines lines;
    lines_break(t->setter->widths, t->setter->pool, rich, s, width, &lines);
    bool at_point =
        !head && align == ALIGN_POINT && lines.n == 1 && width >= t->before[column] + t->after[column] - 0.01;
    if (at_point)
        x += width - t->after[column] - before_point(t, rich, s);
    lines_ink(&lines, t->setter->widths, 0, lines.n, x, y, width, at_point ? ALIGN_LEFT : head_align(align), inks);
    return lines_height(&lines);
}

static bool has_heads(const struct table *t)
{
    for (int c = 0; c < column_count(t); c++)
        if (*head_text(t, c))
            return true;
    return false;
}

static double heads_height(const struct table *t, int column)
{
    struct pool pool = {0};
    struct lines lines;
    lines_break(t->setter->widths, &pool, &t->bold, head_text(t, column), t->widths[column], &lines);
    double height = lines_height(&lines);
    pool_free(&pool);
    return height;
}

/* Heads stand on their rule, however many lines each has; over them the note. */
static void set_heads(const struct table *t, struct slab *slab)
{
    double highest = 0, pad = PAD_LEADINGS * t->rich.leading, top = 0;
    const char *note = t->block->as.table.note;
    if (note) {
        struct rich small = rich_of(STYLE_SMALL, t->setter->scale);
        top = put_text(t->setter, &small, note, 0, 0, t->room, &slab->inks) + pad;
    }
    for (int c = 0; c < column_count(t); c++)
        highest = fmax(highest, heads_height(t, c));
    for (int c = 0; c < column_count(t); c++)
        put_cell(t, &t->bold, c, head_text(t, c), true, top + highest - heads_height(t, c), &slab->inks);
    slab->height = top + highest + pad;
    ink_add_line(&slab->inks, 0, slab->height, t->width, slab->height, RULE_MEDIUM * t->setter->scale, COLOR_BLACK);
}

static void set_row(const struct table *t, int r, struct slab *slab)
{
    const struct table_row *row = &t->block->as.table.rows[r];
    double pad = PAD_LEADINGS * t->rich.leading, highest = t->rich.leading, scale = t->setter->scale;
    for (int c = 0; c < column_count(t); c++)
        highest = fmax(highest, put_cell(t, row_rich(t, r), c, cell_text(t, r, c), false, pad, &slab->inks));
    slab->height = highest + 2 * pad;
    if (row->ruled_above)
        ink_add_line(&slab->inks, 0, 0, t->width, 0, RULE_MEDIUM * scale, COLOR_BLACK);
    bool last = r + 1 == t->block->as.table.n_rows;
    ink_add_line(&slab->inks, 0, slab->height, t->width, slab->height, (last ? RULE_THIN : RULE_HAIR) * scale,
                 last ? COLOR_BLACK : COLOR_GREY(0.45));
}

static void set_caption(const struct table *t, double width, struct slabs *out)
{
    const char *caption = t->block->as.table.caption;
    if (!caption || !*caption)
        return;
    struct slab *slab = slabs_add(out);
    slab->height = put_text(t->setter, &t->bold, caption, 0, 0, width, &slab->inks) + CAPTION_GAP * t->rich.leading;
    slab->keep_with_next = true;
}

static double height_of_rows(const struct table *t)
{
    struct slabs rows = {.pool = t->setter->pool};
    for (int r = 0; r < t->block->as.table.n_rows; r++)
        set_row(t, r, slabs_add(&rows));
    return slabs_height(&rows, 0, rows.n);
}

static void set_body(const struct table *t, struct slabs *out)
{
    int n = t->block->as.table.n_rows;
    double share = height_of_rows(t) / t->setter->page_height;
    bool whole = t->block->as.table.whole && share < WHOLE_MOST;
    struct slab *repeated = NULL;
    if (has_heads(t)) {
        struct slab *head = slabs_add(out);
        set_heads(t, head);
        head->keep_with_next = true;
        repeated = pool_alloc(t->setter->pool, sizeof *repeated);
        repeated->inks.pool = t->setter->pool;
        set_heads(t, repeated);
    }
    for (int r = 0; r < n; r++) {
        struct slab *slab = slabs_add(out);
        slab->head = r ? repeated : NULL;
        slab->break_cost = share < SHORT_MOST ? SHORT_BREAK_COST : ROW_BREAK_COST;
        slab->keep_with_next = (n > 3 && (r == 0 || r + 2 == n)) || (whole && r + 1 < n);
        set_row(t, r, slab);
    }
}

static bool is_empty_column(const struct block *b, int c)
{
    for (int r = 0; r < b->as.table.n_rows; r++)
        if (*b->as.table.rows[r].cells[c])
            return false;
    return true;
}

static struct block without_empty_columns(struct pool *pool, const struct block *from)
{
    struct block to = *from;
    size_t columns = (size_t)from->as.table.n_columns, rows = (size_t)from->as.table.n_rows;
    to.as.table.columns = pool_copy(pool, from->as.table.columns, columns * sizeof *from->as.table.columns);
    to.as.table.rows = pool_copy(pool, from->as.table.rows, rows * sizeof *from->as.table.rows);
    for (size_t r = 0; r < rows; r++)
        to.as.table.rows[r].cells = pool_alloc(pool, columns * sizeof *to.as.table.rows[r].cells);
    to.as.table.n_columns = 0;
    for (int c = 0; c < from->as.table.n_columns; c++) {
        if (is_empty_column(from, c))
            continue;
        int at = to.as.table.n_columns++;
        to.as.table.columns[at] = from->as.table.columns[c];
        for (size_t r = 0; r < rows; r++)
            to.as.table.rows[r].cells[at] = from->as.table.rows[r].cells[c];
    }
    return to;
}

void set_table(const struct setter *setter, const struct block *from, double width, struct slabs *out)
{
    const struct block dense = from->as.table.drop_empty ? without_empty_columns(setter->pool, from) : *from, *b = &dense;
    size_t n = (size_t)b->as.table.n_columns, first = out->n;
    if (!n)
        return;
    struct table t = {.setter = setter, .block = b, .rich = rich_of(b->as.table.style, setter->scale)};
    t.rich.features = TYPE_TABULAR;
    t.bold = rich_bolder(t.rich);
    t.widths = pool_alloc(setter->pool, n * sizeof *t.widths);
    t.lefts = pool_alloc(setter->pool, n * sizeof *t.lefts);
    t.before = pool_alloc(setter->pool, n * sizeof *t.before);
    t.after = pool_alloc(setter->pool, n * sizeof *t.after);
    lay_columns(&t, width);
    set_caption(&t, width, out);
    set_body(&t, out);
    if (out->n > first)
        out->list[first].above = 0.6 * t.rich.leading;
}
