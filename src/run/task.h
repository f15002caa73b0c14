/* run/task.h: one job on its way through the stages. Private to src/run. */
#ifndef FETTLE_RUN_TASK_H
#define FETTLE_RUN_TASK_H

#include "cutting.h"
#include "outcome.h"
#include "plan.h"
#include "proof.h"
#include "run.h"
#include "type.h"

struct task {
    const char *file;       /* borrowed */
    struct diags diags;
    struct job job;
    struct plan plan;
    struct cutting cutting;
    struct proof proof;
    struct outcome outcome;
    bool calculated;        /* read without error, and all sums done */
    struct text pdf;        /* bytes of the sheets; empty with --dry-run */
    struct text problem;    /* the program's own failure; "" none */
    int pages;
    char *folder, *name;    /* where the sheets go; name relative to folder */
    bool written, not_written;
};
/* All stages from the file's bytes to the PDF's bytes. Touches no file but the job and those it uses. */
void task_run(struct task *, const struct options *, const struct faces *);
void task_free(struct task *);

#endif
