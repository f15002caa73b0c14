/* The saw: slots are made where there are none, then everything is measured and set. */
#include "plan/step_writer.h"

#include "plan/sled.h"

static const struct step_figure left_below = {8, 5.0 / 16}; /* of a shop-made top under its slots: common practice */
static const struct step_figure too_deep = {0.2, 1.0 / 128}; /* that a routed slot may be: the spacers are cut to it */
static const struct step_figure fit_within = {0.05, 1.0 / 500}, place_within = {0.5, 1.0 / 64},
                                size_within = {1, 1.0 / 32}; /* of what the plan is worked from */

/* A shop-made top: where its slots go. */
static void write_mark_slots(struct step_writer *w)
{
    struct say_arg thick =
        SAY_ARG("thick", SAY_SIZE, sled_round_up(w->job->saw.slots_to_make.depth.v + step_in_units(w, left_below),
                                                 sled_least_edge_step(w->job->units)));
    const struct job_slots *slots = &w->job->saw.slots;
    if (!w->job->saw.slots_to_make.given)
        return;
    struct saying what = SAYING("step.mark_slots.what.two", SAY_ARG("left", SAY_SIZE, slots->left.v),
                                SAY_ARG("right", SAY_SIZE, slots->right.v), thick);
    if (!slots->left.given || !slots->right.given)
        what = SAYING("step.mark_slots.what.one", SAY_KEY("side", slots->left.given ? "side.left" : "side.right"),
                      SAY_ARG("at", SAY_SIZE, slots->left.given ? slots->left.v : slots->right.v), thick);
    step_warn(step_add(w, "", what, SAYING_PLAIN("step.mark_slots.know"), SAYING_PLAIN("step.saw_read.why")),
              SIGNAL_WARNING, SAYING_PLAIN("step.saw_read.caution"));
}

/* Slots are routed along a guide before anything is measured from them. Seen from above a bit turns clockwise: pushed
   forward it draws to its left, against the guide. The groove farthest to the right comes first, so that the later ones take
   new wood on the bit's left, where the teeth move forward with the router and the wood holds it back; on the right it would
   climb and run off. Common practice, no source. */
static void write_route(struct step_writer *w)
{
    const struct job_slots_to_make *m = &w->job->saw.slots_to_make;
    const struct job_slots *slots = &w->job->saw.slots;
    if (!m->given)
        return;
    const struct plan_routing r = w->s->routing;
    bool both = slots->left.given && slots->right.given;
    struct saying what = SAYING("step.route.what", SAY_KEY("slots", both ? "slots.both" : "slots.one"),
                                SAY_ARG("bit", SAY_THICKNESS, m->bit.v), SAY_ARG("guide", SAY_THICKNESS, r.guide_least),
                                SAY_ARG("deep", SAY_COUNT_WORD, r.deep), SAY_ARG("each", SAY_THICKNESS, r.each));
    if (r.across > 1) {
        what.key = r.across == 2 ? "step.route.what.two" : "step.route.what.many";
        what.arg[5] = (struct say_arg)SAY_ARG("last", SAY_THICKNESS, r.guide_most);
        what.arg[6] = (struct say_arg)SAY_ARG("apart", SAY_THICKNESS, r.apart);
    }
    if (r.across > 2)
        what.arg[7] = (struct say_arg)SAY_ARG("across", SAY_COUNT_WORD, r.across);
    step_warn(step_add(w, "", what,
                       SAYING("step.route.know", SAY_ARG("width", SAY_THICKNESS, m->width.v),
                              SAY_ARG("depth", SAY_THICKNESS, m->depth.v),
                              SAY_ARG("more", SAY_THICKNESS, step_in_units(w, too_deep))),
                       SAYING_PLAIN("step.route.why")),
              SIGNAL_WARNING, SAYING_PLAIN("step.route.caution"));
}

