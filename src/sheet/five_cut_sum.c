/* The five-cut sum as it is worked by hand. Places are chosen so that half a unit of the last place of what goes in
   stays below one unit of the last place of what comes out. */
#include "sheet/five_cut.h"
#include "sheet/general.h"

#include <math.h>
#include <string.h>

enum { TERMS_MOST = 6 }; /* longer sums of differences are printed as their total */

/* ---- pieces of expressions ---- */

/* A standard deviation of n differences, rounded to 5e-6 mm, makes 5e-6 × over/(4 L √n) of a result of PLACES_U. */
static int spread_places(const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    return 4 * sum->length * sqrt(sum->n_runs) > 5 * test->over_length ? 5 : 6;
}

/* Is it a whole number of the last of so many places, as printed? */
static bool is_printed_whole(const struct sheet_builder *b, double mm, int places)
{
    double steps = (b->units == UNITS_IN ? unit_inches(mm) * 10 : mm) * pow(10, places);
    return fabs(steps - round(steps)) < 1e-6;
}

/* One place less than the spread's is enough for mean widths that it holds whole: not for a third of three readings. */
int five_cut_width_places(const struct sheet_builder *b, const struct proof_test *test)
{
    int places = spread_places(test) - 1;
    for (int i = 0; i < test->as.five_cut.n_runs; i++) {
        const struct five_cut_run *run = &test->as.five_cut.runs[i];
        if (!is_printed_whole(b, run->fence_end, places) || !is_printed_whole(b, run->far_end, places))
            return places + 1;
    }
    return places;
}

static const char *print_width(const struct sheet_builder *b, const struct proof_test *test, double mm)
{
    return print_places(b, mm, five_cut_width_places(b, test));
}

/* The spread goes into the budget, whose lines have more places than a mean width. */
static const char *print_spread(const struct sheet_builder *b, const struct proof_test *test, double mm)
{
    return print_places(b, mm, spread_places(test));
}

/* A term of a sum: negative ones in brackets. */
static const char *print_term(const struct sheet_builder *b, const struct proof_test *test, double mm)
{
    return sum_term(b, print_width(b, test, mm));
}

/* " ÷ (4 × 388)" */
static const char *print_four_lengths(const struct sheet_builder *b, const struct five_cut_sum *sum)
{
    return pool_printf(b->pool, " ÷ (4 × %s)", print_measure(b, sum->length));
}

static const char *express_over(const struct sheet_builder *b, const struct proof_test *test)
{
    return pool_printf(b->pool, " × %s", print_measure(b, test->over_length));
}

static double total_difference(const struct five_cut_sum *sum)
{
    return sum->mean_difference * sum->n_runs;
}

/* "(0.2133 + 0.2067 + 0.2300) ÷ 3" */
static const char *express_mean(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    if (sum->n_runs > TERMS_MOST)
        return pool_printf(b->pool, "%s ÷ %d", print_width(b, test, total_difference(sum)), sum->n_runs);
    const char *terms = "";
    for (int i = 0; i < sum->n_runs; i++)
        terms = pool_printf(b->pool, "%s%s%s", terms, i ? " + " : "", print_term(b, test, sum->runs[i].difference));
    return pool_printf(b->pool, "(%s) ÷ %d", terms, sum->n_runs);
}

/* "√(((0.2133 − 0.2167)² + …) ÷ 2)"; "" where it would be too long */
static const char *express_spread(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    if (sum->n_runs > TERMS_MOST)
        return "";
    const char *mean = print_term(b, test, sum->mean_difference), *terms = "";
    for (int i = 0; i < sum->n_runs; i++)
        terms = pool_printf(b->pool, "%s%s(%s " MINUS " %s)²", terms, i ? " + " : "",
                            print_width(b, test, sum->runs[i].difference), mean);
    return pool_printf(b->pool, "√((%s) ÷ %d)", terms, sum->n_runs - 1);
}

/* s of the differences [mm]: the slopes' spread times 4 L */
static double spread_of_differences(const struct five_cut_sum *sum)
{
    return sum->run_spread * 4 * sum->length;
}

/* ---- the sum ---- */

static void add_mean_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    const struct five_cut_run *run = &sum->runs[0];
    const char *result = print_width(b, test, sum->mean_difference);
    if (sum->n_runs > 1) {
        sum_add_row(b, table, SAYING_PLAIN("five_cut.mean_difference"), express_mean(b, test), result);
        return;
    }
    const char *expression = pool_printf(b->pool, "%s " MINUS " %s", print_width(b, test, run->fence_end),
                                         print_width(b, test, run->far_end));
    sum_add_row(b, table, SAYING_PLAIN("five_cut.one_difference"), expression, result);
}

static void add_spread_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    if (sum->n_runs > 1)
        sum_add_row(b, table, SAYING_PLAIN("five_cut.spread_of_differences"), express_spread(b, test),
                    print_spread(b, test, spread_of_differences(sum)));
}

/* The error with its sign, and what it makes at the gauge. */
static void add_error_rows(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    const char *four = print_four_lengths(b, sum), *size = print_width(b, test, fabs(sum->mean_difference));
    const char *signed_size = print_width(b, test, sum->sign * sum->mean_difference);
    sum_add_row(b, table, SAYING_PLAIN("five_cut.slope"), pool_printf(b->pool, "%s%s", signed_size, four),
                print_factor(b, test->error, PLACES_SLOPE));
    sum_add_row(b, table, SAYING("five_cut.error_over", SAY_STR("over", print_over_length(b, test))),
                pool_printf(b->pool, "%s%s%s", signed_size, four, express_over(b, test)),
                print_places(b, test->error_over, PLACES_ERROR));
    if (sum->pivot_to_moving > 0)
        sum_add_row(b, table, SAYING_PLAIN("five_cut.at_gauge"),
                    pool_printf(b->pool, "%s%s × %s", size, four, print_measure(b, sum->pivot_to_moving)),
                    print_places(b, fabs(test->error) * sum->pivot_to_moving, PLACES_MOVE));
}

