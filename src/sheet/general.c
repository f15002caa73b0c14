/* What every method's test says in the same way. Places of printed figures: print.h. */
#include "sheet/general.h"

#include <math.h>
#include <string.h>

static const struct column_row sum_columns[] = {
    {NULL, ALIGN_LEFT, 1},
    {NULL, ALIGN_RIGHT, 2.6},
    {NULL, ALIGN_POINT, 0},
};
static const struct column_row budget_columns[] = {
    {"five_cut.source", ALIGN_LEFT, 1},
    {"five_cut.worked", ALIGN_RIGHT, 1.3},
    {"five_cut.standard", ALIGN_POINT, 0},
    {"five_cut.freedom", ALIGN_RIGHT, 0},
};
static const struct column_row figure_columns[] = {
    {"general.further", ALIGN_LEFT, 1},
    {"general.value", ALIGN_RIGHT, 0},
    {"record.u", ALIGN_RIGHT, 0},
    {"general.allowed", ALIGN_RIGHT, 0},
};
static const char *const line_keys[] = {
    [FINDING_WITHIN] = "general.line.within",
    [FINDING_OUTSIDE] = "general.line.outside",
    [FINDING_UNDECIDED] = "general.line.undecided",
};
static const char *const verdict_keys[] = {
    [FINDING_WITHIN] = "finding.within",
    [FINDING_OUTSIDE] = "finding.outside",
    [FINDING_UNDECIDED] = "finding.undecided",
};

/* ---- pieces ---- */

const char *print_over(const struct sheet_builder *b, const struct proof_test *test, const char *number)
{
    const char *with_unit = pool_printf(b->pool, "%s" THIN "%s", number, words_unit(b->units));
    return proof_is_angle(test) ? pool_printf(b->pool, "%s %s", with_unit, print_over_length(b, test)) : with_unit;
}

static int places_printed(const char *number)
{
    const char *point = strchr(number, '.');
    return point ? (int)strlen(point + 1) : 0;
}

int readings_places(const struct sheet_builder *b, const double *v, size_t n)
{
    int most = 0;
    for (size_t i = 0; i < n; i++) {
        int places = places_printed(print_as_given(b, v[i]));
        most = places > most ? places : most;
    }
    return most - (b->units == UNITS_IN);
}

const char *print_readings_to(const struct sheet_builder *b, const double *v, size_t n, int places)
{
    const char *all = "";
    for (size_t i = 0; i < n; i++)
        all = pool_printf(b->pool, "%s%s%s", all, i ? "  " : "", print_places(b, v[i], places));
    return all;
}

const char *print_readings(const struct sheet_builder *b, const double *v, size_t n)
{
    return print_readings_to(b, v, n, readings_places(b, v, n));
}

void general_add_by(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    if (test->job->by.s)
        block_paragraph(b, list, STYLE_BODY, SAYING("general.by", SAY_STR("by", test->job->by.s)));
}

const char *general_error_line(const struct sheet_builder *b, const struct proof_test *test)
{
    struct printed_result r = print_result(b, test);
    return print_saying(b, SAYING(line_keys[test->finding], SAY_KEY("subject", key_plain(b, sheet_method(test->method)->subject_key)),
                                  SAY_STR("error", print_over(b, test, r.size)), SAY_STR("u", r.u),
                                  SAY_ARG("limit", SAY_LIMIT, test->tolerance * test->over_length),
                                  SAY_STR("date", print_date(b, test->job->date))));
}

/* ---- the sum ---- */

struct block sum_begin(const struct sheet_builder *b)
{
    return table_begin(b, "five_cut.sum", sum_columns, COUNT_OF(sum_columns));
}

void sum_add_row(const struct sheet_builder *b, struct block *sum, struct saying label, const char *expression,
                 const char *result)
{
    const char *equals = *expression ? pool_printf(b->pool, "%s =", expression) : "";
    const char *const cells[] = {print_saying(b, label), equals, print_bold(b, result)};
    table_add_row(b, sum, cells);
}

int sum_places(double factor)
{
    return PLACES_ERROR + (fabs(factor) > 1) + (fabs(factor) > 10);
}

const char *sum_term(const struct sheet_builder *b, const char *digits)
{
    return strncmp(digits, MINUS, strlen(MINUS)) == 0 ? pool_printf(b->pool, "(%s)", digits) : digits;
}

void sum_add_gap(const struct sheet_builder *b, struct block *sum, const struct gap *gap, int places)
{
    bool halfway = !isnan(gap->below) && fabs((gap->below + gap->above) / 2 - gap->value) < 1e-9;
    const char *expression =
        halfway ? pool_printf(b->pool, "(%s + %s) ÷ 2", print_as_given(b, gap->below), print_as_given(b, gap->above))
                : "";
    sum_add_row(b, sum, SAYING_PLAIN(halfway ? "general.gap_halfway" : "general.gap"), expression,
                print_places(b, gap->value, places));
}

