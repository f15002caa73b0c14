/* Remedies. Each check has a list of levers: see levers.h. A lever is tried on a copy of the job that is planned anew, in
   doubling steps until the check passes, then halved back to the least change; it is offered only if no other check comes
   off worse. So no formula is solved backward by hand here, and what a sheet tells someone to write into the job has been
   tried. */
#include "plan/remedy.h"

#include "plan/levers.h"
#include "plan/sled.h"

#include <math.h>

/* Where no number helps. */
static const char *const plain_remedies[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = "check." name ".remedy",
#include "plan/checks.inc"
#undef CHECK
};

/* ---- the search ---- */

struct search {
    const struct plan_builder *builder;
    const struct plan_check *check;
    const struct lever *lever;
};

/* What a lever's number does to the other checks. */
enum effect { EFFECT_USELESS, EFFECT_CAUTIONS /* some come to a caution */, EFFECT_CLEAN };

static double step_size(const struct job *j, enum lever_step step)
{
    switch (step) {
    case STEP_SIZE:
        return sled_least_edge_step(j->units);
    case STEP_FIT:
        return lever_fit_step(j);
    case STEP_COUNT:
        return 1;
    case STEP_TENTH:
        break;
    }
    return j->units == UNITS_IN ? MM_PER_INCH / 64 : 0.1;
}

/* The whole job again with the lever at n; false: no sled. */
static bool plan_again(const struct search *s, double n, struct plan *out)
{
    struct job job = *s->builder->job;
    struct diags diags = {0};
    struct plan_builder b = {.job = &job, .diags = &diags, .plan = out};
    bool made;

    *out = (struct plan){0};
    s->lever->apply(&job, &out->pool, s->builder->plan, n);
    made = sled_resolve(&b);
    if (made) {
        sled_list_parts(&b);
        sled_place_screws(&b);
        sled_check(&b);
    }
    diags_free(&diags);
    return made;
}

static bool passes(const struct search *s, const struct plan *p)
{
    const struct plan_check *c = plan_find_check(p, s->check->id);

    return c && c->verdict == VERDICT_PASS;
}

static enum effect effect_of(const struct search *s, const struct plan *p)
{
    enum effect effect = passes(s, p) ? EFFECT_CLEAN : EFFECT_USELESS;

    for (size_t i = 0; i < p->n_checks; i++) {
        const struct plan_check *now = &p->checks[i], *was = plan_find_check(s->builder->plan, now->id);
        enum verdict before = was ? was->verdict : VERDICT_PASS;
        if (now->verdict > before && now->verdict == VERDICT_FAIL)
            effect = EFFECT_USELESS;
        else if (now->verdict > before && effect == EFFECT_CLEAN)
            effect = EFFECT_CAUTIONS;
    }
    return effect;
}

static bool passes_at(const struct search *s, double n)
{
    struct plan p;
    bool good = plan_again(s, n, &p) && passes(s, &p);

    plan_free(&p);
    return good;
}

/* Number of steps k from `start` to the least change that makes the check pass; negative: none found. */
static long find_least(const struct search *s, double start, double step)
{
    double room = s->lever->direction > 0 ? s->lever->most - start : start - s->lever->least;
    long most = (long)floor(room / step + 1e-6), fails = -1, good = 0;

    while (good <= most && !passes_at(s, start + s->lever->direction * step * (double)good)) {
        fails = good;
        good = good ? 2 * good : 1;
    }
    if (good > most)
        return -1;
    while (good - fails > 1) {
        long middle = fails + (good - fails) / 2;
        if (passes_at(s, start + s->lever->direction * step * (double)middle))
            good = middle;
        else
            fails = middle;
    }
    return good;
}

static double find_number(const struct search *s)
{
    const struct job *job = s->builder->job;
    double now = s->lever->now(job, s->builder->plan), step = step_size(job, s->lever->step), start;
    long steps;

    if (isnan(now) || s->lever->direction == 0)
        return now;
    start = s->lever->direction > 0 ? sled_round_up(now, step) : sled_round_down(now, step);
    steps = find_least(s, start, step);
    return steps < 0 ? NAN : start + s->lever->direction * step * (double)steps;
}

/* {number} is the lever's; the rest is what comes with it. */
static struct saying say_remedy(const struct search *s, double n, const struct plan *p)
{
    const struct job_stock *runner = sled_choose_stocks(s->builder->job).runner;
    double other = lever_free_width(s->builder->job, p);

    return SAYING(s->lever->key, SAY_ARG("number", s->lever->kind, n), SAY_ARG("edge", SAY_SIZE, p->sled.guard_v1),
                  SAY_ARG("depth", SAY_SIZE, p->sled.base_depth), SAY_ARG("left", SAY_SIZE, -p->sled.base_x0),
                  SAY_ARG("width", SAY_FIT, sled_guide(&p->sled)->width),
                  SAY_ARG("free", SAY_FIT, isnan(other) ? 0 : other), SAY_STR("stock", runner ? runner->name : ""),
                  SAY_ARG("top", SAY_SIZE, lever_knife_top(s->builder->job, p)));
}

static enum effect try_lever(const struct search *s, struct saying *out)
{
    double n = find_number(s);
    enum effect effect = EFFECT_USELESS;
    struct plan p;

    if (isnan(n))
        return EFFECT_USELESS;
    if (plan_again(s, n, &p))
        effect = effect_of(s, &p);
    if (effect != EFFECT_USELESS)
        *out = say_remedy(s, n, &p);
    plan_free(&p);
    return effect;
}

/* The first lever without a new caution, else the first that works at all. */
static struct saying find_remedy(const struct plan_builder *b, const struct plan_check *c)
{
    struct saying best = SAYING_PLAIN(plain_remedies[c->id]), next;
    enum effect reached = EFFECT_USELESS;

    const struct lever *lever;

    for (size_t i = 0; (lever = lever_of(c->id, i)) != NULL; i++) {
        struct search s = {b, c, lever};
        enum effect effect = try_lever(&s, &next);
        if (effect > reached) {
            reached = effect;
            best = next;
        }
        if (reached == EFFECT_CLEAN)
            break;
    }
    return best;
}

void sled_find_remedies(struct plan_builder *b)
{
    for (size_t i = 0; i < b->plan->n_checks; i++) {
        struct plan_check *c = &b->plan->checks[i];
        if (c->verdict != VERDICT_PASS && !c->remedy.key)
            c->remedy = find_remedy(b, c);
    }
}
