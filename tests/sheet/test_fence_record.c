/* Records of straight edge, frame, diagonals, side play and box joint, in millimetres and in inches: every worked line
   is worked again from its printed figures, as a reader with a pocket calculator would. */
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

/* Sums of two figures have no sign of their own kind but end in "=" as all worked lines do. */
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
                              "job: {number: SAW-3, title: A saw}\n"
                              "units: mm\n"
                              "saw: {name: saw, blade: {diameter: 250, kerf: 2.6, highest: 76}}\n"
                              "instruments:\n"
                              "  leaves: {kind: feeler, leaves: [0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 1]}\n"
                              "  rule: {kind: rule, grade: II}\n"
                              "tests:\n";
static const char head_in[] =
    "fettle: 1\n"
    "job: {number: SAW-4, title: A saw}\n"
    "units: in\n"
    "saw: {name: saw, blade: {diameter: 10, kerf: .1, highest: 3}}\n"
    "instruments:\n"
    "  leaves: {kind: feeler, leaves: [.0015, .002, .003, .004, .006, .008, .010, .012, .015]}\n"
    "  rule: {kind: rule, grade: I, resolution: 1/64}\n"
    "tests:\n";
static const char tests_mm[] =
    "  - {method: fence-straight, date: 2026-05-04, instrument: leaves, shim: 0.5, length: 613,\n"
    "     gaps: [[111, 0.4], [205, 0.3], [333, 0.4], [508, 0.5]]}\n"
    "  - {method: frame, date: 2026-05-04, instrument: leaves, pieces: 6, leg: 43.7, gap: 0.30, gap_other: 0.05,\n"
    "     open: outside}\n"
    "  - {method: diagonals, date: 2026-05-04, instrument: rule, width: [711, 711.5], depth: 433, d1: 832.5, d2: 833}\n"
    "  - {method: side-play, date: 2026-05-04, instrument: leaves, plays: [0.10, 0.20, 0.15], engaged: 377}\n"
    "  - {method: box-joint, date: 2026-05-04, fingers: 12, set: 19, got: 219.41, finger: 9.43, slot: 9.62}\n";
static const char tests_in[] =
    "  - {method: fence-straight, date: 2026-05-04, instrument: leaves, shim: .015, length: 24 1/2,\n"
    "     gaps: [[5, .012], [11 3/8, .010], [19, .015]]}\n"
    "  - {method: frame, date: 2026-05-04, instrument: leaves, pieces: 4, leg: 2 3/4, gap: .012, open: inside}\n"
    "  - {method: diagonals, date: 2026-05-04, instrument: rule, width: 28, depth: [17, 17], d1: 32 3/4, d2: 32 "
    "49/64}\n"
    "  - {method: side-play, date: 2026-05-04, instrument: leaves, plays: [.004, .006], engaged: 14 7/8}\n"
    "  - {method: box-joint, date: 2026-05-04, fingers: 9, set: 3/4, got: 6.381, finger: .371, slot: .377}\n";

static struct made *make_saw(const char *head, const char *tests)
{
    struct text job = {0};
    text_add(&job, head);
    text_add(&job, tests);
    struct made *m = make_sheets(text_string(&job), NULL);
    text_free(&job);
    return m;
}

static void check_saw(const char *head, const char *tests, int least_lines)
{
    struct made *m = make_saw(head, tests);
    const struct sheet *record = find_sheet(m, SHEET_RECORD);
    assert_non_null(find_sheet(m, SHEET_WALL));
    assert_non_null(find_sheet(m, SHEET_BENCH));
    assert_non_null(record);
    lines_checked = 0;
    visit_blocks(&record->body, check_rows, NULL);
    assert_true(lines_checked >= least_lines);
    free_made(m);
}

static void test_fence_record_sums_can_be_followed(void **state)
{
    (void)state;
    check_saw(head_mm, tests_mm, 40);
    check_saw(head_in, tests_in, 35);
}

/* Readings drawn at random, so that no place is right by luck. */
static void test_fence_record_sums_of_random_tests(void **state)
{
    (void)state;
    uint64_t x = 11;
    for (int i = 0; i < 60; i++) {
        struct text tests = {0};
        double v[8];
        for (int k = 0; k < 8; k++) {
            x = x * 6364136223846793005u + 1442695040888963407u;
            v[k] = (double)(x >> 40) / 16777216;
        }
        text_printf(&tests,
                    "  - {method: fence-straight, date: 2026-05-04, shim: 0.5, length: %.0f,\n"
                    "     gaps: [[90, %.2f], [180, %.2f], [270, %.2f]]}\n"
                    "  - {method: frame, date: 2026-05-04, pieces: %d, leg: %.1f, gap: %.2f, open: inside}\n",
                    300 + 300 * v[0], v[1], v[2], v[3], 4 + 2 * (i % 4), 20 + 100 * v[4], 0.02 + 2 * v[5]);
        double w = 200 + 800 * v[6], d = 200 + 800 * v[7], across = sqrt(w * w + d * d);
        text_printf(&tests,
                    "  - {method: diagonals, date: 2026-05-04, width: %.1f, depth: %.1f, d1: %.1f, d2: %.1f}\n"
                    "  - {method: side-play, date: 2026-05-04, plays: [%.2f, %.2f], engaged: %.0f}\n"
                    "  - {method: box-joint, date: 2026-05-04, fingers: %d, set: 20, got: %.2f, finger: %.2f,\n"
                    "     slot: %.2f}\n",
                    w, d, across, across + v[1], v[2] / 3, v[3] / 3, 200 + 200 * v[4], 5 + i % 9,
                    20.0 * (4 + i % 9) + 10 + v[5], 9.8 + v[6] / 3, 9.8 + v[7] / 2);
        check_saw(head_mm, text_string(&tests), 35);
        text_free(&tests);
    }
}

