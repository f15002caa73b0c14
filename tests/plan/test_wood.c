/* Moisture and movement against the published table and worked example. */
#include "close.h"
#include "plan/wood.h"

/* Wood Handbook (FPL-GTR-190, 2010), table 4-2, as printed; it is given in Fahrenheit. */
static const double humidities[] = {20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90};
enum { HUMIDITIES = sizeof humidities / sizeof *humidities };
static const struct {
    double fahrenheit, moisture[HUMIDITIES];
} table_4_2[] = {
    {40, {4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.3, 13.5, 14.9, 16.5, 18.5, 21.0}},
    {50, {4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.4, 14.8, 16.4, 18.4, 20.9}},
    {60, {4.6, 5.4, 6.2, 7.0, 7.8, 8.6, 9.4, 10.2, 11.1, 12.1, 13.3, 14.6, 16.2, 18.2, 20.7}},
    {70, {4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5}},
    {80, {4.4, 5.3, 6.1, 6.8, 7.6, 8.3, 9.1, 9.9, 10.8, 11.7, 12.9, 14.2, 15.7, 17.7, 20.2}},
    {90, {4.3, 5.1, 5.9, 6.7, 7.4, 8.1, 8.9, 9.7, 10.5, 11.5, 12.6, 13.9, 15.4, 17.3, 19.8}},
};

static void test_wood_equilibrium_table_4_2(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof table_4_2 / sizeof *table_4_2; i++)
        for (size_t k = 0; k < HUMIDITIES; k++)
            assert_within(wood_equilibrium((table_4_2[i].fahrenheit - 32) / 1.8, humidities[k]), table_4_2[i].moisture[k], 0.07);
}

