/* The plan of a jig: each kind's stages, one after the other. */
#include "plan.h"

#include "plan/assumed.h"
#include "plan/build.h"
#include "plan/parts_list.h"
#include "plan/remedy.h"
#include "plan/sled.h"

#include <math.h>

/* What each kind of jig has of the stages in build.h; NULL: none. `resolve` ends the plan where it says false. */
struct kind_stages {
    bool (*resolve)(struct plan_builder *);
    void (*stages[13])(struct plan_builder *);
};

static const struct kind_stages kinds[JIG_KINDS] = {
    [JIG_CROSSCUT_SLED] = {sled_resolve,
                           {sled_plan_routing, sled_plan_flip_stop, sled_list_assumed, sled_list_parts, sled_list_flip_parts, sled_place_screws, sled_check, sled_find_remedies,
                            plan_write_briefs, sled_write_steps, sled_list_needs, sled_write_cautions}},
    [JIG_PARTS] = {NULL, {parts_list_parts, parts_list_check, plan_write_briefs}},
};

/* L: the greatest multiple of 50 mm, or of 2 in, that leaves 40 mm of the widest work; marks a hand's breadth from the
   ends serve. Common practice, no source. */
static double length_of_proof(double capacity_width, enum units units)
{
    double step = units == UNITS_IN ? 2 * MM_PER_INCH : 50;

    return fmax(floor((capacity_width - 40) / step + 1e-9) * step, step);
}

static struct setting setting_of(const struct job *job, const struct plan *p)
{
    const struct plan_sled *s = &p->sled;
    struct sled_engaged engaged;

    if (!p->has_sled)
        return (struct setting){
            .pivot_x = NAN, .moving_x = NAN, .pivot_to_moving = NAN, .capacity_width = NAN, .proof_length = NAN,
            .engaged_length = NAN};
    engaged = sled_guide_engaged(job, s, s->capacity_width);
    return (struct setting){
        .has_fence = true,
        .fence_side = s->reference.side,
        .pivot_x = s->pivot_x,
        .moving_x = s->moving_x,
        .pivot_to_moving = fabs(s->moving_x - s->pivot_x),
        .capacity_width = s->capacity_width,
        .proof_length = length_of_proof(s->capacity_width, job->units),
        .engaged_length = fmin(engaged.touch, engaged.stop),
    };
}

bool plan_build(const struct job *job, struct diags *diags, struct plan *out)
{
    struct plan_builder b = {.job = job, .diags = diags, .plan = out};

    *out = (struct plan){0};
    out->setting = setting_of(job, out);
    plan_list_assumed_grades(&b);
    if (!job->jig.given)
        return true;
    if (kinds[job->jig.kind].resolve && !kinds[job->jig.kind].resolve(&b))
        return false;
    out->setting = setting_of(job, out);
    for (size_t i = 0; kinds[job->jig.kind].stages[i]; i++)
        kinds[job->jig.kind].stages[i](&b);
    return true;
}

void plan_free(struct plan *p)
{
    if (!p)
        return;
    pool_free(&p->pool);
    *p = (struct plan){0};
}

const char *plan_check_name(enum check_id id)
{
    static const char *const names[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = name,
#include "plan/checks.inc"
#undef CHECK
    };

    return names[id];
}

const char *plan_part_key(enum part_kind kind)
{
    static const char *const keys[PART_KINDS] = {
#define PART(id, key) [PART_##id] = key,
#include "plan/parts.inc"
#undef PART
    };

    return keys[kind];
}

#define BLOCK_ROOM 30.0 /* a block that a clamp can hold [mm], common practice, no source */

const char *plan_block_carrier_key(const struct plan *p)
{
    const struct plan_fence *f = &p->sled.reference;
    double behind = f->side == FENCE_NEAR ? f->v_outer : p->sled.base_depth - f->v_outer;
    return behind < BLOCK_ROOM ? "block.on_batten" : "block.on_base";
}

const struct plan_check *plan_find_check(const struct plan *p, enum check_id id)
{
    for (size_t i = 0; i < p->n_checks; i++)
        if (p->checks[i].id == id)
            return &p->checks[i];
    return NULL;
}
