/* What a maker fetches before the first step: tools, hardware, what is used up; each in the order in which the steps of
   the building order first ask for it. Common practice, no source. */
#include "plan/build.h"

#include "plan/sled.h"

#include <math.h>
#include <string.h>

/* The first step whose key begins so; none: past the last. */
static int first_step(const struct plan *p, const char *key)
{
    size_t i = 0;

    while (i < p->n_steps && strncmp(p->steps[i].what.key, key, strlen(key)) != 0)
        i++;
    return (int)i;
}

static void add_need(struct plan_builder *b, enum need_kind kind, const char *step, struct saying what)
{
    struct plan_need *n = build_add_need(b);

    n->kind = kind;
    n->what = what;
    n->step = first_step(b->plan, step);
}

/* What says no more than its words, and the step that asks for it first; "": from the start. It is listed if there is such a
   step. */
static const struct need_row {
    enum need_kind kind;
    const char *key, *step;
} rows[] = {
    {NEED_TOOL, "need.protection", ""},
    {NEED_TOOL, "need.rule", ""},
    {NEED_TOOL, "need.guide", "step.route"},
    {NEED_TOOL, "need.clamps", "step.route"},
    {NEED_TOOL, "need.caliper", "step.route"},
    {NEED_TOOL, "need.caliper", "step.saw_read"},
    {NEED_TOOL, "need.rod", "step.saw_true"},
    {NEED_TOOL, "need.clamps", "step.saw_true"},
    {NEED_TOOL, "need.leaves", "step.saw_true"},
    {NEED_TOOL, "need.sawing", "step.cut_parts"},
    {NEED_TOOL, "need.knife", "step.cut_parts"},
    {NEED_TOOL, "need.plane", "step.plane_runner"},
    {NEED_TOOL, "need.straight_edge", "step.glue_layers"},
    {NEED_TOOL, "need.weights", "step.glue_layers"},
    {NEED_TOOL, "need.weights", "step.base_glue"},
    {NEED_TOOL, "need.hacksaw", "step.track"},
    {NEED_TOOL, "need.screwdriver", "step.line_slots"},
    {NEED_TOOL, "need.screwdriver", "step.track"},
    {NEED_TOOL, "need.countersink", "step.line_slots"},
    {NEED_TOOL, "need.countersink", "step.base_drill"},
    {NEED_TOOL, "need.screwdriver", "step.runner_screws"},
    {NEED_TOOL, "need.scraper", "step.slide"},
    {NEED_TOOL, "need.trestles", "step.other_fence"},
    {NEED_TOOL, "need.vice", "step.first_stop"},
    {NEED_TOOL, "need.hacksaw", "step.first_stop"},
    {NEED_TOOL, "need.screwdriver", "step.first_stop"},
    {NEED_TOOL, "need.screwdriver", "step.pivot"},
    {NEED_TOOL, "need.block", "step.move_block"},
    {NEED_CONSUMABLE, "need.pencil", ""},
    {NEED_CONSUMABLE, "need.glue", "step.glue_layers"},
    {NEED_CONSUMABLE, "need.glue", "step.guard"},
    {NEED_CONSUMABLE, "need.marker", "step.base_mark"},
    {NEED_CONSUMABLE, "need.paint", "step.finish"},
    {NEED_CONSUMABLE, "need.waste", "step.route"},
    {NEED_CONSUMABLE, "need.waste", "step.base_drill"},
    {NEED_CONSUMABLE, "need.wax", "step.spacers"},
    {NEED_CONSUMABLE, "need.spacers", "step.spacers"},
    {NEED_CONSUMABLE, "need.cloth", "step.base_glue"},
    {NEED_CONSUMABLE, "need.kerf_strip", "step.square"},
    {NEED_CONSUMABLE, "need.flag", "step.runner_screws"},
    {NEED_CONSUMABLE, "need.boards", "step.cut_parts"},
};

static bool is_listed(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_needs; i++)
        if (strcmp(p->needs[i].what.key, key) == 0)
            return true;
    return false;
}

static void add_rows(struct plan_builder *b)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (!is_listed(b->plan, rows[i].key) && first_step(b->plan, rows[i].step) < (int)b->plan->n_steps)
            add_need(b, rows[i].kind, rows[i].step, SAYING_PLAIN(rows[i].key));
}

/* The square lies on the base between the fences. */
static void add_square(struct plan_builder *b)
{
    const struct plan_sled *s = &b->plan->sled;

    add_need(b, NEED_TOOL, "step.saw_true",
             SAYING("need.square", SAY_ARG("room", SAY_SIZE,
                                           sled_round_down(fabs(s->other.v_face - s->reference.v_face),
                                                           sled_least_edge_step(b->job->units)))));
}

static bool has_lining(const struct plan_builder *b)
{
    return b->job->saw.slots_to_make.given && b->job->saw.slots_to_make.profile.given;
}

static void add_router(struct plan_builder *b)
{
    const struct job_slots_to_make *m = &b->job->saw.slots_to_make;
    const struct job_slots *slots = &b->job->saw.slots;

    if (m->given)
        add_need(b, NEED_TOOL, "step.route",
                 SAYING("need.router", SAY_ARG("bit", SAY_THICKNESS, m->bit.v),
                        SAY_ARG("base", SAY_THICKNESS, m->base_diameter.v)));
    if (has_lining(b))
        add_need(b, NEED_HARDWARE, "step.line_slots",
                 SAYING("need.lining", SAY_ARG("n", SAY_COUNT, slots->left.given + slots->right.given),
                        SAY_ARG("width", SAY_THICKNESS, m->profile.outer_width.v),
                        SAY_ARG("height", SAY_THICKNESS, m->profile.outer_height.v),
                        SAY_ARG("long", SAY_SIZE, b->job->saw.table.depth.v)));
}

