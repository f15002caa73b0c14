/* Details at true scale: wood can be laid on the paper. The reference fence cut across at its pivot, and the end of the
   guide runner under the base. Neighbouring parts are hatched differently (ISO 128-3). */
#include "draw/sled.h"

#include "words.h"

#include <math.h>
#include <string.h>

/* Of the base, past the fence and past the runner; of what is drawn without figures and names, on paper [mm]. */
static const double beyond_fence = 12, beyond_runner = 14, most_wide = 66, most_high = 132;

/* The greatest scale at which it fits. */
static double detail_scale(double wide, double high)
{
    static const double scales[] = {1, 0.5, 0.2};
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++)
        if (wide * scales[i] <= most_wide && high * scales[i] <= most_high)
            return scales[i];
    return 0.1;
}

/* Where the base goes on: a thin line with a zigzag (ISO 128-2, type 01.1). */
static void add_break(struct model *m, double u, double thickness)
{
    double wide = 0.1 * thickness;
    const struct draw_point points[] = {{u, 0},
                                        {u, 0.4 * thickness},
                                        {u - wide, 0.45 * thickness},
                                        {u + wide, 0.55 * thickness},
                                        {u, 0.6 * thickness},
                                        {u, thickness}};
    add_polyline(m, points, sizeof points / sizeof *points, LINE_NARROW);
}

static void add_base_end(struct model *m, double u, double thickness, bool edge)
{
    if (edge)
        add_line(m, u, 0, u, thickness, LINE_VISIBLE);
    else
        add_break(m, u, thickness);
}

/* The base from u0 to u1, cut; an end that is not its own edge is broken off. */
static void add_base_strip(struct model *m, double u0, double u1, double thickness, bool edge0, bool edge1)
{
    add_box(m, u0, 0, u1, thickness, LINE_NONE, FILL_HATCH_CLOSE);
    add_line(m, u0, 0, u1, 0, LINE_VISIBLE);
    add_line(m, u0, thickness, u1, thickness, LINE_VISIBLE);
    add_base_end(m, u0, thickness, edge0);
    add_base_end(m, u1, thickness, edge1);
}

/* The screw's head flush at z `head`, its tip `way` times its length from there. */
static void add_screw(struct model *m, const struct plan_hole *h, double u, double head, double way)
{
    double r = h->screw_diameter / 2, wide = h->head_diameter / 2, cone = wide - r, point = 2 * r,
           end = h->screw_length;
    double z[] = {head, head + way * cone, head + way * (end - point), head + way * end};
    const struct draw_point outline[] = {{u - wide, z[0]}, {u - r, z[1]}, {u - r, z[2]},   {u, z[3]},
                                         {u + r, z[2]},    {u + r, z[1]}, {u + wide, z[0]}};
    add_polygon(m, outline, sizeof outline / sizeof *outline, LINE_VISIBLE, FILL_WHITE);
    add_line(m, u, head - way * 3, u, z[3] + way * 4, LINE_CENTRE);
}

/* part NULL: any. */
static const struct plan_hole *find_hole(const struct plan *plan, const struct plan_part *part, enum hole_role role)
{
    for (size_t i = 0; i < plan->n_holes; i++)
        if ((!part || strcmp(plan->holes[i].part, part->letter) == 0) && plan->holes[i].role == role && plan->holes[i].screw_length > 0)
            return &plan->holes[i];
    return NULL;
}

static double height_of_layer(const struct plan_fence *f, int i)
{
    return f->layer_heights ? f->layer_heights[i] : f->height;
}

/* From the working face outward; the first has the chamfer at its foot. */
static void add_layers(struct model *m, const struct plan_sled *s)
{
    const struct plan_fence *f = &s->reference;
    double out = f->v_outer > f->v_face ? 1 : -1, t = f->thickness / fmax(f->layers, 1), z = s->base_thickness;
    for (int i = 0; i < f->layers; i++) {
        double near = f->v_face + out * t * i, far = near + out * t, top = z + height_of_layer(f, i);
        double cut = i == 0 ? s->chamfer : 0;
        const struct draw_point outline[] = {{near, z + cut}, {near, top}, {far, top}, {far, z}, {near + out * cut, z}};
        add_polygon(m, outline, sizeof outline / sizeof *outline, LINE_VISIBLE, i % 2 ? FILL_HATCH : FILL_HATCH_BACK);
    }
}

