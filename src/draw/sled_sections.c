/* Sections: along the kerf, the sled on its stop, the blade at its highest; across the guide runner in its slot. A thing is
   hatched alike in all of them (ISO 128-3, from memory): the base close, the saw's table wide, the runner as in true_size.c. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

enum { ARC_SIDES = 48 };
static const double table_shown = 14; /* of the table's thickness [mm] */

/*  z1 +--------+      what is left of a box cut by the blade: above the arc; nothing where the arc passes z1
       |///////|
       |/////_/
    z0 +----'                                                                                              */
static void add_cut_wood(struct model *m, const struct plan_travel *t, struct flat box, enum fill_kind fill)
{
    struct draw_point points[ARC_SIDES + 4];
    size_t n = 0;
    double y_end = box.x1, reach = t->blade_radius - t->highest + box.y1;
    if (reach < t->blade_radius)
        y_end = fmin(box.x1, t->blade_axis_y - sqrt(t->blade_radius * t->blade_radius - reach * reach));
    if (reach < t->blade_radius && y_end <= box.x0)
        return;
    points[n++] = (struct draw_point){y_end, box.y1};
    points[n++] = (struct draw_point){box.x0, box.y1};
    for (int i = 0; i <= ARC_SIDES; i++) {
        double y = box.x0 + (y_end - box.x0) * i / ARC_SIDES;
        points[n++] = (struct draw_point){y, fmin(box.y1, fmax(box.y0, drawn_cut_height(t, y)))};
    }
    add_polygon(m, points, n, LINE_VISIBLE, fill);
}

/* The box behind the kerf is seen in full, its cut part hatched. */
static void add_cut_body(struct model *m, const struct plan_travel *t, const struct body *b, enum fill_kind fill)
{
    if (b->x0 >= 0 || b->x1 <= 0)
        return;
    struct flat f = body_flat(b, VIEW_SIDE);
    f.x0 += t->edge_stop;
    f.x1 += t->edge_stop;
    add_box(m, f.x0, f.y0, f.x1, f.y1, LINE_VISIBLE, FILL_WHITE);
    add_cut_wood(m, t, f, fill);
}

static void add_cut_parts(struct model *m, const struct plan *plan, enum part_kind kind, enum fill_kind fill)
{
    for (const struct plan_part *p = find_part(plan, kind); p; p = next_part(plan, kind, p))
        for (size_t i = 0; i < p->n_bodies; i++)
            add_cut_body(m, &plan->sled.travel, &p->bodies[i], fill);
}

static void add_table(struct model *m, const struct plan_sled *s, double y0, double y1)
{
    const struct plan_travel *t = &s->travel;
    double half = drawn_half_chord(t, 0) + 3, gap0 = t->blade_axis_y - half, gap1 = t->blade_axis_y + half;
    double pieces[][2] = {{y0, gap0}, {gap1, y1}};
    for (int i = 0; i < 2; i++) {
        double a = pieces[i][0], b = pieces[i][1];
        if (b <= a)
            continue;
        add_box(m, a, -table_shown, b, 0, LINE_NONE, FILL_HATCH_WIDE);
        add_line(m, a, 0, b, 0, LINE_VISIBLE);
    }
    if (y1 > gap1)
        add_line(m, gap1, 0, gap1, -table_shown, LINE_VISIBLE);
    if (gap0 > y0)
        add_line(m, gap0, 0, gap0, -table_shown, LINE_VISIBLE);
}

static void add_blade(struct model *m, const struct plan_travel *t)
{
    double axis_z = t->highest - t->blade_radius, z = -0.6 * table_shown;
    double low = asin(fmax(-1, fmin(1, (z - axis_z) / t->blade_radius)));
    add_arc(m, t->blade_axis_y, axis_z, t->blade_radius, low, UNIT_PI - low, LINE_VISIBLE);
    add_line(m, t->blade_axis_y, z, t->blade_axis_y, t->highest + 0.12 * t->highest, LINE_CENTRE);
}

