/* The cautions for whoever uses the sled, most needed first: the wall sheet prints the first three in full and the others
   by their titles. Each is a usual caution of the trade, its source beside it. */
#include "plan/build.h"
#include "plan/sled.h"

/* Makers' manuals: no hand-held crosscuts of pieces under 6 in (150 mm). */
double sled_clamp_below(enum units units)
{
    return units == UNITS_IN ? 6 * MM_PER_INCH : 150;
}

static bool is_near(const struct job *job, const struct plan *plan)
{
    (void)job;
    return plan->sled.reference.side == FENCE_NEAR;
}

static bool is_far(const struct job *job, const struct plan *plan)
{
    return !is_near(job, plan);
}

static bool has_no_guard(const struct job *job, const struct plan *plan)
{
    (void)job;
    return !build_find_part(plan, PART_EXIT_GUARD);
}

static bool knife_is_unknown(const struct job *job, const struct plan *plan)
{
    (void)plan;
    return job->saw.knife.kind == KNIFE_NOT_STATED;
}

/* A knife that failed its check does not pass the kerf: the check says what to do. */
static bool knife_passes(const struct job *job, const struct plan *plan)
{
    const struct plan_check *c = plan_find_check(plan, CHECK_RIVING_KNIFE);
    return job->saw.knife.kind == KNIFE_RIVING && !(c && c->verdict == VERDICT_FAIL);
}

/* A hand that leans on it tips it, common practice, no source. */
static bool is_light_when_parked(const struct job *job, const struct plan *plan)
{
    return sled_tip_parked(job, &plan->sled).force < SLED_HAND_FORCE;
}

/* The arguments of a text, besides none. */
enum { ARG_STRIP = 1, ARG_CLAMP = 2, ARG_KERF = 4 };

/* In order of need: the first that holds is the most needed. holds NULL: always. */
#define TEXTS(key) "caution." key, "caution." key ".title"
static const struct caution_row {
    enum signal signal;
    const char *text, *title;
    unsigned text_args, title_args;
    bool (*holds)(const struct job *, const struct plan *);
} rows[] = {
    /* common practice: a solid block behind the fence, hands off it */
    {SIGNAL_DANGER, TEXTS("behind_fence"), 0, 0, is_near},
    /* OSHA eTool Table Saws: hands out of the line of cut */
    {SIGNAL_DANGER, TEXTS("bare_blade"), ARG_STRIP, 0, is_far},
    /* 29 CFR 1910.213(d)(1) */
    {SIGNAL_WARNING, TEXTS("no_guard"), 0, 0, has_no_guard},
    /* common practice, no source */
    {SIGNAL_WARNING, TEXTS("push_far"), 0, 0, is_far},
    /* makers' manuals: wait until the blade stands still */
    {SIGNAL_WARNING, TEXTS("to_stop"), 0, 0, NULL},
    /* makers' manuals: no rip fence or stop on the falling piece */
    {SIGNAL_WARNING, TEXTS("offcut"), 0, 0, NULL},
    /* OSHA eTool Table Saws; marking it: common practice */
    {SIGNAL_WARNING, TEXTS("strip"), ARG_STRIP, ARG_STRIP, is_near},
    /* makers' manuals: 6 in */
    {SIGNAL_WARNING, TEXTS("short_work"), ARG_CLAMP, ARG_CLAMP, NULL},
    /* 29 CFR 1910.147, from memory */
    {SIGNAL_WARNING, TEXTS("unplug"), 0, 0, NULL},
    /* 29 CFR 1910.213(d)(1); refit: its (c)(2), from memory */
    {SIGNAL_WARNING, TEXTS("hood"), 0, 0, NULL},
    /* 29 CFR 1910.213(s); other cutter: common practice */
    {SIGNAL_WARNING, TEXTS("upright"), ARG_KERF, ARG_KERF, NULL},
    /* HSE, circular saw bench */
    {SIGNAL_WARNING, TEXTS("knife_on"), 0, 0, knife_passes},
    /* judgement */
    {SIGNAL_WARNING, TEXTS("knife_try"), 0, 0, knife_is_unknown},
    /* makers' manuals */
    {SIGNAL_WARNING, TEXTS("beside"), 0, 0, NULL},
    /* common practice, no source */
    {SIGNAL_WARNING, TEXTS("metal"), 0, 0, NULL},
    /* HSE, noise and wood dust; 29 CFR 1910.133, from memory */
    {SIGNAL_CAUTION, TEXTS("eyes"), 0, 0, NULL},
    {SIGNAL_CAUTION, TEXTS("parked_light"), 0, 0, is_light_when_parked},
    /* HSE, circular saw bench */
    {SIGNAL_CAUTION, TEXTS("long_work"), 0, 0, NULL},
    /* makers' manuals; gloves: common practice */
    {SIGNAL_CAUTION, TEXTS("gloves"), 0, 0, NULL},
    /* judgement */
    {SIGNAL_NOTICE, TEXTS("knock"), 0, 0, NULL},
};
#undef TEXTS

static struct saying say_with(const char *key, unsigned args, const struct plan_builder *b)
{
    struct saying s = SAYING_PLAIN(key);
    size_t n = 0;
    if (args & ARG_STRIP)
        s.arg[n++] = (struct say_arg)SAY_ARG("strip", SAY_ABOUT, b->plan->sled.keep_out);
    if (args & ARG_CLAMP)
        s.arg[n++] = (struct say_arg)SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(b->job->units));
    if (args & ARG_KERF)
        s.arg[n++] = (struct say_arg)SAY_ARG("kerf", SAY_FIT, b->job->saw.blade.kerf.v);
    return s;
}

void sled_write_cautions(struct plan_builder *b)
{
    struct plan *plan = b->plan;
    size_t n_rows = sizeof rows / sizeof *rows;
    plan->cautions = pool_alloc(&plan->pool, n_rows * sizeof *plan->cautions);
    plan->n_cautions = 0;
    for (size_t i = 0; i < n_rows; i++) {
        const struct caution_row *row = &rows[i];
        if (row->holds && !row->holds(b->job, plan))
            continue;
        plan->cautions[plan->n_cautions++] = (struct plan_caution){.signal = row->signal, .rank = (int)i,
                                                                   .text = say_with(row->text, row->text_args, b),
                                                                   .title = say_with(row->title, row->title_args, b)};
    }
}
