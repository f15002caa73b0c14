/* A second opinion on a sled: calls nothing of src/plan and copies none of its formulas. The blade is a rim of points that
   is walked along, statics are sums over boxes, wood follows the handbook's shrinkage table as a straight line.

   Frame as in plan.h: v from the base's near edge, y from the table's near edge, z up from the table. */
#ifndef FETTLE_TESTS_JUDGE_H
#define FETTLE_TESTS_JUDGE_H

#include "job.h"

#include <math.h>
#include <stdbool.h>

/* The rules of the trade that a sled is judged by: common practice, no source. */
#define JUDGE_CLEARANCE 5.0
#define JUDGE_OVERRUN 5.0
#define JUDGE_MARGIN 25.0
#define JUDGE_HAND 50.0
#define JUDGE_ON_OVERTURNING 1.2
#define JUDGE_GRAVITY 9.81
#define JUDGE_WORK_DENSITY 700e-9 /* kg/mm3 */
#define JUDGE_NARROWEST_WORK 20.0

struct judge_saw {
    double radius, highest, axis;
    double table_depth, table_left, table_right; /* NAN: not known */
    double front_at_table, front_at_base, front_at_top; /* leading point of the blade at z = 0, t_b, highest - q_min */
    double least_above_work;
};

struct judge_fence {
    double outer, face; /* v */
    double layer, length, x0, density;
    int layers;
    double heights[40];
};

struct judge_runner {
    bool present;
    double x, width, thickness, full, length, density;
};

struct judge_sled {
    bool far;
    double work_width, work_thickness;
    double base_x0, base_width, base_depth, base_thickness, base_density;
    struct judge_fence reference, other;
    double guard_depth, guard_width, guard_height, guard_density;
    struct judge_runner runner[2];
    int guide;
};

/* ---- the blade, by walking along its rim from the top toward the operator ---- */

enum { JUDGE_RIM = 2000 };

static inline void judge_rim(const struct judge_saw *s, int i, double *y, double *z)
{
    double a = acos(0) * i / JUDGE_RIM;

    *y = s->axis - s->radius * sin(a);
    *z = s->highest - s->radius + s->radius * cos(a);
}

/* Leading point at height z: the rim is walked until it falls below z; between two points it is straight. */
static inline double judge_front(const struct judge_saw *s, double z)
{
    double y0, z0, y1, z1;

    judge_rim(s, 0, &y0, &z0);
    for (int i = 1; i <= JUDGE_RIM; i++, y0 = y1, z0 = z1) {
        judge_rim(s, i, &y1, &z1);
        if (z1 < z)
            return y0 + (y1 - y0) * (z0 - z) / (z0 - z1);
    }
    return y0;
}

/* Height of the blade on the operator's side of y: that of the rim at y; the blade's own where y is past its middle. */
static inline double judge_height_before(const struct judge_saw *s, double y)
{
    double y0, z0, y1, z1;

    judge_rim(s, 0, &y0, &z0);
    if (y >= y0)
        return z0;
    for (int i = 1; i <= JUDGE_RIM; i++, y0 = y1, z0 = z1) {
        judge_rim(s, i, &y1, &z1);
        if (y1 < y)
            return z0 + (z1 - z0) * (y0 - y) / (y0 - y1);
    }
    return z0;
}

static inline struct judge_saw judge_read_saw(const struct job *j, double base_thickness, double above_work)
{
    const struct job_table *t = &j->saw.table;
    bool known = t->width.given && t->left_of_blade.given;
    struct judge_saw s = {
        .radius = j->saw.blade.diameter.v / 2,
        .highest = j->saw.blade.highest.v,
        .axis = t->front_edge.v,
        .table_depth = t->depth.v,
        .table_left = known ? -t->left_of_blade.v : NAN,
        .table_right = known ? t->width.v - t->left_of_blade.v : NAN,
        .least_above_work = fmin(3, above_work),
    };

    s.front_at_table = judge_front(&s, 0);
    s.front_at_base = judge_front(&s, base_thickness);
    s.front_at_top = judge_front(&s, s.highest - s.least_above_work);
    return s;
}

