/* Diagnostics: how one is printed, and their order. */
#include "base/diag.h"

#include "close.h"

#include <string.h>

static struct diags diags;

static int free_diags(void **state)
{
    (void)state;
    diags_free(&diags);
    return 0;
}

static void assert_printed(const struct diag *one, const char *expected)
{
    struct text t = {0};
    diag_print(&diags, one, &t);
    assert_string_equal(text_string(&t), expected);
    text_free(&t);
}

static void add_source(const char *text)
{
    diags_add_source(&diags, "a.yaml", text, strlen(text));
}

static void test_diag_print_line_and_carets(void **state)
{
    (void)state;
    add_source("first\n  kerf: 99\r\nlast");
    diag_at(&diags, DIAG_OUT_OF_RANGE, (struct mark){0, 2, 9, 2}, "saw.kerf", "found %d", 99);
    assert_printed(&diags.list[0],
                   "a.yaml:2:9: error: saw.kerf: out of range: found 99\n      kerf: 99\n            ^^\n");
}

static void test_diag_print_tab_and_wide_characters(void **state)
{
    (void)state;
    add_source("\tS\xC3\xA4ge: x");
    diag_at(&diags, DIAG_UNUSUAL, (struct mark){0, 1, 8, 1}, NULL, "%s", "x");
    assert_printed(&diags.list[0], "a.yaml:1:8: caution: unusual: x\n    \tS\xC3\xA4ge: x\n    \t      ^\n");
}

static void test_diag_print_past_the_end_of_the_line(void **state)
{
    (void)state;
    add_source("ab\ncd");
    diag_at(&diags, DIAG_SYNTAX, (struct mark){0, 1, 4, 3}, NULL, "%s", "");
    assert_printed(&diags.list[0], "a.yaml:1:4: error: this is not YAML that can be read\n    ab\n       ^\n");
}

static void test_diag_print_past_the_last_line(void **state)
{
    (void)state;
    add_source("ab\n");
    diag_at(&diags, DIAG_SYNTAX, (struct mark){0, 9, 1, 1}, NULL, "%s", "");
    assert_printed(&diags.list[0], "a.yaml:9:1: error: this is not YAML that can be read\n    \n    ^\n");
}

static void test_diag_print_hides_what_a_terminal_would_obey(void **state)
{
    (void)state;
    add_source("a\x1B[2Jb\xFFz");
    diag_at(&diags, DIAG_NOT_TEXT, (struct mark){0, 1, 2, 1}, NULL, "%s", "");
    assert_printed(&diags.list[0],
                   "a.yaml:1:2: error: this is not a text file\n    a\xEF\xBF\xBD[2Jb\xEF\xBF\xBDz\n     ^\n");
}

static void test_diag_print_shows_a_part_of_a_long_line(void **state)
{
    (void)state;
    struct text line = {0}, t = {0};
    for (int i = 0; i < 100000; i++)
        text_add_char(&line, (char)('a' + i % 26));
    add_source(text_string(&line));
    diag_at(&diags, DIAG_TOO_LONG, (struct mark){0, 1, 50001, 1}, NULL, "%s", "");
    diag_print(&diags, &diags.list[0], &t);
    assert_true(t.size < 500);
    /* The caret stands under character 50001: (50001 - 1) % 26 = 2, "c". */
    const char *shown = strchr(text_string(&t), '\n') + 1, *under = strchr(shown, '\n') + 1;
    assert_int_equal(shown[strcspn(under, "^")], 'c');
    text_free(&line);
    text_free(&t);
}

static void test_diag_print_without_place(void **state)
{
    (void)state;
    add_source("x");
    diag_at(&diags, DIAG_EMPTY, (struct mark){0}, NULL, "%s", "");
    assert_printed(&diags.list[0], "a.yaml: error: the file is empty\n");
}

static void test_diags_sort_by_place_keeps_order_of_equals(void **state)
{
    (void)state;
    static const struct mark marks[] = {{1, 1, 1, 1}, {0, 2, 1, 1}, {0, 1, 5, 1}, {0, 1, 5, 1}, {0, 1, 2, 1}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        diag_at(&diags, DIAG_SYNTAX, marks[i], NULL, "%zu", i);
    diags_sort(&diags);
    static const char *const order[] = {"4", "2", "3", "1", "0"};
    for (size_t i = 0; i < 5; i++)
        assert_string_equal(diags.list[i].detail, order[i]);
}

static void test_diags_count_errors_not_cautions(void **state)
{
    (void)state;
    diag_at(&diags, DIAG_UNUSUAL, (struct mark){0}, NULL, "%s", "");
    assert_false(diags_have_errors(&diags));
    assert_false(diag_at(&diags, DIAG_SYNTAX, (struct mark){0}, NULL, "%s", ""));
    assert_int_equal(diags_count_errors(&diags), 1);
}

static void test_diag_ids_are_unique_and_plain(void **state)
{
    (void)state;
    for (int i = 0; i < DIAG_CODES; i++) {
        const char *id = diag_id((enum diag_code)i);
        assert_int_equal(strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789-"), strlen(id));
        for (int k = 0; k < i; k++)
            assert_string_not_equal(id, diag_id((enum diag_code)k));
    }
}

#define WITH_DIAGS(name) cmocka_unit_test_teardown(name, free_diags)
int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_DIAGS(test_diag_print_line_and_carets),
        WITH_DIAGS(test_diag_print_tab_and_wide_characters),
        WITH_DIAGS(test_diag_print_past_the_end_of_the_line),
        WITH_DIAGS(test_diag_print_past_the_last_line),
        WITH_DIAGS(test_diag_print_hides_what_a_terminal_would_obey),
        WITH_DIAGS(test_diag_print_shows_a_part_of_a_long_line),
        WITH_DIAGS(test_diag_print_without_place),
        WITH_DIAGS(test_diags_sort_by_place_keeps_order_of_equals),
        WITH_DIAGS(test_diags_count_errors_not_cautions),
        cmocka_unit_test(test_diag_ids_are_unique_and_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
