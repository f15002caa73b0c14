/* A runner's play: worked by hand, bars in slots that are measured, turned and planed without the sum under test. */
#include "method_kit.h"
#include "proof/side_play_sums.h"

static const struct job_instrument fine = {.name = "fine",
                                           .kind = INSTRUMENT_OTHER,
                                           .resolution = {.v = 1e-6, .given = true},
                                           .error_limit = {.v = 0, .given = true}};
static const struct job_instrument leaves = {
    .name = "leaves", .kind = INSTRUMENT_FEELER, .leaves = hand_leaves, .n_leaves = COUNT(hand_leaves)};

static void set_plays(struct hand *h, const double *plays, size_t n, double engaged)
{
    h->tests[0].as.side_play = (struct side_play_readings){.plays = {.v = plays, .n = n},
                                                           .engaged = engaged > 0 ? given(engaged) : not_given(NAN)};
}

/* Leaves 0.10, 0.15, 0.10 go: plays 0.125, 0.175, 0.125, middle of the limits 0.15: 0.025 off, the first worst. Reading
   0.025, leaf 0.004: u = sqrt(0.025^2 + 0.004^2)/sqrt 3 = 0.014617; U = 0.02865; limits 0.10 either side of 0.15. Yaw
   0.175/420 x 300 = 0.125. */
static void test_side_play_worked_by_hand(void **state)
{
    (void)state;
    static const double plays[] = {0.10, 0.15, 0.10};
    struct hand h;
    kit_begin(&h, METHOD_SIDE_PLAY, &leaves);
    set_plays(&h, plays, COUNT(plays), 420);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->error, -0.025, 1e-9);
    assert_close(t->tolerance, 0.10, 1e-9);
    assert_within(t->standard_uncertainty, 0.014617, 1e-6);
    assert_int_equal(t->finding, FINDING_WITHIN);
    assert_int_equal(t->n_figures, 1);
    assert_close(t->figures[0].value, 0.125, 1e-9);
    hand_end(&h);
}

/* The sled's own engaged length where the test has none; no yaw where neither is known. */
static void test_side_play_takes_the_length_of_the_sled(void **state)
{
    (void)state;
    static const double plays[] = {0.15};
    struct hand h;
    kit_begin(&h, METHOD_SIDE_PLAY, &fine);
    h.setting.engaged_length = 300;
    set_plays(&h, plays, 1, 0);
    assert_within(hand_prove(&h)->figures[0].value, 0.15, 1e-6);
    h.setting.engaged_length = NAN;
    assert_int_equal(hand_prove(&h)->n_figures, 0);
    hand_end(&h);
}

/* 0.02 to 0.40: no width of runner serves a slot that is 0.38 uneven where 0.20 is allowed. */
static void test_side_play_uneven_slot(void **state)
{
    (void)state;
    static const double plays[] = {0.02, 0.40};
    struct hand h;
    kit_begin(&h, METHOD_SIDE_PLAY, &fine);
    set_plays(&h, plays, COUNT(plays), 400);
    const struct proof_test *t = hand_prove(&h);
    assert_int_equal(t->finding, FINDING_OUTSIDE);
    assert_string_equal(t->move.what.key, "side_play.uneven");
    assert_within(fabs(t->move.expected_error), 0.19, 1e-6);
    hand_end(&h);
}

/* 0.32 and 0.50 loose: packed by 0.26 it would play 0.06 to 0.24, and read to 0.01 either is within; read with leaves a step of 0.05
   apart it is not: then the advice says that what it leads to is not decided either. */
static void test_side_play_change_that_decides_nothing(void **state)
{
    (void)state;
    static const double plays[] = {0.32, 0.50};
    static const double set[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.32, 0.37, 0.50, 0.55};
    static const struct job_instrument coarse = {.name = "set", .kind = INSTRUMENT_FEELER, .leaves = set, .n_leaves = COUNT(set)};
    for (int i = 0; i < 2; i++) {
        struct hand h;
        kit_begin(&h, METHOD_SIDE_PLAY, i ? &coarse : &fine);
        set_plays(&h, plays, COUNT(plays), 400);
        const struct proof_test *t = hand_prove(&h);
        assert_int_equal(t->move.advice, ADVICE_MOVE);
        bool within = fabs(t->move.expected_error) + t->expanded_uncertainty <= t->tolerance;
        assert_int_equal(within, i == 0);
        assert_int_equal(t->remarks[0].key == NULL, within);
        if (!within)
            assert_string_equal(t->remarks[0].key, "side_play.still_undecided");
        hand_end(&h);
    }
}

