/* A router whose round base runs along a straight guide cuts a groove, as wide as its bit, at the base's radius from the
   guide. A slot wider than the bit takes several, the outer two flush with the slot's walls. Plane geometry. */
#include "plan/routing.h"

#include "plan/build.h"

#include <math.h>

struct plan_routing routing_passes(double width, double depth, double bit, double base_diameter, double step)
{
    double offset = fmax(width - bit, 0); /* between the outer two passes */
    int across = offset > 1e-9 ? (int)ceil(offset / bit - 1e-9) + 1 : 1;
    int deep = (int)fmax(ceil(depth / step - 1e-9), 1);

    return (struct plan_routing){
        .across = across,
        .apart = across > 1 ? offset / (across - 1) : 0,
        .guide_least = base_diameter / 2 - offset / 2,
        .guide_most = base_diameter / 2 + offset / 2,
        .deep = deep,
        .each = depth / deep,
        .sunk = NAN,
    };
}

void sled_plan_routing(struct plan_builder *b)
{
    const struct job_slots_to_make *m = &b->job->saw.slots_to_make;

    if (!m->given)
        return;
    b->plan->sled.routing = routing_passes(m->width.v, m->depth.v, m->bit.v, m->base_diameter.v, m->step.given ? m->step.v : m->bit.v / 2);
    if (!m->profile.given)
        return;
    b->plan->sled.routing.sunk = m->depth.v - m->profile.outer_height.v;
    b->plan->sled.routing.lining_wall = (m->profile.outer_width.v - m->profile.inner_width.v) / 2;
    b->plan->sled.routing.lining_floor = m->profile.outer_height.v - m->profile.inner_depth.v;
}
