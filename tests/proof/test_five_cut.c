/* The five-cut test: worked numbers, signs, budgets, verdicts, moves, what to do with poor input. */
#include "by_hand.h"

#include "proof/five_cut.h"
#include "proof/turning.h"
#include "proof/verdict.h"

static const double f1[] = {21.47, 21.46, 21.48}, a1[] = {21.26, 21.26, 21.25};
static const double f2[] = {22.13, 22.12, 22.14}, a2[] = {21.93, 21.92, 21.92};
static const double f3[] = {20.88, 20.89, 20.88}, a3[] = {20.65, 20.65, 20.66};

static struct job_test *sample_test(struct hand *h, int strips)
{
    hand_begin(h);
    struct job_test *t = hand_test(h, "2026-11-02", SIDE_RIGHT, 388);
    hand_strip(t, f1, a1);
    if (strips == 3) {
        hand_strip(t, f2, a2);
        hand_strip(t, f3, a3);
    }
    return t;
}

/* Digits of the project's worked example, computed by an independent program. */
static void test_five_cut_one_strip_of_the_worked_example(void **state)
{
    (void)state;
    struct hand h;
    sample_test(&h, 1);
    struct proof_test *t = hand_prove(&h);
    const struct five_cut_sum *s = &t->as.five_cut;
    /* fence (21.47 + 21.46 + 21.48)/3 = 21.47, far 21.256667, difference 0.213333, over 4 x 388 */
    assert_close(t->error, 1.374570e-4, 5e-7);
    assert_close(s->u_reading, 4.295533e-6, 5e-7);
    assert_int_equal(t->n_lines, 4);
    assert_close(t->lines[0].u, 1e-4, 1e-12);
    assert_close(t->lines[0].dof, 2, 0);
    assert_close(t->lines[1].u, 4.295533e-6, 5e-7);
    assert_close(t->lines[1].dof, 4, 0); /* two ends of three readings: 2 + 2 */
    assert_close(t->lines[2].u, 2.232024e-6, 5e-7);
    assert_close(t->standard_uncertainty, 1.001172e-4, 5e-7);
    assert_close(t->dof, 2.009385, 5e-7);
    assert_close(t->coverage_factor, 4.302653, 5e-7);
    assert_close(t->expanded_uncertainty, 4.307693e-4, 5e-7);
    assert_int_equal(t->finding, FINDING_UNDECIDED);
    assert_int_equal(t->further_strips, 3);
    assert_string_equal(t->decide.key, "decide.strips");
    assert_string_equal(s->spread_from, "spread.default");
    assert_true(isnan(s->run_spread));
    assert_int_equal(t->move.advice, ADVICE_LEAVE); /* 0.084 mm, known to 0.263 */
    assert_string_equal(t->move.reason.key, "advice.leave.unclear");
    hand_end(&h);
}

static void test_five_cut_three_strips_of_the_worked_example(void **state)
{
    (void)state;
    struct hand h;
    sample_test(&h, 3);
    struct proof_test *t = hand_prove(&h);
    const struct five_cut_sum *s = &t->as.five_cut;
    assert_close(t->error, 1.396048e-4, 5e-7);
    assert_within(t->error_over, 0.041881, 5e-7);
    assert_close(s->run_spread, 7.743882e-6, 5e-7);
    assert_int_equal(t->n_lines, 3);
    assert_close(t->lines[0].u, 4.470932e-6, 5e-7);
    assert_close(t->lines[0].dof, 2, 0);
    assert_close(t->lines[1].u, 2.232024e-6, 5e-7);
    assert_close(t->lines[2].u, 1.038671e-7, 5e-7);
    assert_close(t->standard_uncertainty, 4.998195e-6, 5e-7);
    assert_close(t->dof, 3.123852, 5e-7);
    assert_close(t->coverage_factor, 3.182446, 5e-7);
    assert_close(t->expanded_uncertainty, 1.590649e-5, 5e-7);
    assert_close(t->tolerance, 3.333333e-4, 5e-7);
    assert_within(t->conformance_probability, 0.99998, 5e-6);
    assert_int_equal(t->finding, FINDING_WITHIN);
    assert_int_equal(t->further_strips, -1);
    assert_null(t->decide.key);
    assert_true(t->counts);
    assert_true(t->has_move);
    assert_int_equal(t->move.advice, ADVICE_LEAVE);
    assert_string_equal(t->move.reason.key, "advice.leave.within");
    assert_int_equal(t->move.end, SIDE_RIGHT);
    assert_int_equal(t->move.toward, TOWARD_OPERATOR);
    assert_within(t->move.distance, 0.085159, 5e-7);
    assert_within(t->move.uncertainty, 0.009704, 5e-7);
    assert_int_equal(t->move.n_leaves, 1);
    assert_within(t->move.leaves[0], 0.10, 1e-12);
    /* what 0.10 leaves: (0.085159 - 0.10)/610 */
    assert_close(t->move.expected_error, -0.014841 / 610, 1e-4);
    assert_within(s->least_reading, 20.65, 0);
    hand_end(&h);
}

