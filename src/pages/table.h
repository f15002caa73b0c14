/* table.h: the arithmetic of tables: widths of columns, and where a number's point stands. Private to src/pages. */
#ifndef FETTLE_PAGES_TABLE_H
#define FETTLE_PAGES_TABLE_H

#include <stddef.h>

/* What a column asks for [pt]. */
struct column_need {
    double least;   /* its widest word */
    double body;    /* its cells unwrapped, its head wrapped; not under least */
    double natural; /* its cells and head unwrapped; not under body */
    double weight;  /* 0: as wide as its cells; else a share of what is left, no wider than natural */
};

/* Widths for n columns in `room` (without the gaps); their sum is not over it. */
void table_widths(const struct column_need *, int n, double room, double *widths);

/* Bytes before the place that is put under the others of an ALIGN_POINT column: the decimal point of the first number
   in the text, else the end of its whole number ("3" of "3 1/8", nothing of "3/8"); a text without a number is all
   before. */
size_t table_point(const char *s);

#endif
