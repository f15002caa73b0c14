/* finished_check must find what is wrong on a finished page: each case is a page made wrong on purpose. */
#define _POSIX_C_SOURCE 200809L
#include "pdf/finished.h"

#include "close.h"

#include "pdf.h"
#include "pdf/tools.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct fixture {
    struct faces *faces;
    char folder[64];
};

/* A page of A4 with its inks, in a pool. */
struct made {
    const struct fixture *fixture;
    struct pool pool;
    struct inks inks;
};

static void begin(struct made *m, void **state)
{
    *m = (struct made){.fixture = *state};
    m->inks.pool = &m->pool;
}

static void text_in(struct made *m, struct color color, double x, double y, const char *s)
{
    ink_add_text(&m->inks, m->fixture->faces, FACE_CONDENSED, 0, 10, x, y, color, s, strlen(s));
}

static void text_at(struct made *m, double x, double y, const char *s)
{
    text_in(m, COLOR_BLACK, x, y, s);
}

static void upward_at(struct made *m, double x, double y, const char *s)
{
    text_at(m, x, y, s);
    m->inks.list[m->inks.n - 1].as.text.upward = true;
}

/* Makes the PDF of `n_pages` times the page and expects `n` problems, with these words in the first. */
static void expect_of(struct made *m, size_t n_pages, size_t n, const char *words)
{
    struct page page = {.width = 595.28, .height = 841.89, .inks = m->inks.list, .n_inks = m->inks.n, .label = "1"};
    struct page list[2] = {page, page};
    struct pages pages = {.list = list, .n = n_pages};
    const struct pdf_info info = {.title = "Wrong on purpose", .author = "", .subject = "", .keywords = "", .language = "en"};
    struct text bytes = {0}, problems = {0};
    char path[100];
    assert_true(pdf_build(&pages, m->fixture->faces, &info, &bytes, &problems));
    snprintf(path, sizeof path, "%s/sheet.pdf", m->fixture->folder);
    assert_true(tool_write(path, bytes.bytes, bytes.size));
    size_t found = finished_check(path, m->fixture->folder, &problems);
    if (found != n || !strstr(text_string(&problems), words))
        fail_msg("%zu problems, expected %zu with \"%s\":\n%s", found, n, words, text_string(&problems));
    text_free(&bytes);
    text_free(&problems);
    pool_free(&m->pool);
}

static void expect(struct made *m, size_t n, const char *words)
{
    expect_of(m, 1, n, words);
}

/* Rules between lines, a word on a tint, white on a dark band, letters that read from below beside a line. */
static void test_finished_check_good_page(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 100, 100, "one good g\xC3\xA4p");
    text_at(&m, 100, 113, "\xC3\x84nd two");
    ink_add_line(&m.inks, 100, 103.2, 200, 103.2, 0.4, COLOR_BLACK);
    ink_add_rect(&m.inks, 95, 200, 200, 220, true, (struct color){0.85f, 0.85f, 0.85f}, 0.5);
    text_at(&m, 100, 214, "tinted");
    ink_add_rect(&m.inks, 95, 300, 200, 320, true, COLOR_BLACK, 0);
    text_in(&m, COLOR_WHITE, 100, 314, "dark");
    upward_at(&m, 300, 300, "18");
    ink_add_line(&m.inks, 303, 200, 303, 400, 0.5, COLOR_BLACK);
    expect(&m, 0, "");
}

static void test_finished_check_line_through_a_label(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 100, 100, "label");
    ink_add_line(&m.inks, 90, 97, 150, 97, 0.4, COLOR_BLACK);
    expect(&m, 1, "page 1: a line goes through \"label\" at 100 93");
    begin(&m, state);
    upward_at(&m, 300, 300, "18");
    ink_add_line(&m.inks, 297, 200, 297, 400, 0.4, COLOR_BLACK);
    expect(&m, 1, "a line goes through \"18\"");
    begin(&m, state); /* between two letters, none of which it touches */
    text_at(&m, 100, 100, "A\xE2\x80\x93" "A");
    ink_add_line(&m.inks, 108.5, 95, 108.5, 60, 0.4, COLOR_BLACK);
    expect(&m, 1, "a line goes through");
}

