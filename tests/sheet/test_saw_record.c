/* The record of a saw: a job of tests alone, in millimetres and in inches. Every worked line is worked again from its
   printed figures, as a reader with a pocket calculator would; all that is printed is there, and in the job's units. */
#include "kit.h"

#include "calculator.h"

#include <stdio.h>

static int lines_checked;

/* A reader who rounds what the calculator shows, U upward as the sheet says, gets the printed figure or its neighbour.
 */
static void check_line(const char *expression, const char *result, bool round_up)
{
    double step = last_place(result), worked = calculate(expression), printed = calculate(result);
    double rounded = (round_up ? ceil(worked / step - 1e-6) : round(worked / step)) * step;
    if (isnan(worked) || isnan(printed) || fabs(rounded - printed) > 1.01 * step)
        print_error("%s gives %.9f, printed %s\n", expression, worked, result);
    assert_false(isnan(worked) || isnan(printed));
    assert_within(rounded, printed, 1.01 * step);
    lines_checked++;
}

static bool is_expression(const char *cell)
{
    return strstr(cell, "×") || strstr(cell, "÷") || strstr(cell, "√") || strchr(cell, '=');
}

static void check_rows(const struct block *b, void *arg)
{
    (void)arg;
    for (int r = 0; b->kind == BLOCK_TABLE && r < b->as.table.n_rows; r++)
        for (int c = 1; c + 1 < b->as.table.n_columns; c++)
            if (is_expression(b->as.table.rows[r].cells[c]))
                check_line(b->as.table.rows[r].cells[c], b->as.table.rows[r].cells[c + 1],
                           strstr(b->as.table.rows[r].cells[0], "U, 95") != NULL);
}

static const char head_mm[] = "fettle: 1\n"
                              "job: {number: SAW-1, title: A saw}\n"
                              "units: mm\n"
                              "saw: {name: saw, blade: {diameter: 250, kerf: 2.6, highest: 76}}\n"
                              "instruments:\n"
                              "  leaves: {kind: feeler, leaves: [0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 1]}\n"
                              "  dial: {kind: dial}\n"
                              "  rule: {kind: rule, grade: II}\n"
                              "tests:\n";
static const char head_in[] =
    "fettle: 1\n"
    "job: {number: SAW-2, title: A saw}\n"
    "units: in\n"
    "saw: {name: saw, blade: {diameter: 10, kerf: .1, highest: 3}}\n"
    "instruments:\n"
    "  leaves: {kind: feeler, leaves: [.0015, .002, .003, .004, .006, .008, .010, .012, .015]}\n"
    "  dial: {kind: dial, resolution: .0005}\n"
    "  rule: {kind: rule, grade: I}\n"
    "tests:\n";
static const char tests_mm[] =
    "  - {method: flip, date: 2026-05-04, instrument: leaves, height: 22.5, gap: 0.10, open: top, turned: left}\n"
    "  - {method: square-gap, date: 2026-05-04, instrument: leaves, offcut: left, length: 131, gap: 0.25, end: far,\n"
    "     grade: 1, pivot_to_moving: 540, moving_end: left}\n"
    "  - {method: slot-parallel, date: 2026-05-04, instrument: dial, slot: left, front: [0.21, 0.23, 0.2],\n"
    "     back: [0.37, 0.36], span: 87}\n"
    "  - {method: stop, date: 2026-05-04, pairs: [[120, 120.31], [350, 350.44], [610, 610.39], [350, 350.4]],\n"
    "     repeats: [350.41, 350.38, 350.44], predict: [200, 500]}\n";
static const char tests_in[] =
    "  - {method: flip, date: 2026-05-04, instrument: leaves, height: 1 3/8, gap: .004, open: bottom, turned: left}\n"
    "  - {method: square-gap, date: 2026-05-04, instrument: leaves, offcut: right, length: 11 1/2, gap: .010,\n"
    "     end: fence}\n"
    "  - {method: slot-parallel, date: 2026-05-04, instrument: dial, slot: right, front: [.0105, .011, .0105],\n"
    "     back: [.013, .0125, .013], span: 4 1/4}\n"
    "  - {method: stop, date: 2026-05-04, pairs: [[4, 4.0105], [12, 12.015], [24, 24.0165], [12, 12.0145]]}\n";

static struct made *make_saw(const char *head, const char *tests)
{
    struct text job = {0};
    text_add(&job, head);
    text_add(&job, tests);
    struct made *m = make_sheets(text_string(&job), NULL);
    text_free(&job);
    return m;
}

static void check_saw(const char *head, const char *tests)
{
    struct made *m = make_saw(head, tests);
    const struct sheet *record = find_sheet(m, SHEET_RECORD);
    assert_non_null(find_sheet(m, SHEET_WALL));
    assert_null(find_sheet(m, SHEET_BUILD));
    assert_non_null(find_sheet(m, SHEET_BENCH));
    assert_non_null(record);
    lines_checked = 0;
    visit_blocks(&record->body, check_rows, NULL);
    assert_true(lines_checked >= 30);
    free_made(m);
}

