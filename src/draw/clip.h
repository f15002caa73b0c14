/* draw/clip.h: plane geometry of a drawing on paper: rectangles, and what part of a line lies inside a polygon.
   Private to src/draw. Owns: the spans it gives out, freed by spans_free. */
#ifndef FETTLE_DRAW_CLIP_H
#define FETTLE_DRAW_CLIP_H

#include "draw.h"

struct rect { double x0, y0, x1, y1; };
#define RECT_EMPTY ((struct rect){1e30, 1e30, -1e30, -1e30})
void rect_add(struct rect *, double x, double y);
void rect_join(struct rect *, const struct rect *);
struct rect rect_grown(struct rect, double by);
struct rect rect_moved(struct rect, double dx, double dy);
struct rect rect_of_segment(struct draw_point a, struct draw_point b);
double rect_gap(const struct rect *, struct draw_point); /* from the point to the nearest of it; inside 0 */
bool rect_meets_rect(const struct rect *, const struct rect *);
bool rect_meets_segment(const struct rect *, struct draw_point a, struct draw_point b);
bool segments_cross(struct draw_point a, struct draw_point b, struct draw_point c, struct draw_point d);

/* A closed polygon and the box around it. */
struct polygon {
    const struct draw_point *points;
    size_t n;
    struct rect box;
};
struct polygon polygon_of(const struct draw_point *points, size_t n);
/* Strictly inside: a point within 0.05 of an edge is not. Even-odd rule. */
bool polygon_holds(const struct polygon *, struct draw_point);

/* Parts of a line from a (t 0) to b (t 1), ascending and apart from each other. {0} is empty. */
struct spans {
    struct span { double t0, t1; } *list;
    size_t n, capacity;
};
void spans_add(struct spans *, double t0, double t1);
/* Adds the parts of the line from a to b that lie inside. */
void spans_inside(struct spans *, struct draw_point a, struct draw_point b, const struct polygon *);
void spans_inside_rect(struct spans *, struct draw_point a, struct draw_point b, const struct rect *);
/* Takes from `spans` whatever `cut` holds. */
void spans_subtract(struct spans *spans, const struct spans *cut);
void spans_free(struct spans *);

#endif
