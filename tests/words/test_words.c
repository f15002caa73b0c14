/* How numbers and sayings are printed. */
#include "words.h"

#include <glob.h>
#include <stdio.h>
#include <string.h>

#include "close.h"

enum { KEYS_MOST = 4000, KEY = 80 };

static void check_number(enum say_kind kind, double v, enum units units, const char *wanted)
{
    struct text t = {0};
    words_number(&t, kind, v, units);
    assert_string_equal(text_string(&t), wanted);
    text_free(&t);
}

static void test_words_number_metric(void **state)
{
    (void)state;
    static const struct {
        enum say_kind kind;
        double v;
        const char *wanted;
    } rows[] = {
        {SAY_SIZE, 420, "420"},
        {SAY_SIZE, 477.56, "477.5"},
        {SAY_SIZE, 477.80, "478"},
        {SAY_SIZE, -20.24, MINUS "20"},
        {SAY_SIZE, -0.1, "0"},
        {SAY_THICKNESS, 11.8, "11.8"},
        {SAY_THICKNESS, 18, "18"},
        {SAY_ABOUT, 76.2, "76"},
        {SAY_FIT, 19, "19.00"},
        {SAY_FIT, 18.876, "18.88"},
        {SAY_MOVE, 0.085159, "0.085"},
        {SAY_ERROR, 0.041881, "+0.042"},
        {SAY_ERROR, -0.0412, MINUS "0.041"},
        {SAY_ERROR, -0.0001, "0.000"},
        {SAY_UNSIGNED, -0.041881, "0.042"},
        {SAY_FIT, 0.075, "0.08"}, /* a half goes away from zero */
        {SAY_FIT, -0.125, MINUS "0.13"},
        {SAY_LIMIT, 0.1, "0.10"},
        {SAY_LIMIT, 0.125, "0.125"},
        {SAY_UNCERTAINTY, 0.00477195, "0.005"},
        {SAY_UNCERTAINTY, 0.129231, "0.13"},
        {SAY_UNCERTAINTY, 0.0151, "0.016"},
        {SAY_RADIANS, 1.396048e-4, "0.000" THIN "140"},
        {SAY_COUNT_WORD, 3, "three"},
        {SAY_COUNT_WORD, 13, "13"},
        {SAY_RATIO, 0.7268, "73"},
        {SAY_NUMBER, 3.182446, "3.18"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        check_number(rows[i].kind, rows[i].v, UNITS_MM, rows[i].wanted);
}

static void test_words_number_inches(void **state)
{
    (void)state;
    static const struct {
        enum say_kind kind;
        double in;
        const char *wanted;
    } rows[] = {
        {SAY_SIZE, 16.5, "16" THIN "1\xE2\x81\x84" "2"},
        {SAY_SIZE, 0.75, "3\xE2\x81\x84" "4"},
        {SAY_SIZE, 12, "12"},
        {SAY_SIZE, 0.999, "1"},                                        /* 63.94/64 rounds to 1: 0.001 in lost, no decimal */
        {SAY_SIZE, 16.535, "16" THIN "17\xE2\x81\x84" "32" NBSP "(16.535)"}, /* 17/32 = .53125: .0038 lost */
        {SAY_ABOUT, 40 / 25.4, "1" THIN "5\xE2\x81\x84" "8"}, /* 40 mm is 1.575 in: 1 5/8 is nearer than 1 1/2 */
        {SAY_ABOUT, 3, "3"},
        {SAY_ABOUT, 150 / 25.4, "5" THIN "7\xE2\x81\x84" "8"}, /* 5.906 in */
        {SAY_FIT, 0.7480, ".748"},
        {SAY_MOVE, 0.0034, ".003"},
        {SAY_ERROR, 0.00165, "+.0017"}, /* a half goes away from zero, though 0.00165 lies just below it in binary */
        {SAY_ERROR, -0.0016, MINUS ".0016"},
        {SAY_LIMIT, 0.004, ".004"},
        {SAY_LIMIT, 0.0045, ".0045"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        check_number(rows[i].kind, rows[i].in * MM_PER_INCH, UNITS_IN, rows[i].wanted);
}

/* GUM 7.2.6 (clause number from memory): at most two digits of U, rounded up; the value to the same place. */
static void test_words_value_and_u_same_place(void **state)
{
    (void)state;
    static const struct {
        double v, u, limit;
        const char *value, *u_text;
    } rows[] = {
        {0.041881, 0.00477195, 0.10, "+0.042", "0.005"},
        {0.041237, 0.129231, 0.10, "+0.04", "0.13"},
        {-0.30, 0.0151, 0.10, MINUS "0.300", "0.016"},
        {0.0951, 0.0048, 0.10, "+0.095", "0.005"},  /* 0.095 + 0.005 is not above 0.10: still within */
        {0.0956, 0.0044, 0.10, "+0.0956", "0.0044"},  /* within by a hair; 0.096 + 0.005 would say undecided */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text v = {0}, u = {0};
        words_value_and_u(&v, &u, rows[i].v, true, rows[i].u, rows[i].limit, UNITS_MM);
            assert_string_equal(text_string(&v), rows[i].value);
            assert_string_equal(text_string(&u), rows[i].u_text);
        text_clear(&v);
        words_value_and_u(&v, &u, fabs(rows[i].v), false, rows[i].u, rows[i].limit, UNITS_MM);
        assert_null(strchr(text_string(&v), '+'));
        text_free(&v);
        text_free(&u);
    }
}

static void test_words_put_marks_missing_things(void **state)
{
    (void)state;
    struct text t = {0};
    words_put(&t, &SAYING_PLAIN("no.such.key"), UNITS_MM);
    assert_string_equal(text_string(&t), "?no.such.key?");
    text_clear(&t);
    words_put(&t, &SAYING("line.overdue", SAY_STR("day", "x")), UNITS_MM);
    assert_non_null(strstr(text_string(&t), "?date?"));
    text_clear(&t);
    words_put(&t, &SAYING("line.overdue", SAY_STR("date", "2026-01-02")), UNITS_MM);
    assert_string_equal(text_string(&t), "overdue since 2026-01-02");
    text_free(&t);
}

/* Of two rows with one key the second is never printed: a dash stood where "none" was meant. */
static void test_words_each_key_stands_once(void **state)
{
    (void)state;
    static char keys[KEYS_MOST][KEY];
    glob_t files;
    char line[4000];
    int n = 0;
    assert_int_equal(glob(SOURCE_FOLDER "/src/words/*.inc", 0, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++) {
        FILE *f = fopen(files.gl_pathv[i], "r");
        assert_non_null(f);
        while (fgets(line, sizeof line, f))
            if (sscanf(line, "WORD(\"%79[^\"]\"", keys[n]) == 1) {
                for (int k = 0; k < n; k++)
                    assert_string_not_equal(keys[k], keys[n]);
                assert_true(++n < KEYS_MOST);
            }
        fclose(f);
    }
    globfree(&files);
    assert_true(n > 500);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words_number_metric),
        cmocka_unit_test(test_words_number_inches),
        cmocka_unit_test(test_words_value_and_u_same_place),
        cmocka_unit_test(test_words_put_marks_missing_things),
        cmocka_unit_test(test_words_each_key_stands_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
