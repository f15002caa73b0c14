/* The five-cut test without its formula: boards are polygons, cut by a blade with a kerf, turned as the operator turns
   them, and the strip is measured as with a caliper. What proof makes of the widths must be the angle that the fence
   was set to, and the move that it advises must undo that angle. */
#include "by_hand.h"

#define KERF 2.8
#define STRIP 45
#define QUARTER_TURN (3.14159265358979323846 / 2)

struct place {
    double x, y;
};
struct board {
    struct place p[24]; /* counter-clockwise */
    int n;
};
/* The fence's face: a line through `at` at `angle` to the x axis; the work lies on the side that `side` says. */
struct fence {
    struct place at;
    double angle;
    enum fence_side side;
};

static struct board turn_board(const struct board *b, double angle)
{
    struct board r = {.n = b->n};
    for (int i = 0; i < b->n; i++)
        r.p[i] = (struct place){b->p[i].x * cos(angle) - b->p[i].y * sin(angle),
                                b->p[i].x * sin(angle) + b->p[i].y * cos(angle)};
    return r;
}

static struct board shift_board(const struct board *b, double x, double y)
{
    struct board r = *b;
    for (int i = 0; i < r.n; i++)
        r.p[i] = (struct place){b->p[i].x + x, b->p[i].y + y};
    return r;
}

/* What lies at x <= limit (keep_left) or x >= limit. */
static struct board cut_at(const struct board *b, double limit, bool keep_left)
{
    struct board r = {.n = 0};
    for (int i = 0; i < b->n; i++) {
        struct place p = b->p[i], q = b->p[(i + 1) % b->n];
        bool p_in = keep_left ? p.x <= limit : p.x >= limit, q_in = keep_left ? q.x <= limit : q.x >= limit;
        if (p_in)
            r.p[r.n++] = p;
        if (p_in != q_in)
            r.p[r.n++] = (struct place){limit, p.y + (q.y - p.y) * (limit - p.x) / (q.x - p.x)};
    }
    assert_in_range(r.n, 3, 20);
    return r;
}

/* Lays the edge that faces the fence against it. Edges of a counter-clockwise board face to the right of their way. */
static struct board lay_on_fence(const struct board *b, const struct fence *f)
{
    double facing = f->side == FENCE_NEAR ? -QUARTER_TURN : QUARTER_TURN, best = -2;
    int edge = 0;
    for (int i = 0; i < b->n; i++) {
        struct place p = b->p[i], q = b->p[(i + 1) % b->n];
        double outward = atan2(q.y - p.y, q.x - p.x) - QUARTER_TURN, length = hypot(q.x - p.x, q.y - p.y);
        if (cos(outward - facing) > best && length > 50) {
            best = cos(outward - facing);
            edge = i;
        }
    }
    assert_true(best > 0.9);
    struct place p = b->p[edge], q = b->p[(edge + 1) % b->n];
    double along = f->side == FENCE_NEAR ? f->angle : f->angle + 2 * QUARTER_TURN;
    struct board r = turn_board(b, along - atan2(q.y - p.y, q.x - p.x));
    return shift_board(&r, f->at.x - r.p[edge].x, f->at.y - r.p[edge].y);
}

/* Slides the board along the fence until `width` of it stands past the blade on the side of the strip. */
static struct board slide_to_blade(const struct board *b, const struct fence *f, enum side offcut, double width)
{
    double most = -INFINITY, least = INFINITY;
    for (int i = 0; i < b->n; i++) {
        most = fmax(most, b->p[i].x);
        least = fmin(least, b->p[i].x);
    }
    double by = offcut == SIDE_RIGHT ? KERF / 2 + width - most : -KERF / 2 - width - least;
    return shift_board(b, by, by * tan(f->angle));
}

/* The rule: clockwise for (near, right) and (far, left), else counter-clockwise. */
static struct board turn_to_fresh_edge(const struct board *b, enum fence_side side, enum side offcut)
{
    bool clockwise = (side == FENCE_NEAR && offcut == SIDE_RIGHT) || (side == FENCE_FAR && offcut == SIDE_LEFT);
    return turn_board(b, clockwise ? -QUARTER_TURN : QUARTER_TURN);
}

/* Width at a height y, read square to the sawn edge, which is upright. */
static double width_at(const struct board *strip, double y)
{
    double most = -INFINITY, least = INFINITY;
    for (int i = 0; i < strip->n; i++) {
        struct place p = strip->p[i], q = strip->p[(i + 1) % strip->n];
        if ((p.y < y) == (q.y < y))
            continue;
        double x = p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y);
        most = fmax(most, x);
        least = fmin(least, x);
    }
    return most - least;
}

/* Five cuts; the strip of the fifth is measured `length` apart, in the middle. */
static void cut_and_measure(struct board b, const struct fence *f, enum side offcut, double length, double *fence_end,
                            double *far_end)
{
    struct board strip = {.n = 0};
    for (int cut = 1; cut <= 5; cut++) {
        if (cut > 1)
            b = turn_to_fresh_edge(&b, f->side, offcut);
        b = lay_on_fence(&b, f);
        b = slide_to_blade(&b, f, offcut, STRIP); /* more than any edge leans, so that the whole edge is cut */
        strip = cut_at(&b, offcut == SIDE_RIGHT ? KERF / 2 : -KERF / 2, offcut != SIDE_RIGHT);
        b = cut_at(&b, offcut == SIDE_RIGHT ? -KERF / 2 : KERF / 2, offcut == SIDE_RIGHT);
    }
    double most = -INFINITY, least = INFINITY;
    for (int i = 0; i < strip.n; i++) {
        most = fmax(most, strip.p[i].y);
        least = fmin(least, strip.p[i].y);
    }
    double low = width_at(&strip, (most + least - length) / 2), high = width_at(&strip, (most + least + length) / 2);
    *fence_end = f->side == FENCE_NEAR ? low : high;
    *far_end = f->side == FENCE_NEAR ? high : low;
}

