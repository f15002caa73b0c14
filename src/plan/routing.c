/* A router whose round base runs along a straight guide cuts a groove, as wide as its bit, at the base's radius from the
   guide. A slot wider than the bit takes several, the outer two flush with the slot's walls. Plane geometry. */
#include "plan/routing.h"

#include <math.h>

struct routing routing_passes(double width, double depth, double bit, double base_diameter, double step)
{
    double offset = fmax(width - bit, 0); /* between the outer two passes */
    int across = offset > 1e-9 ? (int)ceil(offset / bit - 1e-9) + 1 : 1;
    int deep = (int)fmax(ceil(depth / step - 1e-9), 1);

    return (struct routing){
        .across = across,
        .apart = across > 1 ? offset / (across - 1) : 0,
        .guide_least = base_diameter / 2 - offset / 2,
        .guide_most = base_diameter / 2 + offset / 2,
        .deep = deep,
        .each = depth / deep,
    };
}
