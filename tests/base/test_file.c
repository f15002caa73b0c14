/* Whole files: limits, things that are no plain file, and that a failed write leaves the old file alone. */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"

#include "close.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[] = "/tmp/fettle-test-XXXXXX";

static int make_folder(void **state)
{
    (void)state;
    return mkdtemp(folder) && chdir(folder) == 0 ? 0 : -1;
}

static int remove_folder(void **state)
{
    (void)state;
    static const char *const names[] = {"a", "pipe", "x/y/z", "x/y", "x"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        remove(names[i]);
    return chdir("/") == 0 && rmdir(folder) == 0 ? 0 : -1;
}

static int count_entries(void)
{
    int n = 0;
    DIR *d = opendir(".");
    assert_non_null(d);
    for (struct dirent *e; (e = readdir(d)) != NULL;)
        n += e->d_name[0] != '.';
    closedir(d);
    return n;
}

static void test_file_write_then_read(void **state)
{
    (void)state;
    struct text t = {0};
    assert_true(file_write_whole("a", "one\0two", 7));
    assert_int_equal(file_read("a", 7, &t), FILE_READ);
    assert_int_equal(t.size, 7);
    assert_memory_equal(t.bytes, "one\0two", 8);
    assert_int_equal(count_entries(), 1); /* no temporary file is left */
    text_free(&t);
}

static void test_file_read_limit(void **state)
{
    (void)state;
    struct text t = {0};
    assert_true(file_write_whole("a", "12345678", 8));
    assert_int_equal(file_read("a", 7, &t), FILE_TOO_LARGE);
    text_free(&t);
}

static void test_file_read_empty_gives_a_string(void **state)
{
    (void)state;
    struct text t = {0};
    assert_true(file_write_whole("a", "", 0));
    assert_int_equal(file_read("a", 7, &t), FILE_READ);
    assert_string_equal(t.bytes, "");
    text_free(&t);
}

static void test_file_read_what_is_no_plain_file(void **state)
{
    (void)state;
    struct text t = {0};
    assert_int_equal(mkfifo("pipe", 0600), 0);
    assert_int_equal(file_read("pipe", 100, &t), FILE_NOT_PLAIN); /* and does not wait for a writer */
    assert_int_equal(file_read(".", 100, &t), FILE_NOT_PLAIN);
    assert_int_equal(file_read("/dev/null", 100, &t), FILE_NOT_PLAIN);
    assert_int_equal(file_read("absent", 100, &t), FILE_NOT_READABLE);
    assert_int_equal(errno, ENOENT);
    remove("pipe");
    text_free(&t);
}

static void test_file_write_fails_and_leaves_the_old(void **state)
{
    (void)state;
    assert_true(file_make_folder("x/y/z"));
    assert_true(file_make_folder("x/y/z")); /* is there already */
    assert_false(file_write_whole("absent/a", "new", 3));
    assert_int_equal(errno, ENOENT);
    assert_true(file_write_whole("a", "old", 3));
    assert_false(file_make_folder("a")); /* a file stands in the way */
    assert_false(file_make_folder("a/b"));
    assert_false(file_write_whole("/dev/full", "new", 3)); /* Linux: a device that is always full */
    assert_int_equal(errno, ENOSPC);
    remove("x/y/z");
    remove("x/y");
    remove("x");
    assert_int_equal(count_entries(), 1);
}

static void test_file_write_replaces_what_a_link_leads_to(void **state)
{
    (void)state;
    struct stat st;
    struct text t = {0};
    assert_true(file_write_whole("a", "old", 3));
    assert_int_equal(symlink("a", "link"), 0);
    assert_true(file_write_whole("link", "new", 3));
    assert_int_equal(lstat("link", &st), 0);
    assert_true(S_ISLNK(st.st_mode));
    assert_int_equal(file_read("a", 10, &t), FILE_READ);
    assert_string_equal(text_string(&t), "new");
    remove("link");
    text_free(&t);
}

/* /dev/fd/9 is a link to a plain file here: what has it open keeps it. */
static void test_file_write_to_an_open_file_adds_to_it(void **state)
{
    (void)state;
    struct text t = {0}, path = {0};
    struct stat before, after;
    assert_true(file_write_whole("a", "one ", 4));
    assert_int_equal(stat("a", &before), 0);
    FILE *f = fopen("a", "a");
    assert_non_null(f);
    text_printf(&path, "/dev/fd/%d", fileno(f));
    assert_true(file_write_whole(text_string(&path), "two", 3));
    fclose(f);
    assert_int_equal(stat("a", &after), 0);
    assert_int_equal(before.st_ino, after.st_ino);
    assert_int_equal(file_read("a", 10, &t), FILE_READ);
    assert_string_equal(text_string(&t), "one two");
    text_free(&t);
    text_free(&path);
}

static void test_file_is_same_by_any_name(void **state)
{
    (void)state;
    assert_true(file_write_whole("a", "", 0));
    assert_true(file_make_folder("x"));
    assert_true(file_is_same("a", "./x/../a"));
    assert_true(file_is_same("x", "x/."));
    assert_false(file_is_same("a", "x"));
    assert_false(file_is_same("absent", "absent"));
    remove("x");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_file_write_then_read),
        cmocka_unit_test(test_file_read_limit),
        cmocka_unit_test(test_file_read_empty_gives_a_string),
        cmocka_unit_test(test_file_read_what_is_no_plain_file),
        cmocka_unit_test(test_file_write_fails_and_leaves_the_old),
        cmocka_unit_test(test_file_write_replaces_what_a_link_leads_to),
        cmocka_unit_test(test_file_write_to_an_open_file_adds_to_it),
        cmocka_unit_test(test_file_is_same_by_any_name),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
