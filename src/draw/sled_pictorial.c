/* The finished sled in isometric projection, its parts named: what the parts table and the steps are about, before any
   size. Boxes are painted from the back; what lies on a box's faces is drawn with it, so that later boxes hide it. */
#include "draw/clip.h"
#include "draw/sled.h"
#include "draw/solid.h"

#include "words.h"

#include <math.h>

struct scene {
    const struct plan *plan;
    struct solid solids[SOLIDS_MOST];
    size_t first_shape[SOLIDS_MOST]; /* of each box, its faces in the order of enum solid_side */
    size_t n, stop_shape, track_shape; /* 0: none */
};

static void add_isometric_line(struct model *m, double x0, double v0, double z0, double x1, double v1, double z1,
                               enum line_kind line)
{
    struct draw_point a = isometric_point(x0, v0, z0), b = isometric_point(x1, v1, z1);
    add_line(m, a.x, a.y, b.x, b.y, line);
}

static void add_faces(struct model *m, const struct body *body)
{
    static const enum fill_kind fills[SOLID_SIDES] = {
        [SOLID_TOP] = FILL_WHITE, [SOLID_NEAR] = FILL_TINT, [SOLID_RIGHT] = FILL_DARK_TINT};
    for (enum solid_side side = 0; side < SOLID_SIDES; side++) {
        struct draw_point corners[4];
        solid_corners(body, side, corners);
        add_polygon(m, corners, 4, LINE_VISIBLE, fills[side]);
    }
}

/* Where the blade has come through the face that is seen. */
static void add_kerf_on(struct model *m, const struct plan_sled *s, const struct solid *solid)
{
    const struct body *b = &solid->body;
    double z = fmin(b->z1, drawn_cut_height(&s->travel, s->travel.edge_stop + b->v0));
    if (b->x0 < 0 && b->x1 > 0 && z > b->z0)
        add_isometric_line(m, 0, b->v0, b->z0, 0, b->v0, z, LINE_HEAVY);
    if (solid->part->kind == PART_BASE)
        add_isometric_line(m, 0, kerf_near_end(s), b->z1, 0, s->base_depth, b->z1, LINE_HEAVY);
}

/* On top and at the right end, between layers glued together. */
static void add_joints(struct model *m, const struct solid *solid, int layers)
{
    const struct body *b = &solid->body;
    for (int i = 1; i < layers; i++) {
        double v = b->v0 + (b->v1 - b->v0) * i / layers;
        add_isometric_line(m, b->x0, v, b->z1, b->x1, v, b->z1, LINE_NARROW);
        add_isometric_line(m, b->x1, v, b->z0, b->x1, v, b->z1, LINE_NARROW);
    }
}

/* How many layers of the fence this box of it holds. */
static int layers_in(const struct plan_fence *f, const struct body *b)
{
    return (int)lround((b->v1 - b->v0) / (f->thickness / fmax(f->layers, 1)));
}

/* Under the base, its outline seen through it; the end toward the operator is seen without help. */
static void add_under_base(struct model *m, const struct body *b)
{
    struct draw_point corners[4];
    solid_corners(b, SOLID_TOP, corners);
    struct draw_point open[] = {corners[0], corners[3], corners[2], corners[1]};
    add_polyline(m, open, 4, LINE_HIDDEN);
}

/* It stays on the saw. */
static void add_stop(struct model *m, const struct body *stop)
{
    struct draw_point corners[4];
    solid_corners(stop, SOLID_TOP, corners);
    add_polygon(m, corners, 4, LINE_PHANTOM, FILL_NONE);
}

static void add_parts_under_base(struct model *m, struct scene *scene)
{
    static const enum part_kind runners[] = {PART_GUIDE_RUNNER, PART_FREE_RUNNER};
    const struct plan_part *stop = find_part(scene->plan, PART_TRAVEL_STOP);
    for (int i = 0; i < 2; i++) {
        const struct plan_part *runner = find_part(scene->plan, runners[i]);
        for (size_t k = 0; runner && k < runner->n_bodies; k++)
            add_under_base(m, &runner->bodies[k]);
    }
    if (stop && stop->n_bodies > 0) {
        scene->stop_shape = m->drawing->n_shapes;
        add_stop(m, stop->bodies);
    }
}

