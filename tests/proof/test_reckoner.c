/* The reckoner: factor, limit, rows, which way. */
#include "by_hand.h"

#include "proof/reckoner.h"

/* L 350, D 610, 0.10 in 300, the assumed caliper, no tests: spread 1e-4 with 2 degrees of freedom.
   One strip: u_read 0.01 sqrt 2/1400 = 1.010e-5, tool 0.006/sqrt 3/1400 = 2.474e-6, L 3.333e-4 x 0.2887/350 = 2.75e-7;
   u 1.00540e-4, nu_eff 2 x (1.0054)^4 = 2.04, k 4.302653, U 4.3259e-4: more than 3.3333e-4, nothing is left.
   Three: 1e-4/sqrt 3 = 5.7735e-5, with tool and L 5.77888e-5, nu_eff 2.007, U 2.486455e-4; left 8.4688e-5 x 1400 =
   0.118563. */
static void test_reckoner_build_without_tests(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_prove(&h);
    const struct reckoner *r = &h.proof.reckoner;
    assert_true(r->has);
    assert_close(r->factor, 610.0 / 1400, 1e-12);
    assert_int_equal(r->leave_strips, 3);
    assert_within(r->leave_below, 0.118563, 2e-5);
    assert_int_equal(r->offcut, SIDE_RIGHT);
    assert_int_equal(r->moving_end, SIDE_RIGHT);
    assert_int_equal(r->pivot_side, SIDE_LEFT);
    assert_int_equal(r->fence_end_wider, TOWARD_OPERATOR);
    assert_int_equal(r->far_end_wider, TOWARD_AWAY);
    assert_within(r->out_above, 1400 * 1e-4 / 0.3, 1e-9); /* 0.4667: no row tells a sled within tolerance to move */
    /* 0.50 asks for 0.218: the leaf 0.20 is nearest, but 0.20 x 1400/610 = 0.459 is within; 0.60 asks for 0.261 */
    assert_true(r->n_rows >= 6);
    assert_int_equal(r->rows[0].n_leaves, 1);
    assert_within(r->rows[0].leaves[0], 0.25, 1e-12);
    for (int i = 0; i < r->n_rows; i++) {
        double sum = 0;
        for (int k = 0; k < r->rows[i].n_leaves; k++)
            sum += r->rows[i].leaves[k];
        assert_true(i == 0 || r->rows[i].differ > r->rows[i - 1].differ);
        assert_within(r->rows[i].move, sum, 1e-12);
        assert_within(r->rows[i].differ, sum * 1400 / 610, 1e-12);
    }
    hand_end(&h);
}

/* Earlier tests that scatter by 8e-6 with 4 degrees of freedom: one strip leaves something. */
static void test_reckoner_build_one_strip_with_history(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1e-4, 8e-6);
    hand_test_of_error(&h, "2026-02-01", 3, 1e-4, 8e-6);
    hand_prove(&h);
    const struct reckoner *r = &h.proof.reckoner;
    double u_read = 0.01 * sqrt(2) / 1400, u_tool = 0.006 / sqrt(3) / 1400, u_length = 1e-4 / 0.3 * 0.5 / sqrt(3) / 350;
    double square = 64e-12 + u_read * u_read + u_tool * u_tool + u_length * u_length,
           dof = square * square / (64e-12 * 64e-12 / 4);
    assert_int_equal((int)dof, 28); /* (64 + 102.04 + 6.12 + 0.08)^2/(64^2/4) = 29.0, below */
    assert_int_equal(r->leave_strips, 1);
    assert_within(r->leave_below, 1400 * (1e-4 / 0.3 - 2.048407 * sqrt(square)), 1e-6); /* t(0.975, 28) = 2.048407 */
    assert_true(r->rows[0].differ > r->out_above);
    hand_end(&h);
}

/* Three strips that scattered by 1.2e-5, 2 degrees of freedom: too few for one strip, but the best guess for three more.
   1.2e-5/sqrt 3 = 6.9282e-6, tool and length as above; nu_eff 2 x (7.3618e-6/6.9282e-6)^4 = 2.55, k 4.302653. */
static void test_reckoner_build_three_strips_by_their_own_spread(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    hand_test_of_error(&h, "2026-01-01", 3, 1e-4, 1.2e-5);
    hand_prove(&h);
    const struct reckoner *r = &h.proof.reckoner;
    double u_tool = 0.006 / sqrt(3) / 1400, u_length = 1e-4 / 0.3 * 0.5 / sqrt(3) / 350;
    double u = sqrt(144e-12 / 3 + u_tool * u_tool + u_length * u_length);
    assert_int_equal(r->leave_strips, 3);
    assert_within(r->leave_below, 1400 * (1e-4 / 0.3 - 4.302653 * u), 1e-5);
    hand_end(&h);
}

static void test_reckoner_build_nothing_can_be_left(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.job.tolerances.squareness.error = given(0.02);
    hand_prove(&h);
    assert_int_equal(h.proof.reckoner.leave_strips, 0);
    assert_true(h.proof.reckoner.leave_below == 0);
    assert_true(h.proof.reckoner.n_rows > 6);
    hand_end(&h);
}

static void test_reckoner_build_inches_far_fence_left_strip(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.job.units = UNITS_IN;
    h.setting.fence_side = FENCE_FAR;
    hand_test_of_error(&h, "2026-01-01", 1, 0, 0)->as.five_cut.offcut = SIDE_RIGHT;
    hand_prove(&h);
    const struct reckoner *r = &h.proof.reckoner;
    assert_int_equal(r->fence_end_wider, TOWARD_AWAY);     /* far, right: c = -1 */
    assert_true(r->rows[0].differ >= 0.118563);
    h.tests[0].as.five_cut.offcut = SIDE_LEFT;
    hand_prove(&h);
    assert_int_equal(r->offcut, SIDE_LEFT);
    assert_int_equal(r->fence_end_wider, TOWARD_OPERATOR);
    hand_end(&h);
}

static void test_reckoner_build_leaves_that_do_not_reach(void **state)
{
    (void)state;
    struct hand h;
    hand_begin(&h);
    h.instruments[1].n_leaves = 2; /* 0.05 and 0.10: 0.15 at most, and 0.175 can still be told from 0.15 */
    hand_prove(&h);
    const struct reckoner *r = &h.proof.reckoner;
    for (int i = 0; i < r->n_rows; i++)
        assert_true((r->rows[i].n_leaves > 0) == (r->rows[i].move <= 0.175));
    assert_true(r->rows[r->n_rows - 1].n_leaves == 0);
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reckoner_build_without_tests),
        cmocka_unit_test(test_reckoner_build_one_strip_with_history),
        cmocka_unit_test(test_reckoner_build_three_strips_by_their_own_spread),
        cmocka_unit_test(test_reckoner_build_nothing_can_be_left),
        cmocka_unit_test(test_reckoner_build_inches_far_fence_left_strip),
        cmocka_unit_test(test_reckoner_build_leaves_that_do_not_reach),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