static bool is_drilled(const struct plan_hole *h)
{
    return h->role != HOLE_RESERVED;
}

/* Hole 2 of the moving end takes the screw of hole 1. */
static bool has_screw(const struct plan_hole *h)
{
    return h->role != HOLE_RESERVED && h->role != HOLE_FRESH;
}

/* How many screws are like the i-th; 0: an earlier one has counted it. */
static int count_screws(const struct plan *p, size_t i)
{
    int n = 0;

    for (size_t k = 0; k < p->n_holes; k++)
        if (has_screw(&p->holes[k]) && strcmp(p->holes[k].screw, p->holes[i].screw) == 0) {
            if (k < i)
                return 0;
            n++;
        }
    return n;
}

static void add_screws(struct plan_builder *b)
{
    const struct plan *p = b->plan;

    for (size_t i = 0; i < p->n_holes; i++) {
        const struct plan_hole *h = &p->holes[i];
        int n = has_screw(h) ? count_screws(p, i) : 0;
        const char *step = h->from_above ? "step.runner_screws" : h->role == HOLE_FIXED ? "step.other_fence" : "step.pivot";
        if (n > 0)
            add_need(b, NEED_HARDWARE, step, SAYING("need.screws", SAY_ARG("n", SAY_COUNT, n), SAY_STR("screw", h->screw)));
    }
}

/* The stop block is gripped by a screw of a runner's kind, or a fence's; the cover held by two. */
static void add_single_screws(struct plan_builder *b)
{
    const struct plan_hole *stop = build_stop_screw(b->plan), *cover = build_cover_screw(b->plan);

    if (b->plan->sled.stop_in_slot && stop)
        add_need(b, NEED_HARDWARE, "step.first_stop", SAYING("need.stop_screw", SAY_STR("screw", stop->screw)));
    if (b->plan->sled.cover_screw_x > 0 && cover)
        add_need(b, NEED_HARDWARE, "step.cover", SAYING("need.cover_screws", SAY_STR("screw", cover->screw)));
}

static const char *append_once(struct pool *pool, const char *list, const char *item)
{
    return strstr(list, item) ? list : pool_printf(pool, "%s%s%s", list, *list ? ", " : "", item);
}

static void add_drills(struct plan_builder *b)
{
    const struct plan *p = b->plan;
    const char *list = "";

    for (size_t i = 0; i < p->n_holes; i++)
        if (is_drilled(&p->holes[i])) {
            list = append_once(&b->plan->pool, list, p->holes[i].clearance_drill);
            list = append_once(&b->plan->pool, list, p->holes[i].pilot_drill);
        }
    if (*list)
        add_need(b, NEED_TOOL, has_lining(b) ? "step.line_slots" : "step.base_drill", SAYING("need.drills", SAY_STR("drills", list)));
}

static void add_flip_stop(struct plan_builder *b)
{
    const struct plan_flip *f = &b->plan->sled.flip;
    bool rebate = f->cheek_height <= 0;
    const char *bolt = b->job->units == UNITS_IN ? "bolt.inch" : "bolt.metric";

    if (!f->present)
        return;
    struct saying track = SAYING("need.track", SAY_ARG("track", SAY_SIZE, f->track_length), SAY_KEY("bolt", bolt),
                                 SAY_ARG("height", SAY_SIZE, f->track_height),
                                 SAY_ARG("fence", SAY_THICKNESS, b->plan->sled.reference.thickness));
    if (rebate) {
        track.key = "need.track.rebate";
        track.arg[3] = (struct say_arg)SAY_ARG("width", SAY_THICKNESS, f->rebate_width);
    }
    add_need(b, NEED_HARDWARE, "step.track", track);
    if (!rebate) /* what is glued there lies on the fence's top */
        add_need(b, NEED_CONSUMABLE, "step.flip_stop", SAYING_PLAIN("need.paper"));
    add_need(b, NEED_TOOL, "step.flip_stop", SAYING("need.bolt_drill", SAY_ARG("hole", SAY_THICKNESS, f->bolt_hole)));
    add_need(b, NEED_HARDWARE, "step.flip_stop",
             SAYING("need.bolt", SAY_KEY("bolt", bolt), SAY_ARG("wood", SAY_THICKNESS, f->body_thickness)));
    add_need(b, NEED_HARDWARE, "step.flip_arm",
             SAYING("need.hinge", SAY_ARG("arm", SAY_SIZE, f->arm_width), SAY_ARG("leaf", SAY_THICKNESS, f->body_thickness)));
    add_need(b, NEED_HARDWARE, "step.tape",
             SAYING(f->side == SIDE_LEFT ? "need.tape.left" : "need.tape.right", SAY_ARG("longest", SAY_SIZE, f->longest)));
}

/* Those of one step stay as they were listed. */
static void sort_needs(struct plan *p)
{
    for (size_t i = 1; i < p->n_needs; i++)
        for (size_t k = i; k > 0 && p->needs[k].step < p->needs[k - 1].step; k--) {
            struct plan_need moved = p->needs[k];
            p->needs[k] = p->needs[k - 1];
            p->needs[k - 1] = moved;
        }
}

void sled_list_needs(struct plan_builder *b)
{
    add_router(b);
    add_square(b);
    add_rows(b);
    add_screws(b);
    add_single_screws(b);
    add_drills(b);
    add_flip_stop(b);
    sort_needs(b->plan);
}
