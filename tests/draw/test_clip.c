/* Lines cut by polygons, and hatching. */
#include "close.h"

#include "draw/clip.h"
#include "draw/place.h"
#include "sample_plan.h"

#include <stdlib.h>
#include <string.h>

/* An L: the square 0 to 10 without its upper right quarter. */
static const struct draw_point ell[] = {{0, 0}, {10, 0}, {10, 5}, {5, 5}, {5, 10}, {0, 10}};

static void test_polygon_holds_concave(void **state)
{
    (void)state;
    struct polygon p = polygon_of(ell, 6);
    assert_true(polygon_holds(&p, (struct draw_point){2, 8}));
    assert_true(polygon_holds(&p, (struct draw_point){8, 2}));
    assert_false(polygon_holds(&p, (struct draw_point){8, 8}));
    assert_false(polygon_holds(&p, (struct draw_point){5, 7})); /* on an edge */
    assert_false(polygon_holds(&p, (struct draw_point){-1, 5}));
}

/* x = 2 to 12 at y 2 leaves at 10: t from 0 to 0.8. The diagonal (0, 12)-(12, 0) is inside from (2, 10) to (5, 7) and
   from (7, 5) to (10, 2): t = 1/6 to 5/12 and 7/12 to 5/6. */
static void test_spans_inside_concave(void **state)
{
    (void)state;
    struct polygon p = polygon_of(ell, 6);
    struct spans s = {0};
    spans_inside(&s, (struct draw_point){2, 2}, (struct draw_point){12, 2}, &p);
    assert_int_equal(s.n, 1);
    assert_within(s.list[0].t0, 0, 1e-12);
    assert_within(s.list[0].t1, 0.8, 1e-12);
    spans_free(&s);
    spans_inside(&s, (struct draw_point){0, 12}, (struct draw_point){12, 0}, &p);
    assert_int_equal(s.n, 2);
    assert_within(s.list[0].t0, 1 / 6.0, 1e-12);
    assert_within(s.list[0].t1, 5 / 12.0, 1e-12);
    assert_within(s.list[1].t0, 7 / 12.0, 1e-12);
    assert_within(s.list[1].t1, 5 / 6.0, 1e-12);
    spans_free(&s);
}

static void test_spans_inside_along_an_edge(void **state)
{
    (void)state;
    struct polygon p = polygon_of(ell, 6);
    struct spans s = {0};
    spans_inside(&s, (struct draw_point){0, 0}, (struct draw_point){10, 0}, &p);
    assert_int_equal(s.n, 0); /* an edge shared with a later shape is not hidden by it */
}

static void test_spans_subtract(void **state)
{
    (void)state;
    struct spans s = {0}, cut = {0};
    spans_add(&s, 0, 1);
    spans_add(&cut, 0.2, 0.3);
    spans_add(&cut, 0.9, 1.5);
    spans_subtract(&s, &cut);
    assert_int_equal(s.n, 2);
    assert_within(s.list[0].t1, 0.2, 1e-12);
    assert_within(s.list[1].t0, 0.3, 1e-12);
    assert_within(s.list[1].t1, 0.9, 1e-12);
    spans_free(&s);
    spans_free(&cut);
}

static void test_rect_meets_segment(void **state)
{
    (void)state;
    struct rect r = {0, 0, 10, 10};
    assert_true(rect_meets_segment(&r, (struct draw_point){-5, 5}, (struct draw_point){15, 6}));
    assert_true(rect_meets_segment(&r, (struct draw_point){4, 4}, (struct draw_point){5, 5}));
    assert_false(rect_meets_segment(&r, (struct draw_point){-5, 12}, (struct draw_point){15, 12}));
    assert_false(rect_meets_segment(&r, (struct draw_point){-4, 5}, (struct draw_point){4, 16})); /* past the corner */
    assert_false(rect_meets_segment(&r, (struct draw_point){0, -5}, (struct draw_point){0, 15})); /* along an edge */
}

