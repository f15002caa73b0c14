/* The parts of a bench page. */
#include "sheet/bench_page.h"

enum { A_ROW = 3 };

static struct saying say_on_page(const struct sheet_builder *b, page_say *say, const char *key)
{
    return say ? say(b, key) : SAYING_PLAIN(key);
}

void bench_add_actions(const struct sheet_builder *b, struct block_list *list, const struct action_list *actions,
                       int *number)
{
    struct block steps = steps_begin();
    block_heading(b, list, 2, SAYING_PLAIN(actions->heading));
    for (int i = 0; i < actions->n; i++) {
        const struct action_row *row = &actions->rows[i];
        steps_add(b, &steps,
                  (struct step_item){
                      .number = pool_printf(b->pool, "%d", ++*number),
                      .what = print_saying(b, say_on_page(b, actions->say, row->what)),
                      .aside = row->aside ? print_saying(b, say_on_page(b, actions->say, row->aside)) : "",
                      .tick = true,
                      .signal = row->signal,
                      .caution = row->caution ? print_saying(b, say_on_page(b, actions->say, row->caution)) : "",
                  });
    }
    block_append(b, list, steps);
}

/* ---- pictures ---- */

int bench_draw_pictures(const struct sheet_builder *b, enum method method, struct drawing out[PICTURES_MOST])
{
    int n = 0;
    while (n < PICTURES_MOST && draw_test_picture(b->plan, b->proof, method, n, b->units, b->pool, &out[n]))
        n++;
    return n;
}

static void add_picture_row(const struct sheet_builder *b, struct block_list *list, const struct drawing *drawings,
                            int n)
{
    static const double weights[4][3] = {{0}, {12}, {6, 6}, {4, 4, 4}};
    struct block_list columns[3] = {{0}, {0}, {0}};
    for (int i = 0; i < n; i++)
        block_drawing(b, &columns[i], drawings[i], STYLE_BODY, 28, 40);
    if (n == 1)
        block_drawing(b, list, drawings[0], STYLE_BODY, 28, 46);
    else
        block_columns(b, list, n, columns, weights[n]);
}

void bench_add_pictures(const struct sheet_builder *b, struct block_list *list, const struct drawing *drawings, int n)
{
    for (int i = 0; i < n; i += A_ROW)
        add_picture_row(b, list, drawings + i, n - i < A_ROW ? n - i : A_ROW);
}

/* ---- blanks and items ---- */

void bench_add_items(const struct sheet_builder *b, struct block_list *list, const char *heading_key,
                     const struct saying *items, size_t n, int columns)
{
    const char **texts = pool_alloc(b->pool, n * sizeof *texts);
    for (size_t i = 0; i < n; i++)
        texts[i] = print_saying(b, items[i]);
    block_heading(b, list, 3, SAYING_PLAIN(heading_key));
    list->blocks[list->n - 1].joins_last = true;
    block_items(b, list, STYLE_BODY, texts, n, columns);
    list->blocks[list->n - 1].whole = true;
}

void bench_add_blanks(const struct sheet_builder *b, struct block_list *list, const struct blank *blanks, int n,
                      page_say *say)
{
    struct block row = boxes_begin();
    for (int i = 0; i < n; i++) {
        if (blanks[i].words_key)
            boxes_add_text(b, &row, say_on_page(b, say, blanks[i].words_key));
        if (blanks[i].sign)
            boxes_add_word(b, &row, blanks[i].sign);
        if (blanks[i].width > 0)
            boxes_add_box(b, &row, blanks[i].caption_key, blanks[i].width);
    }
    row.keep_with_next = true; /* readings, sum and what its sign means are one thing */
    block_append(b, list, row);
}

/* ---- what to move for what is read ---- */

static void add_table_row(const struct sheet_builder *b, struct block *table, const struct reading_row *row)
{
    const char *const cells[] = {print_number(b, SAY_LIMIT, row->read), print_bold(b, print_number(b, SAY_FIT, row->move)),
                                 print_quantity(b, SAY_DEGREES, row->error)};
    table_add_row(b, table, cells);
}

static void add_reading_table(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page)
{
    static const struct column_row columns[] = {
        {NULL, ALIGN_POINT, 0}, {NULL, ALIGN_POINT, 0}, {"bench.table.degrees", ALIGN_POINT, 0}};
    const struct reading_table *t = &b->proof->table[page->method];
    if (!page->table_key || t->n_rows == 0)
        return;
    struct saying args = SAYING("", SAY_ARG("at", SAY_SIZE, t->at), SAY_ARG("over", SAY_SIZE, t->over),
                                SAY_KEY("unit", key_of_unit(b->units)));
    struct saying face = args, head = args;
    face.key = page->table_key;
    head.key = page->move_head_key;
    block_heading(b, list, 3, SAYING("bench.table", SAY_KEY("unit", key_of_unit(b->units))));
    block_paragraph(b, list, STYLE_BODY, face);
    list->blocks[list->n - 1].keep_with_next = true;
    struct block table = table_begin(b, NULL, columns, page->tells_angle ? 3 : 2);
    table.as.table.columns[0].head = print_word(b, page->reads_difference ? "bench.table.differ" : t->by_leaf ? "bench.table.leaf" : "bench.table.gap");
    table.as.table.columns[1].head = print_saying(b, head);
    for (int i = 0; i < t->n_rows; i++)
        add_table_row(b, &table, &t->rows[i]);
    block_append(b, list, table);
}

/* ---- a whole page ---- */

static void add_mistakes(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page)
{
    struct saying *mistakes = pool_alloc(b->pool, (size_t)page->n_mistakes * sizeof *mistakes);
    for (int i = 0; i < page->n_mistakes; i++)
        mistakes[i] = say_on_page(b, page->say, page->mistake_keys[i]);
    bench_add_items(b, list, "bench.mistakes", mistakes, (size_t)page->n_mistakes, 2);
}

void bench_add_page(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page)
{
    int number = 0;
    struct drawing pictures[PICTURES_MOST] = {{0}};
    block_heading(b, list, 1, SAYING_PLAIN(page->heading_key));
    block_paragraph(b, list, STYLE_BODY, say_on_page(b, page->say, page->idea_key));
    list->blocks[list->n - 1].keep_with_next = true;
    bench_add_actions(b, list, &page->actions, &number);
    block_keep_with_next(list);
    bench_add_pictures(b, list, pictures, bench_draw_pictures(b, page->method, pictures));
    block_heading(b, list, 2, SAYING("bench.readings_and_sum", SAY_KEY("unit", key_of_unit(b->units))));
    for (int i = 0; i < page->n_blanks; i++)
        bench_add_blanks(b, list, page->blanks[i], page->blank_counts[i], page->say);
    block_boxed(b, list, STYLE_LEAD, print_saying(b, say_on_page(b, page->say, page->signs_key)));
    add_reading_table(b, list, page);
    if (page->moving.n > 0)
        bench_add_actions(b, list, &page->moving, &number);
    add_mistakes(b, list, page);
}

bool bench_has_test_of(const struct sheet_builder *b, enum method method)
{
    for (size_t i = 0; i < b->proof->n_tests; i++)
        if (b->proof->tests[i].method == method)
            return true;
    return !b->job->jig.given && b->proof->n_tests == 0;
}
