/* The parts of a bench page. */
#include "sheet/bench_page.h"

#include <math.h>
#include <string.h>

enum { ROWS_KEPT = 3, A_ROW = 3 };
static const char hands[] = "hands";

static struct saying say_on_page(const struct sheet_builder *b, page_say *say, bool by_leaves, const char *key)
{
    const char *by = by_leaves ? key_second(b, key, "leaves") : key;
    const char *on = key_plain(b, by);
    return say ? say(b, on) : SAYING_PLAIN(on);
}

/* How far hands stay from the blade, before what else the caution says. */
static const char *print_caution(const struct sheet_builder *b, const struct action_list *actions, bool by_leaves,
                                 const char *key)
{
    static const double keep[] = {[UNITS_MM] = 75, [UNITS_IN] = 3 * MM_PER_INCH}; /* common practice, no source */
    const char *own = print_saying(b, say_on_page(b, actions->say, by_leaves, key));
    bool strip = b->plan->has_sled;
    if (strcmp(key + strlen(key) - strlen(hands), hands) != 0)
        return own;
    return pool_printf(b->pool, "%s %s",
                       print_saying(b, SAYING(strip ? "bench.hands" : "bench.hands.plain",
                                              SAY_ARG("keep", SAY_ABOUT, strip ? b->plan->sled.keep_out : keep[b->units]))),
                       own);
}

