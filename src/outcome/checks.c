/* The checks of plan and cutting as one list. */
#include "outcome/checks.h"

#include <math.h>
#include <string.h>

static enum check_id id_of(const struct cutting_finding *f)
{
    return strcmp(f->id, plan_check_name(CHECK_STOCK_FITS)) == 0 ? CHECK_STOCK_FITS : CHECK_STOCK_ENOUGH;
}

static struct plan_check check_of(const struct cutting_finding *f)
{
    enum check_id id = id_of(f);
    return (struct plan_check){
        .id = id,
        .value = f->value,
        .low = f->low,
        .high = NAN,
        .fail_low = NAN,
        .fail_high = NAN,
        .unit = id == CHECK_STOCK_FITS ? CHECK_MM : CHECK_COUNT,
        .verdict = f->verdict,
        .why = f->why,
        .remedy = f->remedy,
        .brief = SAYING_PLAIN(id == CHECK_STOCK_FITS         ? "check.stock_fits.short"
                              : f->verdict == VERDICT_FAIL ? "check.stock_enough.short"
                                                           : "check.stock_enough.short.unknown"),
        .mark = f->mark,
    };
}

/* The part that its stock is too small for by most; NULL: every part fits. */
static const struct cutting_finding *worst_misfit(const struct cutting *cutting)
{
    const struct cutting_finding *worst = NULL;
    for (size_t i = 0; cutting && i < cutting->n_findings; i++) {
        const struct cutting_finding *f = &cutting->findings[i];
        if (id_of(f) == CHECK_STOCK_FITS && (!worst || f->value < worst->value))
            worst = f;
    }
    return worst;
}

void outcome_list_checks(const struct plan *plan, const struct cutting *cutting, struct outcome *out)
{
    size_t most = plan->n_checks + (cutting ? cutting->n_findings : 0), n = 0;
    struct plan_check *checks = pool_alloc(&out->pool, (most + 1) * sizeof *checks);
    const struct cutting_finding *misfit = worst_misfit(cutting);
    for (size_t i = 0; i < plan->n_checks; i++)
        if (!misfit || plan->checks[i].id != CHECK_STOCK_FITS)
            checks[n++] = plan->checks[i];
    for (size_t i = 0; cutting && i < cutting->n_findings; i++)
        if (id_of(&cutting->findings[i]) != CHECK_STOCK_FITS)
            checks[n++] = check_of(&cutting->findings[i]);
    if (misfit)
        checks[n++] = check_of(misfit);
    out->checks = checks;
    out->n_checks = n;
}
