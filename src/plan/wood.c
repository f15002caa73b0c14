/* Moisture and movement of wood. */
#include "plan/wood.h"

#include <math.h>

/* Hailwood-Horrobin: Wood Handbook (FPL-GTR-190, 2010) eq. (4-5), from which its table 4-2 was calculated; coefficients
   for degrees Celsius: Simpson, FPL-RN-0268 (1998). */
double wood_equilibrium(double t, double humidity)
{
    double h = humidity / 100;
    double w = 349 + 1.29 * t + 0.0135 * t * t;
    double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    double kh = k * h;
    double hydrated = k1 * kh + k1 * k2 * kh * kh;

    return 1800 / w * (kh / (1 - kh) + (hydrated + k1 * k2 * kh * kh) / (1 + hydrated));
}

/* Wood Handbook eq. (13-3): dD = D (M - M_from) / (3000/S - 30 + M_from), which is a size that is straight in M from
   green (30 %) to oven-dry. */
double wood_ratio(double shrinkage, double from, double to)
{
    double b = 100 * WOOD_FIBRE_SATURATION / shrinkage - WOOD_FIBRE_SATURATION;

    return (b + to) / (b + from);
}

double wood_per_percent(double shrinkage, double from)
{
    return 1 / (100 * WOOD_FIBRE_SATURATION / shrinkage - WOOD_FIBRE_SATURATION + from);
}

double wood_coefficient(double shrinkage)
{
    return wood_per_percent(shrinkage, 10);
}

double wood_panel_ratio(double movement, double humidity_from, double humidity_to)
{
    return 1 + movement * (humidity_to - humidity_from) / 10;
}

/* The widest runner leaves the least play when it is swollen, in the narrowest place; the narrowest one the most when
   it has shrunk, in the widest place. */
struct width_range wood_runner_widths(double slot_narrow, double slot_wide, double play_low, double play_high,
                                      double r_low, double r_high)
{
    return (struct width_range){.low = (slot_wide - play_high) / r_low, .high = (slot_narrow - play_low) / r_high};
}

/* Each runner has its own play in its slot; a shift eats from the pair's common play, half of the sum. Geometry of two
   pins in two slots. */
double wood_pair_play(double left, double right, double shift)
{
    return fmin(fmin(left, right), (left + right) / 2 - fabs(shift));
}
