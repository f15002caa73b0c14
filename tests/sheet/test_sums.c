/* Every worked line of a record is worked again from its printed figures, as a reader with a pocket calculator would.
 */
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

/* A cell that holds an operator is an expression; its result stands in the next one. */
static bool is_expression(const char *cell)
{
    return strstr(cell, "×") || strstr(cell, "÷") || strstr(cell, "√") || strchr(cell, '=');
}

static void check_rows(const struct block *b, void *arg)
{
    (void)arg;
    if (b->kind != BLOCK_TABLE)
        return;
    for (int r = 0; r < b->as.table.n_rows; r++)
        for (int c = 1; c + 1 < b->as.table.n_columns; c++)
            if (is_expression(b->as.table.rows[r].cells[c]))
                check_line(b->as.table.rows[r].cells[c], b->as.table.rows[r].cells[c + 1],
                           strstr(b->as.table.rows[r].cells[0], "U, 95") != NULL);
}

/* "Freedom of the combined line, …: 0.001500⁴ ÷ (0.001341⁴ ÷ 2.0) = 3.1." gives the printed figure to 1.5 %: fourth
   powers of figures of three digits are known no better, and k hardly changes with it. */
static void check_freedom_line(const struct sheet *record)
{
    struct text text = gather_sheet(record);
    const char *fourth = strstr(text_string(&text), "\xE2\x81\xB4 \xC3\xB7 (");
    if (fourth) {
        const char *start = fourth, *equals = strstr(fourth, "= ");
        while (start > text_string(&text) && (start[-1] == '.' || (start[-1] >= '0' && start[-1] <= '9')))
            start--;
        assert_non_null(equals);
        char expression[400], result[32];
        snprintf(expression, sizeof expression, "%.*s", (int)(equals - start), start);
        size_t n = strspn(equals + 2, "0123456789.");
        n -= equals[2 + n - 1] == '.'; /* the sentence's */
        snprintf(result, sizeof result, "%.*s", (int)n, equals + 2);
        double worked = calculate(expression), printed = calculate(result);
        if (!(fabs(worked - printed) <= fmax(last_place(result), 0.015 * printed)))
            fail_msg("%s gives %g, printed %s", expression, worked, result);
    }
    text_free(&text);
}

/* "0.0419 + 0.0048 = 0.0467, not above 0.10." agrees with the verdict that it is given for; undecided is shown from both
   sides. */
static void check_verdict_line(const struct made *m, const struct sheet *record)
{
    struct text text = gather_sheet(record);
    const struct proof_test *test = m->outcome.deciding;
    const char *between = strstr(text_string(&text), ": not surely within; ");
    assert_true((between != NULL) == (test->finding == FINDING_UNDECIDED));
    if (between) {
        const char *difference = strchr(between, '=');
        double low = strtod(difference + 1, NULL);
        assert_true(low <= strtod(strstr(difference, "not above ") + strlen("not above "), NULL) + 1e-9);
        assert_non_null(strstr(difference, "not surely outside."));
    }
    const char *not_above = between ? NULL : strstr(text_string(&text), ", not above "),
               *above = not_above ? not_above : strstr(text_string(&text), ", above ");
    assert_non_null(above);
    const char *equals = above;
    while (*equals != '=')
        equals--;
    double sum = strtod(equals + 1, NULL), limit = strtod(strstr(above, "above ") + strlen("above "), NULL);
    bool within = test->finding == FINDING_WITHIN;
    assert_true((not_above != NULL) == within);
    assert_true((sum <= limit + 1e-9) == within);
    text_free(&text);
}

static void check_record(struct made *m)
{
    const struct sheet *record = find_sheet(m, SHEET_RECORD);
    assert_non_null(record);
    lines_checked = 0;
    visit_blocks(&record->body, check_rows, NULL);
    /* difference or mean, slope, error, gauge; tool, length, scatter, combined, U */
    assert_true(lines_checked >= 9);
    check_freedom_line(record);
    check_verdict_line(m, record);
    free_made(m);
}

static void test_sums_of_contract_job(void **state)
{
    (void)state;
    check_record(make_job(false, "5", "0.10", THREE_STRIPS, ""));
    check_record(make_job(false, "5", "0.10", ONE_STRIP, ""));
}

/* The figures of the contract's worked example: mean difference 0.216667, error 1.396048e-4, u_A 4.470932e-6,
   u_cal 2.232024e-6, u_L 1.038671e-7, u_c 4.998195e-6, each × 300 mm; k 3.182446; U 1.590649e-5 × 300 = 0.0047719,
   rounded up; shift 0.085159. */
static void test_record_prints_worked_example(void **state)
{
    static const char *const printed[] = {"0.21667", "0.0001396", "0.0419",  "0.085", "0.001341",
                                          "0.000670", "0.000031",         "0.001499", "3.182", "0.0048"};
    (void)state;
    struct made *m = make_job(false, "5", "0.10", THREE_STRIPS, "");
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++)
        assert_says(find_sheet(m, SHEET_RECORD), printed[i], true);
    free_made(m);
}