/* Common practice, no source: the hand rule (difference / 4 / length) x distance from pivot to gauge, here
   (24.90 - 25.13)/4/360 x 600 = -0.0958 mm, .00377 in. */
static void test_five_cut_the_hand_rule_in_inches(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.setting.pivot_x = -300;
    h.setting.moving_x = 300;
    h.setting.pivot_to_moving = 600;
    struct job_test *test = hand_test(&h, "2026-11-02", SIDE_RIGHT, 360);
    hand_strip_once(&h, test, 24.90, 25.13);
    struct proof_test *t = hand_prove(&h);
    assert_within(t->move.distance, 0.0958, 5e-5);
    assert_within(t->move.distance / 25.4, 0.00377, 5e-6);
    assert_int_equal(t->move.toward, TOWARD_AWAY); /* error below zero: the right end is too near to the operator */
    hand_end(&h);
}

/* The table of signs: fence side, side of the strip, side of the moving end; fence end wider by 0.4 mm. */
static void test_five_cut_signs(void **state)
{
    (void)state;
    static const struct {
        enum fence_side fence;
        enum side offcut, moving;
        int sign;
        enum toward toward;
    } rows[] = {
        {FENCE_NEAR, SIDE_RIGHT, SIDE_RIGHT, +1, TOWARD_OPERATOR},
        {FENCE_NEAR, SIDE_RIGHT, SIDE_LEFT,  +1, TOWARD_AWAY    },
        {FENCE_NEAR, SIDE_LEFT,  SIDE_RIGHT, -1, TOWARD_AWAY    },
        {FENCE_NEAR, SIDE_LEFT,  SIDE_LEFT,  -1, TOWARD_OPERATOR},
        {FENCE_FAR,  SIDE_RIGHT, SIDE_RIGHT, -1, TOWARD_AWAY    },
        {FENCE_FAR,  SIDE_RIGHT, SIDE_LEFT,  -1, TOWARD_OPERATOR},
        {FENCE_FAR,  SIDE_LEFT,  SIDE_RIGHT, +1, TOWARD_OPERATOR},
        {FENCE_FAR,  SIDE_LEFT,  SIDE_LEFT,  +1, TOWARD_AWAY    },
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct hand h;
        hand_begin(&h);
        h.setting.fence_side = rows[i].fence;
        if (rows[i].moving == SIDE_LEFT) {
            h.setting.pivot_x = 280;
            h.setting.moving_x = -330;
        }
        hand_strip_once(&h, hand_test(&h, "2026-11-02", rows[i].offcut, 400), 25.4, 25.0);
        struct proof_test *t = hand_prove(&h);
        assert_close(t->error, rows[i].sign * 2.5e-4, 1e-9); /* 0.4/1600 */
        assert_int_equal(t->move.end, rows[i].moving);
        assert_int_equal(t->move.toward, rows[i].toward);
        assert_within(t->move.distance, 0.1525, 1e-6); /* 610 x 2.5e-4 */
        hand_end(&h);
    }
}

