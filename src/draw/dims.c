/* Dimensions: rows of dimension lines outside the drawing, short ones nearest to it, so that no dimension line is
   crossed by another's and no figure by any line. ISO 129-1: figure above and along its line, read from the bottom or
   the right.

   Each side is worked in its own frame: u along the dimension lines, w outward from the drawing.

        u0            u1
        |<--- 610 --->|     w of the row
        |             |     extension lines, from 1 mm off the feature to 1 mm past the row
   -----+-------------+---- edge of the drawing */
#include "draw/place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_ROWS = 40, INSIDE_TRIES = 5, TEXT_TRIES = INSIDE_TRIES + 4 };
static const double extension_gap = 1.0 * POINT_PER_MM;
static const double extension_past = 1.0 * POINT_PER_MM;
static const double figure_past = 0.7 * POINT_PER_MM; /* from there to the next row's figure */
static const double line_room = 1.0 * POINT_PER_MM; /* between a figure and an extension line */
static const double tail_past = 1.5 * POINT_PER_MM; /* an arrow from outside, beyond its head */
static const double figure_lift = 0.15;             /* a figure's box above its line, past the heads, in text sizes */

struct dim_frame {
    enum dim_side side;
    bool upright;        /* dimension lines stand upright, figures read upward */
    double outward;      /* +1: w grows with the page's x or y */
    double edge;         /* of the drawing, as w */
    bool figure_outward; /* a figure above its line lies on the outer side of it */
};

struct dim_run {
    const struct draw_dim *wish;
    double u0, u1;       /* u0 <= u1 */
    double w0, w1;       /* of the features */
    double figure;       /* width of the figure */
    int row;             /* -1: not placed yet */
    bool tails;          /* arrows from outside */
    double figure_at;    /* where the figure begins, as u */
    double span0, span1; /* what the row is taken up by */
};

struct dim_side_work {
    struct placing *p;
    struct dim_frame frame;
    struct dim_run *runs;
    size_t n;
    double figure_height, figure_lift, first_row, row_pitch;
};

static struct dim_frame frame_of(const struct placing *p, enum dim_side side)
{
    struct dim_frame f = {.side = side, .upright = side == DIM_LEFT || side == DIM_RIGHT};
    f.outward = side == DIM_BELOW || side == DIM_RIGHT ? 1 : -1;
    f.figure_outward = side == DIM_ABOVE || side == DIM_LEFT;
    double edges[] = {
        [DIM_BELOW] = p->body.y1,
        [DIM_ABOVE] = -p->body.y0,
        [DIM_LEFT] = -p->body.x0,
        [DIM_RIGHT] = p->body.x1,
    };
    f.edge = edges[side];
    return f;
}

/* Page to frame and back; an upright frame's u grows up the page. */
static double u_of(const struct dim_frame *f, struct draw_point page)
{
    return f->upright ? -page.y : page.x;
}

static double w_of(const struct dim_frame *f, struct draw_point page)
{
    return f->outward * (f->upright ? page.x : page.y);
}

static struct draw_point page_of(const struct dim_frame *f, double u, double w)
{
    return f->upright ? (struct draw_point){f->outward * w, -u} : (struct draw_point){u, f->outward * w};
}

static double w_of_row(const struct dim_side_work *s, int row)
{
    return s->frame.edge + s->first_row + row * s->row_pitch;
}

/* The figure's box on the page for a row. */
static struct rect figure_box(const struct dim_side_work *s, const struct dim_run *run, int row)
{
    double w = w_of_row(s, row);
    double near = s->frame.figure_outward ? w + s->figure_lift : w - s->figure_lift - s->figure_height;
    struct draw_point a = page_of(&s->frame, run->figure_at, near);
    struct draw_point b = page_of(&s->frame, run->figure_at + run->figure, near + s->figure_height);
    return rect_of_segment(a, b);
}

/* A figure beyond an end of its dimension would stand over another's span, and be read as that one's. */
static bool stands_over_another(const struct dim_side_work *s, const struct dim_run *run)
{
    for (size_t i = 0; i < s->n; i++) {
        const struct dim_run *other = &s->runs[i];
        bool holds_both = other->u0 < run->u0 + 0.01 && other->u1 > run->u1 - 0.01; /* far off, and known by its length */
        if (other != run && !holds_both && run->figure_at < other->u1 && run->figure_at + run->figure > other->u0)
            return true;
    }
    return false;
}

/* One of the places a figure may have: in the middle, shifted along, beyond either end; beyond first where it stands over
   no other dimension. False: not possible there. */
