/* The reference fence is set square to the first kerf, the stop to its place; then the kerf is sawn through. */
#include "plan/step_writer.h"

#include "plan/sled.h"

#include <assert.h>
#include <math.h>

static const struct step_figure short_of_stop = {2, 1.0 / 16}; /* that the stop may halt the sled: every cut is through from 5 on */

static void write_pivot(struct step_writer *w)
{
    const struct plan_fence *f = &w->s->reference;
    int n;
    const struct plan_hole *h = step_find_hole(w, PART_REFERENCE_FENCE, HOLE_PIVOT, &n);
    assert(h && "the reference fence has a pivot screw");
    bool flush = w->far && step_from_edge(w, f) < STEP_FLUSH_WITHIN; /* a near fence has its guard outside it */
    struct saying what =
        SAYING(flush    ? "step.pivot.what.flush"
               : w->far ? "step.pivot.what.far"
                        : "step.pivot.what",
               SAY_STR("ref", w->reference), SAY_KEY("edge", step_edge_key(f)), SAY_ARG("left", SAY_SIZE, -f->x0),
               SAY_STR("pilot", h->pilot_drill), SAY_STR("screw", h->screw), SAY_ARG("at", SAY_SIZE, fabs(h->x)),
               SAY_KEY("side", step_side_key(h->x)));
    if (!flush)
        what.arg[7] = (struct say_arg)SAY_ARG("v", SAY_SIZE, step_from_edge(w, f));
    struct plan_step *step = step_add(w, step_letters(w, w->base, w->reference, ""), what,
                                      SAYING("step.pivot.know", SAY_ARG("depth", SAY_SIZE, h->screw_length)),
                                      SAYING_PLAIN("step.pivot.why"));
    step_warn(step, SIGNAL_NOTICE, SAYING("step.pivot.caution", SAY_STR("ref", w->reference)));
}

static void write_square(struct step_writer *w)
{
    int n;
    const struct plan_hole *h = step_find_hole(w, PART_REFERENCE_FENCE, HOLE_TRIAL, &n);
    assert(h && "the reference fence has a screw at its moving end");
    double reach = step_first_kerf_end(w) - w->s->reference.v_face;
    struct saying know = SAYING_PLAIN("step.square.know.far");
    if (!w->far && reach > 0)
        know = SAYING("step.square.know", SAY_ARG("reach", SAY_ABOUT, reach));
    step_add(w, w->reference,
             SAYING("step.square.what", SAY_STR("ref", w->reference),
                    SAY_ARG("kerf", SAY_FIT, w->job->saw.blade.kerf.v), SAY_STR("pilot", h->pilot_drill),
                    SAY_STR("screw", h->screw), SAY_ARG("at", SAY_SIZE, fabs(h->x)),
                    SAY_KEY("side", step_side_key(h->x))),
             know, SAYING_PLAIN("step.square.why"));
}

static void write_stop(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    double face = w->far && !isnan(s->travel.y_near_face) ? s->travel.y_near_face : s->travel.y_stop;
    struct saying know =
        SAYING(w->far ? "step.stop.know.far" : "step.stop.know", SAY_STR("fence", w->far ? w->other : w->reference), SAY_ARG("face", SAY_SIZE, face),
               SAY_ARG("less", SAY_SIZE, step_in_units(w, short_of_stop)));
    struct saying what = SAYING("step.stop.what", SAY_STR("stop", w->stop),
                                SAY_KEY("side", step_slot_key(s->stop_slot)), SAY_ARG("y", SAY_SIZE, s->stop_y));
    if (!s->stop_in_slot)
        what = SAYING("step.stop.what.outfeed", SAY_STR("stop", w->stop), SAY_ARG("y", SAY_SIZE, s->stop_y));
    struct plan_step *step = step_add(w, w->stop, what, know,
                 SAYING(step_guard_covers(w) ? "step.stop.why" : "step.stop.why.hold", SAY_STR("guard", w->guard)));
    step_warn(step, SIGNAL_WARNING, SAYING("step.stop.caution", SAY_STR("stop", w->stop)));
}

