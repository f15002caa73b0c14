/* The flip stop: its pieces at true scale, put together across the fence, and along the fence with its tape. Right and
   left are as the operator sees them, whichever side of the blade the stop lies on. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static const double hinge_thick = 1.5, leaf_share = 0.8; /* bought: what it looks like [mm], of the wood under a leaf */

static void add_bolt_hole(struct model *m, const struct plan_flip *f, double x, double y)
{
    double arm = f->bolt_hole;
    struct saying hole = {.key = "draw.bolt_hole", .arg = {SAY_ARG("hole", SAY_THICKNESS, f->bolt_hole)}};
    add_circle(m, x, y, f->bolt_hole / 2, LINE_VISIBLE, FILL_WHITE);
    add_line(m, x - arm, y, x + arm, y, LINE_CENTRE);
    add_line(m, x, y - arm, x, y + arm, LINE_CENTRE);
    add_leader(m, x, y, model_say(m, hole))->anchor = ANCHOR_RIGHT;
}

static struct draw_label *label_piece(struct model *m, const struct plan *plan, enum part_kind kind, double x, double y)
{
    return add_part_label(m, find_part(plan, kind), x, y);
}

/* From above; `work` is +1 where the working face lies away from the operator. The blade lies toward x `end`. */
static void add_body_piece(struct model *m, const struct plan *plan, double x0, double y0, double work, double toward)
{
    const struct plan_flip *f = &plan->sled.flip;
    double x1 = x0 + f->body_length, y1 = y0 + f->body_width, end = toward > 0 ? x1 : x0;
    double front = work > 0 ? y1 : y0, hinge = end - toward * f->arm_width;
    add_box(m, x0, y0, x1, y1, LINE_VISIBLE, FILL_TINT);
    add_box(m, end, front, hinge, front - work * leaf_share * f->body_thickness, LINE_NARROW, FILL_DARK_TINT);
    add_box(m, end, front - work * hinge_thick, hinge, front + work * hinge_thick, LINE_NARROW, FILL_WHITE); /* pin */
    add_label(m, (end + hinge) / 2, front - work * leaf_share * f->body_thickness / 2, ANCHOR_CENTRE, words_get("draw.hinge"));
    label_piece(m, plan, PART_FLIP_STOP, (x0 + x1) / 2, front - work * 0.8 * f->body_width);
    double arrow = front - work * (f->body_thickness + f->body_width) / 2, from = end - toward * 24;
    add_arrow(m, from, arrow, end - toward * 4, arrow, 5);
    add_label(m, from, arrow, toward > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT, words_get("draw.to_blade"));
    if (f->cheek_height > 0)
        return;
    double bolt = front - work * f->bolt_across, along = end - toward * f->bolt_along;
    add_bolt_hole(m, f, along, bolt);
    add_dim(m, x0, front, along, bolt, DIM_LEFT, SAY_SIZE);
    add_dim(m, end, bolt, along, bolt, DIM_BELOW, SAY_SIZE);
}

/* From the operator's place; its top edge goes under the body. */
static void add_cheek_piece(struct model *m, const struct plan *plan, double x0, double y0, double toward)
{
    const struct plan_flip *f = &plan->sled.flip;
    double x1 = x0 + f->body_length, y1 = y0 + f->cheek_height, end = toward > 0 ? x1 : x0;
    double along = end - toward * f->bolt_along, up = y1 - f->bolt_across;
    add_box(m, x0, y0, x1, y1, LINE_VISIBLE, FILL_TINT);
    add_bolt_hole(m, f, along, up);
    label_piece(m, plan, PART_FLIP_CHEEK, x0 + 0.2 * f->body_length, y0 + 0.2 * f->cheek_height);
    add_dim(m, x0, y0, x0, y1, DIM_LEFT, SAY_SIZE);
    add_dim(m, x0, y1, along, up, DIM_LEFT, SAY_SIZE);
    add_dim(m, end, y0, along, up, DIM_BELOW, SAY_SIZE);
}

