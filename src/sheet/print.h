/* sheet/print.h: what a sheet is filled from, and the strings that go on it. Private to src/sheet.
   Every string given back lives in the builder's pool and may hold bold marks. */
#ifndef FETTLE_SHEET_PRINT_H
#define FETTLE_SHEET_PRINT_H

#include "sheet.h"
#include "words.h"

struct sheet_builder {
    const struct job *job;         /* the five are borrowed */
    const struct plan *plan;
    const struct cutting *cutting; /* NULL: none */
    const struct proof *proof;
    const struct outcome *outcome;
    struct pool *pool;             /* of struct sheets */
    enum units units;
    int brevity;                   /* of a sheet of one page: 0 says all, each version after it less */
};

/* How many places after the point a worked figure has in mm; inch jobs print one more. Chosen so that a line worked from
   printed figures gives the printed result, at most one unit of its last place away. */
enum { PLACES_ERROR = 4, PLACES_U = 6, PLACES_MOVE = 3, PLACES_SLOPE = 7 }; /* slopes: in any unit */

const char *print_saying(const struct sheet_builder *, struct saying);
const char *print_word(const struct sheet_builder *, const char *key);
const char *print_number(const struct sheet_builder *, enum say_kind, double);
const char *print_quantity(const struct sheet_builder *, enum say_kind, double); /* with its unit; a dash for NAN */
/* A length of so many places, for worked sums: true minus, no zero before the point in inches. */
const char *print_places(const struct sheet_builder *, double mm, int places_in_mm);
/* The same, rounded up: for uncertainties. */
const char *print_places_up(const struct sheet_builder *, double mm, int places_in_mm);
/* A length as it was given: the fewest places that hold it, from 2 (3 in inches) to 4 (5). */
const char *print_as_given(const struct sheet_builder *, double mm);
/* The same from no places on: "388" in a worked sum. */
const char *print_measure(const struct sheet_builder *, double mm);
/* A number of a sum without a unit of its own, in the style of the lengths beside it: "0.0001396", ".0001396". */
const char *print_factor(const struct sheet_builder *, double, int places);
const char *print_significant(const struct sheet_builder *, double, int digits); /* "3.182", in the same style */
const char *print_date(const struct sheet_builder *, struct date);
/* Feeler leaves in the unit that they are marked in, which is named where it is not the job's: "0.30 + 0.05". */
const char *print_leaves(const struct sheet_builder *, const double *leaves, int n);
const char *print_leaf_sum(const struct sheet_builder *, const double *leaves, int n); /* "0.30 + 0.05 = 0.35", "0.30" */
const char *list_leaves(const struct sheet_builder *, const double *leaves, size_t n); /* "0.05, 0.10, 0.15" */
bool leaves_marked_otherwise(const struct sheet_builder *);
const char *print_bold(const struct sheet_builder *, const char *);
/* Error and expanded uncertainty over the tolerance's length, to the same place. */
struct printed_result {
    const char *value; /* "+0.042" */
    const char *size;  /* "0.042": without its sign */
    const char *u;     /* "0.005" */
};
/* "in 300" mm, "over 12" in: nobody reads "in in" twice. */
const char *again_after_key(const struct sheet_builder *); /* after what a test is made again at once */
const char *print_over_size(const struct sheet_builder *, double mm); /* "in 300", "over 12" */
const char *print_over_length(const struct sheet_builder *, const struct proof_test *);
struct printed_result print_result(const struct sheet_builder *, const struct proof_test *);
/* A second wording: KEY.of where there is one, else KEY; the same with .plain where the job has no sled. */
const char *key_second(const struct sheet_builder *, const char *key, const char *of);
const char *key_plain(const struct sheet_builder *, const char *key);
/* Words of left and right, toward and away: keys to hang into sayings with SAY_KEY. */
const char *key_of_unit(enum units); /* for headings: "mm", "inches" */
const char *key_of_side(enum side);
const char *key_of_fence(enum fence_side);
const char *key_of_toward(enum toward);
const char *key_of_turn(enum fence_side, enum side offcut); /* clockwise or counter-clockwise */

#endif
