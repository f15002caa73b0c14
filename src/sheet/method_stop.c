/* The stop's row: pairs with all that the line is worked from, the sum, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

enum { TERMS_MOST = 6 };                                           /* longer sums are printed as their total */
enum { PLACES_PRODUCT = 4, PLACES_SQUARE = 2, PLACES_ERRORS = 7 }; /* of areas, so that the scatter can be worked */
enum { MORE_IN_INCHES = 3 }; /* places of areas: a square inch is 645 square millimetres */

static const struct column_row pair_columns[] = {
    {"stop.set", ALIGN_POINT, 0},       {"stop.got", ALIGN_POINT, 0},     {"stop.error", ALIGN_POINT, 0},
    {"stop.from_mean", ALIGN_POINT, 0}, {"stop.product", ALIGN_POINT, 0}, {"stop.square", ALIGN_POINT, 0},
};
enum { PAIR_COLUMNS = COUNT_OF(pair_columns), PAIR_COLUMNS_PLAIN = 3 };

/* ---- record ---- */

/* Products and squares are areas: a length of the job's unit, times another. */
static const char *print_area(const struct sheet_builder *b, double mm2, int places)
{
    if (b->units == UNITS_IN)
        return print_factor(b, mm2 / (MM_PER_INCH * MM_PER_INCH), places + MORE_IN_INCHES);
    return print_factor(b, mm2, places);
}

static void add_pair_row(const struct sheet_builder *b, struct block *table, const struct job_pair *pair,
                         double mean_set)
{
    double error = pair->second - pair->first, off = pair->first - mean_set;
    const char *const cells[] = {
        print_measure(b, pair->first),
        print_as_given(b, pair->second),
        print_as_given(b, error),
        print_places(b, off, 2),
        print_area(b, off * error, PLACES_PRODUCT),
        print_area(b, off * off, PLACES_SQUARE),
    };
    table_add_row(b, table, cells);
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct stop_readings *r = &test->job->as.stop;
    const struct stop_sum *own = &test->as.stop;
    struct block table = table_begin(b, NULL, pair_columns, own->has_slope ? PAIR_COLUMNS : PAIR_COLUMNS_PLAIN);
    table.as.table.caption = print_saying(b, SAYING("stop.readings", SAY_KEY("unit", key_of_unit(b->units))));
    for (size_t i = 0; i < r->n_pairs; i++)
        add_pair_row(b, &table, &r->pairs[i], own->mean_set);
    if (r->n_pairs > 0)
        block_append(b, list, table);
    if (r->repeats.n > 0)
        block_paragraph(b, list, STYLE_BODY,
                        SAYING("stop.repeats", SAY_STR("readings", print_readings(b, r->repeats.v, r->repeats.n))));
    general_add_by(b, list, test);
}

/* "(0.20 + 0.25 + (−0.10)) ÷ 3" */
static const char *express_mean(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct stop_readings *r = &test->job->as.stop;
    double n = (double)r->n_pairs;
    if (r->n_pairs > TERMS_MOST)
        return pool_printf(b->pool, "%s ÷ %.0f", print_as_given(b, test->as.stop.mean_error * n), n);
    const char *terms = "";
    for (size_t i = 0; i < r->n_pairs; i++) {
        double error = r->pairs[i].second - r->pairs[i].first;
        terms = pool_printf(b->pool, "%s%s%s", terms, i ? " + " : "", sum_term(b, print_as_given(b, error)));
    }
    return pool_printf(b->pool, "(%s) ÷ %.0f", terms, n);
}

/* Squares of the errors about their mean less what the line explains: "√((0.0210 − 0.000217 × 12.350) ÷ 3)" */
static const char *express_scatter(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct stop_readings *r = &test->job->as.stop;
    const struct stop_sum *own = &test->as.stop;
    double squares = 0;
    for (size_t i = 0; i < r->n_pairs; i++) {
        double off = r->pairs[i].second - r->pairs[i].first - own->mean_error;
        squares += off * off;
    }
    size_t dof = own->n - (own->has_slope ? 2 : 1);
    if (!own->has_slope)
        return pool_printf(b->pool, "√(%s ÷ %zu)", print_area(b, squares, PLACES_ERRORS), dof);
    return pool_printf(b->pool, "√((%s " MINUS " %s² ÷ %s) ÷ %zu)", print_area(b, squares, PLACES_ERRORS),
                       print_area(b, fabs(own->sum_products), PLACES_PRODUCT),
                       print_area(b, own->sum_squares, PLACES_SQUARE), dof);
}

static void add_slope_rows(const struct sheet_builder *b, struct block *sum, const struct stop_sum *own)
{
    const double ends[] = {own->shortest, own->longest};
    const char *slope = print_factor(b, own->slope, PLACES_SLOPE);
    const char *products = print_area(b, own->sum_products, PLACES_PRODUCT);
    sum_add_row(b, sum, SAYING_PLAIN("stop.slope_row"),
                pool_printf(b->pool, "%s ÷ %s", products, print_area(b, own->sum_squares, PLACES_SQUARE)), slope);
    for (int i = 0; i < COUNT_OF(ends); i++)
        sum_add_row(b, sum, SAYING("stop.left_row", SAY_ARG("set", SAY_SIZE, ends[i])),
                    pool_printf(b->pool, "%s × %s", slope, sum_term(b, print_places(b, ends[i] - own->mean_set, 2))),
                    print_places(b, own->slope * (ends[i] - own->mean_set), PLACES_ERROR));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct stop_sum *own = &test->as.stop;
    struct block sum = sum_begin(b);
    if (own->n > 0)
        sum_add_error(b, &sum, test, express_mean(b, test));
    if (own->has_slope)
        sum_add_row(b, &sum, SAYING_PLAIN("stop.mean_set"), "", print_places(b, own->mean_set, 2));
    if (own->has_slope)
        add_slope_rows(b, &sum, own);
    if (own->n > 1)
        sum_add_row(b, &sum, SAYING_PLAIN(own->has_slope ? "stop.scatter_row" : "stop.scatter_mean_row"),
                    express_scatter(b, test), print_places(b, own->scatter, PLACES_U));
    if (!isnan(own->spread))
        sum_add_row(b, &sum, SAYING_PLAIN("stop.spread_row"), "", print_places(b, own->spread, PLACES_U));
    block_append(b, list, sum);
    if (own->n > 0 && test->error != 0)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN(test->error > 0 ? "stop.sign_long" : "stop.sign_short"));
}

