/* Limits on either side are judged as one: the error is a play less the middle of the limits, the tolerance half the
   distance between them, so that error + tolerance > 0 and error - tolerance < 0 say low < play < high. Of several
   places the worst decides, since the sled runs over all of them. */
#include "proof/side_play_sums.h"

#include <assert.h>
#include <math.h>

size_t side_play_worst(const double *plays, size_t n, double low, double high)
{
    assert(n >= 1 && "a test has a reading");
    size_t worst = 0;
    for (size_t i = 1; i < n; i++)
        if (fabs(plays[i] - (low + high) / 2) > fabs(plays[worst] - (low + high) / 2))
            worst = i;
    return worst;
}

double side_play_yaw(double play, double engaged)
{
    return play / engaged;
}
