/* Leaves show gaps and no widths; a square or a straight edge shows nothing in mm by itself. */
#include "job/tools.h"

#include <ctype.h>
#include <string.h>

static bool holds_still(const struct job_instrument *i)
{
    return i->kind == INSTRUMENT_SQUARE || i->kind == INSTRUMENT_STRAIGHT_EDGE;
}

static void report_tool(struct reader *r, const struct job_test *t, const char *of_what)
{
    diag_at(r->diags, DIAG_CONTRADICTION, t->instrument_mark, reader_key(r, "instrument"), "\"%s\" cannot measure %s",
            t->instrument->name, of_what);
}

void tools_check_lengths(struct reader *r, const struct job_test *t, const char *of_what)
{
    if (t->instrument && (holds_still(t->instrument) || t->instrument->kind == INSTRUMENT_FEELER))
        report_tool(r, t, of_what);
}

void tools_check_gaps(struct reader *r, const struct job_test *t)
{
    if (t->instrument && holds_still(t->instrument))
        report_tool(r, t, "a gap");
}

int job_tool_class(const char *grade)
{
    const char *end = grade ? grade + strlen(grade) : NULL;
    while (end && end > grade && isspace((unsigned char)end[-1]))
        end--;
    const char *start = end;
    while (start && start > grade && isalnum((unsigned char)start[-1]))
        start--;
    size_t n = start ? (size_t)(end - start) : 0;
    if (n >= 1 && n <= 3 && strspn(start, "Ii") >= n)
        return (int)n;
    if (n == 2 && strncmp(start, "00", n) == 0)
        return -1;
    return n == 1 && isdigit((unsigned char)*start) ? *start - '0' : -2;
}

bool job_has_odd_grade(const struct job_instrument *i)
{
    int class = job_tool_class(i->grade.s);

    if (!i->grade.s || i->error_limit.given)
        return false;
    if (i->kind == INSTRUMENT_RULE || i->kind == INSTRUMENT_TAPE)
        return class < 1 || class > 3;
    return i->kind == INSTRUMENT_SQUARE && (class < -1 || class > 2);
}
