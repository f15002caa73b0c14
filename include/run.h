/* run.h: one run of the program: options in, files out, exit status back. Made by src/run. Included by main. */
#ifndef FETTLE_RUN_H
#define FETTLE_RUN_H

#include "job.h"

struct options {
    const char *const *files;
    size_t n_files;
    const char *out;           /* NULL: beside each job */
    bool sheets_given, sheets[SHEET_KINDS];
    bool dry_run;
    const char *results, *register_file; /* NULL: not wanted; "-": standard output */
    int jobs_at_a_time;        /* at least 1 */
    struct date today;         /* resolved: --today, SOURCE_DATE_EPOCH, clock */
    bool dated;
    bool paper_given, units_given;
    enum paper paper;
    enum units units;
    int verbosity;             /* -1 quiet, 0, 1 verbose */
};
/* The contract's exit status: 0, 1, 2 or 3, the highest that any job earned. */
int run(const struct options *);

#endif
