/* Tables: widths of columns, decimal points, heads, rows. */
#include "kit.h"

#include "pages/table.h"
#include "faces.h"

#include <stdio.h>

static void test_table_point_finds_the_place(void **state)
{
    (void)state;
    static const struct {
        const char *cell;
        size_t before;
    } rows[] = {
        {"21.47", 2},
        {".250", 0},
        {"\xE2\x88\x92"
         "0.061",
         4},
        {"+0.042", 2},
        {"150", 3},
        {"150" THIN "mm", 3},
        {"0.000" THIN "140", 1},
        {"\xE2\x89\xA5 25", 6},
        {"1" THIN "3\xE2\x81\x84"
         "8",
         1},
        {"3\xE2\x81\x84"
         "8",
         0},
        {"12\xE2\x81\x84"
         "25",
         0},
        {"\xE2\x88\x9E", 3},
        {"", 0},
        {"1" THIN "234.5", 7},
    };
    for (int i = 0; i < COUNT(rows); i++)
        if (table_point(rows[i].cell) != rows[i].before)
            fail_msg("\"%s\": %zu bytes before the point, expected %zu", rows[i].cell, table_point(rows[i].cell),
                     rows[i].before);
}

static void test_table_widths_natural(void **state)
{
    (void)state;
    struct column_need needs[] = {{20, 30, 40, 0}, {10, 10, 10, 0}};
    double w[2];
    table_widths(needs, 2, 100, w);
    assert_close(w[0], 40, 1e-12);
    assert_close(w[1], 10, 1e-12);
}

/* 100 less the fixed 40 is shared 1 : 2. */
static void test_table_widths_shares_the_rest(void **state)
{
    (void)state;
    struct column_need needs[] = {{10, 90, 90, 1}, {20, 40, 40, 0}, {10, 90, 90, 2}};
    double w[3];
    table_widths(needs, 3, 100, w);
    assert_close(w[0], 20, 1e-12);
    assert_close(w[1], 40, 1e-12);
    assert_close(w[2], 40, 1e-12);
}

/* An equal share of 100 would be 50 each; the first needs 70, the other has what is left. */
static void test_table_widths_respects_the_least(void **state)
{
    (void)state;
    struct column_need needs[] = {{70, 90, 90, 1}, {10, 90, 90, 1}};
    double w[2];
    table_widths(needs, 2, 100, w);
    assert_close(w[0], 70, 1e-12);
    assert_close(w[1], 30, 1e-12);
}

/* Fixed columns ask for 60 + 60 and can do with 20 + 40 where 100 is there: of what they would like beyond the least
   they have (100 - 60) / (120 - 60) = 2/3: 20 + 2/3 of 40 and 40 + 2/3 of 20. */
static void test_table_widths_wraps_fixed_columns(void **state)
{
    (void)state;
    struct column_need needs[] = {{20, 60, 60, 0}, {40, 60, 60, 0}};
    double w[2];
    table_widths(needs, 2, 100, w);
    assert_close(w[0], 20 + 2.0 / 3 * 40, 1e-12);
    assert_close(w[1], 40 + 2.0 / 3 * 20, 1e-12);
}

/* Where 100 is more than all cells ask for, a column that wraps takes no more than its text: 30 and 20, not the rest.
   With 60 for texts of 20 and 90, the short one has its 20, the long one the other 40. */
static void test_table_widths_are_no_wider_than_the_cells(void **state)
{
    (void)state;
    struct column_need needs[] = {{10, 25, 30, 2}, {10, 20, 20, 0}};
    double w[2];
    table_widths(needs, 2, 100, w);
    assert_close(w[0], 30, 1e-9);
    assert_close(w[1], 20, 1e-9);
    struct column_need uneven[] = {{10, 20, 20, 2}, {10, 90, 90, 1}};
    table_widths(uneven, 2, 60, w);
    assert_close(w[0], 20, 1e-9);
    assert_close(w[1], 40, 1e-9);
}

