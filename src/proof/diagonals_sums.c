/* A parallelogram of width w along the fence and depth d, whose near-left corner is larger than 90 degrees by phi:

      far left +-----------+ far right      d1^2 = (w - d sin phi)^2 + (d cos phi)^2
                \           \               d2^2 = (w + d sin phi)^2 + (d cos phi)^2
       near left +-----------+ near right   d2^2 - d1^2 = 4 w d sin phi

   The law of cosines; phi is put for its sine (1 degree: 0.005 % off). */
#include "proof/diagonals_sums.h"

#include <math.h>

double diagonals_error(double width, double depth, double d1, double d2)
{
    return (d2 - d1) * (d2 + d1) / (4 * width * depth);
}

double diagonals_sensitivity(double width, double depth, double d1, double d2)
{
    return (d2 + d1) / (4 * width * depth);
}

bool diagonals_disagree(double differ, double step, double across, double tolerance)
{
    const double share = 0.25; /* judgement */
    return fabs(differ) > step * (1 + 1e-9) && fabs(differ) / (2 * across) > share * tolerance;
}
