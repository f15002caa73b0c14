/* The base on its runners: glued in the slots of the saw itself, so that it runs true to them. */
#include "plan/step_writer.h"

#include "plan/sled.h"

#include <math.h>

static const struct step_figure proud = {0.7, 1.0 / 32}; /* runners above the table while they are glued */

/* A splitter stays up when the blade goes down: no base slides over it before its kerf is cut. */
static bool may_stay_up(enum knife_kind knife)
{
    return knife == KNIFE_SPLITTER || knife == KNIFE_NOT_STATED;
}

static void write_spacers(struct step_writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s), *free = step_free_of(w->s);
    double spacer = w->job->saw.slots.depth.v - guide->thickness + step_in_units(w, proud);
    struct saying what = SAYING("step.spacers.what.one", SAY_ARG("spacer", SAY_THICKNESS, spacer),
                                SAY_STR("guide", w->guide), SAY_KEY("side", step_slot_key(step_side_of(w->s, guide))));
    if (free) {
        what.key = "step.spacers.what.two";
        what.arg[3] = (struct say_arg)SAY_STR("free", w->free);
    }
    step_warn(
        step_add(w, step_letters(w, w->guide, w->free, ""), what,
                 SAYING(free ? "step.spacers.know" : "step.spacers.know.one",
                        SAY_ARG("proud", SAY_THICKNESS, step_in_units(w, proud))),
                 SAYING_PLAIN("step.spacers.why")),
        SIGNAL_WARNING,
        SAYING_PLAIN(may_stay_up(w->job->saw.knife.kind) ? "step.spacers.caution.splitter" : "step.spacers.caution"));
}

static void write_base_glue(struct step_writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s);
    bool one = !step_free_of(w->s);
    double wall = guide->slot_x - w->job->saw.slots.width.v / 2 - w->s->base_x0;
    struct saying what =
        SAYING(one ? "step.base_glue.what.one.flush" : "step.base_glue.what.flush", SAY_STR("base", w->base),
               SAY_KEY("side", step_slot_key(step_side_of(w->s, guide))), SAY_ARG("wall", SAY_SIZE, wall),
               SAY_KEY("glue", step_glue_of(w, PART_BASE, PART_GUIDE_RUNNER)));
    if (fabs(guide->v0) > STEP_FLUSH_WITHIN) {
        what.key = one ? "step.base_glue.what.one" : "step.base_glue.what";
        what.arg[4] = (struct say_arg)SAY_ARG("v", SAY_SIZE, guide->v0);
    }
    struct plan_step *step = step_add(w, step_letters(w, w->base, w->guide, w->free), what,
                                      SAYING("step.base_glue.know", SAY_ARG("wall", SAY_SIZE, wall),
                                             SAY_ARG("within", SAY_SIZE, step_sawn_within(w))),
                                      SAYING_PLAIN("step.base_glue.why"));
    step_warn(step, SIGNAL_NOTICE, SAYING_PLAIN("step.base_glue.caution"));
}

static void write_runner_screws(struct step_writer *w)
{
    int n_guide, n_free = 0;
    const struct plan_hole *guide = step_find_hole(w, PART_GUIDE_RUNNER, HOLE_FIXED, &n_guide), *free = NULL;
    if (*w->free)
        free = step_find_hole(w, PART_FREE_RUNNER, HOLE_FIXED, &n_free);
    const struct plan_hole *any = guide ? guide : free;
    if (!any)
        return;
    struct saying what = SAYING("step.runner_screws.what.one", SAY_STR("screw", any->screw), SAY_STR("one", any->part),
                                SAY_ARG("n", SAY_COUNT_WORD, guide ? n_guide : n_free),
                                SAY_ARG("depth", SAY_SIZE, any->screw_length), SAY_STR("pilot", any->pilot_drill));
    if (guide && free) {
        what.key = "step.runner_screws.what.two";
        what.arg[5] = (struct say_arg)SAY_STR("two", free->part);
        what.arg[6] = (struct say_arg)SAY_ARG("m", SAY_COUNT_WORD, n_free);
    }
    step_warn(step_add(w, step_letters(w, w->base, guide ? w->guide : "", free ? w->free : ""), what,
                       SAYING("step.runner_screws.know", SAY_ARG("tip", SAY_SIZE, any->tip)),
                       SAYING_PLAIN("step.runner_screws.why")),
              SIGNAL_NOTICE, SAYING("step.runner_screws.caution", SAY_STR("drill", any->clearance_drill)));
}

static void write_slide(struct step_writer *w)
{
    const struct job_tolerances *t = &w->job->tolerances;
    const struct plan_travel *travel = &w->s->travel;
    step_add(w, step_letters(w, w->guide, w->free, ""),
             SAYING(*w->free ? "step.slide.what.two" : "step.slide.what.one",
                    SAY_ARG("from", SAY_SIZE, fabs(travel->edge_parked)),
                    SAY_KEY("there", step_place_key(travel->edge_parked)),
                    SAY_ARG("to", SAY_SIZE, fabs(travel->edge_stop)),
                    SAY_KEY("where", step_place_key(travel->edge_stop))),
             SAYING("step.slide.know", SAY_ARG("low", SAY_FIT, t->side_play_low.v),
                    SAY_ARG("high", SAY_FIT, t->side_play_high.v)),
             SAYING_PLAIN("step.slide.why"));
}

const struct step_chapter steps_base = {
    .title = "stage.runners",
    .write = {write_spacers, write_base_glue, write_runner_screws, write_slide},
};
