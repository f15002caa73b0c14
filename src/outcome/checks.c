/* The checks of plan and cutting as one list. */
#include "outcome/checks.h"

#include <math.h>
#include <string.h>

static enum check_id id_of(const struct cutting_finding *f)
{
    return strcmp(f->id, plan_check_name(CHECK_STOCK_FITS)) == 0 ? CHECK_STOCK_FITS : CHECK_STOCK_ENOUGH;
}

static struct saying with_words(const struct cutting_finding *f, const char *key)
{
    struct saying s = f->why;
    s.key = key;
    return s;
}

static struct plan_check check_of(const struct cutting_finding *f)
{
    bool fits = id_of(f) == CHECK_STOCK_FITS;
    return (struct plan_check){
        .id = id_of(f),
        .value = f->value,
        .low = f->low,
        .high = NAN,
        .fail_low = NAN,
        .fail_high = NAN,
        .unit = fits ? CHECK_MM : CHECK_COUNT,
        .verdict = f->verdict,
        .what = with_words(f, fits ? "check.stock_fits.title" : "check.stock_enough.title"),
        .why = f->why,
        .remedy = f->remedy,
        .brief = with_words(f, fits                             ? "check.stock_fits.short"
                               : f->verdict == VERDICT_FAIL ? "check.stock_enough.short"
                                                            : "check.stock_enough.short.unknown"),
        .mark = f->mark,
    };
}

/* ---- parts larger than their stock ---- */

static struct say_arg *find_argument(struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return &s->arg[i];
    return NULL;
}

static bool same_stock(struct saying *a, struct saying *b)
{
    const struct say_arg *of_a = find_argument(a, "stock"), *of_b = find_argument(b, "stock");
    return a->key && b->key && strcmp(a->key, b->key) == 0 && of_a && of_b && strcmp(of_a->text, of_b->text) == 0;
}

/* One remedy for two parts of one stock: its greater sizes serve both. */
static void take_greater(struct pool *pool, struct saying *s, struct saying *with)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++) {
        const struct say_arg *other = find_argument(with, s->arg[i].name);
        if (!other)
            continue;
        if (strcmp(s->arg[i].name, "part") == 0)
            s->arg[i].text = pool_printf(pool, "%s, %s", s->arg[i].text, other->text);
        else
            s->arg[i].number = fmax(s->arg[i].number, other->number);
    }
}

/* Larger stock that serves all parts which do not fit it, told alike for each. */
static struct saying remedy_for_all(struct pool *pool, const struct cutting *cutting, const struct cutting_finding *f)
{
    struct saying all = {0}, own = f->remedy;
    for (size_t i = 0; i < cutting->n_findings; i++) {
        struct saying next = cutting->findings[i].remedy;
        if (id_of(&cutting->findings[i]) != CHECK_STOCK_FITS || !same_stock(&next, &own))
            continue;
        if (all.key)
            take_greater(pool, &all, &next);
        else
            all = next;
    }
    return all;
}

static bool has_misfit(const struct cutting *cutting)
{
    for (size_t i = 0; cutting && i < cutting->n_findings; i++)
        if (id_of(&cutting->findings[i]) == CHECK_STOCK_FITS)
            return true;
    return false;
}

/* The cutting lays out what the plan only measures: its findings take the place of the plan's. Each part that does not
   fit is a check of its own. */
void outcome_list_checks(const struct plan *plan, const struct cutting *cutting, struct outcome *out)
{
    size_t most = plan->n_checks + (cutting ? cutting->n_findings : 0), n = 0;
    struct plan_check *checks = pool_alloc(&out->pool, (most + 1) * sizeof *checks);
    for (size_t i = 0; i < plan->n_checks; i++)
        if (!has_misfit(cutting) || plan->checks[i].id != CHECK_STOCK_FITS)
            checks[n++] = plan->checks[i];
    for (size_t i = 0; cutting && i < cutting->n_findings; i++) {
        checks[n] = check_of(&cutting->findings[i]);
        if (checks[n].id == CHECK_STOCK_FITS)
            checks[n].remedy = remedy_for_all(&out->pool, cutting, &cutting->findings[i]);
        n++;
    }
    out->checks = checks;
    out->n_checks = n;
}