/* The outer face that the blade comes out of, on the stop: of the fence on the operator's side. */
static void dimension_kerf(struct model *m, const struct plan_sled *s)
{
    const struct plan_travel *t = &s->travel;
    const struct plan_fence *near = near_fence(s);
    double blade_near = t->blade_axis_y - drawn_half_chord(t, 0), outer = t->edge_stop + fence_low_v(near);
    double guard_end = t->edge_stop + s->guard_v0, top = s->base_thickness + near->height;
    bool has_guard = s->guard_v1 > s->guard_v0;
    if (has_guard && blade_near > guard_end)
        add_dim(m, guard_end, 0, blade_near, 0, DIM_BELOW, SAY_THICKNESS);
    if (outer > blade_near)
        add_dim(m, blade_near, 0, outer, 0, DIM_BELOW, SAY_THICKNESS);
    if (has_guard)
        add_dim(m, guard_end, s->base_thickness + s->guard_height, outer, s->base_thickness + s->guard_height,
                DIM_ABOVE, SAY_THICKNESS);
    double end = t->edge_stop + s->base_depth;
    const struct plan_fence *far = far_fence(s);
    double far_top = s->base_thickness + far->height, far_v = t->edge_stop + fence_high_v(far);
    add_dim(m, end, 0, t->blade_axis_y, t->highest, DIM_RIGHT, SAY_SIZE);
    add_dim(m, t->blade_axis_y, t->highest, far_v, far_top, DIM_RIGHT, SAY_THICKNESS);
    if (fabs(top - far_top) > 0.5)
        add_dim(m, t->blade_axis_y, t->highest, outer, top, DIM_LEFT, SAY_THICKNESS);
    add_dim(m, end, 0, end, s->base_thickness, DIM_RIGHT, SAY_THICKNESS);
    if (blade_near > t->edge_stop)
        add_circle(m, blade_near, 0, s->base_depth / 250, LINE_NONE, FILL_BLACK); /* what is measured to, beside the blade's arc */
}

static void label_cut_parts(struct model *m, const struct plan *plan, enum part_kind kind, double down)
{
    for (const struct plan_part *p = find_part(plan, kind); p; p = next_part(plan, kind, p)) {
        if (p->n_bodies == 0)
            continue;
        struct flat f = body_flat(&p->bodies[0], VIEW_SIDE);
        add_part_label(m, p, plan->sled.travel.edge_stop + (f.x0 + f.x1) / 2, f.y1 - down * (f.y1 - f.y0));
    }
}

static void label_kerf(struct model *m, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    const struct plan_travel *t = &s->travel;
    label_cut_parts(m, plan, PART_EXIT_GUARD, 0.35);
    label_cut_parts(m, plan, PART_REFERENCE_FENCE, 0.15);
    label_cut_parts(m, plan, PART_OTHER_FENCE, 0.1);
    label_cut_parts(m, plan, PART_BLADE_COVER, 0.5);
    const struct plan_part *base = find_part(plan, PART_BASE);
    double v = s->base_depth * 0.7;
    if (base)
        add_part_label(m, base, t->edge_stop + v, s->base_thickness / 2);
    add_leader(m, t->blade_axis_y + 0.3 * t->blade_radius, 0.45 * t->highest, words_get("draw.blade"));
    double way = s->reference.side == FENCE_NEAR ? 1 : -1;
    add_leader(m, t->y_stop + (way > 0 ? 0.75 : -0.3) * s->capacity_width,
               s->base_thickness + 0.75 * s->capacity_thickness, words_get("draw.work"));
    add_label(m, t->edge_stop + 0.93 * s->base_depth, -table_shown, ANCHOR_BELOW, words_get("draw.table"));
}

void draw_kerf_section(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.kerf");
    const struct plan_sled *s = &plan->sled;
    const struct plan_travel *t = &s->travel;
    double way = s->reference.side == FENCE_NEAR ? 1 : -1, half = drawn_half_chord(t, 0);
    double y0 = fmin(t->edge_stop, t->blade_axis_y - half) - 30;
    double y1 = fmax(t->edge_stop + s->base_depth, t->blade_axis_y + half) + 20;
    add_table(&m, s, y0, y1);
    add_cut_parts(&m, plan, PART_BASE, FILL_HATCH_CLOSE);
    add_cut_parts(&m, plan, PART_OTHER_FENCE, FILL_HATCH);
    add_cut_parts(&m, plan, PART_REFERENCE_FENCE, FILL_HATCH);
    add_cut_parts(&m, plan, PART_EXIT_GUARD, FILL_HATCH_BACK);
    add_cut_parts(&m, plan, PART_BLADE_COVER, FILL_HATCH_BACK);
    add_box(&m, t->y_stop, s->base_thickness, t->y_stop + way * s->capacity_width,
            s->base_thickness + s->capacity_thickness, LINE_PHANTOM, FILL_NONE);
    add_blade(&m, t);
    dimension_kerf(&m, s);
    label_kerf(&m, plan);
}