static void test_five_cut_parts_carry_their_own_pivot(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.setting = (struct setting){.has_fence = false, .fence_side = FENCE_NEAR, .pivot_to_moving = NAN};
    struct job_test *test = hand_test(&h, "2026-11-02", SIDE_RIGHT, 400);
    hand_strip_once(&h, test, 25.4, 25.0);
    struct proof_test *t = hand_prove(&h);
    assert_false(t->has_move);
    assert_false(h.proof.reckoner.has);
    test->as.five_cut.pivot_to_moving = given(500);
    test->as.five_cut.moving_end_given = true;
    test->as.five_cut.moving_end = SIDE_LEFT;
    t = hand_prove(&h);
    assert_true(t->has_move);
    assert_within(t->move.distance, 0.125, 1e-6); /* 500 x 2.5e-4 */
    assert_int_equal(t->move.end, SIDE_LEFT);
    assert_int_equal(t->move.toward, TOWARD_AWAY);
    assert_true(h.proof.reckoner.has);
    assert_within(h.proof.reckoner.factor, 500.0 / 1600, 1e-12);
    hand_end(&h);
}

static void test_five_cut_sign_table(void **state)
{
    (void)state;
    assert_int_equal(five_cut_sign(FENCE_NEAR, SIDE_RIGHT), 1);
    assert_int_equal(five_cut_sign(FENCE_FAR, SIDE_LEFT), 1);
    assert_int_equal(five_cut_sign(FENCE_NEAR, SIDE_LEFT), -1);
    assert_int_equal(five_cut_sign(FENCE_FAR, SIDE_RIGHT), -1);
}

static struct five_cut_basis basis_for(int strips, double s, double u_read)
{
    return (struct five_cut_basis){
        .strips = strips,
        .error = 1e-4,
        .length = 400,
        .run_spread = s,
        .reading = {u_read, 8},
        .earlier = {1e-4,   2},
        .error_limit = 0.03
    };
}

/* n = 2: v = max([2 (1e-8 + 1e-10) + s s]/3, s s), u = sqrt(v/2), 3 degrees of freedom. */
static void test_five_cut_lines_two_strips(void **state)
{
    (void)state;
    struct stat_term u[FIVE_CUT_LINES];
    struct five_cut_basis small = basis_for(2, 2e-5, 1e-5), large = basis_for(2, 3e-4, 1e-5);
    five_cut_lines(&small, u);
    assert_close(u[FIVE_CUT_RUNS].u, sqrt((2 * (1e-8 + 1e-10) + 4e-10) / 3 / 2), 1e-12);
    assert_close(u[FIVE_CUT_RUNS].dof, 3, 0);
    assert_true(u[FIVE_CUT_READING].u == 0);
    five_cut_lines(&large, u); /* [2.02e-8 + 9e-8]/3 = 3.7e-8 is less than s s = 9e-8 */
    assert_close(u[FIVE_CUT_RUNS].u, 3e-4 / sqrt(2), 1e-12);
}

static void test_five_cut_lines_three_strips_that_agree_too_well(void **state)
{
    (void)state;
    struct stat_term u[FIVE_CUT_LINES];
    struct five_cut_basis b = basis_for(3, 1e-6, 9e-6);
    five_cut_lines(&b, u);
    assert_close(u[FIVE_CUT_RUNS].u, 9e-6 / sqrt(3), 1e-12);
    assert_close(u[FIVE_CUT_RUNS].dof, 8, 0);
    b.run_spread = 2e-5;
    five_cut_lines(&b, u);
    assert_close(u[FIVE_CUT_RUNS].u, 2e-5 / sqrt(3), 1e-12);
    assert_close(u[FIVE_CUT_RUNS].dof, 2, 0);
    assert_close(u[FIVE_CUT_TOOL].u, 0.2 * 0.03 / sqrt(3) / 1600, 1e-12);
    assert_close(u[FIVE_CUT_LENGTH].u, 1e-4 * 0.5 / sqrt(3) / 400, 1e-12);
}

