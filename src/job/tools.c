/* Leaves show gaps and no widths; a square or a straight edge shows nothing in mm by itself. */
#include "job/tools.h"

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
