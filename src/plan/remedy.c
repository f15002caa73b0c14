/* Remedies. Each check has a list of levers: see levers.h. A lever is tried on a copy of the job that is planned anew,
   in doubling steps until the check passes, then halved back to the least change; it is offered only if no other check
   comes off worse. So no formula is solved backward by hand here, and what a sheet tells someone to do has been tried.

   Checks are put right one after the other, each in a job in which those before it are put right already. */
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

/* The job as far as it is put right, and its plan. */
struct mending {
    const struct plan_builder *builder; /* the job as it is */
    struct job job;
    struct plan plan;
    bool wanted[CHECKS]; /* has a lever, does not pass in `plan`, has no remedy yet */
};

/* ---- the search ---- */

struct search {
    const struct mending *m;
    const struct lever *lever;
    bool mends[CHECKS]; /* these are to pass */
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

/* As far as the checks go; false: no sled. */
static bool plan_of(const struct job *job, struct plan *out)
{
    struct diags diags = {0};
    struct plan_builder b = {.job = job, .diags = &diags, .plan = out};
    bool made = sled_resolve(&b);

    if (made) {
        sled_list_parts(&b);
        sled_place_screws(&b);
        sled_check(&b);
    }
    diags_free(&diags);
    return made;
}

/* The whole job again with the lever at n; false: no sled. */
static bool plan_again(const struct search *s, double n, struct plan *out)
{
    struct job job = s->m->job;

    *out = (struct plan){0};
    s->lever->apply(&job, &out->pool, &s->m->plan, n);
    return plan_of(&job, out);
}

static bool passes(const struct search *s, const struct plan *p)
{
    for (int id = 0; id < CHECKS; id++) {
        const struct plan_check *c = s->mends[id] ? plan_find_check(p, (enum check_id)id) : NULL;
        if (s->mends[id] && (!c || c->verdict != VERDICT_PASS))
            return false;
    }
    return true;
}

/* One that is put right already must stay so; one whose turn comes later may get worse till then. */
static enum effect effect_on(const struct mending *m, enum check_id id, enum verdict before, enum verdict now)
{
    const struct plan_check *at_first = plan_find_check(m->builder->plan, id);
    bool was_open = at_first && at_first->verdict != VERDICT_PASS;

    if (now <= before)
        return EFFECT_CLEAN;
    if (m->wanted[id])
        return EFFECT_CAUTIONS;
    return was_open || now == VERDICT_FAIL ? EFFECT_USELESS : EFFECT_CAUTIONS;
}

static enum effect effect_of(const struct search *s, const struct plan *p)
{
    enum effect effect = passes(s, p) ? EFFECT_CLEAN : EFFECT_USELESS;

