/* The bridge of a fence: a beam from the screws left of the kerf to those right of it, as if simply supported. */
#include "plan/fence.h"

#include <math.h>

double fence_bridge(double height, double above_base)
{
    return height - above_base;
}

double fence_bridge_wanted(double height)
{
    return fmax(20, height / 4); /* common practice, no source */
}

double fence_height_wanted(double above_base)
{
    return fmax(above_base + 20, above_base * 4 / 3); /* fence_bridge_wanted turned round */
}

/* Rectangles side by side, parallel axes (Steiner). */
double fence_inertia(const double *heights, int n, double layer, double above_base)
{
    double area = 0, first = 0, second = 0;

    for (int i = 0; i < n; i++) {
        double bridge = fmax(heights[i] - above_base, 0), middle = (i + 0.5) * layer;
        area += bridge * layer;
        first += bridge * layer * middle;
        second += bridge * layer * (layer * layer / 12 + middle * middle);
    }
    return area > 0 ? second - first * first / area : 0;
}

/* Beam on two supports, load in the middle: end slope P a^2 / (16 E I). Textbook. */
double fence_angle(double force, double span, double stiffness, double inertia)
{
    return force * span * span / (16 * stiffness * inertia);
}

/* The same with I = bridge t^3 / 12, solved for t. */
double fence_thickness_wanted(double force, double span, double stiffness, double bridge, double angle)
{
    return cbrt(12 * force * span * span / (16 * stiffness * bridge * angle));
}
