/* A sled seen from above, the operator's side below. On the wall: how it is used; for building: where everything sits.

          x -->            PUSH
     +------------------+   A
     |  other fence     |   |
     |   :   ||||       |   |      : runner, hidden     |||| keep-out strip
     | work  ||||  :    |
     |==o====||||====o==|          reference fence, pivot, gauge
     +-------|guard|----+ */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

/* The pivot's dot, from the base's width, so that it keeps a fair size on paper at any scale; the wall's drawing is smaller. */
static double mark_radius(const struct plan_sled *s, bool for_wall)
{
    return s->base_width / (for_wall ? 70 : 110);
}

static double gauge_mark_high(const struct plan_sled *s, bool for_wall)
{
    return 2.2 * mark_radius(s, for_wall);
}

static void add_runners(struct model *m, const struct plan_sled *s)
{
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present)
            add_box(m, r->slot_x - r->width / 2, r->v0, r->slot_x + r->width / 2, r->v0 + r->length, LINE_HIDDEN,
                    FILL_NONE);
    }
}

/* Open where the base is seen, hidden where a fence bridges it. */
static void add_kerf(struct model *m, const struct plan_sled *s)
{
    add_line(m, 0, kerf_near_end(s), 0, s->base_depth, LINE_HEAVY);
}

static void add_kerf_under(struct model *m, const struct plan_sled *s, const struct plan_fence *f)
{
    double v0 = fmax(fence_low_v(f), kerf_near_end(s)), v1 = fence_high_v(f);
    if (v1 > v0)
        add_line(m, 0, v0, 0, v1, LINE_HIDDEN);
}

/* In the base under the guard, and in the guard's foot. */
static void add_kerf_under_guard(struct model *m, const struct plan_sled *s)
{
    double v0 = fmax(s->guard_v0, kerf_near_end(s));
    if (s->guard_v1 > v0)
        add_line(m, 0, v0, 0, s->guard_v1, LINE_HIDDEN);
}

/* From the reference fence's outer face away from the work: the block for moving it stands there. */
static double gauge_way(const struct plan_sled *s)
{
    return s->reference.v_outer < s->reference.v_face ? -1 : 1;
}

/* Where its screw stands, or the middle of a fence that no screw suits. */
static double pivot_v(const struct plan *plan)
{
    for (size_t i = 0; i < plan->n_holes; i++)
        if (plan->holes[i].role == HOLE_PIVOT)
            return plan->holes[i].v;
    return fence_middle_v(&plan->sled.reference);
}

/* The gauge mark is a line across the fence's top; the triangle at the outer face points it out. */
static void add_pivot_and_gauge(struct model *m, const struct plan *plan, bool for_wall)
{
    const struct plan_sled *s = &plan->sled;
    double v = pivot_v(plan), r = fmin(mark_radius(s, for_wall), 0.36 * s->reference.thickness);
    add_circle(m, s->pivot_x, v, r, LINE_NARROW, FILL_BLACK);
    add_gauge_line(m, plan, !for_wall);
    add_gauge_mark(m, s->moving_x, s->reference.v_outer, gauge_way(s) * gauge_mark_high(s, for_wall));
}

/* Fences and guard lie on the base and hide what is under them. */
static void add_upper_parts(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    add_parts(m, plan, PART_OTHER_FENCE, VIEW_PLAN, LINE_VISIBLE, FILL_DARK_TINT);
    add_parts(m, plan, PART_REFERENCE_FENCE, VIEW_PLAN, LINE_VISIBLE, FILL_DARK_TINT);
    add_parts(m, plan, PART_EXIT_GUARD, VIEW_PLAN, LINE_VISIBLE, FILL_DARK_TINT);
    add_kerf_under(m, s, &s->other);
    add_kerf_under(m, s, &s->reference);
    add_kerf_under_guard(m, s);
}

static void add_push(struct model *m, const struct plan_sled *s, double x, double v0, double v1)
{
    double width = s->base_width / 32;
    add_arrow(m, x, v0, x, v1, width);
    struct draw_label *label = add_label(m, x + width / 2, (v0 + v1) / 2, ANCHOR_RIGHT, words_get("draw.push"));
    label->bold = label->upward = true;
}

