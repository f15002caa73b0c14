/* Printing of numbers: signs, points, fractions, significant digits. Rules: metric by ISO 80000-1 (zero before the point,
   true minus, thin space between groups), inches by shop and ASME habit (no zero before the point, fractions in 64ths). */
#include "words/number.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SIXTY_FOURTHS = 64 };
static const double fraction_may_lose = 0.002; /* in; past it the decimal stands beside the fraction */

/* Halves go away from zero, as a person rounds: 0.075 lies just below its name in binary and would print as 0.07. */
static void print_digits(char *buffer, size_t size, double v, int places, bool inch_style)
{
    char digits[64];
    snprintf(digits, sizeof digits, "%.*f", places, fabs(v) * (1 + 1e-12));
    const char *from = inch_style && digits[0] == '0' && digits[1] == '.' ? digits + 1 : digits;
    snprintf(buffer, size, "%s", from);
}

static bool is_all_zero(const char *digits)
{
    return strspn(digits, "0.") == strlen(digits);
}

void number_decimal(struct text *out, double v, int places, bool plus_sign, bool inch_style)
{
    char digits[64];
    print_digits(digits, sizeof digits, v, places, inch_style);
    if (!is_all_zero(digits))
        text_add(out, v < 0 ? MINUS : plus_sign ? "+" : "");
    text_add(out, digits);
}

void number_trimmed(struct text *out, double v, int places, int least, bool inch_style)
{
    char digits[64];
    int kept = places;
    for (; kept > least; kept--) {
        print_digits(digits, sizeof digits, v, kept, false);
        size_t n = strlen(digits);
        if (digits[n - 1] != '0')
            break;
    }
    number_decimal(out, v, kept, false, inch_style);
}

void number_inch_size(struct text *out, double inches)
{
    long n = lround(fabs(inches) * SIXTY_FOURTHS), whole = n / SIXTY_FOURTHS, over = n % SIXTY_FOURTHS, under = SIXTY_FOURTHS;
    while (over && over % 2 == 0) {
        over /= 2;
        under /= 2;
    }
    if (inches < 0 && n)
        text_add(out, MINUS);
    if (whole || !over)
        text_printf(out, "%ld", whole);
    if (over)
        text_printf(out, "%s%ld\xE2\x81\x84%ld", whole ? THIN : "", over, under); /* U+2044 fraction slash */
    if (fabs(fabs(inches) - (double)n / SIXTY_FOURTHS) > fraction_may_lose) {
        text_add(out, NBSP "(");
        number_decimal(out, inches, 3, false, true);
        text_add(out, ")");
    }
}

static int places_for_digits(double v, int significant)
{
    if (v == 0 || !isfinite(v))
        return 0;
    int exponent = (int)floor(log10(fabs(v)));
    int places = significant - 1 - exponent;
    return places < 0 ? 0 : places > 12 ? 12 : places;
}

void number_grouped(struct text *out, double v)
{
    char digits[64];
    snprintf(digits, sizeof digits, "%.*f", places_for_digits(v, 3), fabs(v));
    if (v < 0 && !is_all_zero(digits))
        text_add(out, MINUS);
    const char *point = strchr(digits, '.');
    if (!point) {
        text_add(out, digits);
        return;
    }
    text_add_n(out, digits, (size_t)(point + 1 - digits));
    size_t n = strlen(point + 1);
    for (size_t i = 0; i < n; i++) {
        if (i && i % 3 == 0 && n > 4)
            text_add(out, THIN);
        text_add_char(out, point[1 + i]);
    }
}

int number_places_for_u(double u, int most)
{
    int places = places_for_digits(u, 2);
    /* 0.0999 rounds up to 0.10: the two digits then begin one place higher */
    if (places > 0 && number_round_up(u, places) >= pow(10, 2 - places) * (1 - 1e-12))
        places--;
    return places < most ? places : most;
}

double number_round_up(double v, int places)
{
    double scale = pow(10, places);
    return ceil(v * scale - 1e-9) / scale;
}
