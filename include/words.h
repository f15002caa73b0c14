/* words.h: every sentence a user can see, keyed, and how each kind of number is printed.
   Made by src/words from its tables (*.inc). May be included by draw, sheet, results, run. */
#ifndef FETTLE_WORDS_H
#define FETTLE_WORDS_H

#include "base/saying.h"
#include "base/text.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* Marks inside a text that is put on a sheet. Job texts cannot contain them: the reader refuses control characters. */
#define TEXT_BOLD_ON '\x0E'
#define TEXT_BOLD_OFF '\x0F'
#define NBSP "\xC2\xA0"       /* U+00A0 no-break space */
#define THIN "\xE2\x80\xAF"   /* U+202F narrow no-break space: between number and unit */
#define MINUS "\xE2\x88\x92"  /* U+2212 */

/* The table's text: "Plane the runner to {width}, allowed {low#} to {high}." <b>…</b> is bold. NULL: no such key. */
const char *words_find(const char *key);
const char *words_key(size_t index); /* of each row in turn, from 0; NULL after the last */
/* Puts a saying into words. {name} prints the argument with its unit, {name#} without. Unknown keys and missing arguments
   are printed as "?key?": a test looks for them. */
void words_put(struct text *out, const struct saying *, enum units);
void words_put_plain(struct text *out, const struct saying *, enum units); /* the same without bold marks, for results */
/* What to write into the job file for a remedy: the sentence KEY.job with the same arguments, its numbers spelled as a job
   file has them ("21 1/16"). False, and nothing put: there is none. */
bool words_put_job_change(struct text *out, const struct saying *remedy, enum units);
/* A text without arguments. */
const char *words_get(const char *key);

/* A number alone, and with its unit, by its kind (rules: job-file reference in README.md, "How numbers are printed"). */
void words_number(struct text *out, enum say_kind, double number, enum units);
void words_quantity(struct text *out, enum say_kind, double number, enum units);
/* Value and expanded uncertainty to the same place, U rounded up at two significant digits (GUM 7.2.6): "+0.0419", or
   without a sign "0.0419", and "0.0048". `limit` is the tolerance: where rounding would contradict the verdict, one more
   digit. */
void words_value_and_u(struct text *value, struct text *u, double v, bool sign, double expanded, double limit, enum units);
const char *words_unit(enum units); /* "mm", "in" */

#endif
