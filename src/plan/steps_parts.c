/* The parts: sawn, planed, glued up of layers; the base marked and drilled from above before anything is glued to it.
 */
#include "plan/step_writer.h"

#include "plan/flip_stop.h"
#include "plan/sled.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const struct step_figure sheet_within = {0.2, 1.0 / 128}; /* of a sheet's thickness */

/* Parts too short to be held at the saw, as "D, H"; the stop is sawn off a longer piece by hand. */
static const char *short_parts(struct step_writer *w)
{
    const char *list = "";
    for (size_t i = 0; i < w->plan->n_parts; i++) {
        const struct plan_part *part = &w->plan->parts[i];
        if (part->sawn_length < sled_clamp_below(w->job->units))
            list = pool_printf(&w->b->plan->pool, "%s%s%s", list, *list ? ", " : "", part->letter);
    }
    return list;
}

/* Parts that are planed to fit a slot. */
static const char *planed_parts(struct step_writer *w)
{
    return pool_printf(&w->b->plan->pool, "%s%s%s%s%s", w->guide, *w->free ? ", " : "", w->free,
                       w->s->stop_in_slot ? ", " : "", w->s->stop_in_slot ? w->stop : "");
}

static void write_cut_parts(struct step_writer *w)
{
    const char *small = short_parts(w);
    struct saying what = SAYING("step.cut_parts.what.long", SAY_STR("planed", planed_parts(w)),
                                SAY_ARG("above", SAY_SIZE, w->s->blade_above_work));
    if (*small) {
        what.key = "step.cut_parts.what";
        what.arg[2] = (struct say_arg)SAY_STR("small", small);
        what.arg[3] = (struct say_arg)SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(w->job->units));
    }
    struct plan_step *step =
        step_add(w, "", what, SAYING("step.cut_parts.know", SAY_ARG("within", SAY_SIZE, step_sawn_within(w))),
                 SAYING("step.cut_parts.why", SAY_ARG("thin", SAY_THICKNESS, step_in_units(w, sheet_within))));
    step_warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.cut_parts.caution"));
}

/* The width to make the guide runner, and what that asks of the width that the job gives. */
static const char *runner_variant(struct step_writer *w, double *to)
{
    const struct plan_sled *s = w->s;
    double width = sled_guide(s)->width;
    *to = width;
    if (s->plane_low > s->plane_high)
        return "step.plane_runner.what.none";
    if (isnan(s->plane_low) || isnan(s->plane_high) || isnan(s->plane_to))
        return "step.plane_runner.what.open";
    if (width >= s->plane_low - 1e-9 && width <= s->plane_high + 1e-9)
        return "step.plane_runner.what";
    *to = s->plane_to;
    return width > s->plane_high ? "step.plane_runner.what" : "step.plane_runner.what.narrow";
}

static void write_plane_runner(struct step_writer *w)
{
    const struct plan_sled *s = w->s;
    double to;
    const char *key = runner_variant(w, &to);
    struct saying what = SAYING(key, SAY_STR("guide", w->guide), SAY_ARG("to", SAY_FIT, to),
                                SAY_ARG("thick", SAY_THICKNESS, sled_guide(s)->thickness));
    if (strcmp(key, "step.plane_runner.what") == 0) {
        what.arg[3] = (struct say_arg)SAY_ARG("low", SAY_FIT, s->plane_low);
        what.arg[4] = (struct say_arg)SAY_ARG("high", SAY_FIT, s->plane_high);
    } else if (strcmp(key, "step.plane_runner.what.narrow") == 0) {
        what.arg[3] = (struct say_arg)SAY_ARG("width", SAY_FIT, sled_guide(s)->width);
    }
    step_add(w, w->guide, what, SAYING_PLAIN("step.plane_runner.know"), SAYING_PLAIN("step.plane_runner.why"));
}

/* A runner that the stop meets is shorter than it was sawn. */
static bool is_cut_back(struct step_writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part && part->sawn_length - part->final_length > step_sawn_within(w);
}

/* The step written last cuts the part to its final length. */
static void note_cut(struct step_writer *w, enum part_kind kind)
{
    for (size_t i = 0; i < w->plan->n_parts && is_cut_back(w, kind); i++)
        if (w->plan->parts[i].kind == kind)
            w->b->plan->parts[i].cut_step = w->plan->n_steps;
}

static void write_cut_runner(struct step_writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s);
    if (!is_cut_back(w, PART_GUIDE_RUNNER))
        return;
    step_add(w, w->guide,
             SAYING("step.cut_runner.what", SAY_STR("runner", w->guide), SAY_ARG("length", SAY_SIZE, guide->length)),
             SAYING_PLAIN("step.cut_runner.know"), SAYING("step.cut_runner.why", SAY_STR("stop", w->stop)));
    note_cut(w, PART_GUIDE_RUNNER);
}