/* What diagonals cannot tell is said, and no error and U beside it that would say otherwise. */
static void test_fence_record_says_what_proves_nothing(void **state)
{
    (void)state;
    struct made *m =
        make_saw(head_mm, "  - {method: diagonals, date: 2026-05-04, instrument: rule, width: [700, 704],\n"
                          "     depth: 433, d1: 825, d2: 825}\n");
    struct text record = gather_sheet(find_sheet(m, SHEET_RECORD));
    assert_non_null(strstr(text_string(&record), "the diagonals prove nothing"));
    assert_non_null(strstr(text_string(&record), "can never prove it square"));
    assert_null(strstr(text_string(&record), ", not above "));
    assert_int_equal(m->outcome.state, STATE_NOT_PROVEN);
    text_free(&record);
    free_made(m);
}

/* On the bench page plus and minus tell where the fence stands out or is hollow; a bow has neither. */
static void test_fence_record_bow_has_no_sign(void **state)
{
    (void)state;
    struct made *m = make_saw(head_mm, "  - {method: fence-straight, date: 2026-05-04, shim: 0.5, length: 600,\n"
                                       "     gaps: [[150, 0.6], [300, 0.7], [450, 0.6]]}\n");
    struct text record = gather_sheet(find_sheet(m, SHEET_RECORD));
    assert_non_null(strstr(text_string(&record), "0.200"));
    assert_null(strstr(text_string(&record), "+0.200"));
    text_free(&record);
    free_made(m);
}

/* Words for all that is said, and no metric unit on an inch sheet. */
static void test_fence_record_words_and_units(void **state)
{
    (void)state;
    struct made *m = make_saw(head_in, tests_in);
    for (size_t i = 0; i < m->sheets.n; i++) {
        struct text text = gather_sheet(&m->sheets.list[i]);
        const char *mm = strstr(text_string(&text), THIN "mm");
        if (mm)
            print_error("…%.60s\n", mm > text_string(&text) + 40 ? mm - 40 : mm);
        assert_null(mm);
        for (const char *p = strchr(text_string(&text), '?'); p; p = strchr(p + 1, '?'))
            assert_true(p[1] < 'a' || p[1] > 'z'); /* "?key?": no such word */
        text_free(&text);
    }
    free_made(m);
}

/* Leaves are felt where they are between block and fence, not where they were just taken out; and a fence of no sled is not
   screwed down from below. */
static void check_steps_of_leaves(const struct block *b, void *arg)
{
    int *felt = arg;
    for (int i = 0; b->kind == BLOCK_STEPS && i < b->as.steps.n; i++) {
        const struct step_item *step = &b->as.steps.items[i];
        bool out = strstr(step->what, "Take the gauge out"), drag = strstr(step->aside, "leaves drag");
        assert_false(out && drag);
        assert_true(!drag || strstr(step->what, "gauge ("));
        assert_null(strstr(step->what, "sled"));
        assert_null(strstr(step->what, "From below"));
        *felt += drag;
    }
}

static void test_fence_record_feels_leaves_where_they_are(void **state)
{
    (void)state;
    static const char *const ends[] = {"fence", "far"};
    for (int i = 0; i < 2; i++) {
        struct text yaml = {0};
        int felt = 0;
        text_printf(&yaml, "%s  - {method: square-gap, date: 2026-05-04, instrument: leaves, offcut: right, length: 280, gap: 0.5, end: %s,\n"
                           "     pivot_to_moving: 540, moving_end: right}\n", head_mm, ends[i]);
        struct made *m = make_sheets(text_string(&yaml), NULL);
        visit_blocks(&find_sheet(m, SHEET_RECORD)->body, check_steps_of_leaves, &felt);
        assert_int_equal(felt, 1);
        text_free(&yaml);
        free_made(m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fence_record_sums_can_be_followed),
        cmocka_unit_test(test_fence_record_sums_of_random_tests),
        cmocka_unit_test(test_fence_record_says_what_proves_nothing),
        cmocka_unit_test(test_fence_record_bow_has_no_sign),
        cmocka_unit_test(test_fence_record_words_and_units),
        cmocka_unit_test(test_fence_record_feels_leaves_where_they_are),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
