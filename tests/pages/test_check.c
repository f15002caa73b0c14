/* pages_check must find what is wrong: each case is a page made wrong on purpose. */
#include "kit.h"
#include "faces.h"

/* An A4 page with its inks, in a pool. */
struct made {
    struct pool pool;
    struct inks inks;
    struct page page;
};

static void begin(struct made *m, enum sheet_kind kind)
{
    *m = (struct made){.page = {.width = 595.28, .height = 841.89, .kind = kind, .filled = 0.5, .label = "1"}};
    m->inks.pool = &m->pool;
}

static void text_at(struct made *m, double x, double y, double size, const char *s)
{
    ink_add_text(&m->inks, faces, FACE_CONDENSED, 0, size, x, y, COLOR_BLACK, s, strlen(s));
}

/* Expects `n` problems, the first of them with `words`. */
static void finish(struct made *m, size_t n, const char *words)
{
    m->page.inks = m->inks.list;
    m->page.n_inks = m->inks.n;
    struct pages pages = {.list = &m->page, .n = 1};
    struct text problems = {0};
    size_t found = pages_check(&pages, faces, &problems);
    if (found != n || !strstr(text_string(&problems), words))
        fail_msg("%zu problems, expected %zu with \"%s\":\n%s", found, n, words, text_string(&problems));
    text_free(&problems);
    pool_free(&m->pool);
}

static void test_pages_check_good_page(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "one");
    text_at(&m, 100, 113, 10, "two");
    ink_add_line(&m.inks, 100, 103.5, 200, 103.5, 0.5, COLOR_BLACK);
    finish(&m, 0, "");
}

static void test_pages_check_overlap(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "one here");
    text_at(&m, 110, 103, 10, "two");
    finish(&m, 1, "page 1: \"one here\" overlaps \"two\"");
}

static void test_pages_check_outside(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 540, 100, 10, "past the right margin");
    text_at(&m, 40, 200, 10, "in the holes");
    ink_add_line(&m.inks, 100, 820, 200, 820, 0.5, COLOR_BLACK);
    finish(&m, 3, "outside the printable area: past the right margin");
}

static void test_pages_check_text_on_a_line(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "crossed");
    ink_add_line(&m.inks, 90, 80, 130, 120, 0.5, COLOR_BLACK);
    finish(&m, 1, "\"crossed\" stands on a line");
    begin(&m, SHEET_BUILD); /* the edge of a tint is a line, too */
    ink_add_rect(&m.inks, 110, 80, 200, 120, true, COLOR_BLACK, 0);
    text_at(&m, 100, 100, 10, "half on black");
    finish(&m, 1, "stands on a line");
}

static void test_pages_check_curve_through_text(void **state)
{
    (void)state;
    struct made m;
    struct path_op ops[] = {{.verb = PATH_MOVE, .x = 90, .y = 60},
                            {.verb = PATH_CURVE, .x1 = 90, .y1 = 110, .x2 = 130, .y2 = 110, .x = 130, .y = 60}};
    struct ink ink = {.kind = INK_PATH, .as.path = {.ops = ops, .n = 2, .stroke = true, .width = 0.5}};
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "under the bow");
    ink_add(&m.inks, ink);
    finish(&m, 1, "stands on a line");
}

/* A white patch between line and text hides the line; a patch on top hides the text. */
static void test_pages_check_patches(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    ink_add_line(&m.inks, 90, 97, 200, 97, 0.5, COLOR_BLACK);
    ink_add_rect(&m.inks, 95, 88, 150, 106, true, COLOR_WHITE, 0);
    text_at(&m, 100, 100, 10, "patched");
    finish(&m, 0, "");
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "covered");
    ink_add_rect(&m.inks, 95, 88, 150, 106, true, COLOR_WHITE, 0);
    finish(&m, 1, "\"covered\" is hidden");
}

static void test_pages_check_missing_glyph(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 10, "a\xF3\xB0\x80\x80"); /* U+F0000: private use, in no font */
    finish(&m, 1, "no glyph for byte 1");
}

static void test_pages_check_small_capitals(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    text_at(&m, 100, 100, 8, "too small");
    finish(&m, 1, "\"too small\" has capitals of 2.01 mm");
    begin(&m, SHEET_WALL);
    text_at(&m, 100, 100, 30, "FAR");
    text_at(&m, 100, 130, 9, "small for a wall");
    finish(&m, 1, "2.50 mm asked for");
    begin(&m, SHEET_WALL);
    text_at(&m, 100, 100, 20, "nothing large");
    finish(&m, 1, "without capitals of 7.5 mm");
}

static void test_pages_check_fill(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    m.page.filled = 1.02;
    finish(&m, 1, "filled to 102 %");
    struct page two[] = {{.width = 595, .height = 842, .kind = SHEET_BUILD, .filled = 1},
                         {.width = 595, .height = 842, .kind = SHEET_BUILD, .filled = 0.2}};
    struct pages pages = {.list = two, .n = 2};
    struct text problems = {0};
    assert_int_equal(pages_check(&pages, faces, &problems), 1);
    assert_non_null(strstr(text_string(&problems), "page 2: nearly empty, 20 % filled"));
    two[1].kind = SHEET_BENCH;
    assert_int_equal(pages_check(&pages, faces, &problems), 0);
    text_free(&problems);
}

static void test_pages_check_torn(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    m.page.torn = true;
    finish(&m, 1, "page 1: ends with what belongs to the next");
}

static void test_pages_check_labels_left_out(void **state)
{
    (void)state;
    struct made m;
    begin(&m, SHEET_BUILD);
    m.page.left_out = 2;
    finish(&m, 1, "2 labels of its drawings found no room");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pages_check_good_page),
        cmocka_unit_test(test_pages_check_overlap),
        cmocka_unit_test(test_pages_check_outside),
        cmocka_unit_test(test_pages_check_text_on_a_line),
        cmocka_unit_test(test_pages_check_curve_through_text),
        cmocka_unit_test(test_pages_check_patches),
        cmocka_unit_test(test_pages_check_missing_glyph),
        cmocka_unit_test(test_pages_check_small_capitals),
        cmocka_unit_test(test_pages_check_fill),
        cmocka_unit_test(test_pages_check_torn),
        cmocka_unit_test(test_pages_check_labels_left_out),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
