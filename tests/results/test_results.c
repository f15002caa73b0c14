/* Register and job line, from structs filled by hand. */
#include "results.h"

#include "words.h"

#include <string.h>

#include "close.h"

struct scene {
    struct job job;
    struct diags diags;
    struct plan plan;
    struct job_test job_test;
    struct proof_test test;
    struct proof proof;
    struct outcome outcome;
    struct result_job result;
};

/* The worked example of the format's reference: +0.0419 mm in 300, U 0.0048, within 0.10. */
static void lay_scene(struct scene *s)
{
    *s = (struct scene){0};
    s->job.number.s = "TS-07";
    s->job.title.s = "Sled, \"bay 2\"";
    s->job.saw.name.s = "Saw";
    s->job_test = (struct job_test){.method = METHOD_FIVE_CUT, .date = {2026, 11, 2}, .by = {.s = "A, B"}};
    s->job_test.moved = (struct job_moved){.given = true, .end = SIDE_RIGHT, .toward = TOWARD_OPERATOR, .distance = {.v = 0.15}};
    s->test = (struct proof_test){.job = &s->job_test, .method = METHOD_FIVE_CUT, .error = 1.396048e-4, .unit = "rad", .over_length = 300, .error_over = 0.041881,
                                  .expanded_uncertainty = 1.590649e-5, .tolerance = 1e-1 / 300, .finding = FINDING_WITHIN, .counts = true};
    s->proof.tests = &s->test;
    s->proof.n_tests = 1;
    s->outcome.state = STATE_FIT;
    s->outcome.deciding = &s->test;
    s->outcome.due = (struct date){2027, 2, 2};
    s->result = (struct result_job){"ts-07.yaml", &s->job, &s->diags, &s->plan, NULL, &s->proof, &s->outcome, "TS-07.pdf", 6};
}

static const struct date before = {2026, 11, 10}, after = {2027, 6, 1};

static void test_results_job_line_as_in_the_reference(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    struct text t = {0};
    results_job_line(&s.result, before, &t);
    assert_string_equal(text_string(&t), "TS-07: FIT FOR USE: squareness +0.042 \xC2\xB1 0.005 mm in 300, within 0.10; TS-07.pdf, 6 pages");
    text_clear(&t);
    results_job_line(&s.result, after, &t);
    assert_string_equal(text_string(&t), "TS-07: NOT PROVEN: overdue since 2027-02-02; TS-07.pdf, 6 pages");
    text_free(&t);
}

static void test_results_register_quotes_by_rfc_4180(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    struct text t = {0};
    results_register(&s.result, 1, before, &t);
    const char *row = strstr(text_string(&t), "\r\n") + 2;
    assert_string_equal(row, "ts-07.yaml,TS-07,\"Sled, \"\"bay 2\"\"\",Saw,fit,five-cut,2026-11-02,\"A, B\",0.0001396048,rad,1.590649e-05,"
                             "0.000333333333333,within,2027-02-02,no,right operator 0.15,\r\n");
    text_free(&t);
}

static size_t count_commas(const char *s)
{
    size_t n = 0;
    for (; *s && *s != '\r'; s++)
        n += *s == ',';
    return n;
}

static void test_results_register_row_of_an_unreadable_job_has_every_column(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    s.job.title.s = "Sled";
    s.result.outcome = NULL;
    struct text t = {0};
    results_register(&s.result, 1, before, &t);
    const char *head = text_string(&t), *row = strstr(head, "\r\n") + 2;
    assert_int_equal(count_commas(row), count_commas(head));
    assert_int_equal(count_commas(head), 16);
    text_free(&t);
}

static void test_results_json_of_an_unreadable_job_lists_its_errors(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    s.result.outcome = NULL;
    int file = diags_add_source(&s.diags, "ts-07.yaml", "kerf: x\n", 8);
    diag_at(&s.diags, DIAG_BAD_NUMBER, (struct mark){file, 1, 7, 1}, "saw.blade.kerf", "\"x\"");
    struct text t = {0};
    results_json(&s.result, 1, before, &t);
    assert_non_null(strstr(text_string(&t), "\"bad-number\""));
    assert_non_null(strstr(text_string(&t), "\"column\":\t7"));
    assert_null(strstr(text_string(&t), "\"state\""));
    text_free(&t);
    diags_free(&s.diags);
}

/* A stop: lengths have no "in 300", its shift no end and no toward; further results stand in a list. */
static void test_results_of_a_length(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    s.job_test = (struct job_test){.method = METHOD_STOP, .date = {2026, 11, 2}};
    s.test = (struct proof_test){.job = &s.job_test, .method = METHOD_STOP, .error = 0.31, .error_over = 0.31, .unit = "mm", .over_length = 1,
                                 .expanded_uncertainty = 0.04, .tolerance = 0.2, .finding = FINDING_OUTSIDE, .counts = true, .has_move = true, .further_strips = -1};
    s.test.move.what = SAYING("stop.move.too_long", SAY_ARG("distance", SAY_MOVE, 0.31));
    s.test.move.distance = 0.31;
    s.test.figures[0] = (struct proof_figure){.id = "slope", .what = SAYING_PLAIN("stop.slope"), .unit = "1", .value = 1.5, .expanded_uncertainty = 0.2, .limit = NAN};
    s.test.n_figures = 1;
    s.outcome.deciding = NULL;
    s.outcome.open = &s.test;
    s.outcome.state = STATE_DO_NOT_USE;
    struct text t = {0};
    results_job_line(&s.result, before, &t);
    assert_string_equal(text_string(&t), "TS-07: DO NOT USE: stop test +0.310 \xC2\xB1 0.040 mm, outside 0.20; TS-07.pdf, 6 pages");
    text_clear(&t);
    results_json(&s.result, 1, before, &t);
    assert_null(strstr(text_string(&t), "\"error_over\""));
    assert_null(strstr(text_string(&t), "\"strips\""));
    assert_non_null(strstr(text_string(&t), "\"end\":\tnull"));
    assert_non_null(strstr(text_string(&t), "\"stop.move.too_long\""));
    assert_non_null(strstr(text_string(&t), "\"figures\""));
    assert_non_null(strstr(text_string(&t), "\"id\":\t\"slope\""));
    text_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_results_job_line_as_in_the_reference),
        cmocka_unit_test(test_results_register_quotes_by_rfc_4180),
        cmocka_unit_test(test_results_register_row_of_an_unreadable_job_has_every_column),
        cmocka_unit_test(test_results_of_a_length),
        cmocka_unit_test(test_results_json_of_an_unreadable_job_lists_its_errors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
