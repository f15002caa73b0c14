/* Statistics against published tables and data, and against R's library of distributions. */
#include "by_hand.h"

#include "proof/statistics.h"

#define MATHLIB_STANDALONE
#include <Rmath.h>

/* NIST Statistical Reference Datasets, univariate: Michelso, Mavro, NumAcc1 to NumAcc4, with their certified values. */
static const double michelso[] = {
    299.85, 299.74, 299.90, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.00, 299.98, 299.93,
    299.65, 299.76, 299.81, 300.00, 300.00, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.80,
    299.85, 299.88, 299.90, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.80, 299.79, 299.76,
    299.80, 299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91,
    299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.80,
    299.77, 299.76, 299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85,
    299.85, 299.78, 299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87,
    299.87, 299.81, 299.74, 299.81, 299.94, 299.95, 299.80, 299.81, 299.87};
static const double mavro[] = {
    2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150, 2.00150, 2.00170, 2.00180, 2.00180,
    2.00190, 2.00190, 2.00210, 2.00200, 2.00160, 2.00140, 2.00130, 2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140,
    2.00130, 2.00140, 2.00150, 2.00140, 2.00150, 2.00160, 2.00150, 2.00160, 2.00190, 2.00200, 2.00200, 2.00210, 2.00220,
    2.00230, 2.00240, 2.00250, 2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240};

static void test_stat_deviation_of_the_nist_sets(void **state)
{
    (void)state;
    assert_close(stat_mean(michelso, COUNT(michelso)), 299.852400000000, 1e-14);
    assert_close(stat_deviation(michelso, COUNT(michelso)), 0.0790105478190518, 1e-12);
    assert_close(stat_mean(mavro, COUNT(mavro)), 2.00185600000000, 1e-14);
    assert_close(stat_deviation(mavro, COUNT(mavro)), 0.000429123454003053, 1e-12);
    static const double numacc1[] = {10000001, 10000003, 10000002};
    assert_close(stat_mean(numacc1, 3), 10000002, 0);
    assert_close(stat_deviation(numacc1, 3), 1, 0);
    /* NumAcc2 to 4: x.2, then 500 times (x.1, x.3); s is 0.1, as near as such numbers can be held in binary */
    static const struct {
        double base, within;
    } sets[] = {
        {1,        1e-12},
        {1000000,  1e-9 },
        {10000000, 1e-8 }
    };
    for (size_t k = 0; k < COUNT(sets); k++) {
        double x[1001] = {sets[k].base + 0.2};
        for (size_t i = 1; i < COUNT(x); i++)
            x[i] = sets[k].base + (i % 2 ? 0.1 : 0.3);
        assert_close(stat_mean(x, COUNT(x)), sets[k].base + 0.2, 1e-14);
        assert_close(stat_deviation(x, COUNT(x)), 0.1, sets[k].within);
    }
}

