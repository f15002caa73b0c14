/* Pictures of the flip, square, slot and stop tests: every side, that no text lies on a line, and that what is drawn
   leans the way that the words beside it say. */
#include "close.h"

#include "draw/check.h"
#include "draw/place.h"
#include "sample_plan.h"
#include "words.h"

#include <string.h>

static struct faces *faces;

static void check_placed(const struct drawing *d, double width_mm, double height_mm)
{
    struct pool pool = {0};
    struct text problems = {0};
    struct placed_drawing placed;
    draw_place(d, faces, width_mm * POINT_PER_MM, height_mm * POINT_PER_MM, 9, &pool, &placed);
    size_t n = draw_check(&placed, faces, &problems);
    if (n)
        print_error("\"%s\" in %g by %g\n%s", d->title, width_mm, height_mm, text_string(&problems));
    assert_int_equal(n, 0);
    assert_true(placed.width <= width_mm * POINT_PER_MM + 1e-6 && placed.height <= height_mm * POINT_PER_MM + 1e-6);
    text_free(&problems);
    pool_free(&pool);
}

/* A scene of one test, its plan's fence on a side. */
struct scene {
    struct plan plan;
    struct proof proof;
    struct job_test job;
    struct proof_test test;
    struct pool pool;
};

static void lay_scene(struct scene *s, enum method method, enum fence_side side)
{
    struct sample a = SAMPLE_WORKED;
    *s = (struct scene){0};
    a.side = side;
    sample_plan_of(&a, &s->plan);
    s->job = (struct job_test){.method = method, .date = {2026, 5, 4}};
    s->test = (struct proof_test){.job = &s->job, .method = method, .unit = "rad"};
    s->proof.tests = &s->test;
    s->proof.n_tests = 1;
}

static void clear_scene(struct scene *s)
{
    pool_free(&s->pool);
    pool_free(&s->plan.pool);
}

static void draw_step(struct scene *s, int step, enum units units, struct drawing *d)
{
    *d = (struct drawing){0};
    assert_true(draw_test_picture(&s->plan, &s->proof, s->job.method, step, units, &s->pool, d));
    assert_false(d->to_scale);
    assert_null(strchr(d->title, '?'));
    for (size_t i = 0; i < d->n_labels; i++)
        assert_null(strchr(d->labels[i].text, '?'));
    check_placed(d, 85, 46);
    check_placed(d, 176, 46);
}

static void expect_end(struct scene *s, int step)
{
    struct drawing d = {0};
    assert_false(draw_test_picture(&s->plan, &s->proof, s->job.method, step, UNITS_MM, &s->pool, &d));
    assert_false(draw_test_picture(&s->plan, &s->proof, s->job.method, -1, UNITS_MM, &s->pool, &d));
}

static const struct draw_label *label_with(const struct drawing *d, const char *part)
{
    for (size_t i = 0; i < d->n_labels; i++)
        if (strstr(d->labels[i].text, part))
            return &d->labels[i];
    return NULL;
}

/* The two halves are the second and third shape: corners outside bottom, face bottom, face top, outside top. */
static double gap_of(const struct drawing *d, bool top)
{
    const struct draw_point *left = d->shapes[1].points, *right = d->shapes[2].points;
    int corner = top ? 2 : 1;
    return right[corner].x - left[corner].x;
}

static void test_flip_pictures(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct scene s;
        struct drawing d;
        bool top = c & 1, left = c & 2;
        lay_scene(&s, METHOD_FLIP, FENCE_NEAR);
        s.job.as.flip = (struct flip_readings){
            .open_given = true, .open = top ? OPEN_TOP : OPEN_BOTTOM, .turned = left ? SIDE_LEFT : SIDE_RIGHT};
        s.test.as.flip.sign = top == left ? 1 : -1;
        draw_step(&s, 0, UNITS_MM, &d);
        const struct draw_point *face = d.shapes[1].points;
        assert_true((face[2].x > face[1].x) == (s.test.as.flip.sign > 0)); /* leans as the error says */
        assert_within(gap_of(&d, true), gap_of(&d, false), 1e-9);          /* a kerf, the same all over */
        draw_step(&s, 1, UNITS_MM, &d);
        assert_within(gap_of(&d, !top), 0, 1e-9);
        assert_true(gap_of(&d, top) > 10); /* open where the reading says */
        assert_non_null(label_with(&d, s.test.as.flip.sign > 0 ? "right" : "left"));
        assert_non_null(label_with(&d, top ? "gap at the top" : "gap at the bottom"));
        expect_end(&s, 2);
        clear_scene(&s);
    }
}