/* The clearance is drawn this many times larger than it is. */
static const double clearance_drawn = 16;

static double check_value(const struct plan *plan, enum check_id id)
{
    const struct plan_check *check = plan_find_check(plan, id);
    return check ? check->value : NAN;
}

/* In a slot whose inside is `slot` either side of the middle and ends at `bottom`; its place below the table enlarged, too. */
static void add_lining(struct model *m, const struct plan_routing *r, double slot, double bottom)
{
    double out = slot + r->lining_wall, low = bottom - r->lining_floor, top = -fmin(1, clearance_drawn * r->sunk / 2);
    struct draw_point lining[] = {{-out, top}, {-out, low}, {out, low}, {out, top}, {slot, top}, {slot, bottom}, {-slot, bottom}, {-slot, top}};
    if (r->lining_floor <= 0)
        return;
    add_polygon(m, lining, 8, LINE_VISIBLE, FILL_HATCH);
    add_pointed(m, slot + r->lining_wall / 2, 0.45 * bottom, ANCHOR_RIGHT, words_get("draw.lining"));
}

/* Across the guide, looking away from the operator. The slot is drawn round the runner, the clearance beside and below
   it enlarged: on both sides alike, though the runner is pressed to one. */
void draw_runner_section(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.runner");
    out->to_scale = false; /* the clearance is not */
    const struct plan_sled *s = &plan->sled;
    const struct plan_runner *r = s->runner[SIDE_LEFT].is_guide ? &s->runner[SIDE_LEFT] : &s->runner[SIDE_RIGHT];
    const struct plan_check *height = plan_find_check(plan, CHECK_RUNNER_HEIGHT);
    double play = check_value(plan, CHECK_RUNNER_PLAY), half = r->width / 2, left = half + 1.2 * r->width, right = left;
    double gap = isnan(play) || play <= 0 ? 0.6 : fmax(0.6, fmin(2.5, clearance_drawn * play / 2));
    double depth = height ? height->high + 0.5 : r->thickness + 0.5, below = fmax(2.2, depth - r->thickness);
    double bottom = -r->thickness - below, slot = half + gap;
    double groove = slot + s->routing.lining_wall, deep = bottom - s->routing.lining_floor, low = deep - 5;
    struct draw_point table[] = {{-left, 0}, {-groove, 0}, {-groove, deep}, {groove, deep},
                                 {groove, 0}, {right, 0}, {right, low},     {-left, low}};
    add_polygon(&m, table, 8, LINE_NONE, FILL_HATCH_WIDE);
    add_polyline(&m, table, 6, LINE_VISIBLE);
    add_lining(&m, &s->routing, slot, bottom);
    add_box(&m, -left, 0, right, s->base_thickness, LINE_NONE, FILL_HATCH_CLOSE);
    add_line(&m, -left, 0, right, 0, LINE_VISIBLE);
    add_line(&m, -left, s->base_thickness, right, s->base_thickness, LINE_VISIBLE);
    add_box(&m, -half, -r->thickness, half, 0, LINE_VISIBLE, FILL_HATCH_BACK);
    if (!isnan(play))
        add_dim_of(&m, -slot, low, slot, low, DIM_BELOW, SAY_FIT, r->width + play);
    add_dim_of(&m, -half, s->base_thickness, half, s->base_thickness, DIM_ABOVE, SAY_FIT, r->width);
    add_dim(&m, -left, 0, -left, s->base_thickness, DIM_LEFT, SAY_THICKNESS);
    add_dim(&m, half, -r->thickness, right, 0, DIM_RIGHT, SAY_FIT);
    add_dim_of(&m, slot, bottom, right, 0, DIM_RIGHT, SAY_FIT, depth);
    const struct plan_part *runner = find_part(plan, PART_GUIDE_RUNNER), *base = find_part(plan, PART_BASE);
    if (runner)
        add_part_label(&m, runner, 0, -r->thickness * 0.5);
    if (base)
        add_part_label(&m, base, -left * 0.65, s->base_thickness / 2);
    add_label(&m, -left * 0.65, low / 2, ANCHOR_CENTRE, words_get("draw.table"));
}