static void test_saw_record_sums_can_be_followed(void **state)
{
    (void)state;
    check_saw(head_mm, tests_mm);
    check_saw(head_in, tests_in);
}

/* Readings drawn at random, so that no place is right by luck. */
static void test_saw_record_sums_of_random_tests(void **state)
{
    (void)state;
    uint64_t x = 7;
    for (int i = 0; i < 60; i++) {
        struct text tests = {0};
        double v[8];
        for (int k = 0; k < 8; k++) {
            x = x * 6364136223846793005u + 1442695040888963407u;
            v[k] = (double)(x >> 40) / 16777216;
        }
        text_printf(&tests,
                    "  - {method: flip, date: 2026-05-04, height: %.1f, gap: %.2f, open: top, turned: right}\n"
                    "  - {method: slot-parallel, date: 2026-05-04, slot: right, front: [%.2f, %.2f], back: %.2f,\n"
                    "     span: %.0f}\n"
                    "  - {method: square-gap, date: 2026-05-04, offcut: left, length: %.0f, gap: %.2f, end: far}\n",
                    10 + 80 * v[0], 0.02 + v[1], v[2], v[2] + 0.01, v[3], 60 + 200 * v[4], 100 + 300 * v[5],
                    0.02 + 0.8 * v[6]);
        text_printf(&tests, "  - {method: stop, date: 2026-05-04, pairs: [");
        for (int k = 0; k < 5; k++)
            text_printf(&tests, "%s[%d, %.2f]", k ? ", " : "", 100 + 90 * k,
                        100 + 90 * k + v[7] - 0.5 + 0.002 * k + 0.1 * v[k]);
        text_add(&tests, "]}\n");
        check_saw(head_mm, text_string(&tests));
        text_free(&tests);
    }
}

/* The state: a record of a saw stands for all its tests. */
static void test_saw_record_state(void **state)
{
    (void)state;
    struct made *m = make_saw(
        head_mm, "  - {method: slot-parallel, date: 2026-05-04, instrument: dial, slot: left, front: 0.2, back: 0.21,\n"
                 "     span: 200}\n");
    assert_int_equal(m->outcome.state, STATE_FIT);
    free_made(m);
    m = make_saw(head_mm,
                 "  - {method: slot-parallel, date: 2026-05-04, instrument: dial, slot: left, front: 0.2, back: 0.71,\n"
                 "     span: 200}\n");
    assert_int_equal(m->outcome.state, STATE_DO_NOT_USE);
    struct text wall = gather_sheet(find_sheet(m, SHEET_WALL));
    assert_non_null(strstr(text_string(&wall), "Blade along the slots: out by"));
    assert_non_null(strstr(text_string(&wall), "to the right")); /* -0.5: the back stands to the left */
    text_free(&wall);
    free_made(m);
}

/* Before any test: nothing that claims anything, and a blank bench page of every method that needs no known fence. */
static void test_saw_record_without_a_test(void **state)
{
    (void)state;
    struct made *m = make_sheets("fettle: 1\njob: {number: SAW-3, title: A saw}\nunits: mm\nsaw: {name: saw}\ntests: []\n", NULL);
    assert_int_equal(m->outcome.state, STATE_NOT_TESTED);
    assert_int_equal(m->sheets.n, 1);
    struct text bench = gather_sheet(find_sheet(m, SHEET_BENCH));
    static const char *const headings[] = {"flip.bench.plain", "stop.bench", "slot_parallel.bench", "square_gap.bench", "fence_straight.bench",
                                           "frame.bench", "diagonals.bench", "side_play.bench", "box_joint.bench"};
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++)
        assert_non_null(strstr(text_string(&bench), words_get(headings[i])));
    text_free(&bench);
    free_made(m);
}

/* Words for all that is said, and no metric unit on an inch sheet. */
static void test_saw_record_words_and_units(void **state)
{
    (void)state;
    struct made *m = make_saw(head_in, tests_in);
    for (size_t i = 0; i < m->sheets.n; i++) {
        struct text text = gather_sheet(&m->sheets.list[i]);
        assert_null(strstr(text_string(&text), "?"
                                               "flip"));
        const char *mm = strstr(text_string(&text), THIN "mm");
        if (mm)
            print_error("…%.60s\n", mm > text_string(&text) + 40 ? mm - 40 : mm);
        assert_null(mm);
        for (const char *p = strchr(text_string(&text), '?'); p; p = strchr(p + 1, '?'))
            assert_false((p[1] >= 'a' && p[1] <= 'z') && strchr(p + 1, '?') &&
                         strcspn(p + 1, " \n?") == (size_t)(strchr(p + 1, '?') - p - 1));
        text_free(&text);
    }
    free_made(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_saw_record_sums_can_be_followed),
        cmocka_unit_test(test_saw_record_sums_of_random_tests),
        cmocka_unit_test(test_saw_record_state),
        cmocka_unit_test(test_saw_record_without_a_test),
        cmocka_unit_test(test_saw_record_words_and_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