/* GUM 4.4.3, table 1 (from memory): 100.145, 1.489, 0.333. */
static void test_stat_deviation_of_the_gum_example(void **state)
{
    (void)state;
    static const double t[] = {96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,  99.74,  99.89,  100.07,
                               100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
    assert_within(stat_mean(t, 20), 100.145, 5e-4);
    assert_within(stat_deviation(t, 20), 1.489, 5e-4);
    assert_within(stat_deviation(t, 20) / sqrt(20), 0.333, 5e-4);
    assert_true(isnan(stat_deviation(t, 1)));
}

/* NIST TN 1297, table B.1. The columns are the coverages of 1, 2 and 3 standard deviations where the head is rounded.
   The cell 35, 90 % is printed 1.70 there; exact is 1.68957. */
static void test_stat_student_quantile_table_of_tn_1297(void **state)
{
    (void)state;
    static const double p[] = {0.682689492137, 0.90, 0.95, 0.954499736104, 0.99, 0.997300203937};
    static const struct {
        double dof, t[6];
    } rows[] = {
        {1,  {1.84, 6.31, 12.71, 13.97, 63.66, 235.80}},
        {2,  {1.32, 2.92, 4.30, 4.53, 9.92, 19.21}    },
        {3,  {1.20, 2.35, 3.18, 3.31, 5.84, 9.22}     },
        {4,  {1.14, 2.13, 2.78, 2.87, 4.60, 6.62}     },
        {5,  {1.11, 2.02, 2.57, 2.65, 4.03, 5.51}     },
        {6,  {1.09, 1.94, 2.45, 2.52, 3.71, 4.90}     },
        {7,  {1.08, 1.89, 2.36, 2.43, 3.50, 4.53}     },
        {8,  {1.07, 1.86, 2.31, 2.37, 3.36, 4.28}     },
        {9,  {1.06, 1.83, 2.26, 2.32, 3.25, 4.09}     },
        {10, {1.05, 1.81, 2.23, 2.28, 3.17, 3.96}     },
        {11, {1.05, 1.80, 2.20, 2.25, 3.11, 3.85}     },
        {12, {1.04, 1.78, 2.18, 2.23, 3.05, 3.76}     },
        {13, {1.04, 1.77, 2.16, 2.21, 3.01, 3.69}     },
        {14, {1.04, 1.76, 2.14, 2.20, 2.98, 3.64}     },
        {15, {1.03, 1.75, 2.13, 2.18, 2.95, 3.59}     },
        {16, {1.03, 1.75, 2.12, 2.17, 2.92, 3.54}     },
        {17, {1.03, 1.74, 2.11, 2.16, 2.90, 3.51}     },
        {18, {1.03, 1.73, 2.10, 2.15, 2.88, 3.48}     },
        {19, {1.03, 1.73, 2.09, 2.14, 2.86, 3.45}     },
        {20, {1.03, 1.72, 2.09, 2.13, 2.85, 3.42}     },
        {25, {1.02, 1.71, 2.06, 2.11, 2.79, 3.33}     },
        {30, {1.02, 1.70, 2.04, 2.09, 2.75, 3.27}     },
        {35, {1.01, 1.69, 2.03, 2.07, 2.72, 3.23}     },
        {40, {1.01, 1.68, 2.02, 2.06, 2.70, 3.20}     },
        {45, {1.01, 1.68, 2.01, 2.06, 2.69, 3.18}     },
        {50, {1.01, 1.68, 2.01, 2.05, 2.68, 3.16}     },
    };
    static const double hundred[] = {1.005, 1.660, 1.984, 2.025, 2.626, 3.077},
                        many[] = {1.000, 1.645, 1.960, 2.000, 2.576, 3.000};
    for (size_t c = 0; c < COUNT(p); c++) {
        for (size_t r = 0; r < COUNT(rows); r++)
            assert_within(stat_student_quantile((1 + p[c]) / 2, rows[r].dof), rows[r].t[c], 0.00501);
        assert_within(stat_student_quantile((1 + p[c]) / 2, 100), hundred[c], 0.000501);
        assert_within(stat_student_quantile((1 + p[c]) / 2, INFINITY), many[c], 0.000501);
    }
}

/* R's nmath (pt, qt, pnorm, qnorm) at random arguments, degrees of freedom whole and not, tails to 1e-9. */
static void test_stat_student_against_r(void **state)
{
    (void)state;
    struct hand_random r = {1};
    for (int i = 0; i < 1000; i++) {
        double dof = pow(10, hand_within(&r, -0.3, 6)), t = hand_within(&r, -1, 1) * pow(10, hand_within(&r, -3, 1.3));
        if (i % 4 == 0)
            dof = floor(dof) + 1;
        double p = i % 2 ? hand_uniform(&r) : pow(10, -hand_within(&r, 0.4, 9));
        assert_close(stat_student_cdf(t, dof), pt(t, dof, 1, 0), 1e-10);
        assert_close(stat_student_quantile(p, dof), qt(p, dof, 1, 0), 1e-10);
        assert_close(stat_normal_cdf(t), pnorm(t, 0, 1, 1, 0), 1e-10);
        assert_close(stat_normal_quantile(p), qnorm(p, 0, 1, 1, 0), 1e-10);
    }
    assert_true(stat_student_quantile(0.5, 3) == 0);
    assert_true(stat_student_cdf(0, 3) == 0.5);
    assert_close(stat_student_cdf(1, 1), 0.75, 1e-14); /* Cauchy: 1/2 + atan(1)/pi */
}

/* GUM H.1 (from memory), table H.1: 32 nm, 16.7 degrees of freedom, t99 2.92, 93 nm. */
static void test_stat_expand_the_gum_end_gauge(void **state)
{
    (void)state;
    static const struct stat_term terms[] = {
        {25,          18           },
        {9.68194195,  25.4472507774},
        {2.88678732,  50           },
        {16.59902706, 2            }
    };
    struct stat_budget b = stat_expand(terms, COUNT(terms), 0.99);
    assert_within(b.u, 32, 0.5);
    assert_close(b.u, 31.6638791110, 1e-9);
    assert_within(b.dof, 16.7, 0.1);
    assert_close(b.dof, 16.7518557376, 1e-8);
    assert_within(b.factor, 2.92, 0.005);
    assert_close(b.factor, 2.92078162243, 1e-10);
    assert_within(b.expanded, 93, 0.6); /* printed from the rounded 32; unrounded 92.48 */
    assert_close(b.expanded, 92.4832762, 1e-8);
    static const struct stat_term d[] = {
        {5.8, 24},
        {3.9, 5 },
        {6.7, 8 }
    };
    assert_close(stat_combine(d, COUNT(d)).u, 9.68194195, 1e-8);
    assert_close(stat_combine(d, COUNT(d)).dof, 25.4472507774, 1e-10);
}

static void test_stat_combine_of_nothing_and_of_endless_freedom(void **state)
{
    (void)state;
    static const struct stat_term none[] =
        {
            {0, 2       },
            {0, INFINITY}
    },
                                  endless[] = {{3, INFINITY}, {4, INFINITY}};
    assert_true(stat_combine(none, 2).u == 0 && isinf(stat_combine(none, 2).dof));
    assert_true(stat_expand(none, 2, 0.95).expanded == 0);
    assert_close(stat_combine(endless, 2).u, 5, 1e-15);
    assert_close(stat_expand(endless, 2, 0.95).factor, 1.959963984540, 1e-12);
    assert_true(stat_whole_dof(0.4) == 1 && stat_whole_dof(2.9) == 2 && stat_whole_dof(2 - 1e-12) == 2);
}

/* JCGM 106:2012 (from memory): 7.3 Zener diode 0.92, 7.4 oil 0.66; then a ready table: T 9.95 to 10.05, u 0.01. */
static void test_stat_conformance_of_jcgm_106(void **state)
{
    (void)state;
    struct stat_term oil = {1.8, INFINITY}, table = {0.01, INFINITY};
    assert_within(stat_normal_cdf((-5.40 + 5.47) / 0.05), 0.92, 0.005);
    assert_within(stat_conformance(13.6 - 14.4, oil, 1.9), 0.66, 0.005); /* 12.5 to 16.3 is 14.4 +- 1.9 */
    assert_within(stat_conformance(13.6 - 14.4, oil, 1.9), 0.6626297865, 1e-9);
    assert_within(stat_normal_cdf((509.7 - 490) / 8.6), 0.9890095474, 1e-9);
    assert_within(stat_normal_cdf(2), 0.9772498681, 1e-9); /* 8.3.2: accepted with a guard band of 2 u */
    static const double y[][2] = {
        {0,      0.999999426697},
        {0.02,   0.998650101967},
        {0.03,   0.977249868052},
        {0.0335, 0.950528531966},
        {0.04,   0.841344746069},
        {-0.04,  0.841344746069},
        {0.05,   0.5           },
        {0.06,   0.158655253931}
    };
    for (size_t i = 0; i < COUNT(y); i++)
        assert_within(stat_conformance(y[i][0], table, 0.05), y[i][1], 1e-11);
    static const double z[][2] = {
        {0.80,  0.8416212336},
        {0.90,  1.281551566 },
        {0.95,  1.644853627 },
        {0.99,  2.326347874 },
        {0.999, 3.090232306 }
    }; /* table 1 of 7.3 */
    for (size_t i = 0; i < COUNT(z); i++)
        assert_close(stat_normal_quantile(z[i][0]), z[i][1], 1e-9);
    assert_true(stat_conformance(1, (struct stat_term){0, 2}, 1) == 1 &&
                stat_conformance(1.1, (struct stat_term){0, 2}, 1) == 0);
}

/* NIST StRD linear: Norris. Then GUM H.3 (slope and s as printed, from memory of the clause), and Bevington, table 6.1,
   as quoted in tests of general-purpose uncertainty libraries. */
static void test_stat_fit_line_of_published_sets(void **state)
{
    (void)state;
    static const double x[] = {0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                               0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                               0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    static const double y[] = {0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                               0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                               0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    struct stat_line norris = stat_fit_line(x, y, COUNT(x));
    assert_close(norris.slope, 1.00211681802045, 1e-13);
    assert_close(norris.mean_y - norris.slope * norris.mean_x, -0.262323073774029, 1e-11);
    assert_close(norris.u_slope, 0.429796848199937e-3, 1e-11);
    assert_close(norris.residual, 0.884796396144373, 1e-11);
    assert_close(norris.dof, 34, 0);

    static const double t[] = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
    static const double b[] = {-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160};
    struct stat_line gum = stat_fit_line(t, b, COUNT(t));
    assert_within(gum.slope, 0.00218, 5e-6);
    assert_within(gum.u_slope, 0.00067, 5e-6);
    assert_within(gum.residual, 0.0035, 5e-5);
    assert_within(gum.mean_y + gum.slope * (20 - gum.mean_x), -0.1712, 5e-5);
    assert_within(gum.mean_y + gum.slope * (30 - gum.mean_x), -0.1494, 5e-5);

    static const double bx[] = {4, 8, 12.5, 16, 20, 25, 31, 36, 40, 40},
                        by[] = {3.7, 7.8, 12.1, 15.6, 19.8, 24.5, 30.7, 35.5, 39.4, 39.5};
    struct stat_line bevington = stat_fit_line(bx, by, COUNT(bx));
    assert_close(bevington.slope, 0.9927803012192, 1e-11);
    assert_close(bevington.u_slope, 0.002636608092202, 1e-10);
    assert_close(bevington.residual, 0.1044251593892, 1e-10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_stat_deviation_of_the_nist_sets),
        cmocka_unit_test(test_stat_deviation_of_the_gum_example),
        cmocka_unit_test(test_stat_student_quantile_table_of_tn_1297),
        cmocka_unit_test(test_stat_student_against_r),
        cmocka_unit_test(test_stat_expand_the_gum_end_gauge),
        cmocka_unit_test(test_stat_combine_of_nothing_and_of_endless_freedom),
        cmocka_unit_test(test_stat_conformance_of_jcgm_106),
        cmocka_unit_test(test_stat_fit_line_of_published_sets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
