/* draw.h: drawings: model geometry with dimension wishes, and placing them in a box at an ISO 5455 scale.
   Made by src/draw from a plan (and a proof, for charts). May be included by sheet and pages. */
#ifndef FETTLE_DRAW_H
#define FETTLE_DRAW_H

#include "cutting.h"
#include "ink.h"
#include "plan.h"
#include "proof.h"
#include "type.h"

/* ISO 128 kinds of line. */
enum line_kind { LINE_NONE, LINE_VISIBLE, LINE_NARROW, LINE_HIDDEN, LINE_CENTRE, LINE_PHANTOM, LINE_HEAVY };
enum fill_kind { FILL_NONE, FILL_WHITE, FILL_TINT, FILL_DARK_TINT, FILL_BLACK, FILL_HATCH, FILL_HATCH_BACK, FILL_HATCH_CLOSE, FILL_HATCH_WIDE, FILL_KEEP_OUT };

struct draw_point { double x, y; }; /* model space [mm], y up */
struct draw_shape {
    const struct draw_point *points; /* polygon or polyline; arcs are given as many short sides */
    size_t n;
    bool closed;
    enum line_kind line;
    enum fill_kind fill;
};
enum anchor { ANCHOR_CENTRE, ANCHOR_LEFT, ANCHOR_RIGHT, ANCHOR_ABOVE, ANCHOR_BELOW };
/* ISO 128-22, from memory: a dot within an outline, an arrow head on a line; nothing where a dot would blot a small mark. */
enum leader_end { END_DOT, END_HEAD, END_BARE };
enum ring { RING_NONE, RING_ROUND, RING_SQUARE };
struct draw_label {
    struct draw_point at;
    enum anchor anchor;     /* which side of the point the text stands: LEFT = text left of the point */
    bool bold, upward;
    bool leader;            /* may be moved away from a crowd and joined by a leader line */
    bool pointed;           /* it must, and its point in the drawing is told by the leader's dot */
    enum leader_end end;
    bool has_home;          /* a box with two opposite corners, within which it needs none */
    struct draw_point home_from, home_to;
    enum ring ring;         /* round one short line */
    bool numbers_line;      /* a ring that stands beyond an end of the line, or else on it */
    struct draw_point from, to;
    bool beyond_from, beyond_to; /* where it may stand so */
    bool in_middle;         /* or only in the middle of the line */
    const char *text;
    const char *brief;      /* said where there is no room for the text; NULL: nothing shorter */
};
/* A dimension wish: from a to b, set out on a side of the drawing; the placer chooses the row so that none collide. */
enum dim_side { DIM_BELOW, DIM_ABOVE, DIM_LEFT, DIM_RIGHT };
struct draw_dim {
    struct draw_point a, b;
    enum dim_side side;
    const char *text;
};
struct draw_arrow { struct draw_point from, to; double width_mm; };

/* Everything reachable lives in the pool it was made in. */
struct drawing {
    struct draw_shape *shapes;
    size_t n_shapes;
    struct draw_label *labels;
    size_t n_labels;
    struct draw_dim *dims;
    size_t n_dims;
    struct draw_arrow *arrows;
    size_t n_arrows;
    bool to_scale;          /* false: charts and sketches: any scale that fits, none printed */
    bool any_scale;         /* intermediate scales serve as well as ISO 5455's: nobody builds from it */
    double fixed_scale;     /* 0: the greatest ISO 5455 scale that fits; 1: true scale */
    const char *title;      /* printed above, scale beside it */
};

/* The views of a sled. wall: few words, no numbers but the greatest; build: all dimensions and part letters. */
void draw_plan_view(const struct plan *, enum units, bool for_wall, struct pool *, struct drawing *out);
void draw_pictorial(const struct plan *, enum units, struct pool *, struct drawing *out); /* finished, parts named; isometric */
void draw_front_view(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_side_view(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_kerf_section(const struct plan *, enum units, struct pool *, struct drawing *out); /* sled on its stop, blade at its highest */
void draw_runner_section(const struct plan *, enum units, struct pool *, struct drawing *out); /* clearance enlarged, said so */
/* At true scale, or at 1 : 2 and less where that would not fit half a page: to lay wood on. */
void draw_fence_section(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_flip_pieces(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_runner_end(const struct plan *, enum units, struct pool *, struct drawing *out);
/* The flip stop put together, across the fence; and along it with tape and work, at its shortest and its longest. */
void draw_flip_section(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_flip_reach(const struct plan *, enum units, struct pool *, struct drawing *out);
void draw_fence_adjustment(const struct plan *, const struct proof *, enum units, struct pool *, struct drawing *out);
/* Pictures of a test's set-up with its signs; step from 0; false: no such picture. */
bool draw_test_picture(const struct plan *, const struct proof *, enum method, int step, enum units, struct pool *, struct drawing *out);
/* History of a method: error with U against the tolerance band; false: fewer than two tests. */
bool draw_history(const struct job *, const struct proof *, enum method, struct pool *, struct drawing *out);

const char *draw_list_numbers(const int *numbers, size_t n, struct pool *); /* "2, 3, 5–7" of ascending ones; in the pool */
/* Numbers of the sheets that are alike with this one, and of what is to be kept of them: "2, 5–7"; in the pool. */
const char *draw_list_alike(const struct cutting_stock *, size_t sheet, struct pool *);
const char *draw_list_kept(const struct cutting_stock *, size_t sheet, const struct cut_area *, struct pool *);
/* One sheet or strip, and those that are alike; its cuts with their numbers, squares where they are sawn by hand. A heap's
   offcut as well. */
void draw_cut_sheet(const struct cutting_stock *, size_t sheet, enum units, struct pool *, struct drawing *out);

struct placed_drawing {
    struct inks inks;       /* origin at the top left of the box */
    double width, height;   /* used [pt] */
    size_t n_labels;        /* that found room: all of the drawing's, unless the box is far too small for them */
    double scale;           /* model to paper; 0.2 for 1 : 5 */
    const char *scale_text; /* "1 : 5"; "" where not to scale */
};
/* Draws into a box of at most width by height points; text is text_pt high (size, not capitals). */
void draw_place(const struct drawing *, const struct faces *, double width, double height, double text_pt, struct pool *, struct placed_drawing *out);

#endif
