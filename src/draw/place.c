/* Placing: a drawing at one scale after another, until it fits its box with its dimensions and labels. */
#include "draw/place.h"

#include "draw/scale.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A recommended scale that leaves the drawing under half the area it could take up, in both directions less than this
   share of the box, gives way to an intermediate one. */
static const double least_share = 0.70711;
static const double line_room = 0.3 * POINT_PER_MM;         /* between a text and a line led past it: brackets stand out of its box */
static const double ground_margin = 8;                     /* round the shapes, in text sizes */
static const double head_length = 0.72, head_slimness = 3; /* arrow heads: in text sizes; length to width */

struct draw_point placing_point(const struct placing *p, struct draw_point model)
{
    return (struct draw_point){model.x * p->scale, -model.y * p->scale};
}

static void add_segment(struct placing *p, struct draw_point a, struct draw_point b, enum segment_of of)
{
    struct rect box = rect_of_segment(a, b);
    p->segments = mem_grow(p->segments, p->n_segments, &p->segment_capacity, sizeof *p->segments);
    ground_add(&p->ground, &box, (int)p->n_segments);
    p->segments[p->n_segments++] = (struct segment){a, b, box, of};
}

void placing_add_stroke(struct placing *p, const struct draw_point *points, size_t n, bool closed, enum line_kind kind,
                        enum segment_of of)
{
    double half = line_style(kind)->width * POINT_PER_MM / 2;
    const struct draw_point *copy = pool_copy(p->pool, points, n * sizeof *points);
    p->strokes = mem_grow(p->strokes, p->n_strokes, &p->stroke_capacity, sizeof *p->strokes);
    p->strokes[p->n_strokes++] = (struct stroke){copy, n, closed, kind};
    for (size_t i = 0; i + 1 < n; i++)
        add_segment(p, copy[i], copy[i + 1], of);
    if (closed)
        add_segment(p, copy[n - 1], copy[0], of);
    for (size_t i = 0; i < n; i++) {
        rect_add(&p->used, copy[i].x - half, copy[i].y - half);
        rect_add(&p->used, copy[i].x + half, copy[i].y + half);
    }
}

void placing_add_line(struct placing *p, struct draw_point a, struct draw_point b, enum segment_of of)
{
    struct draw_point points[] = {a, b};
    placing_add_stroke(p, points, 2, false, LINE_NARROW, of);
}

void placing_add_patch(struct placing *p, const struct draw_point *points, size_t n, bool white, enum segment_of of)
{
    const struct draw_point *copy = pool_copy(p->pool, points, n * sizeof *points);
    p->patches = mem_grow(p->patches, p->n_patches, &p->patch_capacity, sizeof *p->patches);
    p->patches[p->n_patches++] = (struct patch){copy, n, white};
    for (size_t i = 0; i < n; i++) {
        add_segment(p, copy[i], copy[(i + 1) % n], of);
        rect_add(&p->used, copy[i].x, copy[i].y);
    }
}

double placing_head_length(const struct placing *p)
{
    return head_length * p->text;
}

void placing_add_head(struct placing *p, struct draw_point tip, double dx, double dy)
{
    double length = placing_head_length(p), half = length / head_slimness / 2;
    struct draw_point points[] = {
        tip,
        {tip.x - dx * length - dy * half, tip.y - dy * length + dx * half},
        {tip.x - dx * length + dy * half, tip.y - dy * length - dx * half},
    };
    placing_add_patch(p, points, 3, false, SEGMENT_OF_DIM);
}

void placing_add_dot(struct placing *p, struct draw_point centre)
{
    enum { SIDES = 8 };
    struct draw_point points[SIDES];
    double r = 0.5 * POINT_PER_MM;
    for (int i = 0; i < SIDES; i++)
        points[i] = (struct draw_point){centre.x + r * cos(i * 2 * UNIT_PI / SIDES),
                                        centre.y + r * sin(i * 2 * UNIT_PI / SIDES)};
    placing_add_patch(p, points, SIDES, false, SEGMENT_OF_OUTLINE); /* other leaders may end as near as they like */
}

enum face placing_face(bool bold)
{
    return bold ? FACE_CONDENSED_BOLD : FACE_CONDENSED;
}

/* U+2044 FRACTION SLASH asks for the face's fractions. */
static const char slash[] = "\xE2\x81\x84";

static bool is_slash(const char *s, size_t i, size_t n)
{
    return i + 3 <= n && memcmp(s + i, slash, 3) == 0;
}

static unsigned features_of(const char *s, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (is_slash(s, i, n))
            return TYPE_FRACTIONS;
    return 0;
}

