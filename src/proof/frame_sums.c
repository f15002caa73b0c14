/* n pieces with a mitre of 180/n degrees at either end close to a full turn. Each of the 2 n cuts that is too large by
   e takes 2 n e out of that turn, and with n - 1 joints closed the last shows all of it:

        gap |\            over the leg m: gap - gap_other = m 2 n e, to first order in e
            | \ leg m     (2 n e = 8 degrees for e = 1 degree and four pieces: 0.3 % too small)

   From the angles of a polygon; checked by building frames in the tests. */
#include "proof/frame_sums.h"

double frame_sensitivity(int pieces, double leg)
{
    return 1 / (leg * 2 * pieces);
}

double frame_error(int pieces, double leg, double gap, double gap_other)
{
    return (gap - gap_other) * frame_sensitivity(pieces, leg);
}