/* From the operator's place; a leaf of the hinge lies on its top end. */
static void add_arm_piece(struct model *m, const struct plan *plan, double x0, double y1)
{
    const struct plan_flip *f = &plan->sled.flip;
    double x1 = x0 + f->arm_width, y0 = y1 - f->arm_length;
    add_box(m, x0, y0, x1, y1, LINE_VISIBLE, FILL_TINT);
    add_box(m, x0, y1, x1, y1 + hinge_thick, LINE_NARROW, FILL_DARK_TINT);
    add_label(m, (x0 + x1) / 2, y1 + hinge_thick, ANCHOR_ABOVE, words_get("draw.hinge"));
    label_piece(m, plan, PART_FLIP_ARM, (x0 + x1) / 2, (y0 + y1) / 2);
    add_dim(m, x0, y0, x1, y0, DIM_BELOW, SAY_SIZE);
    add_dim(m, x1, y0, x1, y1, DIM_RIGHT, SAY_SIZE);
}

void draw_flip_pieces(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.flip_pieces");
    const struct plan_flip *f = &plan->sled.flip;
    const struct plan_fence *fence = &plan->sled.reference;
    double work = fence->v_face > fence->v_outer ? 1 : -1, toward = f->side == SIDE_LEFT ? 1 : -1, apart = 22;
    double x_arm = f->body_length + 18, y_cheek = -apart - f->cheek_height;
    out->fixed_scale = f->arm_length <= 165 ? 1 : 0.5;
    add_body_piece(&m, plan, 0, 0, work, toward);
    if (f->cheek_height > 0)
        add_cheek_piece(&m, plan, 0, y_cheek, toward);
    add_arm_piece(&m, plan, x_arm, f->body_width);
    add_dim(&m, 0, f->body_width, f->body_length, f->body_width, DIM_ABOVE, SAY_SIZE);
    add_dim(&m, 0, 0, 0, f->body_width, DIM_LEFT, SAY_SIZE);
}

void draw_flip_section(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.flip_section");
    const struct plan_sled *s = &plan->sled;
    const struct plan_flip *f = &s->flip;
    const struct plan_fence *fence = &s->reference;
    double work = fence->v_face > fence->v_outer ? 1 : -1, t = f->body_thickness,
           top = s->base_thickness + fence->height;
    double face = fence->v_face, back = face - work * f->body_width, front = face + work * t;
    out->any_scale = true;
    double low = fmin(back, front) - 15, high = fmax(back, front) + 15;
    add_line(&m, low, 0, high, 0, LINE_VISIBLE);
    add_line(&m, low, s->base_thickness, high, s->base_thickness, LINE_VISIBLE);
    for (int i = 0; i < fence->layers; i++) {
        double out_way = -work * fence->thickness / fence->layers, near = face + out_way * i;
        double height = fence->layer_heights ? fence->layer_heights[i] : fence->height;
        add_box(&m, near, s->base_thickness, near + out_way, s->base_thickness + height, LINE_VISIBLE, FILL_WHITE);
    }
    add_box(&m, face, top, back, top + t, LINE_VISIBLE, FILL_TINT);
    add_box(&m, face, top + t - f->arm_length, front, top + t, LINE_VISIBLE, FILL_TINT);
    add_box(&m, face - work * leaf_share * t, top + t, face + work * leaf_share * t, top + t + hinge_thick, LINE_NARROW, FILL_DARK_TINT);
    add_circle(&m, face, top + t + hinge_thick, hinge_thick, LINE_VISIBLE, FILL_WHITE);
    add_leader(&m, face, top + t + 2 * hinge_thick, words_get("draw.hinge"))->anchor = ANCHOR_ABOVE;
    double outer = fence->v_outer;
    if (f->cheek_height > 0) {
        double bolt = top - f->bolt_across;
        add_box(&m, back + work * t, top - f->cheek_height, back, top, LINE_VISIBLE, FILL_TINT);
        add_box(&m, outer, bolt - f->bolt_hole, outer - work * f->track_height, bolt + f->bolt_hole, LINE_VISIBLE, FILL_DARK_TINT);
        add_line(&m, outer, bolt, back - work * 9, bolt, LINE_CENTRE);
        add_dim(&m, back, bolt, outer, top, work > 0 ? DIM_LEFT : DIM_RIGHT, SAY_SIZE);
        add_leader(&m, outer - work * f->track_height / 2, bolt - f->bolt_hole / 2, words_get("draw.track"))->anchor =
            work > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
        label_piece(&m, plan, PART_FLIP_CHEEK, back + work * 4, top - 0.85 * f->cheek_height)->anchor =
            work > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
    } else {
        double x = face - work * f->bolt_across, half = f->rebate_width / 3;
        add_box(&m, x - half, top - f->rebate_height, x + half, top, LINE_VISIBLE, FILL_DARK_TINT);
        add_line(&m, x, top - f->rebate_height - 3, x, top + t + 9, LINE_CENTRE);
        add_leader(&m, x + half / 2, top - f->rebate_height / 2, words_get("draw.track"));
    }
    enum anchor behind = work > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT, before = work > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    label_piece(&m, plan, PART_FLIP_STOP, back + work * 4, top + t / 2)->anchor = behind;
    label_piece(&m, plan, PART_FLIP_ARM, front - work * t / 3, top - 0.4 * fence->height)->anchor = before;
    double up = 0.45;
    for (const struct plan_part *p = find_part(plan, PART_REFERENCE_FENCE); p && p->n_bodies > 0;
         p = next_part(plan, PART_REFERENCE_FENCE, p), up -= 0.15)
        add_part_label(&m, p, (p->bodies[0].v0 + p->bodies[0].v1) / 2 - work * fence->thickness / 8,
                       s->base_thickness + up * fence->height)
            ->anchor = behind;
    label_piece(&m, plan, PART_BASE, low + 5, s->base_thickness / 2);
    add_dim(&m, high, s->base_thickness, front, s->base_thickness + f->gap, work > 0 ? DIM_RIGHT : DIM_LEFT, SAY_SIZE);
}