static void test_finished_check_edge_of_a_dark_band(void **state)
{
    struct made m;
    begin(&m, state);
    ink_add_rect(&m.inks, 110, 80, 200, 120, true, COLOR_BLACK, 0);
    text_in(&m, (struct color){0.5f, 0.5f, 0.5f}, 100, 100, "half");
    expect(&m, 1, "a line goes through \"half\"");
}

static void test_finished_check_words_over_each_other(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 100, 100, "one here");
    text_at(&m, 101, 104, "two");
    expect(&m, 1, "\"two\" stands over \"one\"");
}

static void test_finished_check_word_that_is_not_seen(void **state)
{
    struct made m;
    begin(&m, state);
    text_in(&m, COLOR_WHITE, 100, 100, "white");
    expect(&m, 1, "\"white\" is not seen");
    begin(&m, state);
    text_at(&m, 100, 100, "covered");
    ink_add_rect(&m.inks, 95, 80, 200, 110, true, (struct color){0.9f, 0.9f, 0.9f}, 0);
    expect(&m, 1, "\"covered\" is not seen");
}

static void test_finished_check_small_letters(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 100, 100, "small");
    m.inks.list[0].as.text.size = 7.5;
    expect(&m, 1, "letters of 7.5 pt");
}

static void test_finished_check_margins(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 50, 100, "in the holes");
    expect(&m, 1, "something stands on the margins");
    begin(&m, state);
    text_at(&m, 100, 100, "word");
    ink_add_line(&m.inks, 100, 812, 200, 812, 0.5, COLOR_BLACK);
    expect(&m, 1, "something stands on the margins");
}

static void test_finished_check_page_nearly_empty(void **state)
{
    struct made m;
    begin(&m, state);
    text_at(&m, 100, 100, "little");
    text_at(&m, 100, 790, "foot");
    expect_of(&m, 2, 2, "page 1: nearly empty");
    begin(&m, state);
    text_at(&m, 100, 100, "little");
    text_at(&m, 100, 790, "foot");
    expect(&m, 0, "");
}

static void test_finished_check_no_pdf(void **state)
{
    const struct fixture *f = *state;
    struct text problems = {0};
    char path[100];
    snprintf(path, sizeof path, "%s/sheet.pdf", f->folder);
    assert_true(tool_write(path, "no pdf\n", 7));
    assert_int_equal(finished_check(path, f->folder, &problems), 1);
    assert_non_null(strstr(text_string(&problems), "cannot be looked at"));
    text_free(&problems);
}

static int set_up(void **state)
{
    struct fixture *f = calloc(1, sizeof *f);
    strcpy(f->folder, "/tmp/fettle-finished-XXXXXX");
    if (!mkdtemp(f->folder))
        return -1;
    f->faces = type_open();
    *state = f;
    return 0;
}

static int tear_down(void **state)
{
    struct fixture *f = *state;
    struct text command = {0};
    text_printf(&command, "rm -r '%s'", f->folder);
    int status = tool_run(text_string(&command), &(struct text){0});
    text_free(&command);
    type_close(f->faces);
    free(f);
    return status;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_finished_check_good_page),
        cmocka_unit_test(test_finished_check_line_through_a_label),
        cmocka_unit_test(test_finished_check_edge_of_a_dark_band),
        cmocka_unit_test(test_finished_check_words_over_each_other),
        cmocka_unit_test(test_finished_check_word_that_is_not_seen),
        cmocka_unit_test(test_finished_check_small_letters),
        cmocka_unit_test(test_finished_check_margins),
        cmocka_unit_test(test_finished_check_page_nearly_empty),
        cmocka_unit_test(test_finished_check_no_pdf),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