/* The stop that slides in a slot: planed on a longer piece, for it is too short to be planed alone. */
static void say_stop_strip(struct step_writer *w, struct say_arg *next)
{
    const struct plan_part *part = build_find_part(w->plan, PART_TRAVEL_STOP);
    *next++ = (struct say_arg)SAY_STR("stop", w->stop);
    *next++ = (struct say_arg)SAY_ARG("stop_width", SAY_FIT, part->width);
    *next++ = (struct say_arg)SAY_ARG("stop_thick", SAY_THICKNESS, part->thickness);
    *next = (struct say_arg)SAY_ARG("stop_length", SAY_SIZE, part->length);
}

static void write_free_runner(struct step_writer *w)
{
    const struct plan_runner *free = step_free_of(w->s);
    bool stop = w->s->stop_in_slot;
    if (!free && !stop)
        return;
    struct saying what = SAYING_PLAIN("step.free_runner.what.stop");
    struct say_arg *next = what.arg;
    if (free) {
        bool cut = stop && is_cut_back(w, PART_FREE_RUNNER);
        what.key = cut    ? "step.free_runner.what.cut"
                   : stop ? "step.free_runner.what.with_stop"
                          : "step.free_runner.what";
        *next++ = (struct say_arg)SAY_STR("free", w->free);
        *next++ = (struct say_arg)SAY_ARG("width", SAY_FIT, free->width);
        *next++ = (struct say_arg)SAY_ARG("thick", SAY_THICKNESS, free->thickness);
        if (cut)
            *next++ = (struct say_arg)SAY_ARG("length", SAY_SIZE, free->length);
    }
    if (stop)
        say_stop_strip(w, next);
    step_add(w, step_letters(w, w->free, stop ? w->stop : "", ""), what,
             SAYING_PLAIN(free ? "step.free_runner.know" : "step.free_runner.know.stop"),
             SAYING_PLAIN(free ? "step.free_runner.why" : "step.free_runner.why.stop"));
    note_cut(w, PART_FREE_RUNNER);
    note_cut(w, PART_TRAVEL_STOP);
}

/* What is glued up of layers: the usual pairs by name, any other mixture as a list of letters. */
static struct saying say_layers(struct step_writer *w)
{
    int ref = w->s->reference.layers, other = w->s->other.layers, guard = w->s->guard_layers;
    struct saying what =
        SAYING("step.glue_layers.what.none", SAY_STR("ref", w->reference), SAY_ARG("chamfer", SAY_SIZE, w->s->chamfer));
    struct say_arg *next = &what.arg[2];
    if (ref == 1 && other == 1 && guard == 1)
        return what;
    *next++ = (struct say_arg)SAY_KEY("glue", step_glue_of(w, PART_REFERENCE_FENCE, PART_EXIT_GUARD));
    if (guard == 1 || (ref == 1 && other > 1)) {
        bool after_ref = ref > 1 && (other > 1 || guard > 1), before_guard = other > 1 && guard > 1;
        what.key = "step.glue_layers.what.list";
        *next = (struct say_arg)SAY_STR(
            "parts", pool_printf(&w->b->plan->pool, "%s%s%s%s%s", ref > 1 ? w->reference : "", after_ref ? ", " : "",
                                 other > 1 ? w->other : "", before_guard ? ", " : "", guard > 1 ? w->guard : ""));
        return what;
    }
    what.key = ref == 1     ? "step.glue_layers.what.guard"
               : other == 1 ? "step.glue_layers.what"
                            : "step.glue_layers.what.other";
    *next++ = (struct say_arg)SAY_STR("guard", w->guard);
    *next++ = (struct say_arg)SAY_ARG("m", SAY_COUNT_WORD, guard);
    if (ref > 1)
        *next++ = (struct say_arg)SAY_ARG("n", SAY_COUNT_WORD, ref);
    if (other > 1) {
        *next++ = (struct say_arg)SAY_STR("other", w->other);
        *next = (struct say_arg)SAY_ARG("k", SAY_COUNT_WORD, other);
    }
    return what;
}

/* The parts that a fence is glued of: more than one where its layers differ in height; as "B, C". */
static const char *parts_of(struct step_writer *w, enum part_kind kind)
{
    const char *list = "";
    for (size_t i = 0; i < w->plan->n_parts; i++)
        if (w->plan->parts[i].kind == kind)
            list = pool_printf(&w->b->plan->pool, "%s%s%s", list, *list ? ", " : "", w->plan->parts[i].letter);
    return list;
}

/* Layers of unequal height, as the job gives them. */
static void warn_of_rebate(struct step_writer *w, struct plan_step *step)
{
    const struct plan_fence *f = &w->s->reference;
    double height = flip_rebate_height(f->layer_heights, f->layers);
    if (height > 0)
        step_warn(step, SIGNAL_NOTICE,
                  SAYING("step.glue_layers.rebate", SAY_STR("ref", w->reference),
                         SAY_STR("parts", parts_of(w, PART_REFERENCE_FENCE)), SAY_ARG("height", SAY_SIZE, height),
                         SAY_ARG("width", SAY_THICKNESS, f->thickness / f->layers)));
}

