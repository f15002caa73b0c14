/* The flip test without its formula: the board's end grain is a polygon, sawn by a leaning blade, one half rolled over
   and pushed to the other until they touch. */
#include "one_test.h"

#include "proof/flip_sums.h"

enum { FLIP_BASE_LINE = 3 }; /* of the budget: gap, tool, height, base, faces */
static const double degree = 3.14159265358979323846 / 180;

struct place {
    double x, z;
};
/* A half of the board: its sawn face from the bottom up; the rest of it does not matter. */
struct half {
    struct place bottom, top;
};

/* The blade leans by `lean`, its top to the right, through (0, 0); its faces stand half a kerf off. */
static struct half saw_half(double lean, double height, double off)
{
    struct place foot = {off / cos(lean), 0};
    return (struct half){foot, {foot.x + height * tan(lean), height}};
}

/* About a line to the left and right at half the height: what was the top is now below. */
static struct half roll_over(struct half h, double height)
{
    return (struct half){{h.top.x, height - h.top.z}, {h.bottom.x, height - h.bottom.z}};
}

/* Gap at bottom and top once the halves touch. */
static void close_up(struct half left, struct half right, double *bottom, double *top)
{
    double at_bottom = right.bottom.x - left.bottom.x, at_top = right.top.x - left.top.x;
    double touch = fmin(at_bottom, at_top);
    *bottom = at_bottom - touch;
    *top = at_top - touch;
}

/* What a bench would write down. */
static void saw_and_turn(double lean, double height, enum side turned, struct flip_readings *r)
{
    double bottom, top;
    struct half left = saw_half(lean, height, -1.4), right = saw_half(lean, height, 1.4);
    if (turned == SIDE_LEFT)
        left = roll_over(left, height);
    else
        right = roll_over(right, height);
    close_up(left, right, &bottom, &top);
    *r = (struct flip_readings){
        .height = given(height), .gap = given(fmax(bottom, top)), .open_given = true, .turned = turned};
    r->open = top > bottom ? OPEN_TOP : OPEN_BOTTOM;
}

static const struct proof_test *prove(struct hand *h, const struct job_instrument *tool, struct flip_readings r)
{
    one_test(h, METHOD_FLIP, tool)->as.flip = r;
    return hand_prove(h);
}

/* The lean that is left when the top of the blade is tilted as the sentence says. */
static double tilt_as_told(double lean, const struct proof_test *t)
{
    const struct saying *what = &t->move.what;
    double by = atan(said(what, "distance")->number / said(what, "over")->number);
    return lean + said_side(what, "side") * by;
}

static void test_flip_gives_back_the_lean_and_undoes_it(void **state)
{
    (void)state;
    static const double leans[] = {1, -1, 0.4, -0.3, 0.02};
    struct hand h;
    one_begin(&h);
    for (size_t i = 0; i < COUNT(leans); i++)
        for (int turned = SIDE_LEFT; turned <= SIDE_RIGHT; turned++) {
            struct flip_readings r;
            double lean = leans[i] * degree;
            saw_and_turn(lean, 68, (enum side)turned, &r);
            const struct proof_test *t = prove(&h, NULL, r);
            assert_close(t->error, lean, 2e-4); /* tan of a degree */
            assert_within(tilt_as_told(lean, t), 0, 1e-12);
            assert_int_equal(t->move.advice, t->finding == FINDING_WITHIN ? ADVICE_LEAVE : ADVICE_MOVE);
        }
    hand_end(&h);
}

/* The leaf of 0.30 goes, that of 0.40 does not: gap 0.35, e = 0.35 / 136 = 0.0025735. Lines: 0.05/sqrt(3)/136,
   0.006/sqrt(3)/136 (above 0.30), 0.5/sqrt(3) e/68, 0.05/sqrt(3)/100 and half of that; in quadrature 3.873e-4, times
   1.95996 and 50 makes 0.0380. */
static void test_flip_by_hand(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    const struct proof_test *t =
        prove(&h, &h.instruments[1],
              (struct flip_readings){
                  .height = given(68), .gap = given(0.30), .open_given = true, .open = OPEN_TOP, .turned = SIDE_RIGHT});
    double u = sqrt(pow(0.05 / sqrt(3) / 136, 2) + pow(0.006 / sqrt(3) / 136, 2) +
                    pow(0.5 / sqrt(3) * 0.35 / 136 / 68, 2) + 1.25 * pow(0.05 / sqrt(3) / 100, 2));
    assert_close(t->error, -0.35 / 136, 1e-12);
    assert_close(t->standard_uncertainty, u, 1e-12);
    assert_close(t->expanded_uncertainty, 1.959963985 * u, 1e-8);
    assert_close(t->error_over, -0.35 / 136 * 50, 1e-12);
    assert_int_equal(t->finding, FINDING_UNDECIDED); /* 0.1287 - 0.0380 < 0.10 */
    assert_string_equal(t->largest_line.key, "flip.budget.base");
    assert_string_equal(t->decide.key, "decide.board"); /* no finer reading mends an uneven board */
    hand_end(&h);
}

/* No light: zero, and known to the thinnest leaf either way. */
static void test_flip_closed(void **state)
{
    (void)state;
    struct hand h;
    one_begin(&h);
    const struct proof_test *t =
        prove(&h, &h.instruments[1], (struct flip_readings){.height = given(68), .gap = given(0), .turned = SIDE_LEFT});
    assert_true(t->error == 0);
    assert_close(t->lines[0].u, 0.05 / sqrt(3) / 136, 1e-12);
    assert_int_equal(t->move.advice, ADVICE_LEAVE);
    hand_end(&h);
}

/* Leaves, their limits, the height, base and faces drawn from what the budget says of them. */
static void test_flip_covers(void **state)
{
    (void)state;
    struct hand h;
    struct hand_random random = {11};
    struct covered c = {0, 0};
    one_begin(&h);
    for (int i = 0; i < COVERAGE_TRIALS; i++) {
        double lean = hand_within(&random, -0.006, 0.006), height = 68 + hand_within(&random, -0.5, 0.5);
        double stands = lean + hand_within(&random, -1, 1) * 0.05 / 100 + hand_within(&random, -1, 1) * 0.05 / 200;
        struct flip_readings r;
        saw_and_turn(stands, height, SIDE_LEFT, &r);
        double leaf = leaf_that_goes(hand_leaves, COUNT(hand_leaves), r.gap.v + 0.004 * hand_within(&random, -1, 1));
        r.gap = given(leaf);
        r.height = given(68);
        count_one(&c, prove(&h, &h.instruments[1], r), lean, FLIP_BASE_LINE);
    }
    assert_true(covers_and_needs_the_line(&c));
    hand_end(&h);
}

static void test_flip_sign_all_four(void **state)
{
    (void)state;
    assert_int_equal(flip_sign(OPEN_TOP, SIDE_LEFT), 1);
    assert_int_equal(flip_sign(OPEN_BOTTOM, SIDE_RIGHT), 1);
    assert_int_equal(flip_sign(OPEN_BOTTOM, SIDE_LEFT), -1);
    assert_int_equal(flip_sign(OPEN_TOP, SIDE_RIGHT), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flip_gives_back_the_lean_and_undoes_it),
        cmocka_unit_test(test_flip_by_hand),
        cmocka_unit_test(test_flip_closed),
        cmocka_unit_test(test_flip_covers),
        cmocka_unit_test(test_flip_sign_all_four),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