/* The stop where a piece of that length ends at its arm. */
static void add_stop_at(struct model *m, const struct plan *plan, double length, enum line_kind line,
                        enum fill_kind fill)
{
    const struct plan_flip *f = &plan->sled.flip;
    const struct plan_fence *fence = &plan->sled.reference;
    double way = f->side == SIDE_LEFT ? -1 : 1, work = fence->v_face > fence->v_outer ? 1 : -1;
    double x = way * (f->tape_zero - f->body_length + length);
    add_box(m, x, fence->v_face, x + way * f->body_length, fence->v_face - work * f->body_width, line, fill);
    add_box(m, x, fence->v_face, x + way * f->arm_width, fence->v_face + work * f->body_thickness, line, fill);
}

/* Where it lies on the fence, from the working face outward: behind the fence, or in its rebate. */
static void add_track(struct model *m, const struct plan *plan, double end)
{
    const struct plan_flip *f = &plan->sled.flip;
    const struct plan_fence *fence = &plan->sled.reference;
    double way = f->side == SIDE_LEFT ? -1 : 1, work = fence->v_face > fence->v_outer ? 1 : -1;
    double near = fence->v_outer, far = fence->v_outer - work * f->track_height;
    if (f->cheek_height <= 0) {
        near = fence->v_face - work * (f->bolt_across - f->rebate_width / 3);
        far = fence->v_face - work * (f->bolt_across + f->rebate_width / 3);
    }
    add_box(m, end - way * f->track_length, near, end, far, LINE_NARROW, FILL_HATCH);
    add_leader(m, end - way * 0.04 * f->track_length, (near + far) / 2, words_get("draw.track"))->anchor =
        way < 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
}

/* The middle of the tape, from the working face: that of the top, or of the layer that has no rebate. */
static double tape_middle(const struct plan_flip *f, const struct plan_fence *fence)
{
    bool at_work = f->cheek_height <= 0 && f->bolt_across < f->rebate_width;
    return (at_work ? f->rebate_width : 0) + (fence->thickness - f->rebate_width) / 2;
}