static double cross(struct draw_point a, struct draw_point b, struct draw_point p)
{
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

/* Hatched pairs of one placed drawing: gathered from the ink by the hatch's width and its slant. */
static size_t hatch_pairs(const struct placed_drawing *placed, double slant, struct draw_point *pairs, size_t most)
{
    size_t n = 0;
    for (size_t i = 0; i < placed->inks.n; i++) {
        const struct ink_path *p = &placed->inks.list[i].as.path;
        if (placed->inks.list[i].kind != INK_PATH || !p->stroke)
            continue;
        for (size_t k = 1; k < p->n; k++) {
            double dx = p->ops[k].x - p->ops[k - 1].x, dy = p->ops[k].y - p->ops[k - 1].y;
            if (p->ops[k].verb != PATH_LINE || fabs(dx) < 0.01 || fabs(dy / dx - slant) > 0.01 || n + 2 > most)
                continue;
            pairs[n++] = (struct draw_point){p->ops[k - 1].x, p->ops[k - 1].y};
            pairs[n++] = (struct draw_point){p->ops[k].x, p->ops[k].y};
        }
    }
    return n / 2;
}

static struct faces *faces;

static void place_hatched(const struct draw_shape *shapes, size_t n, struct draw_label *label, struct pool *pool,
                          struct placed_drawing *out)
{
    struct drawing d = {.shapes = pool_copy(pool, shapes, n * sizeof *shapes),
                        .n_shapes = n,
                        .labels = label,
                        .n_labels = label != NULL,
                        .to_scale = true,
                        .fixed_scale = 1};
    draw_place(&d, faces, 1000, 1000, 9, pool, out);
}

/* Triangle of 100 mm with a label inside: every hatch line within the triangle, at 45 degrees, at least 0.7 mm from the
   next (ISO 128: least space between parallel lines), none through the label. */
static void test_hatch_within_polygon_and_off_text(void **state)
{
    (void)state;
    static const struct draw_point triangle[] = {{0, 0}, {100, 0}, {30, 80}};
    struct draw_shape shape = {triangle, 3, true, LINE_NONE, FILL_HATCH};
    struct draw_label label = {.at = {40, 25}, .anchor = ANCHOR_CENTRE, .text = "hatched"};
    struct pool pool = {0};
    struct placed_drawing placed;
    place_hatched(&shape, 1, &label, &pool, &placed);
    static struct draw_point pairs[800];
    size_t n = hatch_pairs(&placed, -1, pairs, 800);
    assert_true(n > 60);

    struct draw_point corner[3];
    for (int i = 0; i < 3; i++) /* page: y down, the triangle's top at 0 */
        corner[i] = (struct draw_point){triangle[i].x * POINT_PER_MM, (80 - triangle[i].y) * POINT_PER_MM};
    double text[4] = {0};
    for (size_t i = 0; i < placed.inks.n; i++)
        if (placed.inks.list[i].kind == INK_TEXT)
            ink_box(&placed.inks.list[i], faces, text);
    assert_true(text[2] > text[0]);
    struct rect box = {text[0], text[1], text[2], text[3]};
    for (size_t i = 0; i < 2 * n; i++)
        for (int k = 0; k < 3; k++)
            assert_true(cross(corner[k], corner[(k + 1) % 3], pairs[i]) <= 1e-6 * 300 * 300);
    for (size_t i = 0; i < n; i++)
        assert_false(rect_meets_segment(&box, pairs[2 * i], pairs[2 * i + 1]));
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < i; k++) {
            double apart = fabs((pairs[2 * i].x + pairs[2 * i].y) - (pairs[2 * k].x + pairs[2 * k].y)) / sqrt(2);
            assert_true(apart < 0.01 || apart >= 0.7 * POINT_PER_MM);
        }
    pool_free(&pool);
}

/* A white square over the middle of a hatched one: no hatch and no line of the lower one inside it. */
static void test_later_shape_hides_lines_and_hatch(void **state)
{
    (void)state;
    static const struct draw_point big[] = {{0, 0}, {100, 0}, {100, 100}, {0, 100}};
    static const struct draw_point small[] = {{40, 40}, {120, 40}, {120, 60}, {40, 60}};
    struct draw_shape shapes[] = {{big, 4, true, LINE_VISIBLE, FILL_HATCH_BACK},
                                  {small, 4, true, LINE_NONE, FILL_WHITE}};
    struct pool pool = {0};
    struct placed_drawing placed;
    place_hatched(shapes, 2, NULL, &pool, &placed);
    struct rect inner = {40.5 * POINT_PER_MM, 40.5 * POINT_PER_MM, 119 * POINT_PER_MM,
                         59.5 * POINT_PER_MM}; /* less half a line */
    size_t lines = 0;
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink_path *p = &placed.inks.list[i].as.path;
        for (size_t k = 1; p->stroke && k < p->n; k++) {
            struct draw_point a = {p->ops[k - 1].x, p->ops[k - 1].y}, b = {p->ops[k].x, p->ops[k].y};
            if (p->ops[k].verb != PATH_LINE)
                continue;
            lines++;
            assert_false(rect_meets_segment(&inner, a, b));
        }
    }
    assert_true(lines > 40);
    pool_free(&pool);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_polygon_holds_concave),
        cmocka_unit_test(test_spans_inside_concave),
        cmocka_unit_test(test_spans_inside_along_an_edge),
        cmocka_unit_test(test_spans_subtract),
        cmocka_unit_test(test_rect_meets_segment),
        cmocka_unit_test(test_hatch_within_polygon_and_off_text),
        cmocka_unit_test(test_later_shape_hides_lines_and_hatch),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