/* The widest work against the reference fence, its end just over the kerf. */
static void add_work(struct model *m, const struct plan_sled *s, double x0, double x1)
{
    double v = s->reference.v_face, w = s->capacity_width;
    double v_end = s->reference.side == FENCE_NEAR ? v + w : v - w;
    add_box(m, x0, v, x1, v_end, LINE_VISIBLE, FILL_TINT);
}

/* On the side where there is no work. */
static void label_pivot_and_gauge(struct model *m, const struct plan *plan, bool for_wall)
{
    const struct plan_sled *s = &plan->sled;
    enum anchor anchor = s->reference.side == FENCE_NEAR ? ANCHOR_BELOW : ANCHOR_ABOVE;
    add_leader(m, s->pivot_x, pivot_v(plan), words_get(for_wall ? "draw.pivot" : "draw.pivot_hole"))->anchor = anchor;
    struct draw_label *gauge =
        add_leader(m, s->moving_x, s->reference.v_outer + gauge_way(s) * gauge_mark_high(s, for_wall), words_get("draw.gauge"));
    gauge->anchor = anchor;
    gauge->end = END_BARE;
}

/* Beside it on the operator's side of the fence, where neither work nor hatched strip lies. */
static void label_guard_outside(struct model *m, const struct plan_sled *s)
{
    bool right = s->pivot_x > s->moving_x; /* the mark's name needs the room at its own end */
    struct draw_label *guard = add_leader(m, (right ? 0.35 : -0.35) * s->guard_width, (s->guard_v0 + s->guard_v1) / 2, words_get("draw.guard"));
    guard->bold = true;
    guard->anchor = right ? ANCHOR_RIGHT : ANCHOR_LEFT;
}

static void label_wall(struct model *m, const struct plan *plan, double work_x0)
{
    const struct plan_sled *s = &plan->sled;
    double v_face = s->reference.v_face, way = s->reference.side == FENCE_NEAR ? 1 : -1;
    double left = fmin(fabs(work_x0), fabs(s->keep_out));
    struct draw_label *work =
        add_label(m, (work_x0 - left) / 2, v_face + way * s->capacity_width * 0.45, ANCHOR_CENTRE, words_get("draw.work"));
    work->has_home = true; /* so that the others keep off it */
    work->home_from = (struct draw_point){work_x0, v_face};
    work->home_to = (struct draw_point){0.5 * s->keep_out, v_face + way * s->capacity_width};
    struct draw_label *no_hands =
        add_leader(m, 0.8 * s->keep_out, v_face + way * s->capacity_width * 0.85, words_get("draw.no_hands"));
    no_hands->bold = no_hands->pointed = true;
    no_hands->anchor = ANCHOR_RIGHT;
    if (s->guard_v1 > s->guard_v0)
        label_guard_outside(m, s);
    const struct plan_part *stop = find_part(plan, PART_TRAVEL_STOP);
    if (stop && stop->n_bodies > 0) {
        struct flat f = body_flat(&stop->bodies[0], VIEW_PLAN);
        add_leader(m, (f.x0 + f.x1) / 2, middle_beyond(s->base_depth, f.y0, f.y1), words_get("draw.travel_stop"));
    }
    label_pivot_and_gauge(m, plan, true);
}

static void draw_for_wall(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    double right = s->base_x0 + s->base_width, x0 = s->base_x0 + 0.05 * s->base_width,
           x1 = fmin(0.5 * s->keep_out, 0.5 * right);
    double v_face = s->reference.v_face,
           v_end = v_face + (s->reference.side == FENCE_NEAR ? 1 : -1) * s->capacity_width;
    add_parts(m, plan, PART_BASE, VIEW_PLAN, LINE_VISIBLE, FILL_WHITE);
    add_runners(m, s);
    add_work(m, s, x0, x1);
    add_parts(m, plan, PART_TRAVEL_STOP, VIEW_PLAN, LINE_PHANTOM, FILL_NONE);
    add_kerf(m, s);
    add_box(m, -s->keep_out, 0, s->keep_out, s->base_depth, LINE_NONE, FILL_KEEP_OUT);
    add_upper_parts(m, plan);
    add_pivot_and_gauge(m, plan, true);
    add_push(m, s, right + s->base_width / 24, 0.18 * s->base_depth, 0.62 * s->base_depth);
    add_dim(m, s->base_x0, v_face, s->base_x0, v_end, DIM_LEFT, SAY_SIZE);
    add_dim(m, s->pivot_x, 0, s->moving_x, 0, DIM_BELOW, SAY_SIZE);
    label_wall(m, plan, x0);
}