/* ---- where the sled stands: y of its near edge ---- */

/* Work `w` wide is through when the blade's leading point, as far up as the work's top may be, is past its last edge. */
static inline double judge_stop(const struct judge_saw *s, const struct judge_sled *d)
{
    double last_edge = d->far ? d->reference.face - d->work_width : d->reference.face;

    return s->front_at_top + JUDGE_OVERRUN - last_edge;
}

static inline double judge_touch(const struct judge_saw *s, const struct judge_sled *d, double w)
{
    double first_edge = d->far ? d->reference.face : d->reference.face + w;

    return s->front_at_base - first_edge;
}

static inline double judge_parked(const struct judge_saw *s, const struct judge_sled *d)
{
    return s->front_at_table - JUDGE_CLEARANCE - d->base_depth;
}

static inline const struct judge_fence *judge_near_fence(const struct judge_sled *d)
{
    return d->far ? &d->other : &d->reference;
}

static inline const struct judge_fence *judge_far_fence(const struct judge_sled *d)
{
    return d->far ? &d->reference : &d->other;
}

static inline double judge_room(const struct judge_sled *d)
{
    return judge_far_fence(d)->face - judge_near_fence(d)->face;
}

static inline double judge_tallest(const struct judge_fence *f)
{
    double most = 0;

    for (int i = 0; i < f->layers; i++)
        most = fmax(most, f->heights[i]);
    return most;
}

/* On the stop: blade beyond the outer face of the fence that the guard stands behind. */
static inline double judge_reach(const struct judge_saw *s, const struct judge_sled *d)
{
    return judge_stop(s, d) + judge_near_fence(d)->outer - s->front_at_table;
}

/* Length of a runner over the table, the sled's near edge at y. */
static inline double judge_engaged(const struct judge_saw *s, const struct judge_runner *r, double y)
{
    double out_near = fmax(-y, 0), out_far = fmax(y + r->length - s->table_depth, 0);

    return fmax(r->length - out_near - out_far, 0);
}

static inline double judge_least_engaged(const struct judge_saw *s, const struct judge_sled *d)
{
    const struct judge_runner *g = &d->runner[d->guide];

    return fmin(judge_engaged(s, g, judge_touch(s, d, d->work_width)), judge_engaged(s, g, judge_stop(s, d)));
}

/* ---- statics: boxes ---- */

struct judge_box {
    double mass, x, v;
    bool may_be_off; /* the cover over the blade: counted only where its weight makes things worse */
};
enum { JUDGE_BOXES = 7 };
static const double JUDGE_COVER = 150; /* width of the board over the blade between the fences of a far fence's sled */

/* A fence is glued up: one body. */
static inline struct judge_box judge_fence_box(const struct judge_fence *f)
{
    double away = f->outer > f->face ? 1 : -1;
    struct judge_box sum = {.x = f->x0 + f->length / 2};

    for (int i = 0; i < f->layers; i++) {
        double mass = f->density * f->length * f->heights[i] * f->layer;
        sum.mass += mass;
        sum.v += mass * (f->face + away * (f->layer / 2 + i * f->layer));
    }
    sum.v /= sum.mass;
    return sum;
}

static inline int judge_boxes(const struct judge_sled *d, struct judge_box out[JUDGE_BOXES])
{
    int n = 0;

    out[n++] = (struct judge_box){d->base_density * d->base_width * d->base_depth * d->base_thickness,
                                  d->base_x0 + d->base_width / 2, d->base_depth / 2};
    out[n++] = judge_fence_box(&d->reference);
    out[n++] = judge_fence_box(&d->other);
    out[n++] = (struct judge_box){d->guard_density * d->guard_depth * d->guard_width * d->guard_height, 0,
                                  judge_near_fence(d)->outer - d->guard_depth / 2};
    if (d->far)
        out[n++] = (struct judge_box){d->base_density * JUDGE_COVER * (d->reference.outer - d->other.outer) * d->base_thickness, 0,
                                      (d->reference.outer + d->other.outer) / 2, true};
    for (int i = 0; i < 2; i++)
        if (d->runner[i].present)
            out[n++] = (struct judge_box){d->runner[i].density * d->runner[i].width * d->runner[i].thickness * d->runner[i].full,
                                          d->runner[i].x, d->runner[i].full / 2};
    return n;
}