void draw_flip_reach(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.flip_reach");
    const struct plan_sled *s = &plan->sled;
    const struct plan_flip *f = &s->flip;
    const struct plan_fence *fence = &s->reference;
    double way = f->side == SIDE_LEFT ? -1 : 1, work = fence->v_face > fence->v_outer ? 1 : -1;
    double half_kerf = f->tape_zero - f->body_length, end = way > 0 ? fence->x0 + fence->length : fence->x0;
    double shown = (f->shortest + f->longest) / 2, off = -way * 0.3 * (f->longest + f->body_length);
    double face = fence->v_face, tape = face - work * tape_middle(f, fence), far = face + work * 70;
    double mark = 0.02 * (f->longest + f->body_length);
    enum dim_side at_work = work > 0 ? DIM_ABOVE : DIM_BELOW, behind = work > 0 ? DIM_BELOW : DIM_ABOVE;
    out->any_scale = true;
    add_box(&m, -half_kerf, face, half_kerf, far + 6 * work, LINE_NONE, FILL_BLACK);
    add_box(&m, way * half_kerf, face, way * (half_kerf + shown), far, LINE_VISIBLE, FILL_TINT);
    add_box(&m, -way * half_kerf, face, off, far, LINE_NARROW, FILL_WHITE);
    add_box(&m, off, face, end, fence->v_outer, LINE_VISIBLE, FILL_DARK_TINT);
    add_line(&m, 0, fence->v_outer - work * 12, 0, far + work * 12, LINE_CENTRE);
    add_track(&m, plan, end);
    add_box(&m, way * f->tape_zero, tape + work * mark / 2, end, tape - work * mark / 2, LINE_NARROW, FILL_WHITE);
    add_stop_at(&m, plan, shown, LINE_VISIBLE, FILL_WHITE);
    add_stop_at(&m, plan, f->shortest, LINE_PHANTOM, FILL_NONE);
    add_stop_at(&m, plan, f->longest, LINE_PHANTOM, FILL_NONE);
    add_dim(&m, way * half_kerf, far, way * (half_kerf + f->shortest), far, at_work, SAY_SIZE);
    add_dim(&m, way * half_kerf, far, way * (half_kerf + f->longest), face + work * f->body_thickness, at_work,
            SAY_SIZE);
    add_dim(&m, 0, fence->v_outer, way * f->tape_zero, tape, behind, SAY_THICKNESS);
    add_label(&m, way * (half_kerf + shown / 2), (face + far) / 2 + work * 12, ANCHOR_CENTRE, words_get("draw.kept"))
        ->bold = true;
    add_leader(&m, off * 0.55, (face + far) / 2, words_get("draw.offcut"));
    enum anchor outside = work > 0 ? ANCHOR_BELOW : ANCHOR_ABOVE, inside = work > 0 ? ANCHOR_ABOVE : ANCHOR_BELOW;
    double body = half_kerf + f->body_length / 2, low = face - work * f->body_width * 0.85;
    add_leader(&m, 0, far + work * 4, words_get("draw.blade"))->anchor = inside;
    add_pointed(&m, way * f->tape_zero, tape, outside, words_get("draw.tape_zero"));
    add_pointed(&m, way * (f->tape_zero + shown), tape, outside, words_get("draw.read_here"));
    add_leader(&m, way * (body + f->shortest), low, words_get("draw.shortest"))->anchor = outside;
    add_leader(&m, way * (body + f->longest), low, words_get("draw.longest"))->anchor = outside;
    struct draw_label *name = label_piece(&m, plan, PART_FLIP_STOP, way * (body + shown), face - work * f->body_width / 2);
    name->has_home = true;
    name->home_from = (struct draw_point){way * (half_kerf + shown), face};
    name->home_to = (struct draw_point){way * (half_kerf + shown + f->body_length), face - work * f->body_width};
    label_piece(&m, plan, PART_REFERENCE_FENCE, off * 0.6, face - work * fence->thickness / 2)->anchor = outside;
}
