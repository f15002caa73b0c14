/* Units and quantities: the only place where inches become millimetres and degrees radians. Owns nothing.
   May be included by every stage. */
#ifndef FETTLE_BASE_UNIT_H
#define FETTLE_BASE_UNIT_H

#include <stdbool.h>

#define MM_PER_INCH 25.4 /* exact: international inch of 1959 */
#define UNIT_PI 3.14159265358979323846

enum units { UNITS_MM, UNITS_IN };

/* What a bare number of a field means, and what it may carry after it. */
enum quantity {
    QUANTITY_LENGTH,      /* mm after reading; mm cm m in " ft; bare: the job's unit */
    QUANTITY_ANGLE,       /* rad after reading; bare and "deg" or the degree sign: degrees */
    QUANTITY_TEMPERATURE, /* Celsius after reading; C, F */
    QUANTITY_PERCENT,     /* per cent after reading; "%" */
    QUANTITY_MASS,        /* kg after reading; kg g lb */
    QUANTITY_NUMBER       /* no unit */
};

enum quantity_fault {
    QUANTITY_OK,
    QUANTITY_NOT_A_NUMBER,
    QUANTITY_COMMA,             /* a comma inside a number: "decimal point" */
    QUANTITY_EXPONENT,          /* 1e3: not accepted */
    QUANTITY_WRONG_UNIT,        /* a unit of another quantity, or an unknown one */
    QUANTITY_METRIC_FRACTION,   /* 3/4 where the unit is not the inch */
    QUANTITY_ZERO_DENOMINATOR
};

/* Reads a scalar as the contract has it: "18", "18.5", ".5", "-2", "3/4", "1 3/8", "1-3/8", then a unit, blank or not. */
enum quantity_fault unit_parse(const char *s, enum quantity, enum units job_units, double *out);
double unit_inches(double mm);
double unit_degrees(double rad);

#endif
