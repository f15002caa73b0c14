/* Seen from above, dial in the right slot: the reading grows as the plunger goes in, and it goes in where the blade
   stands nearer to the slot.

        back    blade \      <-o dial       back - front = span e for a back that is e to the right
                       |
        front          |     <-o                                                                                    */
#include "proof/slot_parallel_sums.h"

int slot_parallel_sign(enum side slot)
{
    return slot == SIDE_RIGHT ? 1 : -1;
}
