/* Files made to hurt: each must end at once, with one clear message, without eating memory. */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"
#include "job.h"
#include "job/node.h"

#include "close.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define HEAD "fettle: 1\njob: {number: A, title: B}\nunits: mm\nsaw: {}\ntests: []\n"

static struct job job;
static struct diags diags;
static struct text text;

static int free_all(void **state)
{
    (void)state;
    job_free(&job);
    diags_free(&diags);
    text_free(&text);
    return 0;
}

static bool has_code(enum diag_code code)
{
    for (size_t i = 0; i < diags.count; i++)
        if (diags.list[i].code == code)
            return true;
    return false;
}

static void assert_refused(enum diag_code code)
{
    assert_false(job_read_text("attack.yaml", text_string(&text), text.size, &diags, &job));
    if (!has_code(code))
        fail_msg("no \"%s\"; first is \"%s\"", diag_id(code), diags.count ? diag_id(diags.list[0].code) : "nothing");
}

static void add_times(const char *s, int n)
{
    for (int i = 0; i < n; i++)
        text_add(&text, s);
}

/* Nine copies of nine copies of … : 9^10 values, were they made. */
static void test_attack_exploding_aliases(void **state)
{
    (void)state;
    text_add(&text, HEAD "a0: &a0 [x,x,x,x,x,x,x,x,x]\n");
    for (int i = 1; i < 10; i++) {
        text_printf(&text, "a%d: &a%d [", i, i);
        for (int k = 0; k < 9; k++)
            text_printf(&text, "%s*a%d", k ? "," : "", i - 1);
        text_add(&text, "]\n");
    }
    assert_refused(DIAG_TOO_MANY);
}

static void test_attack_depth_of_lists(void **state)
{
    (void)state;
    text_add(&text, HEAD "a: ");
    add_times("[", 100);
    add_times("]", 100);
    assert_refused(DIAG_TOO_DEEP);
}

static void test_attack_depth_never_closed(void **state)
{
    (void)state;
    add_times("[", 1000000);
    assert_refused(DIAG_TOO_DEEP);
}

static void test_attack_depth_of_block_mappings(void **state)
{
    (void)state;
    for (int i = 0; i < 100; i++) {
        add_times(" ", i);
        text_add(&text, "a:\n");
    }
    assert_refused(DIAG_TOO_DEEP);
}

static void test_depth_16_is_read(void **state)
{
    (void)state;
    struct pool pool = {0};
    bool complete;
    add_times("[", DEPTH_LIMIT);
    add_times("]", DEPTH_LIMIT);
    assert_non_null(node_read(text_string(&text), text.size, 0, &pool, &diags, &complete));
    assert_true(complete);
    assert_int_equal(diags.count, 0);
    pool_free(&pool);
}

/* `[x, x, …]` of n texts is n + 1 nodes. */
static void read_list_of(size_t n, bool *complete)
{
    struct pool pool = {0};
    text_add_char(&text, '[');
    for (size_t i = 0; i < n; i++)
        text_add(&text, "x,");
    text_add_char(&text, ']');
    diags_add_source(&diags, "list.yaml", text_string(&text), text.size);
    node_read(text_string(&text), text.size, 0, &pool, &diags, complete);
    pool_free(&pool);
}

static void test_nodes_up_to_the_limit(void **state)
{
    (void)state;
    bool complete;
    read_list_of(NODE_LIMIT - 1, &complete);
    assert_true(complete);
}

static void test_nodes_past_the_limit(void **state)
{
    (void)state;
    bool complete;
    read_list_of(NODE_LIMIT, &complete);
    assert_false(complete);
    assert_true(has_code(DIAG_TOO_MANY));
    assert_int_equal(diags.count, 1);
}

static void test_attack_many_anchors(void **state)
{
    (void)state;
    text_add(&text, HEAD "a:\n");
    for (int i = 0; i <= ANCHOR_LIMIT; i++)
        text_printf(&text, "  - &a%d x\n", i);
    assert_refused(DIAG_TOO_MANY);
}

static void test_attack_long_scalar(void **state)
{
    (void)state;
    text_add(&text, "fettle: 1\nunits: mm\njob: {number: A, title: \"");
    add_times("x", 900000);
    text_add(&text, "\"}\n");
    assert_refused(DIAG_TOO_LONG);
    struct text said = {0};
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &said);
    assert_true(said.size < 2000);
    text_free(&said);
}

static void test_attack_long_key(void **state)
{
    (void)state;
    text_add(&text, HEAD "? ");
    add_times("k", 100000);
    text_add(&text, "\n: 1\n");
    assert_refused(DIAG_TOO_LONG);
}

