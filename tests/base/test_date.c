/* Dates, against the C library's own calendar (POSIX gmtime_r). */
#define _POSIX_C_SOURCE 200809L
#include "base/date.h"

#include "close.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static void test_date_days_agree_with_gmtime(void **state)
{
    (void)state;
    _Static_assert(sizeof(time_t) >= 8, "years far from 1970");
    struct date d = {1, 1, 1};
    long first = date_days(d), last = date_days((struct date){9999, 12, 31});
    assert_int_equal(date_days((struct date){1970, 1, 1}), 0);
    for (long day = first; day <= last; day += day > -200000 && day < 200000 ? 1 : 17) {
        time_t t = (time_t)day * 86400;
        struct tm tm;
        assert_non_null(gmtime_r(&t, &tm));
        d = date_from_days(day);
        if (d.year != tm.tm_year + 1900 || d.month != tm.tm_mon + 1 || d.day != tm.tm_mday)
            fail_msg("day %ld is %d-%d-%d, gmtime says %d-%d-%d", day, d.year, d.month, d.day, tm.tm_year + 1900,
                     tm.tm_mon + 1, tm.tm_mday);
        assert_int_equal(date_days(d), day);
    }
}

static void test_date_parse_accepts_every_day_and_no_other(void **state)
{
    (void)state;
    int accepted = 0;
    for (int year = 1999; year <= 2000; year++)
        for (int month = 0; month <= 13; month++)
            for (int day = 0; day <= 32; day++) {
                char text[40];
                struct date d;
                snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
                accepted += date_parse(text, &d);
            }
    assert_int_equal(accepted, 365 + 366);
}

static void test_date_parse_refuses(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "",           "2026",       "2026-11",    "2026-11-2", "2026-11-02 ", " 2026-11-02", "2026-11-02T10:00",
        "02-11-2026", "2026/11/02", "20261102",   "2026-1-02", "0000-01-01",  "2100-02-29",  "1900-02-29",
        "2026-04-31", "2026-1a-02", "-026-11-02",
    };
    struct date d;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (date_parse(texts[i], &d))
            fail_msg("\"%s\" was accepted", texts[i]);
    assert_true(date_parse("2000-02-29", &d)); /* 400 divides 2000 */
    assert_true(date_parse("9999-12-31", &d));
}

static void test_date_add_months_stays_in_the_month(void **state)
{
    (void)state;
    static const struct {
        const char *from;
        int months;
        const char *to;
    } rows[] = {
        {"2026-11-02", 3, "2027-02-02"}, {"2026-11-30", 3, "2027-02-28"},  {"2027-11-30", 3, "2028-02-29"},
        {"2026-01-31", 1, "2026-02-28"}, {"2026-12-31", 12, "2027-12-31"}, {"2026-12-01", 1, "2027-01-01"},
        {"2026-05-31", 0, "2026-05-31"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct date d;
        char text[11];
        assert_true(date_parse(rows[i].from, &d));
        date_print(date_add_months(d, rows[i].months), text);
        assert_string_equal(text, rows[i].to);
    }
}

static void test_date_compare_and_is_set(void **state)
{
    (void)state;
    struct date a = {2026, 11, 2}, b = {2026, 10, 31}, none = {0};
    assert_true(date_compare(a, b) > 0);
    assert_true(date_compare(b, a) < 0);
    assert_int_equal(date_compare(a, a), 0);
    assert_true(date_is_set(a));
    assert_false(date_is_set(none));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_date_days_agree_with_gmtime),
        cmocka_unit_test(test_date_parse_accepts_every_day_and_no_other),
        cmocka_unit_test(test_date_parse_refuses),
        cmocka_unit_test(test_date_add_months_stays_in_the_month),
        cmocka_unit_test(test_date_compare_and_is_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
