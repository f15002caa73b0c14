/* Readings of the test with a square on the sawn edge. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

static const char *const end_names[] = {[EDGE_FENCE] = "fence", [EDGE_FAR] = "far"};
static const struct words end_words = WORDS(end_names);

static const struct field square_gap_fields[] = {
    {"offcut", WORD(side_words), .required = true, AT(struct job_test, as.square_gap.offcut),
     .about = "side of the blade on which the offcut fell: the sawn edge is the other piece's"},
    {"length", LENGTH(20, 3000), .required = true, AT(struct job_test, as.square_gap.length),
     .about = "from where the square touches the sawn edge to the gap"},
    {"gap", LENGTH(0, 50), .required = true, AT(struct job_test, as.square_gap.gap),
     .about = "with leaves: the leaf that goes, 0: none does"},
    {"end", WORD(end_words), AT(struct job_test, as.square_gap.end),
     .given_at = offsetof(struct job_test, as.square_gap.end_given),
     .about = "end of the sawn edge where the light shows; left out: no light"},
    {"grade", TEXT(40), AT(struct job_test, as.square_gap.grade), .about = "of the square: 00, 0, 1, 2 of DIN 875-1"},
    {"pivot_to_moving", LENGTH(100, 3000), AT(struct job_test, as.square_gap.pivot_to_moving),
     .about = "along the fence; only for a jig that the job does not lay out"},
    {"moving_end", WORD(side_words), AT(struct job_test, as.square_gap.moving_end),
     .given_at = offsetof(struct job_test, as.square_gap.moving_end_given),
     .about = "the end of the fence that is moved; with pivot_to_moving"},
};

static void check_pivot(struct reader *r, const struct job_test *t)
{
    const struct square_gap_readings *s = &t->as.square_gap;
    if (s->pivot_to_moving.given != s->moving_end_given && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, t->mark, reader_path(r),
                "`pivot_to_moving` and `moving_end` go together");
    if (s->pivot_to_moving.given && r->job->jig.given && r->job->jig.kind == JIG_CROSSCUT_SLED && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, s->pivot_to_moving.mark, reader_key(r, "pivot_to_moving"),
                "the sled's own fence says where it turns and where it is moved");
}

static void check_square_gap(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct square_gap_readings *s = &t->as.square_gap;
    (void)map;
    tools_check_gaps(r, t);
    if (s->gap.v > s->length.v / 10)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, s->gap.mark, reader_key(r, "gap"),
                "a gap of %s is more than a tenth of the length, %s: a decimal point lost, or a comma?",
                reader_num(r, &s->gap), reader_num(r, &s->length));
    if (s->gap.v > 0 && !s->end_given)
        reader_miss(r, t->mark, reader_key(r, "end"), "the end of the sawn edge where the light shows: fence or far");
    check_pivot(r, t);
}

const struct table square_gap_table = {"square_gap", FIELDS(square_gap_fields), .extends = &test_table,
                                       .check = check_square_gap};