static void test_five_cut_reading_spread_pools_all_ends(void **state)
{
    (void)state;
    static const double one[] = {20}, pair[] = {20.00, 20.02}, triple[] = {19.99, 20.00, 20.01};
    struct five_cut_widths w[] = {
        {pair, triple, 2, 3},
        {one,  one,    1, 1}
    };
    /* squares 2 x 0.01^2 + 2 x 0.01^2 = 4e-4 over 1 + 2 + 0 + 0 */
    struct stat_term s = five_cut_reading_spread(w, 2, 0.01);
    assert_close(s.u, sqrt(4e-4 / 3), 1e-9);
    assert_close(s.dof, 3, 0);
    s = five_cut_reading_spread(&w[1], 1, 0.02); /* nothing repeated: the step of the tool */
    assert_close(s.u, 0.02, 0);
    assert_true(isinf(s.dof));
    /* a pair at one end, a triple at the other; s = 0.001 is below the step's 0.01/sqrt 12 at both */
    double floor = five_cut_u_reading(w, 1, 0.001, 0.01, 400);
    assert_close(floor, sqrt(2 * 0.0001 / 12) / 1600, 1e-9);
    double mean_square = five_cut_u_reading(w, 2, 0.02, 0.01, 400); /* 0.0004 (1/2 + 1/3) and 0.0004 (1 + 1) */
    assert_close(mean_square, sqrt(0.0004 * (5.0 / 6 + 2) / 2) / 1600, 1e-9);
}

static void test_verdict_find_at_the_limits(void **state)
{
    (void)state;
    assert_int_equal(verdict_find(0.25, 0.75, 1), FINDING_WITHIN);
    assert_int_equal(verdict_find(-0.25, 0.75, 1), FINDING_WITHIN);
    assert_int_equal(verdict_find(0.25, 0.7501, 1), FINDING_UNDECIDED);
    assert_int_equal(verdict_find(1.5, 0.5, 1), FINDING_UNDECIDED);
    assert_int_equal(verdict_find(-1.5, 0.4999, 1), FINDING_OUTSIDE);
}

/* The spread that one strip is judged with: the job's own, else earlier tests with 3 degrees of freedom, else 1e-4. */
static void test_five_cut_spread_from_job_and_history(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 0, 2e-5); /* 2 degrees of freedom, s = 2e-5 */
    hand_test_of_error(&h, "2026-01-02", 3, 0, 9e-5)->practice = true;
    hand_test_of_error(&h, "2026-02-01", 1, 0, 0);
    struct proof_test *t = hand_prove(&h);
    assert_string_equal(t->as.five_cut.spread_from, "spread.default");
    assert_close(t->as.five_cut.spread_used, 1e-4, 1e-12);
    assert_close(t->as.five_cut.spread_dof, 2, 0);

    hand_test_of_error(&h, "2026-03-01", 2, 1e-4, 4e-5); /* 1 more, s = 4e-5/sqrt 2 */
    hand_test_of_error(&h, "2026-04-01", 1, 0, 0);
    t = hand_prove(&h);
    assert_string_equal(t->as.five_cut.spread_from, "spread.history");
    assert_close(t->as.five_cut.spread_used, sqrt((2 * 4e-10 + 8e-10) / 3), 1e-6);
    assert_close(t->as.five_cut.spread_dof, 3, 0);

    struct job_test *own = hand_test_of_error(&h, "2026-05-01", 1, 0, 0);
    own->as.five_cut.spread_error = given(0.012);
    own->as.five_cut.spread_over = given(300);
    own->as.five_cut.spread_dof = given(10);
    t = hand_prove(&h);
    assert_string_equal(t->as.five_cut.spread_from, "spread.job");
    assert_close(t->as.five_cut.spread_used, 4e-5, 1e-12);
    assert_close(t->lines[0].u, 4e-5, 1e-12);
    assert_close(t->lines[0].dof, 10, 0);
    hand_end(&h);
}

static enum advice advice_of(struct hand *h, int strips, double error, double step, const char *reason)
{
    h->job.n_tests = 0;
    hand_test_of_error(h, "2026-11-02", strips, error, step);
    struct proof_test *t = hand_prove(h);
    assert_string_equal(t->move.reason.key, reason);
    assert_true(t->move.advice == ADVICE_LEAVE || t->finding != FINDING_WITHIN);
    return t->move.advice;
}

