/* The views of sleds: figures against the model, rules on paper, near and far fence, left and right guide. */
#include "close.h"

#include "base/unit.h"
#include "base/utf8.h"
#include "draw/check.h"
#include "draw/place.h"
#include "flip_sample.h"
#include "random_sled.h"
#include "words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct faces *faces;

enum view_id { WALL, BUILD, PICTORIAL, FRONT, SIDE, KERF, RUNNER, VIEWS };

static void make_view(const struct plan *plan, enum view_id id, enum units units, struct pool *pool, struct drawing *d)
{
    switch (id) {
    case WALL:
    case BUILD:
        draw_plan_view(plan, units, id == WALL, pool, d);
        return;
    case PICTORIAL:
        draw_pictorial(plan, units, pool, d);
        return;
    case FRONT:
        draw_front_view(plan, units, pool, d);
        return;
    case SIDE:
        draw_side_view(plan, units, pool, d);
        return;
    case KERF:
        draw_kerf_section(plan, units, pool, d);
        return;
    case RUNNER:
        draw_runner_section(plan, units, pool, d);
        return;
    case VIEWS:
        return;
    }
}

/* The figure without its thin blanks and with a plain slash; of "23 5/8 (23.62)" the fraction alone. */
static double figure_of(const char *text, enum units units)
{
    char plain[64];
    size_t n = 0;
    for (const char *s = text; *s && *s != '(' && n + 1 < sizeof plain;) {
        unsigned c = utf8_next(&s);
        plain[n++] = c == 0x2044 ? '/' : c < 0x80 ? (char)c : ' ';
    }
    while (n > 0 && plain[n - 1] == ' ')
        n--;
    plain[n] = '\0';
    double v = NAN;
    assert_int_equal(unit_parse(plain, QUANTITY_LENGTH, units, &v), QUANTITY_OK);
    return v;
}

static bool is_level(enum dim_side side)
{
    return side == DIM_BELOW || side == DIM_ABOVE;
}

/* Sizes are printed to 0.5 mm, or 1/64 in; fits finer. */
static void check_figures(const struct drawing *d, enum units units)
{
    double half = units == UNITS_MM ? 0.25 : 25.4 / 128;
    for (size_t i = 0; i < d->n_dims; i++) {
        const struct draw_dim *dim = &d->dims[i];
        double distance = is_level(dim->side) ? fabs(dim->b.x - dim->a.x) : fabs(dim->b.y - dim->a.y);
        assert_within(figure_of(dim->text, units), distance, half + 1e-6);
    }
}

/* No two dimensions of a view say the same thing twice: same ends along the same direction. */
static void check_no_repeats(const struct drawing *d)
{
    for (size_t i = 0; i < d->n_dims; i++) {
        for (size_t k = 0; k < i; k++) {
            const struct draw_dim *a = &d->dims[i], *b = &d->dims[k];
            if (a->side != b->side) /* a slot may happen to lie as far out as the pivot */
                continue;
            double a0 = is_level(a->side) ? a->a.x : a->a.y, a1 = is_level(a->side) ? a->b.x : a->b.y;
            double b0 = is_level(b->side) ? b->a.x : b->a.y, b1 = is_level(b->side) ? b->b.x : b->b.y;
            bool same = fabs(fmin(a0, a1) - fmin(b0, b1)) < 0.01 && fabs(fmax(a0, a1) - fmax(b0, b1)) < 0.01;
            if (same)
                print_error("%s: %s twice\n", d->title, a->text);
            assert_false(same);
        }
    }
}

static bool is_head(const struct ink *ink)
{
    return ink->kind == INK_PATH && ink->as.path.fill && ink->as.path.n == 4 && ink->as.path.fill_color.r < 0.5F;
}

