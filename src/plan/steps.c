/* The building order of a crosscut sled, for this job's sizes. These rules decide the order:
   every hole of the base is drilled from above, before anything is glued, so that left is left;
   hands go over the blade's slot, and the sled is lifted or slid by hand, with the plug out and the blade down;
   the strip for no hands is painted, and blade and knife are looked at, before a cut;
   the base stays in one piece until the other fence ties it together, so the first kerf stops short, at a block;
   nothing is glued that must still be moved, so the reference fence never is, and the guard of a near fence is glued to
   the fence, not to the base: it moves with the fence and stands behind the blade from the first cut that can reach it;
   no cut is made without a stop that halts the sled. */
#include "plan/build.h"
#include "plan/flip_stop.h"
#include "plan/screws.h"
#include "plan/sled.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* A figure of the shop in round numbers of either unit. Common practice, no source. */
struct figure {
    double mm, in;
};
static const struct figure proud = {0.7, 1.0 / 32};       /* runners above the table while they are glued */
static const struct figure sawn_within = {0.5, 1.0 / 64}; /* of a part's size */
static const struct figure planing = {1, 1.0 / 32};       /* left on a strip for the plane */
static const struct figure off_point = {1, 1.0 / 32};     /* of the stop's screw above the slot's floor */
static const double first_kerf_share = 0.8;               /* of the travel */
static const double flush_within = 0.25;                  /* mm: nearer to an edge than this is flush with it */

struct writer {
    struct plan_builder *b;
    const struct job *job;
    const struct job_sled *asked;
    const struct plan *plan;
    const struct plan_sled *s;
    int stage;
    const char *title;
    /* Letters of the parts; "" where there is no such part. */
    const char *base, *reference, *other, *guard, *guide, *free, *stop, *flip, *cheek, *arm;
    bool far;
};

/* The glue of a pair of materials: PVA, from the handbook's trade figures; other glues by their maker. */
static const struct glue {
    enum material_form a, b;
    const char *key;
} glues[] = {
    {MATERIAL_PLYWOOD, MATERIAL_PLYWOOD, "glue.panels"},
    {MATERIAL_PLYWOOD, MATERIAL_SOLID,   "glue.solid" },
    {MATERIAL_SOLID,   MATERIAL_SOLID,   "glue.solid" },
    {MATERIAL_MDF,     MATERIAL_MDF,     "glue.mdf"   },
    {MATERIAL_MDF,     MATERIAL_PLYWOOD, "glue.mdf"   },
    {MATERIAL_MDF,     MATERIAL_SOLID,   "glue.mdf"   },
};

static double in_units(const struct writer *w, struct figure f)
{
    return w->job->units == UNITS_IN ? f.in * MM_PER_INCH : f.mm;
}

static const char *letter_of(struct writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part ? pool_string(&w->b->plan->pool, part->letter) : "";
}

/* A strip to buy is solid wood. */
static enum material_form form_of(struct writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part && part->stock ? part->stock->material.form : MATERIAL_SOLID;
}

static const char *glue_of(struct writer *w, enum part_kind one, enum part_kind two)
{
    enum material_form a = form_of(w, one), b = form_of(w, two);
    for (size_t i = 0; i < sizeof glues / sizeof *glues; i++)
        if ((glues[i].a == a && glues[i].b == b) || (glues[i].a == b && glues[i].b == a))
            return glues[i].key;
    return "glue.other";
}

static const char *letters(struct writer *w, const char *a, const char *b, const char *c)
{
    return pool_printf(&w->b->plan->pool, "%s%s%s", a, b, c);
}

static const char *side_key(double x)
{
    return x < 0 ? "side.left" : "side.right";
}

static const char *slot_key(enum side side)
{
    return side == SIDE_LEFT ? "side.left" : "side.right";
}

static struct plan_step *add(struct writer *w, const char *parts, struct saying what, struct saying know,
                             struct saying why)
{
    struct plan_step *step = build_add_step(w->b);
    step->stage = w->stage;
    step->stage_title = w->title;
    step->parts = parts;
    step->what = what;
    step->know = know;
    step->why = why;
    return step;
}

static void warn(struct plan_step *step, enum signal signal, struct saying caution)
{
    step->signal = signal;
    step->caution = caution;
}

/* The first screw of a part in a role, and how many there are; NULL: none. */
static const struct plan_hole *find_hole(struct writer *w, const char *part, enum hole_role role, int *count)
{
    const struct plan_hole *first = NULL;
    *count = 0;
    for (size_t i = 0; i < w->plan->n_holes; i++) {
        const struct plan_hole *h = &w->plan->holes[i];
        if (h->role != role || strcmp(h->part, part) != 0)
            continue;
        if (!first)
            first = h;
        ++*count;
    }
    return first;
}

static const struct plan_runner *free_of(const struct plan_sled *s)
{
    const struct plan_runner *other = &s->runner[sled_guide(s) == &s->runner[SIDE_LEFT] ? SIDE_RIGHT : SIDE_LEFT];
    return other->present ? other : NULL;
}

static enum side side_of(const struct plan_sled *s, const struct plan_runner *r)
{
    return r == &s->runner[SIDE_LEFT] ? SIDE_LEFT : SIDE_RIGHT;
}

/* A fence's outer face from the base's edge on its side. */
static double from_edge(struct writer *w, const struct plan_fence *f)
{
    return f->side == FENCE_NEAR ? f->v_outer : w->s->base_depth - f->v_outer;
}