/* Tolerance 3.333e-4. Three strips with s = 1e-5: U about 2.5e-5; with s = 5e-5: U about 1.25e-4. */
static void test_turning_advise_leave_move_measure_more(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    assert_int_equal(advice_of(&h, 3, 1e-4, 1e-5, "advice.leave.within"), ADVICE_LEAVE);
    assert_int_equal(advice_of(&h, 3, 9e-4, 1e-5, "advice.move.outside"), ADVICE_MOVE);
    assert_int_equal(advice_of(&h, 3, 2.5e-4, 5e-5, "advice.measure_more"), ADVICE_MEASURE_MORE);
    assert_int_equal(advice_of(&h, 3, 3.5e-4, 5e-5, "advice.move.undecided"), ADVICE_MOVE);
    assert_int_equal(advice_of(&h, 3, 3.33e-4, 1e-5, "advice.move.undecided"),
                     ADVICE_MOVE);                                                     /* no number of strips helps */
    assert_int_equal(advice_of(&h, 1, 3e-4, 0, "advice.leave.unclear"), ADVICE_LEAVE); /* U 4.3e-4 */
    assert_int_equal(advice_of(&h, 1, 6e-4, 0, "advice.move.undecided"), ADVICE_MOVE); /* one strip finds the move */
    h.job.tolerances.squareness.error = given(0.003);                                  /* 1e-5: 0.0061 mm in 610 */
    assert_int_equal(advice_of(&h, 5, 3e-5, 2e-6, "advice.leave.thin"), ADVICE_LEAVE); /* 0.018 mm, thinnest 0.05 */
    h.job.n_instruments = 1;
    assert_int_equal(advice_of(&h, 5, 3e-5, 2e-6, "advice.move.outside"), ADVICE_MOVE);
    assert_null(h.proof.tests[0].move.set);
    assert_int_equal(h.proof.tests[0].move.n_leaves, 0);
    assert_within(h.proof.tests[0].move.expected_error, 0, 1e-12);
    hand_end(&h);
}

/* By the definition, without the function under test: one strip fewer does not decide, that many do. */
static void test_five_cut_further_is_the_smallest_number(void **state)
{
    (void)state;
    for (int i = 0; i < 40; i++) {
        struct five_cut_basis b = basis_for(1 + i % 4, 6e-5, 8e-6), then;
        b.error = 1e-5 * i;
        int more = five_cut_further(&b, 1e-4 / 0.3);
        then = b;
        then.run_spread = b.strips == 1 ? hypot(1e-4, 8e-6) : b.run_spread;
        for (int m = 1; m <= 20; m++) {
            then.strips = b.strips + m;
            bool decided = verdict_find(b.error, five_cut_budget(&then).expanded, 1e-4 / 0.3) != FINDING_UNDECIDED;
            assert_true(more == 0 || m < more ? !decided : m > more || decided);
        }
    }
}

static void test_five_cut_undecided_names_what_stands_in_the_way(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.job.tolerances.squareness.error = given(0.0015); /* 5e-6: the caliper's own line alone is 2.2e-6 */
    hand_test_of_error(&h, "2026-11-02", 5, 1e-6, 1e-8);
    h.instruments[0].resolution = given(0.0005);
    struct proof_test *t = hand_prove(&h);
    assert_int_equal(t->finding, FINDING_UNDECIDED);
    assert_int_equal(t->further_strips, 0);
    assert_string_equal(t->largest_line.key, "budget.tool");
    assert_string_equal(t->decide.key, "decide.line");

    h.job.tolerances.squareness.error = given(0.10);
    h.job.n_tests = 0;
    hand_test_of_error(&h, "2026-11-02", 3, 1e-4 / 0.3, 1e-5);
    t = hand_prove(&h);
    assert_int_equal(t->further_strips, 0);
    assert_string_equal(t->decide.key, "decide.near_limit");
    hand_end(&h);
}

static void check_finite(const struct proof_test *t)
{
    const double must[] = {t->error,
                           t->error_over,
                           t->standard_uncertainty,
                           t->coverage_factor,
                           t->expanded_uncertainty,
                           t->tolerance,
                           t->conformance_probability,
                           t->as.five_cut.mean_difference,
                           t->as.five_cut.u_reading};
    for (size_t i = 0; i < COUNT(must); i++)
        assert_true(isfinite(must[i]));
    assert_false(isnan(t->dof));
    for (int i = 0; i < t->n_lines; i++)
        assert_true(isfinite(t->lines[i].u) && !isnan(t->lines[i].dof));
    if (t->has_move)
        assert_true(isfinite(t->move.distance) && isfinite(t->move.uncertainty) && isfinite(t->move.left_over) &&
                    isfinite(t->move.expected_error));
}