/* A rebate for the track: how deep, and how wide. */
static void dimension_rebate(struct model *m, const struct plan_sled *s)
{
    const struct plan_fence *f = &s->reference;
    double out = f->v_outer > f->v_face ? 1 : -1, top = s->base_thickness + f->height, depth = s->flip.rebate_height;
    bool outer = height_of_layer(f, f->layers - 1) < height_of_layer(f, 0);
    double edge = outer ? f->v_outer : f->v_face, step = edge + (outer ? -out : out) * s->flip.rebate_width;
    if (!s->flip.present || depth <= 0)
        return;
    add_dim(m, edge, top - depth, step, top, edge < step ? DIM_LEFT : DIM_RIGHT, SAY_SIZE);
    add_dim(m, edge, top - depth, step, top, DIM_ABOVE, SAY_THICKNESS);
}

void draw_fence_section(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.fence_section");
    const struct plan_sled *s = &plan->sled;
    const struct plan_fence *f = &s->reference;
    const struct plan_part *fence = find_part(plan, PART_REFERENCE_FENCE), *base = find_part(plan, PART_BASE);
    const struct plan_hole *pivot = find_hole(plan, NULL, HOLE_PIVOT);
    double t = s->base_thickness, top = t + f->height, low = fence_low_v(f), high = fence_high_v(f);
    double u0 = fmax(0, low - beyond_fence), u1 = fmin(s->base_depth, high + beyond_fence);
    double work = f->v_face > f->v_outer ? 1 : -1;
    out->fixed_scale = detail_scale(u1 - u0, top);
    add_base_strip(&m, u0, u1, t, low - beyond_fence <= 0, high + beyond_fence >= s->base_depth);
    add_layers(&m, s);
    if (pivot)
        add_screw(&m, pivot, pivot->v, 0, 1);
    add_dim(&m, low, top, high, top, DIM_ABOVE, SAY_THICKNESS);
    add_dim(&m, work > 0 ? u0 : u1, t, f->v_outer, top, work > 0 ? DIM_LEFT : DIM_RIGHT, SAY_SIZE);
    add_dim(&m, work > 0 ? u0 : u1, 0, work > 0 ? u0 : u1, t, work > 0 ? DIM_LEFT : DIM_RIGHT, SAY_THICKNESS);
    dimension_rebate(&m, s);
    struct saying chamfer = {.key = "draw.chamfer", .arg = {SAY_ARG("size", SAY_SIZE, s->chamfer)}};
    enum anchor before = work > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    add_pointed(&m, f->v_face - work * s->chamfer / 2, t + s->chamfer / 2, before, model_say(&m, chamfer))->end = END_HEAD;
    struct draw_label *face = add_pointed(&m, f->v_face, t + 0.72 * f->height, before, words_get("draw.working_face"));
    face->bold = true;
    face->end = END_HEAD;
    double up = 0.45;
    for (const struct plan_part *p = fence; p && p->n_bodies > 0;
         p = next_part(plan, PART_REFERENCE_FENCE, p), up -= 0.12)
        add_part_label(&m, p, (p->bodies[0].v0 + p->bodies[0].v1) / 2 + work * f->thickness / 8, t + up * f->height)
            ->anchor = before;
    if (base)
        add_part_label(&m, base, work > 0 ? u1 - 6 : u0 + 6, t / 2);
    if (pivot)
        add_leader(&m, pivot->v, 0.5 * pivot->screw_length, words_get("draw.pivot_screw"))->anchor =
            work > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
}

void draw_runner_end(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.runner_end");
    const struct plan_sled *s = &plan->sled;
    const struct plan_part *runner = find_part(plan, PART_GUIDE_RUNNER), *base = find_part(plan, PART_BASE);
    const struct plan_runner *r = s->runner[SIDE_LEFT].is_guide ? &s->runner[SIDE_LEFT] : &s->runner[SIDE_RIGHT];
    const struct plan_hole *screw = find_hole(plan, runner, HOLE_FIXED);
    double half = r->width / 2, t = s->base_thickness;
    out->fixed_scale = detail_scale(2 * (half + beyond_runner), t + r->thickness);
    add_base_strip(&m, -half - beyond_runner, half + beyond_runner, t, false, false);
    add_box(&m, -half, -r->thickness, half, 0, LINE_VISIBLE, FILL_HATCH_BACK);
    if (screw)
        add_screw(&m, screw, 0, t, -1);
    add_dim(&m, -half, -r->thickness, half, -r->thickness, DIM_BELOW, SAY_FIT);
    add_dim(&m, half, -r->thickness, half + beyond_runner, 0, DIM_RIGHT, SAY_FIT);
    if (runner)
        add_part_label(&m, runner, half * 0.7, -r->thickness / 2)->anchor = ANCHOR_BELOW;
    if (base)
        add_part_label(&m, base, -half - beyond_runner / 2, t / 2)->anchor = ANCHOR_ABOVE;
}
