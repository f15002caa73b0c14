/* The building blocks of every view. */
#include "draw/model.h"

#include "words.h"

#include <math.h>
#include <string.h>

enum { CIRCLE_SIDES = 72 };

/* Room for one more in an array that lives in a pool; old copies stay there until the pool is freed. */
static void *grow_in_pool(struct pool *pool, void *items, size_t count, size_t *capacity, size_t element)
{
    if (count < *capacity)
        return items;
    *capacity = *capacity ? 2 * *capacity : 16;
    char *grown = pool_alloc(pool, *capacity * element);
    if (count > 0)
        memcpy(grown, items, count * element);
    return grown;
}

struct model model_begin(struct drawing *drawing, struct pool *pool, enum units units, const char *title_key)
{
    *drawing = (struct drawing){.to_scale = true, .title = words_get(title_key)};
    return (struct model){.drawing = drawing, .pool = pool, .units = units};
}

const char *model_say(struct model *m, struct saying saying)
{
    struct text text = {0};
    words_put_plain(&text, &saying, m->units);
    const char *copy = pool_string(m->pool, text_string(&text));
    text_free(&text);
    return copy;
}

static void add_shape(struct model *m, const struct draw_point *points, size_t n, bool closed, enum line_kind line,
                      enum fill_kind fill)
{
    struct drawing *d = m->drawing;
    const struct draw_point *copy = pool_copy(m->pool, points, n * sizeof *points);
    d->shapes = grow_in_pool(m->pool, d->shapes, d->n_shapes, &m->shape_capacity, sizeof *d->shapes);
    d->shapes[d->n_shapes++] = (struct draw_shape){copy, n, closed, line, fill};
}

void add_polygon(struct model *m, const struct draw_point *points, size_t n, enum line_kind line, enum fill_kind fill)
{
    add_shape(m, points, n, true, line, fill);
}

void add_polyline(struct model *m, const struct draw_point *points, size_t n, enum line_kind line)
{
    add_shape(m, points, n, false, line, FILL_NONE);
}

void add_line(struct model *m, double x0, double y0, double x1, double y1, enum line_kind line)
{
    struct draw_point points[] = {{x0, y0}, {x1, y1}};
    add_polyline(m, points, 2, line);
}

void add_box(struct model *m, double x0, double y0, double x1, double y1, enum line_kind line, enum fill_kind fill)
{
    struct draw_point points[] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    add_polygon(m, points, 4, line, fill);
}

/* `sides` chords from angle `from` to `to`, both ends included. */
static void points_of_arc(double x, double y, double radius, double from, double to, int sides,
                          struct draw_point *points)
{
    for (int i = 0; i <= sides; i++) {
        double turn = from + (to - from) * i / sides;
        points[i] = (struct draw_point){x + radius * cos(turn), y + radius * sin(turn)};
    }
}

void add_circle(struct model *m, double x, double y, double radius, enum line_kind line, enum fill_kind fill)
{
    struct draw_point points[CIRCLE_SIDES + 1];
    points_of_arc(x, y, radius, 0, 2 * UNIT_PI, CIRCLE_SIDES, points);
    add_polygon(m, points, CIRCLE_SIDES, line, fill);
}

void add_arc(struct model *m, double x, double y, double radius, double from, double to, enum line_kind line)
{
    struct draw_point points[CIRCLE_SIDES + 1];
    points_of_arc(x, y, radius, from, to, CIRCLE_SIDES, points);
    add_polyline(m, points, CIRCLE_SIDES + 1, line);
}

struct draw_label *add_label(struct model *m, double x, double y, enum anchor anchor, const char *text)
{
    struct drawing *d = m->drawing;
    d->labels = grow_in_pool(m->pool, d->labels, d->n_labels, &m->label_capacity, sizeof *d->labels);
    struct draw_label *label = &d->labels[d->n_labels++];
    *label = (struct draw_label){.at = {x, y}, .anchor = anchor, .text = pool_string(m->pool, text)};
    return label;
}

struct draw_label *add_leader(struct model *m, double x, double y, const char *text)
{
    struct draw_label *label = add_label(m, x, y, ANCHOR_CENTRE, text);
    label->leader = true;
    return label;
}

struct draw_label *add_pointed(struct model *m, double x, double y, enum anchor from, const char *text)
{
    struct draw_label *label = add_leader(m, x, y, text);
    label->pointed = true;
    label->anchor = from;
    return label;
}

