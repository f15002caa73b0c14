/* The row of two diagonals: readings, sum, which corners to push, what a rule can never tell, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

static const struct column_row reading_columns[] = {
    {"diagonals.what", ALIGN_LEFT, 1},
    {"diagonals.read", ALIGN_RIGHT, 0},
};
static const char *const verdict_keys[] = {
    [FINDING_WITHIN] = "finding.within",
    [FINDING_OUTSIDE] = "finding.outside",
    [FINDING_UNDECIDED] = "finding.undecided",
};

/* ---- record ---- */

static void add_reading(const struct sheet_builder *b, struct block *table, const char *key, const double *v, size_t n)
{
    const char *const cells[] = {print_word(b, key), print_readings(b, v, n)};
    table_add_row(b, table, cells);
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct diagonals_readings *r = &test->job->as.diagonals;
    struct block table = table_begin(b, NULL, reading_columns, COUNT_OF(reading_columns));
    table.as.table.caption = print_saying(b, SAYING("diagonals.readings", SAY_KEY("unit", key_of_unit(b->units))));
    add_reading(b, &table, "diagonals.width", r->width.v, r->width.n);
    add_reading(b, &table, "diagonals.depth", r->depth.v, r->depth.n);
    add_reading(b, &table, "diagonals.d1", &r->d1.v, 1);
    add_reading(b, &table, "diagonals.d2", &r->d2.v, 1);
    block_append(b, list, table);
    general_add_by(b, list, test);
}

/* "(760 + 761) ÷ 2"; "" where it was measured once */
static const char *express_mean(const struct sheet_builder *b, const struct readings *r)
{
    if (r->n < 2)
        return "";
    return pool_printf(b->pool, "(%s + %s) ÷ 2", print_measure(b, r->v[0]), print_measure(b, r->v[1]));
}

/* "1.0000 × 1912.0000 ÷ (4 × 760 × 580) × 300" */
static const char *express_error(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct diagonals_sum *sum = &test->as.diagonals;
    return pool_printf(b->pool, "%s × %s ÷ (4 × %s × %s) × %s", print_places(b, sum->d2 - sum->d1, PLACES_ERROR),
                       print_measure(b, sum->d2 + sum->d1), print_measure(b, sum->width), print_measure(b, sum->depth),
                       print_measure(b, test->over_length));
}

static const char *express_two(const struct sheet_builder *b, const struct diagonals_sum *sum, const char *sign)
{
    return pool_printf(b->pool, "%s %s %s", print_measure(b, sum->d2), sign, print_measure(b, sum->d1));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct diagonals_readings *r = &test->job->as.diagonals;
    const struct diagonals_sum *sum = &test->as.diagonals;
    struct block table = sum_begin(b);
    sum_add_row(b, &table, SAYING_PLAIN("diagonals.mean_width"), express_mean(b, &r->width),
                print_measure(b, sum->width));
    sum_add_row(b, &table, SAYING_PLAIN("diagonals.mean_depth"), express_mean(b, &r->depth),
                print_measure(b, sum->depth));
    sum_add_row(b, &table, SAYING_PLAIN("diagonals.difference"), express_two(b, sum, MINUS),
                print_places(b, sum->d2 - sum->d1, PLACES_ERROR));
    sum_add_row(b, &table, SAYING_PLAIN("diagonals.sum"), express_two(b, sum, "+"),
                print_measure(b, sum->d2 + sum->d1));
    sum_add_error(b, &table, test, express_error(b, test));
    block_append(b, list, table);
    general_add_way(b, list, test,
                    SAYING_PLAIN(test->error > 0   ? "diagonals.sign.larger"
                                 : test->error < 0 ? "diagonals.sign.smaller"
                                                   : "diagonals.sign.equal"));
}

/* Sides that disagree leave no verdict by error and U. */
static void add_verdict(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (!test->as.diagonals.disagree) {
        general_add_verdict(b, list, test);
        return;
    }
    struct printed_result r = print_result(b, test);
    const char *both = pool_printf(b->pool, "%s ± %s", r.value, r.u);
    block_boxed(b, list, STYLE_LEAD,
                print_saying(b, SAYING("diagonals.verdict_void", SAY_KEY("finding", verdict_keys[test->finding]),
                                       SAY_STR("result", print_over(b, test, both)))));
}

static const struct action_row record_rows[] = {
    {"diagonals.record.do", "diagonals.record.do.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, record_rows, COUNT_OF(record_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_limit *limit = &b->job->tolerances.squareness;
    return SAYING(key, SAY_ARG("over", SAY_SIZE, limit->over.v), SAY_ARG("limit", SAY_LIMIT, limit->error.v));
}

static const struct action_row measure_rows[] = {
    {"diagonals.bench.sides", "diagonals.bench.sides.why", NULL, SIGNAL_NONE},
    {"diagonals.bench.d1", "diagonals.bench.d1.why", NULL, SIGNAL_NONE},
};
static const struct action_row push_rows[] = {
    {"diagonals.bench.show", "bench.show.why", NULL, SIGNAL_NONE},
    BENCH_AGAIN_ROW,
};
static const struct blank side_blanks[] = {
    {"diagonals.bench.width", NULL, NULL, 24},
    {NULL, "", NULL, 24},
    {"diagonals.bench.depth", NULL, NULL, 24},
    {NULL, "", NULL, 24},
};
static const struct blank diagonal_blanks[] = {
    {"diagonals.bench.diagonals", NULL, NULL, 24},
    {NULL, "", NULL, 24},
    {"diagonals.bench.minus", NULL, "diagonals.bench.first", 22},
    {"diagonals.bench.plus", NULL, "diagonals.bench.second", 26},
};
static const struct blank sum_blanks[] = {
    {"diagonals.bench.error", NULL, NULL, 0},
    {"diagonals.bench.times", NULL, "diagonals.bench.error_caption", 26},
};
static const struct blank *const blanks[] = {side_blanks, diagonal_blanks, sum_blanks};
static const int blank_counts[] = {COUNT_OF(side_blanks), COUNT_OF(diagonal_blanks), COUNT_OF(sum_blanks)};
static const char *const mistakes[] = {"diagonals.mistake.sides", "diagonals.mistake.hook", "diagonals.mistake.corner",
                                       "diagonals.mistake.sag"};
static const struct bench_page page = {
    .method = METHOD_DIAGONALS,
    .heading_key = "diagonals.bench",
    .idea_key = "diagonals.bench.idea",
    .actions = {"diagonals.bench.do", measure_rows, COUNT_OF(measure_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "diagonals.bench.allowed",
    .of_key = "diagonals.bench.of",
    .signs_key = "diagonals.bench.signs",
    .moving = {"bench.adjust", push_rows, COUNT_OF(push_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_DIAGONALS);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    bench_add_page(b, list, &page);
}

const struct sheet_method sheet_method_diagonals = {
    .name_key = "method.diagonals",
    .subject_key = "diagonals.subject",
    .until_then_key = "diagonals.until_then",
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_verdict = add_verdict,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
