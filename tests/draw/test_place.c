/* Scales, dimensions and labels of drawings made by hand. */
#include "close.h"

#include "draw/check.h"
#include "draw/place.h"
#include "draw/scale.h"
#include "random_sled.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct faces *faces;

static const struct draw_point unit_box[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};

/* A box of w by h millimetres, alone. */
static struct drawing box_drawing(double w, double h, struct pool *pool)
{
    struct draw_point *points = pool_alloc(pool, sizeof unit_box);
    for (int i = 0; i < 4; i++)
        points[i] = (struct draw_point){unit_box[i].x * w, unit_box[i].y * h};
    struct draw_shape *shape = pool_alloc(pool, sizeof *shape);
    *shape = (struct draw_shape){points, 4, true, LINE_VISIBLE, FILL_WHITE};
    return (struct drawing){.shapes = shape, .n_shapes = 1, .to_scale = true};
}

/* ISO 5455: 1, 2 and 5 times powers of ten. The marks are the table's own; the numbers are judged here. */
static void test_scales_are_those_of_iso_5455(void **state)
{
    (void)state;
    double last = INFINITY;
    for (size_t i = 0; i < scale_count(); i++) {
        const struct scale *s = scale_at(i);
        double ratio = s->model / s->paper, digit = ratio / pow(10, floor(log10(ratio) + 1e-9));
        bool standard = fabs(digit - 1) < 1e-9 || fabs(digit - 2) < 1e-9 || fabs(digit - 5) < 1e-9;
        assert_int_equal(standard, s->recommended);
        assert_true(1 / ratio < last);
        last = 1 / ratio;
    }
}

static double middle_of_text(const struct placed_drawing *placed, const char *s)
{
    for (size_t i = 0; i < placed->inks.n; i++) {
        double box[4];
        if (placed->inks.list[i].kind != INK_TEXT || strcmp(placed->inks.list[i].as.text.s, s) != 0)
            continue;
        ink_box(&placed->inks.list[i], faces, box);
        return (box[0] + box[2]) / 2;
    }
    return NAN;
}

/* A chain of two, then to its middle, then the whole: an inner row ends in the middle of the outer one. */
static void test_figures_stand_in_the_middle_above_the_ends_of_inner_dimensions(void **state)
{
    (void)state;
    for (enum dim_side side = DIM_BELOW; side <= DIM_ABOVE; side++) {
        struct pool pool = {0};
        struct placed_drawing placed;
        struct drawing d = box_drawing(140, 20, &pool);
        double y = side == DIM_BELOW ? 0 : 20;
        struct draw_dim dims[] = {
            {{10, y}, {70, y}, side, "60"},
            {{70, y}, {130, y}, side, "61"},
            {{0, y}, {70, y}, side, "70"},
            {{0, y}, {140, y}, side, "140"},
        };
        d.dims = dims;
        d.n_dims = sizeof dims / sizeof *dims;
        draw_place(&d, faces, 180 * POINT_PER_MM, 100 * POINT_PER_MM, 9, &pool, &placed);
        double first = middle_of_text(&placed, "60");
        assert_within(middle_of_text(&placed, "61") - first, 60 * POINT_PER_MM, 0.3);
        assert_within(middle_of_text(&placed, "70") - first, -5 * POINT_PER_MM, 0.3);
        assert_within(middle_of_text(&placed, "140") - first, 30 * POINT_PER_MM, 0.3);
        pool_free(&pool);
    }
}

/* In a box of 180 x 100 mm: 100 mm fits at 1 : 1; 300 wide at 1 : 2 (150); 420 at 1 : 2 would be 210, so 1 : 5, which
   at 84 mm fills less than 0.707 of the width: 1 : 2.5 (168) instead; 700 at 1 : 5 is 140 of 180 and stays; 950 at 1 :
   10 is 95, under 0.707: 1 : 6 (158). */
static void test_draw_place_chooses_scale(void **state)
{
    (void)state;
    static const struct {
        double width;
        const char *scale;
        double number;
    } rows[] = {{150, "1 : 1", 1},       {300, "1 : 2", 0.5}, {420, "1 : 2.5", 0.4}, {700, "1 : 5", 0.2},
                {950, "1 : 6", 1 / 6.0}, {60, "2 : 1", 2},    {17, "10 : 1", 10}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct pool pool = {0};
        struct drawing d = box_drawing(rows[i].width, 5, &pool);
        struct placed_drawing placed;
        draw_place(&d, faces, 180 * POINT_PER_MM, 100 * POINT_PER_MM, 9, &pool, &placed);
        assert_string_equal(placed.scale_text, rows[i].scale);
        assert_close(placed.scale, rows[i].number, 1e-12);
        assert_within(placed.width, (rows[i].width * rows[i].number + 0.5) * POINT_PER_MM,
                      1e-6); /* with its 0.5 mm line */
        pool_free(&pool);
    }
}

static void test_draw_place_true_scale(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = box_drawing(500, 20, &pool);
    struct placed_drawing placed;
    d.fixed_scale = 1;
    draw_place(&d, faces, 100, 100, 9, &pool, &placed); /* larger than the box: true scale is kept */
    assert_string_equal(placed.scale_text, "1 : 1");
    assert_within(placed.width, 500.5 * 72 / 25.4, 1e-6);
    pool_free(&pool);
}