    for (size_t i = 0; i < p->n_checks; i++) {
        const struct plan_check *now = &p->checks[i], *was = plan_find_check(&s->m->plan, now->id);
        enum effect on = effect_on(s->m, now->id, was ? was->verdict : VERDICT_PASS, now->verdict);
        effect = on < effect ? on : effect;
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
    const struct job *job = &s->m->job;
    double now = s->lever->now(job, &s->m->plan), step = step_size(job, s->lever->step), start;
    long steps;

    if (isnan(now) || s->lever->direction == 0)
        return now;
    start = s->lever->direction > 0 ? sled_round_up(now, step) : sled_round_down(now, step);
    steps = find_least(s, start, step);
    return steps < 0 ? NAN : start + s->lever->direction * step * (double)steps;
}

static bool is_changed(const struct plan_fence *before, const struct plan_fence *after)
{
    return fabs(before->height - after->height) > 1e-9 || fabs(before->length - after->length) > 1e-9;
}

/* A fence whose layers have heights of their own says its height by the tallest of them. */
static const char *fence_path(struct pool *pool, const char *fence, bool length, const struct job_fence *wish)
{
    if (length)
        return pool_printf(pool, "jig.%s.length", fence);
    return wish->layers.heights ? pool_printf(pool, "jig.%s.layers, the tallest", fence)
                                : pool_printf(pool, "jig.%s.height", fence);
}

/* Which fences a lever changes: {which} in words, {paths} in the job file. */
static void say_fences(const struct search *s, const struct plan *p, struct saying *out, size_t n)
{
    const struct plan_sled *before = &s->m->plan.sled;
    const struct job_sled *wish = &s->m->job.jig.as.sled;
    struct pool *pool = &s->m->builder->plan->pool;
    bool one = is_changed(&before->reference, &p->sled.reference), other = is_changed(&before->other, &p->sled.other);
    bool length =
        fabs(before->reference.length - p->sled.reference.length) + fabs(before->other.length - p->sled.other.length) >
        1e-9;
    const char *paths = one ? fence_path(pool, "reference_fence", length, &wish->reference_fence) : "";

    if (other)
        paths = pool_printf(pool, "%s%s%s", paths, one ? " and " : "",
                            fence_path(pool, "other_fence", length, &wish->other_fence));
    out->arg[n] = (struct say_arg)SAY_KEY("which", one && other ? "fences.both"
                                                   : other      ? "fences.other"
                                                                : "fences.reference");
    out->arg[n + 1] = (struct say_arg)SAY_STR("paths", paths);
}

/* The wood and the air that a lever of theirs asks for. */
static void say_wood(const struct search *s, double number, struct saying *out, size_t n)
{
    struct pool *pool = &s->m->builder->plan->pool;
    struct job after = s->m->job;

    s->lever->apply(&after, pool, &s->m->plan, number);
    out->arg[n] = (struct say_arg)SAY_STR("id", lever_species(number));
    out->arg[n + 1] = (struct say_arg)SAY_KEY("species", pool_printf(pool, "material.%s", lever_species(number)));
    out->arg[n + 2] = (struct say_arg)SAY_ARG("dry", SAY_PERCENT, after.air.driest.humidity.v);
    out->arg[n + 3] = (struct say_arg)SAY_ARG("damp", SAY_PERCENT, after.air.dampest.humidity.v);
}

/* {number} is the lever's; the rest is what comes with it. */
static struct saying say_remedy(const struct search *s, double n, const struct plan *p)
{
    const struct job_stock *runner = sled_choose_stocks(&s->m->job).runner;
    const struct say_arg width = SAY_ARG("width", SAY_FIT, sled_guide(&p->sled)->width);
    const struct say_arg stock = SAY_STR("stock", runner ? runner->name : "");
    const struct say_arg depth = SAY_ARG("depth", SAY_SIZE, p->sled.base_depth);
    double other = lever_free_width(&s->m->job, p);
    struct saying said = SAYING(s->lever->key, SAY_ARG("number", s->lever->kind, n));

    switch (s->lever->says) {
    case SAYS_BASE:
        said.arg[1] = depth;
        said.arg[2] = (struct say_arg)SAY_ARG("left", SAY_SIZE, -p->sled.base_x0);
        break;
    case SAYS_GUARD:
        said.arg[1] = depth;
        said.arg[2] = (struct say_arg)SAY_ARG("edge", SAY_SIZE, p->sled.guard_v1);
        said.arg[3] = (struct say_arg)SAY_STR("fence", p->sled.reference.side == FENCE_NEAR ? "jig.reference_fence" : "jig.other_fence");
        break;
    case SAYS_FENCES:
        say_fences(s, p, &said, 1);
        break;
    case SAYS_RUNNERS:
        said.arg[1] = width;
        said.arg[2] = stock;
        said.arg[3] = (struct say_arg)SAY_ARG("free", SAY_FIT, isnan(other) ? 0 : other);
        break;
    case SAYS_WOOD:
        said.arg[1] = width;
        said.arg[2] = stock;
        say_wood(s, n, &said, 3);
        break;
    case SAYS_KNIFE:
        said.arg[1] = (struct say_arg)SAY_ARG("top", SAY_SIZE, lever_knife_top(&s->m->job, p));
        break;
    }
    return said;
}

/* What a lever comes to. */
struct attempt {
    enum effect effect;
    double number;
    struct saying remedy;
    const struct lever *lever;
};

static struct attempt try_lever(const struct search *s)
{
    struct attempt a = {EFFECT_USELESS, find_number(s), SAYING_PLAIN(NULL), s->lever};
    struct plan p;

    if (isnan(a.number))
        return a;
    if (plan_again(s, a.number, &p))
        a.effect = effect_of(s, &p);
    if (a.effect != EFFECT_USELESS)
        a.remedy = say_remedy(s, a.number, &p);
    plan_free(&p);
    return a;
}

/* The first lever without a new caution, else the first that works at all. */
static struct attempt find_remedy(const struct mending *m, enum check_id id)
{
    struct attempt best = {.effect = EFFECT_USELESS};
    struct search s = {.m = m};

