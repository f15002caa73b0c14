/* The flow of blocks over pages: keeping together, page numbers, sheets of one page, the dump. */
#include "kit.h"

#include "pages/blocks.h"
#include "faces.h"

#include <stdio.h>

static const char running_text[] =
    "The sled is pushed away from the operator until its stop meets the table; the blade then stands inside the guard. "
    "Whoever made it measures the offcut at both ends, writes the readings down as they are and leaves the sum to the "
    "sheet.";

static void build(const struct sheet *list, size_t n, struct pages *out)
{
    struct sheets sheets = {.paper = PAPER_A4, .list = (struct sheet *)list, .n = n};
    struct text problem = {0};
    assert_true(pages_build(&sheets, faces, out, &problem));
    assert_string_equal(text_string(&problem), "");
    assert_no_problems(out, faces);
}

static void test_pages_build_numbers_pages_over_the_document(void **state)
{
    (void)state;
    struct block_list body = {0};
    for (int i = 0; i < 30; i++)
        add_paragraph(&body, STYLE_BODY, running_text);
    struct sheet list[] = {plain_sheet(SHEET_BUILD, body), plain_sheet(SHEET_RECORD, body),
                           plain_sheet(SHEET_BENCH, body)};
    list[1].bookmark = "Record";
    struct pages pages;
    build(list, 3, &pages);
    assert_int_equal(pages.n, 6);
    for (size_t p = 0; p < pages.n; p++) {
        char number[64];
        snprintf(number, sizeof number, "page" NBSP "%zu" NBSP "of" NBSP "6", p + 1);
        assert_int_equal(count_texts(&pages.list[p], number), 1);
        snprintf(number, sizeof number, "%zu", p + 1);
        assert_string_equal(pages.list[p].label, number);
        assert_non_null(find_text(&pages.list[p], "TS-07"));
        assert_non_null(find_text(&pages.list[p], "stand above this sheet"));
    }
    assert_int_equal(pages.n_bookmarks, 3);
    assert_string_equal(pages.bookmarks[1].title, "Record");
    assert_int_equal(pages.bookmarks[1].page, 2);
    assert_int_equal(pages.list[2].kind, SHEET_RECORD);
    pages_free(&pages);
    free_list(&body);
}

/* A heading is put after ever more lines; it never is the last thing on its page. */
static void test_pages_build_leaves_no_heading_at_a_foot(void **state)
{
    (void)state;
    for (int lines = 40; lines < 70; lines++) {
        struct block_list body = {0};
        struct text many = {0};
        for (int i = 0; i < lines; i++)
            text_printf(&many, "%sline", i ? "\n" : "");
        add_paragraph(&body, STYLE_BODY, text_string(&many));
        add_heading(&body, 2, "HEADING", "");
        add_paragraph(&body, STYLE_BODY, "BELOW one\nBELOW two\nBELOW three");
        for (int i = 0; i < 20; i++)
            add_paragraph(&body, STYLE_BODY, running_text);
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        build(&sheet, 1, &pages);
        for (size_t p = 0; p < pages.n; p++) {
            size_t below = count_texts(&pages.list[p], "BELOW");
            if (count_texts(&pages.list[p], "HEADING"))
                assert_true(below >= 2);
            assert_int_not_equal(below, 1); /* neither orphan nor widow */
        }
        pages_free(&pages);
        text_free(&many);
        free_list(&body);
    }
}

/* Two lines at least stay together at either end of a paragraph; three lines are not divided at all. */
static void test_set_paragraph_keeps_two_lines_together(void **state)
{
    (void)state;
    struct widths widths = {.faces = faces};
    struct pool pool = {0};
    struct placings placings = {NULL};
    struct setter setter = {.widths = &widths, .placings = &placings, .pool = &pool, .scale = 1, .page_height = 700};
    const struct {
        const char *text;
        const char *kept;
    } rows[] = {{"a", "0"}, {"a\nb", "10"}, {"a\nb\nc", "110"}, {"a\nb\nc\nd\ne", "10010"}};
    for (int i = 0; i < COUNT(rows); i++) {
        struct slabs slabs = {.pool = &pool};
        struct block block = {.kind = BLOCK_PARAGRAPH, .as.paragraph = {.style = STYLE_BODY, .text = rows[i].text}};
        set_paragraph(&setter, &block, 300, &slabs);
        assert_int_equal(slabs.n, strlen(rows[i].kept));
        for (size_t k = 0; k < slabs.n; k++)
            assert_int_equal(slabs.list[k].keep_with_next, rows[i].kept[k] == '1');
    }
    widths_free(&widths);
    pool_free(&pool);
}

