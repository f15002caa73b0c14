/* What a maker fetches before the first step: tools, hardware, what is used up; each in the order in which the steps of
   the building order first ask for it. Common practice, no source. */
#include "plan/build.h"

#include "plan/sled.h"

#include <string.h>

static bool has_slots_to_make(const struct plan_builder *b)
{
    return b->job->saw.slots_to_make.given;
}

static bool has_lining(const struct plan_builder *b)
{
    return has_slots_to_make(b) && b->job->saw.slots_to_make.profile.given;
}

static bool has_flip_stop(const struct plan_builder *b)
{
    return b->plan->sled.flip.present;
}

static bool has_far_fence(const struct plan_builder *b)
{
    return b->plan->sled.reference.side == FENCE_FAR;
}

/* One that says no more than its words. applies NULL: always. */
static const struct need_row {
    enum need_kind kind;
    const char *key;
    bool (*applies)(const struct plan_builder *);
} before_screws[] = {
    {NEED_TOOL, "need.protection", NULL},
    {NEED_TOOL, "need.guide", has_slots_to_make},
    {NEED_TOOL, "need.measuring", NULL},
    {NEED_TOOL, "need.squares", NULL},
    {NEED_TOOL, "need.sawing", NULL},
    {NEED_TOOL, "need.plane", NULL},
    {NEED_TOOL, "need.clamps", NULL},
}, after_screws[] = {
    {NEED_TOOL, "need.screwdriver", NULL},
    {NEED_TOOL, "need.leaves", NULL},
    {NEED_HARDWARE, "need.cover", has_far_fence},
    {NEED_CONSUMABLE, "need.pencil", NULL},
    {NEED_CONSUMABLE, "need.glue", NULL},
    {NEED_CONSUMABLE, "need.wax", NULL},
    {NEED_CONSUMABLE, "need.boards", NULL},
    {NEED_CONSUMABLE, "need.paint", NULL},
};

static void add_need(struct plan_builder *b, enum need_kind kind, struct saying what)
{
    struct plan_need *n = build_add_need(b);

    n->kind = kind;
    n->what = what;
}

static void add_rows(struct plan_builder *b, const struct need_row *rows, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (!rows[i].applies || rows[i].applies(b))
            add_need(b, rows[i].kind, SAYING_PLAIN(rows[i].key));
}
#define ADD_ROWS(b, rows) add_rows((b), (rows), sizeof(rows) / sizeof *(rows))

static void add_router(struct plan_builder *b)
{
    const struct job_slots_to_make *m = &b->job->saw.slots_to_make;
    const struct job_slots *slots = &b->job->saw.slots;

    if (has_slots_to_make(b))
        add_need(b, NEED_TOOL, SAYING("need.router", SAY_ARG("bit", SAY_THICKNESS, m->bit.v),
                                      SAY_ARG("base", SAY_THICKNESS, m->base_diameter.v)));
    if (has_lining(b))
        add_need(b, NEED_HARDWARE,
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
        int n = has_screw(&p->holes[i]) ? count_screws(p, i) : 0;
        if (n > 0)
            add_need(b, NEED_HARDWARE,
                     SAYING("need.screws", SAY_ARG("n", SAY_COUNT, n), SAY_STR("screw", p->holes[i].screw)));
    }
}

/* The stop block is gripped by a screw of a runner's kind, or a fence's. */
static void add_stop_screw(struct plan_builder *b)
{
    const struct plan_hole *h = build_stop_screw(b->plan);

    if (b->plan->sled.stop_in_slot && h)
        add_need(b, NEED_HARDWARE, SAYING("need.stop_screw", SAY_STR("screw", h->screw)));
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
        add_need(b, NEED_TOOL, SAYING("need.drills", SAY_STR("drills", list)));
}

static void add_flip_stop(struct plan_builder *b)
{
    const struct plan_flip *f = &b->plan->sled.flip;

    if (!has_flip_stop(b))
        return;
    add_need(b, NEED_HARDWARE, SAYING("need.track", SAY_ARG("track", SAY_SIZE, f->track_length),
                                      SAY_ARG("height", SAY_SIZE, f->track_height)));
    add_need(b, NEED_HARDWARE, SAYING("need.hinge", SAY_ARG("arm", SAY_SIZE, f->arm_width)));
    add_need(b, NEED_HARDWARE, SAYING(f->side == SIDE_LEFT ? "need.tape.left" : "need.tape.right", SAY_ARG("longest", SAY_SIZE, f->longest)));
}

void sled_list_needs(struct plan_builder *b)
{
    add_router(b);
    ADD_ROWS(b, before_screws);
    add_screws(b);
    add_stop_screw(b);
    add_drills(b);
    ADD_ROWS(b, after_screws);
    add_flip_stop(b);
}
