/* Numbers read back off a sheet. */
#include "whole/printed.h"

#include "base/saying.h"
#include "words.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SLASH "\xE2\x81\x84" /* U+2044 fraction slash */

static bool starts(const char *s, const char *with)
{
    return strncmp(s, with, strlen(with)) == 0;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool has_digit(const char *s, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (is_digit(s[i]))
            return true;
    return false;
}

static bool is_date_at(const char *s)
{
    static const char pattern[] = "dddd-dd-dd";
    for (int i = 0; pattern[i]; i++)
        if (pattern[i] == 'd' ? !is_digit(s[i]) : s[i] != '-')
            return false;
    return !is_digit(s[10]);
}

/* "13", "0.000 020 2", ".004": digits with a point, groups of three behind it. */
static const char *read_decimal(const char *s, struct printed *out)
{
    char digits[64];
    size_t n = 0;
    bool point = false;
    out->places = 0;
    for (; n < sizeof digits - 1; s++) {
        bool group = point && starts(s, THIN) && is_digit(s[strlen(THIN)]);
        if (group)
            s += strlen(THIN);
        if (*s == '.' && !point && is_digit(s[1]))
            point = true;
        else if (!is_digit(*s))
            break;
        out->places += point && *s != '.';
        digits[n++] = *s;
    }
    digits[n] = '\0';
    out->value = strtod(digits, NULL);
    return s;
}

/* "/64" after the digits at s; gives the place behind it, NULL: no fraction here. */
static const char *read_under(const char *s, double *under)
{
    if (!starts(s, SLASH))
        return NULL;
    char *end;
    *under = strtod(s + strlen(SLASH), &end);
    return end;
}

/* "1 3/8", "3/8" */
static const char *read_fraction(const char *s, struct printed *out)
{
    const char *p = s;
    double whole = 0, over = 0, under = 1;
    while (is_digit(*p))
        over = over * 10 + (*p++ - '0');
    const char *end = read_under(p, &under);
    if (!end && starts(p, THIN)) {
        whole = over;
        over = 0;
        p += strlen(THIN);
        while (is_digit(*p))
            over = over * 10 + (*p++ - '0');
        end = read_under(p, &under);
    }
    if (!end)
        return NULL;
    out->value = whole + over / under;
    out->is_fraction = true;
    return end;
}

/* " (1.379)" */
static const char *read_beside(const char *s, struct printed *out)
{
    struct printed inner = {0};
    const char *open = s;
    if (!starts(s, NBSP "("))
        return s;
    open += strlen(NBSP "(");
    bool minus = starts(open, MINUS);
    if (minus)
        open += strlen(MINUS);
    const char *end = read_decimal(open, &inner);
    if (end == open || *end != ')')
        return s;
    out->beside = minus ? -inner.value : inner.value;
    return end + 1;
}

bool printed_next(const char **p, struct printed *out)
{
    const char *s = *p, *from = *p;
    *out = (struct printed){.beside = NAN};
    while (*s && !is_digit(*s) && !(*s == '.' && is_digit(s[1]) && !(s > from && isalnum((unsigned char)s[-1]))))
        s++;
    if (!*s)
        return false;
    size_t minus = strlen(MINUS);
    out->at = s;
    if ((size_t)(s - from) >= minus && starts(s - minus, MINUS)) {
        out->at = s - minus;
        out->signed_minus = true;
    }
    const char *end;
    if (is_date_at(s)) {
        out->is_date = true;
        end = s + 10;
    } else {
        end = read_fraction(s, out);
        if (!end)
            end = read_decimal(s, out);
        if (out->signed_minus)
            out->value = -out->value;
        end = read_beside(end, out);
    }
    out->n = (size_t)(end - out->at);
    *p = end;
    return true;
}

/* ---- the rules of README.md, "How numbers are printed" ---- */

static const struct step_row {
    int kind;
    double mm, in; /* the place to which it is rounded */
} step_rows[] = {
    {SAY_SIZE, 0.5, 1.0 / 64}, {SAY_ABOUT, 1, 1.0 / 8}, {SAY_THICKNESS, 0.1, 0.001}, {SAY_FIT, 0.01, 0.001},     {SAY_MOVE, 0.001, 0.001},
    {SAY_ERROR, 0.001, 0.0001}, {SAY_UNSIGNED, 0.001, 0.0001}, {SAY_LIMIT, 0.001, 0.0001},
};

static double last_place(const struct printed *p)
{
    return pow(10, -p->places);
}

static bool is_near(double a, double b, double half)
{
    return fabs(a - b) <= half * (1 + 1e-6) + 1e-9;
}

/* A fraction that loses more than 0.002 in has the decimal beside it, and then that one is to the thousandth. */
static bool size_in_inches_agrees(const struct printed *p, double inches)
{
    if (!isnan(p->beside) && !is_near(p->beside, inches, 0.0005))
        return false;
    if (isnan(p->beside) && fabs(p->value - inches) > 0.002 + 1e-6 && p->is_fraction)
        return false;
    return is_near(p->value, inches, 1.0 / 128);
}

static bool length_agrees(const struct printed *p, int kind, double v, bool in)
{
    for (size_t i = 0; i < sizeof step_rows / sizeof *step_rows; i++)
        if (step_rows[i].kind == kind) {
            if (in && kind == SAY_SIZE && p->places == 0)
                return size_in_inches_agrees(p, v);
            return is_near(p->value, v, (in ? step_rows[i].in : step_rows[i].mm) / 2);
        }
    return false;
}

bool printed_agrees(const struct printed *p, int kind, double v, enum units units)
{
    bool in = units == UNITS_IN;
    double here = in ? v / 25.4 : v, half = last_place(p) / 2;
    switch (kind) {
    case PRINTED_PLACES:
        return is_near(p->value, here, fmin(half, in ? 0.00005 : 0.0006));
    case PRINTED_RULE:
        return is_near(p->value, here, in ? 1.0 / 128 : 0.25);
    case PRINTED_SAID: /* sizes are to half a millimetre, or fractions; rules of thumb are whole, or in eighths */
        if (p->value == v || (in && p->places == 0 && size_in_inches_agrees(p, here)))
            return true;
        if (in && p->places == 0 && p->value * 8 == round(p->value * 8) && is_near(p->value, here, 1.0 / 16))
            return true;
        return is_near(p->value, here, !in && p->places == 1 ? 0.25 : half);
    case PRINTED_RESULT:
        return p->places >= (in ? 2 : 1) && is_near(p->value, here, half); /* beside a U of a whole millimetre or more */
    case PRINTED_UP:
    case SAY_UNCERTAINTY:
        return p->value >= here - 2e-9 && p->value - here < last_place(p) * (1 + 1e-6) && (p->places >= 1 || p->value >= 10);
    case PRINTED_EXACT:
        return is_near(p->value, here, in ? 0.000006 : 0.00006);
    case PRINTED_FIGURE:
        return is_near(p->value, v, fmin(half, fmax(fabs(v) / 20, 1e-6)));
    case PRINTED_MEASURED: /* or a growth "in 1000", in inches "in 12" */
        if (p->value == (in ? 12 : 1000) || (in && is_near(p->value, v * 0.012, half)))
            return true;
        return is_near(p->value, here, half) || is_near(p->value, v * 180 / acos(-1), half) || is_near(p->value, v, half);
    case SAY_RADIANS:
        return fabs(p->value - v) <= 0.0051 * fabs(v);
    case SAY_DEGREES:
        return is_near(p->value, v * 180 / acos(-1), 0.0005);
    case SAY_COUNT:
    case SAY_COUNT_WORD:
        return p->value == v;
    case SAY_NUMBER:
        return fabs(p->value - v) <= 0.0051 * fabs(v);
    case SAY_PERCENT:
        return is_near(p->value, v, 0.5);
    case SAY_FORCE: /* 1 lbf: a pound of 0.45359237 kg at 9.80665 m/s2 (ISO 80000-4) */
        return in ? is_near(p->value, v / (0.45359237 * 9.80665), 0.05) : is_near(p->value, v, 0.5);
    case SAY_DENSITY: /* 1 ft is 0.3048 m */
        return in ? is_near(p->value, v * 0.3048 * 0.3048 * 0.3048 / 0.45359237, 0.05) : is_near(p->value, v, 0.5);
    case SAY_GROWTH:
        return in ? is_near(p->value, v * 0.012, 0.00005) : fabs(p->value - v) <= 0.0051 * fabs(v);
    case SAY_RATIO:
        return is_near(p->value, v * 100, 0.5);
    case SAY_MASS:
        return is_near(p->value, in ? v / 0.45359237 : v, 0.05);
    case SAY_TEMPERATURE:
        return is_near(p->value, in ? v * 9 / 5 + 32 : v, 0.5);
    default:
        return length_agrees(p, kind, here, in);
    }
}
