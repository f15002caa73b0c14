/* The square test without its formula: a board is a polygon, sawn along the blade while one edge lies at the fence; a
   square is set against that edge, and where light shows along the sawn edge is read off. */
#include "one_test.h"

#include "proof/instruments.h"
#include "proof/square_gap_sums.h"

static const double degree = 3.14159265358979323846 / 180;

enum { SQUARE_LINE = 2 }; /* of the budget: gap, tool, square, length */

/* The sawn edge runs along the blade, from (0, 0) at the fence to (0, away * depth); the board lies on the side that is
   not the offcut's. The fence's edge of the board leaves (0, 0) along the fence toward the board. In the square's own
   frame, stock along that edge, blade square to it, the sawn edge stands off the blade by
   distance = (point on it) . (unit vector along the stock, away from the board). */
static void look(double fence_angle, enum fence_side side, enum side offcut, double depth, double square_error,
                 struct square_gap_readings *r)
{
    double into_board = offcut == SIDE_RIGHT ? -1 : 1, away = side == FENCE_NEAR ? 1 : -1;
    /* unit vector from the board outward along its fence edge; the square's blade is square to it but for its error */
    double ox = -into_board * cos(fence_angle), oy = -into_board * sin(fence_angle);
    double turn =
        square_error * away * (ox > 0 ? -1 : 1); /* > 0: the corner of the square is more than a right angle */
    double bx = ox * cos(turn) - oy * sin(turn), by = ox * sin(turn) + oy * cos(turn);
    /* how far the sawn edge reaches outward of the blade, at either end of it */
    double at_fence = 0, at_far = 0 * bx + away * depth * by;
    double touch = fmax(at_fence, at_far);
    *r = (struct square_gap_readings){.offcut = offcut,
                                      .length = given(depth),
                                      .gap = given(touch - fmin(at_fence, at_far)),
                                      .end_given = true,
                                      .end = at_fence < at_far ? EDGE_FENCE : EDGE_FAR,
                                      .pivot_to_moving = not_given(NAN)};
    r->grade = (struct str){.s = "1"};
}

static const struct proof_test *prove(struct hand *h, const struct job_instrument *tool, struct square_gap_readings r)
{
    one_test(h, METHOD_SQUARE_GAP, tool)->as.square_gap = r;
    return hand_prove(h);
}

/* The fence's angle after its end was moved as advised: by hand, from where the moving point goes. */
static double angle_after(double angle, const struct setting *s, const struct move *m)
{
    double run = s->moving_x - s->pivot_x, y = run * tan(angle);
    y += m->toward == TOWARD_AWAY ? m->distance : -m->distance;
    return atan(y / run);
}

static void test_square_gap_gives_back_the_fence_and_undoes_it(void **state)
{
    (void)state;
    static const double angles[] = {1, -1, 0.3, -0.2, 0.01};
    struct hand h;
    one_begin(&h);
    for (size_t i = 0; i < COUNT(angles); i++)
        for (int way = 0; way < 8; way++) {
            struct square_gap_readings r;
            double angle = angles[i] * degree;
            h.setting.fence_side = way & 1 ? FENCE_FAR : FENCE_NEAR;
            h.setting.pivot_x = way & 4 ? 280 : -330;
            h.setting.moving_x = way & 4 ? -330 : 280;
            look(angle, h.setting.fence_side, way & 2 ? SIDE_LEFT : SIDE_RIGHT, 280, 0, &r);
            const struct proof_test *t = prove(&h, NULL, r);
            assert_close(t->error, angle, 2e-4);
            assert_within(angle_after(angle, &h.setting, &t->move), 0, 2e-4 * fabs(angle));
            assert_int_equal(t->move.end, way & 4 ? SIDE_LEFT : SIDE_RIGHT);
        }
    hand_end(&h);
}

/* DIN 875-1 by its formula, grade 2: 20 + L/10 um at 300 is 50 um; 1.96 * 50/sqrt(3) = 56.6 um in 300: below that it
   decides nothing, and a tolerance of 0.05 can never be shown. */
static void test_square_gap_says_what_its_square_cannot_decide(void **state)
{
    (void)state;
    struct hand h;
    struct square_gap_readings r;
    one_begin(&h);
    look(0.0002, FENCE_NEAR, SIDE_RIGHT, 300, 0, &r);
    r.grade.s = "2";
    const struct proof_test *t = prove(&h, &h.instruments[1], r);
    assert_string_equal(t->remarks[0].key, "square_gap.own_error");
    assert_close(said(&t->remarks[0], "least")->number, 1.96 * 0.05 / sqrt(3), 1e-9);
    assert_null(t->remarks[1].key);
    h.job.tolerances.squareness = (struct job_limit){given(0.05), given(300)};
    t = prove(&h, &h.instruments[1], r);
    assert_string_equal(t->remarks[1].key, "square_gap.never_within");
    assert_int_not_equal(t->finding, FINDING_WITHIN);
    hand_end(&h);
}