static void write_glue_layers(struct step_writer *w)
{
    struct plan_step *step =
        step_add(w, step_letters(w, w->reference, w->s->other.layers > 1 ? w->other : "", w->guard), say_layers(w),
                 SAYING("step.glue_layers.know", SAY_STR("ref", w->reference)), SAYING_PLAIN("step.glue_layers.why"));
    if (w->asked->reference_fence.layers.heights)
        warn_of_rebate(w, step);
}

/* The guard goes on the outer face of the fence on the operator's side, whichever that is. */
static void write_guard(struct step_writer *w)
{
    const struct plan_fence *f = w->far ? &w->s->other : &w->s->reference;
    const char *fence = w->far ? w->other : w->reference;
    struct plan_step *step = step_add(
        w, step_letters(w, fence, w->guard, ""),
        SAYING(w->far ? "step.guard.what.far" : "step.guard.what", SAY_STR("guard", w->guard), SAY_STR("fence", fence),
               SAY_ARG("at", SAY_SIZE, -f->x0),
               SAY_KEY("glue", step_glue_of(w, w->far ? PART_OTHER_FENCE : PART_REFERENCE_FENCE, PART_EXIT_GUARD))),
        SAYING("step.guard.know", SAY_STR("fence", fence), SAY_STR("guard", w->guard)),
        SAYING_PLAIN(w->far ? "step.guard.why.far" : "step.guard.why"));
    struct saying caution =
        SAYING(w->far ? "step.guard.caution.far" : "step.guard.caution", SAY_STR("guard", w->guard));
    if (step_guard_is_short(w->s))
        caution = SAYING("step.guard.caution.short", SAY_STR("guard", w->guard),
                         SAY_ARG("need", SAY_THICKNESS, step_guard_need(w->s)));
    step_warn(step, SIGNAL_WARNING, caution);
}

/* Screws go into the reference fence's face while it is on the bench: later they could draw a proved fence. */
static void write_track(struct step_writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    struct saying what = SAYING("step.track.what.rebate", SAY_ARG("track", SAY_SIZE, f->track_length),
                                SAY_STR("ref", w->reference), SAY_KEY("side", step_slot_key(f->side)),
                                SAY_KEY("facing", w->far ? "way.facing.toward" : "way.facing.away"));
    struct saying know = SAYING("step.track.know.rebate", SAY_STR("ref", w->reference));
    if (*w->cheek) {
        what.key = "step.track.what";
        what.arg[4] = (struct say_arg)SAY_ARG("drop", SAY_SIZE, f->bolt_across);
        know = SAYING("step.track.know", SAY_ARG("height", SAY_SIZE, f->track_height));
    }
    step_add(w, w->reference, what, know, SAYING_PLAIN("step.track.why"));
}

static void write_base_mark(struct step_writer *w)
{
    step_add(w, w->base,
             SAYING("step.base_mark.what", SAY_STR("base", w->base), SAY_ARG("left", SAY_SIZE, -w->s->base_x0),
                    SAY_ARG("strip", SAY_ABOUT, w->s->keep_out), SAY_STR("other", w->other),
                    SAY_STR("ref", w->reference)),
             SAYING_PLAIN("step.base_mark.know"), SAYING_PLAIN("step.base_mark.why"));
}

/* Of either runner, the guide's first; NULL: both are glued only. */
static const struct plan_hole *runner_hole(struct step_writer *w)
{
    int n;
    const struct plan_hole *h = step_find_hole(w, PART_GUIDE_RUNNER, HOLE_FIXED, &n);
    return h || !*w->free ? h : step_find_hole(w, PART_FREE_RUNNER, HOLE_FIXED, &n);
}

static void write_base_drill(struct step_writer *w)
{
    int n;
    const struct plan_hole *fence = step_find_hole(w, PART_REFERENCE_FENCE, HOLE_PIVOT, &n), *runner = runner_hole(w);
    assert(fence && "the reference fence has a pivot screw");
    struct saying what =
        SAYING("step.base_drill.what.fences", SAY_STR("base", w->base), SAY_STR("drill", fence->clearance_drill),
               SAY_ARG("head", SAY_SIZE, fence->head_diameter), SAY_STR("pilot", fence->pilot_drill));
    if (runner) {
        what.key = "step.base_drill.what";
        what.arg[4] = (struct say_arg)SAY_STR("runner_drill", runner->clearance_drill);
        what.arg[5] = (struct say_arg)SAY_ARG("runner_head", SAY_SIZE, runner->head_diameter);
    }
    struct plan_step *step =
        step_add(w, w->base, what, SAYING_PLAIN("step.base_drill.know"), SAYING_PLAIN("step.base_drill.why"));
    step_warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.base_drill.caution"));
}

const struct step_chapter steps_parts = {
    .title = "stage.parts",
    .write = {write_cut_parts, write_plane_runner, write_cut_runner, write_free_runner, write_glue_layers, write_guard,
              write_base_mark, write_base_drill, write_track},
};
