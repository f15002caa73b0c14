/* Shared by the views of a sled. */
#include "draw/sled.h"

#include <math.h>

double drawn_half_chord(const struct plan_travel *t, double z)
{
    double up = t->blade_radius - t->highest + z; /* height above the axis */
    double square = t->blade_radius * t->blade_radius - up * up;
    return square > 0 ? sqrt(square) : 0;
}

double drawn_cut_height(const struct plan_travel *t, double y)
{
    double back = fmin(y - t->blade_axis_y, 0), square = t->blade_radius * t->blade_radius - back * back;
    return square > 0 ? sqrt(square) - (t->blade_radius - t->highest) : -INFINITY;
}

double kerf_near_end(const struct plan_sled *s)
{
    return fmax(0, s->travel.blade_axis_y - drawn_half_chord(&s->travel, 0) - s->travel.edge_stop);
}

const struct plan_fence *near_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? &s->reference : &s->other;
}

const struct plan_fence *far_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? &s->other : &s->reference;
}

double fence_low_v(const struct plan_fence *f)
{
    return fmin(f->v_outer, f->v_face);
}

double fence_high_v(const struct plan_fence *f)
{
    return fmax(f->v_outer, f->v_face);
}

double fence_middle_v(const struct plan_fence *f)
{
    return (f->v_outer + f->v_face) / 2;
}

double middle_beyond(double edge, double low, double high)
{
    return (fmax(low, high > edge ? edge : low) + high) / 2;
}

void add_gauge_mark(struct model *m, double x, double y, double high)
{
    const struct draw_point corners[] = {{x, y}, {x + 0.6 * high, y + high}, {x - 0.6 * high, y + high}};
    add_polygon(m, corners, sizeof corners / sizeof *corners, LINE_VISIBLE, FILL_WHITE);
}

void add_fence_layers(struct model *m, const struct plan_fence *f, double base_thickness, enum view view)
{
    double toward_outer = f->v_outer > f->v_face ? 1 : -1, t = f->layers > 0 ? f->thickness / f->layers : 0;
    for (int i = 1; i < f->layers; i++) {
        double v = f->v_face + toward_outer * i * t;
        double height = f->layer_heights ? fmin(f->layer_heights[i - 1], f->layer_heights[i]) : f->height;
        if (view == VIEW_PLAN)
            add_line(m, f->x0, v, f->x0 + f->length, v, LINE_NARROW);
        else
            add_line(m, v, base_thickness, v, base_thickness + height, LINE_NARROW);
    }
}

void add_guard_layers(struct model *m, const struct plan_sled *s, enum view view)
{
    for (int i = 1; i < s->guard_layers; i++) {
        double v = s->guard_v0 + (s->guard_v1 - s->guard_v0) * i / s->guard_layers;
        if (view == VIEW_PLAN)
            add_line(m, -s->guard_width / 2, v, s->guard_width / 2, v, LINE_NARROW);
        else
            add_line(m, v, s->base_thickness, v, s->base_thickness + s->guard_height, LINE_NARROW);
    }
}