/* ---- bench ---- */

static const double rule_mark[] = {[UNITS_MM] = 100, [UNITS_IN] = MM_PER_INCH};

/* Longest less shortest of five pieces lies between sqrt(10/3) standard deviations (two at one length and three at the other) and
   sqrt(8) (one at either end and three in the middle); geometry. So below the one times the limit the record finds them even, above
   the other it does not. Rounded outward. */
static double range_of_five(const struct sheet_builder *b, bool even)
{
    double place = b->units == UNITS_IN ? 0.0001 * MM_PER_INCH : 0.001, limit = b->job->tolerances.stop_spread.v / place;
    return (even ? floor(limit * sqrt(10.0 / 3)) : ceil(limit * sqrt(8))) * place;
}

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_tolerances *t = &b->job->tolerances;
    return SAYING(key, SAY_ARG("limit", SAY_LIMIT, t->stop_error.v), SAY_ARG("even", SAY_LIMIT, range_of_five(b, true)), SAY_ARG("uneven", SAY_LIMIT, range_of_five(b, false)),
                  SAY_ARG("mark", SAY_SIZE, rule_mark[b->units]));
}

static const struct action_row cut_rows[] = {
    {"stop.bench.square", "stop.bench.square.why", NULL, SIGNAL_NONE},
    {"stop.bench.set", "stop.bench.set.why", NULL, SIGNAL_NONE},
    {"stop.bench.cut", "stop.bench.cut.why", "stop.bench.cut.hands", SIGNAL_WARNING},
    {"stop.bench.measure", "stop.bench.measure.why", NULL, SIGNAL_NONE},
    {"stop.bench.repeat", "stop.bench.repeat.why", NULL, SIGNAL_NONE},
};
static const struct action_row shift_rows[] = {
    {"stop.bench.shift", "stop.bench.shift.why", NULL, SIGNAL_NONE},
};
#define PAIR_BLANKS(key)                                                                                               \
    {key, NULL, "stop.set", 20}, {NULL, NULL, "stop.got", 20},                                                         \
    {                                                                                                                  \
        NULL, "=", "stop.error", 18                                                                                    \
    }
static const struct blank pair_blanks[3][6] = {{PAIR_BLANKS("stop.bench.pair_1"), PAIR_BLANKS("stop.bench.pair_2")},
                                               {PAIR_BLANKS("stop.bench.pair_3"), PAIR_BLANKS("stop.bench.pair_4")},
                                               {PAIR_BLANKS("stop.bench.pair_5"), PAIR_BLANKS("stop.bench.pair_6")}};
static const struct blank sum_blanks[] = {
    {"stop.bench.sum", NULL, NULL, 26},
    {NULL, "÷ 6 =", "stop.bench.mean", 26},
};
static const struct blank repeat_blanks[] = {
    {"stop.bench.repeats", NULL, NULL, 20},
    {NULL, NULL, NULL, 20},
    {NULL, NULL, NULL, 20},
    {NULL, NULL, NULL, 20},
    {NULL, NULL, NULL, 20},
};
static const struct blank range_blanks[] = {
    {"stop.bench.longest", NULL, NULL, 22},
    {"stop.bench.shortest", NULL, NULL, 22},
    {"stop.bench.differ", NULL, NULL, 22},
};
static const struct blank *const blanks[] = {pair_blanks[0], pair_blanks[1], pair_blanks[2], sum_blanks, repeat_blanks,
                                             range_blanks};
static const int blank_counts[] = {6, 6, 6, COUNT_OF(sum_blanks), COUNT_OF(repeat_blanks), COUNT_OF(range_blanks)};
static const char *const mistakes[] = {"stop.mistake.dust", "stop.mistake.push", "stop.mistake.blade",
                                       "stop.mistake.rule", "stop.mistake.zero"};
static const struct bench_page page = {
    .method = METHOD_STOP,
    .heading_key = "stop.bench",
    .idea_key = "stop.bench.idea",
    .actions = {"stop.bench.do", cut_rows, COUNT_OF(cut_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "stop.bench.allowed",
    .signs_key = "stop.bench.signs",
    .moving = {"stop.bench.adjust", shift_rows, COUNT_OF(shift_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_STOP);
}

/* Pieces of one setting alone leave no zones of a mean error. */
static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    const struct proof_test *latest = proof_latest(b->proof, METHOD_STOP);
    struct bench_page own = page;
    own.of_key = latest && latest->as.stop.n > 0 ? "stop.bench.of" : NULL;
    bench_add_page(b, list, &own);
}

const struct sheet_method sheet_method_stop = {
    .name_key = "method.stop",
    .subject_key = "stop.subject",
    .until_then_key = "stop.until_then",
    .needs_no_standard = false,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