static bool try_figure(const struct dim_side_work *s, struct dim_run *run, int place)
{
    static const double shifts[] = {0, -0.5, 0.5, -1, 1};
    double head = placing_head_length(s->p), length = run->u1 - run->u0;
    double slack = length - run->figure - 2 * line_room;
    bool inside = place < INSIDE_TRIES, after = (place - INSIDE_TRIES) % 2 == 0;
    run->tails = length < 2 * head + 2 * POINT_PER_MM;
    if (inside ? slack < 0 || (place > 0 && slack < 1) : false)
        return false;
    double tail = run->tails || !inside ? head + tail_past : 0;
    run->span0 = run->u0 - (run->tails ? tail : 0);
    run->span1 = run->u1 + (run->tails ? tail : 0);
    if (inside) {
        run->figure_at = (run->u0 + run->u1 - run->figure) / 2 + shifts[place] * slack / 2;
    } else if (after) {
        run->figure_at = run->u1 + fmax(line_room, run->tails ? head : 0);
        run->span1 = fmax(run->span1, run->figure_at + run->figure);
    } else {
        run->figure_at = run->u0 - fmax(line_room, run->tails ? head : 0) - run->figure;
        run->span0 = fmin(run->span0, run->figure_at);
    }
    return place < INSIDE_TRIES || place >= INSIDE_TRIES + 2 || !stands_over_another(s, run);
}

/* An extension line of `other` at u would run through [u0, u1] of a row: it is not placed yet, or reaches as far. That of a
   row nearer to the drawing ends short of this row's figures. */
static bool crossed_by(const struct dim_run *other, int row, double u0, double u1)
{
    bool reaches = other->row < 0 || other->row >= row;
    return reaches && ((other->u0 > u0 && other->u0 < u1) || (other->u1 > u0 && other->u1 < u1));
}

static bool row_is_free(const struct dim_side_work *s, const struct dim_run *run, int row, bool last_pass)
{
    double room = line_room - 0.01, f0 = run->figure_at - room, f1 = run->figure_at + run->figure + room;
    for (size_t i = 0; i < s->n; i++) {
        const struct dim_run *other = &s->runs[i];
        if (other == run)
            continue;
        bool apart = run->span1 <= other->span0 + 0.01 || other->span1 <= run->span0 + 0.01;
        if (other->row == row && !apart)
            return false;
        if (other->row > row && !apart && !last_pass)
            return false;
        if (crossed_by(other, row, f0, f1))
            return false;
    }
    struct rect box = figure_box(s, run, row);
    double w = w_of_row(s, row);
    return placing_is_free(s->p, &box, 1) &&
           !placing_meets_text(s->p, page_of(&s->frame, run->span0, w), page_of(&s->frame, run->span1, w));
}

/* A row further out than every placed dimension that this one spans: its extension lines then cross none of them. */
static int least_row(const struct dim_side_work *s, const struct dim_run *run)
{
    int row = 0;
    for (size_t i = 0; i < s->n; i++) {
        const struct dim_run *other = &s->runs[i];
        if (other->row >= row && other->span0 < run->u1 - 0.01 && run->u0 < other->span1 - 0.01)
            row = other->row + 1;
    }
    return row;
}

static bool place_run(const struct dim_side_work *s, struct dim_run *run, bool last_pass)
{
    int first = least_row(s, run), rows = last_pass ? MOST_ROWS : 2;
    for (int row = first; row < first + rows; row++) {
        for (int place = 0; place < TEXT_TRIES; place++) {
            if (try_figure(s, run, place) && row_is_free(s, run, row, last_pass)) {
                run->row = row;
                return true;
            }
        }
    }
    return false;
}

static int compare_runs(const void *a, const void *b)
{
    const struct dim_run *x = a, *y = b;
    double lx = x->u1 - x->u0, ly = y->u1 - y->u0;
    if (fabs(lx - ly) > 1e-6)
        return lx < ly ? -1 : 1;
    return (x->wish > y->wish) - (x->wish < y->wish);
}

static void collect_runs(struct dim_side_work *s)
{
    const struct drawing *drawing = s->p->drawing;
    for (size_t i = 0; i < drawing->n_dims; i++) {
        const struct draw_dim *wish = &drawing->dims[i];
        if (wish->side != s->frame.side)
            continue;
        struct draw_point a = placing_point(s->p, wish->a), b = placing_point(s->p, wish->b);
        if (u_of(&s->frame, a) > u_of(&s->frame, b)) {
            struct draw_point swap = a;
            a = b;
            b = swap;
        }
        s->runs[s->n++] = (struct dim_run){
            .wish = wish,
            .row = -1,
            .u0 = u_of(&s->frame, a),
            .u1 = u_of(&s->frame, b),
            .w0 = w_of(&s->frame, a),
            .w1 = w_of(&s->frame, b),
            .figure = placing_text_width(s->p, placing_face(false), wish->text, strlen(wish->text)),
        };
    }
    qsort(s->runs, s->n, sizeof *s->runs, compare_runs);
}

