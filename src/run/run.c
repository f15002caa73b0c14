/* A run: every job through its stages, then files and messages in the order of the command line. */
#include "run.h"

#include "base/file.h"
#include "results.h"
#include "run/task.h"
#include "run/workers.h"

#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { EXIT_UNREADABLE = 2, EXIT_NOT_WRITTEN = 3 };

struct run {
    const struct options *options;
    const struct faces *faces;
    struct task *tasks;
    size_t n;
    int status;
};

static void raise_status(struct run *r, int status)
{
    if (status > r->status)
        r->status = status;
}

static void run_one(void *context, size_t i)
{
    struct run *r = context;
    task_run(&r->tasks[i], r->options, r->faces);
}

static bool same_without_case(const char *a, const char *b)
{
    for (; *a && *b; a++, b++)
        if (tolower((unsigned char)*a) != tolower((unsigned char)*b))
            return false;
    return *a == *b;
}

static bool write_the_same_file(const struct task *a, const struct task *b)
{
    if (!a->calculated || !b->calculated) /* a job that could not be read has no folder */
        return false;
    bool one_folder = strcmp(a->folder, b->folder) == 0 || file_is_same(a->folder, b->folder);
    return one_folder && same_without_case(a->name, b->name);
}

/* Two jobs of one name in one folder: neither is written, both are named. */
static void refuse_same_names(struct run *r)
{
    for (size_t i = 0; i < r->n; i++)
        for (size_t k = 0; k < r->n; k++) {
            struct task *a = &r->tasks[i], *b = &r->tasks[k];
            if (i == k || a->not_written || !write_the_same_file(a, b))
                continue;
            a->not_written = true;
            raise_status(r, EXIT_NOT_WRITTEN);
            fprintf(stderr, "%s: not written: %s would write %s/%s too\n", a->file, b->file, a->folder, a->name);
        }
}

static void write_sheets(struct run *r, struct task *t)
{
    if (t->problem.size) {
        fprintf(stderr, "%s: %s\n", t->file, text_string(&t->problem));
        raise_status(r, EXIT_NOT_WRITTEN);
        return;
    }
    struct text path = {0};
    text_printf(&path, "%s/%s", t->folder, t->name);
    t->written = file_make_folder(t->folder) && file_write_whole(text_string(&path), t->pdf.bytes, t->pdf.size);
    if (!t->written) {
        fprintf(stderr, "%s: cannot write: %s\n", text_string(&path), strerror(errno));
        raise_status(r, EXIT_NOT_WRITTEN);
    }
    text_free(&path);
}

static void print_diagnostics(struct run *r, const struct task *t)
{
    struct text message = {0};
    for (size_t i = 0; i < t->diags.count; i++)
        if (diag_level_of(t->diags.list[i].code) == DIAG_ERROR || r->options->verbosity >= 0)
            diag_print(&t->diags, &t->diags.list[i], &message);
    fputs(text_string(&message), stderr);
    text_free(&message);
}

/* For --verbose: what stands behind the state, worst first. */
static void print_findings(const struct result_job *result)
{
    struct text findings = {0};
    results_findings(result, &findings);
    fputs(text_string(&findings), stderr);
    text_free(&findings);
}

static struct result_job describe_result(const struct task *t)
{
    return (struct result_job){
        .file = t->file,
        .job = &t->job,
        .diags = &t->diags,
        .plan = t->calculated ? &t->plan : NULL,
        .cutting = t->calculated ? &t->cutting : NULL,
        .proof = t->calculated ? &t->proof : NULL,
        .outcome = t->calculated ? &t->outcome : NULL,
        .sheet_file = t->written ? t->name : NULL,
        .pages = t->pages,
    };
}

/* The job's line, and what it does to the exit status. */
static void report_job(struct run *r, struct task *t, FILE *lines)
{
    print_diagnostics(r, t);
    if (t->calculated && !r->options->dry_run && !t->not_written)
        write_sheets(r, t);
    raise_status(r, t->calculated ? outcome_exit_status(outcome_state_on(&t->outcome, r->options->today)) : EXIT_UNREADABLE);
    if (r->options->verbosity < 0)
        return;
    struct text line = {0};
    struct result_job result = describe_result(t);
    results_job_line(&result, r->options->today, &line);
    fprintf(lines, "%s\n", text_string(&line));
    text_free(&line);
    if (r->options->verbosity > 0 && t->calculated)
        print_findings(&result);
}

static void write_report(struct run *r, const char *path, const struct text *t)
{
    if (strcmp(path, "-") == 0) {
        fwrite(text_string(t), 1, t->size, stdout); /* finish_standard_output sees whether it got there */
        return;
    }
    if (file_write_whole(path, text_string(t), t->size))
        return;
    fprintf(stderr, "%s: cannot write: %s\n", path, strerror(errno));
    raise_status(r, EXIT_NOT_WRITTEN);
}

static void write_reports(struct run *r)
{
    struct result_job *results = mem_alloc(r->n * sizeof *results);
    struct text json = {0}, csv = {0};
    for (size_t i = 0; i < r->n; i++)
        results[i] = describe_result(&r->tasks[i]);
    if (r->options->results) {
        results_json(results, r->n, r->options->today, &json);
        write_report(r, r->options->results, &json);
    }
    if (r->options->register_file) {
        results_register(results, r->n, r->options->today, &csv);
        write_report(r, r->options->register_file, &csv);
    }
    text_free(&json);
    text_free(&csv);
    free(results);
}

static void finish_standard_output(struct run *r)
{
    bool flushed = fflush(stdout) == 0;
    if (flushed && !ferror(stdout))
        return;
    fprintf(stderr, "standard output: cannot write: %s\n", flushed ? "not all of it arrived" : strerror(errno));
    raise_status(r, EXIT_NOT_WRITTEN);
}

static bool standard_output_is_taken(const struct options *o)
{
    return (o->results && strcmp(o->results, "-") == 0) || (o->register_file && strcmp(o->register_file, "-") == 0);
}

int run(const struct options *o)
{
    struct faces *faces = type_open();
    struct run r = {.options = o, .faces = faces, .n = o->n_files, .tasks = mem_alloc(o->n_files * sizeof *r.tasks)};
    for (size_t i = 0; i < r.n; i++)
        r.tasks[i].file = o->files[i];

    workers_run(r.n, o->jobs_at_a_time, run_one, &r);
    if (!o->dry_run)
        refuse_same_names(&r);
    FILE *lines = standard_output_is_taken(o) ? stderr : stdout;
    for (size_t i = 0; i < r.n; i++)
        report_job(&r, &r.tasks[i], lines);
    write_reports(&r);
    finish_standard_output(&r);

    for (size_t i = 0; i < r.n; i++)
        task_free(&r.tasks[i]);
    free(r.tasks);
    type_close(faces);
    return r.status;
}
