/* printed.h: numbers read back as they stand on a sheet, by the rules that a reader knows, not by the program's printer:
   thin spaces between groups, a true minus, inches as fractions with the decimal beside them, ISO dates. */
#ifndef FETTLE_TESTS_PRINTED_H
#define FETTLE_TESTS_PRINTED_H

#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>

struct printed {
    const char *at;
    size_t n;           /* bytes */
    double value;
    int places;         /* behind the point */
    bool signed_minus;
    bool is_fraction;
    double beside;      /* the decimal in brackets after a fraction; NAN: none */
    bool is_date;
};

/* Kinds of number beside those of base/saying.h. */
enum {
    PRINTED_PLACES = 100, /* mm: to the places that stand there, half a unit of the last one off at most */
    PRINTED_UP,           /* mm: rounded up to the places that stand there */
    PRINTED_EXACT,        /* mm: as it was given */
    PRINTED_FIGURE,       /* plain number: half a unit of its last place off at most */
    PRINTED_RESULT,       /* mm: an error to the place of its uncertainty */
    PRINTED_CHECK,        /* as the check prints its numbers */
    PRINTED_SIZE_OR_FIT,  /* mm: a fit where two places or more stand there, else a size */
    PRINTED_RULE,         /* mm: set by a rule, to half a millimetre or 1/64 in, whatever that loses */
    PRINTED_MEASURED,     /* a length or a plain number to the places that stand there, or an angle in degrees */
    PRINTED_SAID,         /* a length at the accuracy at which it is printed, or a whole number */
    PRINTED_DATE, PRINTED_NAME, PRINTED_WORDS, PRINTED_FREE
};

/* The next number at or after *p; moves *p behind it. False: none is left. */
bool printed_next(const char **p, struct printed *out);
bool has_digit(const char *s, size_t n);
/* May `p` stand for the number v of a results key, by the rule of its kind in a job of these units? */
bool printed_agrees(const struct printed *p, int kind, double v, enum units);

#endif
