/* Page operators. Numbers are written here, in thousandths and without a locale; libharu never sees a coordinate. */
#include "pdf/content.h"

#include "pdf/font.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* What the operators so far have left set, so that only changes are written. */
struct pen {
    struct color fill, stroke;
    double width;
    double dash[4];
};

struct content {
    struct writer *writer;
    double height;       /* of the page, to turn y up */
    bool *used;
    struct text *out;
    struct pen pen;
    bool bad_number;
};

/* The state of a line of text while it is shown: distances along the baseline in em. */
struct line {
    const struct ink_text *text;
    enum face face;      /* selected, with the scale of the size */
    double scale;
    double pen;          /* where the reader will put the next glyph */
    double wanted;       /* where the shaper wants it, without its own offset */
    double rise;
    bool open;           /* within "[<", a hex string of a TJ array */
};

enum { GREATEST_NUMBER = 32767 }; /* PDF 1.4, appendix C */

static void add_number(struct content *c, double v)
{
    if (!isfinite(v) || fabs(v) > GREATEST_NUMBER) {
        c->bad_number = true;
        return;
    }
    long n = lround(fabs(v) * 1000);
    const char *sign = v < 0 && n ? "-" : "";
    if (n % 1000 == 0)
        text_printf(c->out, "%s%ld", sign, n / 1000);
    else if (n % 100 == 0)
        text_printf(c->out, "%s%ld.%01ld", sign, n / 1000, n % 1000 / 100);
    else if (n % 10 == 0)
        text_printf(c->out, "%s%ld.%02ld", sign, n / 1000, n % 1000 / 10);
    else
        text_printf(c->out, "%s%ld.%03ld", sign, n / 1000, n % 1000);
}

static void add_numbers(struct content *c, const double *v, size_t n, const char *operator)
{
    for (size_t i = 0; i < n; i++) {
        add_number(c, v[i]);
        text_add_char(c->out, ' ');
    }
    text_printf(c->out, "%s\n", operator);
}

static void set_color(struct content *c, struct color *now, struct color wanted, const char *operator)
{
    if (now->r == wanted.r && now->g == wanted.g && now->b == wanted.b)
        return;
    *now = wanted;
    add_numbers(c, (const double[]){wanted.r, wanted.g, wanted.b}, 3, operator);
}

static void set_width(struct content *c, double width)
{
    if (c->pen.width == width)
        return;
    c->pen.width = width;
    add_numbers(c, &width, 1, "w");
}

static void set_dash(struct content *c, const double dash[4])
{
    if (memcmp(c->pen.dash, dash, sizeof c->pen.dash) == 0)
        return;
    memcpy(c->pen.dash, dash, sizeof c->pen.dash);
    text_add_char(c->out, '[');
    add_numbers(c, dash, dash[0] > 0 ? dash[2] > 0 ? 4 : 2 : 0, "] 0 d");
}

static void add_path_op(struct content *c, const struct path_op *op)
{
    const double h = c->height;
    switch (op->verb) {
    case PATH_MOVE:
        add_numbers(c, (const double[]){op->x, h - op->y}, 2, "m");
        return;
    case PATH_LINE:
        add_numbers(c, (const double[]){op->x, h - op->y}, 2, "l");
        return;
    case PATH_CURVE:
        add_numbers(c, (const double[]){op->x1, h - op->y1, op->x2, h - op->y2, op->x, h - op->y}, 6, "c");
        return;
    case PATH_CLOSE:
        text_add(c->out, "h\n");
        return;
    }
}

static void add_path(struct content *c, const struct ink_path *p)
{
    if (p->n == 0 || !(p->fill || p->stroke))
        return;
    assert(p->ops[0].verb == PATH_MOVE && "a path starts somewhere");
    if (p->fill)
        set_color(c, &c->pen.fill, p->fill_color, "rg");
    if (p->stroke) {
        static const double solid[4] = {0};
        set_color(c, &c->pen.stroke, p->stroke_color, "RG");
        set_width(c, p->width);
        set_dash(c, p->dash[0] > 0 ? p->dash : solid);
    }
    for (size_t i = 0; i < p->n; i++)
        add_path_op(c, &p->ops[i]);
    text_add(c->out, p->fill ? p->stroke ? "B\n" : "f\n" : "S\n");
}

static void close_array(struct content *c, struct line *line)
{
    if (line->open)
        text_add(c->out, ">]TJ\n");
    line->open = false;
}

static void select_face(struct content *c, struct line *line, enum face face, double scale)
{
    if (line->face == face && line->scale == scale)
        return;
    close_array(c, line);
    font_dict(c->writer, face);
    c->used[face] = true;
    line->face = face;
    line->scale = scale;
    text_printf(c->out, "/F%d ", (int)face);
    add_numbers(c, &(const double){line->text->size * scale}, 1, "Tf");
}

