/* draw/solid.h: the finished sled as boxes, and which of them stands before which, seen in isometric projection from
   the operator's place, to the right and above. Frame of the sled: x to the right, v away from the operator, z up [mm].
   Private to src/draw and its tests. Owns nothing. */
#ifndef FETTLE_DRAW_SOLID_H
#define FETTLE_DRAW_SOLID_H

#include "draw/model.h"

/* ISO 5456-3, isometric axonometry: the three axes 120 degrees apart on paper, lengths along each at the drawing's
   scale.

              z |
                |   .-' v
                | .-'
                '-.
                   '-. x                                                                                            */
struct draw_point isometric_point(double x, double v, double z);

/* The faces of a box that are seen. */
enum solid_side { SOLID_TOP, SOLID_NEAR, SOLID_RIGHT, SOLID_SIDES };
void solid_corners(const struct body *, enum solid_side, struct draw_point corners[4]);

struct solid {
    struct body body;
    const struct plan_part *part; /* borrowed from the plan */
};
enum { SOLIDS_MOST = 64 };
/* A box for each piece. The flip stop, which slides, is shown in the
   middle of its reach. Without the travel stop, which stays on the saw. */
size_t solids_of_sled(const struct plan *, struct solid out[SOLIDS_MOST]);
/* Where the flip stop's edge toward the blade is shown, from the blade plane, signed. */
double solids_flip_x(const struct plan_flip *);
/* From back to front: a box comes after all that it hides a part of. */
void solids_sort(struct solid *, size_t n);

#endif