struct judge_balance {
    double holds, overturns; /* N mm, both positive */
};

static inline void judge_add(struct judge_balance *b, double moment)
{
    if (moment > 0)
        b->holds += moment;
    else
        b->overturns -= moment;
}

/* About an edge at v = edge (or x = edge), the table on the side `inward` of it. */
static inline struct judge_balance judge_weigh(const struct judge_sled *d, double edge, int inward, bool across)
{
    struct judge_box box[JUDGE_BOXES];
    struct judge_balance b = {0, 0};
    int n = judge_boxes(d, box);

    for (int i = 0; i < n; i++) {
        double moment = box[i].mass * JUDGE_GRAVITY * inward * ((across ? box[i].x : box[i].v) - edge);
        judge_add(&b, box[i].may_be_off ? fmin(moment, 0) : moment);
    }
    return b;
}

/* Moment of work `w` wide against the reference fence, in the sled's frame. */
static inline double judge_work(const struct judge_sled *d, double w, double edge, int inward)
{
    double middle = d->far ? d->reference.face - w / 2 : d->reference.face + w / 2;

    return JUDGE_WORK_DENSITY * d->reference.length * d->work_thickness * w * JUDGE_GRAVITY * inward * (middle - edge);
}

static inline double judge_worst_work(const struct judge_sled *d, double edge, int inward, double step)
{
    double least = fmin(judge_work(d, d->work_width, edge, inward), 0);

    for (double w = fmin(JUDGE_NARROWEST_WORK, d->work_width); w < d->work_width; w += step)
        least = fmin(least, judge_work(d, w, edge, inward));
    return least;
}

struct judge_tip {
    double moment, arm; /* arm of the hand, outward positive */
};

static inline double judge_bears(struct judge_tip t)
{
    return t.arm <= 0 ? INFINITY : t.moment / (JUDGE_ON_OVERTURNING * t.arm);
}

static inline struct judge_tip judge_tip_near_with(const struct judge_saw *s, const struct judge_sled *d, double w, double step)
{
    const struct judge_fence *f = judge_near_fence(d);
    double edge = JUDGE_CLEARANCE - judge_touch(s, d, w);
    struct judge_balance b = judge_weigh(d, edge, 1, false);
    double work = d->far ? judge_worst_work(d, edge, 1, step) : fmin(judge_work(d, w, edge, 1), 0);

    return (struct judge_tip){b.holds - b.overturns + work, edge - (f->outer + f->face) / 2};
}

/* The least of every width of work, each at its own start. */
static inline struct judge_tip judge_tip_near(const struct judge_saw *s, const struct judge_sled *d, double step)
{
    struct judge_tip worst = judge_tip_near_with(s, d, d->work_width, step);

    for (double w = JUDGE_NARROWEST_WORK; !d->far && w < d->work_width; w += step) {
        struct judge_tip t = judge_tip_near_with(s, d, w, step);
        if (judge_bears(t) < judge_bears(worst))
            worst = t;
    }
    return worst;
}

static inline struct judge_tip judge_tip_far(const struct judge_saw *s, const struct judge_sled *d, double step)
{
    const struct judge_fence *f = judge_far_fence(d);
    double edge = s->table_depth - judge_stop(s, d);
    struct judge_balance b = judge_weigh(d, edge, -1, false);

    return (struct judge_tip){b.holds - b.overturns + judge_worst_work(d, edge, -1, step), (f->outer + f->face) / 2 - edge};
}

/* Drawn clear of the blade, nobody's hand on it. */
static inline double judge_parked_ratio(const struct judge_saw *s, const struct judge_sled *d, double step)
{
    double edge = -judge_parked(s, d);
    struct judge_balance b = judge_weigh(d, edge, 1, false);

    b.overturns -= judge_worst_work(d, edge, 1, step);
    return b.overturns > 0 ? b.holds / b.overturns : INFINITY;
}

