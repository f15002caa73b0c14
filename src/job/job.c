/* The whole job: the root table, then what holds between sections, then what is resolved from what was read. */
#include "job.h"

#include "job/tables.h"
#include "job/use.h"

#include <stdlib.h>
#include <string.h>

/* ---- Heading ---- */

static const struct field heading_fields[] = {
    {"number", TEXT(24), .required = true, AT(struct job, number),
     .about = "1 to 24 letters, digits, . _ -; names the output files"},
    {"title", TEXT(80), .required = true, AT(struct job, title)},
    {"shop", TEXT(80), AT(struct job, shop)},
    {"made_by", TEXT(80), AT(struct job, made_by)},
    {"date", .kind = VALUE_DATE, AT(struct job, date), .given_at = offsetof(struct job, date_given),
     .about = "of issue; left out: the newest date in the file"},
};

static bool is_number(const char *s)
{
    static const char accepted[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-";
    return *s && !strchr("._-", *s) && strspn(s, accepted) == strlen(s);
}

static void check_heading(struct reader *r, const struct node *map, void *out)
{
    struct job *job = out;
    (void)map;
    if (job->number.s && !is_number(job->number.s)) {
        diag_at(r->diags, DIAG_BAD_WORD, job->number.mark, "job.number",
                "found \"%s\"; accepted: letters A to Z, digits, . _ -, the first a letter or digit", job->number.s);
        job->number.s = NULL;
    }
    job->date_given = job->date_given && date_is_set(job->date);
}

static const struct table heading_table = {"heading", FIELDS(heading_fields), .check = check_heading};

/* ---- Root ---- */

static const char *const unit_names[] = {[UNITS_MM] = "mm", [UNITS_IN] = "in"};
static const struct words unit_words = WORDS(unit_names);
static const char *const paper_names[] = {
    [PAPER_A4] = "A4", [PAPER_A3] = "A3", [PAPER_LETTER] = "Letter", [PAPER_TABLOID] = "Tabloid"};
static const struct words paper_words = WORDS(paper_names);
static const char *const sheet_names[] = {
    [SHEET_WALL] = "wall", [SHEET_BUILD] = "build", [SHEET_RECORD] = "record", [SHEET_BENCH] = "bench"};
static const struct words sheet_words = WORDS(sheet_names);

/* Stock and instruments stand before what names them: fields are read in the order of the table. */
static const struct field root_fields[] = {
    {"fettle", .kind = VALUE_ELSEWHERE, .required = true, .about = "version of this format: 1"},
    {"use", .kind = VALUE_ELSEWHERE, .about = "files that bring in sections which many jobs share"},
    {"job", MAP(heading_table), .required = true},
    {"units", WORD(unit_words), .required = true, AT(struct job, units),
     .about = "how bare numbers are read and how sheets print"},
    {"paper", WORD(paper_words), AT(struct job, paper), .given_at = offsetof(struct job, paper_given)},
    {"sheets", .kind = VALUE_WORDS, .words = &sheet_words, .low = 1, AT(struct job, sheets),
     .given_at = offsetof(struct job, sheets_given)},
    {"saw", MAP(saw_table), AT(struct job, saw)},
    {"air", MAP(air_table), AT(struct job, air)},
    {"stock", .kind = VALUE_NAMED, .table = &stock_table, .size = sizeof(struct job_stock), AT(struct job, stock),
     MORE(struct job, n_stock)},
    {"screws", .kind = VALUE_LIST, .table = &screw_table, .size = sizeof(struct job_screw), AT(struct job, screws),
     MORE(struct job, n_screws)},
    {"cutting", MAP(cutting_table)},
    {"instruments", .kind = VALUE_NAMED, .table = &instrument_table, .size = sizeof(struct job_instrument),
     AT(struct job, instruments), MORE(struct job, n_instruments)},
    {"tolerances", MAP(tolerances_table), AT(struct job, tolerances)},
    {"retest", MAP(retest_table)},
    {"jig", .kind = VALUE_VARIANT, .variants = &jig_variants, AT(struct job, jig)},
    {"tests", .kind = VALUE_LIST, .variants = &test_variants, .most = TESTS_MOST, .size = sizeof(struct job_test),
     AT(struct job, tests), MORE(struct job, n_tests)},
    {"changes", .kind = VALUE_LIST, .table = &change_table, .most = TESTS_MOST, .size = sizeof(struct job_change),
     AT(struct job, changes), MORE(struct job, n_changes)},
};
const struct table root_table = {"job", FIELDS(root_fields)};

/* ---- Between sections ---- */

static void check_whole(struct reader *r, const struct node *root)
{
    struct job *job = r->job;
    const struct variant *kind = &jig_variants.list[job->jig.kind];
    tests_check(r);
    if (job->jig.given && kind->check)
        kind->check(r);
    else if (!node_find(root, "jig") && !(job->saw.given && node_find(root, "tests")))
        reader_miss(r, root->mark, "jig", "`jig: {kind: …}`; or `saw` and `tests` for the record of a saw");
}

/* ---- What is resolved ---- */

static int compare_tests(const void *a, const void *b)
{
    const struct job_test *x = a, *y = b;
    int by_date = date_is_set(x->date) && date_is_set(y->date) ? date_compare(x->date, y->date) : 0;
    if (by_date)
        return by_date;
    return x->mark.line != y->mark.line ? x->mark.line - y->mark.line : x->mark.column - y->mark.column;
}

static void resolve_defaults(struct reader *r)
{
    struct job *job = r->job;
    if (!job->date_given)
        job->date = r->newest;
    if (!job->paper_given)
        job->paper = job->units == UNITS_IN ? PAPER_LETTER : PAPER_A4;
    job->file_units = job->units;
    if (!job->trim.given)
        job->trim.v = 0;
    if (job->n_tests)
        qsort(job->tests, job->n_tests, sizeof *job->tests, compare_tests);
}

/* Every value "not given", so that what is left after an error can be looked at all the same. */
static void read_job(struct reader *r, const char *name, const char *text, size_t size)
{
    const struct node *root = use_read(r, name, text, size);
    struct mark home = {.file = r->first_file};
    read_table(r, &root_table, root, root ? root->mark : home, r->job);
    if (root)
        check_whole(r, root);
    resolve_defaults(r);
}

bool job_read_text(const char *name, const char *text, size_t size, struct diags *diags, struct job *out)
{
    size_t errors = diags_count_errors(diags);
    *out = (struct job){0};
    out->file = pool_string(&out->pool, name);
    struct reader r = {.job = out, .diags = diags};
    read_job(&r, name, text, size);
    text_free(&r.path);
    diags_sort(diags);
    return diags_count_errors(diags) == errors;
}

bool job_read(const char *path, struct diags *diags, struct job *out)
{
    struct text text = {0};
    struct mark whole_file = {.file = (int)diags->n_sources};
    bool ok = use_read_bytes(diags, path, whole_file, NULL, &text);
    if (ok) {
        ok = job_read_text(path, text_string(&text), text.size, diags, out);
    } else {
        diags_add_source(diags, path, "", 0); /* so that the message begins with its name */
        *out = (struct job){0};
        out->file = pool_string(&out->pool, path);
    }
    text_free(&text);
    return ok;
}

void job_free(struct job *job)
{
    if (job)
        pool_free(&job->pool);
}