static const struct proof_test *prove_fence(struct hand *h, const struct board *b, const struct fence *f,
                                            enum side offcut, double length)
{
    double fence_end, far_end;
    cut_and_measure(*b, f, offcut, length, &fence_end, &far_end);
    h->job.n_tests = 0;
    hand_strip_once(h, hand_test(h, "2026-11-02", offcut, length), fence_end, far_end);
    return hand_prove(h);
}

/* Moves the point of the fence at moving_x as advised, the point at pivot_x staying where it is. */
static struct fence move_fence(const struct fence *f, const struct setting *s, const struct move *m)
{
    double by = m->toward == TOWARD_AWAY ? m->distance : -m->distance;
    struct place pivot = {s->pivot_x, f->at.y + (s->pivot_x - f->at.x) * tan(f->angle)};
    double moved_y = f->at.y + (s->moving_x - f->at.x) * tan(f->angle) + by;
    return (struct fence){
        .at = pivot, .angle = atan((moved_y - pivot.y) / (s->moving_x - s->pivot_x)), .side = f->side};
}

static void try_board(const struct board *b, double angle, enum fence_side side, enum side offcut, enum side moving)
{
    struct hand h;
    hand_begin(&h);
    h.setting.fence_side = side;
    h.setting.pivot_x = moving == SIDE_RIGHT ? -330 : 280;
    h.setting.moving_x = moving == SIDE_RIGHT ? 280 : -330;
    struct fence f = {
        .at = {0, 90},
          .angle = angle, .side = side
    };
    const struct proof_test *t = prove_fence(&h, b, &f, offcut, 300);
    assert_close(t->error, angle, 0.002); /* tan(4 e)/4 for e: 0.16 % at one degree */
    assert_int_equal(t->move.end, moving);
    struct fence put_right = move_fence(&f, &h.setting, &t->move);
    assert_within(put_right.angle, 0, 0.002 * fabs(angle));
    t = prove_fence(&h, b, &put_right, offcut, 300);
    assert_within(t->error, put_right.angle, 1e-9 + 0.002 * fabs(angle) * 0.002);
    hand_end(&h);
}

static const double degree = 3.14159265358979323846 / 180;

static void test_proof_build_gives_back_the_angle_of_a_fence(void **state)
{
    (void)state;
    static const struct board boards[] = {
        {{{0, 0}, {480, 0}, {480, 480}, {0, 480}},                 4},
        {{{0, 0}, {490, 8}, {471, 512}, {-13, 467}},               4}, /* no corner square */
        {{{10, 0}, {530, -12}, {522, 451}, {210, 464}, {-6, 448}}, 5}, /* five corners */
    };
    static const double angles[] = {1, -1, 0.3, -0.05, 0.008};
    for (size_t i = 0; i < COUNT(boards); i++)
        for (size_t k = 0; k < COUNT(angles); k++)
            for (int way = 0; way < 8; way++)
                try_board(&boards[i], angles[k] * degree, way & 1 ? FENCE_FAR : FENCE_NEAR,
                          way & 2 ? SIDE_LEFT : SIDE_RIGHT, way & 4 ? SIDE_LEFT : SIDE_RIGHT);
}

static void test_proof_build_gives_back_random_angles(void **state)
{
    (void)state;
    struct hand_random r = {2};
    for (int i = 0; i < 400; i++) {
        struct board b = {
            {{0, 0}, {480, 0}, {480, 480}, {0, 480}},
            4
        };
        for (int k = 0; k < 4; k++) {
            b.p[k].x += hand_within(&r, -15, 15);
            b.p[k].y += hand_within(&r, -15, 15);
        }
        int way = (int)hand_within(&r, 0, 8);
        try_board(&b, hand_within(&r, -1, 1) * degree, way & 1 ? FENCE_FAR : FENCE_NEAR,
                  way & 2 ? SIDE_LEFT : SIDE_RIGHT, way & 4 ? SIDE_LEFT : SIDE_RIGHT);
    }
}

/* A square fence gives a strip without taper, however crooked the board was. */
static void test_proof_build_square_fence_crooked_board(void **state)
{
    (void)state;
    static const struct board b = {
        {{0, 0}, {490, 8}, {471, 512}, {-13, 467}},
        4
    };
    struct hand h;
    hand_begin(&h);
    struct fence f = {
        .at = {0, 90},
          .angle = 0, .side = FENCE_NEAR
    };
    assert_within(prove_fence(&h, &b, &f, SIDE_RIGHT, 300)->error, 0, 1e-13);
    hand_end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_proof_build_gives_back_the_angle_of_a_fence),
        cmocka_unit_test(test_proof_build_gives_back_random_angles),
        cmocka_unit_test(test_proof_build_square_fence_crooked_board),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
