/* What a bench page tells by a sign must be what the record tells for readings of that sign: each row is a reading taken from the
   contract of the signs (README, "Tests and their readings"), the line of the page's box that speaks of it, and words that must
   stand in both. The truth of the record's words is tested by simulation in tests/proof. */
#include "kit.h"

struct sign_row {
    const char *test;      /* readings in a job */
    const char *condition; /* where the page's sentence begins */
    const char *page, *record; /* what it says there; what the record's move says */
};

static const char head[] = "fettle: 1\n"
                           "job: {number: SIGN-1, title: Signs}\n"
                           "units: mm\n"
                           "saw: {name: saw, blade: {diameter: 250, kerf: 2.6, highest: 76}, table: {front_edge: 430, depth: 690}}\n"
                           "tests:\n"
                           "  - {date: 2026-05-04, ";

static const struct sign_row rows[] = {
    {"method: flip, height: 60, gap: 0.9, open: top, turned: left", "Left half rolled over, open at the top", "Tilt it to the left", "to the left ("},
    {"method: flip, height: 60, gap: 0.9, open: bottom, turned: right", "Left half rolled over, open at the top", "(or right half, open at the bottom)", "to the left ("},
    {"method: flip, height: 60, gap: 0.9, open: bottom, turned: left", "Left half rolled over, open at the bottom", "Tilt it to the right", "to the right ("},
    {"method: flip, height: 60, gap: 0.9, open: top, turned: right", "Left half rolled over, open at the bottom", "(or right half, open at the top)", "to the right ("},
    {"method: slot-parallel, slot: right, front: 0.1, back: 0.6, span: 200", "Plus:", "Bring it to the left: the rear trunnion (it carries the arbor under the table) to the left, or the rear of a table bolted to a cabinet to the right", "to the left: shift the rear trunnion to the left"},
    {"method: slot-parallel, slot: right, front: 0.6, back: 0.1, span: 200", "Minus:", "Bring it to the right: the rear trunnion to the right, or the rear of such a table to the left", "to the right: shift the rear trunnion to the right"},
    {"method: slot-parallel, slot: left, front: 0.6, back: 0.1, span: 200", "Plus:", "Bring it to the left: the rear trunnion (it carries the arbor under the table) to the left, or the rear of a table bolted to a cabinet to the right", "to the left: shift the rear trunnion to the left"},
    {"method: slot-parallel, slot: left, front: 0.1, back: 0.6, span: 200", "Minus:", "Bring it to the right: the rear trunnion to the right, or the rear of such a table to the left", "to the right: shift the rear trunnion to the right"},
    {"method: stop, pairs: [[100, 101], [200, 201], [150, 151]]", "Plus:", "pieces too long. Shift the tape toward the blade", "toward the blade"},
    {"method: stop, pairs: [[100, 99], [200, 199], [150, 149]]", "Minus:", "too short. Shift the tape away from the blade", "away from the blade"},
    {"method: fence-straight, shim: 0.5, length: 500, gaps: [[250, 0.1]]", "Plus:", "stands toward the work there: plane a wooden one off", "toward the work at 250"},
    {"method: fence-straight, shim: 0.5, length: 500, gaps: [[250, 0.9]]", "Minus:", "hollow there: pack its face out", "back from the work at 250"},
    {"method: frame, pieces: 4, leg: 50, gap: 0.9, open: inside", "Open inside:", "grows", "grows"},
    {"method: frame, pieces: 4, leg: 50, gap: 0.9, open: outside", "Open outside:", "shrinks", "shrinks"},
    {"method: diagonals, width: 400, depth: 300, d1: 499, d2: 501", "d2 longer:", "near right and the far left corner together", "near right and the far left corner together"},
    {"method: side-play, plays: [0.01, 0.02]", "Minus:", "plane that much off the side of the runner", "off the side of the runner"},
    {"method: side-play, plays: [0.6, 0.7]", "Minus:", "Plus: pack the whole length of one side", "pack the whole length of one side"},
    {"method: box-joint, fingers: 11, set: 20, got: 211, finger: 10", "Pitch too large", "key toward the cutter", "toward the cutter"},
    {"method: box-joint, fingers: 11, set: 20, got: 209, finger: 10", "Pitch too small", "away from it by the error", "away from the cutter"},
    {"method: square-gap, offcut: right, length: 200, gap: 0.9, end: fence, pivot_to_moving: 500, moving_end: right", "Light at the fence end:",
     "move the right end toward the operator", "toward the operator"},
    {"method: square-gap, offcut: right, length: 200, gap: 0.9, end: far, pivot_to_moving: 500, moving_end: right", "Light at the far end:",
     "move the right end away from the operator", "away from the operator"},
    {"method: square-gap, offcut: left, length: 200, gap: 0.9, end: fence, pivot_to_moving: 500, moving_end: right", "Light at the fence end:",
     "move the right end away from the operator", "away from the operator"},
    {"method: square-gap, offcut: right, length: 200, gap: 0.9, end: far, pivot_to_moving: 500, moving_end: left", "Light at the far end:",
     "move the left end toward the operator", "toward the operator"},
};

