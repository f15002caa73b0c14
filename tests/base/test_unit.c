/* Quantities as a job may write them. */
#include "base/unit.h"

#include "close.h"

#include <stdio.h>
#include <string.h>

static const struct row {
    const char *text;
    enum quantity quantity;
    enum units units;
    enum quantity_fault fault;
    double value; /* mm, rad, Celsius, per cent, kg */
} rows[] = {
    /* plain numbers */
    {"18", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"18.5", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18.5},
    {".5", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 0.5},
    {"5.", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 5},
    {"-2", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, -2},
    {"+2", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 2},
    {" 18 ", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"0", QUANTITY_NUMBER, UNITS_MM, QUANTITY_OK, 0},
    /* a bare number is in the job's unit; 1 in is 25.4 mm exactly (international yard and pound agreement, 1959) */
    {"18", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 457.2},
    {"1", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 25.4},
    /* units, blank or not */
    {"18 mm", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 18},
    {"18mm", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 18},
    {"1.8 cm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"0.018 m", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"2 in", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 50.8},
    {"2\"", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 50.8},
    {"2 \"", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 50.8},
    {"2 ft", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 609.6},
    /* pasted from a text that was set: no-break, thin and narrow blanks, tabs */
    {"18\xC2\xA0mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"18\xE2\x80\x89mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"18\xE2\x80\xAFmm\xC2\xA0", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"\t18\tmm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 18},
    {"1\xC2\xA0" "3/8\xC2\xA0in", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 34.925},
    {"18\xC2\xA0mm\xC2\xA0mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    /* fractions of inches: 3/4 in = 19.05 mm, 1 3/8 in = 34.925 mm */
    {"3/4", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 19.05},
    {"1 3/8", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 34.925},
    {"1-3/8", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 34.925},
    {"-1 3/8", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, -34.925},
    {"3/4 in", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 19.05},
    {"3/4\"", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 19.05},
    {"1 1/2 ft", QUANTITY_LENGTH, UNITS_MM, QUANTITY_OK, 457.2},
    {"33/64", QUANTITY_LENGTH, UNITS_IN, QUANTITY_OK, 13.096875},
    {"3/4", QUANTITY_LENGTH, UNITS_MM, QUANTITY_METRIC_FRACTION, 0},
    {"3/4 mm", QUANTITY_LENGTH, UNITS_IN, QUANTITY_METRIC_FRACTION, 0},
    {"1/2", QUANTITY_NUMBER, UNITS_IN, QUANTITY_METRIC_FRACTION, 0},
    {"3/0", QUANTITY_LENGTH, UNITS_IN, QUANTITY_ZERO_DENOMINATOR, 0},
    {"1 3/0", QUANTITY_LENGTH, UNITS_IN, QUANTITY_ZERO_DENOMINATOR, 0},
    {"1.5 3/8", QUANTITY_LENGTH, UNITS_IN, QUANTITY_NOT_A_NUMBER, 0},
    {"3/", QUANTITY_LENGTH, UNITS_IN, QUANTITY_NOT_A_NUMBER, 0},
    {"/4", QUANTITY_LENGTH, UNITS_IN, QUANTITY_NOT_A_NUMBER, 0},
    {"1 2 3/4", QUANTITY_LENGTH, UNITS_IN, QUANTITY_NOT_A_NUMBER, 0},
    /* comma and exponent */
    {"18,5", QUANTITY_LENGTH, UNITS_MM, QUANTITY_COMMA, 0},
    {"1,234.5", QUANTITY_LENGTH, UNITS_MM, QUANTITY_COMMA, 0},
    {"18,5 mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_COMMA, 0},
    {"1e3", QUANTITY_LENGTH, UNITS_MM, QUANTITY_EXPONENT, 0},
    {"1E3", QUANTITY_LENGTH, UNITS_MM, QUANTITY_EXPONENT, 0},
    {"1.5e-3", QUANTITY_LENGTH, UNITS_MM, QUANTITY_EXPONENT, 0},
    /* what is no number */
    {"", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"-", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {".", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"nan", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"inf", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"0x10", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"1.2.3", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"--2", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    {"mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_NOT_A_NUMBER, 0},
    /* units of another quantity, or of none */
    {"18 kg", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 mn", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 mm mm", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 %", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 mm", QUANTITY_NUMBER, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 MM", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    {"18 millimetres long", QUANTITY_LENGTH, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    /* temperature: (64 - 32) 5/9 = 17.777...; -40 is the same on both scales */
    {"18", QUANTITY_TEMPERATURE, UNITS_IN, QUANTITY_OK, 18},
    {"18 C", QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_OK, 18},
    {"18 \xC2\xB0"
     "C",
     QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_OK, 18},
    {"64 F", QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_OK, 160.0 / 9},
    {"32\xC2\xB0"
     "F",
     QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_OK, 0},
    {"-40 F", QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_OK, -40},
    {"64 mm", QUANTITY_TEMPERATURE, UNITS_MM, QUANTITY_WRONG_UNIT, 0},
    /* the rest */
    {"90", QUANTITY_ANGLE, UNITS_MM, QUANTITY_OK, 1.57079632679489662},
    {"45 deg", QUANTITY_ANGLE, UNITS_MM, QUANTITY_OK, 0.785398163397448310},
    {"45\xC2\xB0", QUANTITY_ANGLE, UNITS_MM, QUANTITY_OK, 0.785398163397448310},
    {"50", QUANTITY_PERCENT, UNITS_MM, QUANTITY_OK, 50},
    {"50 %", QUANTITY_PERCENT, UNITS_MM, QUANTITY_OK, 50},
    {"2.5", QUANTITY_MASS, UNITS_IN, QUANTITY_OK, 2.5},
    {"250 g", QUANTITY_MASS, UNITS_MM, QUANTITY_OK, 0.25},
    {"1 lb", QUANTITY_MASS, UNITS_MM, QUANTITY_OK, 0.45359237}, /* exact, 1959 */
};

static void test_unit_parse_rows(void **state)
{
    (void)state;
    int failed = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *r = &rows[i];
        double v = 0;
        enum quantity_fault fault = unit_parse(r->text, r->quantity, r->units, &v);
        bool same =
            fault == r->fault && (fault != QUANTITY_OK || fabs(v - r->value) <= 1e-12 * fmax(1, fabs(r->value)));
        if (!same) {
            print_error("\"%s\": fault %d, %.17g; expected fault %d, %.17g\n", r->text, (int)fault, v, (int)r->fault,
                        r->value);
            failed++;
        }
    }
    assert_int_equal(failed, 0);
}

static void test_unit_parse_every_sixty_fourth(void **state)
{
    (void)state;
    for (int i = 1; i < 64; i++) {
        char text[40];
        double v;
        snprintf(text, sizeof text, "2 %d/64", i);
        assert_int_equal(unit_parse(text, QUANTITY_LENGTH, UNITS_IN, &v), QUANTITY_OK);
        assert_close(v, 50.8 + i * 0.396875, 1e-15); /* 25.4/64 = 0.396875 */
    }
}

static void test_unit_parse_many_digits(void **state)
{
    (void)state;
    char text[128];
    double v;
    memset(text, '9', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    assert_int_equal(unit_parse(text, QUANTITY_LENGTH, UNITS_MM, &v), QUANTITY_NOT_A_NUMBER);
    assert_int_equal(unit_parse("0.100000000000000000000000000000000000", QUANTITY_LENGTH, UNITS_MM, &v), QUANTITY_OK);
    assert_close(v, 0.1, 0);
}

static void test_unit_inches_and_degrees(void **state)
{
    (void)state;
    assert_close(unit_inches(25.4), 1, 0);
    assert_close(unit_degrees(UNIT_PI), 180, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_unit_parse_rows),
        cmocka_unit_test(test_unit_parse_every_sixty_fourth),
        cmocka_unit_test(test_unit_parse_many_digits),
        cmocka_unit_test(test_unit_inches_and_degrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