static const char *edge_key(const struct plan_fence *f)
{
    return f->side == FENCE_NEAR ? "fence.near" : "fence.far";
}

/* A place of the base's near edge, from the table's. */
static const char *place_key(double edge)
{
    return edge < 0 ? "place.toward" : "place.past";
}

static double travel_left_after_first_kerf(const struct plan_travel *t)
{
    return (1 - first_kerf_share) * (t->edge_stop - t->edge_start);
}

/* Half the chord of a blade of radius r that stands `above` over a level, at that level. */
static double half_chord(double r, double above)
{
    return sqrt(above * (2 * r - above));
}

/* A shop-made top: where its slots go. */
static void write_mark_slots(struct writer *w)
{
    const struct job_slots *slots = &w->job->saw.slots;
    if (!w->job->saw.slots_to_make.given)
        return;
    struct saying what = SAYING("step.mark_slots.what.two", SAY_ARG("left", SAY_SIZE, slots->left.v),
                                SAY_ARG("right", SAY_SIZE, slots->right.v));
    if (!slots->left.given || !slots->right.given)
        what = SAYING("step.mark_slots.what.one", SAY_KEY("side", slots->left.given ? "side.left" : "side.right"),
                      SAY_ARG("at", SAY_SIZE, slots->left.given ? slots->left.v : slots->right.v));
    warn(add(w, "", what, SAYING_PLAIN("step.mark_slots.know"), SAYING_PLAIN("step.saw_read.why")), SIGNAL_WARNING,
         SAYING_PLAIN("step.saw_read.caution"));
}

/* Slots are routed along a guide before anything is measured from them. */
static void write_route(struct writer *w)
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
    warn(add(w, "", what,
             SAYING("step.route.know", SAY_ARG("width", SAY_THICKNESS, m->width.v),
                    SAY_ARG("depth", SAY_THICKNESS, m->depth.v)),
             SAYING_PLAIN("step.route.why")),
         SIGNAL_WARNING, SAYING_PLAIN("step.route.caution"));
}

static void write_line_slots(struct writer *w)
{
    const struct job_profile *p = &w->job->saw.slots_to_make.profile;
    if (!w->job->saw.slots_to_make.given || !p->given)
        return;
    add(w, "",
        SAYING("step.line_slots.what", SAY_ARG("width", SAY_THICKNESS, p->outer_width.v),
               SAY_ARG("height", SAY_THICKNESS, p->outer_height.v), SAY_ARG("long", SAY_SIZE, w->job->saw.table.depth.v)),
        SAYING("step.line_slots.know", SAY_ARG("sunk", SAY_THICKNESS, w->s->routing.sunk), SAY_ARG("inner", SAY_FIT, p->inner_width.v),
               SAY_ARG("depth", SAY_FIT, p->inner_depth.v)),
        SAYING_PLAIN("step.line_slots.why"));
}

static void write_saw_read(struct writer *w)
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
    warn(add(w, "", what, SAYING_PLAIN("step.saw_read.know"), SAYING_PLAIN("step.saw_read.why")), SIGNAL_WARNING,
         SAYING_PLAIN("step.saw_read.caution"));
}

static void write_saw_true(struct writer *w)
{
    const struct job_limit *slot = &w->job->tolerances.slot;
    add(w, "",
        SAYING("step.saw_true.what", SAY_ARG("error", SAY_LIMIT, slot->error.v),
               SAY_ARG("over", SAY_SIZE, slot->over.v)),
        SAYING_PLAIN("step.saw_true.know"), SAYING_PLAIN("step.saw_true.why"));
}

/* Parts too short to be held at the saw, as "D, G". */
static const char *short_parts(struct writer *w)
{
    const char *list = "";
    for (size_t i = 0; i < w->plan->n_parts; i++) {
        const struct plan_part *part = &w->plan->parts[i];
        if (part->length < sled_clamp_below(w->job->units))
            list = pool_printf(&w->b->plan->pool, "%s%s%s", list, *list ? ", " : "", part->letter);
    }
    return list;
}

/* Parts that are planed to fit a slot. */
static const char *planed_parts(struct writer *w)
{
    return pool_printf(&w->b->plan->pool, "%s%s%s%s%s", w->guide, *w->free ? ", " : "", w->free,
                       w->s->stop_in_slot ? ", " : "", w->s->stop_in_slot ? w->stop : "");
}

static void write_cut_parts(struct writer *w)
{
    const char *small = short_parts(w);
    struct saying what = SAYING("step.cut_parts.what.long", SAY_STR("planed", planed_parts(w)),
                                SAY_ARG("spare", SAY_SIZE, in_units(w, planing)));
    if (*small) {
        what.key = "step.cut_parts.what";
        what.arg[2] = (struct say_arg)SAY_STR("small", small);
        what.arg[3] = (struct say_arg)SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(w->job->units));
    }
    struct plan_step *step =
        add(w, "", what, SAYING("step.cut_parts.know", SAY_ARG("within", SAY_SIZE, in_units(w, sawn_within))),
            SAYING_PLAIN("step.cut_parts.why"));
    warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.cut_parts.caution"));
}

/* The width to make the guide runner, and what that asks of the width that the job gives. */
static const char *runner_variant(struct writer *w, double *to)
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

static void write_plane_runner(struct writer *w)
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
    add(w, w->guide, what, SAYING_PLAIN("step.plane_runner.know"), SAYING_PLAIN("step.plane_runner.why"));
}

