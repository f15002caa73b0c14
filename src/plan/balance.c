/* Statics of an overhanging sled: sums of moments about the table's edge (textbook). */
#include "plan/balance.h"

#include <math.h>

double balance_moment(const struct load *loads, size_t n)
{
    double sum = 0;

    for (size_t i = 0; i < n; i++)
        sum += loads[i].mass * BALANCE_GRAVITY * loads[i].inward;
    return sum;
}

/* Of width w the moment is k w (face + direction w/2): a parabola, least at an end or at its turning point. */
double balance_worst_work(double kg_per_mm, double face, int direction, double low, double high)
{
    double turning = fmin(fmax(-direction * face, low), high);
    const double widths[] = {low, high, turning};
    double least = 0;

    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
        double w = widths[i];
        least = fmin(least, kg_per_mm * BALANCE_GRAVITY * w * (face + direction * w / 2));
    }
    return least;
}

/* A fence that ends at the table's very edge: what is less than this beyond it is rounding [mm]. */
static const double hair = 0.01;

double balance_force(double moment, double arm)
{
    return arm >= -hair ? NAN : moment / (BALANCE_MARGIN * -arm);
}

double balance_ratio(const struct load *loads, size_t n, double work)
{
    double holds = 0, overturns = -work;

    for (size_t i = 0; i < n; i++) {
        double moment = loads[i].mass * BALANCE_GRAVITY * loads[i].inward;
        if (moment > 0)
            holds += moment;
        else
            overturns -= moment;
    }
    return overturns > 0 ? holds / overturns : INFINITY;
}
