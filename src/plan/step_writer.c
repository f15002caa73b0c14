/* What the chapters of the building order share: putting a step down, letters, glue, keys of sides and places. */
#include "plan/step_writer.h"

#include "plan/sled.h"

#include <math.h>
#include <string.h>

static const struct step_figure sawn_within = {0.5, 1.0 / 64}; /* of a part's size */

/* The glue of a pair of materials: PVA, from the handbook's trade figures; other glues by their maker. */
static const struct glue {
    enum material_form a, b;
    const char *key, *again; /* in full, and once it was told in full */
} glues[] = {
    {MATERIAL_PLYWOOD, MATERIAL_PLYWOOD, "glue.pva", "glue.pva.again"},
    {MATERIAL_PLYWOOD, MATERIAL_SOLID, "glue.pva", "glue.pva.again"},
    {MATERIAL_SOLID, MATERIAL_SOLID, "glue.pva", "glue.pva.again"},
    {MATERIAL_MDF, MATERIAL_MDF, "glue.mdf", "glue.mdf.again"},
    {MATERIAL_MDF, MATERIAL_PLYWOOD, "glue.mdf", "glue.mdf.again"},
    {MATERIAL_MDF, MATERIAL_SOLID, "glue.mdf", "glue.mdf.again"},
};

/* Whether a step already written says this word. */
static bool is_told(const struct plan *plan, const char *key)
{
    for (size_t i = 0; i < plan->n_steps; i++)
        for (int k = 0; k < SAY_MOST_ARGS && plan->steps[i].what.arg[k].name; k++) {
            const struct say_arg *arg = &plan->steps[i].what.arg[k];
            if (arg->kind == SAY_WORD && strcmp(arg->text, key) == 0)
                return true;
        }
    return false;
}

double step_in_units(const struct step_writer *w, struct step_figure f)
{
    return w->job->units == UNITS_IN ? f.in * MM_PER_INCH : f.mm;
}

const char *step_letter_of(struct step_writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part ? pool_string(&w->b->plan->pool, part->letter) : "";
}

/* A strip to buy is solid wood. */
static enum material_form form_of(struct step_writer *w, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(w->plan, kind);
    return part && part->stock ? part->stock->material.form : MATERIAL_SOLID;
}

const char *step_glue_of(struct step_writer *w, enum part_kind one, enum part_kind two)
{
    enum material_form a = form_of(w, one), b = form_of(w, two);
    for (size_t i = 0; i < sizeof glues / sizeof *glues; i++)
        if ((glues[i].a == a && glues[i].b == b) || (glues[i].a == b && glues[i].b == a))
            return is_told(w->plan, glues[i].key) ? glues[i].again : glues[i].key;
    return "glue.other";
}

const char *step_letters(struct step_writer *w, const char *a, const char *b, const char *c)
{
    return pool_printf(&w->b->plan->pool, "%s%s%s", a, b, c);
}

const char *step_side_key(double x)
{
    return x < 0 ? "side.left" : "side.right";
}

const char *step_slot_key(enum side side)
{
    return side == SIDE_LEFT ? "side.left" : "side.right";
}

struct plan_step *step_add(struct step_writer *w, const char *parts, struct saying what, struct saying know,
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

void step_warn(struct plan_step *step, enum signal signal, struct saying caution)
{
    step->signal = signal;
    step->caution = caution;
}

/* Layers of unequal height are parts of one kind; one of them takes the screws. */
static bool is_in(const struct plan *plan, const struct plan_hole *h, enum part_kind kind)
{
    for (size_t i = 0; i < plan->n_parts; i++)
        if (plan->parts[i].kind == kind && strcmp(plan->parts[i].letter, h->part) == 0)
            return true;
    return false;
}

/* The first screw of a kind of part in a role, and how many there are; NULL: none. */
const struct plan_hole *step_find_hole(struct step_writer *w, enum part_kind kind, enum hole_role role, int *count)
{
    const struct plan_hole *first = NULL;
    *count = 0;
    for (size_t i = 0; i < w->plan->n_holes; i++) {
        const struct plan_hole *h = &w->plan->holes[i];
        if (h->role != role || !is_in(w->plan, h, kind))
            continue;
        if (!first)
            first = h;
        ++*count;
    }
    return first;
}

const struct plan_runner *step_free_of(const struct plan_sled *s)
{
    const struct plan_runner *other = &s->runner[sled_guide(s) == &s->runner[SIDE_LEFT] ? SIDE_RIGHT : SIDE_LEFT];
    return other->present ? other : NULL;
}

enum side step_side_of(const struct plan_sled *s, const struct plan_runner *r)
{
    return r == &s->runner[SIDE_LEFT] ? SIDE_LEFT : SIDE_RIGHT;
}

/* A fence's outer face from the base's edge on its side. */
double step_from_edge(struct step_writer *w, const struct plan_fence *f)
{
    return f->side == FENCE_NEAR ? f->v_outer : w->s->base_depth - f->v_outer;
}

const char *step_edge_key(const struct plan_fence *f)
{
    return f->side == FENCE_NEAR ? "fence.near" : "fence.far";
}

/* A place of the base's near edge, from the table's. */
const char *step_place_key(double edge)
{
    return edge < 0 ? "place.toward" : "place.past";
}

/* Depth that the guard must have. */
double step_guard_need(const struct plan_sled *s)
{
    return fmax(s->travel.guard_needed, 0) + SLED_GUARD_MARGIN;
}

bool step_guard_is_short(const struct plan_sled *s)
{
    return s->guard_depth < step_guard_need(s) - 1e-9;
}

bool step_guard_covers(const struct step_writer *w)
{
    static const enum check_id of_guard[] = {CHECK_TRAVEL_STOP, CHECK_EXIT_GUARD_DEPTH, CHECK_EXIT_GUARD_HEIGHT};
    bool covers = !step_guard_is_short(w->s);
    for (size_t i = 0; i < sizeof of_guard / sizeof *of_guard; i++) {
        const struct plan_check *c = plan_find_check(w->plan, of_guard[i]);
        covers = covers && !(c && c->verdict == VERDICT_FAIL);
    }
    return covers;
}

/* The knife goes up and down with the blade, and stands behind it in every cut. */
bool step_knife_stays(struct step_writer *w)
{
    return w->job->saw.knife.kind == KNIFE_RIVING || w->job->saw.knife.kind == KNIFE_NOT_STATED;
}

double step_sawn_within(const struct step_writer *w)
{
    return step_in_units(w, sawn_within);
}
