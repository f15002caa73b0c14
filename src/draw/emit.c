/* From a placed drawing to ink: fills and hatches in drawing order, then lines, heads, texts. Lines were cut where a
   later shape hides them, so the order of lines does not matter. */
#include "draw/place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void emit_path(struct inks *inks, const struct draw_point *points, size_t n, bool closed, struct ink_path look)
{
    struct path_op *ops = pool_alloc(inks->pool, (n + 1) * sizeof *ops);
    for (size_t i = 0; i < n; i++)
        ops[i] = (struct path_op){.verb = i == 0 ? PATH_MOVE : PATH_LINE, .x = points[i].x, .y = points[i].y};
    if (closed)
        ops[n] = (struct path_op){.verb = PATH_CLOSE, .x = points[0].x, .y = points[0].y};
    look.ops = ops;
    look.n = n + closed;
    ink_add(inks, (struct ink){.kind = INK_PATH, .as.path = look});
}

static void emit_pairs(struct inks *inks, const struct draw_point *pairs, size_t n, struct ink_path look)
{
    if (n == 0)
        return;
    struct path_op *ops = pool_alloc(inks->pool, 2 * n * sizeof *ops);
    for (size_t i = 0; i < 2 * n; i++)
        ops[i] = (struct path_op){.verb = i % 2 ? PATH_LINE : PATH_MOVE, .x = pairs[i].x, .y = pairs[i].y};
    look.ops = ops;
    look.n = 2 * n;
    ink_add(inks, (struct ink){.kind = INK_PATH, .as.path = look});
}

static void emit_fill(const struct placing *p, size_t i, struct inks *inks)
{
    const struct fill_style *style = fill_style(p->drawing->shapes[i].fill);
    if (style->paints && p->drawing->shapes[i].fill != FILL_NONE)
        emit_path(inks, p->shapes[i].points, p->shapes[i].n, true,
                  (struct ink_path){.fill = true, .fill_color = style->color});
    if (style->hatch > 0) {
        struct draw_point *pairs;
        size_t n;
        placing_hatch(p, i, &pairs, &n);
        emit_pairs(inks, pairs, n,
                   (struct ink_path){.stroke = true,
                                     .stroke_color = style->hatch_color,
                                     .width = line_style(LINE_NARROW)->width * POINT_PER_MM});
        free(pairs);
    }
}

/* Dashes of a pattern too long for a path's own are laid one by one. */
static void emit_dashes(const struct stroke *stroke, const double *pattern, int n_pattern, struct inks *inks,
                        struct ink_path look)
{
    int at = 0;
    double left = pattern[0];
    struct draw_point *pairs = NULL;
    size_t n = 0, capacity = 0, sides = stroke->closed ? stroke->n : stroke->n - 1;
    for (size_t k = 0; k < sides; k++) {
        struct draw_point a = stroke->points[k], b = stroke->points[(k + 1) % stroke->n];
        double length = hypot(b.x - a.x, b.y - a.y), done = 0;
        while (done < length - 1e-9) {
            double step = fmin(left, length - done), t0 = done / length, t1 = (done + step) / length;
            if (at % 2 == 0) {
                pairs = mem_grow(pairs, n, &capacity, 2 * sizeof *pairs);
                pairs[2 * n] = (struct draw_point){a.x + t0 * (b.x - a.x), a.y + t0 * (b.y - a.y)};
                pairs[2 * n + 1] = (struct draw_point){a.x + t1 * (b.x - a.x), a.y + t1 * (b.y - a.y)};
                n++;
            }
            done += step;
            left -= step;
            if (left <= 1e-9) {
                at = (at + 1) % n_pattern;
                left = pattern[at];
            }
        }
    }
    emit_pairs(inks, pairs, n, look);
    free(pairs);
}

static void emit_stroke(const struct stroke *stroke, struct inks *inks)
{
    const struct line_style *style = line_style(stroke->kind);
    double width = style->width * POINT_PER_MM, pattern[6];
    struct ink_path look = {.stroke = true, .stroke_color = COLOR_BLACK, .width = width};
    for (int i = 0; i < 6; i++)
        pattern[i] = style->pattern[i] * width;
    if (pattern[4] > 0) {
        emit_dashes(stroke, pattern, 6, inks, look);
        return;
    }
    memcpy(look.dash, pattern, sizeof look.dash);
    emit_path(inks, stroke->points, stroke->n, stroke->closed, look);
}

static void emit_patch(const struct patch *patch, struct inks *inks)
{
    struct ink_path look = {.fill = true, .fill_color = COLOR_BLACK};
    if (patch->white)
        look = (struct ink_path){.fill = true,
                                 .fill_color = fill_style(FILL_WHITE)->color,
                                 .stroke = true,
                                 .stroke_color = COLOR_BLACK,
                                 .width = line_style(LINE_NARROW)->width * POINT_PER_MM};
    emit_path(inks, patch->points, patch->n, true, look);
}

static void emit_text(const struct placing *p, const struct text_line *line, struct inks *inks)
{
    struct ink ink = {.kind = INK_TEXT};
    ink.as.text = (struct ink_text){
        .x = line->x, .y = line->y, .size = line->size, .face = line->face, .features = line->features};
    ink.as.text.width = line->size * type_width(p->faces, line->face, line->features, line->s, line->n);
    ink.as.text.upward = line->upward;
    ink.as.text.color = COLOR_BLACK;
    ink.as.text.s = pool_string_n(inks->pool, line->s, line->n);
    ink_add(inks, ink);
}

void placing_emit(const struct placing *p, struct inks *inks)
{
    for (size_t i = 0; i < p->drawing->n_shapes; i++)
        emit_fill(p, i, inks);
    for (size_t i = 0; i < p->n_strokes; i++)
        emit_stroke(&p->strokes[i], inks);
    for (size_t i = 0; i < p->n_patches; i++)
        emit_patch(&p->patches[i], inks);
    for (size_t i = 0; i < p->n_lines; i++)
        emit_text(p, &p->lines[i], inks);
}
