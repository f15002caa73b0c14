/* The blade and the sled's travel. The blade is a disc in the plane x = 0; the formulas are the plane geometry of a
   circle and a chord, no source needed: a test steps a disc through a block to check them. */
#include "plan/travel.h"

#include <math.h>

double blade_half_chord(struct blade b, double z)
{
    double above_axis = b.radius - b.highest + z;

    return z > b.highest ? 0 : sqrt(b.radius * b.radius - above_axis * above_axis);
}

double blade_half_chord_below(struct blade b, double q)
{
    return sqrt(2 * b.radius * q - q * q);
}

double travel_capacity(struct blade b, double base_thickness, double above_work)
{
    return b.highest - base_thickness - above_work;
}

double travel_face_v(const struct travel_sizes *s)
{
    double from_its_edge = s->from_edge + s->thickness;

    return s->side == FENCE_NEAR ? from_its_edge : s->base_depth - from_its_edge;
}

double travel_guarded_v(const struct travel_sizes *s)
{
    return s->side == FENCE_NEAR ? s->from_edge : s->other_from_edge;
}

double travel_room(const struct travel_sizes *s)
{
    return s->base_depth - s->from_edge - s->thickness - s->other_from_edge - s->other_thickness;
}

/* The cut is through when the work's edge that is cut last has passed the blade's leading point at the work's top. A
   near fence's face is that edge; a far fence is that edge and the work's width farther on. q_min gives the latest such
   place of all blade heights in use, so one stop serves every thickness. */
double travel_stop_face(const struct travel_sizes *s, double width)
{
    double through = s->blade.axis_y - blade_half_chord_below(s->blade, s->least_above_work) + s->overrun;

    return s->side == FENCE_NEAR ? through : through + width;
}

double travel_edge_stop(const struct travel_sizes *s, double width)
{
    return travel_stop_face(s, width) - travel_face_v(s);
}

double travel_edge_touch(const struct travel_sizes *s, double width)
{
    double blade_front = s->blade.axis_y - blade_half_chord(s->blade, s->base_thickness);
    double face = s->side == FENCE_NEAR ? blade_front - width : blade_front;

    return face - travel_face_v(s);
}

double travel_edge_start(const struct travel_sizes *s, double width)
{
    return travel_edge_touch(s, width) - s->clearance;
}

double travel_edge_parked(const struct travel_sizes *s)
{
    return s->blade.axis_y - blade_half_chord(s->blade, 0) - s->clearance - s->base_depth;
}

static double outer_face_on_stop(const struct travel_sizes *s, double width)
{
    return travel_edge_stop(s, width) + travel_guarded_v(s);
}

double travel_reach(const struct travel_sizes *s, double width, double z)
{
    return outer_face_on_stop(s, width) - (s->blade.axis_y - blade_half_chord(s->blade, z));
}

double travel_exit_height(const struct travel_sizes *s, double width)
{
    double before_axis = s->blade.axis_y - outer_face_on_stop(s, width);

    if (before_axis <= 0)
        return s->blade.highest;
    if (travel_reach(s, width, 0) <= 0)
        return NAN;
    return sqrt(s->blade.radius * s->blade.radius - before_axis * before_axis) - (s->blade.radius - s->blade.highest);
}

double travel_bare_start(const struct travel_sizes *s, double width)
{
    double outer = travel_edge_start(s, width) + travel_face_v(s) + s->thickness;

    return s->side == FENCE_FAR ? s->blade.axis_y + blade_half_chord(s->blade, s->base_thickness) - outer : NAN;
}

double travel_bare_stop(const struct travel_sizes *s, double width)
{
    double work = travel_stop_face(s, width) - width; /* its edge toward the operator */

    return s->side == FENCE_FAR ? work - (s->blade.axis_y - blade_half_chord(s->blade, s->base_thickness)) : NAN;
}

double travel_engaged(double edge_y, double v0, double length, double table_depth)
{
    double near_end = fmax(edge_y + v0, 0);
    double far_end = fmin(edge_y + v0 + length, table_depth);

    return fmax(far_end - near_end, 0);
}
