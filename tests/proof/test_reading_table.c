/* The small tables of the bench pages: each row against the sum that the page tells to do, and against the move that the test
   itself would tell for that reading. */
#include "one_test.h"

/* Board 60 high, tolerance 0.10 in 50: a gap of 2 x 60 x 0.002 = 0.24 is the limit. By the leaf 0.25, taken as 0.275, the error is
   0.275/120 x 50 = 0.114583; its U, by hand: half-width 0.025 and limit 0.004 of the gap through 1/120, base 0.05/100, faces 0.025/100,
   all over the root of 3, is (1.96 x 50/1.7321) x 0.000598 = 0.0338: undecided, and more likely out than not. */
static void test_reading_table_flip_before_any_test(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    hand_prove_with_tables(&h);
    const struct reading_table *t = &h.proof.table[METHOD_FLIP];
    assert_true(t->has && t->by_leaf);
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

/* No leaves in the job: the gap itself in round steps; 2.5 in high in inch jobs, its limit 2 x 63.5 x 0.002 = .010 in. */
static void test_reading_table_without_leaves(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    h.job.n_instruments = 1;
    h.job.units = UNITS_IN;
    hand_prove_with_tables(&h);
    const struct reading_table *t = &h.proof.table[METHOD_FLIP];
    assert_false(t->by_leaf);
    assert_within(t->at, 63.5, 1e-12);
    assert_within(t->rows[0].read, 0.0105 * 25.4, 1e-9); /* .010 is not above the limit; the next that is shown */
    assert_within(t->rows[1].read, 0.012 * 25.4, 1e-9);
    assert_within(t->rows[0].taken, t->rows[0].read, 1e-12);
    hand_end(&h);
}

/* Span 205 and a table 690 deep: 0.10 between front and back is 0.10/205 x 690 = 0.336585 at the rear edge, 0.082 = 205 x
   0.08/200 the limit. Without a depth over the tolerance's 200. What a dial read to 0.01 shows just above the limit has its row. */
static void test_reading_table_slot(void **state)
{
    (void)state;
    static const double front[] = {0.30}, back[] = {0.32};
    struct hand h;
    one_begin(&h);
    one_test(&h, METHOD_SLOT_PARALLEL, NULL)->as.slot_parallel = (struct slot_parallel_readings){
        .slot = SIDE_LEFT, .front = {.v = front, .n = 1}, .back = {.v = back, .n = 1}, .span = given(205)};
    h.job.saw.table.depth = given(690);
    hand_prove_with_tables(&h);
    const struct reading_table *t = &h.proof.table[METHOD_SLOT_PARALLEL];
    assert_false(t->by_leaf);
    assert_within(t->rows[0].read, 0.09, 1e-9);
    assert_within(t->rows[1].read, 0.10, 1e-9);
    assert_within(t->rows[1].move, 0.3365853659, 1e-9);
    h.job.saw.table.depth = not_given(0);
    hand_prove_with_tables(&h);
    assert_within(h.proof.table[METHOD_SLOT_PARALLEL].rows[1].move, 0.0975609756, 1e-9);
    hand_end(&h);
}

static const struct proof_test *prove_reading(struct hand *h, struct num *gap, double read)
{
    gap->v = read; /* of the only test */
    return hand_prove_with_tables(h);
}

/* Every row tells the move that the test of that reading would tell, and none tells a move where the record does not advise one. */
static void check_rows(struct hand *h, enum method method, struct num *gap)
{
    struct reading_table t = h->proof.table[method];
    assert_true(t.has && t.n_rows > 2);
    for (int i = 0; i < t.n_rows; i++) {
        const struct proof_test *test = prove_reading(h, gap, t.rows[i].read);
        assert_within(test->move.distance, t.rows[i].move, 1e-4 * t.rows[i].move); /* tangent or angle */
        assert_within(fabs(test->error) * test->over_length / t.per * t.over, t.rows[i].move, 1e-9); /* the rule beneath the rows */
        assert_within(fabs(test->error), t.rows[i].error, 1e-9);
        assert_int_equal(test->move.advice, ADVICE_MOVE);
        assert_true(i == 0 || t.rows[i].read > t.rows[i - 1].read);
    }
}

/* At whatever length from zones.least_at up and by whatever leaf: the record says of the error what the zones say. Some errors fall
   into each of them. */
static void check_zones(struct hand *h, enum method method, struct num *length, struct num *gap)
{
    struct zones z = h->proof.zones[method];
    const struct job_instrument *set = &h->instruments[1];
    int left = 0, moved = 0, out = 0;
    assert_true(z.has && z.least_at > 0 && z.least_at <= length->v);
    for (double times = 1; times < 4; times += 0.17)
        for (size_t i = 0; i < set->n_leaves; i++) {
            length->v = z.least_at * times;
            const struct proof_test *test = prove_reading(h, gap, set->leaves[i]);
            double error = fabs(test->error) * test->over_length;
            assert_true(error > z.leave_to || test->finding == FINDING_WITHIN);
            assert_true(error < z.move_from || test->move.advice == ADVICE_MOVE);
            assert_true(error < z.out_from || test->finding == FINDING_OUTSIDE);
            left += error <= z.leave_to;
            moved += error >= z.move_from;
            out += error >= z.out_from;
        }
    assert_true(left > 0 && moved > 0 && out > 0);
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
    hand_prove_with_tables(&h);
    check_rows(&h, METHOD_FLIP, &test->as.flip.gap);
    check_zones(&h, METHOD_FLIP, &test->as.flip.height, &test->as.flip.gap);
    test = one_test(&h, METHOD_FRAME, &h.instruments[1]);
    test->as.frame = (struct frame_readings){.pieces = given(4), .leg = given(50), .gap = given(0.05), .open_given = true,
                                             .open = OPEN_INSIDE, .fence = FRAME_LEFT_FENCE, .pivot_to_moving = given(280)};
    hand_prove_with_tables(&h);
    assert_within(h.proof.table[METHOD_FRAME].over, 280, 1e-12);
    check_rows(&h, METHOD_FRAME, &test->as.frame.gap);
    check_zones(&h, METHOD_FRAME, &test->as.frame.leg, &test->as.frame.gap);
    test = one_test(&h, METHOD_SQUARE_GAP, &h.instruments[1]);
    test->as.square_gap = (struct square_gap_readings){
        .offcut = SIDE_RIGHT, .length = given(280), .gap = given(0.05), .end_given = true, .end = EDGE_FAR, .grade = {.s = "0"}};
    hand_prove_with_tables(&h);
    assert_within(h.proof.table[METHOD_SQUARE_GAP].over, 610, 1e-12);
    check_rows(&h, METHOD_SQUARE_GAP, &test->as.square_gap.gap);
    check_zones(&h, METHOD_SQUARE_GAP, &test->as.square_gap.length, &test->as.square_gap.gap);
    hand_end(&h);
}

/* A last reading beyond all leaves, of leaves laid together, has its row: the table reaches what was read. */
static void test_reading_table_reaches_the_last_reading(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    struct job_test *test = one_test(&h, METHOD_SQUARE_GAP, &h.instruments[1]);
    test->as.square_gap = (struct square_gap_readings){
        .offcut = SIDE_RIGHT, .length = given(280), .gap = given(1.4), .end_given = true, .end = EDGE_FAR, .grade = {.s = "0"}};
    const struct proof_test *t = hand_prove_with_tables(&h);
    const struct reading_table *table = &h.proof.table[METHOD_SQUARE_GAP];
    assert_within(table->rows[table->n_rows - 1].read, 1.4, 1e-12);
    assert_within(table->rows[table->n_rows - 1].move, t->move.distance, 1e-3 * t->move.distance);
    hand_end(&h);
}

/* Bow, allowed 0.10: the zones of an error are where the record's words change for readings as fine as these. */
static void test_zones_of_an_error_are_the_records(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    struct job_pair gap = {.first = 250, .second = 0.60};
    h.job.tolerances.bow = given(0.10);
    one_test(&h, METHOD_FENCE_STRAIGHT, NULL)->as.fence_straight = (struct fence_straight_readings){
        .shim = given(0.5), .length = given(500), .gaps = &gap, .n_gaps = 1, .shortest_work = given(100)};
    hand_prove_with_tables(&h);
    struct zones z = h.proof.zones[METHOD_FENCE_STRAIGHT];
    assert_true(z.leave_to < 0.10 && z.out_from > 0.10);
    for (double bow = 0.002; bow < 0.3; bow += 0.0007) {
        gap.second = 0.5 + bow;
        const struct proof_test *t = hand_prove_with_tables(&h);
        assert_true(bow > z.leave_to || t->finding == FINDING_WITHIN);
        assert_true(bow < z.out_from || t->finding == FINDING_OUTSIDE);
        assert_true(bow < z.move_from || t->move.advice == ADVICE_MOVE);
        assert_true(bow > z.move_from - 0.001 || t->move.advice != ADVICE_MOVE);
    }
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reading_table_flip_before_any_test),
        cmocka_unit_test(test_reading_table_without_leaves),
        cmocka_unit_test(test_reading_table_slot),
        cmocka_unit_test(test_reading_table_rows_are_the_moves_of_such_readings),
        cmocka_unit_test(test_reading_table_reaches_the_last_reading),
        cmocka_unit_test(test_zones_of_an_error_are_the_records),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
