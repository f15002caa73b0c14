/* outcome/checks.h: the checks of plan and cutting as one list. Private to src/outcome. */
#ifndef FETTLE_OUTCOME_CHECKS_H
#define FETTLE_OUTCOME_CHECKS_H

#include "outcome.h"

/* The plan's checks in their order, then the cutting's (NULL: none). Both say stock_fits: the cutting knows what else lies
   on a sheet and which offcuts there are, so the worst of its misfits stands in place of the plan's; where it has none the
   plan's stays. */
void outcome_list_checks(const struct plan *, const struct cutting *, struct outcome *out);

#endif