static void test_pages_build_keeps_with_next(void **state)
{
    (void)state;
    for (int before = 30; before < 62; before++) {
        struct block_list body = {0};
        for (int i = 0; i < before; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        add_paragraph(&body, STYLE_BODY, "KEPT");
        body.blocks[body.n - 1].keep_with_next = true;
        add_paragraph(&body, STYLE_BODY, "WITH");
        for (int i = 0; i < 20; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        build(&sheet, 1, &pages);
        for (size_t p = 0; p < pages.n; p++)
            assert_int_equal(count_texts(&pages.list[p], "KEPT"), count_texts(&pages.list[p], "WITH"));
        pages_free(&pages);
        free_list(&body);
    }
}

static void test_pages_build_starts_a_page_where_asked(void **state)
{
    (void)state;
    struct block_list body = {0};
    for (int i = 0; i < 12; i++)
        add_paragraph(&body, STYLE_BODY, running_text);
    add_heading(&body, 1, "SECOND", "");
    body.blocks[body.n - 1].new_page = true;
    for (int i = 0; i < 12; i++)
        add_paragraph(&body, STYLE_BODY, running_text);
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    build(&sheet, 1, &pages);
    assert_int_equal(pages.n, 2);
    assert_int_equal(count_texts(&pages.list[1], "SECOND"), 1);
    pages_free(&pages);
    free_list(&body);
}

static struct drawing square_drawing(struct draw_shape *shape, const char *title)
{
    static const struct draw_point corners[] = {{0, 0}, {600, 0}, {600, 600}, {0, 600}};
    *shape = (struct draw_shape){.points = corners, .n = 4, .closed = true, .line = LINE_VISIBLE};
    return (struct drawing){.shapes = shape, .n_shapes = 1, .title = title};
}

static struct sheet wall_with_drawing(struct block_list *body, const struct drawing *drawing, double least, int lines)
{
    add_block(body, (struct block){.kind = BLOCK_BANNER, .as.banner = {MARK_CROSS, "DO NOT USE", "tested 2026-11-02"}});
    add_block(body, (struct block){.kind = BLOCK_DRAWING, .as.drawing = {drawing, least, 150, STYLE_BODY}});
    for (int i = 0; i < lines; i++)
        add_paragraph(body, STYLE_ARM, "A line that is read at arm's length");
    struct sheet sheet = plain_sheet(SHEET_WALL, *body);
    sheet.one_page = true;
    sheet.title = "Wall sheet";
    return sheet;
}

/* Height of the lower edge of the drawing's ink: paths between banner and foot. */
static double drawing_height(const struct page *page)
{
    double top = 1e9, bottom = 0;
    for (size_t i = 0; i < page->n_inks; i++) {
        const struct ink_path *path = &page->inks[i].as.path;
        if (page->inks[i].kind != INK_PATH || !path->stroke)
            continue;
        for (size_t k = 0; k < path->n; k++)
            if (path->ops[k].y < page->height - 60) {
                top = fmin(top, path->ops[k].y);
                bottom = fmax(bottom, path->ops[k].y);
            }
    }
    return bottom - top;
}

/* The more there is to say on the wall, the lower its drawing; all of it stays on the one page. */
static void test_pages_build_one_page_drawing_gives_way(void **state)
{
    (void)state;
    double height[2];
    for (int i = 0; i < 2; i++) {
        struct block_list body = {0};
        struct draw_shape shape;
        struct drawing drawing = square_drawing(&shape, "");
        struct sheet sheet = wall_with_drawing(&body, &drawing, 50, i ? 13 : 3);
        struct pages pages;
        build(&sheet, 1, &pages);
        assert_int_equal(pages.n, 1);
        height[i] = drawing_height(&pages.list[0]);
        if (i) /* no more than is needed */
            assert_true(pages.list[0].filled > 0.9);
        pages_free(&pages);
        free_list(&body);
    }
    assert_true(height[0] > 1.2 * height[1]);
    assert_true(height[1] > 70 / 25.4 * 72); /* it may go down to 50 mm, but need not */
}

static double greatest_size(const struct page *page)
{
    double size = 0;
    for (size_t i = 0; i < page->n_inks; i++)
        if (page->inks[i].kind == INK_TEXT)
            size = fmax(size, page->inks[i].as.text.size);
    return size;
}

/* Type of a wall sheet is larger on A3, and the more so the more room there is. */
static void test_pages_build_one_page_of_large_paper(void **state)
{
    (void)state;
    static const struct {
        enum paper paper;
        int paragraphs;
    } rows[] = {{PAPER_A4, 3}, {PAPER_A3, 3}, {PAPER_A3, 20}};
    double size[3];
    for (size_t i = 0; i < 3; i++) {
        struct block_list body = {0};
        struct draw_shape shape;
        struct drawing drawing = square_drawing(&shape, "");
        struct sheet sheet = wall_with_drawing(&body, &drawing, 50, rows[i].paragraphs);
        struct sheets sheets = {.paper = rows[i].paper, .list = &sheet, .n = 1};
        struct pages pages;
        struct text problem = {0};
        assert_true(pages_build(&sheets, faces, &pages, &problem));
        assert_int_equal(pages.n, 1);
        assert_true(pages.list[0].filled <= 1 + 1e-9);
        size[i] = greatest_size(&pages.list[0]);
        pages_free(&pages);
        free_list(&body);
    }
    assert_within(size[1], size[0] * 1.25 * 1.24, 1e-6);
    assert_true(size[0] * 1.25 <= size[2] && size[2] < size[1]);
}

static void test_pages_build_one_page_that_does_not_fit(void **state)
{
    (void)state;
    struct block_list body = {0};
    struct draw_shape shape;
    struct drawing drawing = square_drawing(&shape, "");
    struct sheet sheet = wall_with_drawing(&body, &drawing, 100, 25);
    struct pages pages;
    struct text problem = {0};
    assert_false(build_one(faces, &sheet, &pages, &problem));
    assert_non_null(strstr(text_string(&problem), "Wall sheet: needs "));
    assert_non_null(strstr(text_string(&problem), " mm more than its one page has"));
    text_free(&problem);
    pages_free(&pages);
    free_list(&body);
}

static void test_set_drawing_is_as_high_as_its_title_and_ink(void **state)
{
    (void)state;
    struct widths widths = {.faces = faces};
    struct pool pool = {0};
    struct placings placings = {NULL};
    struct setter setter = {.widths = &widths, .placings = &placings, .pool = &pool, .scale = 1, .page_height = 700};
    struct draw_shape shape;
    struct drawing drawing = square_drawing(&shape, "Title");
    struct block block = {.kind = BLOCK_DRAWING, .as.drawing = {&drawing, 30, 60, STYLE_BODY}};
    double height[2];
    for (int i = 0; i < 2; i++) {
        struct slabs slabs = {.pool = &pool};
        setter.squeeze = i;
        set_drawing(&setter, &block, 400, &slabs);
        double lowest = 0, box[4];
        for (size_t k = 0; k < slabs.list[0].inks.n; k++) {
            ink_box(&slabs.list[0].inks.list[k], faces, box);
            lowest = fmax(lowest, box[3]);
        }
        height[i] = slabs.list[0].height;
        assert_true(slabs.list[0].inks.n >= 2);
        assert_true(height[i] >= lowest - 1);
        assert_true(height[i] <= (i ? 30 : 60) / 25.4 * 72 + 20); /* and the title */
    }
    assert_true(height[0] > 1.5 * height[1]);
    widths_free(&widths);
    pool_free(&pool);
}

/* From outer edge to outer edge of all that is filled. */
static void measure_fills(const struct page *page, double *wide, double *high)
{
    double box[4] = {1e9, 1e9, -1e9, -1e9};
    for (size_t i = 0; i < page->n_inks; i++) {
        const struct ink_path *path = &page->inks[i].as.path;
        for (size_t k = 0; page->inks[i].kind == INK_PATH && path->fill && k < path->n; k++) {
            if (path->ops[k].verb == PATH_CLOSE)
                continue;
            box[0] = fmin(box[0], path->ops[k].x), box[1] = fmin(box[1], path->ops[k].y);
            box[2] = fmax(box[2], path->ops[k].x), box[3] = fmax(box[3], path->ops[k].y);
        }
    }
    *wide = box[2] - box[0], *high = box[3] - box[1];
}

/* A page with a bar says so; the bar is as long as it claims, level and upright, in millimetres and in inches. */
static void test_pages_build_bars_are_as_long_as_they_say(void **state)
{
    (void)state;
    static const struct {
        double length, points;
        int parts;
    } rows[] = {{100, 100 * 72 / 25.4, 10}, {101.6, 4 * 72, 8}};
    for (int i = 0; i < 4; i++) {
        struct block_list body = {0};
        bool upright = i % 2;
        add_block(&body, (struct block){.kind = BLOCK_BAR,
                                        .as.bar = {.length = rows[i / 2].length,
                                                   .parts = rows[i / 2].parts,
                                                   .upright = upright,
                                                   .label = "measure me"}});
        struct sheet list[] = {plain_sheet(SHEET_BUILD, body), plain_sheet(SHEET_RECORD, (struct block_list){0})};
        struct pages pages;
        double wide, high;
        build(list, 2, &pages);
        assert_true(pages.list[0].true_scale);
        assert_false(pages.list[1].true_scale);
        measure_fills(&pages.list[0], &wide, &high);
        assert_within(upright ? high : wide, rows[i / 2].points, 0.01);
        assert_true((upright ? wide : high) < 20);
        pages_free(&pages);
        free_list(&body);
    }
}

static void test_pages_build_without_blocks(void **state)
{
    (void)state;
    struct sheet sheet = plain_sheet(SHEET_BUILD, (struct block_list){0});
    struct pages pages;
    build(&sheet, 1, &pages);
    assert_int_equal(pages.n, 1);
    assert_close(pages.list[0].filled, 0, 0);
    pages_free(&pages);
}

/* Columns higher than the page go on, each where it stopped. */
static void test_pages_build_columns_higher_than_a_page(void **state)
{
    (void)state;
    struct block_list body = {0}, left = {0}, right = {0};
    struct pool pool = {0};
    for (int i = 0; i < 90; i++)
        add_paragraph(&left, STYLE_BODY, pool_printf(&pool, "left%d.", i));
    for (int i = 0; i < 20; i++)
        add_paragraph(&right, STYLE_BODY, pool_printf(&pool, "right%d.", i));
    add_heading(&body, 2, "Both", "");
    add_block(&body, (struct block){.kind = BLOCK_COLUMNS, .as.columns = {{left, right}, {6, 6}, 2}});
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    struct text dump = {0};
    build(&sheet, 1, &pages);
    pages_dump(&pages, &dump);
    assert_true(pages.n >= 2);
    const char *at = text_string(&dump);
    for (int i = 0; i < 90; i++) {
        at = strstr(at, pool_printf(&pool, " left%d.\n", i));
        assert_non_null(at);
    }
    for (int i = 0; i < 20; i++)
        assert_non_null(strstr(text_string(&dump), pool_printf(&pool, " right%d.\n", i)));
    text_free(&dump);
    pages_free(&pages);
    free_list(&body);
    pool_free(&pool);
}

/* Where the text of a page stands; -1: nowhere. */
static double y_of(const struct page *page, const char *text)
{
    for (size_t i = 0; i < page->n_inks; i++)
        if (page->inks[i].kind == INK_TEXT && strcmp(page->inks[i].as.text.s, text) == 0)
            return page->inks[i].as.text.y;
    return -1;
}

/* Columns of unlike rows stand one row under the other wherever the page does not end. */
static void test_pages_build_columns_without_gaps(void **state)
{
    (void)state;
    struct block_list body = {0}, left = {0}, right = {0};
    struct pool pool = {0};
    for (int i = 0; i < 70; i++)
        add_paragraph(&left, STYLE_BODY, pool_printf(&pool, "left%d", i));
    for (int i = 0; i < 60; i++)
        add_paragraph(&right, STYLE_LEAD, pool_printf(&pool, "right%d", i));
    add_block(&body, (struct block){.kind = BLOCK_COLUMNS, .as.columns = {{left, right}, {6, 6}, 2}});
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    build(&sheet, 1, &pages);
    assert_int_equal(pages.n, 2);
    for (size_t p = 0; p < pages.n; p++)
        for (int i = 1; i < 60; i++)
            for (int c = 0; c < 2; c++) {
                double y = y_of(&pages.list[p], pool_printf(&pool, "%s%d", c ? "right" : "left", i)),
                       before = y_of(&pages.list[p], pool_printf(&pool, "%s%d", c ? "right" : "left", i - 1));
                if (y > 0 && before > 0)
                    assert_true(y - before < 2 * 15); /* a line of the larger and its white */
            }
    pages_free(&pages);
    free_list(&body);
    pool_free(&pool);
}

/* A drawing too high for the rest of the page lets lines come before it, but not the next section; one that does not
   float, nothing. */
static void test_pages_build_fills_the_page_before_a_drawing(void **state)
{
    (void)state;
    for (int floats = 0; floats < 2; floats++) {
        struct block_list body = {0};
        struct draw_shape shape;
        struct drawing drawing = square_drawing(&shape, "DRAWING");
        for (int i = 0; i < 24; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        add_block(&body, (struct block){.kind = BLOCK_DRAWING, .floats = floats, .as.drawing = {&drawing, 150, 150, STYLE_BODY}});
        add_paragraph(&body, STYLE_BODY, "FOLLOWS\none\ntwo\nthree\nfour\nfive");
        add_heading(&body, 2, "SECTION", "");
        for (int i = 0; i < 20; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        build(&sheet, 1, &pages);
        assert_int_equal(count_texts(&pages.list[0], "DRAWING"), 0);
        assert_int_equal(count_texts(&pages.list[0], "FOLLOWS"), floats);
        assert_int_equal(count_texts(&pages.list[0], "SECTION"), 0);
        pages_free(&pages);
        free_list(&body);
    }
}

static void test_pages_build_never_breaks_what_is_whole(void **state)
{
    (void)state;
    for (int before = 30; before < 62; before++) {
        struct block_list body = {0};
        for (int i = 0; i < before; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        add_block(&body, (struct block){.kind = BLOCK_PARAGRAPH, .whole = true,
                                        .as.paragraph = {.style = STYLE_BODY, .text = "FIRST\n2\n3\n4\n5\n6\n7\n8\n9\n10\n11\n12\n13\nLAST"}});
        for (int i = 0; i < 20; i++)
            add_paragraph(&body, STYLE_BODY, "one line");
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        build(&sheet, 1, &pages);
        for (size_t p = 0; p < pages.n; p++)
            assert_int_equal(count_texts(&pages.list[p], "FIRST"), count_texts(&pages.list[p], "LAST"));
        pages_free(&pages);
        free_list(&body);
    }
}

static void test_pages_dump_lists_every_text(void **state)
{
    (void)state;
    struct block_list body = {0};
    add_paragraph(&body, STYLE_BODY, "plain " BOLD("bold"));
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct pages pages;
    struct text dump = {0};
    build(&sheet, 1, &pages);
    pages_dump(&pages, &dump);
    assert_true(strncmp(text_string(&dump), "page 1\n  56.7 ", 14) == 0); /* 20 mm */
    assert_non_null(strstr(text_string(&dump), " 10.0 condensed plain \n"));
    assert_non_null(strstr(text_string(&dump), " 10.0 condensed-bold bold\n"));
    text_free(&dump);
    pages_free(&pages);
    free_list(&body);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pages_build_numbers_pages_over_the_document),
        cmocka_unit_test(test_pages_build_leaves_no_heading_at_a_foot),
        cmocka_unit_test(test_set_paragraph_keeps_two_lines_together),
        cmocka_unit_test(test_pages_build_keeps_with_next),
        cmocka_unit_test(test_pages_build_starts_a_page_where_asked),
        cmocka_unit_test(test_pages_build_one_page_drawing_gives_way),
        cmocka_unit_test(test_pages_build_one_page_of_large_paper),
        cmocka_unit_test(test_pages_build_one_page_that_does_not_fit),
        cmocka_unit_test(test_set_drawing_is_as_high_as_its_title_and_ink),
        cmocka_unit_test(test_pages_build_bars_are_as_long_as_they_say),
        cmocka_unit_test(test_pages_build_without_blocks),
        cmocka_unit_test(test_pages_build_columns_higher_than_a_page),
        cmocka_unit_test(test_pages_build_columns_without_gaps),
        cmocka_unit_test(test_pages_build_fills_the_page_before_a_drawing),
        cmocka_unit_test(test_pages_build_never_breaks_what_is_whole),
        cmocka_unit_test(test_pages_dump_lists_every_text),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
