/* Ink: lists of what can be put on a page. */
#include "ink.h"

#include <math.h>
#include <string.h>

void ink_add(struct inks *inks, struct ink ink)
{
    if (inks->n == inks->capacity) {
        size_t capacity = inks->capacity ? 2 * inks->capacity : 16;
        struct ink *list = pool_alloc(inks->pool, capacity * sizeof *list);
        if (inks->n)
            memcpy(list, inks->list, inks->n * sizeof *list);
        inks->list = list;
        inks->capacity = capacity;
    }
    inks->list[inks->n++] = ink;
}

double ink_add_text(struct inks *inks, const struct faces *faces, enum face face, unsigned features, double size,
                    double x, double y, struct color color, const char *s, size_t n)
{
    double width = size * type_width(faces, face, features, s, n);
    struct ink ink = {.kind = INK_TEXT};
    ink.as.text = (struct ink_text){
        .x = x, .y = y, .size = size, .width = width, .face = face, .features = features, .color = color,
        .s = pool_string_n(inks->pool, s, n),
    };
    ink_add(inks, ink);
    return width;
}

static void add_path(struct inks *inks, const struct path_op *ops, size_t n, struct ink_path path)
{
    path.ops = pool_copy(inks->pool, ops, n * sizeof *ops);
    path.n = n;
    ink_add(inks, (struct ink){.kind = INK_PATH, .as.path = path});
}

void ink_add_line(struct inks *inks, double x0, double y0, double x1, double y1, double width, struct color color)
{
    struct path_op ops[] = {{.verb = PATH_MOVE, .x = x0, .y = y0}, {.verb = PATH_LINE, .x = x1, .y = y1}};
    add_path(inks, ops, 2, (struct ink_path){.stroke = true, .stroke_color = color, .width = width});
}

void ink_add_rect(struct inks *inks, double x0, double y0, double x1, double y1, bool fill, struct color color,
                  double stroke_width)
{
    struct path_op ops[] = {
        {.verb = PATH_MOVE, .x = x0, .y = y0}, {.verb = PATH_LINE, .x = x1, .y = y0},
        {.verb = PATH_LINE, .x = x1, .y = y1}, {.verb = PATH_LINE, .x = x0, .y = y1},
        {.verb = PATH_CLOSE, .x = x0, .y = y0},
    };
    struct ink_path path = {.fill = fill, .fill_color = color, .stroke = stroke_width > 0, .width = stroke_width};
    path.stroke_color = fill ? COLOR_BLACK : color;
    add_path(inks, ops, 5, path);
}

void ink_move(struct ink *ink, double dx, double dy)
{
    if (ink->kind == INK_TEXT) {
        ink->as.text.x += dx;
        ink->as.text.y += dy;
        return;
    }
    struct path_op *ops = (struct path_op *)ink->as.path.ops; /* const only to readers: every path lives in a pool */
    for (size_t i = 0; i < ink->as.path.n; i++) {
        ops[i].x += dx, ops[i].x1 += dx, ops[i].x2 += dx;
        ops[i].y += dy, ops[i].y1 += dy, ops[i].y2 += dy;
    }
}

static void grow_box(double box[4], double x, double y)
{
    box[0] = fmin(box[0], x);
    box[1] = fmin(box[1], y);
    box[2] = fmax(box[2], x);
    box[3] = fmax(box[3], y);
}

/* Text reading upward has its capitals to the left of the baseline and its descenders to the right. */
static void box_text(const struct ink_text *t, const struct faces *faces, double box[4])
{
    double up = t->size * type_cap_height(faces, t->face), down = t->size * type_descent(faces, t->face);
    grow_box(box, t->x, t->y);
    if (t->upward) {
        grow_box(box, t->x - up, t->y - t->width);
        grow_box(box, t->x + down, t->y);
    } else {
        grow_box(box, t->x, t->y - up);
        grow_box(box, t->x + t->width, t->y + down);
    }
}

/* A curve lies inside its control points, so they may stand for it. */
static void box_path(const struct ink_path *p, double box[4])
{
    for (size_t i = 0; i < p->n; i++) {
        if (p->ops[i].verb == PATH_CLOSE)
            continue;
        grow_box(box, p->ops[i].x, p->ops[i].y);
        if (p->ops[i].verb == PATH_CURVE) {
            grow_box(box, p->ops[i].x1, p->ops[i].y1);
            grow_box(box, p->ops[i].x2, p->ops[i].y2);
        }
    }
    double half = p->stroke ? p->width / 2 : 0;
    box[0] -= half, box[1] -= half, box[2] += half, box[3] += half;
}

void ink_box(const struct ink *ink, const struct faces *faces, double box[4])
{
    box[0] = box[1] = INFINITY;
    box[2] = box[3] = -INFINITY;
    if (ink->kind == INK_TEXT)
        box_text(&ink->as.text, faces, box);
    else
        box_path(&ink->as.path, box);
}
