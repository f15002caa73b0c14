/* draw/model.h: a drawing while it is being made: lists that grow, and the few shapes that all views are built of.
   Private to src/draw. Owns nothing: everything lives in the pool. Model space [mm], y up. */
#ifndef FETTLE_DRAW_MODEL_H
#define FETTLE_DRAW_MODEL_H

#include "draw.h"

struct model {
    struct drawing *drawing;
    struct pool *pool;
    enum units units;
    size_t shape_capacity, label_capacity, dim_capacity, arrow_capacity;
};
struct model model_begin(struct drawing *, struct pool *, enum units, const char *title_key);
const char *model_say(struct model *, struct saying); /* in words, without bold marks */

void add_polygon(struct model *, const struct draw_point *, size_t n, enum line_kind, enum fill_kind);
void add_polyline(struct model *, const struct draw_point *, size_t n, enum line_kind);
void add_line(struct model *, double x0, double y0, double x1, double y1, enum line_kind);
void add_box(struct model *, double x0, double y0, double x1, double y1, enum line_kind, enum fill_kind);
void add_circle(struct model *, double x, double y, double radius, enum line_kind, enum fill_kind);
/* Part of a circle, counter-clockwise from `from` to `to` [rad]. */
void add_arc(struct model *, double x, double y, double radius, double from, double to, enum line_kind);
/* The new label; more of it may be set until the next call. */
struct draw_label *add_label(struct model *, double x, double y, enum anchor, const char *text);
struct draw_label *add_leader(struct model *, double x, double y, const char *text); /* centred, may be led away */
/* Always led, from that side. */
struct draw_label *add_pointed(struct model *, double x, double y, enum anchor, const char *text);
/* The distance from (x0, y0) to (x1, y1) along the side's dimension lines, as `kind` without unit; none where it is
   under 0.05. */
void add_dim(struct model *, double x0, double y0, double x1, double y1, enum dim_side, enum say_kind);
/* The same with a figure of its own, where what is drawn is not to scale. */
void add_dim_of(struct model *, double x0, double y0, double x1, double y1, enum dim_side, enum say_kind,
                double number);
/* The same with words in the figure's place. */
void add_dim_words(struct model *, double x0, double y0, double x1, double y1, enum dim_side, const char *text);
void add_arrow(struct model *, double x0, double y0, double x1, double y1, double width);
/* A part of a circle with a small filled head at its end: which way a thing is turned. */
void add_turn_arrow(struct model *, double x, double y, double radius, double from, double to);

/* Bodies seen from above, from the operator's place, and from the operator's right. */
enum view { VIEW_PLAN, VIEW_FRONT, VIEW_SIDE };
struct flat { double x0, y0, x1, y1; };
struct flat body_flat(const struct body *, enum view);
const struct plan_part *find_part(const struct plan *, enum part_kind); /* NULL: not there */
/* The part of that kind after `part` in the table: a fence of layers of different heights is several. NULL: the first,
   and no more. */
const struct plan_part *next_part(const struct plan *, enum part_kind, const struct plan_part *part);
/* All parts of a kind; from the front, the farthest first. */
void add_parts(struct model *, const struct plan *, enum part_kind, enum view, enum line_kind, enum fill_kind);
/* "B reference fence" at a place in the middle of its first body. */
struct draw_label *add_part_label(struct model *, const struct plan_part *, double x, double y);

#endif
