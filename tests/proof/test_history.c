/* Tests of one method over time: what counts, what is stale, what was expected, drift and due dates. */
#include "by_hand.h"

#include "proof/history.h"

static void test_history_build_the_last_test_counts(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1e-4, 1e-5);
    hand_test_of_error(&h, "2026-02-01", 3, 1e-4, 1e-5);
    hand_test_of_error(&h, "2026-03-01", 3, 9e-4, 1e-5)->practice = true;
    hand_prove(&h);
    assert_false(h.proof.tests[0].counts || h.proof.tests[0].stale);
    assert_true(h.proof.tests[1].counts);
    assert_false(h.proof.tests[2].counts || h.proof.tests[2].stale);
    assert_ptr_equal(proof_latest(&h.proof, METHOD_FIVE_CUT), &h.proof.tests[1]);
    assert_int_equal(h.proof.history[METHOD_FIVE_CUT].first, 0);
    assert_int_equal(h.proof.history[METHOD_FIVE_CUT].last, 2);
    assert_int_equal(h.proof.history[METHOD_FIVE_CUT].n_segment, 2);
    hand_end(&h);
}

static void check_stale(struct hand *h, const char *key)
{
    const struct proof_test *t;
    hand_prove(h);
    t = proof_latest(&h->proof, METHOD_FIVE_CUT);
    assert_true(t->stale == (key != NULL));
    assert_true(t->counts == (key == NULL));
    if (key)
        assert_string_equal(t->stale_reason.key, key);
}

static void test_history_build_moves_and_changes_make_stale(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    struct job_test *test = hand_test_of_error(&h, "2026-03-01", 3, 1e-4, 1e-5);
    check_stale(&h, NULL);
    hand_move(test, SIDE_RIGHT, TOWARD_OPERATOR, 0.10);
    check_stale(&h, "stale.moved");
    test->moved.given = false;

    struct job_change *c = hand_change(&h, "2026-02-28", true); /* before the test */
    check_stale(&h, NULL);
    c->date = day("2026-03-01"); /* the same day: worked on first, tested then */
    check_stale(&h, NULL);
    c->date = day("2026-03-02");
    check_stale(&h, "stale.changed");
    assert_string_equal(h.proof.tests[0].stale_reason.arg[0].text, "2026-03-02");
    assert_int_equal(h.proof.history[METHOD_FIVE_CUT].segment_first, -1);
    c->ends[METHOD_FIVE_CUT] = false; /* ends other methods only */
    check_stale(&h, NULL);

    struct job_test *practice = hand_test_of_error(&h, "2026-03-05", 1, 1e-4, 0);
    practice->practice = true;
    check_stale(&h, NULL);
    hand_move(practice, SIDE_RIGHT, TOWARD_OPERATOR, 0.10); /* a move made in practice is a move */
    check_stale(&h, "stale.moved");
    hand_test_of_error(&h, "2026-03-06", 3, 1e-4, 1e-5);
    check_stale(&h, NULL);
    hand_end(&h);
}

/* D 610. Error 4e-4: its right end stands 0.244 mm too far. */
static struct proof_test *test_after_move(struct hand *h, enum side end, enum toward toward, double distance,
                                          double error)
{
    hand_begin(h);
    hand_move(hand_test_of_error(h, "2026-03-01", 3, 4e-4, 1e-5), end, toward, distance);
    hand_test_of_error(h, "2026-03-02", 3, error, 1e-5);
    return hand_prove(h);
}

static void test_history_build_expected_after_a_move(void **state)
{
    (void)state;
    struct hand h;
    /* 0.2 of the 0.244 mm taken back: (0.244 - 0.2)/610 = 7.213e-5; made the other way: 0.444/610 = 7.279e-4 */
    struct proof_test *t = test_after_move(&h, SIDE_RIGHT, TOWARD_OPERATOR, 0.2, 7e-5);
    assert_close(t->expected_error, 0.044 / 610, 1e-5);
    assert_false(t->wrong_way);
    assert_null(t->wrong_way_caution.key);
    assert_true(isnan(h.proof.tests[0].expected_error));
    hand_end(&h);

    t = test_after_move(&h, SIDE_RIGHT, TOWARD_OPERATOR, 0.2, 7.2e-4);
    assert_true(t->wrong_way);
    assert_string_equal(t->wrong_way_caution.key, "wrong_way");
    hand_end(&h);

    t = test_after_move(&h, SIDE_RIGHT, TOWARD_OPERATOR, 0.2,
                        4.05e-4); /* between both, nearer to wrong by less than U */
    assert_false(t->wrong_way);
    hand_end(&h);

    t = test_after_move(&h, SIDE_LEFT, TOWARD_AWAY, 0.2,
                        7.2e-4); /* the other end the other way turns the fence alike */
    assert_close(t->expected_error, 0.044 / 610, 1e-5);
    assert_true(t->wrong_way);
    hand_end(&h);

    t = test_after_move(&h, SIDE_LEFT, TOWARD_OPERATOR, 0.2, 7.2e-4); /* meant: 4e-4 + 0.2/610 */
    assert_close(t->expected_error, 0.444 / 610, 1e-5);
    assert_false(t->wrong_way);
    hand_end(&h);
}

