/* A pocket calculator for printed sums: reads "0.2167 ÷ (4 × 388) × 300" as a reader would, with true minus, roots and
   squares. NAN: not an expression. */
#ifndef FETTLE_TESTS_SHEET_CALCULATOR_H
#define FETTLE_TESTS_SHEET_CALCULATOR_H

#include "base/text.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static inline bool take(const char **p, const char *token)
{
    while (**p == ' ')
        (*p)++;
    size_t n = strlen(token);
    if (strncmp(*p, token, n) != 0)
        return false;
    *p += n;
    return true;
}

static double read_sum(const char **p);

static double read_primary(const char **p)
{
    double v;
    if (take(p, "\xE2\x88\x92"))
        return -read_primary(p);
    if (take(p, "\xE2\x88\x9A"))
        return sqrt(read_primary(p));
    if (take(p, "(")) {
        v = read_sum(p);
        if (!take(p, ")"))
            return NAN;
    } else {
        take(p, "");
        if (!((**p >= '0' && **p <= '9') || **p == '.'))
            return NAN;
        char *end;
        v = strtod(*p, &end);
        *p = end;
    }
    return take(p, "\xC2\xB2") ? v * v : take(p, "\xE2\x81\xB4") ? v * v * v * v : v;
}

static double read_product(const char **p)
{
    double v = read_primary(p);
    for (;;) {
        if (take(p, "\xC3\x97"))
            v *= read_primary(p);
        else if (take(p, "\xC3\xB7"))
            v /= read_primary(p);
        else
            return v;
    }
}

static double read_sum(const char **p)
{
    double v = read_product(p);
    for (;;) {
        if (take(p, "+"))
            v += read_product(p);
        else if (take(p, "\xE2\x88\x92"))
            v -= read_product(p);
        else
            return v;
    }
}

/* Without bold marks and the thin spaces between groups of digits, up to the equals sign. */
static inline void clean(const char *s, struct text *out)
{
    for (; *s && *s != '='; s++) {
        if (*s == '\x0E' || *s == '\x0F')
            continue;
        if (strncmp(s, "\xE2\x80\xAF", 3) == 0)
            s += 2;
        else
            text_add_char(out, *s);
    }
}

static inline double calculate(const char *s)
{
    struct text text = {0};
    clean(s, &text);
    const char *p = text_string(&text);
    double v = read_sum(&p);
    take(&p, "");
    if (*p)
        v = NAN;
    text_free(&text);
    return v;
}

/* One unit of the last place of a printed number. */
static inline double last_place(const char *s)
{
    struct text text = {0};
    clean(s, &text);
    const char *point = strchr(text_string(&text), '.');
    int places = 0;
    for (const char *p = point ? point + 1 : ""; *p >= '0' && *p <= '9'; p++)
        places++;
    text_free(&text);
    return pow(10, -places);
}

#endif
