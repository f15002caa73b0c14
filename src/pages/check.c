/* The rules every page must keep. */
#include "pages.h"

#include "pages/metrics.h"

#include <math.h>
#include <string.h>

#define OUTSIDE_PT 1.4  /* a box reckons half a rule's width at its ends, too */
#define OVERLAP_PT 0.35 /* boxes of texts may touch */
#define CAP_SLACK 1.005 /* sizes are rounded to 0.05 pt */
enum { CURVE_PARTS = 8 };

struct box {
    double x0, y0, x1, y1;
};

/* One page under examination. */
struct check {
    const struct faces *faces;
    const struct page *page;
    size_t number; /* of the page, from 1 */
    struct box *boxes;
    struct text *problems;
    size_t found;
};

static bool boxes_meet(struct box a, struct box b, double slack)
{
    return a.x0 + slack < b.x1 && b.x0 + slack < a.x1 && a.y0 + slack < b.y1 && b.y0 + slack < a.y1;
}

/* Whether the segment has a point inside the box (Liang and Barsky's clipping). */
static bool segment_meets(double x0, double y0, double x1, double y1, struct box b)
{
    double p[] = {x0 - x1, x1 - x0, y0 - y1, y1 - y0}, q[] = {x0 - b.x0, b.x1 - x0, y0 - b.y0, b.y1 - y0};
    double from = 0, to = 1;
    for (int i = 0; i < 4; i++) {
        if (p[i] == 0 && q[i] <= 0)
            return false;
        if (p[i] < 0)
            from = fmax(from, q[i] / p[i]);
        if (p[i] > 0)
            to = fmin(to, q[i] / p[i]);
    }
    return from < to;
}

static double curve_at(double a, double b, double c, double d, double t)
{
    double u = 1 - t;
    return u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
}

/* Calls visit for each straight piece of a path until it gives true. */
static bool any_segment(const struct ink_path *path, bool (*visit)(double, double, double, double, struct box *),
                        struct box *arg)
{
    double x = 0, y = 0, start_x = 0, start_y = 0;
    for (size_t i = 0; i < path->n; i++) {
        const struct path_op *op = &path->ops[i];
        bool hit = false;
        switch (op->verb) {
        case PATH_MOVE:
            start_x = op->x;
            start_y = op->y;
            break;
        case PATH_LINE:
            hit = visit(x, y, op->x, op->y, arg);
            break;
        case PATH_CURVE:
            for (int k = 1; k <= CURVE_PARTS && !hit; k++) {
                double t0 = (double)(k - 1) / CURVE_PARTS, t1 = (double)k / CURVE_PARTS;
                hit = visit(curve_at(x, op->x1, op->x2, op->x, t0), curve_at(y, op->y1, op->y2, op->y, t0),
                            curve_at(x, op->x1, op->x2, op->x, t1), curve_at(y, op->y1, op->y2, op->y, t1), arg);
            }
            break;
        case PATH_CLOSE:
            hit = visit(x, y, start_x, start_y, arg);
            break;
        }
        if (hit)
            return true;
        x = op->verb == PATH_CLOSE ? start_x : op->x;
        y = op->verb == PATH_CLOSE ? start_y : op->y;
    }
    return false;
}

static bool visit_meets(double x0, double y0, double x1, double y1, struct box *box)
{
    return segment_meets(x0, y0, x1, y1, *box);
}

/* Counts, in box->x1, the edges that a ray to the right from (x0, y0) crosses. */
static bool visit_ray(double x0, double y0, double x1, double y1, struct box *box)
{
    if ((y0 > box->y0) != (y1 > box->y0) && box->x0 < x0 + (box->y0 - y0) / (y1 - y0) * (x1 - x0))
        box->x1 += 1;
    return false;
}

/* Whether a filled path hides whatever was drawn before it in the box. */
static bool covers(const struct ink_path *path, struct box box)
{
    struct box ray = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2, 0, 0};
    if (!path->fill || any_segment(path, visit_meets, &box))
        return false;
    any_segment(path, visit_ray, &ray);
    return fmod(ray.x1, 2) == 1;
}

static struct box shrunk(struct box b, double by)
{
    return (struct box){b.x0 + by, b.y0 + by, b.x1 - by, b.y1 - by};
}

static const char *text_of(const struct check *c, size_t i)
{
    return c->page->inks[i].as.text.s;
}

static void check_frame(struct check *c, size_t i)
{
    struct box b = c->boxes[i];
    double left = pt_of_mm(20), other = pt_of_mm(12);
    if (b.x0 >= left - OUTSIDE_PT && b.y0 >= other - OUTSIDE_PT && b.x1 <= c->page->width - other + OUTSIDE_PT &&
        b.y1 <= c->page->height - other + OUTSIDE_PT)
        return;
    text_printf(c->problems, "page %zu: outside the printable area: %s at %.1f %.1f to %.1f %.1f\n", c->number,
                c->page->inks[i].kind == INK_TEXT ? text_of(c, i) : "a path", b.x0, b.y0, b.x1, b.y1);
    c->found++;
}

static bool is_blank(const char *s)
{
    return s[strspn(s, " ")] == '\0';
}

static void check_overlaps(struct check *c, size_t i)
{
    for (size_t k = i + 1; k < c->page->n_inks; k++) {
        if (c->page->inks[k].kind != INK_TEXT || is_blank(text_of(c, k)) || is_blank(text_of(c, i)) ||
            !boxes_meet(c->boxes[i], c->boxes[k], OVERLAP_PT))
            continue;
        text_printf(c->problems, "page %zu: \"%s\" overlaps \"%s\" at %.1f %.1f\n", c->number, text_of(c, i),
                    text_of(c, k), c->boxes[k].x0, c->boxes[k].y0);
        c->found++;
    }
}

