/* random_job.h: valid jobs at random, as the YAML text that a user could have written: crosscut sleds of every make, records of
   saws and jigs of listed parts with tests of every method, in both units, with everything that is optional there or not. The same seed gives the same jobs on every machine. */
#ifndef FETTLE_TESTS_RANDOM_JOB_H
#define FETTLE_TESTS_RANDOM_JOB_H

#include "base/text.h"

#include <stdbool.h>
#include <stdint.h>

struct random_job {
    uint64_t state;   /* of the generator; any number to begin with; goes on from job to job */
    bool all_given;   /* every size stands in the job: nothing is left to the program */
    bool exact;       /* lengths are whole 64ths and thousandths of an inch, so that both units say the same */
    bool long_texts;  /* number of 24 characters, title of 80, other texts of 200 */
    int n_tests;      /* -1: none to eight */
    enum random_units { RANDOM_ANY_UNITS, RANDOM_MM, RANDOM_IN } units;
    const char *paper; /* NULL: any, or left to the program */
    enum random_kind { RANDOM_SLED, RANDOM_SAW, RANDOM_PARTS } kind; /* a saw on its own, a list of parts */
    bool all_methods;  /* tests of the other methods as well; saws and parts have these alone */
};

/* Writes one job to `yaml` (cleared before). */
void random_job_write(struct random_job *, struct text *yaml);
/* A number of the generator, from low up to high. */
double random_job_number(struct random_job *, double low, double high);

#endif