static void test_proof_build_poor_input_gives_numbers(void **state)
{
    (void)state;
    static const double same[] = {25.00, 25.00, 25.00};
    struct hand h;
    hand_begin(&h);
    hand_strip_once(&h, hand_test(&h, "2026-01-01", SIDE_RIGHT, 388), 25.13, 24.90); /* one reading an end */
    struct job_test *identical = hand_test(&h, "2026-01-02", SIDE_RIGHT, 388);       /* no error, no scatter at all */
    for (int i = 0; i < 3; i++)
        hand_strip(identical, same, same);
    hand_strip(hand_test(&h, "2026-01-03", SIDE_LEFT, 388), same, same);
    hand_strip_once(&h, hand_test(&h, "2026-01-04", SIDE_LEFT, 30), 25.0, 25.5); /* short */
    hand_test(&h, "2026-01-05", SIDE_LEFT, 388)->instrument = NULL;
    hand_strip_once(&h, &h.tests[4], 25.13, 24.90);
    hand_prove(&h);
    for (size_t i = 0; i < h.proof.n_tests; i++)
        check_finite(&h.proof.tests[i]);
    assert_true(h.proof.tests[1].error == 0);
    assert_true(h.proof.tests[1].move.distance == 0);
    assert_int_equal(h.proof.tests[1].move.n_leaves, 0);
    assert_int_equal(h.proof.tests[1].move.advice, ADVICE_LEAVE);
    /* rounding still counts: both ends 0.01/sqrt 12, three strips */
    assert_close(h.proof.tests[1].lines[0].u, 0.01 / sqrt(12) * sqrt(2) / (4 * 388) / sqrt(3), 1e-9);
    /* the assumed caliper is 0.01, +-0.03 */
    assert_close(h.proof.tests[4].standard_uncertainty, h.proof.tests[0].standard_uncertainty, 1e-12);
    h.setting.pivot_to_moving = NAN;
    hand_prove(&h);
    assert_false(h.proof.tests[0].has_move);
    assert_false(h.proof.reckoner.has);
    for (size_t i = 0; i < h.proof.n_tests; i++)
        check_finite(&h.proof.tests[i]);
    hand_end(&h);
}

static void test_proof_build_without_tests(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_prove(&h);
    assert_int_equal(h.proof.n_tests, 0);
    assert_null(proof_latest(&h.proof, METHOD_FIVE_CUT));
    assert_true(h.proof.reckoner.has);
    assert_int_equal(h.proof.history[METHOD_FIVE_CUT].first, -1);
    hand_end(&h);
    proof_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_five_cut_one_strip_of_the_worked_example),
        cmocka_unit_test(test_five_cut_three_strips_of_the_worked_example),
        cmocka_unit_test(test_five_cut_the_hand_rule_in_inches),
        cmocka_unit_test(test_five_cut_signs),
        cmocka_unit_test(test_five_cut_parts_carry_their_own_pivot),
        cmocka_unit_test(test_five_cut_sign_table),
        cmocka_unit_test(test_five_cut_lines_two_strips),
        cmocka_unit_test(test_five_cut_lines_three_strips_that_agree_too_well),
        cmocka_unit_test(test_five_cut_reading_spread_pools_all_ends),
        cmocka_unit_test(test_verdict_find_at_the_limits),
        cmocka_unit_test(test_five_cut_spread_from_job_and_history),
        cmocka_unit_test(test_turning_advise_leave_move_measure_more),
        cmocka_unit_test(test_five_cut_further_is_the_smallest_number),
        cmocka_unit_test(test_five_cut_undecided_names_what_stands_in_the_way),
        cmocka_unit_test(test_proof_build_poor_input_gives_numbers),
        cmocka_unit_test(test_proof_build_without_tests),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
