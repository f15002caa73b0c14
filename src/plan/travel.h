/* plan/travel.h: the blade and the sled's travel as pure geometry. Owns nothing. Private to src/plan.

   Seen from the right; y away from the operator from the table's near edge, z up from the table, all in mm:

              guard  fence   work                 other fence
                ____ _____ _________________        __
      base's   |    |     |                 |      |  |
      near  ___|____|_____|_________________|______|__|___   far edge
      edge                ^ face   W
                  ..-""""-..   <- blade, at most h above the table
      ===========/==========\============================== table, z = 0
                      + axis at y_b, R - h below the table                                                        */
#ifndef FETTLE_PLAN_TRAVEL_H
#define FETTLE_PLAN_TRAVEL_H

#include "job.h"

struct blade {
    double radius;  /* R */
    double highest; /* h: above the table */
    double axis_y;  /* y_b */
};

struct travel_sizes {
    struct blade blade;
    enum fence_side side;           /* of the reference fence */
    double base_thickness;          /* t_b */
    double base_depth;
    double from_edge, thickness;    /* reference fence: base's edge on its side to its outer face; t_f */
    double other_from_edge, other_thickness; /* the other fence likewise; t_o */
    double least_above_work;        /* q_min: blade above the work for which the stop must still do */
    double clearance;               /* blade to work at the start */
    double overrun;                 /* o: past the place where the cut is through */
};

double blade_half_chord(struct blade, double z);     /* c(z)/2 at height z above the table; 0 above the blade */
double blade_half_chord_below(struct blade, double q); /* the same, q below the blade's top */
double travel_capacity(struct blade, double base_thickness, double above_work); /* thickest work */

double travel_face_v(const struct travel_sizes *);  /* reference fence's working face from the base's near edge */
double travel_guarded_v(const struct travel_sizes *); /* outer face of the fence nearer the operator */
double travel_room(const struct travel_sizes *);    /* between the two working faces */

double travel_stop_face(const struct travel_sizes *, double width);   /* y_stop; width: the capacity W */
double travel_edge_stop(const struct travel_sizes *, double width);   /* base's near edge, sled on its stop */
double travel_edge_touch(const struct travel_sizes *, double width);  /* base's near edge as the blade first touches the work */
double travel_edge_start(const struct travel_sizes *, double width);  /* the same with the clearance */
double travel_edge_parked(const struct travel_sizes *);               /* whole base on the operator's side of the blade */

/* On the stop, blade at its highest. p(z): how far it stands out of the outer face at height z, negative: not yet. */
double travel_reach(const struct travel_sizes *, double width, double z);
/* z0: height above the table at which it comes out of the outer face; NAN where it does not reach it. */
double travel_exit_height(const struct travel_sizes *, double width);

/* A far fence, blade at its highest, on the base's top: how far it stands bare beyond that fence at the start, and on the
   operator's side of the widest work on the stop. NAN for a near fence. */
double travel_bare_start(const struct travel_sizes *, double width);
double travel_bare_stop(const struct travel_sizes *, double width);

/* Length of a runner (near end v0 in the sled's frame) that lies on a table of that depth. */
double travel_engaged(double edge_y, double v0, double length, double table_depth);

#endif
