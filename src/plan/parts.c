/* The parts of a sled: finished sizes, where each stands, what it weighs. */
#include "plan/build.h"

#include "plan/sled.h"

#include <math.h>

static const double stop_play = 0.1;    /* of the stop block in its slot: a push fit, common practice, no source */
static const double outfeed_stop = 100; /* width of a block on the outfeed */
/* A piece shorter than this is not held safely while it is planed; no longer than a runner, so that it fits the strip.
   Common practice, no source. */
static const double planed_least[] = {[UNITS_MM] = 300, [UNITS_IN] = 12 * MM_PER_INCH};

static const double cover_screw_in[] = {[UNITS_MM] = 15, [UNITS_IN] = MM_PER_INCH * 5 / 8}; /* from the cover's sides */

static unsigned derived_if(const struct num *n, unsigned bit)
{
    return n->given ? 0 : bit;
}

static const struct body *copy_bodies(struct plan_builder *b, const struct body *bodies, size_t n)
{
    return pool_copy(&b->plan->pool, bodies, n * sizeof *bodies);
}

/* One piece, or equal pieces glued into one body. */
static struct plan_part *add_boxed(struct plan_builder *b, enum part_kind kind, const struct job_stock *stock,
                                   int quantity, double length, double width, double thickness, struct body body)
{
    struct plan_part *p = build_add_part(b);

    p->kind = kind;
    p->quantity = quantity;
    p->length = p->sawn_length = p->final_length = length;
    p->width = width;
    p->thickness = thickness;
    p->grain_matters = true;
    p->stock = stock;
    p->bodies = copy_bodies(b, &body, 1);
    p->n_bodies = 1;
    p->mass = quantity * sled_density(stock) * 1e-9 * length * width * thickness;
    p->centre_x = (body.x0 + body.x1) / 2;
    p->centre_v = (body.v0 + body.v1) / 2;
    return p;
}

static void add_base(struct plan_builder *b, const struct sled_stocks *stocks)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct job_sled *wish = &b->job->jig.as.sled;
    struct body box = {s->base_x0, s->base_x0 + s->base_width, 0, s->base_depth, 0, s->base_thickness};
    struct plan_part *p =
        add_boxed(b, PART_BASE, stocks->base, 1, s->base_width, s->base_depth, s->base_thickness, box);

    p->grain_matters = false;
    p->derived = derived_if(&wish->base_width, DERIVED_LENGTH) | derived_if(&wish->base_depth, DERIVED_WIDTH);
}

/* Layers first to last, counted from the working face, all of one height. */
static void add_layers(struct plan_builder *b, enum part_kind kind, const struct plan_fence *f, int first, int last,
                       const struct job_fence *wish, const struct job_stock *stock)
{
    double layer = f->thickness / f->layers, away = f->v_outer > f->v_face ? 1 : -1, height = f->layer_heights[first];
    double near_face = f->v_face + away * first * layer, far_face = f->v_face + away * (last + 1) * layer;
    double on_base = b->plan->sled.base_thickness;
    struct body box = {
        .x0 = f->x0, .x1 = f->x0 + f->length,
        .v0 = fmin(near_face, far_face), .v1 = fmax(near_face, far_face),
        .z0 = on_base, .z1 = on_base + height,
    };
    struct plan_part *p = add_boxed(b, kind, stock, last - first + 1, f->length, height, layer, box);

    p->derived = derived_if(&wish->length, DERIVED_LENGTH);
    if (!wish->layers.heights)
        p->derived |= derived_if(&wish->height, DERIVED_WIDTH);
}

/* Layers of one height that lie together are one part. */
static void add_fence(struct plan_builder *b, enum part_kind kind, const struct plan_fence *f,
                      const struct job_fence *wish, const struct job_stock *stock)
{
    int first = 0;

    for (int i = 1; i <= f->layers; i++) {
        if (i < f->layers && fabs(f->layer_heights[i] - f->layer_heights[first]) < 1e-9)
            continue;
        add_layers(b, kind, f, first, i - 1, wish, stock);
        first = i;
    }
}

static void add_guard(struct plan_builder *b, const struct job_stock *stock)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct job_sled *wish = &b->job->jig.as.sled;
    struct body box = {
        .x0 = -s->guard_width / 2, .x1 = s->guard_width / 2,
        .v0 = s->guard_v0, .v1 = s->guard_v1,
        .z0 = s->base_thickness, .z1 = s->base_thickness + s->guard_height,
    };
    struct plan_part *p = add_boxed(b, PART_EXIT_GUARD, stock, s->guard_layers, s->guard_width, s->guard_height,
                                    s->guard_depth / s->guard_layers, box);

    p->grain_matters = false;
    p->derived = derived_if(&wish->guard_width, DERIVED_LENGTH) | derived_if(&wish->guard_height, DERIVED_WIDTH);
}

