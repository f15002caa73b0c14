/* The generator of random jobs: most of them must be sleds, or the tests that use it test little. */
#include "whole/random_job.h"
#include "whole/whole.h"

enum { JOBS = 300 };

static void test_random_jobs_are_read_and_most_are_sleds(void **state)
{
    (void)state;
    struct random_job g = {.state = 1, .n_tests = -1};
    struct text yaml = {0};
    int planned = 0, inches = 0, tested = 0, states[4] = {0};
    for (int i = 0; i < JOBS; i++) {
        random_job_write(&g, &yaml);
        struct whole *w = whole_calculate(text_string(&yaml));
        if (!w->read) {
            print_problems(&w->diags);
            fail_msg("job %d cannot be read:\n%s", i, text_string(&yaml));
        }
        if (!w->planned && getenv("FETTLE_SHOW"))
            print_problems(&w->diags);
        planned += w->planned;
        inches += w->job.units == UNITS_IN;
        tested += w->planned && w->proof.n_tests > 0;
        if (w->planned)
            states[w->outcome.state]++;
        whole_free(w);
    }
    print_message("%d of %d are sleds, %d in inches, %d tested; states %d %d %d %d\n", planned, JOBS, inches, tested,
                  states[0], states[1], states[2], states[3]);
    assert_true(planned >= JOBS * 3 / 4);
    assert_true(inches > JOBS / 4 && inches < JOBS * 3 / 4);
    assert_true(tested > JOBS / 2);
    for (int s = 0; s < 4; s++)
        assert_true(states[s] >= 10);
    text_free(&yaml);
}

/* Saws and lists of parts: all are read, every method has tests in all three findings, or the tests that use them test little. */
static void test_random_jobs_have_tests_of_every_method(void **state)
{
    (void)state;
    struct text yaml = {0};
    int found[METHODS][3] = {{0}};
    for (int kind = RANDOM_SAW; kind <= RANDOM_PARTS; kind++) {
        struct random_job g = {.state = 2, .kind = (enum random_kind)kind, .all_methods = true};
        for (int i = 0; i < JOBS / 2; i++) {
            random_job_write(&g, &yaml);
            struct whole *w = whole_calculate(text_string(&yaml));
            if (!w->planned) {
                print_problems(&w->diags);
                fail_msg("job %d cannot be read:\n%s", i, text_string(&yaml));
            }
            for (size_t t = 0; t < w->proof.n_tests; t++)
                found[w->proof.tests[t].method][w->proof.tests[t].finding]++;
            whole_free(w);
        }
    }
    for (int m = 0; m < METHODS; m++) {
        if (m == METHOD_FIVE_CUT)
            continue;
        print_message("%s: %d within, %d outside, %d undecided\n", job_method_name((enum method)m), found[m][0], found[m][1], found[m][2]);
        for (int f = 0; f < 3; f++)
            assert_true(found[m][f] >= 5);
    }
    text_free(&yaml);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_jobs_are_read_and_most_are_sleds),
        cmocka_unit_test(test_random_jobs_have_tests_of_every_method),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