/* The equation worked elsewhere, to two decimals. */
static void test_wood_equilibrium_reference_values(void **state)
{
    static const double columns[] = {30, 40, 50, 60, 65, 70, 80};
    static const struct {
        double celsius, moisture[7];
    } rows[] = {
        {10, {6.31, 7.87, 9.47, 11.24, 12.27, 13.43, 16.38}},   {15, {6.26, 7.81, 9.38, 11.14, 12.15, 13.30, 16.23}},
        {20, {6.19, 7.72, 9.27, 11.00, 12.00, 13.13, 16.04}},   {21.1, {6.17, 7.70, 9.24, 10.97, 11.96, 13.09, 15.99}},
        {25, {6.10, 7.61, 9.13, 10.83, 11.81, 12.93, 15.81}},   {30, {5.99, 7.47, 8.97, 10.64, 11.61, 12.71, 15.55}},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (size_t k = 0; k < 7; k++)
            assert_within(wood_equilibrium(rows[i].celsius, columns[k]), rows[i].moisture[k], 0.0051);
}

/* The Fahrenheit form of the same equation, Wood Handbook (FPL-GTR-190, 2010) below eq. (4-5), carried over to Celsius by
   T = 1.8 t + 32 and rounded to the three digits of the Celsius form: an error of one digit in any coefficient shows. Of
   the square of t in W 0.01345 comes out, printed as 0.0135. */
static double to_three_digits(double x)
{
    double scale = pow(10, 2 - floor(log10(fabs(x))));

    return round(x * scale) / scale;
}

static void carry_over(const double in_fahrenheit[3], double in_celsius[3])
{
    const double *f = in_fahrenheit;

    in_celsius[0] = to_three_digits(f[0] + 32 * f[1] + 1024 * f[2]);
    in_celsius[1] = to_three_digits(1.8 * f[1] + 115.2 * f[2]);
    in_celsius[2] = to_three_digits(3.24 * f[2]);
}

static double quadratic(const double c[3], double t)
{
    return c[0] + c[1] * t + c[2] * t * t;
}

static void test_wood_equilibrium_coefficients_from_fahrenheit(void **state)
{
    static const double fahrenheit[4][3] = {
        {330, 0.452, 0.00415}, {0.791, 0.000463, -0.000000844}, {6.34, 0.000775, -0.0000935}, {1.09, 0.0284, -0.0000904}};
    double c[4][3];

    (void)state;
    for (int i = 0; i < 4; i++)
        carry_over(fahrenheit[i], c[i]);
    assert_within(c[0][2], 0.0135, 0.00011);
    c[0][2] = 0.0135;
    for (double t = -20; t <= 60; t += 5)
        for (double h = 5; h <= 95; h += 5) {
            double kh = quadratic(c[1], t) * h / 100, k1 = quadratic(c[2], t), k2 = quadratic(c[3], t);
            double first = kh / (1 - kh), over = k1 * kh + 2 * k1 * k2 * kh * kh, under = 1 + k1 * kh + k1 * k2 * kh * kh;
            assert_close(wood_equilibrium(t, h), 1800 / quadratic(c[0], t) * (first + over / under), 1e-9);
        }
}

/* Wood Handbook, worked example below eq. (13-2): white fir, flat-grained, 232 mm wide, 8 to 11 %: C = 0.00245 gives
   232 x 0.00245 x 3 = 1.7 mm; by eq. (13-3) with S = 7.0: 232 x 3/(3000/7 - 30 + 8) = 1.712 mm. */
static void test_wood_ratio_white_fir(void **state)
{
    (void)state;
    assert_within(232 * (wood_ratio(7.0, 8, 11) - 1), 1.7, 0.05);
    assert_within(232 * (wood_ratio(7.0, 8, 11) - 1), 1.712, 0.0005);
    assert_within(232 * 3 * wood_per_percent(7.0, 8), 1.712, 0.0005);
}

/* Same by 9.15 in, the handbook's other unit: + 0.067 in. */
static void test_wood_ratio_white_fir_in_inches(void **state)
{
    (void)state;
    assert_within(9.15 * (wood_ratio(7.0, 8, 11) - 1), 0.067, 0.0006);
}

/* The derivation: a size that is straight in M between green (30 %) and oven-dry, D(M) = D_green (1 - S/100 (30 - M)/30). */
static void test_wood_ratio_is_linear_from_green_to_dry(void **state)
{
    (void)state;
    for (double s = 2; s < 13; s += 0.5)
        for (double from = 0; from <= 30; from += 3)
            for (double to = 0; to <= 30; to += 2.5)
                assert_close(wood_ratio(s, from, to), (1 - s / 100 * (30 - to) / 30) / (1 - s / 100 * (30 - from) / 30), 1e-12);
}

/* Wood Handbook table 13-5 (C_R, C_T) against tables 4-3 and 4-4 (S_R, S_T): C = 1/(3000/S - 20). */
static void test_wood_coefficient_table_13_5(void **state)
{
    static const struct {
        const char *species;
        double s_r, s_t, c_r, c_t;
    } rows[] = {
        {"American beech", 5.5, 11.9, 0.00190, 0.00431}, {"sugar maple", 4.8, 9.9, 0.00165, 0.00353},
        {"red maple", 4.0, 8.2, 0.00137, 0.00289},       {"yellow birch", 7.3, 9.5, 0.00256, 0.00338},
        {"paper birch", 6.3, 8.6, 0.00219, 0.00304},     {"black walnut", 5.5, 7.8, 0.00190, 0.00274},
        {"black cherry", 3.7, 7.1, 0.00126, 0.00248},    {"white ash", 4.9, 7.8, 0.00169, 0.00274},
        {"black ash", 5.0, 7.8, 0.00172, 0.00274},       {"hickory, pecan", 4.9, 8.9, 0.00169, 0.00315},
        {"red alder", 4.4, 7.3, 0.00151, 0.00256},       {"basswood", 6.6, 9.3, 0.00230, 0.00330},
        {"quaking aspen", 3.5, 6.7, 0.00119, 0.00234},   {"sycamore", 5.0, 8.4, 0.00172, 0.00296},
        {"American elm", 4.2, 9.5, 0.00144, 0.00338},    {"sweetgum", 5.3, 10.2, 0.00183, 0.00365},
        {"eastern white pine", 2.1, 6.1, 0.00071, 0.00212},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_within(wood_coefficient(rows[i].s_r), rows[i].c_r, 0.0000062); /* half a unit of the last place printed, and rounding of S */
        assert_within(wood_coefficient(rows[i].s_t), rows[i].c_t, 0.0000062); /* half a unit of the last place printed, and rounding of S */
    }
}

/* 19.05 mm runner, 40 to 60 % at 21.1 Celsius, by eq. (13-2) and table 13-5: 19.05 C 3.27, hard maple 0.103 radial, 0.220
   tangential; beech 0.118, 0.268. Eq. (13-3) starts from 7.7 %, not 10 %, so it gives 1 % more. */
static void test_wood_movement_of_a_runner(void **state)
{
    double from = wood_equilibrium(21.1, 40), to = wood_equilibrium(21.1, 60);

    (void)state;
    assert_within(19.05 * (wood_ratio(4.8, from, to) - 1), 0.103, 0.012 * 0.103);
    assert_within(19.05 * (wood_ratio(9.9, from, to) - 1), 0.220, 0.012 * 0.220);
    assert_within(19.05 * (wood_ratio(5.5, from, to) - 1), 0.118, 0.012 * 0.118);
    assert_within(19.05 * (wood_ratio(11.9, from, to) - 1), 0.268, 0.012 * 0.268);
}

/* A plywood panel 600 wide over 30 % RH: 600 x 0.0002 x 3 = 0.36 mm. */
static void test_wood_panel_ratio_plywood(void **state)
{
    (void)state;
    assert_within(600 * (wood_panel_ratio(2.0e-4, 35, 65) - 1), 0.36, 1e-9);
    assert_within(600 * (wood_panel_ratio(2.0e-4, 65, 35) - 1), -0.36, 1e-9);
}

/* Brute force: a width is right if in each of the year's states its play lies within the limits in the narrowest and in
   the widest place. */
static void test_wood_runner_widths_by_trial(void **state)
{
    const double narrow = 19.06, wide = 19.11, low = 0.05, high = 0.25, r[] = {1, 0.9986, 1.0023};
    struct width_range range = wood_runner_widths(narrow, wide, low, high, 0.9986, 1.0023);

    (void)state;
    for (int i = 0; i < 4000; i++) {
        double w = 18.7 + i * 0.0001;
        bool right = true;
        for (size_t k = 0; k < 3; k++)
            right = right && narrow - w * r[k] >= low && wide - w * r[k] <= high;
        if (fabs(w - range.low) > 1e-6 && fabs(w - range.high) > 1e-6)
            assert_int_equal(right, w > range.low && w < range.high);
    }
}

/* Brute force: two slots a fixed distance apart, two runners whose distance is off by `shift`. The sled may stand anywhere
   where both runners lie in their slots; half the length of that stretch, and no more than either runner's own play. */
static void test_wood_pair_play_by_trial(void **state)
{
    static const struct {
        double left, right, shift;
    } rows[] = {{0.10, 0.25, 0.05}, {0.10, 0.25, -0.05}, {0.06, 0.06, 0.02}, {0.30, 0.10, 0.18}, {0.05, 0.05, 0.08}};

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double free = 0, step = 0.00001;
        for (double x = -0.5; x < 0.5; x += step) {
            bool left_in = fabs(x) <= rows[i].left / 2, right_in = fabs(x + rows[i].shift) <= rows[i].right / 2;
            free += left_in && right_in ? step : 0;
        }
        if (free > 0)
            assert_within(fmax(wood_pair_play(rows[i].left, rows[i].right, rows[i].shift), 0), free, 0.0001);
        else
            assert_true(wood_pair_play(rows[i].left, rows[i].right, rows[i].shift) <= 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wood_equilibrium_table_4_2),
        cmocka_unit_test(test_wood_equilibrium_reference_values),
        cmocka_unit_test(test_wood_equilibrium_coefficients_from_fahrenheit),
        cmocka_unit_test(test_wood_ratio_white_fir),
        cmocka_unit_test(test_wood_ratio_white_fir_in_inches),
        cmocka_unit_test(test_wood_ratio_is_linear_from_green_to_dry),
        cmocka_unit_test(test_wood_coefficient_table_13_5),
        cmocka_unit_test(test_wood_movement_of_a_runner),
        cmocka_unit_test(test_wood_panel_ratio_plywood),
        cmocka_unit_test(test_wood_runner_widths_by_trial),
        cmocka_unit_test(test_wood_pair_play_by_trial),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