/* Short dimensions first; those whose figure finds no room among lines still to come wait, and go outside the rest. */
static void place_runs(struct dim_side_work *s)
{
    for (size_t i = 0; i < s->n; i++)
        place_run(s, &s->runs[i], false);
    for (size_t i = 0; i < s->n; i++)
        if (s->runs[i].row < 0 && !place_run(s, &s->runs[i], true))
            s->runs[i].row = MOST_ROWS;
}

/* The ground that a side's rows take up. */
static struct rect rows_of(const struct dim_side_work *s)
{
    struct rect r = RECT_EMPTY;
    for (size_t i = 0; i < s->n; i++) {
        struct draw_point a = page_of(&s->frame, s->runs[i].span0, s->frame.edge);
        struct draw_point b = page_of(&s->frame, s->runs[i].span1, w_of_row(s, s->runs[i].row) + extension_past);
        rect_add(&r, a.x, a.y);
        rect_add(&r, b.x, b.y);
    }
    return r;
}

struct extension {
    double u, from, to;
};

static void add_extension(struct extension *list, size_t *n, double u, double from, double to)
{
    for (size_t i = 0; i < *n; i++) {
        if (fabs(list[i].u - u) < 0.05) {
            list[i].from = fmin(list[i].from, from);
            list[i].to = fmax(list[i].to, to);
            return;
        }
    }
    list[(*n)++] = (struct extension){u, from, to};
}

static void draw_extensions(struct dim_side_work *s)
{
    struct extension *list = mem_alloc((2 * s->n + 1) * sizeof *list);
    size_t n = 0;
    for (size_t i = 0; i < s->n; i++) {
        const struct dim_run *run = &s->runs[i];
        double to = w_of_row(s, run->row) + extension_past;
        add_extension(list, &n, run->u0, run->w0 + extension_gap, to);
        add_extension(list, &n, run->u1, run->w1 + extension_gap, to);
    }
    for (size_t i = 0; i < n; i++)
        placing_add_line(s->p, page_of(&s->frame, list[i].u, list[i].from), page_of(&s->frame, list[i].u, list[i].to),
                         SEGMENT_OF_DIM);
    free(list);
}

static void draw_run(struct dim_side_work *s, const struct dim_run *run)
{
    double w = w_of_row(s, run->row);
    struct draw_point a = page_of(&s->frame, run->u0, w), b = page_of(&s->frame, run->u1, w);
    double inward = run->tails ? 1 : -1;
    double dx = s->frame.upright ? 0 : inward, dy = s->frame.upright ? -inward : 0;
    placing_add_line(s->p, page_of(&s->frame, run->span0, w), page_of(&s->frame, run->span1, w), SEGMENT_OF_DIM);
    placing_add_head(s->p, a, dx, dy);
    placing_add_head(s->p, b, -dx, -dy);

    enum face face = placing_face(false);
    struct rect box = figure_box(s, run, run->row);
    double descent = placing_descent(s->p, face, s->p->text);
    double x = s->frame.upright ? box.x1 - descent : box.x0, y = s->frame.upright ? box.y1 : box.y1 - descent;
    placing_add_text(s->p, x, y, face, s->frame.upright, run->wish->text, strlen(run->wish->text));
    placing_add_text_box(s->p, box);
}

static void add_side(struct placing *p, enum dim_side side)
{
    struct dim_side_work s = {.p = p, .frame = frame_of(p, side)};
    enum face face = placing_face(false);
    double size = p->text;
    s.figure_height = placing_cap_height(p, face, size) + placing_descent(p, face, size);
    s.figure_lift = figure_lift * p->text;
    s.row_pitch = s.figure_height + s.figure_lift + extension_past + figure_past;
    s.first_row = s.frame.figure_outward ? 3.0 * POINT_PER_MM : s.figure_height + s.figure_lift + 1.5 * POINT_PER_MM;
    s.runs = mem_alloc((p->drawing->n_dims + 1) * sizeof *s.runs);
    collect_runs(&s);
    place_runs(&s);
    p->rows[side] = rows_of(&s);
    draw_extensions(&s);
    for (size_t i = 0; i < s.n; i++)
        draw_run(&s, &s.runs[i]);
    free(s.runs);
}

void placing_add_dims(struct placing *p)
{
    add_side(p, DIM_BELOW);
    add_side(p, DIM_LEFT);
    add_side(p, DIM_ABOVE);
    add_side(p, DIM_RIGHT);
}
