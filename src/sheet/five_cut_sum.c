/* The five-cut sum as it is worked by hand. Places are chosen so that half a unit of the last place of what goes in
   stays below one unit of the last place of what comes out. */
#include "sheet/five_cut.h"

#include <math.h>
#include <string.h>

enum { TERMS_MOST = 6 }; /* longer sums of differences are printed as their total */

static const struct column_row sum_columns[] = {
    {NULL, ALIGN_LEFT, 1},
    {NULL, ALIGN_RIGHT, 2.6},
    {NULL, ALIGN_LEFT, 0},
};
static const struct column_row budget_columns[] = {
    {"five_cut.source", ALIGN_LEFT, 1},
    {"five_cut.worked", ALIGN_RIGHT, 1.3},
    {"five_cut.standard", ALIGN_POINT, 0},
    {"five_cut.freedom", ALIGN_RIGHT, 0},
};

/* ---- pieces of expressions ---- */

/* A standard deviation of n differences, rounded to 5e-5 mm, makes 5e-5 × over/(4 L √n) of a result of PLACES_U. */
int five_cut_width_places(const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    return 4 * sum->length * sqrt(sum->n_runs) > 5 * test->over_length ? 4 : 5;
}

static const char *print_width(const struct sheet_builder *b, const struct proof_test *test, double mm)
{
    return print_places(b, mm, five_cut_width_places(test));
}

/* A term of a sum: negative ones in brackets. */
static const char *print_term(const struct sheet_builder *b, const struct proof_test *test, double mm)
{
    const char *digits = print_width(b, test, mm);
    return strncmp(digits, MINUS, strlen(MINUS)) == 0 ? pool_printf(b->pool, "(%s)", digits) : digits;
}

/* " ÷ (4 × 388)" */
static const char *print_four_lengths(const struct sheet_builder *b, const struct five_cut_sum *sum)
{
    return pool_printf(b->pool, " ÷ (4 × %s)", print_measure(b, sum->length));
}

static const char *print_over(const struct sheet_builder *b, const struct proof_test *test)
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

static void add_sum_row(const struct sheet_builder *b, struct block *table, struct saying label, const char *expression,
                        const char *result)
{
    const char *equals = *expression ? pool_printf(b->pool, "%s =", expression) : "";
    const char *const cells[] = {print_saying(b, label), equals, print_bold(b, result)};
    table_add_row(b, table, cells);
}

static void add_mean_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    const struct five_cut_run *run = &sum->runs[0];
    const char *result = print_width(b, test, sum->mean_difference);
    if (sum->n_runs > 1) {
        add_sum_row(b, table, SAYING_PLAIN("five_cut.mean_difference"), express_mean(b, test), result);
        return;
    }
    const char *expression = pool_printf(b->pool, "%s " MINUS " %s", print_width(b, test, run->fence_end),
                                         print_width(b, test, run->far_end));
    add_sum_row(b, table, SAYING_PLAIN("five_cut.one_difference"), expression, result);
}

static void add_spread_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    if (sum->n_runs > 1)
        add_sum_row(b, table, SAYING_PLAIN("five_cut.spread_of_differences"), express_spread(b, test),
                    print_width(b, test, spread_of_differences(sum)));
}

/* The error with its sign, and what it makes at the gauge. */
static void add_error_rows(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    const char *four = print_four_lengths(b, sum), *size = print_width(b, test, fabs(sum->mean_difference));
    const char *signed_size = print_width(b, test, sum->sign * sum->mean_difference);
    add_sum_row(b, table, SAYING_PLAIN("five_cut.slope"), pool_printf(b->pool, "%s%s", signed_size, four),
                print_grouped(b, test->error, PLACES_SLOPE));
    add_sum_row(b, table, SAYING("five_cut.error_over", SAY_STR("over", print_over_length(b, test))),
                pool_printf(b->pool, "%s%s%s", signed_size, four, print_over(b, test)),
                print_places(b, test->error_over, PLACES_ERROR));
    if (sum->pivot_to_moving > 0)
        add_sum_row(b, table, SAYING_PLAIN("five_cut.at_gauge"),
                    pool_printf(b->pool, "%s%s × %s", size, four, print_measure(b, sum->pivot_to_moving)),
                    print_places(b, fabs(test->error) * sum->pivot_to_moving, PLACES_MOVE));
}

void five_cut_add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct block table = table_begin(b, "five_cut.sum", sum_columns, COUNT_OF(sum_columns));
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
    return pool_printf(b->pool, "%s ÷ √%d%s%s", print_width(b, test, spread_of_differences(sum)), sum->n_runs,
                       print_four_lengths(b, sum), print_over(b, test));
}

static const char *express_one(const struct sheet_builder *b, const struct proof_test *test,
                               const struct budget_line *line)
{
    (void)line;
    return pool_printf(b->pool, "%s%s", print_grouped(b, test->as.five_cut.spread_used, PLACES_SLOPE + 1),
                       print_over(b, test));
}

/* Two mean widths, each as well known as u_w: "√2 × 0.00527 ÷ (4 × 388) × 300" */
static const char *express_reading(const struct sheet_builder *b, const struct proof_test *test,
                                   const struct budget_line *line)
{
    (void)line;
    const struct five_cut_sum *sum = &test->as.five_cut;
    double u_width = sum->u_reading * 4 * sum->length / sqrt(2);
    return pool_printf(b->pool, "√2 × %s%s%s", print_places(b, u_width, PLACES_U), print_four_lengths(b, sum),
                       print_over(b, test));
}

