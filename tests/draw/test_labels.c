/* Labels and figures: what each belongs to is seen without doubt. */
#include "close.h"

#include "draw/check.h"
#include "draw/place.h"
#include "flip_sample.h"
#include "random_sled.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

static struct faces *faces;

static const double text_pt = 9;

/* Boxes of 100 by 40, side by side from x = 0. */
static struct drawing boxes(size_t n, double w, double h, struct pool *pool)
{
    struct draw_shape *shapes = pool_alloc(pool, n * sizeof *shapes);
    for (size_t i = 0; i < n; i++) {
        double x = (double)i * w;
        struct draw_point p[] = {{x, 0}, {x + w, 0}, {x + w, h}, {x, h}};
        shapes[i] = (struct draw_shape){pool_copy(pool, p, sizeof p), 4, true, LINE_VISIBLE, FILL_WHITE};
    }
    return (struct drawing){.shapes = shapes, .n_shapes = n, .to_scale = true, .fixed_scale = 1};
}

static void place(const struct drawing *d, struct pool *pool, struct placed_drawing *placed)
{
    struct text problems = {0};
    draw_place(d, faces, 167 * POINT_PER_MM, 70 * POINT_PER_MM, text_pt, pool, placed);
    if (draw_check(placed, faces, &problems))
        fail_msg("%s", text_string(&problems));
    assert_int_equal(placed->n_labels, d->n_labels);
    text_free(&problems);
}

static struct rect box_of_text(const struct placed_drawing *placed, const char *s)
{
    for (size_t i = 0; i < placed->inks.n; i++) {
        double b[4];
        if (placed->inks.list[i].kind != INK_TEXT || strcmp(placed->inks.list[i].as.text.s, s) != 0)
            continue;
        ink_box(&placed->inks.list[i], faces, b);
        return (struct rect){b[0], b[1], b[2], b[3]};
    }
    fail_msg("no text \"%s\"", s);
    return RECT_EMPTY;
}

/* Dots at the ends of leaders are filled polygons of eight sides. */
static size_t count_dots(const struct placed_drawing *placed)
{
    size_t n = 0;
    for (size_t i = 0; i < placed->inks.n; i++)
        n += placed->inks.list[i].kind == INK_PATH && placed->inks.list[i].as.path.fill && placed->inks.list[i].as.path.n == 9;
    return n;
}

/* Two names whose points lie 4 mm apart in a row would be read as one, "keep 2 G". */
static void test_names_of_near_points_are_not_read_as_one(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = boxes(1, 120, 60, &pool);
    struct draw_label labels[] = {{.at = {50, 30}, .leader = true, .text = "keep\xC2\xA0" "2"}, {.at = {58, 30}, .leader = true, .text = "G"}};
    struct placed_drawing placed;
    d.labels = labels, d.n_labels = 2;
    place(&d, &pool, &placed);
    struct rect keep = box_of_text(&placed, "keep\xC2\xA0" "2"), g = box_of_text(&placed, "G");
    bool apart = g.x0 - keep.x1 >= text_pt || keep.x0 - g.x1 >= text_pt || g.y0 - keep.y1 > 0.5 * text_pt || keep.y0 - g.y1 > 0.5 * text_pt;
    assert_true(apart);
    pool_free(&pool);
}

/* Pushed off its middle by a line, the name of a large piece stands beside the line, inside the piece: no leader. */
static void test_name_inside_its_piece_has_no_leader(void **state)
{
    (void)state;
    for (int has_home = 0; has_home < 2; has_home++) {
        struct pool pool = {0};
        struct drawing d = boxes(2, 60, 40, &pool);
        struct draw_label label = {.at = {60, 20}, .leader = true, .text = "base", .has_home = has_home, .home_from = {0, 0}, .home_to = {120, 40}};
        struct placed_drawing placed;
        d.labels = &label, d.n_labels = 1;
        place(&d, &pool, &placed);
        assert_int_equal(count_dots(&placed), has_home ? 0 : 1);
        pool_free(&pool);
    }
}

