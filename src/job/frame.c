/* Readings of a frame of mitred pieces. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

static const char *const opening_names[] = {[OPEN_INSIDE] = "inside", [OPEN_OUTSIDE] = "outside"};
static const struct words opening_words = WORDS(opening_names);
static const char *const fence_names[] = {
    [FRAME_LEFT_FENCE] = "left", [FRAME_RIGHT_FENCE] = "right", [FRAME_BOTH_FENCES] = "both"};
static const struct words fence_words = WORDS(fence_names);

static const struct field frame_fields[] = {
    {"pieces", NUMBER(4, 24), .whole = true, .required = true, AT(struct job_test, as.frame.pieces),
     .about = "an even number, in pairs of one length"},
    {"leg", LENGTH(5, 500), .required = true, AT(struct job_test, as.frame.leg),
     .about = "length of the mitred face on which the gap is read"},
    {"gap", LENGTH(0, 50), .required = true, AT(struct job_test, as.frame.gap),
     .about = "of the last joint at its open end, the others closed tight"},
    {"gap_other", LENGTH(0, 50), AT(struct job_test, as.frame.gap_other), .about = "at its other end; left out: 0"},
    {"open", WORD(opening_words), AT(struct job_test, as.frame.open),
     .given_at = offsetof(struct job_test, as.frame.open_given),
     .about = "where the last joint stands open; left out: it is closed"},
    {"fence", WORD(fence_words), AT(struct job_test, as.frame.fence),
     .given_at = offsetof(struct job_test, as.frame.fence_given),
     .about = "on which the pieces were cut; left out: both, and the result is the mean of the two"},
    {"pivot_to_moving", LENGTH(50, 3000), AT(struct job_test, as.frame.pivot_to_moving),
     .about = "along that fence; for the move in mm"},
};

static void check_gaps(struct reader *r, struct mark home, const struct frame_readings *f)
{
    if (f->gap.v > 0 && !f->open_given)
        reader_miss(r, home, reader_key(r, "open"), "where the gap opens: inside or outside");
    if (f->gap.v > f->leg.v / 4)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, f->gap.mark, reader_key(r, "gap"),
                "%s is more than a quarter of the leg, %s", reader_num(r, &f->gap), reader_num(r, &f->leg));
    if (f->gap_other.v > f->gap.v)
        diag_at(r->diags, DIAG_CONTRADICTION, f->gap_other.mark, reader_key(r, "gap_other"),
                "%s is wider than the gap at the open end, %s: swap them, and see whether it is open inside or outside",
                reader_num(r, &f->gap_other), reader_num(r, &f->gap));
}

static void check_frame(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct frame_readings *f = &t->as.frame;
    (void)map;
    if (!f->fence_given)
        f->fence = FRAME_BOTH_FENCES;
    if (fmod(f->pieces.v, 2) == 1)
        diag_at(r->diags, DIAG_CONTRADICTION, f->pieces.mark, reader_key(r, "pieces"),
                "%.0f is odd: a frame is made of pairs of one length", f->pieces.v);
    check_gaps(r, t->mark, f);
    tools_check_gaps(r, t);
}

const struct table frame_table = {"frame", FIELDS(frame_fields), .extends = &test_table, .check = check_frame};