static void test_history_build_changes_and_practice_between(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_move(hand_test_of_error(&h, "2026-03-01", 3, 4e-4, 1e-5), SIDE_RIGHT, TOWARD_OPERATOR, 0.1);
    struct job_test *practice = hand_test_of_error(&h, "2026-03-02", 1, 9e-4, 0);
    practice->practice = true;
    hand_move(practice, SIDE_RIGHT, TOWARD_OPERATOR, 0.1);
    hand_test_of_error(&h, "2026-03-03", 3, 7e-5, 1e-5);
    struct proof_test *t = hand_prove(&h); /* from the test that counts, by both moves */
    assert_close(t->expected_error, 0.044 / 610, 1e-5);
    hand_change(&h, "2026-03-02", true);
    t = hand_prove(&h);
    assert_true(isnan(t->expected_error));
    assert_false(t->wrong_way);
    hand_end(&h);
}

/* Errors 1.0, 1.3, 1.4 (1e-4 rad) on days 0, 30, 60. About the means 30 and 1.2333: slope (-30 x 1.0 + 30 x 1.4)/1800 =
   0.66667e-6 a day; the line 1.0333, 1.2333, 1.4333; rests -0.0333, 0.0667, -0.0333, squares 0.0066667; s 0.081650e-4
   with 1 degree of freedom; of the slope 0.081650e-4/sqrt 1800 = 1.92450e-7; t 12.7062. */
static void test_history_build_drift_by_hand(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1.0e-4, 1e-5);
    hand_test_of_error(&h, "2026-01-31", 3, 1.3e-4, 1e-5);
    hand_prove(&h);
    assert_false(h.proof.history[METHOD_FIVE_CUT].has_drift);
    hand_test_of_error(&h, "2026-03-02", 3, 1.4e-4, 1e-5);
    struct proof_test *t = hand_prove(&h);
    const struct history *d = &h.proof.history[METHOD_FIVE_CUT];
    assert_true(d->has_drift);
    assert_close(d->drift_per_day, 6.66667e-7, 1e-5);
    assert_close(d->drift_u, 12.7062 * 1.92450e-7, 1e-5);
    assert_close(d->fitted_last, 1.43333e-4, 1e-5);
    long days = (long)floor((1e-4 / 0.3 - t->expanded_uncertainty - 1.43333e-4) / 6.66667e-7);
    assert_int_equal(date_days(d->drift_due) - date_days(day("2026-03-02")), days);
    assert_in_range(days, 200, 285);

    h.tests[2].practice = true; /* not in the segment then */
    hand_prove(&h);
    assert_false(d->has_drift);
    h.tests[2].practice = false;
    hand_move(&h.tests[0], SIDE_RIGHT, TOWARD_OPERATOR, 0.1); /* two tests since */
    hand_prove(&h);
    assert_false(d->has_drift);
    assert_int_equal(d->segment_first, 1);
    h.tests[0].moved.given = false;
    hand_change(&h, "2026-01-02", true);
    hand_prove(&h);
    assert_false(d->has_drift);
    hand_end(&h);
}

static void test_history_build_no_drift_of_one_week(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1.0e-4, 1e-5);
    hand_test_of_error(&h, "2026-01-03", 3, 1.1e-4, 1e-5);
    hand_test_of_error(&h, "2026-01-03", 3, 1.2e-4, 1e-5);
    hand_prove(&h);
    assert_false(h.proof.history[METHOD_FIVE_CUT].has_drift);
    hand_end(&h);
}

/* An outside or stale last test has no date until which it would hold; a slow drift none within ten years. */
static void test_history_build_drift_without_date(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1.0e-4, 1e-5);
    hand_test_of_error(&h, "2026-02-01", 3, 1.0e-4, 1e-5);
    hand_test_of_error(&h, "2026-03-01", 3, 1.0e-4, 1e-5);
    hand_prove(&h);
    const struct history *d = &h.proof.history[METHOD_FIVE_CUT];
    assert_true(d->has_drift && !date_is_set(d->drift_due));
    hand_test_of_error(&h, "2026-04-01", 3, 9.0e-4, 1e-5);
    hand_prove(&h);
    assert_true(d->has_drift && !date_is_set(d->drift_due));
    hand_end(&h);
}

static void test_history_days_left(void **state)
{
    (void)state;
    assert_close(history_days_left(0.2, 0.01, 1), 80, 1e-12);
    assert_close(history_days_left(0.2, -0.01, 1), 120, 1e-12);
    assert_close(history_days_left(-0.2, -0.01, 1), 80, 1e-12);
    assert_true(history_days_left(1.1, -0.01, 1) == 0);
    assert_true(history_days_left(0, -0.01, -1) == 0); /* U larger than the tolerance */
    assert_true(isinf(history_days_left(0.2, 0, 1)));
}

/* The sample job: 2026-11-02 and three months. */
static void test_history_build_due_by_the_interval(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-11-02", 3, 1e-4, 1e-5);
    assert_false(date_is_set(hand_prove(&h)->due));
    h.job.retest_months = given(3);
    assert_int_equal(date_compare(hand_prove(&h)->due, day("2027-02-02")), 0);
    h.tests[0].practice = true;
    assert_false(date_is_set(hand_prove(&h)->due));
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_history_build_the_last_test_counts),
        cmocka_unit_test(test_history_build_moves_and_changes_make_stale),
        cmocka_unit_test(test_history_build_expected_after_a_move),
        cmocka_unit_test(test_history_build_changes_and_practice_between),
        cmocka_unit_test(test_history_build_drift_by_hand),
        cmocka_unit_test(test_history_build_no_drift_of_one_week),
        cmocka_unit_test(test_history_build_drift_without_date),
        cmocka_unit_test(test_history_days_left),
        cmocka_unit_test(test_history_build_due_by_the_interval),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
