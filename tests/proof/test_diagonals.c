/* Two diagonals: worked by hand, panels built as four bars and pushed square, what a rule can never tell. */
#include "method_kit.h"
#include "proof/diagonals_sums.h"

static const struct job_instrument fine = {.name = "fine",
                                           .kind = INSTRUMENT_OTHER,
                                           .resolution = {.v = 1e-6, .given = true},
                                           .error_limit = {.v = 0, .given = true}};
static const struct job_instrument rule = {.name = "rule",
                                           .kind = INSTRUMENT_RULE,
                                           .resolution = {.v = 0.5, .given = true},
                                           .error_limit = {.v = NAN, .given = false},
                                           .grade = {.s = "II"}};

struct panel {
    double width[2], depth[2]; /* near and far; left and right */
    double d1, d2;
};
static void set_panel(struct hand *h, const struct panel *p, size_t twice)
{
    h->tests[0].as.diagonals = (struct diagonals_readings){.width = {.v = p->width, .n = twice},
                                                           .depth = {.v = p->depth, .n = twice},
                                                           .d1 = given(p->d1),
                                                           .d2 = given(p->d2)};
}

/* 760 x 580, d1 955.5, d2 956.5: (956.5^2 - 955.5^2)/(4 x 760 x 580) = 1912/1763200 = 1.08439e-3; in 300: 0.3253. */
static void test_diagonals_worked_by_hand(void **state)
{
    (void)state;
    struct panel p = {{760, 760}, {580, 580}, 955.5, 956.5};
    struct hand h;
    kit_begin(&h, METHOD_DIAGONALS, &rule);
    set_panel(&h, &p, 2);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->error, 1912.0 / 1763200, 1e-12);
    assert_within(t->error_over, 0.3253, 5e-5);
    /* Each mm of difference: 1912/1763200 rad. Reading: sqrt 2 x 0.25/sqrt 3 = 0.20412 mm; rule of class II up to 1 m:
       0.5, a fifth of it 0.1/sqrt 3 = 0.05774 mm; together 0.21213 mm. Sides: error x hypot(1/760, 1/580) x
       hypot(0.25, 0.5)/sqrt 3 = error x 2.1688e-3 x 0.32275 = error x 7.0e-4, nothing. u = 0.21213 x 1.0844e-3. */
    assert_within(t->standard_uncertainty, 0.21213 * 1.08439e-3, 1e-8);
    /* 1.96 x 0.21213 = 0.41577 mm, x 1.08439e-3 = 4.509e-4 > 3.333e-4: it can never prove the panel square. */
    assert_within(t->as.diagonals.least_u, 4.5086e-4, 1e-8);
    assert_string_equal(t->remarks[0].key, "diagonals.never");
    assert_int_equal(t->finding, FINDING_OUTSIDE); /* 1.0844e-3 - 4.51e-4 = 6.33e-4 */
    assert_string_equal(t->move.what.key, "diagonals.push_2");
    assert_close(t->move.distance, 0.5, 1e-12);
    hand_end(&h);
}

/* Sides 2 mm apart lean the sides between them by 2/(2 x 580) = 1.7e-3, more than a quarter of the tolerance. */
static void test_diagonals_prove_nothing_where_sides_disagree(void **state)
{
    (void)state;
    struct panel p = {{760, 762}, {580, 580}, 956, 956};
    struct hand h;
    kit_begin(&h, METHOD_DIAGONALS, &fine);
    set_panel(&h, &p, 2);
    const struct proof_test *t = hand_prove(&h);
    assert_int_equal(t->finding, FINDING_UNDECIDED);
    assert_string_equal(t->decide.key, "diagonals.widths");
    assert_false(t->has_move);
    p.width[1] = 760;
    p.depth[1] = 578;
    set_panel(&h, &p, 2);
    assert_string_equal(hand_prove(&h)->decide.key, "diagonals.depths");
    p.depth[1] = 580.01; /* 0.01/1520 = 6.6e-6: nothing */
    set_panel(&h, &p, 2);
    assert_int_equal(hand_prove(&h)->finding, FINDING_WITHIN);
    set_panel(&h, &p, 1);
    assert_string_equal(hand_prove(&h)->remarks[0].key, "diagonals.sides_not_checked");
    hand_end(&h);
}

/* ---- Panels built ---- */

