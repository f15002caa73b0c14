/* The checks of plan and cutting as one list, and what they do to the state. */
#include "outcome.h"

#include "close.h"

#include <string.h>

struct scene {
    struct plan plan;
    struct plan_check checks[2];
    struct proof proof;
    struct cutting cutting;
    struct cutting_finding findings[4];
    struct outcome outcome;
};

/* A list of parts whose own check of the stock passes. */
static void lay_scene(struct scene *s)
{
    *s = (struct scene){0};
    s->checks[0] = (struct plan_check){.id = CHECK_STOCK_FITS, .verdict = VERDICT_PASS, .value = 12, .why = {.key = "why"}};
    s->plan.checks = s->checks;
    s->plan.n_checks = 1;
    s->plan.n_parts = 1;
    s->cutting.findings = s->findings;
}

static void add_finding(struct scene *s, const char *id, enum verdict verdict, double value, double low)
{
    s->findings[s->cutting.n_findings++] = (struct cutting_finding){
        .id = id, .verdict = verdict, .value = value, .low = low, .why = {.key = "found"}, .remedy = {.key = "buy"}};
}

static int count(const struct outcome *o, enum check_id id)
{
    int n = 0;
    for (size_t i = 0; i < o->n_checks; i++)
        n += o->checks[i].id == id;
    return n;
}

static void test_outcome_without_a_cutting_has_the_plans_checks(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    outcome_build(&s.plan, NULL, &s.proof, &s.outcome);
    assert_int_equal(s.outcome.n_checks, 1);
    assert_int_equal(s.outcome.state, STATE_FIT);
    outcome_free(&s.outcome);
}

static void test_outcome_too_little_stock_is_a_failed_check(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    add_finding(&s, "stock_enough", VERDICT_FAIL, 1, 3);
    outcome_build(&s.plan, &s.cutting, &s.proof, &s.outcome);
    assert_int_equal(s.outcome.state, STATE_DO_NOT_USE);
    assert_int_equal(s.outcome.n_failed, 1);
    assert_int_equal(s.outcome.n_checks, 2);
    assert_int_equal(s.outcome.checks[1].id, CHECK_STOCK_ENOUGH);
    assert_int_equal(s.outcome.checks[1].unit, CHECK_COUNT);
    assert_close(s.outcome.checks[1].value, 1, 1e-12);
    assert_close(s.outcome.checks[1].low, 3, 1e-12);
    assert_string_equal(s.outcome.lines[0].what.key, "found");
    assert_string_equal(s.outcome.lines[0].brief.key, "check.stock_enough.short");
    assert_int_equal(count(&s.outcome, CHECK_STOCK_FITS), 1); /* the plan's stays: every part fits */
    outcome_free(&s.outcome);
}

/* None is left unsaid behind a worse one. */
static void test_outcome_every_misfit_takes_the_place_of_the_plans_check(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -5, 0);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -80, 0);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -7, 0);
    outcome_build(&s.plan, &s.cutting, &s.proof, &s.outcome);
    assert_int_equal(s.outcome.n_checks, 3);
    assert_int_equal(count(&s.outcome, CHECK_STOCK_FITS), 3);
    assert_close(s.outcome.checks[1].value, -80, 1e-12);
    assert_int_equal(s.outcome.n_failed, 3);
    outcome_free(&s.outcome);
}

static struct saying larger(const char *stock, double along, double across, const char *part)
{
    return SAYING("remedy.stock.sheet", SAY_STR("stock", stock), SAY_ARG("along", SAY_SIZE, along), SAY_ARG("across", SAY_SIZE, across),
                  SAY_STR("part", part));
}

/* Two parts of one sheet, one too long for it, one too wide: a sheet that serves both. Another stock is told by itself. */
static void test_outcome_misfits_of_one_stock_have_one_remedy(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -5, 0);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -80, 0);
    add_finding(&s, "stock_fits", VERDICT_FAIL, -7, 0);
    s.findings[0].remedy = larger("ply12", 1400, 300, "B");
    s.findings[1].remedy = larger("ply18", 900, 900, "C");
    s.findings[2].remedy = larger("ply12", 700, 650, "D");
    outcome_build(&s.plan, &s.cutting, &s.proof, &s.outcome);
    for (size_t i = 0; i < 3; i += 2) {
        const struct saying *r = &s.outcome.checks[i].remedy;
        assert_close(r->arg[1].number, 1400, 1e-12);
        assert_close(r->arg[2].number, 650, 1e-12);
        assert_string_equal(r->arg[3].text, "B, D");
    }
    assert_close(s.outcome.checks[1].remedy.arg[1].number, 900, 1e-12);
    assert_string_equal(s.outcome.checks[1].remedy.arg[3].text, "C");
    outcome_free(&s.outcome);
}

static void test_outcome_too_many_pieces_are_a_caution(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s);
    add_finding(&s, "stock_enough", VERDICT_CAUTION, NAN, NAN);
    outcome_build(&s.plan, &s.cutting, &s.proof, &s.outcome);
    assert_int_equal(s.outcome.state, STATE_FIT);
    assert_int_equal(s.outcome.n_lines, 1);
    assert_string_equal(s.outcome.lines[0].brief.key, "check.stock_enough.short.unknown");
    outcome_free(&s.outcome);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_outcome_without_a_cutting_has_the_plans_checks),
        cmocka_unit_test(test_outcome_too_little_stock_is_a_failed_check),
        cmocka_unit_test(test_outcome_every_misfit_takes_the_place_of_the_plans_check),
        cmocka_unit_test(test_outcome_misfits_of_one_stock_have_one_remedy),
        cmocka_unit_test(test_outcome_too_many_pieces_are_a_caution),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