static void test_draw_place_not_to_scale_fits(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = box_drawing(173, 61, &pool);
    struct draw_label label = {.at = {173, 30}, .anchor = ANCHOR_RIGHT, .text = "a label outside"};
    struct placed_drawing placed;
    d.to_scale = false, d.labels = &label, d.n_labels = 1;
    draw_place(&d, faces, 300, 300, 9, &pool, &placed);
    assert_string_equal(placed.scale_text, "");
    assert_true(placed.width <= 300 && placed.width > 250);
    pool_free(&pool);
}

/* Tips of arrow heads are the first point of filled triangles. */
static size_t head_tips(const struct placed_drawing *placed, struct draw_point *tips, size_t most)
{
    size_t n = 0;
    for (size_t i = 0; i < placed->inks.n; i++) {
        const struct ink *ink = &placed->inks.list[i];
        if (ink->kind == INK_PATH && ink->as.path.fill && ink->as.path.n == 4 && n < most)
            tips[n++] = (struct draw_point){ink->as.path.ops[0].x, ink->as.path.ops[0].y};
    }
    return n;
}

static void test_dimension_arrows_touch_what_they_measure(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = box_drawing(100, 40, &pool);
    struct draw_dim dim = {{0, 0}, {100, 0}, DIM_BELOW, "100"};
    struct placed_drawing placed;
    d.dims = &dim, d.n_dims = 1, d.fixed_scale = 1;
    draw_place(&d, faces, 1000, 1000, 10, &pool, &placed);
    struct draw_point tips[8];
    assert_int_equal(head_tips(&placed, tips, 8), 2);
    assert_within(tips[1].x - tips[0].x, 100 * 72 / 25.4, 1e-6);
    assert_within(tips[1].y, tips[0].y, 1e-9);
    const struct ink_path *head = NULL;
    for (size_t i = 0; i < placed.inks.n; i++)
        if (placed.inks.list[i].kind == INK_PATH && placed.inks.list[i].as.path.fill &&
            placed.inks.list[i].as.path.n == 4 && !head)
            head = &placed.inks.list[i].as.path;
    /* from inside: the barbs of the left head lie to the right of its tip; as long as three times their width */
    assert_true(head->ops[1].x > head->ops[0].x && head->ops[2].x > head->ops[0].x);
    assert_close((head->ops[1].x - head->ops[0].x) / fabs(head->ops[1].y - head->ops[2].y), 3, 1e-6);
    pool_free(&pool);
}

/* 3 mm leave no room for heads of 0.72 x 10 pt = 2.54 mm each: they come from outside, the figure stands beyond. */
static void test_tight_dimension_turns_its_arrows_out(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = box_drawing(100, 40, &pool);
    struct draw_dim dim = {{20, 0}, {23, 0}, DIM_BELOW, "3"};
    struct placed_drawing placed;
    struct text problems = {0};
    d.dims = &dim, d.n_dims = 1, d.fixed_scale = 1;
    draw_place(&d, faces, 1000, 1000, 10, &pool, &placed);
    double left = INFINITY;
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink *ink = &placed.inks.list[i];
        if (ink->kind == INK_PATH && ink->as.path.fill && ink->as.path.n == 4)
            left = fmin(left, fmin(ink->as.path.ops[1].x, ink->as.path.ops[2].x) - ink->as.path.ops[0].x);
    }
    assert_within(left, -7.2, 1e-6); /* the left head's barbs lie to the left of its tip */
    assert_int_equal(draw_check(&placed, faces, &problems), 0);
    text_free(&problems);
    pool_free(&pool);
}

/* Nested dimensions from one datum: each longer one further out, no dimension line crossed by an extension line. */
static void test_longer_dimensions_lie_further_out(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = box_drawing(100, 40, &pool);
    struct draw_dim dims[] = {
        {{0, 0}, {100, 0}, DIM_BELOW, "100"}, {{0, 0}, {30, 0}, DIM_BELOW, "30"}, {{0, 0}, {60, 0}, DIM_BELOW, "60"}};
    struct placed_drawing placed;
    d.dims = dims, d.n_dims = 3, d.fixed_scale = 1;
    draw_place(&d, faces, 1000, 1000, 10, &pool, &placed);
    double y[3] = {0};
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink_text *t = &placed.inks.list[i].as.text;
        if (placed.inks.list[i].kind == INK_TEXT)
            y[t->s[0] == '3' ? 0 : t->s[0] == '6' ? 1 : 2] = t->y;
    }
    assert_true(y[0] < y[1] && y[1] < y[2]);
    pool_free(&pool);
}

