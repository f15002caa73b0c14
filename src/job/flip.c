/* Readings of the flip test: the blade against the sled's base, or the table. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

static const char *const open_names[] = {[OPEN_TOP] = "top", [OPEN_BOTTOM] = "bottom"};
static const struct words open_words = WORDS(open_names);

static const struct field flip_fields[] = {
    {"height", LENGTH(5, 300), .required = true, AT(struct job_test, as.flip.height),
     .about = "thickness of the board, along which the gap opens"},
    {"gap", LENGTH(0, 50), .required = true, AT(struct job_test, as.flip.gap),
     .about = "between the sawn faces at the open end; with leaves: the leaf that goes, 0: none does"},
    {"open", WORD(open_words), AT(struct job_test, as.flip.open),
     .given_at = offsetof(struct job_test, as.flip.open_given), .about = "where the gap opens; left out: it is closed"},
    {"turned", WORD(side_words), .required = true, AT(struct job_test, as.flip.turned),
     .about = "the half that was rolled over"},
};

static void check_flip(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct flip_readings *f = &t->as.flip;
    (void)map;
    tools_check_gaps(r, t);
    if (f->gap.v > f->height.v)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, f->gap.mark, reader_key(r, "gap"),
                "a gap of %s on a height of %s: a decimal point lost, or a comma?", reader_num(r, &f->gap),
                reader_num(r, &f->height));
    if (f->gap.v > 0 && !f->open_given)
        reader_miss(r, t->mark, reader_key(r, "open"), "where the gap opens: top or bottom");
}

const struct table flip_table = {"flip", FIELDS(flip_fields), .extends = &test_table, .check = check_flip};