/* "gap" beside a gap names a place only if it points there, though there is room at the point itself. */
static void test_pointed_label_always_points(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = boxes(1, 120, 60, &pool);
    struct draw_label label = {.at = {60, 30}, .anchor = ANCHOR_RIGHT, .leader = true, .pointed = true, .text = "gap"};
    struct placed_drawing placed;
    d.labels = &label, d.n_labels = 1;
    place(&d, &pool, &placed);
    assert_int_equal(count_dots(&placed), 1);
    assert_true(box_of_text(&placed, "gap").x0 > 60 * POINT_PER_MM); /* on the side wished */
    pool_free(&pool);
}

/* Of a leader that ends in a dot, from the dot's middle; 0: none ends there. */
static double length_of_leader(const struct placed_drawing *placed, const struct ink_path *dot)
{
    double x = 0, y = 0;
    for (size_t i = 0; i < 8; i++)
        x += dot->ops[i].x / 8, y += dot->ops[i].y / 8;
    for (size_t i = 0; i < placed->inks.n; i++) {
        const struct ink_path *p = &placed->inks.list[i].as.path;
        if (placed->inks.list[i].kind == INK_PATH && p->n == 2 && hypot(p->ops[1].x - x, p->ops[1].y - y) < 1e-6)
            return hypot(p->ops[0].x - x, p->ops[0].y - y);
    }
    return 0;
}

/* Names choose their places one after another, and the last may find all near ones taken. It then chooses first: of a
   hundred random sleds from the side no leader is longer than 26 mm. */
static void test_no_name_is_sent_far_because_it_chose_last(void **state)
{
    (void)state;
    uint64_t seed = 5;
    double longest = 0;
    for (int c = 0; c < 100; c++) {
        struct sample a = random_sled(&seed);
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        sample_plan_of(&a, &plan);
        draw_side_view(&plan, UNITS_MM, &pool, &d);
        place(&d, &pool, &placed);
        for (size_t i = 0; i < placed.inks.n; i++) {
            const struct ink_path *p = &placed.inks.list[i].as.path;
            if (placed.inks.list[i].kind == INK_PATH && p->fill && p->n == 9)
                longest = fmax(longest, length_of_leader(&placed, p));
        }
        pool_free(&pool);
        pool_free(&plan.pool);
    }
    assert_true(longest < 75 && longest > 15); /* 68 pt; 143 pt where the last has to take what is left */
}

/* Its point on an edge, its wish straight along that edge: the leader slants off it, or it would be read as the edge. */
static void test_leader_never_lies_on_a_line(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = boxes(6, 10, 30, &pool);
    struct draw_label labels[] = {
        {.at = {30, 3}, .anchor = ANCHOR_BELOW, .leader = true, .pointed = true, .text = "read the tape here"},
        {.at = {17, -4}, .text = "longest"}, {.at = {43, -4}, .text = "shortest"}}; /* straight down there is room between them */
    struct placed_drawing placed;
    d.labels = labels, d.n_labels = 3;
    place(&d, &pool, &placed);
    size_t leaders = 0;
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink_path *p = &placed.inks.list[i].as.path;
        if (placed.inks.list[i].kind != INK_PATH || p->n != 2)
            continue;
        leaders++;
        assert_true(fabs(p->ops[0].x - p->ops[1].x) > 1.5);
    }
    assert_int_equal(leaders, 1);
    pool_free(&pool);
}

/* 6 mm between 0 and 36: "30.5" does not fit within, and beyond its right end it would stand over the 30 mm of "59.5". */
static void test_figure_beyond_its_dimension_stands_over_no_other(void **state)
{
    (void)state;
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        struct pool pool = {0};
        struct drawing d = boxes(1, 100, 40, &pool);
        double way = mirrored ? -1 : 1, x0 = mirrored ? 70 : 30;
        struct draw_dim dims[] = {{{x0, 0}, {x0 + way * 6, 0}, DIM_BELOW, "30.5"}, {{x0 + way * 6, 0}, {x0 + way * 25, 0}, DIM_BELOW, "59.5"}};
        struct placed_drawing placed;
        d.dims = dims, d.n_dims = 2;
        place(&d, &pool, &placed);
        struct rect a = box_of_text(&placed, "30.5"), b = box_of_text(&placed, "59.5");
        assert_true(mirrored ? a.x0 > b.x1 : a.x1 < b.x0);
        double middle = (b.x0 + b.x1) / 2, end = (a.x0 + a.x1) / 2;
        assert_true(fabs(end - middle) > (25 - 6) / 2.0 * POINT_PER_MM);
        pool_free(&pool);
    }
}