double placing_text_width(const struct placing *p, enum face face, const char *s, size_t n)
{
    return p->text * type_width(p->faces, face, features_of(s, n), s, n);
}

double placing_cap_height(const struct placing *p, enum face face, double size)
{
    return size * type_cap_height(p->faces, face);
}

double placing_descent(const struct placing *p, enum face face, double size)
{
    return size * type_descent(p->faces, face);
}

void placing_add_text(struct placing *p, double x, double y, enum face face, bool upward, const char *s, size_t n)
{
    p->lines = mem_grow(p->lines, p->n_lines, &p->line_capacity, sizeof *p->lines);
    p->lines[p->n_lines++] = (struct text_line){x, y, p->text, face, features_of(s, n), upward, s, n};
}

void placing_add_text_box(struct placing *p, struct rect box)
{
    p->texts = mem_grow(p->texts, p->n_texts, &p->text_capacity, sizeof *p->texts);
    ground_add(&p->ground, &box, -1 - (int)p->n_texts);
    p->texts[p->n_texts++] = box;
    rect_join(&p->used, &box);
}

static bool is_in_the_way(const void *context, int item, const struct rect *box)
{
    const struct placing *p = context;
    if (item < 0)
        return rect_meets_rect(box, &p->texts[-1 - item]);
    return rect_meets_segment(box, p->segments[item].a, p->segments[item].b);
}

bool placing_is_free(const struct placing *p, const struct rect *box, double room)
{
    struct rect wide = rect_grown(*box, room);
    return !ground_holds(&p->ground, &wide, is_in_the_way, p);
}

double placing_share(const struct placing *p)
{
    return fmax((p->used.x1 - p->used.x0) / p->most_width, (p->used.y1 - p->used.y0) / p->most_height);
}

size_t placing_count_placed(const struct placing *p)
{
    size_t n = 0;
    for (size_t i = 0; i < p->drawing->n_labels; i++)
        n += p->placed[i];
    return n;
}

bool placing_covers_point(const struct placing *p, const struct rect *box, double room, const struct draw_label *but)
{
    const struct drawing *d = p->drawing;
    for (size_t i = 0; i < d->n_labels; i++)
        if (d->labels[i].leader && !d->labels[i].has_home && !p->placed[i] && &d->labels[i] != but &&
            rect_gap(box, placing_point(p, d->labels[i].at)) < room)
            return true;
    return false;
}

bool placing_meets_text(const struct placing *p, struct draw_point a, struct draw_point b)
{
    for (size_t i = 0; i < p->n_texts; i++) {
        struct rect box = rect_grown(p->texts[i], line_room);
        if (rect_meets_segment(&box, a, b))
            return true;
    }
    return false;
}

void placing_free(struct placing *p)
{
    ground_free(&p->ground);
    free(p->segments);
    free(p->strokes);
    free(p->patches);
    free(p->lines);
    free(p->texts);
    *p = (struct placing){0};
}

/* A run of visible pieces that join end to end. */
struct chain {
    struct draw_point *points;
    size_t n;
    bool open_end; /* the last piece ran up to the end of its side: the next may join */
};

static void end_chain(struct placing *p, struct chain *chain, enum line_kind kind)
{
    if (chain->n > 1)
        placing_add_stroke(p, chain->points, chain->n, false, kind, SEGMENT_OF_OUTLINE);
    chain->n = 0;
}

static void add_side_to_chain(struct placing *p, struct chain *chain, struct draw_point a, struct draw_point b,
                              const struct spans *spans, enum line_kind kind)
{
    for (size_t i = 0; i < spans->n; i++) {
        struct span s = spans->list[i];
        if (!(chain->open_end && s.t0 <= 0))
            end_chain(p, chain, kind);
        if (chain->n == 0)
            chain->points[chain->n++] = (struct draw_point){a.x + s.t0 * (b.x - a.x), a.y + s.t0 * (b.y - a.y)};
        chain->points[chain->n++] = (struct draw_point){a.x + s.t1 * (b.x - a.x), a.y + s.t1 * (b.y - a.y)};
        chain->open_end = s.t1 >= 1;
    }
    if (spans->n == 0)
        chain->open_end = false;
}