struct spot {
    double x, y;
};
/* Four corners; the near left one has the angle 90 degrees + phi, in a plane turned by chance. */
static struct panel build_panel(double width, double depth, double phi, double turned)
{
    double up = turned + 90 * degree + phi;
    struct spot near_left = {12, -7}, near_right = {12 + width * cos(turned), -7 + width * sin(turned)};
    struct spot far_left = {12 + depth * cos(up), -7 + depth * sin(up)};
    struct spot far_right = {near_right.x + depth * cos(up), near_right.y + depth * sin(up)};
    return (struct panel){{width, width},
                          {depth, depth},
                          hypot(far_right.x - near_left.x, far_right.y - near_left.y),
                          hypot(far_left.x - near_right.x, far_left.y - near_right.y)};
}

/* The angle of four bars whose diagonal from the near right to the far left is d2, found by halving. */
static double angle_of_diagonal(double width, double depth, double d2)
{
    double low = -0.2, high = 0.2;
    for (int i = 0; i < 200; i++) {
        double middle = (low + high) / 2;
        *(build_panel(width, depth, middle, 0).d2 < d2 ? &low : &high) = middle;
    }
    return low;
}

static void test_diagonals_printed_direction_squares_the_panel(void **state)
{
    (void)state;
    for (int k = 0; k < 16; k++) {
        double phi = (k & 1 ? 1 : -1) * (k & 2 ? 1 : 0.1) * degree, width = k & 4 ? 760 : 300,
               depth = k & 8 ? 580 : 900;
        struct hand h;
        kit_begin(&h, METHOD_DIAGONALS, &fine);
        struct panel p = build_panel(width, depth, phi, 0.01 * k);
        set_panel(&h, &p, 2);
        const struct proof_test *t = hand_prove(&h);
        assert_within(t->error, phi, 2e-4 * fabs(phi));
        for (int round = 0; round < 2 && t->move.advice == ADVICE_MOVE; round++) {
            /* the diagonal that is named is made shorter by what is printed; the other one follows */
            bool second = strcmp(t->move.what.key, "diagonals.push_2") == 0;
            phi = second ? angle_of_diagonal(width, depth, p.d2 - t->move.distance)
                         : -angle_of_diagonal(width, depth, p.d1 - t->move.distance);
            p = build_panel(width, depth, phi, 0.2);
            set_panel(&h, &p, 2);
            t = hand_prove(&h);
        }
        assert_int_equal(t->finding, FINDING_WITHIN);
        assert_within(phi, 0, 1e-4);
        hand_end(&h);
    }
}

/* ---- Coverage ---- */

struct drawn_panel {
    double phi, width, depth;
    struct panel p;
};
/* Rounded to half a millimetre; of the rule's limit a fifth differs between the diagonals, the sides feel all of it. */
static double draw_panel(struct hand *h, struct hand_random *r, const void *with)
{
    struct drawn_panel *d = (struct drawn_panel *)with;
    double phi = d->phi + hand_within(r, -1e-3, 1e-3), both = hand_within(r, -0.5, 0.5);
    double width = d->width + hand_within(r, -3, 3), depth = d->depth + hand_within(r, -3, 3);
    d->p = build_panel(width, depth, phi, 0);
    d->p.d1 = kit_round(d->p.d1 + both, 0.5);
    d->p.d2 = kit_round(d->p.d2 + both + hand_within(r, -0.1, 0.1), 0.5);
    d->p.width[0] = kit_round(width + both, 0.5);
    d->p.depth[0] = kit_round(depth + both, 0.5);
    set_panel(h, &d->p, 1);
    return phi;
}

static void test_diagonals_coverage(void **state)
{
    (void)state;
    static const double phis[] = {0, 0.002, -0.01};
    for (size_t i = 0; i < COUNT(phis); i++) {
        struct drawn_panel d = {.phi = phis[i], .width = 760, .depth = 580};
        struct hand h;
        kit_begin(&h, METHOD_DIAGONALS, &rule);
        double share = kit_coverage(&h, 80 + i, draw_panel, &d);
        print_message("phi %.3f: covered %.4f\n", phis[i], share);
        assert_true(share >= 0.93 && share <= 0.98);
        hand_end(&h);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_diagonals_worked_by_hand),
        cmocka_unit_test(test_diagonals_prove_nothing_where_sides_disagree),
        cmocka_unit_test(test_diagonals_printed_direction_squares_the_panel),
        cmocka_unit_test(test_diagonals_coverage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