void sum_add_error(const struct sheet_builder *b, struct block *sum, const struct proof_test *test,
                   const char *expression)
{
    struct saying label = proof_is_angle(test)
                              ? SAYING("five_cut.error_over", SAY_STR("over", print_over_length(b, test)))
                              : SAYING_PLAIN("record.error");
    sum_add_row(b, sum, label, expression, print_places(b, test->error_over, PLACES_ERROR));
}

/* ---- the budget ---- */

static void add_budget_row(const struct sheet_builder *b, struct block *table, const char *source, const char *worked,
                           const char *u, const char *freedom)
{
    const char *const cells[] = {source, worked, u, freedom};
    table_add_row(b, table, cells);
}

/* What one unit of the reading makes of the result as printed: " × 0.3333"; "" where it is one. */
static const char *express_sensitivity(const struct sheet_builder *b, const struct proof_test *test,
                                       const struct budget_line *line)
{
    double c = line->sensitivity * test->over_length;
    return fabs(c - 1) < 1e-9 ? "" : pool_printf(b->pool, " × %s", print_significant(b, c, 5));
}

static const char *express_shape(const struct sheet_builder *b, const struct proof_test *test,
                                 const struct budget_line *line, express_line *own)
{
    const char *c = express_sensitivity(b, test, line);
    switch (line->shape) {
    case BUDGET_OWN:
        return own ? own(b, test, line) : "";
    case BUDGET_RECTANGULAR:
        return pool_printf(b->pool, "%s ÷ √3%s", print_places(b, line->size, PLACES_U), c);
    case BUDGET_MEAN:
        return pool_printf(b->pool, "%s ÷ √%d%s", print_places(b, line->size, PLACES_U), line->count, c);
    case BUDGET_STANDARD:
        return pool_printf(b->pool, "%s%s", print_places(b, line->size, PLACES_U), c);
    }
    return "";
}

/* "√(0.001341² + 0.000670² + 0.000031²)" */
static const char *express_combined(const struct sheet_builder *b, const struct proof_test *test)
{
    const char *terms = "";
    for (int i = 0; i < test->n_lines; i++)
        terms = pool_printf(b->pool, "%s%s%s²", terms, i ? " + " : "",
                            print_places(b, test->lines[i].u * test->over_length, PLACES_U));
    return pool_printf(b->pool, "√(%s)", terms);
}

static bool is_endless(double dof)
{
    return isinf(dof) || dof > 999;
}

