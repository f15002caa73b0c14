/* type.h: faces, shaping, widths. Made by src/type, the only stage that knows HarfBuzz.
   May be included by draw, pages, pdf, run. */
#ifndef FETTLE_TYPE_H
#define FETTLE_TYPE_H

#include "base/mem.h"

#include <stdbool.h>
#include <stddef.h>

enum face { FACE_REGULAR, FACE_BOLD, FACE_CONDENSED, FACE_CONDENSED_BOLD, FACE_MONO, FACE_FALLBACK, FACES };

/* How a run is shaped beside the face's kerning. */
enum {
    TYPE_FRACTIONS = 1, /* 3/8, also with U+2044, is set as a fraction; not in FACE_MONO */
    TYPE_TABULAR = 2    /* figures of equal width */
};

/* All faces, opened once a process, immutable, shared between threads. Freed by type_close. */
struct faces;
struct faces *type_open(void); /* the program's embedded fonts; never NULL */
void type_close(struct faces *);

struct glyph {
    enum face face;       /* the asked face, or FACE_FALLBACK per character; FACE_FALLBACK also serves FACE_MONO */
    unsigned id;          /* glyph id in that face; 0: missing */
    double advance;       /* in em: 1 = the size */
    double dx, dy;        /* offset in em */
    double scale;         /* of the glyph itself: 1, less for the figures of a fraction; already in advance and offset */
    int cluster;          /* byte offset in the text of the first character it stands for */
};
struct shaped {
    struct glyph *glyphs; /* visual order (left to right) */
    size_t n;
    double width;         /* in em */
};
/* Shapes n bytes of UTF-8; the result lives in the pool. */
void type_shape(const struct faces *, enum face, unsigned features, const char *s, size_t n, struct pool *, struct shaped *out);
double type_width(const struct faces *, enum face, unsigned features, const char *s, size_t n); /* in em */
bool type_covers(const struct faces *, unsigned code_point); /* the text face or the fall-back has it */
double type_cap_height(const struct faces *, enum face);     /* in em */
double type_x_height(const struct faces *, enum face);
double type_ascent(const struct faces *, enum face);  /* in em, above the baseline */
double type_descent(const struct faces *, enum face); /* in em, below the baseline, positive */
const char *type_postscript_name(enum face);
/* A TrueType font file with just these glyphs, ids kept; bytes in the pool. */
void type_subset(const struct faces *, enum face, const unsigned *ids, size_t n, struct pool *, const unsigned char **bytes, size_t *size);
double type_units_advance(const struct faces *, enum face, unsigned id); /* unkerned advance in em, for the W array */
void type_bounds(const struct faces *, enum face, double box[4]);        /* font bounding box in em: x0 y0 x1 y1 */

#endif
