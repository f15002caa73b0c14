/* diagonals_sums.h: the sums of two diagonals, as pure functions of numbers. Lengths mm, angles rad. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_DIAGONALS_SUMS_H
#define FETTLE_PROOF_DIAGONALS_SUMS_H

#include <stdbool.h>

/* phi = (d2^2 - d1^2)/(4 width depth): how much the near-left corner is larger than 90 degrees. d1 from the near left
   to the far right, d2 from the near right to the far left. */
double diagonals_error(double width, double depth, double d1, double d2);

/* What one mm of difference between the diagonals makes of it [rad/mm]. */
double diagonals_sensitivity(double width, double depth, double d1, double d2);
/* Two sides that should be alike differ by more than a step of the tool, and lean the sides between them, `across`
   long, by more than a quarter of the tolerance: then the corners are not alike, and diagonals say nothing of any one.
   NAN: not known, so not seen to disagree. */
bool diagonals_disagree(double differ, double step, double across, double tolerance);

#endif