/* "5 1/2", "12" and "keep 3 1/2 in": each is one text of the drawing's size; the face sets the fraction in it. */
static void test_fractions_are_of_the_size_of_the_text(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d = boxes(1, 100, 40, &pool);
    struct draw_dim dims[] = {{{0, 0}, {100, 0}, DIM_BELOW, "12"}, {{0, 0}, {60, 0}, DIM_BELOW, "5\xE2\x80\xAF" "1\xE2\x81\x84" "2"}};
    struct draw_label label = {.at = {50, 20}, .text = "keep 3 1\xE2\x81\x84" "2 in"};
    struct placed_drawing placed;
    d.dims = dims, d.n_dims = 2, d.labels = &label, d.n_labels = 1;
    place(&d, &pool, &placed);
    size_t fractions = 0;
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink_text *t = &placed.inks.list[i].as.text;
        if (placed.inks.list[i].kind != INK_TEXT)
            continue;
        assert_close(t->size, text_pt, 1e-9);
        assert_int_equal((t->features & TYPE_FRACTIONS) != 0, strstr(t->s, "\xE2\x81\x84") != NULL);
        fractions += (t->features & TYPE_FRACTIONS) != 0;
    }
    assert_int_equal(fractions, 2);
    pool_free(&pool);
}

/* Crosses of screws are lines of two points about a screw's place: those of any two screws keep apart. */
static void test_crosses_of_screws_never_touch(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED;
    struct plan plan;
    struct pool pool = {0};
    struct drawing d;
    sample_plan_of(&a, &plan);
    struct plan_hole holes[] = {{.role = HOLE_TRIAL, .x = 280, .v = 99}, {.role = HOLE_FRESH, .x = 271, .v = 99}, {.role = HOLE_REST, .x = 100, .v = 99}};
    plan.holes = holes, plan.n_holes = 3;
    draw_plan_view(&plan, UNITS_MM, false, &pool, &d);
    double right_of_fresh = -INFINITY, left_of_trial = INFINITY;
    size_t arms = 0;
    for (size_t i = 0; i < d.n_shapes; i++) {
        const struct draw_point *p = d.shapes[i].points;
        double x = (p[0].x + p[1].x) / 2, v = (p[0].y + p[1].y) / 2;
        if (d.shapes[i].n != 2 || fabs(v - 99) > 1e-9)
            continue;
        arms += fabs(x - 280) < 1e-9 || fabs(x - 271) < 1e-9;
        if (fabs(x - 280) < 1e-9)
            left_of_trial = fmin(left_of_trial, fmin(p[0].x, p[1].x));
        if (fabs(x - 271) < 1e-9)
            right_of_fresh = fmax(right_of_fresh, fmax(p[0].x, p[1].x));
    }
    assert_int_equal(arms, 4);
    assert_true(left_of_trial - right_of_fresh > 2); /* 0.2 mm on paper at 1 : 10, beside lines 0.25 wide */
    pool_free(&pool);
    pool_free(&plan.pool);
}

/* The track has no letter: the pictorial view names it, with a leader, where a flip stop has one. */
static void test_pictorial_view_names_the_track(void **state)
{
    (void)state;
    for (int flip = 0; flip < 2; flip++) {
        struct sample a = SAMPLE_WORKED;
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        size_t named = 0;
        sample_plan_of(&a, &plan);
        if (flip)
            sample_flip_stop(&plan, SIDE_LEFT, false);
        draw_pictorial(&plan, UNITS_MM, &pool, &d);
        for (size_t i = 0; i < d.n_labels; i++)
            named += strcmp(d.labels[i].text, words_get("draw.track")) == 0 && d.labels[i].pointed;
        assert_int_equal(named, flip);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_names_of_near_points_are_not_read_as_one),
        cmocka_unit_test(test_name_inside_its_piece_has_no_leader),
        cmocka_unit_test(test_pointed_label_always_points),
        cmocka_unit_test(test_no_name_is_sent_far_because_it_chose_last),
        cmocka_unit_test(test_leader_never_lies_on_a_line),
        cmocka_unit_test(test_figure_beyond_its_dimension_stands_over_no_other),
        cmocka_unit_test(test_fractions_are_of_the_size_of_the_text),
        cmocka_unit_test(test_crosses_of_screws_never_touch),
        cmocka_unit_test(test_pictorial_view_names_the_track),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
