/* rebuild.h: a sled as a builder finds it on the build sheet, from its printed words alone. All in mm, whatever is printed.
   x to the right from the blade plane, v away from the operator from the base's near edge, z up from the table. */
#ifndef FETTLE_TESTS_REBUILD_H
#define FETTLE_TESTS_REBUILD_H

#include "sheet.h"

enum { PAPER_PARTS = 24, PAPER_HOLES = 200, PAPER_SETTINGS = 48 };

struct paper_part {
    char letter;
    char name[64];
    int pieces;
    double length, width, thickness; /* of a piece */
    bool sits;                       /* it has a row in the table of places */
    double x0, x1, v0, v1, z0, z1;
};
struct paper_hole {
    char into;      /* letter of the part that takes the thread */
    char text[200]; /* what the table says of it */
    double x, v, diameter, length; /* of the screw */
    bool from_above, driven;       /* driven: a screw is counted for it */
    int said, places;              /* screws that its row counts, places that it gives */
};
struct paper_setting {
    char name[120];
    double value;
};
struct paper_sled {
    enum units units;
    struct paper_part parts[PAPER_PARTS];
    int n_parts;
    struct paper_hole holes[PAPER_HOLES];
    int n_holes;
    struct paper_setting settings[PAPER_SETTINGS];
    int n_settings;
    struct text steps; /* all steps' words, a line each */
};

/* Reads the sheet's tables by their captions and heads; paper_free after it. */
void paper_read(const struct sheet *, enum units, struct paper_sled *out);
void paper_free(struct paper_sled *);
const struct paper_part *paper_part(const struct paper_sled *, const char *name); /* the first of that name; NULL: none */
double paper_setting(const struct paper_sled *, const char *name_begins);        /* NAN: none */
/* The first number behind `phrase` in the steps [mm]; NAN: the phrase does not stand there. */
double paper_after(const struct paper_sled *, const char *phrase);
/* Calls `see` for every table of the build sheet that a sled is built from, columns within columns included. */
void paper_tables(const struct sheet *, void (*see)(struct block *, void *), void *data);

#endif
