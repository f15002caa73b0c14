/* Rectangles, polygons, and lines cut by them: what hides an edge, where a hatch line runs, whether a text is free. */
#include "draw/clip.h"

#include <math.h>
#include <stdlib.h>

static const double on_edge = 0.05; /* nearer to an edge than this is on it [pt] */
static const double least_span = 1e-9;

void rect_add(struct rect *r, double x, double y)
{
    r->x0 = fmin(r->x0, x);
    r->y0 = fmin(r->y0, y);
    r->x1 = fmax(r->x1, x);
    r->y1 = fmax(r->y1, y);
}

void rect_join(struct rect *r, const struct rect *other)
{
    if (other->x0 > other->x1)
        return;
    rect_add(r, other->x0, other->y0);
    rect_add(r, other->x1, other->y1);
}

struct rect rect_grown(struct rect r, double by)
{
    return (struct rect){r.x0 - by, r.y0 - by, r.x1 + by, r.y1 + by};
}

struct rect rect_moved(struct rect r, double dx, double dy)
{
    return (struct rect){r.x0 + dx, r.y0 + dy, r.x1 + dx, r.y1 + dy};
}

struct rect rect_of_segment(struct draw_point a, struct draw_point b)
{
    return (struct rect){fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
}

double rect_gap(const struct rect *r, struct draw_point p)
{
    double dx = fmax(fmax(r->x0 - p.x, p.x - r->x1), 0), dy = fmax(fmax(r->y0 - p.y, p.y - r->y1), 0);
    return hypot(dx, dy);
}

bool rect_meets_rect(const struct rect *a, const struct rect *b)
{
    return a->x0 < b->x1 && b->x0 < a->x1 && a->y0 < b->y1 && b->y0 < a->y1;
}

/* Narrows [*t0, *t1] to where p + t d lies between low and high; false where nothing is left. */
static bool narrow_to_slab(double p, double d, double low, double high, double *t0, double *t1)
{
    if (fabs(d) < 1e-12)
        return low < p && p < high;
    double enter = (low - p) / d, leave = (high - p) / d;
    *t0 = fmax(*t0, fmin(enter, leave));
    *t1 = fmin(*t1, fmax(enter, leave));
    return *t0 < *t1;
}

/* The slab method of Cyrus and Beck for an upright rectangle. */
static bool segment_in_rect(const struct rect *r, struct draw_point a, struct draw_point b, double *t0, double *t1)
{
    *t0 = 0;
    *t1 = 1;
    return narrow_to_slab(a.x, b.x - a.x, r->x0, r->x1, t0, t1) && narrow_to_slab(a.y, b.y - a.y, r->y0, r->y1, t0, t1);
}

bool rect_meets_segment(const struct rect *r, struct draw_point a, struct draw_point b)
{
    double t0, t1;
    return segment_in_rect(r, a, b, &t0, &t1);
}

static double turn(struct draw_point a, struct draw_point b, struct draw_point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool segments_cross(struct draw_point a, struct draw_point b, struct draw_point c, struct draw_point d)
{
    return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

struct polygon polygon_of(const struct draw_point *points, size_t n)
{
    struct polygon p = {.points = points, .n = n, .box = RECT_EMPTY};
    for (size_t i = 0; i < n; i++)
        rect_add(&p.box, points[i].x, points[i].y);
    return p;
}

static double distance_to_segment(struct draw_point p, struct draw_point a, struct draw_point b)
{
    double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    double t = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;
    t = fmax(0, fmin(1, t));
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

bool polygon_holds(const struct polygon *polygon, struct draw_point p)
{
    const struct rect *box = &polygon->box;
    bool inside = false;
    if (p.x <= box->x0 || p.x >= box->x1 || p.y <= box->y0 || p.y >= box->y1)
        return false;
    for (size_t i = 0, j = polygon->n - 1; i < polygon->n; j = i++) {
        struct draw_point a = polygon->points[i], b = polygon->points[j];
        if (distance_to_segment(p, a, b) < on_edge)
            return false;
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

void spans_add(struct spans *spans, double t0, double t1)
{
    if (t1 - t0 < least_span)
        return;
    if (spans->n > 0 && t0 - spans->list[spans->n - 1].t1 < least_span) {
        spans->list[spans->n - 1].t1 = t1;
        return;
    }
    spans->list = mem_grow(spans->list, spans->n, &spans->capacity, sizeof *spans->list);
    spans->list[spans->n++] = (struct span){t0, t1};
}

static int compare_numbers(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Where the line from a to b meets an edge, as t on the line; false where it does not. */
static bool meets_edge(struct draw_point a, struct draw_point b, struct draw_point c, struct draw_point d, double *t)
{
    double dx = b.x - a.x, dy = b.y - a.y, ex = d.x - c.x, ey = d.y - c.y;
    double cross = dx * ey - dy * ex;
    if (fabs(cross) < 1e-12)
        return false;
    *t = ((c.x - a.x) * ey - (c.y - a.y) * ex) / cross;
    double s = ((c.x - a.x) * dy - (c.y - a.y) * dx) / cross;
    return *t > 0 && *t < 1 && s >= -1e-9 && s <= 1 + 1e-9;
}

/* Between two neighbouring meetings a line is wholly inside or wholly outside: its middle tells which. */
void spans_inside(struct spans *out, struct draw_point a, struct draw_point b, const struct polygon *polygon)
{
    struct rect line = rect_of_segment(a, b);
    line = rect_grown(line, on_edge);
    if (!rect_meets_rect(&line, &polygon->box))
        return;
    double *t = mem_alloc((polygon->n + 2) * sizeof *t);
    size_t n = 0;
    t[n++] = 0;
    for (size_t i = 0, j = polygon->n - 1; i < polygon->n; j = i++)
        n += meets_edge(a, b, polygon->points[j], polygon->points[i], &t[n]);
    t[n++] = 1;
    qsort(t, n, sizeof *t, compare_numbers);
    for (size_t i = 0; i + 1 < n; i++) {
        double middle = (t[i] + t[i + 1]) / 2;
        if (polygon_holds(polygon, (struct draw_point){a.x + middle * (b.x - a.x), a.y + middle * (b.y - a.y)}))
            spans_add(out, t[i], t[i + 1]);
    }
    free(t);
}

void spans_inside_rect(struct spans *out, struct draw_point a, struct draw_point b, const struct rect *r)
{
    double t0, t1;
    if (segment_in_rect(r, a, b, &t0, &t1))
        spans_add(out, t0, t1);
}

static void subtract_one(const struct spans *from, struct span cut, struct spans *left)
{
    for (size_t i = 0; i < from->n; i++) {
        struct span s = from->list[i];
        if (cut.t1 <= s.t0 || cut.t0 >= s.t1) {
            spans_add(left, s.t0, s.t1);
            continue;
        }
        spans_add(left, s.t0, cut.t0);
        spans_add(left, cut.t1, s.t1);
    }
}

void spans_subtract(struct spans *spans, const struct spans *cut)
{
    for (size_t i = 0; i < cut->n; i++) {
        struct spans left = {0};
        subtract_one(spans, cut->list[i], &left);
        spans_free(spans);
        *spans = left;
    }
}

void spans_free(struct spans *spans)
{
    free(spans->list);
    *spans = (struct spans){0};
}
