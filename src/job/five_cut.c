/* Readings of the five-cut test. */
#include "job/tables.h"

#include <math.h>

static const struct field strip_fields[] = {
    {"fence_end", .kind = VALUE_NUMBERS, .low = 1, .high = 300, .required = true,
     AT(struct five_cut_strip, fence_end.v), MORE(struct five_cut_strip, fence_end.n),
     .mark_at = offsetof(struct five_cut_strip, fence_end.mark),
     .about = "strip width at the end that was against the fence in the fifth cut"},
    {"far_end", .kind = VALUE_NUMBERS, .low = 1, .high = 300, .required = true, AT(struct five_cut_strip, far_end.v),
     MORE(struct five_cut_strip, far_end.n), .mark_at = offsetof(struct five_cut_strip, far_end.mark),
     .about = "strip width at the end away from the fence"},
};

static void check_spread_of_readings(struct reader *r, const struct readings *a, const char *name)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < a->n; i++) {
        least = fmin(least, a->v[i]);
        most = fmax(most, a->v[i]);
    }
    if (most - least > 0.5)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, a->mark, reader_key(r, name),
                "readings of one width from %s to %s: a decimal comma?", reader_length(r, a->mark, least),
                reader_length(r, a->mark, most));
}

static void check_strip(struct reader *r, const struct node *map, void *out)
{
    struct five_cut_strip *s = out;
    (void)map;
    check_spread_of_readings(r, &s->fence_end, "fence_end");
    check_spread_of_readings(r, &s->far_end, "far_end");
}

static const struct table strip_table = {"strip", FIELDS(strip_fields), .check = check_strip,
                                         .about =
                                             "one complete five-cut run; a list holds repeated readings of one width"};

static const struct field spread_fields[] = {
    {"error", LENGTH(0.0001, 10), .required = true, AT(struct job_test, as.five_cut.spread_error),
     .about = "standard deviation from run to run"},
    {"over", LENGTH(10, 3000), .required = true, AT(struct job_test, as.five_cut.spread_over),
     .about = "the length that it holds for"},
    {"dof", NUMBER(1, 1000), .required = true, AT(struct job_test, as.five_cut.spread_dof),
     .about = "degrees of freedom behind it"},
};
static const struct table spread_table = {"spread", FIELDS(spread_fields),
                                          .about = "known spread of the error from run to run"};

static const struct field five_cut_fields[] = {
    {"offcut", WORD(side_words), .required = true, AT(struct job_test, as.five_cut.offcut),
     .about = "side of the blade on which the strip falls, the same in all five cuts"},
    {"length", LENGTH(20, 3000), .required = true, AT(struct job_test, as.five_cut.length),
     .about = "between the two places where the strip was measured"},
    {"strips", .kind = VALUE_LIST, .table = &strip_table, .required = true, .low = 1, .most = LIST_MOST,
     .size = sizeof(struct five_cut_strip), AT(struct job_test, as.five_cut.strips),
     MORE(struct job_test, as.five_cut.n_strips)},
    {"spread", MAP(spread_table)},
    {"pivot_to_moving", LENGTH(100, 3000), AT(struct job_test, as.five_cut.pivot_to_moving),
     .about = "along the fence; only for a jig that the job does not lay out"},
    {"moving_end", WORD(side_words), AT(struct job_test, as.five_cut.moving_end),
     .given_at = offsetof(struct job_test, as.five_cut.moving_end_given),
     .about = "the end of the fence that is moved; with pivot_to_moving"},
};

static double mean_of(const struct readings *a)
{
    double sum = 0;
    for (size_t i = 0; i < a->n; i++)
        sum += a->v[i];
    return sum / (double)a->n; /* NAN without readings */
}

static void check_ends(struct reader *r, const struct five_cut_readings *f)
{
    for (size_t i = 0; i < f->n_strips; i++) {
        double differ = fabs(mean_of(&f->strips[i].fence_end) - mean_of(&f->strips[i].far_end));
        struct mark m = f->strips[i].far_end.mark;
        if (differ > f->length.v / 10)
            diag_at(r->diags, DIAG_IMPLAUSIBLE, m, pool_printf(&r->diags->pool, "%s.strips[%zu]", reader_path(r), i),
                    "the ends differ by %s, more than a tenth of the length between them", reader_length(r, m, differ));
    }
}

static bool measures_widths(const struct job_instrument *i)
{
    return i->kind != INSTRUMENT_FEELER && i->kind != INSTRUMENT_SQUARE && i->kind != INSTRUMENT_STRAIGHT_EDGE;
}

static void check_five_cut(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct five_cut_readings *f = &t->as.five_cut;
    (void)map;
    check_ends(r, f);
    if (t->instrument && !measures_widths(t->instrument))
        diag_at(r->diags, DIAG_CONTRADICTION, t->instrument_mark, reader_key(r, "instrument"),
                "\"%s\" cannot measure the width of a strip", t->instrument->name);
    if (f->pivot_to_moving.given != f->moving_end_given && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, t->mark, reader_path(r),
                "`pivot_to_moving` and `moving_end` go together");
    if (f->pivot_to_moving.given && r->job->jig.given && r->job->jig.kind == JIG_CROSSCUT_SLED && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, f->pivot_to_moving.mark, reader_key(r, "pivot_to_moving"),
                "the sled's own fence says where it turns and where it is moved");
}

const struct table five_cut_table = {"five_cut", FIELDS(five_cut_fields), .extends = &test_table,
                                     .check = check_five_cut};
