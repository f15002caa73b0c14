/* The command line: options to struct options, nothing else. Exit statuses are run()'s, and 64 for a wrong command line
   (sysexits.h's EX_USAGE). */
#define _XOPEN_SOURCE 700 /* SIGXFSZ */
#include "run.h"

#include "base/file.h"
#include "base/mem.h"
#include "base/text.h"

#include <ctype.h>
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { EXIT_WRONG_COMMAND_LINE = 64, JOBS_MOST = 64 };

enum option_id {
    OPTION_OUT, OPTION_SHEETS, OPTION_DRY_RUN, OPTION_RESULTS, OPTION_REGISTER, OPTION_JOBS, OPTION_TODAY, OPTION_DATED,
    OPTION_PAPER, OPTION_UNITS, OPTION_STARTER, OPTION_SCHEMA, OPTION_QUIET, OPTION_VERBOSE, OPTION_HELP, OPTION_VERSION
};

/* One row an option; --help is printed from here. argument NULL: it takes none. */
static const struct option_row {
    enum option_id id;
    char letter; /* 0: none */
    const char *name, *argument, *help;
} option_rows[] = {
    {OPTION_OUT, 'o', "out", "DIR", "where sheets go; default beside the job"},
    {OPTION_SHEETS, 's', "sheets", "LIST", "wall,build,record,bench: overrides the job"},
    {OPTION_DRY_RUN, 'n', "dry-run", NULL, "read, check, calculate, report; no sheets"},
    {OPTION_RESULTS, 'r', "results", "FILE", "results as JSON; -: standard output"},
    {OPTION_REGISTER, 'R', "register", "FILE", "CSV, a row a test; -: standard output"},
    {OPTION_JOBS, 'j', "jobs", "N", "N jobs at a time; the output is the same for every N"},
    {OPTION_TODAY, 0, "today", "DATE", "the day on which \"overdue\" is judged"},
    {OPTION_DATED, 0, "dated", NULL, "files are named NUMBER-DATE.pdf"},
    {OPTION_PAPER, 0, "paper", "SIZE", "A4, A3, Letter or Tabloid: overrides the job"},
    {OPTION_UNITS, 0, "units", "mm|in", "overrides the job's printing"},
    {OPTION_STARTER, 0, "starter", "KIND", "print a commented job to begin from"},
    {OPTION_SCHEMA, 0, "schema", NULL, "print the JSON Schema of the job file"},
    {OPTION_QUIET, 'q', "quiet", NULL, "no line a job, no cautions"},
    {OPTION_VERBOSE, 'v', "verbose", NULL, "also what fails and what to be careful of, on standard error"},
    {OPTION_HELP, 'h', "help", NULL, "this help"},
    {OPTION_VERSION, 'V', "version", NULL, "the program's version"},
};
enum { OPTION_ROWS = sizeof option_rows / sizeof *option_rows };

struct command_line {
    struct options options;
    const char **files;
    const char *starter;
    bool schema, help, version, wrong;
};

static void complain(struct command_line *c, const char *what, const char *detail)
{
    fprintf(stderr, "fettle: %s%s%s\n", what, detail ? ": " : "", detail ? detail : "");
    c->wrong = true;
}

static int find_name(const char *s, size_t n, const char *const *names, int count)
{
    for (int i = 0; i < count; i++)
        if (strlen(names[i]) == n && strncmp(names[i], s, n) == 0)
            return i;
    return -1;
}

static void set_sheets(struct command_line *c, const char *list)
{
    static const char *const names[] = {"wall", "build", "record", "bench"};
    c->options.sheets_given = true;
    for (const char *p = list;; p++) {
        size_t n = strcspn(p, ",");
        int kind = find_name(p, n, names, SHEET_KINDS);
        if (kind < 0) {
            complain(c, "--sheets takes a list of wall, build, record, bench", list);
            return;
        }
        c->options.sheets[kind] = true;
        p += n;
        if (!*p)
            return;
    }
}

static void set_paper(struct command_line *c, const char *name)
{
    static const char *const names[] = {[PAPER_A4] = "A4", [PAPER_A3] = "A3", [PAPER_LETTER] = "Letter", [PAPER_TABLOID] = "Tabloid"};
    int found = find_name(name, strlen(name), names, 4);
    if (found < 0)
        complain(c, "--paper takes A4, A3, Letter or Tabloid", name);
    c->options.paper_given = true;
    c->options.paper = found < 0 ? PAPER_A4 : (enum paper)found;
}