/* Along the outer face, or in the rebate on the lower layer's top; as high and wide as it looks, it is bought. */
static void add_track(struct model *m, struct scene *scene, const struct body *b)
{
    const struct plan *plan = scene->plan;
    const struct plan_flip *f = &plan->sled.flip;
    const struct plan_fence *fence = &plan->sled.reference;
    double way = f->side == SIDE_LEFT ? -1 : 1, third = (b->v1 - b->v0) / 3;
    double a = way * f->track_from, end = way * (f->track_from + f->track_length);
    struct body track = {
        fmin(a, end), fmax(a, end), b->v0, b->v0, b->z1 - 0.65 * f->cheek_height, b->z1 - 0.35 * f->cheek_height};
    struct draw_point corners[4];
    bool lower = b->z1 < plan->sled.base_thickness + fence->height - 1e-6, on_outer = fence->v_outer < b->v0 + 1e-6;
    if (!f->present || (f->cheek_height > 0 ? !on_outer : !lower))
        return;
    if (f->cheek_height <= 0)
        track = (struct body){track.x0, track.x1, b->v0 + third, b->v1 - third, b->z1, b->z1};
    solid_corners(&track, f->cheek_height > 0 ? SOLID_NEAR : SOLID_TOP, corners);
    scene->track_shape = m->drawing->n_shapes;
    add_polygon(m, corners, 4, LINE_NARROW, FILL_DARK_TINT);
}

static void draw_solid(struct model *m, struct scene *scene, size_t i)
{
    const struct plan_sled *s = &scene->plan->sled;
    const struct solid *solid = &scene->solids[i];
    scene->first_shape[i] = m->drawing->n_shapes;
    add_faces(m, &solid->body);
    add_kerf_on(m, s, solid);
    switch ((int)solid->part->kind) {
    case PART_BASE:
        add_parts_under_base(m, scene);
        break;
    case PART_REFERENCE_FENCE:
        add_joints(m, solid, layers_in(&s->reference, &solid->body));
        add_track(m, scene, &solid->body);
        break;
    case PART_OTHER_FENCE:
        add_joints(m, solid, layers_in(&s->other, &solid->body));
        break;
    case PART_EXIT_GUARD:
        add_joints(m, solid, s->guard_layers);
        break;
    default:
        break;
    }
}