/* A fence shorter than the base: its length and where it begins. */
static void dimension_short_fence(struct model *m, const struct plan_sled *s, const struct plan_fence *f,
                                  enum dim_side side)
{
    double v = side == DIM_BELOW ? fence_low_v(f) : fence_high_v(f);
    if (f->length > s->base_width - 0.5)
        return;
    add_dim(m, f->x0, v, 0, side == DIM_BELOW ? 0 : s->base_depth, side, SAY_SIZE);
    add_dim(m, f->x0, v, f->x0 + f->length, v, side, SAY_SIZE);
}

/* Sideways, from the blade plane: what belongs to the reference fence on its side of the base, the rest opposite. */
static void dimension_sideways(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    bool near = s->reference.side == FENCE_NEAR;
    enum dim_side fence_side = near ? DIM_BELOW : DIM_ABOVE, other_side = near ? DIM_ABOVE : DIM_BELOW;
    double left = s->base_x0, right = left + s->base_width, v = pivot_v(plan);
    double edge = near ? 0 : s->base_depth, other_edge = near ? s->base_depth : 0;
    add_dim(m, s->pivot_x, v, 0, edge, fence_side, SAY_SIZE);
    add_dim(m, s->moving_x, s->reference.v_outer + gauge_way(s) * gauge_mark_high(s, false), 0, edge, fence_side, SAY_SIZE);
    add_dim(m, left, edge, 0, edge, fence_side, SAY_SIZE);
    add_dim(m, left, edge, right, edge, fence_side, SAY_SIZE);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++)
        if (s->runner[side].present)
            add_dim(m, 0, other_edge, s->runner[side].slot_x, other_edge, other_side, SAY_SIZE);
    dimension_short_fence(m, s, &s->reference, fence_side);
    dimension_short_fence(m, s, &s->other, other_side);
}

/* Along the feed, from the base's near edge. */
static void dimension_along(struct model *m, const struct plan_sled *s)
{
    const struct plan_fence *near = near_fence(s), *far = far_fence(s);
    double left = s->base_x0, right = left + s->base_width, depth = s->base_depth;
    double near_end = near->x0 + near->length, far_end = far->x0 + far->length;
    add_dim(m, left, 0, near->x0, fence_low_v(near), DIM_LEFT, SAY_SIZE);
    add_dim(m, near->x0, fence_low_v(near), near->x0, fence_high_v(near), DIM_LEFT, SAY_THICKNESS);
    add_dim(m, left, 0, left, depth, DIM_LEFT, SAY_SIZE);
    add_dim(m, near_end, fence_high_v(near), far_end, fence_low_v(far), DIM_RIGHT, SAY_SIZE);
    add_dim(m, far_end, fence_low_v(far), far_end, fence_high_v(far), DIM_RIGHT, SAY_THICKNESS);
    if (depth - fence_high_v(far) > 0.5)
        add_dim(m, far_end, fence_high_v(far), right, depth, DIM_RIGHT, SAY_SIZE);
}

static void label_part_at(struct model *m, const struct plan *plan, enum part_kind kind, double x, double v)
{
    const struct plan_part *part = find_part(plan, kind);
    if (part && part->n_bodies > 0)
        add_part_label(m, part, x, v);
}

/* A quarter of its thickness from the face that looks at the work: no screw stands there, and no joint of two layers. */
static double off_middle(const struct plan_sled *s, enum part_kind kind, const struct body *b)
{
    const struct plan_fence *f = kind == PART_REFERENCE_FENCE ? &s->reference : &s->other;
    return f->v_face > f->v_outer ? b->v1 - 0.25 * (b->v1 - b->v0) : b->v0 + 0.25 * (b->v1 - b->v0);
}

static void label_fence(struct model *m, const struct plan *plan, enum part_kind kind, double x)
{
    for (const struct plan_part *p = find_part(plan, kind); p; p = next_part(plan, kind, p))
        if (p->n_bodies > 0)
            add_part_label(m, p, x, off_middle(&plan->sled, kind, &p->bodies[0]));
}