/* On paper: for every dimension there are two heads as far apart as the model says times the scale. */
static void check_heads(const struct drawing *d, const struct placed_drawing *placed)
{
    for (size_t i = 0; i < d->n_dims; i++) {
        const struct draw_dim *dim = &d->dims[i];
        bool level = is_level(dim->side), found = false;
        double wanted = (level ? fabs(dim->b.x - dim->a.x) : fabs(dim->b.y - dim->a.y)) * placed->scale * 72 / 25.4;
        for (size_t k = 0; k + 1 < placed->inks.n && !found; k++) {
            if (!is_head(&placed->inks.list[k]) || !is_head(&placed->inks.list[k + 1]))
                continue;
            struct path_op a = placed->inks.list[k].as.path.ops[0], b = placed->inks.list[k + 1].as.path.ops[0];
            found = level ? fabs(a.y - b.y) < 1e-6 && fabs(fabs(a.x - b.x) - wanted) < 1e-6
                          : fabs(a.x - b.x) < 1e-6 && fabs(fabs(a.y - b.y) - wanted) < 1e-6;
        }
        assert_true(found);
    }
}

/* All shapes fit the size that is reported. */
static void check_shapes_inside(const struct drawing *d, const struct placed_drawing *placed)
{
    struct rect r = RECT_EMPTY;
    for (size_t i = 0; i < d->n_shapes; i++)
        for (size_t k = 0; k < d->shapes[i].n; k++)
            rect_add(&r, d->shapes[i].points[k].x, d->shapes[i].points[k].y);
    assert_true((r.x1 - r.x0) * placed->scale * 72 / 25.4 <= placed->width + 1e-6);
    assert_true((r.y1 - r.y0) * placed->scale * 72 / 25.4 <= placed->height + 1e-6);
}

static void check_placed(const struct drawing *d, double width_mm, double height_mm, double text_pt, const char *what,
                         int number)
{
    struct pool pool = {0};
    struct text problems = {0};
    struct placed_drawing placed;
    draw_place(d, faces, width_mm * POINT_PER_MM, height_mm * POINT_PER_MM, text_pt, &pool, &placed);
    size_t n = draw_check(&placed, faces, &problems);
    if (n || placed.width > width_mm * POINT_PER_MM + 1e-6 || placed.height > height_mm * POINT_PER_MM + 1e-6)
        print_error("%s %d, \"%s\" at %s: %.0f x %.0f pt\n%s", what, number, d->title, placed.scale_text, placed.width,
                    placed.height, text_string(&problems));
    assert_int_equal(n, 0);
    assert_true(placed.width <= width_mm * POINT_PER_MM + 1e-6);
    assert_true(placed.height <= height_mm * POINT_PER_MM + 1e-6);
    check_shapes_inside(d, &placed);
    if (d->to_scale)
        check_heads(d, &placed);
    text_free(&problems);
    pool_free(&pool);
}

/* The wall's drawing is small (108 x 85 mm), the build sheet's as wide as the text of A4. */
static void check_sled(const struct sample *a, enum units units, const char *what, int number)
{
    static const double height[] = {
        [WALL] = 85, [BUILD] = 160, [PICTORIAL] = 118, [FRONT] = 80, [SIDE] = 80, [KERF] = 90, [RUNNER] = 70};
    struct plan plan;
    struct pool pool = {0};
    sample_plan_of(a, &plan);
    for (enum view_id id = 0; id < VIEWS; id++) {
        struct drawing d;
        make_view(&plan, id, units, &pool, &d);
        if (id != RUNNER) /* its slot is drawn wider than it is */
            check_figures(&d, units);
        check_no_repeats(&d);
        check_placed(&d, id == WALL ? 108 : 176, height[id], 9, what, number);
    }
    pool_free(&pool);
    pool_free(&plan.pool);
}

static void test_views_of_the_worked_sled(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED;
    check_sled(&a, UNITS_MM, "near", 0);
    check_sled(&a, UNITS_IN, "near, inches", 0);
    a.guide = SIDE_RIGHT;
    check_sled(&a, UNITS_MM, "guide right", 0);
    a.side = FENCE_FAR;
    check_sled(&a, UNITS_MM, "far", 0);
}

static void test_views_of_random_sleds(void **state)
{
    (void)state;
    enum { CASES = 200 };
    uint64_t seed = 2026;
    for (int i = 0; i < CASES; i++) {
        struct sample a = random_sled(&seed);
        check_sled(&a, i % 5 == 4 ? UNITS_IN : UNITS_MM, "random sled", i);
    }
}

static bool has_figure(const struct drawing *d, const char *text)
{
    for (size_t i = 0; i < d->n_dims; i++)
        if (strcmp(d->dims[i].text, text) == 0)
            return true;
    return false;
}