    s.mends[id] = true;
    for (size_t i = 0; best.effect != EFFECT_CLEAN && (s.lever = lever_of(id, i)) != NULL; i++) {
        struct attempt a = try_lever(&s);
        if (a.effect > best.effect)
            best = a;
    }
    return best;
}

/* ---- one check after the other ---- */

static bool has_lever(enum check_id id, const struct lever *lever)
{
    const struct lever *own;

    for (size_t i = 0; (own = lever_of(id, i)) != NULL; i++)
        if (own == lever)
            return true;
    return false;
}

/* Turned until this check passes and all others pass that are still to be put right and could turn it themselves. Better
   only where it mends more than `most` together. */
static struct attempt try_together(const struct mending *m, enum check_id id, const struct lever *lever, int *most)
{
    struct search s = {.m = m, .lever = lever};
    struct attempt a = {.effect = EFFECT_USELESS};
    int n = 0;

    for (int i = 0; i < CHECKS; i++) {
        s.mends[i] = i == (int)id || (m->wanted[i] && has_lever((enum check_id)i, lever));
        n += s.mends[i];
    }
    if (n > *most)
        a = try_lever(&s);
    if (a.effect == EFFECT_CLEAN)
        *most = n;
    return a;
}

/* The one value that mends most checks together with this one; its own levers first, then those of the others, which are
   to be turned anyhow. Where there is none, the check's own remedy. */
static struct attempt find_widest_remedy(const struct mending *m, enum check_id id)
{
    struct attempt best = {.effect = EFFECT_USELESS};
    const struct lever *lever;
    int most = 1;

    for (int i = -1; i < CHECKS; i++) {
        enum check_id of = i < 0 ? id : (enum check_id)i;
        for (size_t k = 0; m->wanted[of] && (lever = lever_of(of, k)) != NULL; k++) {
            struct attempt a = try_together(m, id, lever, &most);
            if (a.effect == EFFECT_CLEAN)
                best = a;
        }
    }
    return best.effect == EFFECT_CLEAN ? best : find_remedy(m, id);
}

static struct plan_check *check_of(const struct plan_builder *b, int id)
{
    for (size_t i = 0; i < b->plan->n_checks; i++)
        if ((int)b->plan->checks[i].id == id)
            return &b->plan->checks[i];
    return NULL;
}

/* Does it, and tells it with all checks that pass then. */
static void do_remedy(struct mending *m, const struct attempt *a)
{
    struct plan after = {0};

    a->lever->apply(&m->job, &m->builder->plan->pool, &m->plan, a->number);
    if (!plan_of(&m->job, &after))
        return;
    plan_free(&m->plan);
    m->plan = after;
    for (int id = 0; id < CHECKS; id++) {
        const struct plan_check *now = m->wanted[id] ? plan_find_check(&m->plan, (enum check_id)id) : NULL;
        if (!now || now->verdict != VERDICT_PASS)
            continue;
        check_of(m->builder, id)->remedy = a->remedy;
        m->wanted[id] = false;
    }
}

static void put_right(struct mending *m, struct plan_check *c)
{
    struct attempt a = find_widest_remedy(m, c->id);

    if (a.effect != EFFECT_USELESS)
        do_remedy(m, &a);
    if (m->wanted[c->id])
        c->remedy = SAYING_PLAIN(plain_remedies[c->id]);
    m->wanted[c->id] = false;
}

void sled_find_remedies(struct plan_builder *b)
{
    struct mending m = {.builder = b, .job = *b->job};
    bool any = false;

    for (size_t i = 0; i < b->plan->n_checks; i++) {
        const struct plan_check *c = &b->plan->checks[i];
        m.wanted[c->id] = c->verdict != VERDICT_PASS && !c->remedy.key;
        any = any || m.wanted[c->id];
    }
    if (!any || !plan_of(&m.job, &m.plan)) {
        plan_free(&m.plan);
        return;
    }
    for (int round = 0; round < 3; round++) /* failures that hurt, other failures, cautions */
        for (size_t i = 0; i < b->plan->n_checks; i++) {
            struct plan_check *c = &b->plan->checks[i];
            int its = c->verdict == VERDICT_CAUTION ? 2 : c->hurts ? 0 : 1;
            if (m.wanted[c->id] && its == round)
                put_right(&m, c);
        }
    plan_free(&m.plan);
}
