/* The state of a jig, by the table of the format's reference: the first row that holds. */
#include "outcome.h"

#include "close.h"

/* A sled with one check and at most one test, changed by each case. */
struct scene {
    struct plan plan;
    struct plan_check check;
    struct proof proof;
    struct job_test job_test;
    struct proof_test test;
    struct outcome outcome;
};

static void lay_scene(struct scene *s, bool tested)
{
    *s = (struct scene){0};
    s->plan.has_sled = true;
    s->check = (struct plan_check){.id = CHECK_FENCE_BRIDGE, .verdict = VERDICT_PASS, .why = {.key = "why"}, .remedy = {.key = "remedy"}};
    s->plan.checks = &s->check;
    s->plan.n_checks = 1;
    s->job_test = (struct job_test){.method = METHOD_FIVE_CUT, .date = {2026, 11, 2}};
    s->test = (struct proof_test){.job = &s->job_test, .method = METHOD_FIVE_CUT, .finding = FINDING_WITHIN, .counts = true, .due = {2027, 2, 2}};
    s->proof.tests = &s->test;
    s->proof.n_tests = tested;
}

static enum state state_of(struct scene *s)
{
    outcome_build(&s->plan, NULL, &s->proof, &s->outcome);
    enum state state = s->outcome.state;
    outcome_free(&s->outcome);
    return state;
}

static void test_outcome_fit_when_all_pass(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    assert_int_equal(state_of(&s), STATE_FIT);
}

static void test_outcome_caution_leaves_it_fit(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.check.verdict = VERDICT_CAUTION;
    assert_int_equal(state_of(&s), STATE_FIT);
}

static void test_outcome_failed_check_outweighs_a_good_test(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.check.verdict = VERDICT_FAIL;
    assert_int_equal(state_of(&s), STATE_DO_NOT_USE);
}

static void test_outcome_test_outside(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.test.finding = FINDING_OUTSIDE;
    assert_int_equal(state_of(&s), STATE_DO_NOT_USE);
}

static void test_outcome_outside_but_moved_since_is_not_proven(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.test.finding = FINDING_OUTSIDE;
    s.test.counts = false;
    s.test.stale = true;
    s.test.stale_reason = SAYING_PLAIN("stale.moved");
    assert_int_equal(state_of(&s), STATE_NOT_PROVEN);
}

static void test_outcome_undecided(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.test.finding = FINDING_UNDECIDED;
    s.test.further_strips = 3;
    assert_int_equal(state_of(&s), STATE_NOT_PROVEN);
}

/* A second test beside the first: which methods a sled needs, and which only leave a caution. */
struct two {
    struct scene s;
    struct job_test jobs[2];
    struct proof_test tests[2];
};

static void lay_two(struct two *t, enum method second, struct date date)
{
    *t = (struct two){0};
    lay_scene(&t->s, true);
    t->jobs[0] = t->s.job_test;
    t->tests[0] = t->s.test;
    t->jobs[1] = (struct job_test){.method = second, .date = date};
    t->tests[1] = (struct proof_test){.method = second, .finding = FINDING_WITHIN, .counts = true, .further_strips = -1};
    for (int i = 0; i < 2; i++)
        t->tests[i].job = &t->jobs[i];
    t->s.proof.tests = t->tests;
    t->s.proof.n_tests = 2;
}

static void test_outcome_other_method_outside_is_a_caution_on_a_sled(void **state)
{
    (void)state;
    struct two t;
    lay_two(&t, METHOD_FLIP, (struct date){2026, 11, 3});
    t.tests[1].finding = FINDING_OUTSIDE;
    outcome_build(&t.s.plan, NULL, &t.s.proof, &t.s.outcome);
    assert_int_equal(t.s.outcome.state, STATE_FIT);
    assert_ptr_equal(t.s.outcome.deciding, &t.tests[0]);
    assert_ptr_equal(t.s.outcome.open, &t.tests[1]);
    assert_int_equal(t.s.outcome.n_lines, 1);
    assert_int_equal(t.s.outcome.lines[0].verdict, VERDICT_CAUTION);
    outcome_free(&t.s.outcome);
    t.tests[1].finding = FINDING_UNDECIDED;
    assert_int_equal(state_of(&t.s), STATE_NOT_PROVEN);
}

static void test_outcome_other_method_outside_decides_for_a_saw(void **state)
{
    (void)state;
    struct two t;
    lay_two(&t, METHOD_FLIP, (struct date){2026, 11, 3});
    t.s.plan.has_sled = false;
    t.s.proof.tests = &t.tests[1];
    t.s.proof.n_tests = 1;
    assert_int_equal(state_of(&t.s), STATE_FIT);
    t.tests[1].finding = FINDING_OUTSIDE;
    assert_int_equal(state_of(&t.s), STATE_DO_NOT_USE);
}

/* Either method proves a sled; each that is outside speaks against it. */
static void test_outcome_square_gap_proves_a_sled_as_well(void **state)
{
    (void)state;
    struct two t;
    lay_two(&t, METHOD_SQUARE_GAP, (struct date){2026, 11, 3});
    assert_int_equal(state_of(&t.s), STATE_FIT);
    t.tests[0].finding = FINDING_OUTSIDE;
    assert_int_equal(state_of(&t.s), STATE_DO_NOT_USE);
    t.s.proof.tests = &t.tests[1];
    t.s.proof.n_tests = 1;
    assert_int_equal(state_of(&t.s), STATE_FIT);
}