/* Random dimensions on all four sides, random labels, random boxes as obstacles: the rules hold for each. */
static void test_random_dimensions_and_labels_never_collide(void **state)
{
    (void)state;
    enum { CASES = 200, DIMS = 14, LABELS = 7, BOXES = 5 };
    static const char *const names[] = {"runner", "guard block", "reference fence", "no hands in the strip", "a"};
    uint64_t seed = 7;
    for (int c = 0; c < CASES; c++) {
        struct pool pool = {0};
        struct drawing d = box_drawing(600, 400, &pool);
        struct draw_shape shapes[1 + BOXES] = {d.shapes[0]};
        struct draw_dim dims[DIMS];
        struct draw_label labels[LABELS] = {0};
        for (int i = 0; i < BOXES; i++) {
            double x = random_between(&seed, 0, 500), y = random_between(&seed, 0, 350);
            struct drawing inner = box_drawing(random_between(&seed, 5, 100), random_between(&seed, 5, 50), &pool);
            struct draw_point *p = pool_copy(&pool, inner.shapes[0].points, 4 * sizeof *p);
            for (int k = 0; k < 4; k++)
                p[k].x += x, p[k].y += y;
            shapes[i + 1] =
                (struct draw_shape){p, 4, true, i % 2 ? LINE_VISIBLE : LINE_HIDDEN, i % 2 ? FILL_WHITE : FILL_NONE};
        }
        for (int i = 0; i < DIMS; i++) {
            double a = random_half(&seed, 0, 600), b = random_half(&seed, 0, 600), y = random_between(&seed, 0, 400);
            if (i % 4 >= 2)
                a = a * 400 / 600, b = b * 400 / 600;
            struct draw_point p = {a, y}, q = {b, y};
            if (i % 4 >= 2)
                p = (struct draw_point){y, a}, q = (struct draw_point){y, b};
            dims[i] = (struct draw_dim){p, q, (enum dim_side)(i % 4), pool_printf(&pool, "%.1f", fabs(a - b))};
        }
        for (int i = 0; i < LABELS; i++) {
            labels[i].at = (struct draw_point){random_between(&seed, 20, 580), random_between(&seed, 20, 380)};
            labels[i].text = names[i % 5];
            labels[i].leader = true;
            labels[i].bold = i % 2;
        }
        d.shapes = shapes, d.n_shapes = 1 + BOXES, d.dims = dims, d.n_dims = DIMS, d.labels = labels,
        d.n_labels = LABELS;
        struct placed_drawing placed;
        struct text problems = {0};
        draw_place(&d, faces, 180 * POINT_PER_MM, 200 * POINT_PER_MM, 9, &pool, &placed);
        size_t n = draw_check(&placed, faces, &problems);
        if (n)
            print_error("case %d: %s", c, text_string(&problems));
        assert_int_equal(n, 0);
        assert_int_equal(placed.n_labels, LABELS);
        text_free(&problems);
        pool_free(&pool);
    }
}

/* The check itself sees a text on a line, two texts in one place, and ink outside. */
static void test_draw_check_sees_faults(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct placed_drawing placed = {.inks = {.pool = &pool}, .width = 100, .height = 100};
    struct text problems = {0};
    ink_add_text(&placed.inks, faces, FACE_CONDENSED, 0, 10, 20, 50, COLOR_BLACK, "one", 3);
    assert_int_equal(draw_check(&placed, faces, &problems), 0);
    ink_add_line(&placed.inks, 10, 48, 90, 48, 0.7, COLOR_BLACK);
    assert_int_equal(draw_check(&placed, faces, &problems), 1);
    ink_add_text(&placed.inks, faces, FACE_CONDENSED, 0, 10, 22, 50, COLOR_BLACK, "two", 3);
    assert_int_equal(draw_check(&placed, faces, &problems), 3);
    ink_add_line(&placed.inks, 10, 80, 120, 80, 0.7, COLOR_BLACK);
    assert_int_equal(draw_check(&placed, faces, &problems), 4);
    text_free(&problems);
    pool_free(&pool);
}

/* ISO 128: wide to narrow 2 : 1. */
static void test_line_widths(void **state)
{
    (void)state;
    assert_close(line_style(LINE_VISIBLE)->width / line_style(LINE_NARROW)->width, 2, 1e-12);
    assert_close(line_style(LINE_HIDDEN)->width, line_style(LINE_NARROW)->width, 1e-12);
    for (int fill = FILL_NONE; fill <= FILL_KEEP_OUT; fill++)
        assert_true(fill_style((enum fill_kind)fill)->hatch == 0 || fill_style((enum fill_kind)fill)->hatch >= 0.7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_scales_are_those_of_iso_5455),
        cmocka_unit_test(test_draw_place_chooses_scale),
        cmocka_unit_test(test_figures_stand_in_the_middle_above_the_ends_of_inner_dimensions),
        cmocka_unit_test(test_draw_place_true_scale),
        cmocka_unit_test(test_draw_place_not_to_scale_fits),
        cmocka_unit_test(test_dimension_arrows_touch_what_they_measure),
        cmocka_unit_test(test_tight_dimension_turns_its_arrows_out),
        cmocka_unit_test(test_longer_dimensions_lie_further_out),
        cmocka_unit_test(test_random_dimensions_and_labels_never_collide),
        cmocka_unit_test(test_draw_check_sees_faults),
        cmocka_unit_test(test_line_widths),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
