/* sheet/general.h: what the record and the wall say of a test in the same way whatever its method: verdict, budget,
   further results, one line. Private to src/sheet. */
#ifndef FETTLE_SHEET_GENERAL_H
#define FETTLE_SHEET_GENERAL_H

#include "sheet/bench_page.h"
#include "sheet/findings.h"

/* "Blade to sled base: out by 0.12 mm in 50 (± 0.03); allowed 0.10. Tested 2026-11-02." */
const char *general_error_line(const struct sheet_builder *, const struct proof_test *);
/* "0.0419 + 0.0048 = 0.0467, not above 0.1000" */
const char *general_verdict_working(const struct sheet_builder *, const struct proof_test *);
void general_add_verdict(const struct sheet_builder *, struct block_list *, const struct proof_test *);
/* How a line of the budget is worked that is BUDGET_OWN; NULL: there is none. */
typedef const char *express_line(const struct sheet_builder *, const struct proof_test *, const struct budget_line *);
void general_add_budget(const struct sheet_builder *, struct block_list *, const struct proof_test *, express_line *);
/* Further results in a table, then the remarks. Nothing where there are none. */
void general_add_figures(const struct sheet_builder *, struct block_list *, const struct proof_test *);

/* Numbered actions of a record; {move} in them is the sentence. */
void general_add_steps(const struct sheet_builder *, struct block_list *, const struct action_row *, int n,
                       const char *move);

/* A sum as it is worked by hand: label, expression, result a row. */
struct block sum_begin(const struct sheet_builder *);
/* expression "": none, only the result. */
void sum_add_row(const struct sheet_builder *, struct block *sum, struct saying label, const char *expression,
                 const char *result);
/* Figures as a term of a sum: a negative one in brackets. */
const char *sum_term(const struct sheet_builder *, const char *digits);
/* The gap that a sum begins with: halfway between two leaves, or as it was read. */
void sum_add_gap(const struct sheet_builder *, struct block *sum, const struct gap *, int places);
/* Which way it is off is told; that it may be none where the error is no larger than its own uncertainty. */
void general_add_way(const struct sheet_builder *, struct block_list *, const struct proof_test *, struct saying way);

/* Places of a figure that a result of PLACES_ERROR is worked from by multiplying it with `factor`. */
int sum_places(double factor);
/* Error and, where it is an angle, over which length: "error in 50 mm", the last row of every sum. */
void sum_add_error(const struct sheet_builder *, struct block *sum, const struct proof_test *, const char *expression);
/* "Measured by Ann." or nothing. */
void general_add_by(const struct sheet_builder *, struct block_list *, const struct proof_test *);
/* "12.3 mm" as it was read, and lists of such. */
/* Readings as given, beside each other, all with the places of the one that has most; or with so many. */
const char *print_readings(const struct sheet_builder *, const double *, size_t n);
int readings_places(const struct sheet_builder *, const double *, size_t n); /* in mm, as for print_places */
const char *print_readings_to(const struct sheet_builder *, const double *, size_t n, int places);
/* " in 300" or "" where the result is a length; `number` before it, with its unit. */
const char *print_over(const struct sheet_builder *, const struct proof_test *, const char *number);

#endif