static void strip_bold(const char *marked, struct text *plain)
{
    for (; *marked; marked++)
        if (*marked != TEXT_BOLD_ON && *marked != TEXT_BOLD_OFF)
            text_add_char(plain, *marked);
}

/* The rest of the line that begins so; "" where none does. */
static void find_line(const char *text, const char *condition, struct text *out)
{
    const char *at = strstr(text, condition);
    text_clear(out);
    if (at)
        text_add_n(out, at, strcspn(at, "\n"));
}

static void check_row(const struct sign_row *row)
{
    struct text yaml = {0}, plain = {0}, line = {0};
    text_printf(&yaml, "%s%s}\n", head, row->test);
    struct made *m = make_sheets(text_string(&yaml), NULL);
    struct text bench = gather_sheet(find_sheet(m, SHEET_BENCH)), record = gather_sheet(find_sheet(m, SHEET_RECORD));
    assert_int_equal(m->proof.tests[0].move.advice, ADVICE_MOVE);
    strip_bold(text_string(&bench), &plain);
    find_line(text_string(&plain), row->condition, &line);
    const char *only_if = strstr(text_string(&plain), "Only where it says");
    assert_true(only_if && only_if < strstr(text_string(&plain), row->condition)); /* nothing is told to be moved but for that */
    if (!strstr(text_string(&line), row->page))
        print_error("%s\n  the page says \"%s\", not \"%s\"\n", row->test, text_string(&line), row->page);
    assert_non_null(strstr(text_string(&line), row->page));
    text_clear(&plain);
    strip_bold(text_string(&record), &plain);
    const char *move = strstr(text_string(&plain), words_get("record.move_heading"));
    if (!move || !strstr(move, row->record))
        print_error("%s\n  the record does not say \"%s\"\n", row->test, row->record);
    assert_non_null(move);
    assert_non_null(strstr(move, row->record));
    text_free(&bench);
    text_free(&record);
    text_free(&yaml);
    text_free(&plain);
    text_free(&line);
    free_made(m);
}

static void test_bench_signs_are_the_records(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        check_row(&rows[i]);
}

/* The sheet of a saw with those tests, without marks of bold. */
static struct text print_plain(const char *tests, enum sheet_kind kind)
{
    struct text yaml = {0}, plain = {0};
    text_printf(&yaml, "%s%s}\n", head, tests);
    struct made *m = make_sheets(text_string(&yaml), NULL);
    struct text marked = gather_sheet(find_sheet(m, kind));
    strip_bold(text_string(&marked), &plain);
    text_free(&marked);
    text_free(&yaml);
    free_made(m);
    return plain;
}

static void assert_wall(const char *tests, const char *says, const char *says_not)
{
    struct text wall = print_plain(tests, SHEET_WALL);
    if (!strstr(text_string(&wall), says) || strstr(text_string(&wall), says_not))
        print_error("%s\n  %s\n", tests, text_string(&wall));
    assert_non_null(strstr(text_string(&wall), says));
    assert_null(strstr(text_string(&wall), says_not));
    text_free(&wall);
}

/* A fence read with a loose runner is not turned by that reading. */
static void test_wall_fence_waits_for_a_loose_runner(void **state)
{
    (void)state;
    static const char new_reading[] = "move only by the new reading", turn[] = "more square across the blade";
    assert_wall("method: side-play, plays: [0.6, 0.7]}\n  - {date: 2026-05-05, method: frame, pieces: 4, leg: 50, gap: 0.9, open: inside", new_reading, turn);
    assert_wall("method: side-play, plays: [0.14, 0.15]}\n  - {date: 2026-05-05, method: frame, pieces: 4, leg: 50, gap: 0.9, open: inside", turn, new_reading);
}

/* Packed by the mean, the tight place of an uneven slot would bind. */
static void test_uneven_play_is_not_packed(void **state)
{
    (void)state;
    assert_wall("method: side-play, plays: [0.1, 0.6]", "No width of runner fits", "pack the whole length");
    assert_wall("method: side-play, plays: [0.6, 0.7]", "pack the whole length", "No width of runner fits");
    struct text bench = print_plain("method: side-play, plays: [0.1, 0.6]", SHEET_BENCH);
    assert_non_null(strstr(text_string(&bench), "more than 0.20" THIN "mm: no width fits everywhere"));
    text_free(&bench);
}

/* Which fence was tested stands on the wall of a saw that has several, and what the test does not tell. */
static void test_wall_names_the_fence(void **state)
{
    (void)state;
    assert_wall("note: the near fence, method: square-gap, offcut: right, length: 200, gap: 0.9, end: far", "Noted: the near fence.", "Noted: .");
    assert_wall("method: frame, pieces: 4, leg: 50, gap: 0.9, open: inside, fence: left", "nothing of the other fence", "cut on two fences");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bench_signs_are_the_records), cmocka_unit_test(test_wall_fence_waits_for_a_loose_runner),
        cmocka_unit_test(test_uneven_play_is_not_packed),   cmocka_unit_test(test_wall_names_the_fence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