/* A runner that the stop meets is shorter than it was sawn. */
static bool is_cut_back(struct writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part && part->sawn_length - part->final_length > in_units(w, sawn_within);
}

/* The step written last cuts the part to its final length. */
static void note_cut(struct writer *w, enum part_kind kind)
{
    for (size_t i = 0; i < w->plan->n_parts && is_cut_back(w, kind); i++)
        if (w->plan->parts[i].kind == kind)
            w->b->plan->parts[i].cut_step = w->plan->n_steps;
}

static void write_cut_runner(struct writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s);
    if (!is_cut_back(w, PART_GUIDE_RUNNER))
        return;
    add(w, w->guide,
        SAYING("step.cut_runner.what", SAY_STR("runner", w->guide), SAY_ARG("length", SAY_SIZE, guide->length)),
        SAYING_PLAIN("step.cut_runner.know"), SAYING("step.cut_runner.why", SAY_STR("stop", w->stop)));
    note_cut(w, PART_GUIDE_RUNNER);
}

/* The stop that slides in a slot: planed on a longer piece, for it is too short to be planed alone. */
static void say_stop_strip(struct writer *w, struct say_arg *next)
{
    const struct plan_part *part = build_find_part(w->plan, PART_TRAVEL_STOP);
    *next++ = (struct say_arg)SAY_STR("stop", w->stop);
    *next++ = (struct say_arg)SAY_ARG("stop_width", SAY_FIT, part->width);
    *next++ = (struct say_arg)SAY_ARG("stop_thick", SAY_THICKNESS, part->thickness);
    *next = (struct say_arg)SAY_ARG("stop_length", SAY_SIZE, part->length);
}

static void write_free_runner(struct writer *w)
{
    const struct plan_runner *free = free_of(w->s);
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
    add(w, letters(w, w->free, stop ? w->stop : "", ""), what,
        SAYING_PLAIN(free ? "step.free_runner.know" : "step.free_runner.know.stop"),
        SAYING_PLAIN(free ? "step.free_runner.why" : "step.free_runner.why.stop"));
    note_cut(w, PART_FREE_RUNNER);
    note_cut(w, PART_TRAVEL_STOP);
}