/* Two strips: their own spread weighed with the earlier one and with reading; their own alone where that is larger. */
static const char *express_two(const struct sheet_builder *b, const struct proof_test *test,
                               const struct budget_line *line)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    double dof = sum->spread_dof, s = sum->run_spread;
    double pooled = (dof * (sum->spread_used * sum->spread_used + sum->u_reading * sum->u_reading) + s * s) / (dof + 1);
    const char *own = pool_printf(b->pool, "%s%s%s", print_width(b, test, spread_of_differences(sum)),
                                  print_four_lengths(b, sum), print_over(b, test));
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
                       print_over(b, test));
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

static const char *express_line(const struct sheet_builder *b, const struct proof_test *test,
                                const struct budget_line *line)
{
    for (int i = 0; i < COUNT_OF(expression_rows); i++)
        if (strcmp(expression_rows[i].key, line->source.key) == 0)
            return expression_rows[i].express(b, test, line);
    return "";
}

static void add_budget_row(const struct sheet_builder *b, struct block *table, const char *source, const char *worked,
                           const char *u, const char *freedom)
{
    const char *const cells[] = {source, worked, u, freedom};
    table_add_row(b, table, cells);
}

/* "√(0.00134² + 0.00067² + 0.00003²)" */
static const char *express_combined(const struct sheet_builder *b, const struct proof_test *test)
{
    const char *terms = "";
    for (int i = 0; i < test->n_lines; i++)
        terms = pool_printf(b->pool, "%s%s%s²", terms, i ? " + " : "",
                            print_places(b, test->lines[i].u * test->over_length, PLACES_U));
    return pool_printf(b->pool, "√(%s)", terms);
}

static const char *print_freedom(const struct sheet_builder *b, double dof)
{
    return isinf(dof) || dof > 999 ? "∞" : print_significant(b, dof, dof < 10 ? 2 : 3);
}

/* k at the whole number below the degrees of freedom, times the combined uncertainty, rounded up. */
static void add_expanded_row(const struct sheet_builder *b, struct block *table, const struct proof_test *test,
                             const char *combined)
{
    const char *k = print_significant(b, test->coverage_factor, 4);
    const char *up = print_places_up(b, test->expanded_uncertainty * test->over_length, PLACES_ERROR);
    add_budget_row(b, table, print_bold(b, print_word(b, "five_cut.expanded")),
                   pool_printf(b->pool, "%s × %s", k, combined), print_bold(b, up), "");
}

void five_cut_add_budget(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct block table = table_begin(b, NULL, budget_columns, COUNT_OF(budget_columns));
    table.as.table.caption = print_saying(b, SAYING("five_cut.budget", SAY_KEY("unit", key_of_unit(b->units)),
                                                    SAY_STR("over", print_over_length(b, test))));
    for (int i = 0; i < test->n_lines; i++) {
        const struct budget_line *line = &test->lines[i];
        add_budget_row(b, &table, print_saying(b, line->source), express_line(b, test, line),
                       print_places(b, line->u * test->over_length, PLACES_U), print_freedom(b, line->dof));
    }
    const char *combined = print_places(b, test->standard_uncertainty * test->over_length, PLACES_U);
    add_budget_row(b, &table, print_word(b, "five_cut.combined"), express_combined(b, test), combined,
                   print_freedom(b, test->dof));
    table.as.table.rows[table.as.table.n_rows - 1].ruled_above = true;
    add_expanded_row(b, &table, test, combined);
    block_append(b, list, table);
    block_note(b, list, "five_cut.budget.note");
    block_note(b, list, "verdict.level");
}

/* ---- the verdict ---- */

/* |e| and U rounded to a step [mm] as they are printed: the error to the nearest, U up. */
struct rounded_result {
    double e, u;
};
static struct rounded_result round_result(const struct proof_test *test, double step)
{
    double u = test->expanded_uncertainty * test->over_length;
    return (struct rounded_result){round(fabs(test->error_over) / step) * step, ceil(u / step - 1e-9) * step};
}

static enum finding find_rounded(struct rounded_result r, double limit, double step)
{
    if (r.e + r.u <= limit + step * 1e-6)
        return FINDING_WITHIN;
    return r.e - r.u > limit + step * 1e-6 ? FINDING_OUTSIDE : FINDING_UNDECIDED;
}

/* One unit of the last place [mm]; inches are printed with one place more. */
static double step_of_places(const struct sheet_builder *b, int places)
{
    return b->units == UNITS_IN ? MM_PER_INCH * pow(10, -places - 1) : pow(10, -places);
}

const char *five_cut_verdict_working(const struct sheet_builder *b, const struct proof_test *test)
{
    double limit = test->tolerance * test->over_length;
    int places = PLACES_ERROR;
    struct rounded_result r = round_result(test, step_of_places(b, places));
    while (places < 8 && find_rounded(r, limit, step_of_places(b, places)) != test->finding)
        r = round_result(test, step_of_places(b, ++places));
    bool outside = test->finding == FINDING_OUTSIDE;
    return print_saying(b, SAYING(test->finding == FINDING_WITHIN ? "five_cut.not_above" : "five_cut.above",
                                  SAY_STR("e", print_places(b, r.e, places)), SAY_STR("sign", outside ? MINUS : "+"),
                                  SAY_STR("u", print_places(b, r.u, places)),
                                  SAY_STR("sum", print_places(b, outside ? r.e - r.u : r.e + r.u, places)),
                                  SAY_STR("limit", print_as_given(b, limit))));
}
