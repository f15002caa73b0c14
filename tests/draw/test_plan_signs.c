/* The view from above: each kind of screw by its own sign, and nothing that hides a sign. */
#include "close.h"

#include "draw.h"
#include "sample_plan.h"

#include <string.h>

struct scene {
    struct plan plan;
    struct pool pool;
    struct drawing d;
};

/* The worked sled's own holes replaced by one of each kind, the first into a runner and hidden under the fence. */
static void lay_scene(struct scene *s, enum fence_side side)
{
    struct sample a = SAMPLE_WORKED;
    *s = (struct scene){0};
    a.side = side;
    sample_plan_of(&a, &s->plan);
    double v = s->plan.holes[0].v;
    const struct plan_hole kinds[] = {
        {.part = "F", .x = 178, .v = v, .role = HOLE_FIXED, .from_above = true},
        {.part = "B", .x = -330, .v = v, .role = HOLE_PIVOT},
        {.part = "B", .x = 280, .v = v, .role = HOLE_TRIAL},
        {.part = "B", .x = 291, .v = v, .role = HOLE_FRESH},
        {.part = "B", .x = 100, .v = v, .role = HOLE_REST},
        {.part = "B", .x = 111, .v = v, .role = HOLE_RESERVED},
    };
    s->plan.n_holes = sizeof kinds / sizeof *kinds;
    memcpy(s->plan.holes, kinds, sizeof kinds);
    draw_plan_view(&s->plan, UNITS_MM, false, &s->pool, &s->d);
}

static void clear_scene(struct scene *s)
{
    pool_free(&s->pool);
    pool_free(&s->plan.pool);
}

/* What is drawn within 5 mm of a hole and nowhere else: a ring, and lines level, upright, oblique. */
struct sign {
    int rings, level, upright, oblique;
};

static struct sign sign_of(const struct drawing *d, const struct plan_hole *h)
{
    struct sign sign = {0};
    for (size_t i = 0; i < d->n_shapes; i++) {
        const struct draw_shape *shape = &d->shapes[i];
        bool near = true;
        for (size_t k = 0; k < shape->n; k++)
            near = near && hypot(shape->points[k].x - h->x, shape->points[k].y - h->v) < 5.3;
        if (!near)
            continue;
        double dx = fabs(shape->points[1].x - shape->points[0].x), dy = fabs(shape->points[1].y - shape->points[0].y);
        if (shape->n > 2)
            sign.rings += shape->fill == FILL_WHITE;
        else if (dy < 1e-9)
            sign.level++;
        else if (dx < 1e-9)
            sign.upright++;
        else
            sign.oblique++;
    }
    return sign;
}

static void expect_sign(const struct scene *s, size_t hole, struct sign wanted)
{
    struct sign got = sign_of(&s->d, &s->plan.holes[hole]);
    assert_int_equal(got.rings, wanted.rings);
    assert_int_equal(got.level, wanted.level);
    assert_int_equal(got.upright, wanted.upright);
    assert_int_equal(got.oblique, wanted.oblique);
}

static void test_a_runners_screw_under_the_fence_is_not_taken_for_the_fences_own(void **state)
{
    (void)state;
    for (enum fence_side side = FENCE_NEAR; side <= FENCE_FAR; side++) {
        struct scene s;
        lay_scene(&s, side);
        expect_sign(&s, 0, (struct sign){.rings = 1});
        expect_sign(&s, 2, (struct sign){.level = 1, .upright = 1});
        expect_sign(&s, 3, (struct sign){.oblique = 2});
        expect_sign(&s, 4, (struct sign){.level = 1, .upright = 1});
        expect_sign(&s, 5, (struct sign){.upright = 1});
        clear_scene(&s);
    }
}

/* No line of the drawing but its own cross comes within half the cross of hole 1. */
static void test_the_gauge_marks_line_leaves_hole_1_free(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, FENCE_NEAR);
    const struct plan_hole *one = &s.plan.holes[2];
    int pieces = 0;
    for (size_t i = 0; i < s.d.n_shapes; i++) {
        const struct draw_shape *shape = &s.d.shapes[i];
        if (shape->closed || shape->n != 2 || fabs(shape->points[0].x - 280) > 1e-9 || fabs(shape->points[1].x - 280) > 1e-9)
            continue;
        double low = fmin(shape->points[0].y, shape->points[1].y), high = fmax(shape->points[0].y, shape->points[1].y);
        bool own = fabs((low + high) / 2 - one->v) < 1e-9;
        pieces += !own;
        assert_true(own || low > one->v + 5 || high < one->v - 5);
    }
    assert_int_equal(pieces, 2);
    clear_scene(&s);
}

static const struct draw_label *label_with(const struct drawing *d, const char *part)
{
    for (size_t i = 0; i < d->n_labels; i++)
        if (strstr(d->labels[i].text, part))
            return &d->labels[i];
    return NULL;
}

/* The free runner of the worked sled ends at 0.67 x 580, and the stop goes on from there for 60. */
static void test_the_travel_stop_is_drawn_and_named(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, FENCE_NEAR);
    const struct draw_label *stop = label_with(&s.d, "G" "\xC2\xA0");
    assert_non_null(stop);
    assert_within(stop->at.y, 0.67 * 580 + 30, 1e-9);
    bool drawn = false;
    for (size_t i = 0; i < s.d.n_shapes; i++)
        drawn = drawn || (s.d.shapes[i].line == LINE_PHANTOM && fabs(s.d.shapes[i].points[0].y - 0.67 * 580) < 1e-9);
    assert_true(drawn);
    clear_scene(&s);
}

static void test_the_moving_ends_holes_are_named_in_their_order(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, FENCE_NEAR);
    assert_non_null(label_with(&s.d, "1,\xC2\xA0" "2"));
    assert_non_null(label_with(&s.d, ",\xC2\xA0" "P"));
    s.plan.holes[3].x = 269;
    draw_plan_view(&s.plan, UNITS_MM, false, &s.pool, &s.d);
    assert_non_null(label_with(&s.d, "2,\xC2\xA0" "1"));
    clear_scene(&s);
}

/* Dots of leaders lie on no screw. */
static void test_no_leader_ends_on_a_screw(void **state)
{
    (void)state;
    struct scene s;
    lay_scene(&s, FENCE_NEAR);
    s.plan.holes[0].v = 126 + 0.3 * 418; /* where the free runner's name would point */
    s.plan.holes[4] = s.plan.holes[0];
    s.plan.holes[4].v = 126 + 0.8 * 418;
    draw_plan_view(&s.plan, UNITS_MM, false, &s.pool, &s.d);
    for (size_t i = 0; i < s.d.n_labels; i++)
        for (size_t k = 0; s.d.labels[i].leader && k < s.plan.n_holes; k++)
            if (s.plan.holes[k].role != HOLE_PIVOT)
                assert_true(hypot(s.d.labels[i].at.x - s.plan.holes[k].x, s.d.labels[i].at.y - s.plan.holes[k].v) > 8);
    clear_scene(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_runners_screw_under_the_fence_is_not_taken_for_the_fences_own),
        cmocka_unit_test(test_the_gauge_marks_line_leaves_hole_1_free),
        cmocka_unit_test(test_the_travel_stop_is_drawn_and_named),
        cmocka_unit_test(test_the_moving_ends_holes_are_named_in_their_order),
        cmocka_unit_test(test_no_leader_ends_on_a_screw),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