/* A grade that says nothing counts as the coarsest. */
static void test_square_gap_without_a_grade(void **state)
{
    (void)state;
    struct hand h;
    struct square_gap_readings r;
    one_begin(&h);
    look(0.0002, FENCE_NEAR, SIDE_RIGHT, 300, 0, &r);
    r.grade.s = NULL;
    const struct proof_test *t = prove(&h, NULL, r);
    assert_close(t->lines[SQUARE_LINE].u, 0.05 / sqrt(3) / 300, 1e-12);
    assert_string_equal(t->lines[SQUARE_LINE].source.key, "square_gap.budget.unknown");
    r.grade.s = "B"; /* nor is one told as a grade of the standard that it does not have */
    t = prove(&h, NULL, r);
    assert_close(t->lines[SQUARE_LINE].u, 0.05 / sqrt(3) / 300, 1e-12);
    assert_string_equal(t->lines[SQUARE_LINE].source.key, "square_gap.budget.odd");
    hand_end(&h);
}

static void test_square_gap_no_pivot_no_move(void **state)
{
    (void)state;
    struct hand h;
    struct square_gap_readings r;
    one_begin(&h);
    h.setting.has_fence = false;
    look(0.002, FENCE_NEAR, SIDE_RIGHT, 300, 0, &r);
    assert_false(prove(&h, NULL, r)->has_move);
    r.pivot_to_moving = given(540);
    r.moving_end = SIDE_LEFT;
    r.moving_end_given = true;
    const struct proof_test *t = prove(&h, NULL, r);
    assert_true(t->has_move);
    assert_int_equal(t->move.toward, TOWARD_AWAY);
    assert_close(t->move.distance, 540 * tan(t->error), 1e-12);
    hand_end(&h);
}

static void test_square_gap_covers(void **state)
{
    (void)state;
    struct hand h;
    struct hand_random random = {21};
    struct covered c = {0, 0};
    one_begin(&h);
    for (int i = 0; i < COVERAGE_TRIALS; i++) {
        double angle = hand_within(&random, -0.002, 0.002), length = 280 + hand_within(&random, -0.5, 0.5);
        double square = hand_within(&random, -1, 1) * 0.048 / 280; /* grade 2: 20 + 28 um */
        struct square_gap_readings r;
        look(angle, FENCE_NEAR, SIDE_RIGHT, length, square, &r);
        r.gap = given(round((r.gap.v + 0.01 * hand_within(&random, -1, 1)) / 0.01) * 0.01);
        r.length = given(280);
        r.grade.s = "2";
        static const struct job_instrument fine = {.kind = INSTRUMENT_OTHER,
                                                   .resolution = {.v = 0.01, .given = true},
                                                   .error_limit = {.v = 0.01, .given = true}};
        if (r.gap.v >= 0)
            count_one(&c, prove(&h, &fine, r), angle, SQUARE_LINE);
    }
    assert_true(covers_and_needs_the_line(&c));
    hand_end(&h);
}

/* With leaves: the reading is the leaf that goes. */
static void test_square_gap_covers_with_leaves(void **state)
{
    (void)state;
    struct hand h;
    struct hand_random random = {22};
    struct covered c = {0, 0};
    one_begin(&h);
    for (int i = 0; i < COVERAGE_TRIALS; i++) {
        double angle = hand_within(&random, -0.003, 0.003), square = hand_within(&random, -1, 1) * 0.024 / 280;
        struct square_gap_readings r;
        look(angle, FENCE_FAR, SIDE_LEFT, 280, square, &r);
        r.gap = given(leaf_that_goes(hand_leaves, COUNT(hand_leaves), r.gap.v + 0.004 * hand_within(&random, -1, 1)));
        h.setting.fence_side = FENCE_FAR;
        count_one(&c, prove(&h, &h.instruments[1], r), angle, 0);
    }
    assert_true(covers_and_needs_the_line(&c));
    hand_end(&h);
}

/* A move noted with the square test overtakes the five-cut test before it, and the other way round. */
static void test_history_build_a_move_overtakes_both_tests_of_the_fence(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    hand_test_of_error(&h, "2026-11-01", 3, 2e-4, 1e-5);
    struct job_test *square = &h.tests[h.job.n_tests++];
    *square = (struct job_test){.method = METHOD_SQUARE_GAP, .date = day("2026-11-02")};
    look(0.002, FENCE_NEAR, SIDE_RIGHT, 300, 0, &square->as.square_gap);
    hand_move(square, SIDE_RIGHT, TOWARD_OPERATOR, 1.2);
    hand_prove(&h);
    for (size_t i = 0; i < 2; i++) {
        assert_true(h.proof.tests[i].stale);
        assert_string_equal(h.proof.tests[i].stale_reason.key, "stale.moved");
    }
    hand_test_of_error(&h, "2026-11-03", 3, 0.002 - 1.2 / 610, 1e-5);
    const struct proof_test *t = hand_prove(&h);
    assert_true(t->counts);
    assert_false(t->wrong_way);
    assert_close(t->expected_error, atan(tan(h.proof.tests[1].error) - 1.2 / 610), 1e-9);
    assert_true(h.proof.tests[1].stale);
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_square_gap_gives_back_the_fence_and_undoes_it),
        cmocka_unit_test(test_square_gap_says_what_its_square_cannot_decide),
        cmocka_unit_test(test_square_gap_without_a_grade),
        cmocka_unit_test(test_square_gap_no_pivot_no_move),
        cmocka_unit_test(test_square_gap_covers),
        cmocka_unit_test(test_square_gap_covers_with_leaves),
        cmocka_unit_test(test_history_build_a_move_overtakes_both_tests_of_the_fence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
