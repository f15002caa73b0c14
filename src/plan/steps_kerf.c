/* The other fence ties the base together, then the first kerf is sawn and stops short, at a block. */
#include "plan/step_writer.h"

#include "plan/sled.h"

#include <math.h>

static const struct step_figure off_point = {1, 1.0 / 32}; /* of the stop's screw above the slot's floor */
static const double first_kerf_share = 0.8;                /* of the travel */

/* In whole steps of the unit, so that both places of the stop, as printed, are so far apart. */
static double travel_left_after_first_kerf(const struct step_writer *w)
{
    const struct plan_travel *t = &w->s->travel;
    return sled_round_down((1 - first_kerf_share) * (t->edge_stop - t->edge_start), sled_least_edge_step(w->job->units));
}

/* Half the chord of a blade of radius r that stands `above` over a level, at that level. */
static double half_chord(double r, double above)
{
    return sqrt(above * (2 * r - above));
}

static void write_other_fence(struct step_writer *w)
{
    const struct plan_fence *f = &w->s->other;
    int n;
    const struct plan_hole *h = step_find_hole(w, PART_OTHER_FENCE, HOLE_FIXED, &n);
    bool flush = step_from_edge(w, f) < STEP_FLUSH_WITHIN;
    struct saying what =
        SAYING("step.other_fence.what.glue_only", SAY_STR("other", w->other), SAY_ARG("left", SAY_SIZE, -f->x0),
               SAY_KEY("glue", step_glue_of(w, PART_BASE, PART_OTHER_FENCE)));
    if (h) {
        what.key = flush ? "step.other_fence.what.flush" : "step.other_fence.what";
        what.arg[3] = (struct say_arg)SAY_KEY("edge", step_edge_key(f));
        what.arg[4] = (struct say_arg)SAY_ARG("n", SAY_COUNT_WORD, n);
        what.arg[5] = (struct say_arg)SAY_STR("screw", h->screw);
        what.arg[6] = (struct say_arg)SAY_STR("pilot", h->pilot_drill);
        if (!flush)
            what.arg[7] = (struct say_arg)SAY_ARG("v", SAY_SIZE, step_from_edge(w, f));
    }
    struct saying know = SAYING_PLAIN("step.other_fence.know.glue_only");
    if (h)
        know = SAYING("step.other_fence.know", SAY_ARG("depth", SAY_SIZE, h->screw_length));
    step_warn(step_add(w, step_letters(w, w->base, w->other, ""), what, know, SAYING_PLAIN("step.other_fence.why")),
              SIGNAL_WARNING, SAYING("step.other_fence.caution", SAY_ARG("strip", SAY_ABOUT, w->s->screw_free)));
}

/* The stop's screw: its point is sawn off, or it would meet the slot's floor. */
static void say_stop_screw(struct step_writer *w, struct say_arg *next)
{
    const struct plan_part *part = build_find_part(w->plan, PART_TRAVEL_STOP);
    *next++ = (struct say_arg)SAY_STR("screw", build_stop_screw(w->plan)->screw);
    *next++ = (struct say_arg)SAY_STR("pilot", build_stop_screw(w->plan)->pilot_drill);
    *next++ = (struct say_arg)SAY_ARG("from", SAY_SIZE, w->s->stop_length / 3); /* the middle of the cut */
    *next = (struct say_arg)SAY_ARG("short", SAY_SIZE, part->thickness - step_in_units(w, off_point));
}

/* The stop block stands first where the first kerf ends, then where the travel ends. */
static void write_first_stop(struct step_writer *w)
{
    const struct plan_travel *t = &w->s->travel;
    double left = travel_left_after_first_kerf(w), edge = t->edge_stop - left;
    struct saying what = SAYING("step.first_stop.what.outfeed", SAY_STR("stop", w->stop),
                                SAY_ARG("y", SAY_SIZE, w->s->stop_y - left), SAY_STR("base", w->base));
    if (w->s->stop_in_slot) {
        what.key = "step.first_stop.what";
        what.arg[2] = (struct say_arg)SAY_KEY("side", step_slot_key(w->s->stop_slot));
        say_stop_screw(w, &what.arg[3]);
    }
    step_add(
        w, w->stop, what,
        SAYING("step.first_stop.know", SAY_ARG("edge", SAY_SIZE, fabs(edge)), SAY_KEY("where", step_place_key(edge))),
        SAYING("step.first_stop.why", SAY_ARG("left", SAY_SIZE, left)));
}

static void write_first_blade(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    const struct plan_travel *t = &s->travel;
    double above = s->blade_above_work;
    struct saying know = SAYING_PLAIN("step.first_blade.know.no_knife");
    if (step_knife_stays(w))
        know = SAYING("step.first_blade.know", SAY_ARG("kerf", SAY_FIT, w->job->saw.blade.kerf.v));
    struct plan_step *step = step_add(
        w, w->base,
        SAYING("step.first_blade.what", SAY_ARG("parked", SAY_SIZE, fabs(t->edge_parked)),
               SAY_KEY("where", step_place_key(t->edge_parked)), SAY_ARG("height", SAY_SIZE, s->base_thickness + above),
               SAY_ARG("base", SAY_THICKNESS, s->base_thickness), SAY_ARG("above", SAY_SIZE, above)),
        know, SAYING_PLAIN("step.first_blade.why"));
    step_warn(step, SIGNAL_NOTICE, SAYING_PLAIN("step.first_blade.caution"));
}

/* Where the first kerf ends on the base's top, from its near edge. */
double step_first_kerf_end(const struct step_writer *w)
{
    const struct plan_travel *t = &w->s->travel;
    double edge = t->edge_stop - travel_left_after_first_kerf(w);
    return t->blade_axis_y - half_chord(t->blade_radius, w->s->blade_above_work) - edge;
}

static void write_first_kerf(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    double r = s->travel.blade_radius, above = s->blade_above_work, end = step_first_kerf_end(w);
    double below = end + half_chord(r, above) - half_chord(r, s->base_thickness + above);
    struct plan_step *step =
        step_add(w, step_letters(w, w->base, w->other, ""),
                 SAYING_PLAIN(w->far ? "step.first_kerf.what.far" : "step.first_kerf.what"),
                 SAYING("step.first_kerf.know", SAY_ARG("end", SAY_ABOUT, end), SAY_ARG("below", SAY_ABOUT, below)),
                 SAYING_PLAIN("step.first_kerf.why"));
    step_warn(step, SIGNAL_WARNING,
              SAYING(w->far ? "step.first_kerf.caution.far" : "step.first_kerf.caution",
                     SAY_ARG("strip", SAY_ABOUT, s->keep_out)));
}

const struct step_chapter steps_kerf = {
    .title = "stage.kerf",
    .write = {write_other_fence, write_first_stop, write_first_blade, write_first_kerf},
};
