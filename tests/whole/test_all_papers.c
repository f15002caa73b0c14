/* Random jobs on all four papers: every page keeps its rules, no word is missing, no text of the job is lost, nothing is
   told in the other unit, the same job makes the same bytes. The examples in both units. */
#define _POSIX_C_SOURCE 200809L
#include "whole/random_job.h"
#include "whole/typeset.h"

#include "base/file.h"

#include <glob.h>

enum { JOBS = 8, JOBS_LONG = 208 }; /* FETTLE_TESTS_LONG=1, as tests/run --long sets it, makes it the larger */

static const char *const papers[] = {"A4", "A3", "Letter", "Tabloid"};

static void test_all_papers_random_jobs(void **state)
{
    struct typeset_test *t = *state;
    const char *is_long = getenv("FETTLE_TESTS_LONG");
    int jobs = is_long && *is_long == '1' ? JOBS_LONG : JOBS;
    struct random_job g = {.state = 77, .n_tests = -1};
    struct text yaml = {0};
    t->planned = t->failed = 0;
    for (int i = 0; i < jobs; i++) {
        g.paper = papers[i % 4];
        random_job_write(&g, &yaml);
        typeset_check(t, text_string(&yaml), i % 4 ? TYPESET_PAGES : TYPESET_TWICE);
    }
    assert_int_equal(t->failed, 0);
    assert_true(t->planned > jobs * 3 / 4);
    text_free(&yaml);
}

/* The record of an example prints its text in the units that it was written in; all else is turned. */
static void test_all_papers_examples_in_both_units(void **state)
{
    static const enum units both[] = {UNITS_MM, UNITS_IN};
    struct typeset_test *t = *state;
    glob_t files;
    t->planned = t->failed = 0;
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &files), 0);
    for (size_t i = 0; i < 2 * files.gl_pathc; i++) {
        struct text yaml = {0};
        assert_int_equal(file_read(files.gl_pathv[i / 2], 1 << 20, &yaml), FILE_READ);
        typeset_check_in(t, text_string(&yaml), &both[i % 2], TYPESET_PAGES);
        text_free(&yaml);
    }
    assert_int_equal(t->failed, 0);
    assert_int_equal(t->planned, 2 * files.gl_pathc);
    globfree(&files);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_papers_random_jobs),
        cmocka_unit_test(test_all_papers_examples_in_both_units),
    };
    return cmocka_run_group_tests(tests, typeset_set_up, typeset_tear_down);
}
