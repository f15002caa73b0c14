/* Readings of the blade against a mitre slot, by a dial that runs in the slot. */
#include "job/tables.h"

#include <math.h>

static const struct field slot_parallel_fields[] = {
    {"slot", WORD(side_words), .required = true, AT(struct job_test, as.slot_parallel.slot),
     .about = "in which the dial's bar runs"},
    {"front", .kind = VALUE_NUMBERS, .low = -50, .high = 50, .required = true,
     AT(struct job_test, as.slot_parallel.front.v), MORE(struct job_test, as.slot_parallel.front.n),
     .mark_at = offsetof(struct job_test, as.slot_parallel.front.mark),
     .about = "at one tooth turned to the front; grows as the plunger goes in"},
    {"back", .kind = VALUE_NUMBERS, .low = -50, .high = 50, .required = true,
     AT(struct job_test, as.slot_parallel.back.v), MORE(struct job_test, as.slot_parallel.back.n),
     .mark_at = offsetof(struct job_test, as.slot_parallel.back.mark),
     .about = "at the same tooth turned to the back by hand"},
    {"span", LENGTH(50, 600), .required = true, AT(struct job_test, as.slot_parallel.span),
     .about = "between the two places"},
};

static void check_repeats(struct reader *r, const struct readings *a, const char *name)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < a->n; i++) {
        least = fmin(least, a->v[i]);
        most = fmax(most, a->v[i]);
    }
    if (most - least > 0.5)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, a->mark, reader_key(r, name),
                "readings of one place from %s to %s: a decimal comma?", reader_length(r, a->mark, least),
                reader_length(r, a->mark, most));
}

static double mean_of(const struct readings *a)
{
    double sum = 0;
    for (size_t i = 0; i < a->n; i++)
        sum += a->v[i];
    return sum / (double)a->n; /* NAN without readings */
}

static bool shows_a_distance(const struct job_instrument *i)
{
    return i->kind == INSTRUMENT_DIAL || i->kind == INSTRUMENT_CALIPER || i->kind == INSTRUMENT_OTHER;
}

static void check_slot_parallel(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct slot_parallel_readings *s = &t->as.slot_parallel;
    double differ = fabs(mean_of(&s->back) - mean_of(&s->front));
    (void)map;
    check_repeats(r, &s->front, "front");
    check_repeats(r, &s->back, "back");
    if (differ > s->span.v / 10)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, s->back.mark, reader_key(r, "back"),
                "front and back differ by %s, more than a tenth of the span", reader_length(r, s->back.mark, differ));
    if (t->instrument && !shows_a_distance(t->instrument))
        diag_at(r->diags, DIAG_CONTRADICTION, t->instrument_mark, reader_key(r, "instrument"),
                "\"%s\" cannot run along a slot and show a distance", t->instrument->name);
}

const struct table slot_parallel_table = {"slot_parallel", FIELDS(slot_parallel_fields), .extends = &test_table,
                                          .check = check_slot_parallel};