/* Its screws go into the near fence as those of the base do: the cover is of the base's stock. */
static void write_cover(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    struct body cover;
    if (!sled_cover(s, &cover))
        return;
    const struct plan_hole *h = build_cover_screw(w->plan);
    double pack = s->reference.height - s->other.height;
    struct saying what =
        SAYING("step.cover.what", SAY_STR("cover", w->cover), SAY_STR("other", w->other), SAY_STR("ref", w->reference),
               SAY_STR("clearance", h->clearance_drill), SAY_STR("pilot", h->pilot_drill), SAY_STR("screw", h->screw));
    what.arg[6] = (struct say_arg)SAY_ARG("at", SAY_SIZE, s->cover_screw_x);
    if (pack > STEP_FLUSH_WITHIN) {
        what.key = "step.cover.what.packed";
        what.arg[7] = (struct say_arg)SAY_ARG("pack", SAY_SIZE, pack);
    }
    struct plan_step *step =
        step_add(w, step_letters(w, w->other, w->reference, w->cover), what,
                 SAYING("step.cover.know", SAY_STR("ref", w->reference), SAY_ARG("strip", SAY_ABOUT, s->screw_free)),
                 SAYING_PLAIN("step.cover.why"));
    step_warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.cover.caution"));
}

/* Blade and knife at the height for the thickest work are looked at before the cut: fences hold nothing to look through
   after it. */
static void write_rest_blade(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    const struct plan_travel *t = &s->travel;
    double wood = fmin(s->reference.bridge, s->other.bridge) + t->highest - t->setting_above_table;
    struct saying know = SAYING("step.rest_blade.know.no_knife", SAY_ARG("wood", SAY_SIZE, fmax(wood, 0)));
    struct saying why = SAYING_PLAIN("step.rest_blade.why.no_knife");
    if (step_knife_stays(w)) {
        know.key = "step.rest_blade.know";
        why.key = "step.rest_blade.why";
    }
    step_add(w, step_letters(w, w->reference, w->other, w->guard),
             SAYING("step.rest_blade.what", SAY_ARG("parked", SAY_SIZE, fabs(t->edge_parked)),
                    SAY_KEY("where", step_place_key(t->edge_parked)),
                    SAY_ARG("height", SAY_SIZE, t->setting_above_table)),
             know, why);
}

/* The one DANGER of a build sheet. */
static void write_rest_kerf(struct step_writer *w)
{
    bool covers = step_guard_covers(w);
    static const char *const what[2][2] = {{"step.rest_kerf.what.hold", "step.rest_kerf.what"},
                                           {"step.rest_kerf.what.far.hold", "step.rest_kerf.what.far"}};
    const char *caution = w->far ? "step.rest_kerf.caution.far" : "step.rest_kerf.caution";
    struct plan_step *step = step_add(w, step_letters(w, w->reference, w->guard, ""), SAYING_PLAIN(what[w->far][covers]),
                                      SAYING(w->far ? "step.rest_kerf.know.far" : "step.rest_kerf.know",
                                             SAY_STR("ref", w->reference), SAY_STR("guard", w->guard)),
                                      SAYING_PLAIN("step.rest_kerf.why"));
    step_warn(step, SIGNAL_DANGER,
              SAYING(covers ? caution : "step.rest_kerf.caution.hold", SAY_STR("guard", w->guard)));
}

/* NULL: the saw has none. */
static const char *knife_key(enum knife_kind knife)
{
    static const char *const knives[] = {[KNIFE_NOT_STATED] = "knife.riving",
                                         [KNIFE_RIVING] = "knife.riving",
                                         [KNIFE_SPLITTER] = "knife.splitter",
                                         [KNIFE_NONE] = NULL};
    return knives[knife];
}

static void write_look(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    const char *knife = knife_key(w->job->saw.knife.kind);
    double left = s->guard_depth - fmax(s->travel.guard_needed, 0);
    struct saying what = SAYING("step.look.what.no_knife", SAY_STR("guard", w->guard));
    struct saying know = SAYING("step.look.know.no_knife", SAY_STR("guard", w->guard), SAY_ARG("left", SAY_THICKNESS, left));
    struct saying why = SAYING_PLAIN("step.look.why.no_knife");
    if (knife) {
        what.key = "step.look.what";
        know.key = "step.look.know";
        why.key = "step.look.why";
        what.arg[1] = know.arg[2] = why.arg[0] = (struct say_arg)SAY_KEY("knife", knife);
    }
    if (!step_guard_covers(w))
        know = SAYING("step.look.know.hold", SAY_STR("guard", w->guard));
    if (step_guard_is_short(s))
        know =
            SAYING("step.look.know.short", SAY_STR("guard", w->guard), SAY_ARG("need", SAY_THICKNESS, step_guard_need(s)));
    step_warn(step_add(w, w->guard, what, know, why), SIGNAL_WARNING, SAYING_PLAIN("step.look.caution"));
}

const struct step_chapter steps_fence = {
    .title = "stage.fence",
    .write = {write_pivot, write_square, write_stop, write_cover, write_rest_blade, write_rest_kerf, write_look},
};
