/* Limits of tools against the published tables: DIN 862 (outside), Directive 2014/32/EU Annex X (MI-008), DIN 875-1,
   JIS B 7503:2011; gaps read with leaves. */
#include "close.h"

#include "proof/budget.h"

static struct job_instrument tool(enum instrument_kind kind, double step, const char *grade)
{
    return (struct job_instrument){.kind = kind, .resolution = {.v = step, .given = step > 0}, .grade = {.s = grade}};
}

static double limit(enum instrument_kind kind, double step, const char *grade, double reading)
{
    struct job_instrument i = tool(kind, step, grade);
    return instrument_tool(&i, reading).error_limit;
}

/* DIN 862, in mm: digital 0.01 and 0.02: 0.02 to 100, 0.03 to 600, 0.04 to 1000; 0.05 and 0.1 as the table has them. */
static void test_instrument_tool_calipers(void **state)
{
    (void)state;
    static const struct {
        double step, reading, limit;
    } rows[] = {{0.01, 25, 0.02},  {0.01, 100, 0.02},  {0.01, 100.5, 0.03}, {0.01, 300, 0.03}, {0.02, 600, 0.03},
                {0.01, 601, 0.04}, {0.02, 1000, 0.04}, {0.05, 80, 0.05},    {0.05, 300, 0.05}, {0.1, 400, 0.06},
                {0.05, 500, 0.07}, {0.05, 600, 0.08},  {0.1, 700, 0.09},    {0.1, 1000, 0.12}, {0, 25, 0.02}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_close(limit(INSTRUMENT_CALIPER, rows[i].step, NULL, rows[i].reading), rows[i].limit, 1e-12);
}

/* MI-008: class I 0.1 + 0.1 L, II 0.3 + 0.2 L, III 0.6 + 0.4 L, L in metres rounded up; from the hook 0.1, 0.2, 0.3
   more. Its example: class II, 1.2 m from the hook end: 0.9. */
static void test_instrument_tool_rules_and_tapes(void **state)
{
    (void)state;
    static const struct {
        const char *grade;
        double reading, rule, tape;
    } rows[] = {{"I", 300, 0.2, 0.3},         {"class I", 2000, 0.3, 0.4}, {"II", 500, 0.5, 0.7},
                {"class II", 1200, 0.7, 0.9}, {"III", 1000, 1.0, 1.3},     {"III", 4800, 2.6, 2.9},
                {"2", 3000, 0.9, 1.1},        {NULL, 900, 0.5, 0.7},       {"IV", 1000, 1.0, 1.3}, /* no such class: the widest */
                {"workshop", 900, 1.0, 1.3}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_close(limit(INSTRUMENT_RULE, 0.5, rows[i].grade, rows[i].reading), rows[i].rule, 1e-12);
        assert_close(limit(INSTRUMENT_TAPE, 0.5, rows[i].grade, rows[i].reading), rows[i].tape, 1e-12);
    }
}

/* DIN 875-1 at 100, 300, 500 mm, as the table prints it, in um. */
static void test_instrument_square_limit_table(void **state)
{
    (void)state;
    static const struct {
        const char *grade;
        double at_100, at_300, at_500;
    } rows[] = {{"00", 3, 5, 7}, {"0", 7, 11, 15}, {"grade 1", 15, 25, 35}, {"2", 30, 50, 70}, {NULL, 30, 50, 70}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_within(instrument_square_limit(rows[i].grade, 100), rows[i].at_100 / 1000, 0.0001);
        assert_within(instrument_square_limit(rows[i].grade, 300), rows[i].at_300 / 1000, 0.0001);
        assert_within(instrument_square_limit(rows[i].grade, 500), rows[i].at_500 / 1000, 0.0001);
    }
}

static void test_instrument_class_words(void **state)
{
    (void)state;
    static const struct {
        const char *grade;
        int class;
    } rows[] = {{"I", 1},  {"class II", 2},  {"Klasse III", 3}, {"00", -1}, {"grade 0", 0}, {"2", 2},
                {"1 ", 1}, {"workshop", -2}, {"", -2},          {NULL, -2}, {"IIII", -2},   {"12", -2}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(job_tool_class(rows[i].grade), rows[i].class);
}

/* A grade that its table does not have is told, not taken in silence. */
static void test_job_has_odd_grade(void **state)
{
    (void)state;
    static const struct {
        enum instrument_kind kind;
        const char *grade;
        bool odd;
    } rows[] = {{INSTRUMENT_RULE, "II", false},  {INSTRUMENT_RULE, "IV", true},    {INSTRUMENT_TAPE, "0", true},
                {INSTRUMENT_SQUARE, "00", false}, {INSTRUMENT_SQUARE, "3", true},   {INSTRUMENT_SQUARE, "A", true},
                {INSTRUMENT_SQUARE, NULL, false}, {INSTRUMENT_CALIPER, "A", false}, {INSTRUMENT_SQUARE, "2", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct job_instrument t = tool(rows[i].kind, 0.5, rows[i].grade);
        assert_int_equal(job_has_odd_grade(&t), rows[i].odd);
        t.error_limit = (struct num){.v = 0.1, .given = true};
        assert_false(job_has_odd_grade(&t));
    }
}

static void test_instrument_tool_stated_limit_holds(void **state)
{
    (void)state;
    struct job_instrument i = tool(INSTRUMENT_DIAL, 0.01, NULL);
    assert_close(instrument_tool(&i, 1).error_limit, 0.010, 1e-12); /* JIS B 7503:2011, one revolution, 10 mm range */
    i.error_limit = (struct num){.v = 0.017, .given = true};
    assert_close(instrument_tool(&i, 1).error_limit, 0.017, 1e-12);
    assert_string_equal(instrument_tool(&i, 1).from, "limit.job");
    assert_close(instrument_tool(NULL, 1).error_limit, 0.03, 1e-12);
}

static void test_gap_of_leaves(void **state)
{
    (void)state;
    static const double leaves[] = {0.05, 0.10, 0.20, 0.30};
    static const struct {
        double given, value, half;
    } rows[] = {
        {0, 0.025, 0.025},    /* none goes: half the thinnest */
        {0.10, 0.15, 0.05},   /* goes; 0.20 does not */
        {0.30, 0.325, 0.025}, /* the thickest: the next try is the thinnest more */
        {0.45, 0.475, 0.025}, /* a stack */
        {0.16, 0.16, 0.06},   /* between leaves: as given */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct gap g = gap_of(rows[i].given, leaves, 4, 0.01);
        assert_close(g.value, rows[i].value, 1e-12);
        assert_close(g.half_width, rows[i].half, 1e-9);
    }
    struct gap read = gap_of(0.17, NULL, 0, 0.01);
    assert_true(read.value == 0.17);
    assert_close(read.half_width, 0.005, 1e-12);
    assert_true(isnan(read.below));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_instrument_tool_calipers),
        cmocka_unit_test(test_instrument_tool_rules_and_tapes),
        cmocka_unit_test(test_instrument_square_limit_table),
        cmocka_unit_test(test_instrument_class_words),
        cmocka_unit_test(test_job_has_odd_grade),
        cmocka_unit_test(test_instrument_tool_stated_limit_holds),
        cmocka_unit_test(test_gap_of_leaves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
