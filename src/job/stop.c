/* Readings of a stop: what it was set to and what came off the saw. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

static const struct field stop_fields[] = {
    {"pairs", .kind = VALUE_PAIRS, .low = 1, .high = 5000, AT(struct job_test, as.stop.pairs),
     MORE(struct job_test, as.stop.n_pairs), .mark_at = offsetof(struct job_test, as.stop.pairs_mark),
     .quantity = QUANTITY_LENGTH, .about = "[set, got]: the stop's own scale, and the length of the piece"},
    {"repeats", .kind = VALUE_NUMBERS, .low = 1, .high = 5000, .quantity = QUANTITY_LENGTH,
     AT(struct job_test, as.stop.repeats.v), MORE(struct job_test, as.stop.repeats.n),
     .mark_at = offsetof(struct job_test, as.stop.repeats.mark), .about = "pieces cut at one setting"},
    {"predict", .kind = VALUE_NUMBERS, .low = 1, .high = 5000, .most = PREDICTIONS_MOST, .quantity = QUANTITY_LENGTH,
     AT(struct job_test, as.stop.predict.v), MORE(struct job_test, as.stop.predict.n),
     .mark_at = offsetof(struct job_test, as.stop.predict.mark),
     .about = "settings whose cut length is to be foretold; left out: the shortest and the longest"},
};

/* A stop that is out by more than this is set wrongly or read wrongly [mm]; judgement. */
#define ERROR_MOST 10

static void check_pairs(struct reader *r, const struct stop_readings *s)
{
    for (size_t i = 0; i < s->n_pairs; i++) {
        double error = fabs(s->pairs[i].second - s->pairs[i].first);
        if (error > ERROR_MOST)
            diag_at(r->diags, DIAG_IMPLAUSIBLE, s->pairs[i].mark,
                    pool_printf(&r->diags->pool, "%s.pairs[%zu]", reader_path(r), i),
                    "set and got differ by %s: a decimal comma, or another piece?",
                    reader_length(r, s->pairs[i].mark, error));
    }
}

static void check_repeats(struct reader *r, const struct readings *a)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < a->n; i++) {
        least = fmin(least, a->v[i]);
        most = fmax(most, a->v[i]);
    }
    if (most - least > ERROR_MOST)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, a->mark, reader_key(r, "repeats"),
                "pieces of one setting from %s to %s: a decimal comma?", reader_length(r, a->mark, least),
                reader_length(r, a->mark, most));
}

static void check_stop(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct stop_readings *s = &t->as.stop;
    (void)map;
    check_pairs(r, s);
    check_repeats(r, &s->repeats);
    tools_check_lengths(r, t, "the length of a piece");
    if (s->n_pairs == 0 && s->repeats.n < 2 && !node_find(map, "pairs"))
        reader_miss(r, t->mark, reader_key(r, "pairs"), "[[set, got], …], or two or more `repeats`");
}

const struct table stop_table = {"stop", FIELDS(stop_fields), .extends = &test_table, .check = check_stop};
