/* A key of the jig stands `g` beside the cutter; the slot last cut sits on it, so that

      finger = g,  pitch = g + slot,  fit = slot - finger

   A key moved toward the cutter by d: finger - d, pitch - d, fit + d. A cutter wider by d, which cuts that much more on
   the far side: pitch + d, finger the same, fit + d. So pitch and fit together say whether the key or the cutter is
   wrong. Geometry; the relations are worked in the tests by cutting rows of fingers. */
#include "proof/box_joint_sums.h"

#include <math.h>

double box_joint_pitch(int fingers, double got, double finger)
{
    return (got - finger) / (fingers - 1);
}

static bool is_fit(double c, double slack)
{
    return c >= BOX_FIT_LOW - slack && c <= BOX_FIT_HIGH + slack;
}

/* Pitch asks for `error` toward the cutter, fit for what makes it the middle of its limits. Where one move serves both,
   the key is moved; where none does, key and cutter share the two differences: e - m + k = 0 and c + m + k = middle. */
struct box_remedy box_joint_remedy(double error, double error_u, double tolerance, double fit, double fit_u)
{
    const double middle = (BOX_FIT_LOW + BOX_FIT_HIGH) / 2;
    bool pitch_asks = fabs(error) > tolerance && fabs(error) > error_u;
    double by_pitch = pitch_asks ? error : 0;
    if (isnan(fit) || is_fit(fit + by_pitch, fit_u))
        return (struct box_remedy){pitch_asks ? BOX_MOVE_KEY : BOX_LEAVE, by_pitch, fit + by_pitch, 0};
    double by_fit = middle - fit;
    if (fabs(error - by_fit) <= tolerance)
        return (struct box_remedy){BOX_MOVE_KEY, by_fit, middle, 0};
    return (struct box_remedy){BOX_CHANGE_CUTTER, (by_fit + error) / 2, middle, (by_fit - error) / 2};
}