static inline struct judge_tip judge_tip_side(const struct judge_sled *d, double edge, int inward)
{
    const struct judge_fence *f = d->reference.length >= d->other.length ? &d->reference : &d->other;
    struct judge_balance b = judge_weigh(d, edge, inward, true);
    double work = JUDGE_WORK_DENSITY * d->reference.length * d->work_thickness * d->work_width * JUDGE_GRAVITY * inward *
                  (d->reference.x0 + d->reference.length / 2 - edge);
    double end = inward > 0 ? f->x0 : f->x0 + f->length;

    return (struct judge_tip){b.holds - b.overturns + fmin(work, 0), inward * (edge - end)};
}

/* ---- the fence as a beam: slices summed ---- */

static inline double judge_bending(const struct judge_fence *f, double above_base, double stiffness)
{
    enum { SLICES = 400 };
    double thickness = f->layers * f->layer, slice = thickness / SLICES, area = 0, first = 0, inertia = 0, angle = 0;
    const double half_span = 45; /* the screws next to the kerf, either side */

    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < SLICES; i++) {
            double at = (i + 0.5) * slice, bridge = fmax(f->heights[(int)(at / f->layer)] - above_base, 0);
            if (pass == 0) {
                area += bridge * slice;
                first += bridge * slice * at;
            } else {
                inertia += bridge * slice * pow(at - first / area, 2);
            }
        }
    for (int i = 0; i < SLICES; i++) /* slope from support to middle: the sum of M/(E I), M = P x / 2 */
        angle += JUDGE_HAND * (i + 0.5) * half_span / SLICES / 2 / (stiffness * inertia) * half_span / SLICES;
    return angle;
}

/* ---- wood ---- */

/* Wood Handbook (FPL-GTR-113, 1999) eq. 3-3 with its coefficients for degrees Fahrenheit, from memory. */
static inline double judge_moisture(double celsius, double humidity)
{
    double t = celsius * 9 / 5 + 32, h = humidity / 100;
    double w = 330 + 0.452 * t + 0.00415 * t * t, k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
    double k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t, k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;

    return 1800 / w * (k * h / (1 - k * h) + (k1 * k * h + 2 * k1 * k2 * k * k * h * h) / (1 + k1 * k * h + k1 * k2 * k * k * h * h));
}

/* Size of a piece that was 1 when green: shrinks in a straight line from 30 % to dry by S per cent (ibid., table 3-5). */
static inline double judge_size(double shrinkage, double moisture)
{
    return 1 - shrinkage / 100 * (30 - moisture) / 30;
}

struct judge_wood {
    double driest, dampest;  /* width as a share of today's; 1 where the job has no air */
    double percent;          /* share for one per cent of moisture */
    double swing;            /* greatest change of humidity from the fitting day, per cent RH */
};

static inline struct judge_wood judge_read_wood(const struct job *j, double shrinkage)
{
    const struct job_air *a = &j->air;
    struct judge_wood w = {1, 1, 0, 15};

    if (!a->given)
        return w;
    double today = judge_size(shrinkage, judge_moisture(a->at_fitting.temperature.v, a->at_fitting.humidity.v));
    w.driest = judge_size(shrinkage, judge_moisture(a->driest.temperature.v, a->driest.humidity.v)) / today;
    w.dampest = judge_size(shrinkage, judge_moisture(a->dampest.temperature.v, a->dampest.humidity.v)) / today;
    w.percent = shrinkage / 100 / 30 / today;
    w.swing = fmax(fabs(a->driest.humidity.v - a->at_fitting.humidity.v), fabs(a->dampest.humidity.v - a->at_fitting.humidity.v));
    return w;
}

/* Two runners on one base, whose slots lie `shift` off: what is common to the two ranges in which each may stand. */
static inline double judge_pair(double play_left, double play_right, double shift)
{
    double low = fmax(-play_left / 2, shift - play_right / 2), high = fmin(play_left / 2, shift + play_right / 2);

    return high - low;
}

#endif