static void test_table_widths_never_over_the_room(void **state)
{
    (void)state;
    struct column_need needs[] = {{80, 90, 90, 1}, {60, 60, 60, 0}, {60, 70, 80, 0}};
    double w[3];
    table_widths(needs, 3, 100, w);
    assert_close(w[0] + w[1] + w[2], 100, 1e-12);
    struct column_need one_long[] = {{400, 400, 400, 1}, {20, 20, 20, 0}, {30, 30, 30, 1}};
    table_widths(one_long, 3, 100, w); /* the short ones keep their words whole */
    assert_close(w[0], 50, 1e-12);
    assert_close(w[1], 20, 1e-12);
    assert_close(w[2], 30, 1e-12);
}

/* Where the point of the text stands, or its end where it has none. */
static double point_x(const struct ink_text *t, const char *before)
{
    return t->x + t->size * type_width(faces, t->face, t->features, before, strlen(before));
}

/* A table of short texts ends well before the margin: no figure stands more than 2.2 em, 22 pt, from the part it is for.
   The rules are as long as the table. */
static void test_table_is_set_to_its_content(void **state)
{
    (void)state;
    static struct table_column columns[] = {{"part", ALIGN_LEFT, 2}, {"length", ALIGN_POINT, 0}, {"stock", ALIGN_LEFT, 1}};
    static const char *cells[][3] = {{"reference fence", "12.5*", "ply"}, {"base", "700", "ply"}};
    struct table_row rows[] = {{cells[0], false, false}, {cells[1], false, false}};
    struct block_list body = {0};
    add_block(&body, table_block("", columns, 3, rows, 2));
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    struct text problem = {0};
    assert_true(build_one(faces, &sheet, &pages, &problem));
    assert_no_problems(&pages, faces);
    const struct page *page = &pages.list[0];
    const struct ink_text *part = find_text(page, "reference fence"), *length = find_text(page, "12.5*"),
                          *whole = find_text(page, "700"), *stock = find_text(page, "stock");
    double gap = 2.2 * part->size;
    assert_true(whole->x - (part->x + part->width) <= gap + 0.1);
    assert_true(stock->x - (length->x + length->width) <= gap + 0.1);
    /* the asterisk hangs: the digit before it is over the last whole one's point, not moved left */
    assert_within(point_x(length, "12"), point_x(whole, "700"), 0.2);
    pages_free(&pages);
    free_list(&body);
}

static struct table_column number_columns[] = {{"what", ALIGN_LEFT, 1}, {"size", ALIGN_POINT, 0}};

static void test_table_points_stand_under_each_other(void **state)
{
    (void)state;
    static const char *cells[][2] = {{"a", "21.47"},
                                     {"b", "\xE2\x88\x92"
                                           "0.061"},
                                     {"c", "150"},
                                     {"d", ".250"},
                                     {"e", "7.5" THIN "mm"}};
    static const char *before[] = {"21",
                                   "\xE2\x88\x92"
                                   "0",
                                   "150", "", "7"};
    struct table_row rows[5] = {{cells[0], false, false},
                                {cells[1], false, false},
                                {cells[2], false, false},
                                {cells[3], false, false},
                                {cells[4], true, true}};
    struct block_list body = {0};
    add_block(&body, table_block("", number_columns, 2, rows, 5));
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    struct text problem = {0};
    assert_true(build_one(faces, &sheet, &pages, &problem));
    assert_no_problems(&pages, faces);
    double x = point_x(find_text(&pages.list[0], cells[0][1]), before[0]);
    for (int i = 1; i < 5; i++) {
        const struct ink_text *t = find_text(&pages.list[0], cells[i][1]);
        assert_non_null(t);
        assert_true(t->features & TYPE_TABULAR);
        assert_within(point_x(t, before[i]), x, 0.2); /* kerning at the point */
    }
    pages_free(&pages);
    free_list(&body);
}

/* A table of 150 rows, every third cell wrapping: heads on each page, each row's cells on one page and one line apart.
 */
