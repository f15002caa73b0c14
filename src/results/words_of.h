/* results/words_of.h: enumerators as results spell them. Private to src/results. */
#ifndef FETTLE_RESULTS_WORDS_OF_H
#define FETTLE_RESULTS_WORDS_OF_H

#include "results.h"

const char *spell_side(enum side);         /* "left" */
const char *spell_toward(enum toward);     /* "operator" */
const char *spell_verdict(enum verdict);   /* "pass" */
const char *spell_finding(enum finding);   /* "within" */
const char *spell_advice(enum advice);     /* "measure-more" */
const char *spell_check_unit(enum check_unit); /* "mm", "rad", "", "N" */
/* "fit", … as of that day; "unreadable" where the job has errors. */
const char *spell_state(const struct result_job *, struct date today);
/* "2026-11-02", or "" for no date. */
const char *spell_date(struct date, char out[11]);

#endif
