/* The register: one row a test, RFC 4180 (quoted where needed, CRLF). Errors in rad or mm as the unit column says. */
#include "results.h"

#include "results/words_of.h"

#include <math.h>
#include <string.h>

static const char head[] = "file,number,title,saw,state,method,date,by,error,unit,expanded_uncertainty,tolerance,verdict,due,overdue,moved,"
                           "fingerprint\r\n";

static void put_field(struct text *out, const char *s)
{
    if (!s)
        s = "";
    if (!strpbrk(s, ",\"\r\n")) {
        text_add(out, s);
        return;
    }
    text_add_char(out, '"');
    for (; *s; s++) {
        if (*s == '"')
            text_add_char(out, '"');
        text_add_char(out, *s);
    }
    text_add_char(out, '"');
}

static void put_next(struct text *out, const char *s)
{
    text_add_char(out, ',');
    put_field(out, s);
}

static void put_number(struct text *out, double v)
{
    text_add_char(out, ',');
    if (isfinite(v))
        text_printf(out, "%.12g", v);
}

static void put_moved(struct text *out, const struct job_moved *m)
{
    text_add_char(out, ',');
    if (m->given)
        text_printf(out, "%s %s %.12g", spell_side(m->end), spell_toward(m->toward), m->distance.v);
}

static void put_job_fields(struct text *out, const struct result_job *r, struct date today)
{
    put_field(out, r->file);
    put_next(out, r->job->number.s);
    put_next(out, r->job->title.s);
    put_next(out, r->job->saw.name.s);
    put_next(out, spell_state(r, today));
}

static void put_test_fields(struct text *out, const struct proof_test *t)
{
    char date[11];
    put_next(out, job_method_name(t->method));
    put_next(out, spell_date(t->job->date, date));
    put_next(out, t->job->by.s);
    put_number(out, t->error);
    put_next(out, t->unit);
    put_number(out, t->expanded_uncertainty);
    put_number(out, t->tolerance);
    put_next(out, spell_finding(t->finding));
}

static void put_row(struct text *out, const struct result_job *r, const struct proof_test *t, struct date today)
{
    char date[11];
    put_job_fields(out, r, today);
    if (t)
        put_test_fields(out, t);
    else
        text_add(out, ",,,,,,,,");
    put_next(out, r->outcome ? spell_date(r->outcome->due, date) : "");
    put_next(out, !r->outcome ? "" : outcome_is_overdue(r->outcome, today) ? "yes" : "no");
    if (t)
        put_moved(out, &t->job->moved);
    else
        text_add_char(out, ',');
    put_next(out, r->job->fingerprint);
    text_add(out, "\r\n");
}

void results_register(const struct result_job *jobs, size_t n, struct date today, struct text *out)
{
    text_add(out, head);
    for (size_t i = 0; i < n; i++) {
        size_t n_tests = jobs[i].outcome ? jobs[i].proof->n_tests : 0;
        for (size_t k = 0; k < n_tests; k++)
            put_row(out, &jobs[i], &jobs[i].proof->tests[k], today);
        if (n_tests == 0)
            put_row(out, &jobs[i], NULL, today);
    }
}