static void set_units(struct command_line *c, const char *name)
{
    static const char *const names[] = {[UNITS_MM] = "mm", [UNITS_IN] = "in"};
    int found = find_name(name, strlen(name), names, 2);
    if (found < 0)
        complain(c, "--units takes mm or in", name);
    c->options.units_given = true;
    c->options.units = found < 0 ? UNITS_MM : (enum units)found;
}

static void set_jobs(struct command_line *c, const char *s)
{
    char *end;
    long n = strtol(s, &end, 10);
    if (!isdigit((unsigned char)*s) || *end || n < 1 || n > JOBS_MOST)
        complain(c, "--jobs takes a whole number from 1 to 64", s);
    else
        c->options.jobs_at_a_time = (int)n;
}

static const char *report_file(const char *argument)
{
    return strcmp(argument, "/dev/stdout") == 0 ? "-" : argument;
}

static void apply_option(struct command_line *c, enum option_id id, const char *argument)
{
    struct options *o = &c->options;
    switch (id) {
    case OPTION_OUT:
        if (!*argument)
            complain(c, "--out takes a folder", NULL);
        o->out = argument;
        break;
    case OPTION_SHEETS: set_sheets(c, argument); break;
    case OPTION_DRY_RUN: o->dry_run = true; break;
    case OPTION_RESULTS: o->results = report_file(argument); break;
    case OPTION_REGISTER: o->register_file = report_file(argument); break;
    case OPTION_JOBS: set_jobs(c, argument); break;
    case OPTION_TODAY:
        if (!date_parse(argument, &o->today))
            complain(c, "--today takes a date, YYYY-MM-DD", argument);
        break;
    case OPTION_DATED: o->dated = true; break;
    case OPTION_PAPER: set_paper(c, argument); break;
    case OPTION_UNITS: set_units(c, argument); break;
    case OPTION_STARTER: c->starter = argument; break;
    case OPTION_SCHEMA: c->schema = true; break;
    case OPTION_QUIET: o->verbosity = -1; break;
    case OPTION_VERBOSE: o->verbosity = 1; break;
    case OPTION_HELP: c->help = true; break;
    case OPTION_VERSION: c->version = true; break;
    }
}

static const struct option_row *find_long(const char *name, size_t n)
{
    for (int i = 0; i < OPTION_ROWS; i++)
        if (strlen(option_rows[i].name) == n && strncmp(option_rows[i].name, name, n) == 0)
            return &option_rows[i];
    return NULL;
}

static const struct option_row *find_short(char letter)
{
    for (int i = 0; i < OPTION_ROWS; i++)
        if (option_rows[i].letter == letter)
            return &option_rows[i];
    return NULL;
}

/* --name, --name=VALUE, --name VALUE; gives how many arguments were used. */
static int take_long(struct command_line *c, char **argv)
{
    const char *name = argv[0] + 2;
    size_t n = strcspn(name, "=");
    const struct option_row *row = find_long(name, n);
    if (!row) {
        complain(c, "no such option", argv[0]);
        return 1;
    }
    bool joined = name[n] == '=';
    if (!row->argument && joined)
        complain(c, "this option takes no value", argv[0]);
    else if (row->argument && !joined && !argv[1])
        complain(c, "this option wants a value", argv[0]);
    else
        apply_option(c, row->id, joined ? name + n + 1 : argv[1]);
    return row->argument && !joined && argv[1] ? 2 : 1;
}

/* -n, -nq, -oDIR, -o DIR */
static int take_short(struct command_line *c, char **argv)
{
    for (const char *p = argv[0] + 1; *p; p++) {
        const struct option_row *row = find_short(*p);
        if (!row) {
            complain(c, "no such option", argv[0]);
            return 1;
        }
        if (!row->argument) {
            apply_option(c, row->id, NULL);
            continue;
        }
        if (!p[1] && !argv[1]) {
            complain(c, "this option wants a value", argv[0]);
            return 1;
        }
        apply_option(c, row->id, p[1] ? p + 1 : argv[1]);
        return p[1] ? 1 : 2;
    }
    return 1;
}

static void read_command_line(struct command_line *c, char **argv)
{
    bool options_end = false;
    while (*argv) {
        const char *a = *argv;
        int used = 1;
        if (options_end || a[0] != '-' || !a[1])
            c->files[c->options.n_files++] = a;
        else if (strcmp(a, "--") == 0)
            options_end = true;
        else
            used = a[1] == '-' ? take_long(c, argv) : take_short(c, argv);
        argv += used;
    }
    c->options.files = c->files;
}