/* The outline of shape i without what later opaque shapes hide. */
static void add_outline(struct placing *p, size_t i)
{
    const struct draw_shape *shape = &p->drawing->shapes[i];
    const struct polygon *polygon = &p->shapes[i];
    size_t sides = shape->closed ? polygon->n : polygon->n - 1;
    struct chain chain = {.points = mem_alloc((4 * polygon->n + 64) * sizeof *chain.points)};
    bool whole = true;
    struct spans *all = mem_alloc((sides + 1) * sizeof *all);
    for (size_t k = 0; k < sides; k++) {
        placing_visible(p, i, polygon->points[k], polygon->points[(k + 1) % polygon->n], &all[k]);
        whole = whole && all[k].n == 1 && all[k].list[0].t0 <= 0 && all[k].list[0].t1 >= 1;
    }
    if (whole)
        placing_add_stroke(p, polygon->points, polygon->n, shape->closed, shape->line, SEGMENT_OF_OUTLINE);
    for (size_t k = 0; k < sides; k++) {
        if (!whole)
            add_side_to_chain(p, &chain, polygon->points[k], polygon->points[(k + 1) % polygon->n], &all[k],
                              shape->line);
        spans_free(&all[k]);
    }
    end_chain(p, &chain, shape->line);
    free(all);
    free(chain.points);
}

/* A shape without an outline: no text stands over the edge of its paint. */
static void add_bare_edges(struct placing *p, size_t i)
{
    const struct polygon *polygon = &p->shapes[i];
    for (size_t k = 0; k < polygon->n && fill_style(p->drawing->shapes[i].fill)->paints; k++)
        add_segment(p, polygon->points[k], polygon->points[(k + 1) % polygon->n], SEGMENT_OF_OUTLINE);
}

/*      b +
        | \      width across the barbs
   -----+   \
   a          + tip
   -----+   /
        | /
          +  */
static void add_big_arrow(struct placing *p, const struct draw_arrow *arrow)
{
    struct draw_point a = placing_point(p, arrow->from), tip = placing_point(p, arrow->to);
    double length = hypot(tip.x - a.x, tip.y - a.y), half = arrow->width_mm * p->scale / 2;
    if (length <= 0)
        return;
    double dx = (tip.x - a.x) / length, dy = (tip.y - a.y) / length, shaft = 0.25 * half;
    double head = fmin(2.6 * half, 0.7 * length);
    struct draw_point b = {tip.x - dx * head, tip.y - dy * head};
    struct draw_point points[] = {
        {a.x - dy * shaft, a.y + dx * shaft}, {b.x - dy * shaft, b.y + dx * shaft},
        {b.x - dy * half, b.y + dx * half},   tip,
        {b.x + dy * half, b.y - dx * half},   {b.x + dy * shaft, b.y - dx * shaft},
        {a.x + dy * shaft, a.y - dx * shaft},
    };
    placing_add_patch(p, points, sizeof points / sizeof *points, false, SEGMENT_OF_OUTLINE);
}

static void put_shapes_on_paper(struct placing *p)
{
    const struct drawing *drawing = p->drawing;
    struct polygon *shapes = pool_alloc(p->pool, (drawing->n_shapes + 1) * sizeof *shapes);
    for (size_t i = 0; i < drawing->n_shapes; i++) {
        struct draw_point *points = pool_alloc(p->pool, (drawing->shapes[i].n + 1) * sizeof *points);
        for (size_t k = 0; k < drawing->shapes[i].n; k++)
            points[k] = placing_point(p, drawing->shapes[i].points[k]);
        shapes[i] = polygon_of(points, drawing->shapes[i].n);
        rect_join(&p->used, &shapes[i].box);
    }
    p->shapes = shapes;
    p->ground.box = rect_grown(p->used, ground_margin * p->text);
}

/* A drawing that is too large before its labels is given up, unless it has to be drawn all the same. */
static void place_all(struct placing *p, bool even_too_large)
{
    p->used = RECT_EMPTY;
    p->leaves_box = even_too_large;
    p->placed = pool_alloc(p->pool, (p->drawing->n_labels + 1) * sizeof *p->placed);
    for (int side = 0; side < 4; side++)
        p->rows[side] = RECT_EMPTY;
    put_shapes_on_paper(p);
    for (size_t i = 0; i < p->drawing->n_shapes; i++)
        if (p->drawing->shapes[i].line != LINE_NONE)
            add_outline(p, i);
        else
            add_bare_edges(p, i);
    for (size_t i = 0; i < p->drawing->n_arrows; i++)
        add_big_arrow(p, &p->drawing->arrows[i]);
    p->body = p->used;
    placing_add_dims(p);
    placing_add_line_numbers(p);
    placing_add_labels(p, even_too_large);
}

/* What is to be placed, and the box it has [pt]. */
struct wish {
    const struct drawing *drawing;
    const struct faces *faces;
    double width, height, text;
    long *search;
};

/* For all scales of one drawing together: five times what the fullest example needs. A sheet of a hundred small pieces would
   else be searched for minutes, at every scale, for room that is not there. */
static const long search_most = 500000;