/* What is glued up of layers: the usual pairs by name, any other mixture as a list of letters. */
static struct saying say_layers(struct writer *w)
{
    int ref = w->s->reference.layers, other = w->s->other.layers, guard = w->s->guard_layers;
    struct saying what = SAYING("step.glue_layers.what.none", SAY_STR("ref", w->reference),
                                SAY_ARG("chamfer", SAY_SIZE, w->s->chamfer));
    struct say_arg *next = &what.arg[2];
    if (ref == 1 && other == 1 && guard == 1)
        return what;
    *next++ = (struct say_arg)SAY_KEY("glue", glue_of(w, PART_REFERENCE_FENCE, PART_EXIT_GUARD));
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
static const char *parts_of(struct writer *w, enum part_kind kind)
{
    const char *list = "";
    for (size_t i = 0; i < w->plan->n_parts; i++)
        if (w->plan->parts[i].kind == kind)
            list = pool_printf(&w->b->plan->pool, "%s%s%s", list, *list ? ", " : "", w->plan->parts[i].letter);
    return list;
}

/* Layers of unequal height, as the job gives them. */
static void warn_of_rebate(struct writer *w, struct plan_step *step)
{
    const struct plan_fence *f = &w->s->reference;
    double height = flip_rebate_height(f->layer_heights, f->layers);
    if (height > 0)
        warn(step, SIGNAL_NOTICE,
             SAYING("step.glue_layers.rebate", SAY_STR("ref", w->reference),
                    SAY_STR("parts", parts_of(w, PART_REFERENCE_FENCE)), SAY_ARG("height", SAY_SIZE, height),
                    SAY_ARG("width", SAY_THICKNESS, f->thickness / f->layers)));
}

static void write_glue_layers(struct writer *w)
{
    struct plan_step *step =
        add(w, letters(w, w->reference, w->s->other.layers > 1 ? w->other : "", w->guard), say_layers(w),
            SAYING("step.glue_layers.know", SAY_STR("ref", w->reference)), SAYING_PLAIN("step.glue_layers.why"));
    if (w->asked->reference_fence.layers.heights)
        warn_of_rebate(w, step);
}

/* Depth that the guard must have. */
static double guard_need(const struct plan_sled *s)
{
    return fmax(s->travel.guard_needed, 0) + SLED_GUARD_MARGIN;
}

static bool guard_is_short(const struct plan_sled *s)
{
    return s->guard_depth < guard_need(s) - 1e-9;
}

/* The guard goes on the outer face of the fence on the operator's side, whichever that is. */
static void write_guard(struct writer *w)
{
    const struct plan_fence *f = w->far ? &w->s->other : &w->s->reference;
    const char *fence = w->far ? w->other : w->reference;
    struct plan_step *step = add(
        w, letters(w, fence, w->guard, ""),
        SAYING(w->far ? "step.guard.what.far" : "step.guard.what", SAY_STR("guard", w->guard),
               SAY_STR("fence", fence), SAY_ARG("at", SAY_SIZE, -f->x0),
               SAY_KEY("glue", glue_of(w, w->far ? PART_OTHER_FENCE : PART_REFERENCE_FENCE, PART_EXIT_GUARD))),
        SAYING("step.guard.know", SAY_STR("fence", fence), SAY_STR("guard", w->guard)),
        SAYING_PLAIN(w->far ? "step.guard.why.far" : "step.guard.why"));
    struct saying caution =
        SAYING(w->far ? "step.guard.caution.far" : "step.guard.caution", SAY_STR("guard", w->guard));
    if (guard_is_short(w->s))
        caution =
            SAYING("step.guard.caution.short", SAY_STR("guard", w->guard), SAY_ARG("need", SAY_SIZE, guard_need(w->s)));
    warn(step, SIGNAL_WARNING, caution);
}

static void write_base_mark(struct writer *w)
{
    add(w, w->base,
        SAYING("step.base_mark.what", SAY_STR("base", w->base), SAY_ARG("left", SAY_SIZE, -w->s->base_x0),
               SAY_ARG("strip", SAY_ABOUT, w->s->keep_out)),
        SAYING_PLAIN("step.base_mark.know"), SAYING_PLAIN("step.base_mark.why"));
}

/* Of either runner, the guide's first; NULL: both are glued only. */
static const struct plan_hole *runner_hole(struct writer *w)
{
    int n;
    const struct plan_hole *h = find_hole(w, w->guide, HOLE_FIXED, &n);
    return h || !*w->free ? h : find_hole(w, w->free, HOLE_FIXED, &n);
}

static void write_base_drill(struct writer *w)
{
    int n;
    const struct plan_hole *fence = find_hole(w, w->reference, HOLE_PIVOT, &n), *runner = runner_hole(w);
    assert(fence && "the reference fence has a pivot screw");
    struct saying what = SAYING("step.base_drill.what.fences", SAY_STR("base", w->base),
                                SAY_STR("drill", fence->clearance_drill),
                                SAY_ARG("head", SAY_SIZE, fence->head_diameter));
    if (runner) {
        what.key = "step.base_drill.what";
        what.arg[3] = (struct say_arg)SAY_STR("runner_drill", runner->clearance_drill);
        what.arg[4] = (struct say_arg)SAY_ARG("runner_head", SAY_SIZE, runner->head_diameter);
    }
    struct plan_step *step = add(w, w->base, what, SAYING_PLAIN("step.base_drill.know"),
                                 SAYING_PLAIN("step.base_drill.why"));
    warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.base_drill.caution"));
}

/* A splitter stays up when the blade goes down: no base slides over it before its kerf is cut. */
static bool may_stay_up(enum knife_kind knife)
{
    return knife == KNIFE_SPLITTER || knife == KNIFE_NOT_STATED;
}

static void write_spacers(struct writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s), *free = free_of(w->s);
    double spacer = w->job->saw.slots.depth.v - guide->thickness + in_units(w, proud);
    struct saying what = SAYING("step.spacers.what.one", SAY_ARG("spacer", SAY_THICKNESS, spacer),
                                SAY_STR("guide", w->guide), SAY_KEY("side", slot_key(side_of(w->s, guide))));
    if (free) {
        what.key = "step.spacers.what.two";
        what.arg[3] = (struct say_arg)SAY_STR("free", w->free);
    }
    warn(add(w, letters(w, w->guide, w->free, ""), what,
             SAYING(free ? "step.spacers.know" : "step.spacers.know.one",
                    SAY_ARG("proud", SAY_THICKNESS, in_units(w, proud))),
             SAYING_PLAIN("step.spacers.why")),
         SIGNAL_WARNING,
         SAYING_PLAIN(may_stay_up(w->job->saw.knife.kind) ? "step.spacers.caution.splitter" : "step.spacers.caution"));
}

static void write_base_glue(struct writer *w)
{
    const struct plan_runner *guide = sled_guide(w->s);
    bool one = !free_of(w->s);
    double wall = guide->slot_x - w->job->saw.slots.width.v / 2 - w->s->base_x0;
    struct saying what =
        SAYING(one ? "step.base_glue.what.one.flush" : "step.base_glue.what.flush", SAY_STR("base", w->base),
               SAY_KEY("side", slot_key(side_of(w->s, guide))), SAY_ARG("wall", SAY_SIZE, wall),
               SAY_KEY("glue", glue_of(w, PART_BASE, PART_GUIDE_RUNNER)));
    if (fabs(guide->v0) > flush_within) {
        what.key = one ? "step.base_glue.what.one" : "step.base_glue.what";
        what.arg[4] = (struct say_arg)SAY_ARG("v", SAY_SIZE, guide->v0);
    }
    struct plan_step *step =
        add(w, letters(w, w->base, w->guide, w->free), what,
            SAYING("step.base_glue.know", SAY_ARG("wall", SAY_SIZE, wall),
                   SAY_ARG("within", SAY_SIZE, in_units(w, sawn_within))),
            SAYING_PLAIN("step.base_glue.why"));
    warn(step, SIGNAL_NOTICE, SAYING_PLAIN("step.base_glue.caution"));
}

static void write_runner_screws(struct writer *w)
{
    int n_guide, n_free = 0;
    const struct plan_hole *guide = find_hole(w, w->guide, HOLE_FIXED, &n_guide), *free = NULL;
    if (*w->free)
        free = find_hole(w, w->free, HOLE_FIXED, &n_free);
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
    warn(add(w, letters(w, w->base, guide ? w->guide : "", free ? w->free : ""), what,
             SAYING("step.runner_screws.know", SAY_ARG("tip", SAY_SIZE, any->tip)),
             SAYING_PLAIN("step.runner_screws.why")),
         SIGNAL_NOTICE, SAYING("step.runner_screws.caution", SAY_STR("drill", any->clearance_drill)));
}

