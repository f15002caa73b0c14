/* cut_job.h: a job from its text as far as its layouts. */
#ifndef FETTLE_TESTS_CUT_JOB_H
#define FETTLE_TESTS_CUT_JOB_H

#include "close.h"
#include "cutting.h"
#include "stock/random_lists.h"

#include <stdlib.h>
#include <string.h>

struct cut_job {
    struct job job;
    struct plan plan;
    struct cutting cutting;
};

static inline struct cut_job *cut_job_make(const char *yaml)
{
    struct cut_job *j = mem_alloc(sizeof *j);
    struct diags diags = {0};
    assert_true(job_read_text("job.yaml", yaml, strlen(yaml), &diags, &j->job) && plan_build(&j->job, &diags, &j->plan));
    cutting_build(&j->job, &j->plan, &j->cutting);
    diags_free(&diags);
    return j;
}

static inline struct cut_job *cut_job_of_list(unsigned seed)
{
    struct text yaml = {0};
    random_list(seed, &yaml);
    struct cut_job *j = cut_job_make(text_string(&yaml));
    text_free(&yaml);
    return j;
}

static inline void cut_job_free(struct cut_job *j)
{
    cutting_free(&j->cutting);
    plan_free(&j->plan);
    job_free(&j->job);
    free(j);
}

#endif