void bench_add_actions(const struct sheet_builder *b, struct block_list *list, const struct action_list *actions,
                       bool by_leaves, int *number)
{
    struct block steps = steps_begin();
    block_heading(b, list, 2, SAYING_PLAIN(actions->heading));
    for (int i = 0; i < actions->n; i++) {
        const struct action_row *row = &actions->rows[i];
        steps_add(b, &steps,
                  (struct step_item){
                      .number = pool_printf(b->pool, "%d", ++*number),
                      .what = print_saying(b, say_on_page(b, actions->say, by_leaves, row->what)),
                      .aside = row->aside ? print_saying(b, say_on_page(b, actions->say, by_leaves, row->aside)) : "",
                      .tick = true,
                      .signal = row->signal,
                      .caution = row->caution ? print_caution(b, actions, by_leaves, row->caution) : "",
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
        block_drawing(b, &columns[i], drawings[i], STYLE_BODY, n < 3 ? 31 : 38, 40);
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

/* "([goes] + [next]) ÷ 2 =", before the box of the gap, which is then halfway. */
static void add_leaf_boxes(const struct sheet_builder *b, struct block *row)
{
    boxes_add_word(b, row, "(");
    boxes_add_box(b, row, "bench.leaf_goes", 19);
    boxes_add_word(b, row, "+");
    boxes_add_box(b, row, "bench.leaf_next", 24);
    boxes_add_text(b, row, SAYING_PLAIN("bench.halve"));
}

static void add_blank(const struct sheet_builder *b, struct block *row, const struct bench_page *page, struct blank blank,
                      bool by_leaves)
{
    if (blank.width < 0 && by_leaves) {
        add_leaf_boxes(b, row);
        blank = (struct blank){NULL, NULL, "bench.halfway", blank.width};
    }
    if (blank.words_key)
        boxes_add_text(b, row, say_on_page(b, page->say, by_leaves, blank.words_key));
    if (blank.sign)
        boxes_add_word(b, row, blank.sign);
    const char *caption = blank.caption_key ? say_on_page(b, NULL, by_leaves, blank.caption_key).key : NULL;
    if (fabs(blank.width) > 0)
        boxes_add_box(b, row, caption, fabs(blank.width));
}

static void add_blanks(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page, int at,
                       bool by_leaves)
{
    struct block row = boxes_begin();
    for (int i = 0; i < page->blank_counts[at]; i++)
        add_blank(b, &row, page, page->blanks[at][i], by_leaves);
    /* the last readings, the sum and what its sign means are one thing; a long list of readings may go on over the page */
    row.keep_with_next = at == 0 || at + ROWS_KEPT >= page->n_blanks;
    block_append(b, list, row);
}

/* ---- the zones, and which way ---- */

/* What is read, with its unit: leaves in the unit that they are marked in. */
static const char *print_read(const struct sheet_builder *b, const struct reading_table *t, double mm)
{
    return t->by_leaf && leaves_marked_otherwise(b) ? print_leaves(b, &mm, 1) : print_quantity(b, SAY_LIMIT, mm);
}

/* Up to where to leave it alone, from where to put it right, and from which length on that holds; one order for each. */
static const char *print_zones(const struct sheet_builder *b, const struct bench_page *page)
{
    const struct zones *z = &b->proof->zones[page->method];
    bool leave = !isnan(z->leave_to), move = !isnan(z->move_from);
    const char *zones = print_saying(b, SAYING(!move && !leave ? "bench.zones.nothing"
                                               : !move         ? "bench.zones.no_move"
                                               : !leave        ? "bench.zones.no_leave"
                                                               : "bench.zones.all",
                                               SAY_KEY("of", page->of_key), SAY_ARG("leave", SAY_LIMIT, z->leave_to),
                                               SAY_ARG("move", SAY_LIMIT, z->move_from)));
    if (!page->length_key || (!leave && !move))
        return zones;
    return pool_printf(b->pool, "%s %s", zones,
                       print_saying(b, SAYING("bench.zones.holds", SAY_KEY("what", page->length_key),
                                              SAY_ARG("least", page->at_kind ? page->at_kind : SAY_SIZE, z->least_at))));
}

/* How much is allowed, when to leave it alone, and only then which way. */
static void add_signs(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page, bool by_leaves)
{
    bool zones = b->proof->zones[page->method].has && (page->say_zones || page->of_key);
    const char *all = print_saying(b, say_on_page(b, page->say, by_leaves, page->allowed_key));
    if (zones)
        all = pool_printf(b->pool, "%s\n%s", all, page->say_zones ? page->say_zones(b) : print_zones(b, page));
    all = pool_printf(b->pool, "%s\n%s\n%s", all, print_word(b, zones ? "bench.only_if" : "bench.only_if.no_zones"),
                      print_saying(b, say_on_page(b, page->say, by_leaves, page->signs_key)));
    block_boxed(b, list, STYLE_BODY, all);
}

/* ---- what to move for what is read ---- */

static void add_table_row(const struct sheet_builder *b, struct block *table, const struct reading_table *t,
                          const struct reading_row *row)
{
    bool otherwise = t->by_leaf && leaves_marked_otherwise(b);
    const char *const cells[] = {otherwise ? print_read(b, t, row->read) : print_number(b, SAY_LIMIT, row->read), print_bold(b, print_number(b, SAY_FIT, row->move)),
                                 print_quantity(b, SAY_DEGREES, row->error)};
    table_add_row(b, table, cells);
}

/* How any other move is found: the rows are examples. */
static struct saying say_rule(const struct reading_table *t)
{
    return SAYING(fabs(t->over - t->per) < 1e-6 ? "bench.table.rule.itself" : "bench.table.rule", SAY_ARG("over", SAY_SIZE, t->over),
                  SAY_ARG("per", SAY_SIZE, t->per));
}

static void add_reading_table(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page)
{
    static const struct column_row columns[] = {
        {NULL, ALIGN_POINT, 0}, {NULL, ALIGN_POINT, 0}, {"bench.table.degrees", ALIGN_POINT, 0}};
    const struct reading_table *t = &b->proof->table[page->method];
    if (!page->table_key || t->n_rows == 0)
        return;
    struct saying args = SAYING("", SAY_ARG("at", page->at_kind ? page->at_kind : SAY_SIZE, t->at), SAY_ARG("over", SAY_SIZE, t->over),
                                SAY_KEY("unit", key_of_unit(b->units)));
    struct saying face = args, head = args;
    face.key = page->table_key;
    head.key = page->move_head_key;
    block_heading(b, list, 3, SAYING("bench.table", SAY_KEY("unit", key_of_unit(b->units))));
    block_text(b, list, STYLE_BODY, pool_printf(b->pool, "%s %s", print_saying(b, face), print_saying(b, say_rule(t))));
    block_keep_with_next(list);
    struct block table = table_begin(b, NULL, columns, page->tells_angle ? 3 : 2);
    table.as.table.columns[0].head =
        print_word(b, t->by_leaf ? "bench.table.leaf" : t->reads_gap ? "bench.table.gap" : "bench.table.differ");
    table.as.table.columns[1].head = print_saying(b, head);
    for (int i = 0; i < t->n_rows; i++)
        add_table_row(b, &table, t, &t->rows[i]);
    block_append(b, list, table);
}

/* ---- a whole page ---- */

static void add_mistakes(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page,
                         bool by_leaves)
{
    struct saying *mistakes = pool_alloc(b->pool, (size_t)page->n_mistakes * sizeof *mistakes);
    for (int i = 0; i < page->n_mistakes; i++)
        mistakes[i] = say_on_page(b, page->say, by_leaves, page->mistake_keys[i]);
    bench_add_items(b, list, "bench.mistakes", mistakes, (size_t)page->n_mistakes, 2);
}

void bench_add_page(const struct sheet_builder *b, struct block_list *list, const struct bench_page *page)
{
    int number = 0;
    struct drawing pictures[PICTURES_MOST] = {{0}};
    bool by_leaves = bench_reads_leaves(b, page->method);
    block_heading(b, list, 1, say_on_page(b, page->say, by_leaves, page->heading_key));
    block_paragraph(b, list, STYLE_BODY, say_on_page(b, page->say, by_leaves, page->idea_key));
    list->blocks[list->n - 1].keep_with_next = true;
    bench_add_actions(b, list, &page->actions, by_leaves, &number);
    block_keep_with_next(list);
    bench_add_pictures(b, list, pictures, bench_draw_pictures(b, page->method, pictures));
    block_heading(b, list, 2, SAYING("bench.readings_and_sum", SAY_KEY("unit", key_of_unit(b->units))));
    if (by_leaves && leaves_marked_otherwise(b)) {
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN(b->units == UNITS_IN ? "bench.leaves_in_mm" : "bench.leaves_in_inches"));
        block_keep_with_next(list);
    }
    for (int i = 0; i < page->n_blanks; i++)
        add_blanks(b, list, page, i, by_leaves);
    add_signs(b, list, page, by_leaves);
    add_reading_table(b, list, page);
    if (page->moving.n > 0)
        bench_add_actions(b, list, &page->moving, by_leaves, &number);
    add_mistakes(b, list, page, by_leaves);
}

bool bench_reads_leaves(const struct sheet_builder *b, enum method method)
{
    const struct proof_test *latest = proof_latest(b->proof, method);
    if (b->proof->table[method].has)
        return b->proof->table[method].by_leaf;
    if (latest)
        return latest->job->instrument && latest->job->instrument->kind == INSTRUMENT_FEELER;
    for (size_t i = 0; i < b->job->n_instruments; i++)
        if (b->job->instruments[i].kind == INSTRUMENT_FEELER && b->job->instruments[i].n_leaves > 0)
            return true;
    return false;
}

bool bench_has_test_of(const struct sheet_builder *b, enum method method)
{
    for (size_t i = 0; i < b->proof->n_tests; i++)
        if (b->proof->tests[i].method == method)
            return true;
    return !b->job->jig.given && b->proof->n_tests == 0;
}