static void write_slide(struct writer *w)
{
    const struct job_tolerances *t = &w->job->tolerances;
    const struct plan_travel *travel = &w->s->travel;
    add(w, letters(w, w->guide, w->free, ""),
        SAYING(*w->free ? "step.slide.what.two" : "step.slide.what.one",
               SAY_ARG("from", SAY_SIZE, fabs(travel->edge_parked)), SAY_KEY("there", place_key(travel->edge_parked)),
               SAY_ARG("to", SAY_SIZE, fabs(travel->edge_stop)), SAY_KEY("where", place_key(travel->edge_stop))),
        SAYING("step.slide.know", SAY_ARG("low", SAY_FIT, t->side_play_low.v),
               SAY_ARG("high", SAY_FIT, t->side_play_high.v)),
        SAYING_PLAIN("step.slide.why"));
}

static void write_other_fence(struct writer *w)
{
    const struct plan_fence *f = &w->s->other;
    int n;
    const struct plan_hole *h = find_hole(w, w->other, HOLE_FIXED, &n);
    bool flush = from_edge(w, f) < flush_within;
    struct saying what =
        SAYING("step.other_fence.what.glue_only", SAY_STR("other", w->other), SAY_ARG("left", SAY_SIZE, -f->x0),
               SAY_KEY("glue", glue_of(w, PART_BASE, PART_OTHER_FENCE)));
    if (h) {
        what.key = flush ? "step.other_fence.what.flush" : "step.other_fence.what";
        what.arg[3] = (struct say_arg)SAY_KEY("edge", edge_key(f));
        what.arg[4] = (struct say_arg)SAY_ARG("n", SAY_COUNT_WORD, n);
        what.arg[5] = (struct say_arg)SAY_STR("screw", h->screw);
        what.arg[6] = (struct say_arg)SAY_STR("pilot", h->pilot_drill);
        if (!flush)
            what.arg[7] = (struct say_arg)SAY_ARG("v", SAY_SIZE, from_edge(w, f));
    }
    struct saying know = SAYING_PLAIN("step.other_fence.know.glue_only");
    if (h)
        know = SAYING("step.other_fence.know", SAY_ARG("depth", SAY_SIZE, h->screw_length));
    warn(add(w, letters(w, w->base, w->other, ""), what, know, SAYING_PLAIN("step.other_fence.why")),
         SIGNAL_WARNING, SAYING("step.other_fence.caution", SAY_ARG("strip", SAY_ABOUT, w->s->screw_free)));
}

/* The stop's screw: its point is sawn off, or it would meet the slot's floor. */
static void say_stop_screw(struct writer *w, struct say_arg *next)
{
    const struct plan_part *part = build_find_part(w->plan, PART_TRAVEL_STOP);
    *next++ = (struct say_arg)SAY_STR("screw", build_stop_screw(w->plan)->screw);
    *next = (struct say_arg)SAY_ARG("short", SAY_SIZE, part->thickness - in_units(w, off_point));
}

