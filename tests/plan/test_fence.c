/* The bridge of a fence: sums against numerical integration. */
#include "close.h"
#include "plan/fence.h"

/* Beam on two supports with a load in the middle, by stepping: M(x) = P x/2 to the middle, v'' = M/(EI), v'(middle) = 0
   for symmetry; the slope at the support is then the integral of M/(EI) over half the span. */
static double slope_by_steps(double force, double span, double stiffness, double inertia)
{
    double slope = 0, dx = span / 2 / 100000;

    for (double x = dx / 2; x < span / 2; x += dx)
        slope += force / 2 * x / (stiffness * inertia) * dx;
    return slope;
}

static void test_fence_angle_by_integration(void **state)
{
    static const double cases[][4] = {{50, 90, 10048, 124416}, {50, 120, 3000, 50000}, {80, 90, 12600, 9000}};

    (void)state;
    for (size_t i = 0; i < 3; i++)
        assert_close(fence_angle(cases[i][0], cases[i][1], cases[i][2], cases[i][3]),
                     slope_by_steps(cases[i][0], cases[i][1], cases[i][2], cases[i][3]), 1e-6);
}

/* Second moment of area by small squares, about the axis through their own centre of area. */
static double inertia_by_squares(const double *heights, int n, double layer, double above)
{
    double area = 0, first = 0, second = 0, d = layer / 2000;

    for (int i = 0; i < n; i++)
        for (double x = i * layer + d / 2; x < (i + 1) * layer; x += d) {
            double strip = fmax(heights[i] - above, 0) * d;
            area += strip;
            first += strip * x;
            second += strip * x * x;
        }
    return second - first * first / area;
}

static void test_fence_inertia_by_squares(void **state)
{
    const double equal[] = {100, 100}, rebated[] = {100, 86, 100}, cut_through[] = {100, 60};

    (void)state;
    assert_close(fence_inertia(equal, 2, 18, 68), 32.0 * 36 * 36 * 36 / 12, 1e-12); /* b t^3 / 12 */
    assert_close(fence_inertia(rebated, 3, 18, 68), inertia_by_squares(rebated, 3, 18, 68), 1e-6);
    assert_close(fence_inertia(cut_through, 2, 18, 68), 32.0 * 18 * 18 * 18 / 12, 1e-12); /* one layer is left */
    assert_within(fence_inertia(cut_through, 2, 18, 100), 0, 0);
}

static void test_fence_height_wanted_is_the_least_whose_bridge_does(void **state)
{
    (void)state;
    for (double above = 20; above < 160; above += 3.7) {
        double h = fence_height_wanted(above);
        assert_true(fence_bridge(h + 1e-9, above) >= fence_bridge_wanted(h + 1e-9));
        assert_true(fence_bridge(h - 0.01, above) < fence_bridge_wanted(h - 0.01));
    }
}

static void test_fence_thickness_wanted_turns_by_the_angle(void **state)
{
    const double bridge = 23, angle = 3.333e-5, height[] = {123};
    double t = fence_thickness_wanted(50, 90, 10048, bridge, angle);

    (void)state;
    assert_close(fence_angle(50, 90, 10048, fence_inertia(height, 1, t, 100)), angle, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fence_angle_by_integration),
        cmocka_unit_test(test_fence_inertia_by_squares),
        cmocka_unit_test(test_fence_height_wanted_is_the_least_whose_bridge_does),
        cmocka_unit_test(test_fence_thickness_wanted_turns_by_the_angle),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
