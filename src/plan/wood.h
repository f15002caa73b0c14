/* plan/wood.h: moisture and movement of wood, and what they do to the fit of runners: pure functions of numbers.
   Owns nothing. Private to src/plan. Moisture contents in per cent of the oven-dry mass. */
#ifndef FETTLE_PLAN_WOOD_H
#define FETTLE_PLAN_WOOD_H

#include <stdbool.h>

#define WOOD_FIBRE_SATURATION 30.0 /* per cent: Wood Handbook, chapter 4: no shrinkage above it */

/* Moisture content that wood comes to in air of that temperature [Celsius] and relative humidity [per cent]. */
double wood_equilibrium(double temperature, double humidity);
/* Size at moisture content `to` as a share of the size at `from`; S: shrinkage green to oven-dry [per cent]. */
double wood_ratio(double shrinkage, double from, double to);
/* Change of size [share of the size at `from`] for one per cent of moisture content. */
double wood_per_percent(double shrinkage, double from);
/* Dimensional change coefficient C of Wood Handbook table 13-5: per 1 % about 10 % moisture content. */
double wood_coefficient(double shrinkage);
/* Change of a panel's size by its own coefficient: share per 10 % relative humidity. */
double wood_panel_ratio(double movement, double humidity_from, double humidity_to);

/* Widths a runner may have today so that its side play stays within low to high all year. */
struct width_range {
    double low, high; /* low > high: no width does */
};
/* r_low, r_high: least and greatest width over the year as shares of today's, so r_low <= 1 <= r_high. */
struct width_range wood_runner_widths(double slot_narrow, double slot_wide, double play_low, double play_high, double r_low,
                                      double r_high);
/* Least play of two runners whose slots and runners have moved apart by `shift`: p_left, p_right the play of each. */
double wood_pair_play(double left, double right, double shift);

#endif