static double to_segment(struct draw_point p, struct draw_point a, struct draw_point b)
{
    double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    double t = square > 0 ? fmax(0, fmin(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square)) : 0;
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

static bool covers(const struct draw_shape *shape, struct draw_point p)
{
    struct polygon polygon = polygon_of(shape->points, shape->n);
    return shape->fill != FILL_NONE && shape->closed && polygon_holds(&polygon, p);
}

static double to_shape(const struct draw_shape *shape, struct draw_point p)
{
    double least = INFINITY;
    for (size_t i = 0; i + !shape->closed < shape->n; i++)
        least = fmin(least, to_segment(p, shape->points[i], shape->points[(i + 1) % shape->n]));
    return least;
}

/* How far a point of a face lies from every line drawn with it or after it; 0: something before it hides it. */
static double room_at(const struct drawing *d, size_t face, struct draw_point p, double enough)
{
    double room = to_shape(&d->shapes[face], p);
    for (size_t i = face + 1; i < d->n_shapes && room > enough; i++)
        room = covers(&d->shapes[i], p) ? 0 : fmin(room, to_shape(&d->shapes[i], p));
    return room;
}

/* Round the points of other parts their names want room, too: they count as if they were this much nearer. */
static const double share_of_point = 0.4;

/* The point of a face with the most room, from a grid of tries. */
struct seen {
    struct draw_point at;
    double room; /* 0: nothing of it is seen */
};
/* `others` have their points already. */
static void look_at_face(const struct drawing *d, size_t face, const struct seen *others, size_t n, struct seen *best)
{
    enum { TRIES = 15 };
    const struct draw_point *c = d->shapes[face].points;
    for (int i = 1; i < TRIES; i++) {
        for (int k = 1; k < TRIES; k++) {
            double s = (double)i / TRIES, t = (double)k / TRIES;
            struct draw_point p = {c[0].x + s * (c[1].x - c[0].x) + t * (c[3].x - c[0].x),
                                   c[0].y + s * (c[1].y - c[0].y) + t * (c[3].y - c[0].y)};
            double room = room_at(d, face, p, best->room);
            for (size_t j = 0; j < n; j++)
                room = fmin(room, others[j].room > 0 ? share_of_point * hypot(p.x - others[j].at.x, p.y - others[j].at.y) : INFINITY);
            if (room > best->room)
                *best = (struct seen){p, room};
        }
    }
}

static void look_for_part(const struct scene *scene, const struct drawing *d, const struct plan_part *part,
                          const struct seen *others, size_t n, struct seen *best)
{
    for (size_t i = 0; i < scene->n; i++)
        for (size_t side = 0; side < SOLID_SIDES && scene->solids[i].part == part; side++)
            look_at_face(d, scene->first_shape[i] + side, others, n, best);
    if (part->kind == PART_TRAVEL_STOP && scene->stop_shape)
        look_at_face(d, scene->stop_shape, others, n, best);
}

/* Where there is air beside a part: leaders then cross few others. */
static enum anchor side_of_label(enum part_kind kind)
{
    switch ((int)kind) {
    case PART_FLIP_ARM:
    case PART_OTHER_FENCE:
        return ANCHOR_RIGHT;
    case PART_FLIP_STOP:
        return ANCHOR_ABOVE;
    case PART_FLIP_CHEEK:
        return ANCHOR_LEFT;
    case PART_GUIDE_RUNNER:
    case PART_FREE_RUNNER:
        return ANCHOR_BELOW;
    default:
        return ANCHOR_CENTRE;
    }
}

/* A stop that no line shows yet is drawn through what hides it. */
static void show_stop(struct model *m, struct scene *scene)
{
    const struct plan_part *stop = find_part(scene->plan, PART_TRAVEL_STOP);
    struct seen seen = {{0, 0}, 0};
    if (!stop || stop->n_bodies == 0)
        return;
    if (scene->stop_shape)
        look_at_face(m->drawing, scene->stop_shape, NULL, 0, &seen);
    if (seen.room > 0)
        return;
    scene->stop_shape = m->drawing->n_shapes;
    add_stop(m, stop->bodies);
}

/* A wide part's name may stand anywhere in the room round its point. */
static void label_part(struct model *m, const struct plan_part *part, const struct seen *seen)
{
    struct draw_label *label = add_part_label(m, part, seen->at.x, seen->at.y);
    double half = seen->room / sqrt(2);
    label->anchor = side_of_label(part->kind);
    label->has_home = label->anchor == ANCHOR_CENTRE;
    label->home_from = (struct draw_point){seen->at.x - half, seen->at.y - half};
    label->home_to = (struct draw_point){seen->at.x + half, seen->at.y + half};
}

/* Small parts, which come last in the table, choose first: a large one has more places. */
static void label_parts(struct model *m, const struct scene *scene)
{
    size_t n = scene->plan->n_parts;
    struct seen *seen = pool_alloc(m->pool, (n + 1) * sizeof *seen); /* the last: the track's, which has no letter */
    seen[n] = (struct seen){{0, 0}, 0};
    if (scene->track_shape)
        look_at_face(m->drawing, scene->track_shape, NULL, 0, &seen[n]);
    for (size_t i = n; i-- > 0;) {
        seen[i] = (struct seen){{0, 0}, 0};
        look_for_part(scene, m->drawing, &scene->plan->parts[i], &seen[i + 1], n - i, &seen[i]);
    }
    for (size_t i = 0; i < n; i++) {
        const struct plan_part *part = &scene->plan->parts[i];
        if (seen[i].room > 0)
            label_part(m, part, &seen[i]);
    }
    if (seen[n].room > 0)
        add_pointed(m, seen[n].at.x, seen[n].at.y, ANCHOR_BELOW, words_get("draw.track"));
}

static void add_push(struct model *m, const struct plan_sled *s)
{
    double x = s->base_x0 + s->base_width * 1.07, v0 = 0.3 * s->base_depth, v1 = v0 + 0.28 * s->base_width;
    struct draw_point a = isometric_point(x, v0, 0), b = isometric_point(x, v1, 0);
    add_arrow(m, a.x, a.y, b.x, b.y, s->base_width / 32);
    struct draw_label *label =
        add_label(m, (a.x + b.x) / 2 + s->base_width / 40, (a.y + b.y) / 2, ANCHOR_RIGHT, words_get("draw.push"));
    label->bold = true;
}

void draw_pictorial(const struct plan *plan, enum units units, struct pool *pool, struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.pictorial");
    struct scene scene = {.plan = plan};
    out->to_scale = false; /* no length can be taken from it */
    scene.n = solids_of_sled(plan, scene.solids);
    solids_sort(scene.solids, scene.n);
    for (size_t i = 0; i < scene.n; i++)
        draw_solid(&m, &scene, i);
    show_stop(&m, &scene);
    add_push(&m, &plan->sled);
    label_parts(&m, &scene);
}