/* The part is sawn to its full length, which the masses use; the body shows it as it ends, cut back for the stop. */
static void add_runner(struct plan_builder *b, enum side side, const struct job_stock *stock)
{
    const struct plan_runner *r = &b->plan->sled.runner[side];
    const struct job_sled *wish = &b->job->jig.as.sled;
    double full = sled_runner_full_length(b->job, &b->plan->sled);
    struct body box = {r->slot_x - r->width / 2, r->slot_x + r->width / 2, r->v0, r->v0 + full, -r->thickness, 0};
    struct plan_part *p =
        add_boxed(b, r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER, stock, 1, full, r->width, r->thickness, box);

    p->derived = derived_if(&wish->runner_length, DERIVED_LENGTH) |
                 derived_if(&wish->runner_thickness, DERIVED_THICKNESS) |
                 derived_if(r->is_guide ? &wish->runner_width : &wish->runner_free_width, DERIVED_WIDTH);
    p->final_length = r->length;
    box.v1 = r->v0 + r->length;
    p->bodies = copy_bodies(b, &box, 1);
}

static void add_stop(struct plan_builder *b, const struct sled_stocks *stocks)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct plan_runner *r = &s->runner[s->stop_slot];
    double v0 = s->stop_y - s->travel.edge_stop;
    double width = s->stop_in_slot ? b->job->saw.slots.width.v - stop_play : outfeed_stop;
    double thickness = s->stop_in_slot ? r->thickness : stocks->guard->thickness.v;
    double middle = s->stop_in_slot ? r->slot_x : 0, foot = s->stop_in_slot ? -thickness : 0;
    struct body box = {middle - width / 2, middle + width / 2, v0, v0 + s->stop_length, foot, foot + thickness};
    struct plan_part *p = add_boxed(b, PART_TRAVEL_STOP, s->stop_in_slot ? stocks->travel_stop : stocks->guard, 1,
                                    s->stop_length, width, thickness, box);

    p->derived =
        derived_if(&b->job->jig.as.sled.travel_stop_length, DERIVED_LENGTH) | DERIVED_WIDTH | DERIVED_THICKNESS;
    if (s->stop_in_slot)
        p->sawn_length = fmax(p->length, fmin(planed_least[b->job->units], sled_runner_full_length(b->job, s)));
}

static void add_cover(struct plan_builder *b, const struct job_stock *stock)
{
    struct body box;

    if (!sled_cover(&b->plan->sled, &box))
        return;
    struct plan_part *p = add_boxed(b, PART_BLADE_COVER, stock, 1, box.v1 - box.v0, box.x1 - box.x0, box.z1 - box.z0, box);
    p->grain_matters = false;
    p->derived = DERIVED_LENGTH | DERIVED_WIDTH;
    b->plan->sled.cover_screw_x = box.x1 - cover_screw_in[b->job->units];
}

/* The sled without the stop, which stays on the saw. */
static void weigh_sled(struct plan_builder *b)
{
    struct plan_sled *s = &b->plan->sled;
    struct sled_load loads[SLED_LOADS];
    size_t n = sled_loads(b->job, s, loads);
    double x = 0, v = 0;

    s->mass = 0;
    for (size_t i = 0; i < n; i++) {
        s->mass += loads[i].mass;
        x += loads[i].mass * loads[i].x;
        v += loads[i].mass * loads[i].v;
    }
    s->centre_x = x / s->mass;
    s->centre_v = v / s->mass;
}

void sled_list_parts(struct plan_builder *b)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct job_sled *wish = &b->job->jig.as.sled;
    struct sled_stocks stocks = sled_choose_stocks(b->job);
    enum side guide = s->runner[SIDE_LEFT].is_guide ? SIDE_LEFT : SIDE_RIGHT;
    enum side other = guide == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;

    add_base(b, &stocks);
    add_fence(b, PART_REFERENCE_FENCE, &s->reference, &wish->reference_fence, stocks.reference);
    add_fence(b, PART_OTHER_FENCE, &s->other, &wish->other_fence, stocks.other);
    add_guard(b, stocks.guard);
    add_runner(b, guide, stocks.runner);
    if (s->runner[other].present)
        add_runner(b, other, stocks.runner);
    add_stop(b, &stocks);
    add_cover(b, stocks.base);
    weigh_sled(b);
}
