/* draw/place.h: a drawing while it is being placed at one scale: everything on paper in points, y down, the model's
   origin at (0, 0). Private to src/draw. Owns: the lists of a struct placing, freed by placing_free. */
#ifndef FETTLE_DRAW_PLACE_H
#define FETTLE_DRAW_PLACE_H

#include "draw/ground.h"

#define POINT_PER_MM (72.0 / 25.4)

/* Kinds of line: ISO 128-2, widths of the 0.5 / 0.25 mm group. Pattern in multiples of the line's width. */
struct line_style {
    double width;      /* [mm] */
    double pattern[6]; /* on, off, on, off, … ; pattern[0] 0: continuous */
};
const struct line_style *line_style(enum line_kind);
/* Fills: a colour, a hatch, or both; opaque ones hide what was drawn before them. */
struct fill_style {
    bool opaque, paints;
    struct color color;
    double hatch;      /* distance between hatch lines [mm]; 0: none */
    bool backward;     /* hatch leans to the left */
    struct color hatch_color;
};
const struct fill_style *fill_style(enum fill_kind);

enum segment_of { SEGMENT_OF_OUTLINE, SEGMENT_OF_DIM, SEGMENT_OF_LEADER };
struct segment {
    struct draw_point a, b;
    struct rect box;
    enum segment_of of;
};
struct stroke {
    const struct draw_point *points; /* in the placing's pool */
    size_t n;
    bool closed;
    enum line_kind kind;
};
struct patch { /* a polygon filled black: arrow heads, dots; or white with a black edge: rings */
    const struct draw_point *points;
    size_t n;
    bool white;
};
struct text_line {
    double x, y;     /* start of the baseline */
    double size;     /* [pt] */
    enum face face;
    unsigned features;
    bool upward;
    const char *s;
    size_t n;        /* bytes */
};

struct placing {
    const struct drawing *drawing; /* borrowed */
    const struct faces *faces;     /* borrowed */
    struct pool *pool;             /* borrowed: points and strings */
    double scale;                  /* points per millimetre of the model */
    double text;                   /* size of text [pt] */
    double most_width, most_height; /* of the box [pt] */
    bool leaves_box;               /* labels may, rather than be left out */
    bool shrinks;                  /* the scale gives way to labels that stand out of the box */
    struct polygon *shapes;        /* the drawing's shapes on paper */
    struct rect body;              /* around shapes and arrows: dimensions stand outside it */
    struct rect used;              /* around everything */
    struct rect rows[4];           /* by enum dim_side: where dimension lines run; labels keep off while they can */
    struct ground ground;          /* segments by their index, texts by -1 - index */
    struct segment *segments;
    size_t n_segments, segment_capacity;
    struct stroke *strokes;
    size_t n_strokes, stroke_capacity;
    struct patch *patches;
    size_t n_patches, patch_capacity;
    struct text_line *lines;
    size_t n_lines, line_capacity;
    struct rect *texts;            /* boxes that no line and no other text may touch */
    size_t n_texts, text_capacity;
    bool *placed;                  /* labels that have their place */
    long *search;                  /* places that may yet be tried for labels far from their points; borrowed */
};

struct draw_point placing_point(const struct placing *, struct draw_point model);
void placing_add_stroke(struct placing *, const struct draw_point *points, size_t n, bool closed, enum line_kind,
                        enum segment_of);
void placing_add_line(struct placing *, struct draw_point a, struct draw_point b, enum segment_of);
/* Its edges count as lines of that kind. */
void placing_add_patch(struct placing *, const struct draw_point *points, size_t n, bool white, enum segment_of);
/* A filled triangle with its point at `tip`, pointing the way of (dx, dy), a unit vector. */
void placing_add_head(struct placing *, struct draw_point tip, double dx, double dy);
double placing_head_length(const struct placing *);
void placing_add_dot(struct placing *, struct draw_point centre);
/* Texts: size as ink_box has it, height from capitals to descenders. */
enum face placing_face(bool bold);
double placing_text_width(const struct placing *, enum face, const char *s, size_t n);
double placing_cap_height(const struct placing *, enum face, double size);
double placing_descent(const struct placing *, enum face, double size);
void placing_add_text(struct placing *, double x, double y, enum face, bool upward, const char *s, size_t n);
void placing_add_text_box(struct placing *, struct rect);
/* No text and no line within `room` of the box. */
bool placing_is_free(const struct placing *, const struct rect *, double room);
/* The largest share of the box that the drawing takes up in either direction; above 1 it does not fit. */
double placing_share(const struct placing *);
size_t placing_count_placed(const struct placing *); /* labels */
/* A label laid over the point of another, still to be placed, would cut its leader off. */
bool placing_covers_point(const struct placing *, const struct rect *, double room, const struct draw_label *but);
/* True where a line from a to b meets the box of a text, or nearly does: brackets stand out of it. */
bool placing_meets_text(const struct placing *, struct draw_point a, struct draw_point b);
void placing_free(struct placing *);

void placing_add_dims(struct placing *);   /* dims.c */
/* rings.c: the height and width of a label's ring, the ring with its text, and all rings that find room at the lines which
   they number. */
double placing_ring_size(const struct placing *, const struct draw_label *);
void placing_add_ring(struct placing *, const struct draw_label *, struct draw_point middle);
void placing_add_line_numbers(struct placing *);
/* labels.c: puts a label where that is cheapest; its price in text sizes off, INFINITY: no room, and nothing was put. */
double placing_add_label(struct placing *, const struct draw_label *);
/* label_order.c: gives up once the drawing grows out of its box, unless it has to be drawn all the same. */
void placing_add_labels(struct placing *, bool even_too_large);
void placing_emit(const struct placing *, struct inks *); /* emit.c */
/* hatch.c: hatch lines of shape i, hidden by later shapes and interrupted round texts, as pairs of points. */
void placing_hatch(const struct placing *, size_t i, struct draw_point **pairs, size_t *n_pairs);
/* What is left of the line from a to b of shape i when the opaque shapes drawn after it hide the rest. */
void placing_visible(const struct placing *, size_t i, struct draw_point a, struct draw_point b, struct spans *out);

#endif