/* ---- Bars in slots ---- */

static void fit_bar(const double *slot, double runner, double *plays, size_t n)
{
    for (size_t i = 0; i < n; i++)
        plays[i] = slot[i] - runner;
}

static void test_side_play_printed_direction_fits_the_runner(void **state)
{
    (void)state;
    struct hand_random r = {3};
    for (int k = 0; k < 200; k++) {
        double slot[5], plays[5], runner = hand_within(&r, 18.0, 19.09);
        struct hand h;
        kit_begin(&h, METHOD_SIDE_PLAY, &fine);
        for (int i = 0; i < 5; i++)
            slot[i] = 19.1 + hand_within(&r, 0, 0.15);
        fit_bar(slot, runner, plays, 5);
        set_plays(&h, plays, 5, 400);
        const struct proof_test *t = hand_prove(&h);
        if (t->move.advice == ADVICE_MOVE) {
            double expected = t->move.expected_error;
            runner += strcmp(t->move.what.key, "side_play.plane") == 0 ? -t->move.distance : t->move.distance;
            fit_bar(slot, runner, plays, 5);
            t = hand_prove(&h);
            assert_within(fabs(t->error), fabs(expected), 1e-6);
        }
        assert_int_equal(t->finding, FINDING_WITHIN);
        hand_end(&h);
    }
}

/* A bar as wide as w and as long as l turns in a slot until two opposite corners touch: w cos a + l sin a = slot, found
   by halving. That is the way from its middle place one way, so twice it is corner to corner. */
static void test_side_play_yaw_is_that_of_a_bar_in_a_slot(void **state)
{
    (void)state;
    static const double lengths[] = {150, 400, 900};
    for (size_t i = 0; i < COUNT(lengths); i++) {
        double w = 19, play = 0.25, low = 0, high = 0.1;
        for (int k = 0; k < 100; k++) {
            double a = (low + high) / 2;
            *(w * cos(a) + lengths[i] * sin(a) < w + play ? &low : &high) = a;
        }
        assert_within(side_play_yaw(play, lengths[i]), low, 0.02 * low); /* the bar's own width: w a^2/2 */
    }
}

/* ---- Coverage ---- */

struct drawn_bar {
    double play;
    double *reading;
};
static double draw_bar(struct hand *h, struct hand_random *r, const void *with)
{
    static const double set[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40};
    static const struct job_instrument tool = {
        .name = "set", .kind = INSTRUMENT_FEELER, .leaves = set, .n_leaves = COUNT(set)};
    const struct drawn_bar *d = with;
    double play = d->play + hand_within(r, -0.03, 0.03), limit = play > 0.3 ? 0.006 : 0.004;
    *d->reading = kit_leaf(play + hand_within(r, -limit, limit), set, COUNT(set));
    h->tests[0].instrument = &tool;
    set_plays(h, d->reading, 1, 400);
    return play - 0.15;
}

/* One reading between two leaves: a rectangle, whose 1.96 u reaches beyond its end. So U covers all but always. */
static void test_side_play_coverage(void **state)
{
    (void)state;
    static const double plays[] = {0.06, 0.15, 0.31};
    for (size_t i = 0; i < COUNT(plays); i++) {
        double reading;
        struct hand h;
        kit_begin(&h, METHOD_SIDE_PLAY, NULL);
        double share = kit_coverage(&h, 90 + i, draw_bar, &(struct drawn_bar){plays[i], &reading});
        print_message("play %.2f: covered %.4f\n", plays[i], share);
        assert_true(share >= 0.95);
        hand_end(&h);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_side_play_worked_by_hand),
        cmocka_unit_test(test_side_play_takes_the_length_of_the_sled),
        cmocka_unit_test(test_side_play_uneven_slot),
        cmocka_unit_test(test_side_play_change_that_decides_nothing),
        cmocka_unit_test(test_side_play_printed_direction_fits_the_runner),
        cmocka_unit_test(test_side_play_yaw_is_that_of_a_bar_in_a_slot),
        cmocka_unit_test(test_side_play_coverage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