static void write_line_slots(struct step_writer *w)
{
    const struct job_profile *p = &w->job->saw.slots_to_make.profile;
    if (!w->job->saw.slots_to_make.given || !p->given)
        return;
    step_add(w, "",
             SAYING("step.line_slots.what", SAY_ARG("width", SAY_THICKNESS, p->outer_width.v),
                    SAY_ARG("height", SAY_THICKNESS, p->outer_height.v),
                    SAY_ARG("long", SAY_SIZE, w->job->saw.table.depth.v)),
             SAYING("step.line_slots.know", SAY_ARG("sunk", SAY_THICKNESS, w->s->routing.sunk),
                    SAY_ARG("inner", SAY_FIT, p->inner_width.v), SAY_ARG("depth", SAY_FIT, w->job->saw.slots.depth.v)),
             SAYING_PLAIN("step.line_slots.why"));
}

static void write_saw_read(struct step_writer *w)
{
    const struct job_slots *slots = &w->job->saw.slots;
    bool two = slots->left.given && slots->right.given, even = slots->width_widest.v - slots->width.v < 0.005;
    static const char *const keys[2][2] = {
        {"step.saw_read.what.one", "step.saw_read.what.one.even"},
        {"step.saw_read.what.two", "step.saw_read.what.two.even"},
    };
    struct saying what =
        SAYING(keys[two][even], SAY_ARG("narrow", SAY_FIT, slots->width.v), SAY_ARG("depth", SAY_FIT, slots->depth.v));
    struct say_arg *next = &what.arg[2];
    if (two) {
        *next++ = (struct say_arg)SAY_ARG("left", SAY_SIZE, slots->left.v);
        *next++ = (struct say_arg)SAY_ARG("right", SAY_SIZE, slots->right.v);
    } else {
        *next++ = (struct say_arg)SAY_ARG("at", SAY_SIZE, slots->left.given ? slots->left.v : slots->right.v);
        *next++ = (struct say_arg)SAY_KEY("side", slots->left.given ? "side.left" : "side.right");
    }
    if (!even)
        *next = (struct say_arg)SAY_ARG("wide", SAY_FIT, slots->width_widest.v);
    struct saying know = SAYING("step.saw_read.know", SAY_ARG("fit", SAY_FIT, step_in_units(w, fit_within)),
                                SAY_ARG("within", SAY_SIZE, step_in_units(w, place_within)));
    step_warn(step_add(w, "", what, know, SAYING_PLAIN("step.saw_read.why")), SIGNAL_WARNING, SAYING_PLAIN("step.saw_read.caution"));
}

/* What travel, stop and guard hang on. */
static void write_saw_sizes(struct step_writer *w)
{
    const struct job_saw *saw = &w->job->saw;
    struct saying what = SAYING("step.saw_sizes.what", SAY_ARG("diameter", SAY_SIZE, saw->blade.diameter.v),
                                SAY_ARG("kerf", SAY_FIT, saw->blade.kerf.v), SAY_ARG("highest", SAY_SIZE, saw->blade.highest.v),
                                SAY_ARG("axis", SAY_SIZE, saw->table.front_edge.v), SAY_ARG("depth", SAY_SIZE, saw->table.depth.v));
    if (saw->knife.thickness.given) {
        what.key = "step.saw_sizes.what.knife";
        what.arg[5] = (struct say_arg)SAY_ARG("knife", SAY_FIT, saw->knife.thickness.v);
    }
    step_add(w, "", what,
             SAYING("step.saw_sizes.know", SAY_ARG("fit", SAY_FIT, step_in_units(w, fit_within)),
                    SAY_ARG("within", SAY_SIZE, step_in_units(w, size_within))),
             SAYING_PLAIN("step.saw_sizes.why"));
}

static void write_saw_true(struct step_writer *w)
{
    const struct job_limit *slot = &w->job->tolerances.slot;
    step_add(w, "",
             SAYING("step.saw_true.what", SAY_ARG("error", SAY_LIMIT, slot->error.v),
                    SAY_ARG("over", SAY_SIZE, slot->over.v)),
             SAYING_PLAIN("step.saw_true.know"), SAYING_PLAIN("step.saw_true.why"));
}

const struct step_chapter steps_saw = {
    .title = "stage.saw",
    .write = {write_mark_slots, write_route, write_line_slots, write_saw_read, write_saw_sizes, write_saw_true},
};