static void test_attack_ten_megabytes(void **state)
{
    (void)state;
    char path[] = "/tmp/fettle-large-XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(ftruncate(fd, 10 * 1024 * 1024), 0);
    close(fd);
    assert_false(job_read(path, &diags, &job));
    unlink(path);
    assert_int_equal(diags.count, 1);
    assert_int_equal(diags.list[0].code, DIAG_TOO_LARGE);
}

static void test_attack_folder_and_pipe(void **state)
{
    (void)state;
    char folder[] = "/tmp/fettle-pipe-XXXXXX";
    struct text path = {0};
    assert_non_null(mkdtemp(folder));
    text_printf(&path, "%s/pipe", folder);
    assert_int_equal(mkfifo(text_string(&path), 0600), 0);
    assert_false(job_read(folder, &diags, &job));
    job_free(&job);
    assert_false(job_read(text_string(&path), &diags, &job));
    assert_int_equal(diags.count, 2);
    assert_int_equal(diags.list[0].code, DIAG_NOT_A_FILE);
    assert_int_equal(diags.list[1].code, DIAG_NOT_A_FILE);
    unlink(text_string(&path));
    rmdir(folder);
    text_free(&path);
}

static void test_attack_binary(void **state)
{
    (void)state;
    static const unsigned char elf[] = {0x7F, 'E', 'L', 'F', 2, 1, 1, 0, 0, 0, 0, 0};
    text_add_n(&text, (const char *)elf, sizeof elf);
    assert_refused(DIAG_NOT_TEXT);
    assert_int_equal(diags.count, 1);
}

static void test_attack_nul_in_the_middle(void **state)
{
    (void)state;
    text_add_n(&text, HEAD "\0more: 1\n", sizeof HEAD - 1 + 9);
    assert_refused(DIAG_NOT_TEXT);
    assert_int_equal(diags.list[0].mark.line, 6);
}

static void test_attack_utf16(void **state)
{
    (void)state;
    text_add_n(&text,
               "\xFF\xFE"
               "f\0e\0t\0",
               8);
    assert_refused(DIAG_BAD_UTF8);
}

static void test_byte_order_mark_at_the_head_is_accepted(void **state)
{
    (void)state;
    text_add(&text, "\xEF\xBB\xBF" HEAD);
    assert_true(job_read_text("bom.yaml", text_string(&text), text.size, &diags, &job));
}

static void test_windows_line_ends_are_accepted(void **state)
{
    (void)state;
    text_add(&text,
             "fettle: 1\r\njob: {number: A, title: B}\r\nunits: mm\r\nsaw: {blade: {kerf: 99}}\r\ntests: []\r\n");
    assert_refused(DIAG_OUT_OF_RANGE);
    assert_int_equal(diags.list[0].mark.line, 4);
    assert_int_equal(diags.list[0].mark.column, 21);
}

static void test_attack_too_many_tests_and_parts(void **state)
{
    (void)state;
    text_add(&text, "fettle: 1\njob: {number: A, title: B}\nunits: mm\ntests:\n");
    add_times("  - {}\n", 401);
    text_add(&text, "jig:\n  kind: parts\n  parts:\n");
    add_times("    - {}\n", 1001);
    assert_refused(DIAG_TOO_MANY);
    assert_int_equal(diags.count, 2);
}

static void test_attack_duplicate_keys_by_the_thousand(void **state)
{
    (void)state;
    text_add(&text, HEAD);
    add_times("a: 1\n", 9000);
    assert_refused(DIAG_DUPLICATE_KEY);
}

#define WHOLE(name) cmocka_unit_test_teardown(name, free_all)
int main(void)
{
    const struct CMUnitTest tests[] = {
        WHOLE(test_attack_exploding_aliases),
        WHOLE(test_attack_depth_of_lists),
        WHOLE(test_attack_depth_never_closed),
        WHOLE(test_attack_depth_of_block_mappings),
        WHOLE(test_depth_16_is_read),
        WHOLE(test_nodes_up_to_the_limit),
        WHOLE(test_nodes_past_the_limit),
        WHOLE(test_attack_many_anchors),
        WHOLE(test_attack_long_scalar),
        WHOLE(test_attack_long_key),
        WHOLE(test_attack_ten_megabytes),
        WHOLE(test_attack_folder_and_pipe),
        WHOLE(test_attack_binary),
        WHOLE(test_attack_nul_in_the_middle),
        WHOLE(test_attack_utf16),
        WHOLE(test_byte_order_mark_at_the_head_is_accepted),
        WHOLE(test_windows_line_ends_are_accepted),
        WHOLE(test_attack_too_many_tests_and_parts),
        WHOLE(test_attack_duplicate_keys_by_the_thousand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