/* In the wider of the two fields beside the runner on the left, or in the field that there is. */
static double middle_of_left_field(const struct plan_sled *s)
{
    double left = s->base_x0, slot = s->runner[SIDE_LEFT].present ? s->runner[SIDE_LEFT].slot_x : left;
    return slot - left > -slot ? (left + slot) / 2 : slot / 2;
}

/* Of the one in the middle: a name's leader does not end on a joint. */
static double middle_of_a_guard_layer(const struct plan_sled *s)
{
    int layers = s->guard_layers > 0 ? s->guard_layers : 1;
    return s->guard_v0 + (s->guard_v1 - s->guard_v0) * (layers / 2 + 0.5) / layers;
}

/* As it lies in its slot while the sled stands on it. */
static void label_stop(struct model *m, const struct plan *plan)
{
    const struct plan_part *stop = find_part(plan, PART_TRAVEL_STOP);
    if (!stop || stop->n_bodies == 0)
        return;
    struct flat f = body_flat(&stop->bodies[0], VIEW_PLAN);
    add_part_label(m, stop, (f.x0 + f.x1) / 2, middle_beyond(plan->sled.base_depth, f.y0, f.y1));
}

static void label_build(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    double right = s->base_x0 + s->base_width, room = fence_low_v(far_fence(s)) - fence_high_v(near_fence(s));
    double middle = fence_high_v(near_fence(s)) + room / 2;
    label_part_at(m, plan, PART_BASE, middle_of_left_field(s), middle + 0.12 * room);
    label_fence(m, plan, PART_REFERENCE_FENCE, (s->moving_x > 0 ? 0.55 : -0.55) * fmin(fabs(s->moving_x), right));
    label_fence(m, plan, PART_OTHER_FENCE, s->other.x0 + 0.3 * s->other.length);
    label_part_at(m, plan, PART_EXIT_GUARD, 0, middle_of_a_guard_layer(s));
    label_part_at(m, plan, PART_BLADE_COVER, 0.7 * s->keep_out, middle - 0.3 * room);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present)
            label_part_at(m, plan, r->is_guide ? PART_GUIDE_RUNNER : PART_FREE_RUNNER, r->slot_x,
                          between_screws(plan, r->slot_x, middle - 0.2 * room));
    }
    label_stop(m, plan);
    add_leader(m, 0, middle + 0.3 * room, words_get("draw.kerf"))->end = END_HEAD;
    label_pivot_and_gauge(m, plan, false);
    label_moving_holes(m, plan);
}

static void draw_for_build(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    double right = s->base_x0 + s->base_width;
    add_parts(m, plan, PART_BASE, VIEW_PLAN, LINE_VISIBLE, FILL_WHITE);
    add_runners(m, s);
    add_parts(m, plan, PART_TRAVEL_STOP, VIEW_PLAN, LINE_PHANTOM, FILL_NONE);
    add_kerf(m, s);
    add_upper_parts(m, plan);
    add_parts(m, plan, PART_BLADE_COVER, VIEW_PLAN, LINE_PHANTOM, FILL_NONE); /* on the fences, seen through */
    add_fence_layers(m, &s->reference, s->base_thickness, VIEW_PLAN);
    add_fence_layers(m, &s->other, s->base_thickness, VIEW_PLAN);
    add_guard_layers(m, s, VIEW_PLAN);
    add_pivot_and_gauge(m, plan, false);
    add_holes(m, plan);
    double free_x = s->runner[SIDE_RIGHT].present ? (s->runner[SIDE_RIGHT].slot_x + right) / 2 : right * 0.7;
    double v0 = fence_high_v(near_fence(s)), room = fence_low_v(far_fence(s)) - v0;
    add_push(m, s, free_x, v0 + 0.3 * room, v0 + 0.65 * room);
    dimension_sideways(m, plan);
    dimension_along(m, s);
    label_build(m, plan);
}

void draw_plan_view(const struct plan *plan, enum units units, bool for_wall, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, for_wall ? "draw.title.wall" : "draw.title.plan");
    out->any_scale = for_wall;
    if (for_wall)
        draw_for_wall(&m, plan);
    else
        draw_for_build(&m, plan);
}
