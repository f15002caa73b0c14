/* Build sheet, section "Cutting layout": which sheets and strips to take, what to set the fence to, which cuts in which
   order, what is left. */
#include "sheet/kinds.h"

void sheet_add_cutting(const struct sheet_builder *b, struct block_list *list)
{
    (void)b;
    (void)list;
}
