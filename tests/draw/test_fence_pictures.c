/* Pictures of straight edge, frame, diagonals, side play and box joint: that no text lies on a line, and that what is
   drawn opens, bends or leans the way that the words beside it say. */
#include "close.h"

#include "draw/check.h"
#include "draw/clip.h"
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
    text_free(&problems);
    pool_free(&pool);
}

struct scene {
    struct plan plan;
    struct proof proof;
    struct job_test job;
    struct proof_test test;
    struct pool pool;
};

static void lay_scene(struct scene *s, enum method method, enum fence_side side, double error)
{
    struct sample a = SAMPLE_WORKED;
    *s = (struct scene){0};
    a.side = side;
    sample_plan_of(&a, &s->plan);
    s->job = (struct job_test){.method = method, .date = {2026, 5, 4}};
    s->test = (struct proof_test){.job = &s->job, .method = method, .unit = "rad", .error = error};
    s->proof.tests = &s->test;
    s->proof.n_tests = 1;
}

static void clear_scene(struct scene *s)
{
    pool_free(&s->pool);
    pool_free(&s->plan.pool);
}

static void draw_step(struct scene *s, int step, struct drawing *d)
{
    *d = (struct drawing){0};
    assert_true(draw_test_picture(&s->plan, &s->proof, s->job.method, step, UNITS_MM, &s->pool, d));
    assert_false(d->to_scale);
    assert_null(strchr(d->title, '?'));
    for (size_t i = 0; i < d->n_labels; i++)
        assert_null(strchr(d->labels[i].text, '?'));
    check_placed(d, 85, 46);
    check_placed(d, 176, 46);
}

static const struct draw_label *label_with(const struct drawing *d, const char *part)
{
    for (size_t i = 0; i < d->n_labels; i++)
        if (strstr(d->labels[i].text, part))
            return &d->labels[i];
    fail_msg("no label \"%s\"", part);
    return NULL;
}

/* The face, the first shape, stands nearer to the edge, the second, where the sign says plus; the work's side of a far
   fence is below. */
static void test_fence_straight_picture(void **state)
{
    (void)state;
    for (int side = 0; side < 2; side++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, METHOD_FENCE_STRAIGHT, side ? FENCE_FAR : FENCE_NEAR, 0.1);
        draw_step(&s, 0, &d);
        const struct draw_shape *face = &d.shapes[0];
        double edge_y = d.shapes[1].points[0].y, plus_x = label_with(&d, "(+)")->at.x;
        double minus_x = label_with(&d, "hollow")->at.x, at_plus = NAN, at_minus = NAN;
        for (size_t i = 0; i < 41; i++) {
            at_plus = fabs(face->points[i].x - plus_x) < 3 ? fabs(face->points[i].y - edge_y) : at_plus;
            at_minus = fabs(face->points[i].x - minus_x) < 3 ? fabs(face->points[i].y - edge_y) : at_minus;
        }
        assert_true(at_plus < at_minus);
        assert_true((edge_y < 0) == (side == 1));
        clear_scene(&s);
    }
}

/* Lower piece: outer corner and inner corner of its face are its points 1 and 2; the upright's 3 and 2. */
static void test_frame_pictures(void **state)
{
    (void)state;
    for (int step = 0; step < 2; step++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, METHOD_FRAME, FENCE_NEAR, 0.001);
        draw_step(&s, step, &d);
        const struct draw_point *low = d.shapes[0].points, *up = d.shapes[1].points;
        double outer = hypot(low[1].x - up[3].x, low[1].y - up[3].y),
               inner = hypot(low[2].x - up[2].x, low[2].y - up[2].y);
        assert_true(step == 0 ? inner > 5 && outer < 1e-9 : outer > 5 && inner < 1e-9);
        assert_non_null(strstr(d.title, step == 0 ? "inside: corner between fence and blade too small" : "outside: corner between fence and blade too large"));
        const struct draw_label *gap = label_with(&d, words_get("draw.frame.gap"));
        struct polygon pieces[] = {polygon_of(low, 4), polygon_of(up, 4)};
        assert_true(gap->pointed && label_with(&d, words_get("draw.frame.touches"))->pointed);
        assert_false(polygon_holds(&pieces[0], gap->at) || polygon_holds(&pieces[1], gap->at));
        assert_true(gap->at.x > -46 - 9 && gap->at.x < 0 && gap->at.y > 0 && gap->at.y < 46 + 9); /* between the faces */
        /* too large, measured from a square cut: the face leans more than 45 degrees from one */
        double lean = fabs(low[2].x - low[1].x) / (low[2].y - low[1].y);
        assert_true(step == 0 ? lean > 1 : lean < 1);
        clear_scene(&s);
    }
}

static void test_diagonals_picture(void **state)
{
    (void)state;
    for (int smaller = 0; smaller < 2; smaller++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, METHOD_DIAGONALS, FENCE_NEAR, smaller ? -0.001 : 0.001);
        draw_step(&s, 0, &d);
        const struct draw_point *p = d.shapes[0].points; /* near left, near right, far right, far left */
        double d1 = hypot(p[2].x - p[0].x, p[2].y - p[0].y), d2 = hypot(p[3].x - p[1].x, p[3].y - p[1].y);
        assert_true((d2 > d1) == !smaller);
        assert_non_null(strstr(d.title, smaller ? "d1 longer" : "d2 longer"));
        assert_true(label_with(&d, "d1")->at.x > label_with(&d, "d2")->at.x);
        clear_scene(&s);
    }
}

static void test_side_play_and_box_joint_pictures(void **state)
{
    (void)state;
    static const enum method methods[] = {METHOD_SIDE_PLAY, METHOD_BOX_JOINT};
    for (int m = 0; m < 2; m++) {
        struct scene s;
        struct drawing d;
        lay_scene(&s, methods[m], FENCE_NEAR, 0.01);
        draw_step(&s, 0, &d);
        draw_step(&s, 1, &d);
        assert_false(draw_test_picture(&s.plan, &s.proof, methods[m], 2, UNITS_MM, &s.pool, &d));
        clear_scene(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fence_straight_picture),
        cmocka_unit_test(test_frame_pictures),
        cmocka_unit_test(test_diagonals_picture),
        cmocka_unit_test(test_side_play_and_box_joint_pictures),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
