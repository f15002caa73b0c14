/* plan/screws.h: which screw a joint takes, its pilot hole, where the screws of a row stand. Sums only; lengths mm.
   Private to src/plan and its tests. */
#ifndef FETTLE_PLAN_SCREWS_H
#define FETTLE_PLAN_SCREWS_H

#include "base/mem.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* A diameter on the rack or in a standard series. */
struct screw_kind {
    double diameter;       /* shank */
    double head;           /* greatest diameter of the countersunk head */
    int number;            /* inch screws: the gauge number; 0: none */
    const double *lengths; /* ascending */
    size_t n_lengths;
};

/* A part is held by a screw that passes through another, head flush. */
struct screw_joint {
    double through;         /* thickness passed */
    double into;            /* depth of wood there is behind it */
    double least_diameters; /* the screw goes in by at least this many shank diameters */
    double tip_inside;      /* wood left beyond the tip */
    double wanted_diameter; /* the nearest to it is taken */
    double most_diameter;   /* thicker ones split the part */
    bool deep;              /* the longest that serves, else the shortest */
};

struct screw_fit {
    const struct screw_kind *kind; /* NULL: none is thin enough */
    double length;
    double hold; /* length inside the part */
    double tip;  /* wood left beyond the tip */
    bool serves;
};

/* The standard series of the job's units. */
const struct screw_kind *screw_series(enum units, size_t *n);
/* The best of a rack; where none serves, the one that misses by least. */
struct screw_fit screw_choose(const struct screw_kind *rack, size_t n, const struct screw_joint *);
/* The lesser of what hold and tip have to spare; below 0: it does not serve. */
double screw_spare(const struct screw_fit *, const struct screw_joint *);

double screw_shank_of_number(int number);
double screw_head_of_number(int number);
int screw_number_of_shank(double diameter); /* 0: none fits */
double screw_root(double diameter);
/* Pilot hole in wood of this specific gravity (oven-dry mass, volume at 12 % moisture content). */
double screw_pilot(double diameter, double gravity);
double screw_drill(double diameter, enum units); /* the nearest drill: steps of 0.1 mm or 1/64 in */
double screw_beside(double diameter, enum units); /* of a fresh hole from the old one, at least */

/* Where a screw may not go: from lo to hi along x. */
struct screw_gap {
    double lo, hi;
};
bool screw_is_clear(double x, const struct screw_gap *, size_t n, double apart);
/* x, or the nearest place on its side of the blade plane that is at least `apart` from every gap and from `least` to
   `most` off the plane; x where there is none. */
double screw_clear_of(double x, const struct screw_gap *, size_t n, double apart, double least, double most);
/* Places from a to b, both included, at most `spacing` apart and at least `at_least` of them, but never closer than
   `least`; one in the middle where there is room for no more. Gives how many. */
size_t screw_spread(double a, double b, double spacing, size_t at_least, double least, double *out, size_t room);

/* Designations, as on the packet: "4 × 40 mm", "No. 8 × 1 1/2 in"; of a drill: "2.4 mm", "3/32 in". */
const char *screw_name(struct pool *, const struct screw_kind *, double length, enum units);
const char *screw_drill_name(struct pool *, double diameter, enum units);

#endif
