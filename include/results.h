/* results.h: what other programs read: JSON, the register (CSV, RFC 4180), and the line a job on standard output.
   Made by src/results from outcome and words: no fonts needed. May be included by run. */
#ifndef FETTLE_RESULTS_H
#define FETTLE_RESULTS_H

#include "base/text.h"
#include "outcome.h"

/* One job of a run, as the results tell it. All borrowed. */
struct result_job {
    const char *file;
    const struct job *job;         /* never NULL; may be partly filled where errors are set */
    const struct diags *diags;     /* errors: the job could not be read */
    const struct plan *plan;       /* the rest NULL where there are errors */
    const struct cutting *cutting;
    const struct proof *proof;
    const struct outcome *outcome;
    const char *sheet_file;        /* relative to the output folder; NULL: not written */
    int pages;
};
void results_json(const struct result_job *, size_t n, struct date today, struct text *out);
void results_register(const struct result_job *, size_t n, struct date today, struct text *out);
void results_job_line(const struct result_job *, struct date today, struct text *out); /* without a newline */
void results_findings(const struct result_job *, struct text *out); /* a line each: what fails, then what to be careful of */

#endif
