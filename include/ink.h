/* ink.h: what can be put on a page: runs of text and paths, in points. Owned by src/type; drawings and pages are made of
   it, the PDF writer draws it. Origin at the top left, y down, until src/pdf turns it. */
#ifndef FETTLE_INK_H
#define FETTLE_INK_H

#include "type.h"

struct color { /* 0 to 1 each */
    float r, g, b;
};
#define COLOR_BLACK ((struct color){0, 0, 0})
#define COLOR_WHITE ((struct color){1, 1, 1})

enum ink_kind { INK_TEXT, INK_PATH };
enum path_verb { PATH_MOVE, PATH_LINE, PATH_CURVE, PATH_CLOSE };
struct path_op {
    enum path_verb verb;
    double x, y;             /* end point */
    double x1, y1, x2, y2;   /* control points of PATH_CURVE */
};

struct ink {
    enum ink_kind kind;
    union {
        struct ink_text {
            double x, y;         /* start of the baseline [pt] */
            double size;         /* [pt] */
            double width;        /* measured [pt] */
            enum face face;
            unsigned features;
            bool upward;         /* turned 90 degrees counter-clockwise: reads from below */
            struct color color;
            const char *s;       /* UTF-8, no bold marks */
        } text;
        struct ink_path {
            const struct path_op *ops;
            size_t n;
            bool fill, stroke;
            struct color fill_color, stroke_color;
            double width;        /* of the stroke [pt] */
            double dash[4];      /* on, off, on, off [pt]; dash[0] 0: solid */
        } path;
    } as;
};

/* A growing list of ink; everything in it lives in its pool. */
struct inks {
    struct pool *pool; /* borrowed */
    struct ink *list;  /* in the pool; old copies stay there until it is freed */
    size_t n, capacity;
};
void ink_add(struct inks *, struct ink);
/* Text from (x, y); gives its width. `n` bytes of s are copied. */
double ink_add_text(struct inks *, const struct faces *, enum face, unsigned features, double size, double x, double y, struct color, const char *s, size_t n);
void ink_add_line(struct inks *, double x0, double y0, double x1, double y1, double width, struct color);
/* Filled with `color`, its outline (stroke_width > 0) black; or not filled, and the outline has the colour. */
void ink_add_rect(struct inks *, double x0, double y0, double x1, double y1, bool fill, struct color, double stroke_width);
void ink_move(struct ink *, double dx, double dy); /* shifts one ink; path operations are changed in place */
void ink_box(const struct ink *, const struct faces *, double box[4]); /* x0 y0 x1 y1: text by ascent of capitals and descent */

#endif
