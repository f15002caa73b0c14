/* Comparing doubles in tests. cmocka 1.1.5's own float assertion casts to float, so it cannot see the seventh digit. */
#ifndef FETTLE_TESTS_CLOSE_H
#define FETTLE_TESTS_CLOSE_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* Relative to the expected value; to 1 where that is zero. NAN is close to nothing. */
#define assert_close(actual, expected, relative) check_close((actual), (expected), (relative), #actual, __FILE__, __LINE__)
/* Absolute. */
#define assert_within(actual, expected, difference) check_within((actual), (expected), (difference), #actual, __FILE__, __LINE__)

static inline void check_within(double actual, double expected, double difference, const char *what, const char *file, int line)
{
    if (actual == expected || fabs(actual - expected) <= difference)
        return;
    print_error("%s is %.17g, expected %.17g within %g\n", what, actual, expected, difference);
    _fail(file, line);
}

static inline void check_close(double actual, double expected, double relative, const char *what, const char *file, int line)
{
    check_within(actual, expected, relative * (expected == 0 ? 1 : fabs(expected)), what, file, line);
}

#endif