static void test_square_pictures(void **state)
{
    (void)state;
    for (int c = 0; c < 8; c++) {
        struct scene s;
        struct drawing d;
        bool far_fence = c & 1, left = c & 2, far_end = c & 4;
        lay_scene(&s, METHOD_SQUARE_GAP, far_fence ? FENCE_FAR : FENCE_NEAR);
        s.job.as.square_gap = (struct square_gap_readings){
            .offcut = left ? SIDE_LEFT : SIDE_RIGHT, .end_given = true, .end = far_end ? EDGE_FAR : EDGE_FENCE};
        draw_step(&s, 0, UNITS_MM, &d);
        const struct draw_point *board = d.shapes[0].points; /* fence end outside, fence end sawn, far end sawn, … */
        assert_true(fabs(board[far_end ? 2 : 1].x) > 1);     /* the edge stands off the square there */
        assert_within(board[far_end ? 1 : 2].x, 0, 1e-9);    /* and touches it here */
        bool too_far = (far_fence == left) != far_end;       /* (near, right), (far, left): fence end is too far */
        assert_non_null(label_with(&d, too_far ? "too far from" : "too near to"));
        expect_end(&s, 1);
        clear_scene(&s);
    }
}

static void test_slot_pictures(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct scene s;
        struct drawing d;
        bool left = c & 1, back_left = c & 2;
        lay_scene(&s, METHOD_SLOT_PARALLEL, FENCE_NEAR);
        s.job.as.slot_parallel.slot = left ? SIDE_LEFT : SIDE_RIGHT;
        s.test.error = back_left ? -0.001 : 0.001;
        draw_step(&s, 0, UNITS_MM, &d);
        const struct draw_shape *blade = &d.shapes[2]; /* after slot and centre line */
        assert_int_equal(blade->line, LINE_HEAVY);
        assert_true((blade->points[1].x < blade->points[0].x) == back_left);
        assert_true(blade->points[1].y > blade->points[0].y);
        assert_true((d.shapes[0].points[0].x < 0) == left);
        assert_non_null(label_with(&d, back_left ? "back to the left: error −" : "back to the right: error +"));
        expect_end(&s, 1);
        clear_scene(&s);
    }
}

static void test_stop_pictures(void **state)
{
    (void)state;
    for (int c = 0; c < 2; c++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, METHOD_STOP, FENCE_NEAR);
        s.test.error = c ? -0.4 : 0.4;
        draw_step(&s, 0, UNITS_IN, &d);
        assert_int_equal(d.n_dims, 2);
        assert_true((d.dims[0].b.x > d.dims[1].b.x) == (c == 1)); /* set longer than got: too short */
        assert_non_null(label_with(&d, c ? "too short" : "too long"));
        expect_end(&s, 1);
        clear_scene(&s);
    }
}

/* Before any test the picture shows the usual sides. */
static void test_pictures_before_any_test(void **state)
{
    (void)state;
    static const enum method methods[] = {METHOD_FLIP, METHOD_SQUARE_GAP, METHOD_SLOT_PARALLEL, METHOD_STOP};
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, methods[i], FENCE_NEAR);
        s.proof.n_tests = 0;
        draw_step(&s, 0, UNITS_MM, &d);
        clear_scene(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flip_pictures),
        cmocka_unit_test(test_square_pictures),
        cmocka_unit_test(test_slot_pictures),
        cmocka_unit_test(test_stop_pictures),
        cmocka_unit_test(test_pictures_before_any_test),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