void five_cut_add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct block table = sum_begin(b);
    add_mean_row(b, &table, test);
    add_spread_row(b, &table, test);
    add_error_rows(b, &table, test);
    block_append(b, list, table);
    const char *wider = test->as.five_cut.mean_difference >= 0 ? "five_cut.fence_end" : "five_cut.far_end";
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("five_cut.sign", SAY_KEY("offcut", key_of_side(test->job->as.five_cut.offcut)),
                           SAY_KEY("fence", key_of_fence(b->plan->setting.fence_side)), SAY_KEY("wider", wider),
                           SAY_KEY("which", test->error >= 0 ? "five_cut.too_far" : "five_cut.too_near")));
}

/* ---- the budget: how each line is worked, by the key of its source ---- */

static double argument_of(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].number;
    return NAN;
}

/* "0.0120 ÷ √3 ÷ (4 × 388) × 300" */
static const char *express_runs(const struct sheet_builder *b, const struct proof_test *test,
                                const struct budget_line *line)
{
    (void)line;
    const struct five_cut_sum *sum = &test->as.five_cut;
    return pool_printf(b->pool, "%s ÷ √%d%s%s", print_spread(b, test, spread_of_differences(sum)), sum->n_runs,
                       print_four_lengths(b, sum), express_over(b, test));
}

static const char *express_one(const struct sheet_builder *b, const struct proof_test *test,
                               const struct budget_line *line)
{
    (void)line;
    return pool_printf(b->pool, "%s%s", print_factor(b, test->as.five_cut.spread_used, PLACES_SLOPE + 1),
                       express_over(b, test));
}

/* Two mean widths, each as well known as u_w: "√2 × 0.00527 ÷ (4 × 388) × 300" */
static const char *express_reading(const struct sheet_builder *b, const struct proof_test *test,
                                   const struct budget_line *line)
{
    (void)line;
    const struct five_cut_sum *sum = &test->as.five_cut;
    double u_width = sum->u_reading * 4 * sum->length / sqrt(2);
    return pool_printf(b->pool, "√2 × %s%s%s", print_places(b, u_width, PLACES_U), print_four_lengths(b, sum),
                       express_over(b, test));
}

/* Two strips: their own spread weighed with the earlier one and with reading; their own alone where that is larger. */
static const char *express_two(const struct sheet_builder *b, const struct proof_test *test,
                               const struct budget_line *line)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    double dof = sum->spread_dof, s = sum->run_spread;
    double pooled = (dof * (sum->spread_used * sum->spread_used + sum->u_reading * sum->u_reading) + s * s) / (dof + 1);
    const char *own = pool_printf(b->pool, "%s%s%s", print_spread(b, test, spread_of_differences(sum)),
                                  print_four_lengths(b, sum), express_over(b, test));
    if (s * s >= pooled)
        return pool_printf(b->pool, "%s ÷ √2", own);
    return pool_printf(b->pool, "√((%s × ((%s)² + (%s)²) + (%s)²) ÷ %s ÷ 2)", print_number(b, SAY_NUMBER, dof),
                       express_one(b, test, line), express_reading(b, test, line), own,
                       print_number(b, SAY_NUMBER, dof + 1));
}

static const char *express_reading_of_strips(const struct sheet_builder *b, const struct proof_test *test,
                                             const struct budget_line *line)
{
    return pool_printf(b->pool, "%s ÷ √%d", express_reading(b, test, line), test->as.five_cut.n_runs);
}

/* "0.2 × 0.03 ÷ √3 ÷ (4 × 388) × 300" */
static const char *express_tool(const struct sheet_builder *b, const struct proof_test *test,
                                const struct budget_line *line)
{
    return pool_printf(b->pool, "%s × %s ÷ √3%s%s", print_significant(b, argument_of(&line->source, "share"), 1),
                       print_measure(b, argument_of(&line->source, "limit")), print_four_lengths(b, &test->as.five_cut),
                       express_over(b, test));
}

/* "0.0419 × 0.5 ÷ √3 ÷ 388" */
static const char *express_length(const struct sheet_builder *b, const struct proof_test *test,
                                  const struct budget_line *line)
{
    return pool_printf(b->pool, "%s × %s ÷ √3 ÷ %s", print_places(b, fabs(test->error_over), PLACES_ERROR),
                       print_measure(b, argument_of(&line->source, "within")),
                       print_measure(b, test->as.five_cut.length));
}

static const struct expression_row {
    const char *key;
    const char *(*express)(const struct sheet_builder *, const struct proof_test *, const struct budget_line *);
} expression_rows[] = {
    {"budget.strips", express_runs},
    {"budget.reading_of_strips", express_reading_of_strips},
    {"budget.two_strips", express_two},
    {"budget.one_strip", express_one},
    {"budget.reading", express_reading},
    {"budget.tool", express_tool},
    {"budget.length", express_length},
};

static const char *express_own(const struct sheet_builder *b, const struct proof_test *test,
                                const struct budget_line *line)
{
    for (int i = 0; i < COUNT_OF(expression_rows); i++)
        if (strcmp(expression_rows[i].key, line->source.key) == 0)
            return expression_rows[i].express(b, test, line);
    return "";
}

void five_cut_add_budget(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_budget(b, list, test, express_own);
}