void add_dim_words(struct model *m, double x0, double y0, double x1, double y1, enum dim_side side, const char *text)
{
    struct drawing *d = m->drawing;
    d->dims = grow_in_pool(m->pool, d->dims, d->n_dims, &m->dim_capacity, sizeof *d->dims);
    d->dims[d->n_dims++] = (struct draw_dim){{x0, y0}, {x1, y1}, side, pool_string(m->pool, text)};
}

void add_dim_of(struct model *m, double x0, double y0, double x1, double y1, enum dim_side side, enum say_kind kind,
                double number)
{
    struct text text = {0};
    words_number(&text, kind, number, m->units);
    add_dim_words(m, x0, y0, x1, y1, side, text_string(&text));
    text_free(&text);
}

void add_dim(struct model *m, double x0, double y0, double x1, double y1, enum dim_side side, enum say_kind kind)
{
    double distance = side == DIM_BELOW || side == DIM_ABOVE ? fabs(x1 - x0) : fabs(y1 - y0);
    if (distance >= 0.05)
        add_dim_of(m, x0, y0, x1, y1, side, kind, distance);
}

void add_arrow(struct model *m, double x0, double y0, double x1, double y1, double width)
{
    struct drawing *d = m->drawing;
    d->arrows = grow_in_pool(m->pool, d->arrows, d->n_arrows, &m->arrow_capacity, sizeof *d->arrows);
    d->arrows[d->n_arrows++] = (struct draw_arrow){{x0, y0}, {x1, y1}, width};
}

/* The head is as long as the last quarter radian of the arc. */
void add_turn_arrow(struct model *m, double x, double y, double radius, double from, double to)
{
    double way = to > from ? 1 : -1, head = 0.8, half = 0.28 * radius;
    double back = to - way * head;
    add_arc(m, x, y, radius, from, back, LINE_VISIBLE);
    struct draw_point points[] = {
        {x + radius * cos(to), y + radius * sin(to)},
        {x + (radius + half) * cos(back), y + (radius + half) * sin(back)},
        {x + (radius - half) * cos(back), y + (radius - half) * sin(back)},
    };
    add_polygon(m, points, 3, LINE_NONE, FILL_BLACK);
}

struct flat body_flat(const struct body *b, enum view view)
{
    switch (view) {
    case VIEW_PLAN:
        return (struct flat){b->x0, b->v0, b->x1, b->v1};
    case VIEW_FRONT:
        return (struct flat){b->x0, b->z0, b->x1, b->z1};
    case VIEW_SIDE:
        return (struct flat){b->v0, b->z0, b->v1, b->z1};
    }
    return (struct flat){0, 0, 0, 0};
}

const struct plan_part *next_part(const struct plan *plan, enum part_kind kind, const struct plan_part *part)
{
    for (size_t i = part ? (size_t)(part - plan->parts) + 1 : 0; i < plan->n_parts; i++)
        if (plan->parts[i].kind == kind)
            return &plan->parts[i];
    return NULL;
}

const struct plan_part *find_part(const struct plan *plan, enum part_kind kind)
{
    return next_part(plan, kind, NULL);
}

/* Layers stand in the table from the working face outward: nearest first where that face looks at the operator. */
static bool begins_near(const struct plan *plan, enum part_kind kind)
{
    const struct plan_part *first = find_part(plan, kind), *second = first ? next_part(plan, kind, first) : NULL;
    return second && first->n_bodies > 0 && second->n_bodies > 0 && first->bodies[0].v0 < second->bodies[0].v0;
}

void add_parts(struct model *m, const struct plan *plan, enum part_kind kind, enum view view, enum line_kind line,
               enum fill_kind fill)
{
    bool backward = view == VIEW_FRONT && begins_near(plan, kind);
    for (size_t i = 0; i < plan->n_parts; i++) {
        const struct plan_part *part = &plan->parts[backward ? plan->n_parts - 1 - i : i];
        for (size_t k = 0; part->kind == kind && k < part->n_bodies; k++) {
            struct flat f = body_flat(&part->bodies[k], view);
            add_box(m, f.x0, f.y0, f.x1, f.y1, line, fill);
        }
    }
}

struct draw_label *add_part_label(struct model *m, const struct plan_part *part, double x, double y)
{
    const char *name = words_get(plan_part_key(part->kind));
    struct draw_label *label = add_leader(m, x, y, pool_printf(m->pool, "%s" NBSP "%s", part->letter, name));
    label->bold = true;
    return label;
}
