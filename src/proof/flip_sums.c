/* The board seen from the operator's place; the blade leans by e, so both sawn faces do. The left half, rolled over
   about a line to the left and right, leans the other way, and the faces part at the top by 2 height tan e:

        left half  \/  right half          gap = 2 height e, to first order in e
        _________ / / _________                                                                                    */
#include "proof/flip_sums.h"

int flip_sign(enum open_at open, enum side turned)
{
    return (open == OPEN_TOP) == (turned == SIDE_LEFT) ? 1 : -1;
}

double flip_lean(double gap, double height)
{
    return gap / (2 * height);
}

double flip_usual_height(enum units units)
{
    return units == UNITS_IN ? 2.5 * MM_PER_INCH : 60;
}