/* A line drawn before the text counts unless something filled, drawn between the two, hides it there. */
static void check_lines(struct check *c, size_t i)
{
    struct box box = shrunk(c->boxes[i], OVERLAP_PT);
    for (size_t k = c->page->n_inks; k-- > 0;) {
        if (c->page->inks[k].kind != INK_PATH || !boxes_meet(c->boxes[k], box, -0.01))
            continue;
        const struct ink_path *path = &c->page->inks[k].as.path;
        if (any_segment(path, visit_meets, &box)) {
            text_printf(c->problems, "page %zu: \"%s\" stands on a line at %.1f %.1f\n", c->number, text_of(c, i),
                        box.x0, box.y0);
            c->found++;
            return;
        }
        if (k > i && covers(path, box)) {
            text_printf(c->problems, "page %zu: \"%s\" is hidden at %.1f %.1f\n", c->number, text_of(c, i), box.x0,
                        box.y0);
            c->found++;
            return;
        }
        if (k < i && covers(path, box))
            return;
    }
}

static void check_glyphs(struct check *c, size_t i, struct pool *pool)
{
    const struct ink_text *t = &c->page->inks[i].as.text;
    struct shaped shaped;
    type_shape(c->faces, t->face, t->features, t->s, strlen(t->s), pool, &shaped);
    for (size_t g = 0; g < shaped.n; g++)
        if (!shaped.glyphs[g].id) {
            text_printf(c->problems, "page %zu: no glyph for byte %d of \"%s\"\n", c->number, shaped.glyphs[g].cluster,
                        t->s);
            c->found++;
            return;
        }
}

static double cap_mm(const struct check *c, const struct ink_text *t)
{
    return mm_of_pt(t->size * type_cap_height(c->faces, t->face));
}

static void check_size(struct check *c, size_t i)
{
    const struct ink_text *t = &c->page->inks[i].as.text;
    double least = c->page->kind == SHEET_WALL ? WALL_CAP_MM : SMALL_CAP_MM;
    bool source = t->face == FACE_MONO && c->page->kind != SHEET_WALL;
    if (source ? t->size >= SOURCE_LEAST_PT : cap_mm(c, t) * CAP_SLACK >= least)
        return;
    text_printf(c->problems, "page %zu: \"%s\" has capitals of %.2f mm, %.2f mm asked for\n", c->number, t->s,
                cap_mm(c, t), least);
    c->found++;
}

/* A wall sheet has something that is read from 1.5 m. */
static void check_far(struct check *c)
{
    double greatest = 0;
    for (size_t i = 0; i < c->page->n_inks; i++)
        if (c->page->inks[i].kind == INK_TEXT)
            greatest = fmax(greatest, cap_mm(c, &c->page->inks[i].as.text));
    if (c->page->kind != SHEET_WALL || greatest * CAP_SLACK >= WALL_FAR_CAP_MM)
        return;
    text_printf(c->problems, "page %zu: a wall sheet without capitals of %.1f mm\n", c->number, WALL_FAR_CAP_MM);
    c->found++;
}

static void check_labels(struct check *c)
{
    if (c->page->left_out == 0)
        return;
    text_printf(c->problems, "page %zu: %zu labels of its drawings found no room\n", c->number, c->page->left_out);
    c->found++;
}

static bool only_page(const struct pages *pages, size_t p)
{
    enum sheet_kind kind = pages->list[p].kind;
    return (p == 0 || pages->list[p - 1].kind != kind) && (p + 1 == pages->n || pages->list[p + 1].kind != kind);
}

static void check_filled(struct check *c, bool only)
{
    double filled = c->page->filled;
    if (filled > 1 + 1e-6)
        text_printf(c->problems, "page %zu: filled to %.0f %%\n", c->number, 100 * filled);
    else if (!only && filled < FILLED_LEAST)
        text_printf(c->problems, "page %zu: nearly empty, %.0f %% filled\n", c->number, 100 * filled);
    else
        return;
    c->found++;
}

/* A heading alone at the foot, a caption away from its figure, a table torn that was to stay whole. */
static void check_torn(struct check *c)
{
    if (!c->page->torn)
        return;
    text_printf(c->problems, "page %zu: ends with what belongs to the next\n", c->number);
    c->found++;
}

size_t pages_check(const struct pages *pages, const struct faces *faces, struct text *problems)
{
    size_t found = 0;
    for (size_t p = 0; p < pages->n; p++) {
        const struct page *page = &pages->list[p];
        struct pool pool = {0};
        struct check c = {.faces = faces, .page = page, .number = p + 1, .problems = problems};
        c.boxes = pool_alloc(&pool, page->n_inks * sizeof *c.boxes);
        for (size_t i = 0; i < page->n_inks; i++) {
            double b[4];
            ink_box(&page->inks[i], faces, b);
            c.boxes[i] = (struct box){b[0], b[1], b[2], b[3]};
        }
        for (size_t i = 0; i < page->n_inks; i++) {
            check_frame(&c, i);
            if (page->inks[i].kind != INK_TEXT)
                continue;
            check_overlaps(&c, i);
            check_lines(&c, i);
            check_glyphs(&c, i, &pool);
            check_size(&c, i);
        }
        check_far(&c);
        check_torn(&c);
        check_labels(&c);
        check_filled(&c, only_page(pages, p));
        found += c.found;
        pool_free(&pool);
    }
    return found;
}
