/* The rules of a placed drawing, read back from its ink. */
#include "draw/check.h"

#include "draw/clip.h"

#include <stdio.h>
#include <stdlib.h>

static const double touch = 0.05; /* boxes this far into each other only touch [pt] */

struct checking {
    const struct placed_drawing *placed;
    const struct faces *faces;
    struct text *problems;
    size_t n;
};

static struct rect box_of(const struct checking *c, size_t i)
{
    double b[4];
    ink_box(&c->placed->inks.list[i], c->faces, b);
    return (struct rect){b[0], b[1], b[2], b[3]};
}

static bool is_text(const struct checking *c, size_t i)
{
    return c->placed->inks.list[i].kind == INK_TEXT;
}

static void check_inside(struct checking *c, size_t i)
{
    struct rect b = box_of(c, i);
    if (b.x0 >= -0.5 && b.y0 >= -0.5 && b.x1 <= c->placed->width + 0.5 && b.y1 <= c->placed->height + 0.5)
        return;
    text_printf(c->problems, "ink %zu lies outside: %g %g %g %g\n", i, b.x0, b.y0, b.x1, b.y1);
    c->n++;
}

static void check_texts(struct checking *c, size_t i, size_t k)
{
    struct rect a = rect_grown(box_of(c, i), -touch), b = box_of(c, k);
    if (!rect_meets_rect(&a, &b))
        return;
    text_printf(c->problems, "texts overlap: \"%s\", \"%s\"\n", c->placed->inks.list[i].as.text.s,
                c->placed->inks.list[k].as.text.s);
    c->n++;
}

/* Stroked paths, and the edges of dark fills. */
static bool counts_as_line(const struct ink_path *p)
{
    return p->stroke || (p->fill && p->fill_color.r < 0.5F);
}

static bool path_meets(const struct ink_path *p, const struct rect *box)
{
    struct draw_point start = {0, 0}, at = {0, 0};
    for (size_t i = 0; i < p->n; i++) {
        struct draw_point to = {p->ops[i].x, p->ops[i].y};
        if (p->ops[i].verb == PATH_MOVE)
            start = to;
        else if (rect_meets_segment(box, at, p->ops[i].verb == PATH_CLOSE ? start : to))
            return true;
        at = p->ops[i].verb == PATH_CLOSE ? start : to;
    }
    return false;
}

/* A light patch drawn over the path and under the text: the ring of a number that stands on a line. */
static bool is_hidden(const struct checking *c, size_t text, size_t path, const struct rect *box)
{
    for (size_t i = path + 1; i < text; i++) {
        const struct ink_path *p = &c->placed->inks.list[i].as.path;
        struct rect patch = box_of(c, i);
        bool around = patch.x0 < box->x0 && patch.x1 > box->x1 && patch.y0 < box->y0 && patch.y1 > box->y1;
        if (!is_text(c, i) && p->fill && p->fill_color.r >= 0.5F && around && !path_meets(p, box))
            return true;
    }
    return false;
}

static void check_text_on_path(struct checking *c, size_t text, size_t path)
{
    const struct ink_path *p = &c->placed->inks.list[path].as.path;
    struct rect box = rect_grown(box_of(c, text), -touch);
    if (!counts_as_line(p) || !path_meets(p, &box) || is_hidden(c, text, path, &box))
        return;
    text_printf(c->problems, "text on a line: \"%s\"\n", c->placed->inks.list[text].as.text.s);
    c->n++;
}

size_t draw_check(const struct placed_drawing *placed, const struct faces *faces, struct text *problems)
{
    struct checking c = {placed, faces, problems, 0};
    for (size_t i = 0; i < placed->inks.n; i++) {
        check_inside(&c, i);
        for (size_t k = 0; is_text(&c, i) && k < placed->inks.n; k++) {
            if (!is_text(&c, k))
                check_text_on_path(&c, i, k);
            else if (k > i)
                check_texts(&c, i, k);
        }
    }
    return c.n;
}