/* One drawing at one scale, with the pool that its points live in. */
struct trial {
    struct pool pool;
    struct placing placing;
};

static void trial_make(struct trial *t, const struct wish *w, double scale, bool even_too_large)
{
    *t = (struct trial){
        .placing = {.drawing = w->drawing, .faces = w->faces, .scale = scale * POINT_PER_MM, .text = w->text, .search = w->search}};
    t->placing.most_width = w->width;
    t->placing.most_height = w->height;
    t->placing.shrinks = !w->drawing->to_scale;
    t->placing.pool = &t->pool;
    place_all(&t->placing, even_too_large);
}

static void trial_free(struct trial *t)
{
    placing_free(&t->placing);
    pool_free(&t->pool);
}

/* The model's own extent against the box: no scale that fails this needs a trial. */
static double bare_share(const struct wish *w)
{
    struct rect r = RECT_EMPTY;
    for (size_t i = 0; i < w->drawing->n_shapes; i++)
        for (size_t k = 0; k < w->drawing->shapes[i].n; k++)
            rect_add(&r, w->drawing->shapes[i].points[k].x, w->drawing->shapes[i].points[k].y);
    return POINT_PER_MM * fmax((r.x1 - r.x0) / w->width, (r.y1 - r.y0) / w->height);
}

/* Index of the greatest scale from `first` on that fits; only recommended ones, or all. The last where none fits. Labels
   need not all have found room where the search for it is at its end. */
static size_t greatest_fit(const struct wish *w, size_t first, bool all, struct trial *t)
{
    double bare = bare_share(w);
    for (size_t i = first;; i++) {
        const struct scale *s = scale_at(i);
        bool last = i + 1 == scale_count();
        if (!last && ((!all && !s->recommended) || bare * s->paper / s->model > 1))
            continue;
        trial_make(t, w, s->paper / s->model, last);
        bool complete = placing_count_placed(&t->placing) == w->drawing->n_labels || *w->search <= 0;
        if (last || (placing_share(&t->placing) <= 1 && complete))
            return i;
        trial_free(t);
    }
}

static const struct scale *place_to_scale(const struct wish *w, struct trial *t)
{
    size_t best = greatest_fit(w, 0, w->drawing->any_scale, t), larger = best;
    if (w->drawing->any_scale || placing_share(&t->placing) >= least_share)
        return scale_at(best);
    while (larger > 0 && !scale_at(larger - 1)->recommended)
        larger--;
    if (larger == best)
        return scale_at(best);
    trial_free(t);
    return scale_at(greatest_fit(w, larger, true, t));
}

/* Shrinks until it fits: what does not scale (texts, rows) is learnt from the trial before. */
static void place_to_fit(const struct wish *w, struct trial *t)
{
    enum { TRIES = 12 };
    double scale = 1 / fmax(bare_share(w), 1e-9);
    for (int i = 0;; i++) {
        trial_make(t, w, scale, true);
        double share = placing_share(&t->placing);
        if (share <= 1 || i == TRIES)
            return;
        trial_free(t);
        scale *= fmax(0.6, fmin(0.97, 1 / share));
    }
}

static void place_at_fixed_scale(const struct wish *w, struct trial *t, struct pool *pool, const char **scale_text)
{
    double fixed = w->drawing->fixed_scale;
    struct scale scale = {.paper = fmax(fixed, 1), .model = fmax(1 / fixed, 1), .recommended = true};
    trial_make(t, w, fixed, true);
    scale_print(&scale, pool, scale_text);
}

void draw_place(const struct drawing *drawing, const struct faces *faces, double width, double height, double text_pt,
                struct pool *pool, struct placed_drawing *out)
{
    long search = search_most;
    struct wish wish = {drawing, faces, width, height, text_pt, &search};
    struct trial t;
    *out = (struct placed_drawing){.scale_text = "", .inks = {.pool = pool}};
    if (drawing->to_scale && drawing->fixed_scale > 0)
        place_at_fixed_scale(&wish, &t, pool, &out->scale_text);
    else if (drawing->to_scale)
        scale_print(place_to_scale(&wish, &t), pool, &out->scale_text);
    else
        place_to_fit(&wish, &t);
    const struct rect *used = &t.placing.used;
    out->scale = t.placing.scale / POINT_PER_MM;
    out->width = used->x1 - used->x0;
    out->height = used->y1 - used->y0;
    out->n_labels = placing_count_placed(&t.placing);
    placing_emit(&t.placing, &out->inks);
    for (size_t i = 0; i < out->inks.n; i++)
        ink_move(&out->inks.list[i], -used->x0, -used->y0);
    trial_free(&t);
}
