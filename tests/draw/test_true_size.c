/* Details at true scale: what is drawn is as long on paper as the wood, at any size of sled, in the room it has. */
#include "close.h"

#include "random_sled.h"
#include "room.h"
#include "words.h"

#include <string.h>

static struct faces *faces;

/* Its columns of the sheet on A4, 6.5 and 4.5 of twelve with a gutter. */
static const double fence_room = 92, runner_room = 62, height_room = 172;

/* A screw from below at the pivot, one from above into the runner. */
static void add_screws(struct plan *plan)
{
    plan->holes[0].role = HOLE_PIVOT;
    plan->holes[0].screw_diameter = 4, plan->holes[0].screw_length = 40, plan->holes[0].head_diameter = 8;
    plan->holes[plan->n_holes++] = (struct plan_hole){
        .part = "E", .from_above = true, .screw_diameter = 4, .screw_length = 16, .head_diameter = 8};
    plan->sled.chamfer = 2;
}

static bool has_path(const struct placed_drawing *placed, double wide, double high)
{
    for (size_t i = 0; i < placed->inks.n; i++) {
        const struct ink *ink = &placed->inks.list[i];
        struct rect r = RECT_EMPTY;
        for (size_t k = 0; ink->kind == INK_PATH && k < ink->as.path.n; k++)
            if (ink->as.path.ops[k].verb != PATH_CLOSE)
                rect_add(&r, ink->as.path.ops[k].x, ink->as.path.ops[k].y);
        if (fabs(r.x1 - r.x0 - wide * 72 / 25.4) < 0.01 && fabs(r.y1 - r.y0 - high * 72 / 25.4) < 0.01)
            return true;
    }
    return false;
}

static void test_details_are_as_long_on_paper_as_the_wood(void **state)
{
    (void)state;
    struct plan plan;
    struct pool pool = {0};
    struct drawing fence, runner;
    struct placed_drawing placed;
    sample_plan(&plan);
    add_screws(&plan);
    draw_fence_section(&plan, UNITS_MM, &pool, &fence);
    draw_place(&fence, faces, fence_room * POINT_PER_MM, 500, 10, &pool, &placed);
    assert_string_equal(placed.scale_text, "1 : 1");
    assert_true(has_path(&placed, 18, 100)); /* each of two layers of the 36 x 100 fence */
    assert_true(has_path(&placed, 8, 40));   /* the screw: head and length */
    draw_runner_end(&plan, UNITS_MM, &pool, &runner);
    draw_place(&runner, faces, runner_room * POINT_PER_MM, 500, 10, &pool, &placed);
    assert_string_equal(placed.scale_text, "1 : 1");
    assert_true(has_path(&placed, 19, 9));
    pool_free(&pool);
    pool_free(&plan.pool);
}

static void test_a_fence_too_tall_for_the_page_is_drawn_smaller(void **state)
{
    (void)state;
    static const struct {
        double height;
        const char *scale;
    } rows[] = {{100, "1 : 1"}, {120, "1 : 1"}, {121, "1 : 2"}, {252, "1 : 2"}, {253, "1 : 5"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct sample a = SAMPLE_WORKED;
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        a.fence_height = rows[i].height;
        sample_plan_of(&a, &plan);
        draw_fence_section(&plan, UNITS_MM, &pool, &d);
        draw_place(&d, faces, 300, 500, 10, &pool, &placed);
        assert_string_equal(placed.scale_text, rows[i].scale); /* base 12 and fence, at most 132 high on paper */
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

static void test_details_have_room_in_their_columns(void **state)
{
    (void)state;
    enum { CASES = 120 };
    uint64_t seed = 21;
    for (int i = 0; i < CASES; i++) {
        struct sample a = random_sled(&seed);
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        sample_plan_of(&a, &plan);
        add_screws(&plan);
        enum units units = i % 4 == 3 ? UNITS_IN : UNITS_MM;
        draw_fence_section(&plan, units, &pool, &d);
        check_room(&d, faces, fence_room, height_room, i);
        draw_runner_end(&plan, units, &pool, &d);
        check_room(&d, faces, runner_room, height_room, i);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_details_are_as_long_on_paper_as_the_wood),
        cmocka_unit_test(test_a_fence_too_tall_for_the_page_is_drawn_smaller),
        cmocka_unit_test(test_details_have_room_in_their_columns),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
