/* results/json.h: what the JSON of a job is put together from: one function a section, and the small ones they share.
   Private to src/results. Numbers are added in mm, rad, kg, N, Celsius, whatever the job's units. */
#ifndef FETTLE_RESULTS_JSON_H
#define FETTLE_RESULTS_JSON_H

#include "results.h"

#include <cjson/cJSON.h>

void json_number(cJSON *object, const char *key, double);       /* not finite: null */
void json_num(cJSON *object, const char *key, const struct num *); /* not given: null */
void json_string(cJSON *object, const char *key, const char *); /* NULL: null */
void json_date(cJSON *object, const char *key, struct date);    /* {0}: null */
void json_numbers(cJSON *object, const char *key, const double *, size_t n);
/* Its sentence in words; null where there is nothing to say. */
void json_sentence(cJSON *object, const char *key, const struct saying *, enum units);
/* Which sentence it is, and with what: {"key": "step.stop.what", "with": {"y": 739.48}}; null where there is nothing to say. */
void json_said(cJSON *object, const char *key, const struct saying *);

/* The sections of a job. */
void json_add_given(cJSON *job, const struct job *);      /* saw, air, instruments, changes as the job states them */
void json_add_plan(cJSON *job, const struct job *, const struct plan *, const struct outcome *); /* its checks */
void json_add_cutting(cJSON *job, const struct job *, const struct cutting *); /* with the stock; NULL: an empty list */
void json_add_proof(cJSON *job, const struct proof *);
void json_add_method(cJSON *test, const struct proof_test *); /* what its method read and worked out */

#endif