/* One instrument, one number of places: .861 beside .8605 was read as .8610. */
static void test_readings_have_the_places_of_the_finest(void **state)
{
    (void)state;
    struct made *m = make_job(true, "6", "0.004",
                              "tests:\n  - {method: five-cut, date: 2026-11-02, offcut: right, length: 12, strips: ["
                              "{fence_end: [0.861, 0.8605], far_end: [0.889, 0.889]},{fence_end: [0.91, 0.91], far_end: [0.94, 0.94]},"
                              "{fence_end: [0.885, 0.885], far_end: [0.914, 0.914]}]}\n",
                              "");
    static const char *const printed[] = {".8610  .8605", ".8890  .8890", ".9100  .9100"};
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++)
        assert_says(find_sheet(m, SHEET_RECORD), printed[i], true);
    free_made(m);
}

/* A fixed-seed generator (Lehmer, modulus 2^31 − 1, multiplier 48271). */
static double next_random(unsigned long *seed)
{
    *seed = *seed * 48271UL % 2147483647UL;
    return (double)*seed / 2147483647.0;
}

/* Readings of n strips on a board of length L: an error of up to three times the tolerance, strips that scatter. */
static void write_test(struct text *out, unsigned long *seed, bool inches, int n, double length)
{
    double unit = inches ? 25.4 : 1, slope = (next_random(seed) - 0.5) * 1e-3, scatter = next_random(seed) * 1.5e-4;
    int places = inches ? 4 : 2;
    text_printf(out, "tests:\n  - {method: five-cut, date: 2026-11-02, offcut: %s, length: %.*f, strips: [",
                next_random(seed) < 0.5 ? "left" : "right", inches ? 3 : 1, length / unit);
    for (int i = 0; i < n; i++) {
        double width = 21 + 3 * next_random(seed),
               far = width - 4 * length * (slope + scatter * (next_random(seed) - 0.5));
        int m = 1 + (int)(3 * next_random(seed));
        for (int end = 0; end < 2; end++) {
            text_printf(out, "%s", end ? ", far_end: [" : i ? ", {fence_end: [" : "{fence_end: [");
            for (int k = 0; k < m; k++)
                text_printf(out, "%s%.*f", k ? ", " : "", places,
                            ((end ? far : width) + 0.02 * (next_random(seed) - 0.5)) / unit);
            text_printf(out, "]");
        }
        text_printf(out, "}");
    }
    text_printf(out, "]}\n");
}

static void test_sums_of_random_tests(void **state)
{
    static const int strips[] = {1, 2, 3, 4, 6, 7, 12};
    unsigned long seed = 20261102;
    (void)state;
    for (int i = 0; i < 84; i++) {
        bool inches = i % 2 == 1;
        double length = 60 + 340 * next_random(&seed);
        struct text tests = {0};
        write_test(&tests, &seed, inches, strips[i / 2 % 7], length);
        check_record(make_job(inches, inches ? "6" : "5", inches ? "0.004" : "0.10", text_string(&tests), ""));
        text_free(&tests);
    }
}

/* Where |e| + U stands a hair above or below the tolerance, the printed sum must not tell the other verdict. */
static void test_verdict_line_near_limit(void **state)
{
    static const char *const tolerances[] = {"0.0465", "0.0466", "0.04665", "0.0467",
                                             "0.0468", "0.0371", "0.0370",  "0.0372"};
    (void)state;
    for (size_t i = 0; i < sizeof tolerances / sizeof *tolerances; i++)
        check_record(make_job(false, "5", tolerances[i], THREE_STRIPS, ""));
}

/* The factor on the bench sheet is D ÷ (4 L) of the figures beside it. */
static void check_factor(const struct block *b, void *arg)
{
    int *found = arg;
    for (int i = 0; b->kind == BLOCK_BOXES && i < b->as.boxes.n; i++) {
        const char *text = b->as.boxes.items[i].text, *equals = strstr(text, " = ");
        if (text[0] != '(' || !equals)
            continue;
        assert_within(calculate(text + 1), strtod(equals + 3, NULL), 6e-4 * strtod(equals + 3, NULL));
        (*found)++;
    }
}

static void test_bench_factor(void **state)
{
    (void)state;
    for (int inches = 0; inches < 2; inches++) {
        struct made *m = make_job(inches, inches ? "6" : "5", inches ? "0.004" : "0.10", "", "");
        int found = 0;
        visit_blocks(&find_sheet(m, SHEET_BENCH)->body, check_factor, &found);
        assert_int_equal(found, 1);
        free_made(m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sums_of_contract_job), cmocka_unit_test(test_record_prints_worked_example),
        cmocka_unit_test(test_readings_have_the_places_of_the_finest), cmocka_unit_test(test_sums_of_random_tests),
        cmocka_unit_test(test_verdict_line_near_limit),
        cmocka_unit_test(test_bench_factor),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