/* --today, else SOURCE_DATE_EPOCH (reproducible-builds.org: decimal seconds since 1970, UTC), else the clock. */
static void resolve_today(struct command_line *c)
{
    if (date_is_set(c->options.today))
        return;
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    long long seconds = (long long)time(NULL);
    if (epoch) {
        char *end;
        errno = 0;
        seconds = strtoll(epoch, &end, 10);
        if (!isdigit((unsigned char)*epoch) || *end || errno || seconds > 253402300799) { /* end of the year 9999 */
            complain(c, "SOURCE_DATE_EPOCH is not a count of seconds", epoch);
            return;
        }
    }
    c->options.today = date_from_days((long)(seconds / 86400));
}

static void print_help(void)
{
    puts("Usage: fettle [OPTION]... JOB...\n"
         "Reads jobs (YAML), does the sums, and writes a PDF of sheets for each: wall, build, record, bench.\n");
    for (int i = 0; i < OPTION_ROWS; i++) {
        const struct option_row *r = &option_rows[i];
        char left[40];
        snprintf(left, sizeof left, "%s%c%s --%s %s", r->letter ? "-" : " ", r->letter ? r->letter : ' ', r->letter ? "," : " ", r->name,
                 r->argument ? r->argument : "");
        printf("  %-24s %s\n", left, r->help);
    }
    puts("\nExit status: 0 nothing speaks against use; 1 some jig is do-not-use or not-proven; 2 some job could not be read;\n"
         "3 some output could not be written; 64 the command line is wrong.");
}

/* An answer that did not arrive is told as one that could not be written. */
static int finish_answer(void)
{
    if (fflush(stdout) == 0 && !ferror(stdout))
        return 0;
    fputs("fettle: standard output: cannot write\n", stderr);
    return EXIT_MACHINE_FAILED;
}

/* `fettle -r *.yaml` would write the results over the first job. */
static void refuse_a_job_as_report(struct command_line *c, const char *option, const char *path)
{
    for (size_t i = 0; path && i < c->options.n_files; i++)
        if (file_is_same(path, c->files[i])) {
            fprintf(stderr, "fettle: %s would write over a job: %s\n", option, path);
            c->wrong = true;
            return;
        }
}

static void check_reports(struct command_line *c)
{
    const struct options *o = &c->options;
    refuse_a_job_as_report(c, "--results", o->results);
    refuse_a_job_as_report(c, "--register", o->register_file);
    if (!o->results || !o->register_file)
        return;
    if (strcmp(o->results, o->register_file) == 0)
        complain(c, strcmp(o->results, "-") == 0 ? "--results and --register cannot both be standard output"
                                                  : "--results and --register cannot be one file", NULL);
}

/* What is asked for instead of a run; -1: a run. */
static int answer_question(struct command_line *c)
{
    struct text t = {0};
    int status = -1;
    if (c->help) {
        print_help();
        status = 0;
    } else if (c->version) {
        puts("fettle " FETTLE_VERSION);
        status = 0;
    } else if (c->schema) {
        job_print_schema(&t);
        status = 0;
    } else if (c->starter && job_print_starter(c->starter, c->options.units, &t)) {
        status = 0;
    } else if (c->starter) {
        complain(c, "no starter for this kind of jig; there is crosscut-sled, parts", c->starter);
        status = EXIT_WRONG_COMMAND_LINE;
    }
    fwrite(text_string(&t), 1, t.size, stdout);
    text_free(&t);
    return status == 0 ? finish_answer() : status;
}

/* A reader that has seen enough, or a limit on the size of files, is a write that failed like any other: it is told, what was
   begun is taken away, and the other jobs are written all the same. */
static void take_failed_writes_as_errors(void)
{
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
}

int main(int argc, char **argv)
{
    take_failed_writes_as_errors();
    struct command_line c = {.options.jobs_at_a_time = 1};
    c.files = mem_alloc((size_t)(argc + 1) * sizeof *c.files);
    read_command_line(&c, argv + 1);
    check_reports(&c);
    int status = c.wrong ? EXIT_WRONG_COMMAND_LINE : answer_question(&c);
    if (status < 0) {
        resolve_today(&c);
        if (c.options.n_files == 0)
            complain(&c, "no job given", "see fettle --help");
        status = c.wrong ? EXIT_WRONG_COMMAND_LINE : run(&c.options);
    }
    free(c.files);
    return status;
}