static void set_rise(struct content *c, struct line *line, double rise)
{
    if (line->rise == rise)
        return;
    close_array(c, line);
    line->rise = rise;
    add_numbers(c, &(const double){rise * line->text->size}, 1, "Ts");
}

/* Moves to x em from the start of the line. TJ counts in thousandths of the selected size; the reader's own position is
   followed with the number as it was written, so that rounding does not add up. */
static void move_pen(struct content *c, struct line *line, double x)
{
    double back = round((line->pen - x) / line->scale * 1e5) / 100; /* to a hundredth of a thousandth */
    if (back == 0)
        return;
    text_add(c->out, ">");
    add_number(c, back);
    text_add(c->out, "<");
    line->pen -= back / 1000 * line->scale;
}

static void show_glyph(struct content *c, struct line *line, const struct glyph *g, const char *text, size_t n)
{
    select_face(c, line, g->face, g->scale);
    set_rise(c, line, g->dy);
    if (!line->open)
        text_add(c->out, "[<");
    line->open = true;
    move_pen(c, line, line->wanted + g->dx);
    text_printf(c->out, "%04X", font_code(c->writer, g->face, g->id, text, n));
    line->pen += g->scale * font_advance(c->writer, g->face, g->id);
    line->wanted += g->advance;
}

/* Bytes that glyph i stands for: up to the next glyph's first; none if it shares the character of the one before. */
static size_t text_bytes(const struct shaped *shaped, size_t i, size_t n)
{
    int start = shaped->glyphs[i].cluster;
    if (i > 0 && shaped->glyphs[i - 1].cluster == start)
        return 0;
    for (size_t k = i + 1; k < shaped->n; k++)
        if (shaped->glyphs[k].cluster > start)
            return (size_t)(shaped->glyphs[k].cluster - start);
    return n - (size_t)start;
}

static bool all_there(const struct shaped *shaped)
{
    for (size_t i = 0; i < shaped->n; i++)
        if (shaped->glyphs[i].id == 0)
            return false;
    return true;
}

static void show_line(struct content *c, const struct ink_text *t, const struct shaped *shaped, size_t n)
{
    struct line line = {.text = t, .face = FACES};
    const double across[6] = {1, 0, 0, 1, t->x, c->height - t->y}, upward[6] = {0, 1, -1, 0, t->x, c->height - t->y};
    text_add(c->out, "BT\n");
    add_numbers(c, t->upward ? upward : across, 6, "Tm");
    for (size_t i = 0; i < shaped->n; i++)
        show_glyph(c, &line, &shaped->glyphs[i], t->s + shaped->glyphs[i].cluster, text_bytes(shaped, i, n));
    set_rise(c, &line, 0);
    close_array(c, &line);
    text_add(c->out, "ET\n");
}

/* The blanks of a monospaced line count, also at its start, but readers guess blanks from distances: so the line says
   what its text is (PDF 1.4 9.8.3). */
static void show_exact_line(struct content *c, const struct ink_text *t, const struct shaped *shaped, size_t n)
{
    text_add(c->out, "/Span<</ActualText<FEFF");
    writer_utf16_hex(c->out, t->s, n);
    text_add(c->out, ">>>BDC\n");
    show_line(c, t, shaped, n);
    text_add(c->out, "EMC\n");
}

static bool add_text(struct content *c, const struct ink_text *t, struct text *problem)
{
    size_t n = strlen(t->s);
    if (n == 0)
        return true;
    struct pool pool = {0};
    struct shaped shaped;
    type_shape(c->writer->faces, t->face, t->features, t->s, n, &pool, &shaped);
    bool good = all_there(&shaped);
    if (good) {
        set_color(c, &c->pen.fill, t->color, "rg");
        (t->face == FACE_MONO ? show_exact_line : show_line)(c, t, &shaped, n);
    } else {
        text_printf(problem, "no glyph for a character of \"%s\"", t->s);
    }
    pool_free(&pool);
    return good;
}

bool content_build(struct writer *w, const struct page *page, bool used[FACES], struct text *out, struct text *problem)
{
    struct content c = {.writer = w, .height = page->height, .used = used, .out = out};
    c.pen.width = 1; /* what a page starts with, as black, solid */
    if (!isfinite(page->width) || !isfinite(page->height)) {
        text_add(problem, "its size is not finite");
        return false;
    }
    for (size_t i = 0; i < page->n_inks; i++) {
        const struct ink *ink = &page->inks[i];
        if (ink->kind == INK_PATH)
            add_path(&c, &ink->as.path);
        else if (!add_text(&c, &ink->as.text, problem))
            return false;
        if (c.bad_number) {
            text_printf(problem, "a coordinate is not finite or too great%s%s", ink->kind == INK_TEXT ? ": " : "",
                        ink->kind == INK_TEXT ? ink->as.text.s : "");
            return false;
        }
    }
    return true;
}