/* The stop block stands first where the first kerf ends, then where the travel ends. */
static void write_first_stop(struct writer *w)
{
    const struct plan_travel *t = &w->s->travel;
    double left = travel_left_after_first_kerf(t), edge = t->edge_stop - left;
    struct saying what = SAYING("step.first_stop.what.outfeed", SAY_STR("stop", w->stop),
                                SAY_ARG("y", SAY_SIZE, w->s->stop_y - left), SAY_STR("base", w->base));
    if (w->s->stop_in_slot) {
        what.key = "step.first_stop.what";
        what.arg[2] = (struct say_arg)SAY_KEY("side", slot_key(w->s->stop_slot));
        say_stop_screw(w, &what.arg[3]);
    }
    add(w, w->stop, what,
        SAYING("step.first_stop.know", SAY_ARG("edge", SAY_SIZE, fabs(edge)), SAY_KEY("where", place_key(edge))),
        SAYING("step.first_stop.why", SAY_ARG("left", SAY_ABOUT, left)));
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

/* The knife goes up and down with the blade, and stands behind it in every cut. */
static bool knife_stays(struct writer *w)
{
    return w->job->saw.knife.kind == KNIFE_RIVING || w->job->saw.knife.kind == KNIFE_NOT_STATED;
}

static void write_first_blade(struct writer *w)
{
    const struct plan_sled *s = w->s;
    const struct plan_travel *t = &s->travel;
    double above = s->blade_above_work;
    struct saying know = SAYING_PLAIN("step.first_blade.know.no_knife");
    if (knife_stays(w))
        know = SAYING("step.first_blade.know", SAY_ARG("kerf", SAY_FIT, w->job->saw.blade.kerf.v));
    struct plan_step *step =
        add(w, w->base,
            SAYING("step.first_blade.what", SAY_ARG("parked", SAY_SIZE, fabs(t->edge_parked)),
                   SAY_KEY("where", place_key(t->edge_parked)), SAY_ARG("height", SAY_SIZE, s->base_thickness + above),
                   SAY_ARG("base", SAY_THICKNESS, s->base_thickness), SAY_ARG("above", SAY_SIZE, above)),
            know, SAYING_PLAIN("step.first_blade.why"));
    warn(step, SIGNAL_NOTICE, SAYING_PLAIN("step.first_blade.caution"));
}

/* Where the first kerf ends on the base's top, from its near edge. */
static double first_kerf_end(const struct plan_sled *s)
{
    const struct plan_travel *t = &s->travel;
    double edge = t->edge_stop - travel_left_after_first_kerf(t);
    return t->blade_axis_y - half_chord(t->blade_radius, s->blade_above_work) - edge;
}

static void write_first_kerf(struct writer *w)
{
    const struct plan_sled *s = w->s;
    double r = s->travel.blade_radius, above = s->blade_above_work, end = first_kerf_end(s);
    double below = end + half_chord(r, above) - half_chord(r, s->base_thickness + above);
    struct plan_step *step =
        add(w, letters(w, w->base, w->other, ""),
            SAYING_PLAIN(w->far ? "step.first_kerf.what.far" : "step.first_kerf.what"),
            SAYING("step.first_kerf.know", SAY_ARG("end", SAY_ABOUT, end), SAY_ARG("below", SAY_ABOUT, below)),
            SAYING_PLAIN("step.first_kerf.why"));
    warn(step, SIGNAL_WARNING,
         SAYING(w->far ? "step.first_kerf.caution.far" : "step.first_kerf.caution",
                SAY_ARG("strip", SAY_ABOUT, s->keep_out)));
}

static void write_pivot(struct writer *w)
{
    const struct plan_fence *f = &w->s->reference;
    int n;
    const struct plan_hole *h = find_hole(w, w->reference, HOLE_PIVOT, &n);
    assert(h && "the reference fence has a pivot screw");
    bool flush = w->far && from_edge(w, f) < flush_within; /* a near fence has its guard outside it */
    struct saying what =
        SAYING(flush    ? "step.pivot.what.flush"
               : w->far ? "step.pivot.what.far"
                        : "step.pivot.what",
               SAY_STR("ref", w->reference), SAY_KEY("edge", edge_key(f)),
               SAY_ARG("left", SAY_SIZE, -f->x0), SAY_STR("pilot", h->pilot_drill), SAY_STR("screw", h->screw),
               SAY_ARG("at", SAY_SIZE, fabs(h->x)), SAY_KEY("side", side_key(h->x)));
    if (!flush)
        what.arg[7] = (struct say_arg)SAY_ARG("v", SAY_SIZE, from_edge(w, f));
    struct plan_step *step = add(w, letters(w, w->base, w->reference, ""), what,
                                 SAYING("step.pivot.know", SAY_ARG("depth", SAY_SIZE, h->screw_length)),
                                 SAYING_PLAIN("step.pivot.why"));
    warn(step, SIGNAL_NOTICE, SAYING("step.pivot.caution", SAY_STR("ref", w->reference)));
}

static void write_square(struct writer *w)
{
    int n;
    const struct plan_hole *h = find_hole(w, w->reference, HOLE_TRIAL, &n);
    assert(h && "the reference fence has a screw at its moving end");
    double reach = first_kerf_end(w->s) - w->s->reference.v_face;
    struct saying know = SAYING_PLAIN("step.square.know.far");
    if (!w->far && reach > 0)
        know = SAYING("step.square.know", SAY_ARG("reach", SAY_ABOUT, reach));
    add(w, w->reference,
        SAYING("step.square.what", SAY_STR("ref", w->reference), SAY_ARG("kerf", SAY_FIT, w->job->saw.blade.kerf.v),
               SAY_STR("pilot", h->pilot_drill), SAY_STR("screw", h->screw), SAY_ARG("at", SAY_SIZE, fabs(h->x)),
               SAY_KEY("side", side_key(h->x))),
        know, SAYING_PLAIN("step.square.why"));
}

static void write_stop(struct writer *w)
{
    const struct plan_sled *s = w->s;
    double face = w->far && !isnan(s->travel.y_near_face) ? s->travel.y_near_face : s->travel.y_stop;
    struct saying know =
        SAYING("step.stop.know", SAY_STR("fence", w->far ? w->other : w->reference), SAY_ARG("face", SAY_SIZE, face));
    struct saying what = SAYING("step.stop.what", SAY_STR("stop", w->stop), SAY_KEY("side", slot_key(s->stop_slot)),
                                SAY_ARG("y", SAY_SIZE, s->stop_y));
    if (!s->stop_in_slot)
        what = SAYING("step.stop.what.outfeed", SAY_STR("stop", w->stop), SAY_ARG("y", SAY_SIZE, s->stop_y));
    struct plan_step *step = add(w, w->stop, what, know, SAYING("step.stop.why", SAY_STR("guard", w->guard)));
    warn(step, SIGNAL_WARNING, SAYING("step.stop.caution", SAY_STR("stop", w->stop)));
}

/* Far fence only: the blade stands bare between the fences. */
static void write_cover(struct writer *w)
{
    const struct plan_sled *s = w->s;
    if (!w->far)
        return;
    struct plan_step *step =
        add(w, w->other,
            SAYING("step.cover.what", SAY_ARG("width", SAY_ABOUT, 2 * s->keep_out), SAY_STR("other", w->other),
                   SAY_STR("ref", w->reference), SAY_ARG("strip", SAY_ABOUT, s->screw_free)),
            SAYING("step.cover.know", SAY_STR("ref", w->reference)), SAYING_PLAIN("step.cover.why"));
    warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.cover.caution"));
}

/* Blade and knife at the height for the thickest work are looked at before the cut: fences hold nothing to look through
   after it. */
static void write_rest_blade(struct writer *w)
{
    const struct plan_sled *s = w->s;
    const struct plan_travel *t = &s->travel;
    double wood = fmin(s->reference.bridge, s->other.bridge) + t->highest - t->setting_above_table;
    struct saying know = SAYING("step.rest_blade.know.no_knife", SAY_ARG("wood", SAY_SIZE, fmax(wood, 0)));
    struct saying why = SAYING_PLAIN("step.rest_blade.why.no_knife");
    if (knife_stays(w)) {
        know.key = "step.rest_blade.know";
        why.key = "step.rest_blade.why";
    }
    add(w, letters(w, w->reference, w->other, w->guard),
        SAYING("step.rest_blade.what", SAY_ARG("parked", SAY_SIZE, fabs(t->edge_parked)),
               SAY_KEY("where", place_key(t->edge_parked)), SAY_ARG("height", SAY_SIZE, t->setting_above_table)),
        know, why);
}

/* The one DANGER of a build sheet. */
static void write_rest_kerf(struct writer *w)
{
    struct plan_step *step =
        add(w, letters(w, w->reference, w->guard, ""),
            SAYING_PLAIN(w->far ? "step.rest_kerf.what.far" : "step.rest_kerf.what"),
            SAYING(w->far ? "step.rest_kerf.know.far" : "step.rest_kerf.know", SAY_STR("ref", w->reference),
                   SAY_STR("guard", w->guard)),
            SAYING_PLAIN("step.rest_kerf.why"));
    warn(step, SIGNAL_DANGER,
         SAYING(w->far ? "step.rest_kerf.caution.far" : "step.rest_kerf.caution", SAY_STR("guard", w->guard)));
}

static void write_look(struct writer *w)
{
    const struct plan_sled *s = w->s;
    const char *knife = knife_key(w->job->saw.knife.kind);
    double left = s->guard_depth - fmax(s->travel.guard_needed, 0);
    struct saying what = SAYING("step.look.what.no_knife", SAY_STR("guard", w->guard));
    struct saying know = SAYING("step.look.know.no_knife", SAY_STR("guard", w->guard), SAY_ARG("left", SAY_SIZE, left));
    struct saying why = SAYING_PLAIN("step.look.why.no_knife");
    if (knife) {
        what.key = "step.look.what";
        know.key = "step.look.know";
        why.key = "step.look.why";
        what.arg[1] = know.arg[2] = why.arg[0] = (struct say_arg)SAY_KEY("knife", knife);
    }
    if (guard_is_short(s))
        know = SAYING("step.look.know.short", SAY_STR("guard", w->guard), SAY_ARG("need", SAY_SIZE, guard_need(s)));
    warn(add(w, w->guard, what, know, why), SIGNAL_WARNING, SAYING_PLAIN("step.look.caution"));
}

static void warn_of_hands(struct writer *w, struct plan_step *step)
{
    warn(step, SIGNAL_WARNING,
         SAYING(w->far ? "step.test.caution.far" : "step.test.caution", SAY_ARG("strip", SAY_ABOUT, w->s->keep_out),
                SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(w->job->units))));
}