static const char *print_freedom(const struct sheet_builder *b, double dof)
{
    return is_endless(dof) ? "∞" : print_significant(b, dof, dof < 10 ? 2 : 3);
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

/* "0.001499⁴ ÷ (0.001341⁴ ÷ 2.0 + 0.000670⁴ ÷ 8.0)": lines without an end of freedom drop out; "" where all do. */
static const char *express_freedom(const struct sheet_builder *b, const struct proof_test *test)
{
    const char *terms = "";
    for (int i = 0; i < test->n_lines; i++) {
        const struct budget_line *line = &test->lines[i];
        if (is_endless(line->dof) || line->u <= 0)
            continue;
        terms = pool_printf(b->pool, "%s%s%s⁴ ÷ %s", terms, *terms ? " + " : "",
                            print_places(b, line->u * test->over_length, PLACES_U), print_freedom(b, line->dof));
    }
    return *terms ? pool_printf(b->pool, "%s⁴ ÷ (%s)",
                                print_places(b, test->standard_uncertainty * test->over_length, PLACES_U), terms)
                  : "";
}

/* How freedom and k of the last two rows come about. */
static void add_freedom(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const char *worked = express_freedom(b, test);
    struct say_arg k = SAY_STR("k", print_significant(b, test->coverage_factor, 4));
    if (*worked && !is_endless(test->dof))
        block_paragraph(b, list, STYLE_BODY,
                        SAYING("budget.freedom", SAY_STR("worked", worked), SAY_STR("freedom", print_freedom(b, test->dof)),
                               SAY_ARG("whole", SAY_COUNT, floor(test->dof)), k));
    else
        block_paragraph(b, list, STYLE_BODY, SAYING("budget.freedom_endless", k));
}

void general_add_budget(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test,
                        express_line *own)
{
    struct block table = table_begin(b, NULL, budget_columns, COUNT_OF(budget_columns));
    table.as.table.caption =
        print_saying(b, SAYING("five_cut.budget", SAY_KEY("unit", key_of_unit(b->units)),
                               SAY_STR("over", proof_is_angle(test) ? print_over_length(b, test) : "")));
    for (int i = 0; i < test->n_lines; i++) {
        const struct budget_line *line = &test->lines[i];
        add_budget_row(b, &table, print_saying(b, line->source), express_shape(b, test, line, own),
                       print_places(b, line->u * test->over_length, PLACES_U), print_freedom(b, line->dof));
    }
    const char *combined = print_places(b, test->standard_uncertainty * test->over_length, PLACES_U);
    add_budget_row(b, &table, print_word(b, "five_cut.combined"), express_combined(b, test), combined,
                   print_freedom(b, test->dof));
    table.as.table.rows[table.as.table.n_rows - 1].ruled_above = true;
    add_expanded_row(b, &table, test, combined);
    block_append(b, list, table);
    block_keep_with_next(list);
    add_freedom(b, list, test);
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

/* Worked with error and uncertainty as they are printed, with more places only where those would tell another finding. */
const char *general_verdict_working(const struct sheet_builder *b, const struct proof_test *test)
{
    double limit = test->tolerance * test->over_length;
    int places = places_printed(print_result(b, test).u) - (b->units == UNITS_IN);
    struct rounded_result r = round_result(test, step_of_places(b, places));
    while (places < 8 && find_rounded(r, limit, step_of_places(b, places)) != test->finding)
        r = round_result(test, step_of_places(b, ++places));
    bool outside = test->finding == FINDING_OUTSIDE;
    if (test->finding == FINDING_UNDECIDED)
        return print_saying(b, SAYING("five_cut.between", SAY_STR("e", print_places(b, r.e, places)),
                                      SAY_STR("u", print_places(b, r.u, places)),
                                      SAY_STR("sum", print_places(b, r.e + r.u, places)),
                                      SAY_STR("difference", print_places(b, r.e - r.u, places)),
                                      SAY_STR("limit", print_as_given(b, limit))));
    return print_saying(b, SAYING(test->finding == FINDING_WITHIN ? "five_cut.not_above" : "five_cut.above",
                                  SAY_STR("e", print_places(b, r.e, places)), SAY_STR("sign", outside ? MINUS : "+"),
                                  SAY_STR("u", print_places(b, r.u, places)),
                                  SAY_STR("sum", print_places(b, outside ? r.e - r.u : r.e + r.u, places)),
                                  SAY_STR("limit", print_as_given(b, limit))));
}

void general_add_verdict(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct printed_result r = print_result(b, test);
    const char *both = pool_printf(b->pool, "%s ± %s", r.value, r.u);
    block_boxed(b, list, STYLE_LEAD,
                print_saying(b, SAYING("general.verdict", SAY_KEY("finding", verdict_keys[test->finding]),
                                       SAY_STR("result", print_over(b, test, both)),
                                       SAY_STR("k", print_significant(b, test->coverage_factor, 3)),
                                       SAY_ARG("limit", SAY_LIMIT, test->tolerance * test->over_length),
                                       SAY_STR("working", general_verdict_working(b, test)))));
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("verdict.rule", SAY_ARG("tolerance", SAY_LIMIT, test->tolerance * test->over_length)));
    if (test->tolerance_is_default)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("sheet.default_tolerance"));
}

void general_add_way(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test,
                     struct saying way)
{
    block_paragraph(b, list, STYLE_BODY, way);
    if (fabs(test->error) <= test->expanded_uncertainty)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("general.way_unsure"));
}

/* ---- further results ---- */

static void add_figure_row(const struct sheet_builder *b, struct block *table, const struct proof_figure *f)
{
    const char *const cells[] = {
        print_saying(b, f->what),
        print_quantity(b, f->kind, f->value),
        isnan(f->expanded_uncertainty)
            ? ""
            : print_quantity(b, f->kind == SAY_ERROR ? SAY_UNCERTAINTY : f->kind, f->expanded_uncertainty),
        isnan(f->limit) ? "" : print_quantity(b, SAY_LIMIT, f->limit),
    };
    table_add_row(b, table, cells)->bold = !isnan(f->limit) && fabs(f->value) > f->limit;
}

void general_add_figures(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct block table = table_begin(b, NULL, figure_columns, COUNT_OF(figure_columns));
    for (int i = 0; i < test->n_figures; i++)
        add_figure_row(b, &table, &test->figures[i]);
    table.as.table.drop_empty = true;
    if (test->n_figures > 0)
        block_append(b, list, table);
    for (size_t i = 0; i < sizeof test->remarks / sizeof *test->remarks && test->remarks[i].key; i++)
        block_paragraph(b, list, STYLE_BODY, test->remarks[i]);
}

void general_add_steps(const struct sheet_builder *b, struct block_list *list, const struct action_row *rows, int n,
                       const char *move)
{
    struct block steps = steps_begin();
    for (int i = 0; i < n; i++)
        steps_add(b, &steps,
                  (struct step_item){.number = pool_printf(b->pool, "%d", i + 1),
                                     .what = print_saying(b, SAYING(rows[i].what, SAY_STR("move", move))),
                                     .aside = rows[i].aside ? print_word(b, rows[i].aside) : "",
                                     .tick = true,
                                     .signal = rows[i].signal,
                                     .caution = rows[i].caution ? print_word(b, rows[i].caution) : ""});
    block_append(b, list, steps);
}
