/* The board seen from above, its lower edge at a near fence, the offcut fallen to the right, so that the square stands
   against the fence's edge and the sawn edge at the board's right. The right end of the fence too far away by e leaves
   a corner of more than a right angle at the fence; the square's blade touches far from the fence and light shows near
   it:

        ________
       |        /|   the blade of the square touches here
       |       / |
       |______/  |   gap at the fence end = e length
       ====fence====                                                                                                */
#include "proof/square_gap_sums.h"

int square_gap_sign(enum fence_side fence, enum side offcut, enum edge_end end)
{
    int c = (fence == FENCE_NEAR) == (offcut == SIDE_RIGHT) ? 1 : -1;
    return end == EDGE_FENCE ? c : -c;
}