/* One strip finds the move. */
static void write_test(struct writer *w)
{
    warn_of_hands(w, add(w, "", SAYING_PLAIN("step.test.what"), SAYING_PLAIN("step.test.know"),
                         SAYING_PLAIN("step.test.why")));
}

/* The block stands at the fence's outer face: leaves go in first for a move toward that side. */
static const char *first_way(struct writer *w)
{
    return w->far ? "way.away" : "way.toward";
}

static const char *then_way(struct writer *w)
{
    return w->far ? "way.toward" : "way.away";
}

static void write_move_block(struct writer *w)
{
    struct plan_step *step =
        add(w, w->reference,
            SAYING("step.move_block.what", SAY_STR("ref", w->reference),
                   SAY_ARG("at", SAY_SIZE, fabs(w->s->moving_x)), SAY_KEY("side", side_key(w->s->moving_x)),
                   SAY_KEY("first", first_way(w)), SAY_KEY("then", then_way(w))),
            SAYING_PLAIN("step.move_block.know"), SAYING_PLAIN("step.move_block.why"));
    warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.move_block.caution"));
}

static void write_move(struct writer *w)
{
    int n;
    const struct plan_hole *fresh = find_hole(w, w->reference, HOLE_FRESH, &n);
    assert(fresh && "the reference fence has a fresh hole at its moving end");
    add(w, w->reference,
        SAYING("step.move.what", SAY_STR("ref", w->reference), SAY_KEY("first", first_way(w)),
               SAY_KEY("then", then_way(w)), SAY_STR("pilot", fresh->pilot_drill),
               SAY_ARG("at", SAY_SIZE, fabs(fresh->x)), SAY_KEY("side", side_key(fresh->x))),
        SAYING_PLAIN("step.move.know"), SAYING_PLAIN("step.move.why"));
}

/* From here on a move asks for more. */
static void write_last_screws(struct writer *w)
{
    int n;
    const struct plan_hole *rest = find_hole(w, w->reference, HOLE_REST, &n);
    if (!rest)
        return;
    struct plan_step *step =
        add(w, w->reference,
            SAYING("step.last_screws.what", SAY_STR("ref", w->reference), SAY_STR("screw", rest->screw),
                   SAY_STR("pilot", rest->pilot_drill), SAY_ARG("n", SAY_COUNT_WORD, n)),
            SAYING_PLAIN("step.last_screws.know"), SAYING_PLAIN("step.last_screws.why"));
    warn(step, SIGNAL_NOTICE,
         SAYING("move.free_screws", SAY_STR("ref", w->reference), SAY_ARG("n", SAY_COUNT_WORD, n + 1)));
}

