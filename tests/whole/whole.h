/* whole.h: one job through all stages in this process, as the program does it, everything kept for looking at. */
#ifndef FETTLE_TESTS_WHOLE_H
#define FETTLE_TESTS_WHOLE_H

#include "close.h"

#include "outcome.h"
#include "pages.h"
#include "results.h"
#include "sheet.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

struct whole {
    struct diags diags;
    struct job job;
    struct plan plan;
    struct cutting cutting;
    struct proof proof;
    struct outcome outcome;
    struct sheets sheets;
    struct pages pages;
    struct text json;
    bool read, planned; /* planned: and the proof as well */
};

static inline void print_problems(struct diags *diags)
{
    struct text text = {0};
    for (size_t i = 0; i < diags->count; i++)
        diag_print(diags, &diags->list[i], &text);
    print_error("%s\n", text_string(&text));
    text_free(&text);
}

/* As far as the outcome. Printed in `units`, NULL: the job's own. */
static inline struct whole *whole_calculate_in(const char *yaml, const enum units *units)
{
    struct whole *w = mem_alloc(sizeof *w);
    w->read = job_read_text("job.yaml", yaml, strlen(yaml), &w->diags, &w->job);
    if (units)
        w->job.units = *units;
    w->planned = w->read && plan_build(&w->job, &w->diags, &w->plan) &&
                 proof_build(&w->job, &w->plan.setting, &w->diags, &w->proof);
    if (w->planned) {
        cutting_build(&w->job, &w->plan, &w->cutting);
        outcome_build(&w->plan, &w->cutting, &w->proof, &w->outcome);
    }
    return w;
}

static inline struct whole *whole_calculate(const char *yaml)
{
    return whole_calculate_in(yaml, NULL);
}

static inline void whole_results(struct whole *w)
{
    struct result_job result = {.file = "job.yaml", .job = &w->job, .diags = &w->diags};
    if (w->planned) {
        result.plan = &w->plan;
        result.cutting = &w->cutting;
        result.proof = &w->proof;
        result.outcome = &w->outcome;
    }
    results_json(&result, 1, (struct date){2027, 1, 1}, &w->json);
}

static inline bool whole_lay_out(struct whole *w)
{
    return sheets_build(&w->job, &w->plan, &w->cutting, &w->proof, &w->outcome, w->job.sheets_given ? w->job.sheets : NULL,
                        &w->sheets);
}

/* The sheets and their pages; false, with a problem, where they cannot be made. */
static inline bool whole_typeset(struct whole *w, const struct faces *faces, struct text *problem)
{
    return whole_lay_out(w) && pages_build(&w->sheets, faces, &w->pages, problem);
}

static inline void whole_free(struct whole *w)
{
    text_free(&w->json);
    pages_free(&w->pages);
    sheets_free(&w->sheets);
    outcome_free(&w->outcome);
    proof_free(&w->proof);
    cutting_free(&w->cutting);
    plan_free(&w->plan);
    job_free(&w->job);
    diags_free(&w->diags);
    free(w);
}

#endif