static void test_table_repeats_its_head_and_splits_no_row(void **state)
{
    (void)state;
    enum { ROWS = 150 };
    struct pool pool = {0};
    struct table_row rows[ROWS];
    for (int i = 0; i < ROWS; i++) {
        const char **cells = pool_alloc(&pool, 2 * sizeof *cells);
        const char *tail = i % 3 ? ""
                                 : " with a name that is so long that it cannot stand on one line of this column and "
                                   "has to wrap to a second one, however wide the paper, because the shop named it so";
        cells[0] = pool_printf(&pool, "start%d part%s stop%d", i, tail, i);
        cells[1] = pool_printf(&pool, "%d.5", 1000 + i);
        rows[i] = (struct table_row){cells, false, false};
    }
    struct block_list body = {0};
    struct block table = table_block("Parts", number_columns, 2, rows, ROWS);
    table.as.table.note = "kerf of the blade";
    add_block(&body, table);
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    struct text problem = {0};
    assert_true(build_one(faces, &sheet, &pages, &problem));
    assert_true(pages.n >= 3);
    assert_no_problems(&pages, faces);
    int row = 0;
    for (size_t p = 0; p < pages.n; p++) {
        const struct page *page = &pages.list[p];
        assert_int_equal(count_texts(page, "what"), 1);
        assert_int_equal(count_texts(page, "size"), 1);
        assert_int_equal(count_texts(page, "kerf of the blade"), 1);
        assert_true(find_text(page, "kerf of the blade")->y < find_text(page, "what")->y);
        for (;; row++) {
            char start[24], stop[24], number[24];
            snprintf(start, sizeof start, "start%d ", row);
            snprintf(stop, sizeof stop, "stop%d", row);
            snprintf(number, sizeof number, "%d.5", 1000 + row);
            if (row == ROWS || !find_text(page, start))
                break;
            assert_non_null(find_text(page, number));
            assert_non_null(find_text(page, stop));
            assert_within(find_text(page, number)->y, find_text(page, start)->y, 1e-6);
            assert_true(find_text(page, start)->y > find_text(page, "what")->y);
        }
    }
    assert_int_equal(row, ROWS);
    pages_free(&pages);
    free_list(&body);
    pool_free(&pool);
}

/* A table of 15 and one of 35 rows fill more than a page: the second, asked to stay whole, begins the next one. */
static void test_table_that_is_whole_stands_on_one_page(void **state)
{
    (void)state;
    enum { FIRST = 15, ALL = 50 };
    for (int whole = 0; whole < 2; whole++) {
        struct pool pool = {0};
        struct table_row rows[ALL];
        for (int i = 0; i < ALL; i++) {
            const char **cells = pool_alloc(&pool, 2 * sizeof *cells);
            cells[0] = pool_printf(&pool, "row%d", i);
            cells[1] = "1.5";
            rows[i] = (struct table_row){cells, false, false};
        }
        struct block_list body = {0};
        struct block second = table_block("Checks", number_columns, 2, rows + FIRST, ALL - FIRST);
        second.as.table.whole = whole;
        add_block(&body, table_block("Parts", number_columns, 2, rows, FIRST));
        add_block(&body, second);
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        struct text problem = {0};
        assert_true(build_one(faces, &sheet, &pages, &problem));
        assert_int_equal(pages.n, 2);
        assert_true((find_text(&pages.list[1], "row15") != NULL) == whole);
        assert_non_null(find_text(&pages.list[1], "row49"));
        pages_free(&pages);
        free_list(&body);
        pool_free(&pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table_point_finds_the_place),
        cmocka_unit_test(test_table_widths_natural),
        cmocka_unit_test(test_table_widths_shares_the_rest),
        cmocka_unit_test(test_table_widths_respects_the_least),
        cmocka_unit_test(test_table_widths_wraps_fixed_columns),
        cmocka_unit_test(test_table_widths_never_over_the_room),
        cmocka_unit_test(test_table_widths_are_no_wider_than_the_cells),
        cmocka_unit_test(test_table_is_set_to_its_content),
        cmocka_unit_test(test_table_points_stand_under_each_other),
        cmocka_unit_test(test_table_repeats_its_head_and_splits_no_row),
        cmocka_unit_test(test_table_that_is_whole_stands_on_one_page),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