/* Three strips prove it, cut when the last screw is in. */
static void write_proof(struct writer *w)
{
    const struct job_limit *t = &w->job->tolerances.squareness;
    warn_of_hands(w, add(w, "", SAYING_PLAIN("step.proof.what"),
                         SAYING("step.proof.know", SAY_ARG("error", SAY_LIMIT, t->error.v),
                                SAY_ARG("over", SAY_SIZE, t->over.v)),
                         SAYING_PLAIN("step.proof.why")));
}

static void write_flip_stop(struct writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    struct saying what = SAYING("step.flip_stop.what.rebate", SAY_STR("flip", w->flip), SAY_STR("arm", w->arm),
                                SAY_STR("ref", w->reference), SAY_ARG("track", SAY_SIZE, f->track_length),
                                SAY_ARG("from", SAY_SIZE, f->track_from), SAY_KEY("side", slot_key(f->side)));
    if (*w->cheek) {
        what.key = "step.flip_stop.what";
        what.arg[6] = (struct say_arg)SAY_STR("cheek", w->cheek);
        what.arg[7] = (struct say_arg)SAY_ARG("drop", SAY_SIZE, f->bolt_across);
    }
    struct plan_step *step =
        add(w, pool_printf(&w->b->plan->pool, "%s%s%s%s", w->reference, w->flip, w->cheek, w->arm), what,
            SAYING("step.flip_stop.know", SAY_STR("arm", w->arm), SAY_STR("ref", w->reference),
                   SAY_ARG("gap", SAY_SIZE, f->gap)),
            SAYING_PLAIN("step.flip_stop.why"));
    warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.flip_stop.caution"));
}

static void write_tape(struct writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    add(w, letters(w, w->reference, w->flip, ""),
        SAYING("step.tape.what", SAY_STR("ref", w->reference), SAY_STR("flip", w->flip),
               SAY_KEY("side", slot_key(f->side)), SAY_ARG("zero", SAY_THICKNESS, f->tape_zero),
               SAY_ARG("body", SAY_SIZE, f->body_length)),
        SAYING("step.tape.know", SAY_ARG("error", SAY_LIMIT, w->job->tolerances.stop_error.v),
               SAY_ARG("shortest", SAY_SIZE, f->shortest), SAY_ARG("longest", SAY_SIZE, f->longest),
               SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(w->job->units))),
        SAYING_PLAIN("step.tape.why"));
}

static void write_finish(struct writer *w)
{
    double kerf = w->job->saw.blade.kerf.v;
    add(w, "",
        SAYING("step.finish.what", SAY_ARG("strip", SAY_ABOUT, w->s->keep_out), SAY_STR("number", w->job->number.s),
               SAY_ARG("kerf", SAY_FIT, kerf)),
        SAYING_PLAIN("step.finish.know"), SAYING("step.finish.why", SAY_ARG("kerf", SAY_FIT, kerf)));
}

enum { MOST_IN_STAGE = 8, STAGES = 6 };

struct stage {
    const char *title;
    void (*write[MOST_IN_STAGE + 1])(struct writer *); /* ends with NULL */
};

/* The order of work, the same for a fence at either side: the words of the steps differ. */
static const struct stage order[STAGES] = {
    {"stage.saw",     {write_mark_slots, write_route, write_line_slots, write_saw_read, write_saw_true}},
    {"stage.parts",
     {write_cut_parts, write_plane_runner, write_cut_runner, write_free_runner, write_glue_layers, write_guard,
      write_base_mark, write_base_drill}},
    {"stage.runners", {write_spacers, write_base_glue, write_runner_screws, write_slide}},
    {"stage.kerf",    {write_other_fence, write_first_stop, write_first_blade, write_first_kerf}},
    {"stage.fence",
     {write_pivot, write_square, write_stop, write_cover, write_rest_blade, write_rest_kerf, write_look}},
    {"stage.proof",
     {write_test, write_move_block, write_move, write_last_screws, write_proof, write_flip_stop, write_tape,
      write_finish}},
};

void sled_write_steps(struct plan_builder *b)
{
    struct writer w = {.b = b, .job = b->job, .asked = &b->job->jig.as.sled, .plan = b->plan, .s = &b->plan->sled};
    w.far = w.s->reference.side == FENCE_FAR;
    w.base = letter_of(&w, PART_BASE);
    w.reference = letter_of(&w, PART_REFERENCE_FENCE);
    w.other = letter_of(&w, PART_OTHER_FENCE);
    w.guard = letter_of(&w, PART_EXIT_GUARD);
    w.guide = letter_of(&w, PART_GUIDE_RUNNER);
    w.free = letter_of(&w, PART_FREE_RUNNER);
    w.stop = letter_of(&w, PART_TRAVEL_STOP);
    w.flip = letter_of(&w, PART_FLIP_STOP);
    w.cheek = letter_of(&w, PART_FLIP_CHEEK);
    w.arm = letter_of(&w, PART_FLIP_ARM);
    for (w.stage = 0; w.stage < STAGES; w.stage++) {
        w.title = order[w.stage].title;
        for (size_t i = 0; order[w.stage].write[i]; i++)
            order[w.stage].write[i](&w);
    }
}
