/* The slot test without its formula: a disc on a slanting arbor, one tooth turned to the front and to the back, a dial
   whose plunger meets it from the slot. */
#include "one_test.h"

static const double degree = 3.14159265358979323846 / 180;

enum { BAR_LINE = 3 }; /* of the budget: front, back, tool, bar, span */

struct saw {
    double slant;  /* back of the blade to the right, > 0 [rad] */
    double wobble; /* of the blade on its arbor: the tooth stands that far out of the plane [mm] */
    double slot_x; /* of the dial's foot from the blade's axis, right positive [mm] */
};

/* Where the tooth's side stands: y along the table from the axis. The tooth stands out of the plane of its arbor's
   turning by the wobble, wherever it is turned to. */
static double tooth_x(const struct saw *s, double y)
{
    return y * tan(s->slant) + s->wobble / cos(s->slant);
}

/* The dial stands in the slot, its plunger toward the blade; the reading grows as it goes in. */
static double dial_reads(const struct saw *s, double y)
{
    double free_reach = fabs(s->slot_x) - 1, distance = fabs(s->slot_x - tooth_x(s, y));
    return free_reach + 2 - distance;
}

static const struct proof_test *prove(struct hand *h, const struct job_instrument *tool, enum side slot, double *front,
                                      double *back, size_t n, double span)
{
    one_test(h, METHOD_SLOT_PARALLEL, tool)->as.slot_parallel = (struct slot_parallel_readings){
        .slot = slot, .front = {.v = front, .n = n}, .back = {.v = back, .n = n}, .span = given(span)};
    return hand_prove(h);
}

static void test_slot_parallel_gives_back_the_slant_and_undoes_it(void **state)
{
    (void)state;
    static const double slants[] = {1, -1, 0.2, -0.05};
    struct hand h;
    one_begin(&h);
    h.job.saw.blade.diameter = given(250);
    for (size_t i = 0; i < COUNT(slants); i++)
        for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
            struct saw s = {slants[i] * degree, 0.11, side == SIDE_RIGHT ? 160 : -130};
            double front = dial_reads(&s, -102), back = dial_reads(&s, 102);
            const struct proof_test *t = prove(&h, NULL, (enum side)side, &front, &back, 1, 204);
            assert_close(t->error, s.slant, 2e-4);
            const struct saying *what = &t->move.what;
            double by = atan(said(what, "distance")->number / said(what, "over")->number);
            assert_within(s.slant + said_side(what, "blade") * by, 0, 1e-9);
            assert_true(said_side(what, "table") == -said_side(what, "blade"));
            assert_close(t->figures[0].value, 250 * tan(fabs(s.slant)), 1e-4);
        }
    hand_end(&h);
}

/* Front 0.20 0.22, back 0.30 0.30 in the left slot, span 200: error -(0.30 - 0.21)/200 = -4.5e-4. Front: s = 0.0141421
   over sqrt(2) = 0.01; back read alike: half a step of 0.01, 0.0028868; tool 0.2 x 0.010 (JIS B 7503:2011)/sqrt(3); bar
   0.01 sqrt(2)/sqrt(3). */
static void test_slot_parallel_by_hand(void **state)
{
    (void)state;
    static const struct job_instrument dial = {.kind = INSTRUMENT_DIAL, .resolution = {.v = 0.01, .given = true}};
    double front[] = {0.20, 0.22}, back[] = {0.30, 0.30};
    struct hand h;
    one_begin(&h);
    const struct proof_test *t = prove(&h, &dial, SIDE_LEFT, front, back, 2, 200);
    double u = sqrt(pow(0.01, 2) + pow(0.005 / sqrt(3), 2) + pow(0.002 / sqrt(3), 2) + 2 * pow(0.01 / sqrt(3), 2) +
                    pow(4.5e-4 * 0.5 / sqrt(3), 2)) /
               200;
    assert_close(t->error, -4.5e-4, 1e-12);
    assert_close(t->standard_uncertainty, u, 1e-12);
    assert_close(t->lines[0].u, 0.01 / 200, 1e-12);
    assert_true(t->lines[0].dof == 1);
    assert_string_equal(t->remarks[0].key, "slot_parallel.throws");
    back[0] = back[1] = 0.215; /* a slant smaller than its own uncertainty has no side to be warned of */
    t = prove(&h, &dial, SIDE_LEFT, front, back, 2, 200);
    assert_true(fabs(t->error) < t->expanded_uncertainty);
    assert_string_equal(t->remarks[0].key, "slot_parallel.not_square");
    hand_end(&h);
}

static void test_slot_parallel_covers(void **state)
{
    (void)state;
    static const struct job_instrument dial = {.kind = INSTRUMENT_DIAL, .resolution = {.v = 0.01, .given = true}};
    struct hand h;
    struct hand_random random = {31};
    struct covered c = {0, 0};
    one_begin(&h);
    for (int i = 0; i < COVERAGE_TRIALS; i++) {
        struct saw s = {hand_within(&random, -0.002, 0.002), 0.1, 160};
        double span = 200 + hand_within(&random, -0.5, 0.5), tool = 0.2 * 0.01 * hand_within(&random, -1, 1);
        double front_bar = hand_within(&random, -0.01, 0.01), back_bar = hand_within(&random, -0.01, 0.01);
        double front[5], back[5];
        for (int k = 0; k < 5; k++) {
            front[k] = round((dial_reads(&s, -span / 2) + front_bar + 0.004 * hand_normal(&random)) / 0.01) * 0.01;
            back[k] = round((dial_reads(&s, span / 2) + back_bar + tool + 0.004 * hand_normal(&random)) / 0.01) * 0.01;
        }
        count_one(&c, prove(&h, &dial, SIDE_RIGHT, front, back, 5, 200), s.slant, BAR_LINE);
    }
    assert_true(covers_and_needs_the_line(&c));
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_slot_parallel_gives_back_the_slant_and_undoes_it),
        cmocka_unit_test(test_slot_parallel_by_hand),
        cmocka_unit_test(test_slot_parallel_covers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
