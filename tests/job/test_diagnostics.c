/* Every folder of tests/golden/diag holds a job.yaml and, in out.diag, all that the reader says of it. Every code of
   diag_codes.inc must come up in one of them or stand in the list of codes that are raised elsewhere.
   FETTLE_ACCEPT=1 writes the out.diag files anew: look at the difference before you keep it. */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"
#include "job.h"

#include "close.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { CASES_MOST = 400 };

static bool seen[DIAG_CODES];

static int compare_names(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static size_t list_cases(char *names[CASES_MOST])
{
    size_t n = 0;
    DIR *folder = opendir(SOURCE_FOLDER "/tests/golden/diag");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder)) != NULL && n < CASES_MOST;)
        if (entry->d_name[0] != '.')
            names[n++] = strdup(entry->d_name);
    closedir(folder);
    qsort(names, n, sizeof *names, compare_names);
    return n;
}

static void say_all(struct text *out)
{
    struct diags diags = {0};
    struct job job;
    bool ok = job_read("job.yaml", &diags, &job);
    assert_int_equal(ok, !diags_have_errors(&diags));
    for (size_t i = 0; i < diags.count; i++) {
        seen[diags.list[i].code] = true;
        diag_print(&diags, &diags.list[i], out);
    }
    job_free(&job);
    diags_free(&diags);
}

static void test_job_read_says_what_is_wrong(void **state)
{
    (void)state;
    char *names[CASES_MOST];
    size_t n = list_cases(names);
    int differing = 0;
    assert_true(n > 0);
    for (size_t i = 0; i < n; i++) {
        struct text said = {0}, expected = {0}, folder = {0};
        text_printf(&folder, "%s/tests/golden/diag/%s", SOURCE_FOLDER, names[i]);
        assert_int_equal(chdir(text_string(&folder)), 0);
        say_all(&said);
        if (getenv("FETTLE_ACCEPT"))
            assert_true(file_write_whole("out.diag", text_string(&said), said.size));
        bool there = file_read("out.diag", 1 << 20, &expected) == FILE_READ;
        if (!there || strcmp(text_string(&said), text_string(&expected)) != 0) {
            differing++;
            print_error("tests/golden/diag/%s\n--- expected\n%s--- found\n%s", names[i], text_string(&expected),
                        text_string(&said));
        }
        text_free(&said);
        text_free(&expected);
        text_free(&folder);
        free(names[i]);
    }
    assert_int_equal(differing, 0);
}

/* Runs after the cases. */
static void test_diag_codes_each_have_a_case(void **state)
{
    (void)state;
    static const enum diag_code elsewhere[] = {
        DIAG_NO_SLED,     /* plan */
        DIAG_TOO_LARGE,   /* test_attacks.c: no file of that size is kept here */
    };
    for (size_t i = 0; i < sizeof elsewhere / sizeof *elsewhere; i++)
        seen[elsewhere[i]] = true;
    int missing = 0;
    for (int code = 0; code < DIAG_CODES; code++) {
        if (!seen[code]) {
            print_error("no case for \"%s\"\n", diag_id((enum diag_code)code));
            missing++;
        }
    }
    assert_int_equal(missing, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_job_read_says_what_is_wrong),
        cmocka_unit_test(test_diag_codes_each_have_a_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