/* The surer of two that are within tells the figure; one that is outside goes before it. */
static void test_outcome_deciding_is_the_worse_else_the_surer(void **state)
{
    (void)state;
    struct two t;
    lay_two(&t, METHOD_SQUARE_GAP, (struct date){2026, 11, 3});
    t.tests[0].expanded_uncertainty = 1e-5;
    t.tests[1].expanded_uncertainty = 3e-4;
    outcome_build(&t.s.plan, NULL, &t.s.proof, &t.s.outcome);
    assert_ptr_equal(t.s.outcome.deciding, &t.tests[0]);
    outcome_free(&t.s.outcome);
    t.tests[1].finding = FINDING_UNDECIDED;
    outcome_build(&t.s.plan, NULL, &t.s.proof, &t.s.outcome);
    assert_ptr_equal(t.s.outcome.deciding, &t.tests[1]);
    assert_ptr_equal(t.s.outcome.open, &t.tests[1]);
    outcome_free(&t.s.outcome);
}

/* A stale square test is replaced by a five-cut test after it, not by one before it. */
static void test_outcome_stale_test_replaced_by_a_newer_one(void **state)
{
    (void)state;
    struct two t;
    lay_two(&t, METHOD_SQUARE_GAP, (struct date){2026, 11, 1});
    t.tests[1].stale = true;
    t.tests[1].stale_reason = SAYING_PLAIN("stale.moved");
    assert_int_equal(state_of(&t.s), STATE_FIT);
    t.jobs[1].date = (struct date){2026, 11, 3};
    assert_int_equal(state_of(&t.s), STATE_NOT_PROVEN);
}

static void test_outcome_not_tested(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, false);
    assert_int_equal(state_of(&s), STATE_NOT_TESTED);
}

/* A saw on its own is not fit by having no test; of a list of parts none is asked. */
static void test_outcome_saw_without_a_test_is_not_tested(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, false);
    s.plan.has_sled = false;
    assert_int_equal(state_of(&s), STATE_NOT_TESTED);
    s.plan.n_parts = 3;
    assert_int_equal(state_of(&s), STATE_FIT);
    lay_scene(&s, true);
    s.plan.has_sled = false;
    s.test.method = s.job_test.method = METHOD_FLIP;
    assert_int_equal(state_of(&s), STATE_FIT);
    s.job_test.practice = true;
    assert_int_equal(state_of(&s), STATE_NOT_TESTED);
}

static void test_outcome_practice_run_does_not_decide(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.job_test.practice = true;
    s.test.finding = FINDING_OUTSIDE;
    assert_int_equal(state_of(&s), STATE_NOT_TESTED);
}

static void test_outcome_overdue_from_the_day_after(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    outcome_build(&s.plan, NULL, &s.proof, &s.outcome);
    assert_int_equal(outcome_state_on(&s.outcome, (struct date){2027, 2, 2}), STATE_FIT);
    assert_int_equal(outcome_state_on(&s.outcome, (struct date){2027, 2, 3}), STATE_NOT_PROVEN);
    assert_int_equal(s.outcome.state, STATE_FIT); /* sheets never know the day */
    outcome_free(&s.outcome);
}

static void test_outcome_due_is_the_earlier_of_interval_and_drift(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, true);
    s.proof.history[METHOD_FIVE_CUT].drift_due = (struct date){2027, 1, 15};
    outcome_build(&s.plan, NULL, &s.proof, &s.outcome);
    assert_int_equal(date_compare(s.outcome.due, (struct date){2027, 1, 15}), 0);
    assert_true(s.outcome.due_is_drift);
    outcome_free(&s.outcome);
    s.proof.history[METHOD_FIVE_CUT].drift_due = (struct date){2027, 3, 15};
    outcome_build(&s.plan, NULL, &s.proof, &s.outcome);
    assert_int_equal(date_compare(s.outcome.due, (struct date){2027, 2, 2}), 0);
    assert_false(s.outcome.due_is_drift);
    outcome_free(&s.outcome);
}

static void test_outcome_exit_statuses(void **state)
{
    (void)state;
    assert_int_equal(outcome_exit_status(STATE_DO_NOT_USE), 1);
    assert_int_equal(outcome_exit_status(STATE_NOT_PROVEN), 1);
    assert_int_equal(outcome_exit_status(STATE_NOT_TESTED), 0);
    assert_int_equal(outcome_exit_status(STATE_FIT), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_outcome_fit_when_all_pass),
        cmocka_unit_test(test_outcome_caution_leaves_it_fit),
        cmocka_unit_test(test_outcome_failed_check_outweighs_a_good_test),
        cmocka_unit_test(test_outcome_test_outside),
        cmocka_unit_test(test_outcome_outside_but_moved_since_is_not_proven),
        cmocka_unit_test(test_outcome_undecided),
        cmocka_unit_test(test_outcome_other_method_outside_is_a_caution_on_a_sled),
        cmocka_unit_test(test_outcome_other_method_outside_decides_for_a_saw),
        cmocka_unit_test(test_outcome_square_gap_proves_a_sled_as_well),
        cmocka_unit_test(test_outcome_deciding_is_the_worse_else_the_surer),
        cmocka_unit_test(test_outcome_stale_test_replaced_by_a_newer_one),
        cmocka_unit_test(test_outcome_not_tested),
        cmocka_unit_test(test_outcome_saw_without_a_test_is_not_tested),
        cmocka_unit_test(test_outcome_practice_run_does_not_decide),
        cmocka_unit_test(test_outcome_overdue_from_the_day_after),
        cmocka_unit_test(test_outcome_due_is_the_earlier_of_interval_and_drift),
        cmocka_unit_test(test_outcome_exit_statuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
