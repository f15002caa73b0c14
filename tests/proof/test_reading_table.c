/* The small tables of the bench pages: each row against the sum that the page tells to do, and against the move that the test
   itself would tell for that reading. */
#include "one_test.h"

/* Board 60 high, tolerance 0.10 in 50: a gap of 2 x 60 x 0.002 = 0.24 shows it. The leaf 0.20 is taken as 0.225, within; 0.25 as
   0.275: 0.275/120 x 50 = 0.114583. */
static void test_reading_table_flip_before_any_test(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    hand_prove(&h);
    const struct reading_table *t = &h.proof.table[METHOD_FLIP];
    assert_true(t->has && t->by_leaf);
    assert_within(t->out_above, 0.24, 1e-12);
    assert_within(t->rows[0].read, 0.25, 1e-12);
    assert_within(t->rows[0].taken, 0.275, 1e-12);
    assert_within(t->rows[0].move, 0.1145833333, 1e-9);
    assert_within(t->rows[0].error, 0.0022916667, 1e-9);
    assert_within(t->rows[1].read, 0.30, 1e-12);
    assert_within(t->rows[1].taken, 0.35, 1e-12);
    assert_false(h.proof.table[METHOD_FRAME].has || h.proof.table[METHOD_SLOT_PARALLEL].has || h.proof.table[METHOD_SQUARE_GAP].has);
    assert_false(h.proof.table[METHOD_STOP].has); /* its shift is the error itself */
    hand_end(&h);
}

/* No leaves in the job: the gap itself in round steps; 2.5 in high in inch jobs. */
static void test_reading_table_without_leaves(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    h.job.n_instruments = 1;
    h.job.units = UNITS_IN;
    hand_prove(&h);
    const struct reading_table *t = &h.proof.table[METHOD_FLIP];
    assert_false(t->by_leaf);
    assert_within(t->at, 63.5, 1e-12);
    assert_within(t->out_above, 0.254, 1e-12); /* 2 x 63.5 x 0.002 = .010 in */
    assert_within(t->rows[0].read, 0.012 * 25.4, 1e-12); /* .010 is not above it */
    assert_within(t->rows[0].taken, t->rows[0].read, 1e-12);
    hand_end(&h);
}

/* Span 205 and a table 690 deep: 0.10 between front and back is 0.10/205 x 690 = 0.336585 at the rear edge, 0.082 = 205 x
   0.08/200 the limit. Without a depth over the tolerance's 200. */
static void test_reading_table_slot(void **state)
{
    (void)state;
    static const double front[] = {0.30}, back[] = {0.32};
    struct hand h;
    one_begin(&h);
    one_test(&h, METHOD_SLOT_PARALLEL, NULL)->as.slot_parallel = (struct slot_parallel_readings){
        .slot = SIDE_LEFT, .front = {.v = front, .n = 1}, .back = {.v = back, .n = 1}, .span = given(205)};
    h.job.saw.table.depth = given(690);
    hand_prove(&h);
    const struct reading_table *t = &h.proof.table[METHOD_SLOT_PARALLEL];
    assert_false(t->by_leaf);
    assert_within(t->out_above, 0.082, 1e-12);
    assert_within(t->rows[0].read, 0.10, 1e-12);
    assert_within(t->rows[0].move, 0.3365853659, 1e-9);
    h.job.saw.table.depth = not_given(0);
    hand_prove(&h);
    assert_within(h.proof.table[METHOD_SLOT_PARALLEL].rows[0].move, 0.0975609756, 1e-9);
    hand_end(&h);
}

/* Every row tells the move that the test of that reading would tell, and none tells to move what is within. */
static void check_rows(struct hand *h, enum method method, struct num *gap)
{
    struct reading_table t = h->proof.table[method];
    assert_true(t.has && t.n_rows > 2);
    for (int i = 0; i < t.n_rows; i++) {
        gap->v = t.rows[i].read; /* of the only test */
        const struct proof_test *test = hand_prove(h);
        assert_within(test->move.distance, t.rows[i].move, 1e-4 * t.rows[i].move); /* tangent or angle */
        assert_within(fabs(test->error), t.rows[i].error, 1e-9);
        assert_true(fabs(test->error) > test->tolerance && test->finding != FINDING_WITHIN);
        assert_true(i == 0 || t.rows[i].read > t.rows[i - 1].read);
    }
}

static void test_reading_table_rows_are_the_moves_of_such_readings(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    h.job.tolerances.mitre = (struct job_limit){given(0.10), given(100)};
    struct job_test *test = one_test(&h, METHOD_FLIP, &h.instruments[1]);
    test->as.flip = (struct flip_readings){
        .height = given(68), .gap = given(0.10), .open_given = true, .open = OPEN_TOP, .turned = SIDE_RIGHT};
    hand_prove(&h);
    check_rows(&h, METHOD_FLIP, &test->as.flip.gap);
    test = one_test(&h, METHOD_FRAME, &h.instruments[1]);
    test->as.frame = (struct frame_readings){.pieces = given(4), .leg = given(50), .gap = given(0.05), .open_given = true,
                                             .open = OPEN_INSIDE, .fence = FRAME_LEFT_FENCE, .pivot_to_moving = given(280)};
    hand_prove(&h);
    assert_within(h.proof.table[METHOD_FRAME].over, 280, 1e-12);
    check_rows(&h, METHOD_FRAME, &test->as.frame.gap);
    test = one_test(&h, METHOD_SQUARE_GAP, &h.instruments[1]);
    test->as.square_gap = (struct square_gap_readings){
        .offcut = SIDE_RIGHT, .length = given(280), .gap = given(0.05), .end_given = true, .end = EDGE_FAR, .grade = {.s = "0"}};
    hand_prove(&h);
    assert_within(h.proof.table[METHOD_SQUARE_GAP].over, 610, 1e-12);
    check_rows(&h, METHOD_SQUARE_GAP, &test->as.square_gap.gap);
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reading_table_flip_before_any_test),
        cmocka_unit_test(test_reading_table_without_leaves),
        cmocka_unit_test(test_reading_table_slot),
        cmocka_unit_test(test_reading_table_rows_are_the_moves_of_such_readings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