/* The worked sled of the reference: blade past the guard's wood 30.5, outer face 59.5, highest 80, bridge 32. */
static void test_kerf_section_shows_worked_figures(void **state)
{
    (void)state;
    struct plan plan;
    struct pool pool = {0};
    struct drawing d;
    sample_plan(&plan);
    draw_kerf_section(&plan, UNITS_MM, &pool, &d);
    static const char *const figures[] = {"30.5", "59.5", "80", "32", "90", "12"};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        assert_true(has_figure(&d, figures[i]));
    draw_plan_view(&plan, UNITS_MM, true, &pool, &d);
    assert_true(has_figure(&d, "610") && has_figure(&d, "420"));
    assert_int_equal(d.n_dims, 2); /* the wall shows no more */
    pool_free(&pool);
    pool_free(&plan.pool);
}

/* Slots that are lined: the section names the lining between runner and table, and no other sled's does. */
static void test_runner_section_shows_a_lining(void **state)
{
    (void)state;
    for (int lined = 0; lined < 2; lined++) {
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        int named = 0;
        sample_plan(&plan);
        plan.sled.routing = (struct plan_routing){.sunk = 0.1, .lining_wall = 1.5 * lined, .lining_floor = 1.5 * lined};
        draw_runner_section(&plan, UNITS_MM, &pool, &d);
        for (size_t i = 0; i < d.n_labels; i++)
            named += strcmp(d.labels[i].text, "lining") == 0;
        assert_int_equal(named, lined);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Whether the disc of the blade, anywhere from the start to the stop, covers the point (y, z) of the sled on its stop.
   Brute force: the travel in steps of 0.5 mm. */
static bool blade_passes(const struct plan_travel *t, double y, double z)
{
    double axis_z = t->highest - t->blade_radius;
    for (double back = 0; back <= t->edge_stop - t->edge_start; back += 0.5)
        if (hypot(y - back - t->blade_axis_y, z - axis_z) < t->blade_radius - 0.3)
            return true;
    return false;
}

/* No hatched wood where the blade has been, and none missing where it has not. */
static void check_cut_wood(const struct sample *a)
{
    struct plan plan;
    struct pool pool = {0};
    struct drawing d;
    sample_plan_of(a, &plan);
    draw_kerf_section(&plan, UNITS_MM, &pool, &d);
    const struct plan_travel *t = &plan.sled.travel;
    size_t wood = 0, passed = 0;
    for (double y = t->edge_stop + 1.3; y < t->edge_stop + a->base_depth; y += 7.7) {
        for (double z = 1.1; z < a->base_thickness + a->fence_height; z += 3.9) {
            bool hatched = false, in_body = false;
            for (size_t i = 0; i < d.n_shapes; i++) {
                enum fill_kind fill = d.shapes[i].fill;
                struct polygon p = polygon_of(d.shapes[i].points, d.shapes[i].n);
                if (d.shapes[i].closed && (fill == FILL_HATCH || fill == FILL_HATCH_BACK || fill == FILL_HATCH_CLOSE))
                    hatched = hatched || polygon_holds(&p, (struct draw_point){y, z});
            }
            for (size_t i = 0; i < plan.n_parts; i++) {
                const struct body *b = plan.parts[i].bodies;
                double v = y - t->edge_stop;
                in_body = in_body || (b->x0 < 0 && b->x1 > 0 && v > b->v0 + 0.4 && v < b->v1 - 0.4 && z > b->z0 + 0.4 &&
                                      z < b->z1 - 0.4);
            }
            bool cut = blade_passes(t, y, z),
                 near_arc = cut != blade_passes(t, y - 0.8, z + 0.8) || cut != blade_passes(t, y + 0.8, z - 0.8);
            if (hatched) {
                assert_false(cut && !near_arc);
                wood++;
            } else if (in_body && !near_arc) {
                assert_true(cut);
                passed++;
            }
        }
    }
    assert_true(wood > 20 && passed > 20);
    pool_free(&pool);
    pool_free(&plan.pool);
}

static void test_kerf_section_hatches_only_wood(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED;
    check_cut_wood(&a);
    a.side = FENCE_FAR;
    check_cut_wood(&a);
}

static struct rect box_of_fill(const struct drawing *d, enum fill_kind fill)
{
    struct rect r = RECT_EMPTY;
    for (size_t i = 0; i < d->n_shapes; i++)
        for (size_t k = 0; d->shapes[i].fill == fill && k < d->shapes[i].n; k++)
            rect_add(&r, d->shapes[i].points[k].x, d->shapes[i].points[k].y);
    return r;
}

/* Near fence: the work lies beyond its face, away from the operator; far fence: before it. Always `widest` deep. */
static void test_wall_view_puts_work_on_the_right_side_of_the_fence(void **state)
{
    (void)state;
    for (int far = 0; far < 2; far++) {
        struct sample a = SAMPLE_WORKED;
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        a.side = far ? FENCE_FAR : FENCE_NEAR;
        sample_plan_of(&a, &plan);
        draw_plan_view(&plan, UNITS_MM, true, &pool, &d);
        struct rect work = box_of_fill(&d, FILL_TINT), strip = box_of_fill(&d, FILL_KEEP_OUT);
        /* near: face at 90 + 36; far: face at 580 - 36 */
        assert_within(far ? work.y1 : work.y0, far ? 544 : 126, 1e-9);
        assert_within(work.y1 - work.y0, 420, 1e-9);
        assert_within(strip.x0, -75, 1e-9);
        assert_within(strip.x1, 75, 1e-9);
        assert_true(d.arrows[0].to.y > d.arrows[0].from.y); /* pushed away from the operator */
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* The names of guard and strip stand off the work, and no dot lies on the gauge mark. */
static void test_wall_view_keeps_names_off_the_work(void **state)
{
    (void)state;
    for (int far = 0; far < 2; far++) {
        struct sample a = SAMPLE_WORKED;
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        double work[4] = {0}, text[4];
        int names = 0;
        a.side = far ? FENCE_FAR : FENCE_NEAR;
        sample_plan_of(&a, &plan);
        draw_plan_view(&plan, UNITS_MM, true, &pool, &d);
        draw_place(&d, faces, 85 * POINT_PER_MM, 85 * POINT_PER_MM, 9, &pool, &placed);
        const float tint = fill_style(FILL_TINT)->color.b;
        for (size_t i = 0; i < placed.inks.n; i++) {
            const struct ink *ink = &placed.inks.list[i];
            if (ink->kind == INK_PATH && ink->as.path.fill && fabsf(ink->as.path.fill_color.b - tint) < 1e-6F)
                ink_box(ink, faces, work);
            if (ink->kind != INK_TEXT || (strcmp(ink->as.text.s, words_get("draw.guard")) != 0 && strncmp(ink->as.text.s, "no", 2) != 0))
                continue;
            ink_box(ink, faces, text);
            assert_true(text[0] > work[2] || text[2] < work[0] || text[1] > work[3] || text[3] < work[1]);
            names++;
        }
        assert_int_equal(names, 2);
        for (size_t i = 0; i < d.n_labels; i++)
            if (strcmp(d.labels[i].text, words_get("draw.gauge")) == 0)
                assert_int_equal(d.labels[i].end, END_BARE);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Pivot filled, gauge open, each at its own x. */
static void test_wall_view_marks_pivot_and_gauge(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED;
    a.pivot_x = 250, a.moving_x = -310;
    struct plan plan;
    struct pool pool = {0};
    struct drawing d;
    sample_plan_of(&a, &plan);
    draw_plan_view(&plan, UNITS_MM, true, &pool, &d);
    struct rect pivot = box_of_fill(&d, FILL_BLACK);
    assert_within((pivot.x0 + pivot.x1) / 2, 250, 1e-6);
    const struct draw_shape *gauge = &d.shapes[d.n_shapes - 1];
    struct polygon p = polygon_of(gauge->points, gauge->n);
    assert_int_equal(gauge->fill, FILL_WHITE);
    assert_within((p.box.x0 + p.box.x1) / 2, -310, 1e-6);
    pool_free(&pool);
    pool_free(&plan.pool);
}

/* A sled and its mirror image: the front views' dimensions are mirrored one by one. */
static void test_front_view_mirrors_with_the_sled(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED, b = SAMPLE_WORKED;
    b.left_of_blade = a.base_width - a.left_of_blade;
    b.slot_left = a.slot_right, b.slot_right = a.slot_left, b.guide = SIDE_RIGHT;
    struct plan plan_a, plan_b;
    struct pool pool = {0};
    struct drawing da, db;
    sample_plan_of(&a, &plan_a);
    sample_plan_of(&b, &plan_b);
    draw_front_view(&plan_a, UNITS_MM, &pool, &da);
    draw_front_view(&plan_b, UNITS_MM, &pool, &db);
    assert_int_equal(da.n_dims, db.n_dims);
    for (size_t i = 0; i < da.n_dims; i++) {
        bool found = da.dims[i].side != DIM_BELOW;
        for (size_t k = 0; k < db.n_dims; k++)
            found = found ||
                    (fabs(da.dims[i].a.x + db.dims[k].b.x) < 1e-9 && strcmp(da.dims[i].text, db.dims[k].text) == 0);
        assert_true(found);
    }
    pool_free(&pool);
    pool_free(&plan_a.pool);
    pool_free(&plan_b.pool);
}

/* Layers 100 and 86 high are two parts: every view shows both, and names both where both are seen. */
static void test_views_of_a_fence_of_two_parts(void **state)
{
    (void)state;
    for (int far = 0; far < 2; far++) {
        struct sample a = SAMPLE_WORKED;
        struct plan plan;
        struct pool pool = {0};
        a.side = far ? FENCE_FAR : FENCE_NEAR;
        sample_plan_of(&a, &plan);
        sample_split_fence(&plan, 14);
        for (enum view_id id = 0; id < RUNNER; id++) {
            struct drawing d;
            bool named = false;
            size_t layers = 0;
            make_view(&plan, id, UNITS_MM, &pool, &d);
            for (size_t i = 0; i < d.n_labels; i++)
                named = named || strncmp(d.labels[i].text, "K\xC2\xA0", 3) == 0;
            for (size_t i = 0; i < d.n_shapes; i++) {
                struct polygon p = polygon_of(d.shapes[i].points, d.shapes[i].n);
                double wide = p.box.x1 - p.box.x0, high = p.box.y1 - p.box.y0;
                bool above = id == WALL || id == BUILD;
                layers += d.shapes[i].closed && (above         ? fabs(wide - 760) < 1e-6 && fabs(high - 18) < 1e-6
                                                 : id == FRONT ? fabs(wide - 760) < 1e-6 && fabs(high - 86) < 1e-6
                                                               : fabs(wide - 18) < 1e-6 && fabs(high - 86) < 1e-6);
            }
            if (id != PICTORIAL)
                assert_true(layers >= (id == WALL || id == BUILD ? 2 : 1));
            if (id == FRONT && far)
                assert_false(named); /* behind the taller layer */
            else if (id != WALL)
                assert_true(named);
            check_placed(&d, id == WALL ? 108 : 176, 160, 9, "two parts", far);
        }
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Every text of every view is there in words. */
static void test_no_view_lacks_words(void **state)
{
    (void)state;
    struct plan plan;
    struct pool pool = {0};
    sample_plan(&plan);
    for (enum view_id id = 0; id < VIEWS; id++) {
        struct drawing d;
        make_view(&plan, id, UNITS_MM, &pool, &d);
        assert_null(strchr(d.title, '?'));
        for (size_t i = 0; i < d.n_labels; i++)
            if (strchr(d.labels[i].text, '?'))
                fail_msg("%s: %s", d.title, d.labels[i].text);
    }
    pool_free(&pool);
    pool_free(&plan.pool);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_views_of_the_worked_sled),
        cmocka_unit_test(test_kerf_section_shows_worked_figures),
        cmocka_unit_test(test_runner_section_shows_a_lining),
        cmocka_unit_test(test_kerf_section_hatches_only_wood),
        cmocka_unit_test(test_wall_view_puts_work_on_the_right_side_of_the_fence),
        cmocka_unit_test(test_wall_view_keeps_names_off_the_work),
        cmocka_unit_test(test_wall_view_marks_pivot_and_gauge),
        cmocka_unit_test(test_front_view_mirrors_with_the_sled),
        cmocka_unit_test(test_views_of_a_fence_of_two_parts),
        cmocka_unit_test(test_no_view_lacks_words),
        cmocka_unit_test(test_views_of_random_sleds),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
