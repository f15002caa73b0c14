/* Methods of test: one row each; and what every test and change may hold. A word of the format without a table is a
   method that this version cannot evaluate. */
#include "job/tables.h"

static const struct field moved_fields[] = {
    GIVEN(struct job_moved, given),
    PLACE(struct job_moved, mark),
    {"end", WORD(side_words), .required = true, AT(struct job_moved, end),
     .about = "the end of the fence that was moved"},
    {"toward", WORD(toward_words), .required = true, AT(struct job_moved, toward)},
    {"distance", LENGTH(0, 100), .required = true, AT(struct job_moved, distance)},
};
static const struct table moved_table = {"moved", FIELDS(moved_fields),
                                         .about = "what was done to the fence after this test"};

static const struct field test_fields[] = {
    PLACE(struct job_test, mark),
    {"method", .kind = VALUE_ELSEWHERE, .required = true},
    {"date", .kind = VALUE_DATE, .required = true, AT(struct job_test, date),
     .mark_at = offsetof(struct job_test, date_mark)},
    {"by", TEXT(80), AT(struct job_test, by)},
    {"instrument", .kind = VALUE_INSTRUMENT, AT(struct job_test, instrument),
     .mark_at = offsetof(struct job_test, instrument_mark), .about = "one of `instruments`"},
    {"air", MAP(climate_table), AT(struct job_test, air)},
    {"note", TEXT(TEXT_LIMIT), AT(struct job_test, note)},
    {"moved", MAP(moved_table), AT(struct job_test, moved)},
    {"practice", .kind = VALUE_FLAG, AT(struct job_test, practice), .about = "shown in the history, never deciding"},
};
const struct table test_table = {"test", FIELDS(test_fields)};

static const struct variant test_list[] = {
#define METHOD(id, prefix, name) [METHOD_##id] = {name, &prefix##_table, NULL},
#include "job/methods.inc"
#undef METHOD
};
const struct variants test_variants = {"method", "which method of test it is", offsetof(struct job_test, method),
                                       test_list, sizeof test_list / sizeof *test_list};

const char *job_method_name(enum method method)
{
    return test_list[method].name;
}

/* ---- Changes ---- */

static const struct field change_fields[] = {
    PLACE(struct job_change, mark),
    {"date", .kind = VALUE_DATE, .required = true, AT(struct job_change, date),
     .mark_at = offsetof(struct job_change, date_mark)},
    {"what", TEXT(TEXT_LIMIT), .required = true, AT(struct job_change, what)},
    {"ends", .kind = VALUE_ENDS, AT(struct job_change, ends),
     .about = "methods whose proofs it makes stale; left out: all"},
};
const struct table change_table = {"change", FIELDS(change_fields), .about = "done to saw or jig"};

/* ---- Dates against the job's ---- */

static void check_date(struct reader *r, struct date d, struct mark m, const char *path)
{
    char day[11], issue[11];
    if (!r->job->date_given || !date_is_set(d) || date_compare(d, r->job->date) <= 0)
        return;
    date_print(d, day);
    date_print(r->job->date, issue);
    diag_at(r->diags, DIAG_LATER_THAN_JOB, m, path, "%s is after job.date, %s: raise job.date or leave it out", day,
            issue);
}

/* Dates stand in the order of the file here: sorting comes after. */
void tests_check(struct reader *r)
{
    const struct job *job = r->job;
    for (size_t i = 0; i < job->n_tests; i++)
        check_date(r, job->tests[i].date, job->tests[i].date_mark, pool_printf(&r->diags->pool, "tests[%zu].date", i));
    for (size_t i = 0; i < job->n_changes; i++)
        check_date(r, job->changes[i].date, job->changes[i].date_mark,
                   pool_printf(&r->diags->pool, "changes[%zu].date", i));
}
