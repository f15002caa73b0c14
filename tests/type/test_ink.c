/* Lists of ink: measuring, moving, boxes. */
#include "ink.h"

#include "close.h"

static void assert_box(const struct ink *ink, const struct faces *faces, double x0, double y0, double x1, double y1)
{
    double box[4];
    ink_box(ink, faces, box);
    assert_within(box[0], x0, 1e-9);
    assert_within(box[1], y0, 1e-9);
    assert_within(box[2], x1, 1e-9);
    assert_within(box[3], y1, 1e-9);
}

static void test_ink_add_text_measures_and_copies(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct inks inks = {.pool = &pool};
    struct faces *faces = type_open();
    char s[] = "00 rest";
    double width = ink_add_text(&inks, faces, FACE_REGULAR, 0, 20, 100, 200, COLOR_BLACK, s, 2);
    s[0] = 'x';
    /* Roboto's figures are 1151/2048 em wide, its capitals 1456/2048 em high, its descent 500/2048 em */
    assert_close(width, 2 * 20 * 1151 / 2048.0, 1e-12);
    assert_string_equal(inks.list[0].as.text.s, "00");
    assert_box(&inks.list[0], faces, 100, 200 - 20 * 1456 / 2048.0, 100 + width, 200 + 20 * 500 / 2048.0);
    inks.list[0].as.text.upward = true;
    assert_box(&inks.list[0], faces, 100 - 20 * 1456 / 2048.0, 200 - width, 100 + 20 * 500 / 2048.0, 200);
    ink_move(&inks.list[0], 1, -2);
    assert_box(&inks.list[0], faces, 101 - 20 * 1456 / 2048.0, 198 - width, 101 + 20 * 500 / 2048.0, 198);
    type_close(faces);
    pool_free(&pool);
}

static void test_ink_box_of_paths_has_the_stroke_in_it(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct inks inks = {.pool = &pool};
    ink_add_line(&inks, 10, 20, 30, 5, 2, COLOR_BLACK);
    ink_add_rect(&inks, 1, 2, 3, 5, true, COLOR_WHITE, 0);
    ink_add_rect(&inks, 1, 2, 3, 5, false, COLOR_BLACK, 0.5);
    assert_box(&inks.list[0], NULL, 9, 4, 31, 21);
    assert_box(&inks.list[1], NULL, 1, 2, 3, 5);
    assert_true(inks.list[1].as.path.fill && !inks.list[1].as.path.stroke);
    assert_box(&inks.list[2], NULL, 0.75, 1.75, 3.25, 5.25);
    ink_move(&inks.list[2], 10, 100);
    assert_box(&inks.list[2], NULL, 10.75, 101.75, 13.25, 105.25);
    assert_box(&inks.list[1], NULL, 1, 2, 3, 5);
    pool_free(&pool);
}

static void test_ink_box_of_a_curve_holds_its_control_points(void **state)
{
    (void)state;
    struct path_op ops[] = {{.verb = PATH_MOVE, .x = 0, .y = 0}, {.verb = PATH_CURVE, .x = 4, .y = 0, .x1 = 1, .y1 = -3, .x2 = 3, .y2 = 6}};
    struct ink ink = {.kind = INK_PATH, .as.path = {.ops = ops, .n = 2}};
    assert_box(&ink, NULL, 0, -3, 4, 6);
    ink_move(&ink, 1, 1);
    assert_box(&ink, NULL, 1, -2, 5, 7);
}

static void test_ink_add_grows(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct inks inks = {.pool = &pool};
    for (int i = 0; i < 1000; i++)
        ink_add_line(&inks, i, 0, i, 1, 1, COLOR_BLACK);
    assert_int_equal(inks.n, 1000);
    for (int i = 0; i < 1000; i++)
        assert_close(inks.list[i].as.path.ops[1].x, i, 0);
    pool_free(&pool);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ink_add_text_measures_and_copies),
        cmocka_unit_test(test_ink_box_of_paths_has_the_stroke_in_it),
        cmocka_unit_test(test_ink_box_of_a_curve_holds_its_control_points),
        cmocka_unit_test(test_ink_add_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
