/* The wall sheet: one page above the saw. It answers, from far to near: may I use it? how far off? until when? what
   must I not do? what next? */
#include "sheet/findings.h"
#include "sheet/general.h"
#include "sheet/kinds.h"
#include "sheet/methods.h"

#include <math.h>

enum { SHORT_COLUMNS = 3 };

/* Work shorter than this is clamped, not held: judgement, resting on makers' advice to keep hands 6 in (150 mm) off. */
static const double clamp_below[] = {[UNITS_MM] = 150, [UNITS_IN] = 6 * MM_PER_INCH};

static const enum mark_shape state_marks[] = {
    [STATE_DO_NOT_USE] = MARK_CROSS,
    [STATE_NOT_PROVEN] = MARK_HALF_SQUARE,
    [STATE_NOT_TESTED] = MARK_EMPTY_SQUARE,
    [STATE_FIT] = MARK_FILLED_SQUARE,
};

/* What gives way where the page is too full, least missed first: the reckoner (it stands on the bench sheet too), the
   size of the plan view, the size of what comes next, cautions in full (their titles stay), the plan view. */
static const struct version_row {
    int reckoner_rows;
    double least_drawing; /* [mm]; 0: no plan view */
    enum text_style next;
    int failures, large_cautions;
} version_rows[WALL_VERSIONS] = {
    {7, 85, STYLE_ARM, 3, 3},
    {6, 75, STYLE_ARM, 3, 3},
    {5, 65, STYLE_ARM, 3, 3},
    {4, 58, STYLE_ARM, 3, 3},
    {4, 50, STYLE_ARM, 3, 3},
    {3, 44, STYLE_ARM, 3, 3},
    {0, 60, STYLE_ARM, 3, 3},
    {0, 45, STYLE_ARM, 3, 3},
    {0, 45, STYLE_LEAD, 3, 3},
    {0, 40, STYLE_LEAD, 2, 2},
    {0, 0, STYLE_LEAD, 1, 1},
};

static const struct version_row *version_of(const struct sheet_builder *b)
{
    return &version_rows[b->brevity];
}

static bool is_valid_for_a_time(const struct outcome *o)
{
    return o->state == STATE_FIT && date_is_set(o->due);
}

static void add_banner(const struct sheet_builder *b, struct block_list *list)
{
    const struct outcome *o = b->outcome;
    struct block block = {.kind = BLOCK_BANNER};
    block.as.banner.mark = state_marks[o->state];
    block.as.banner.words = print_word(b, outcome_state_key(o->state));
    block.as.banner.right = "";
    if (is_valid_for_a_time(o))
        block.as.banner.right = print_saying(b, SAYING("wall.valid_to", SAY_STR("date", print_date(b, o->due))));
    block_append(b, list, block);
}

/* What fails, at arm's length, one sentence each, the rest counted; numbers and remedies stand on the build sheet. */
static void add_failures(const struct sheet_builder *b, struct block_list *list)
{
    int n = checks_failed(b), most = version_of(b)->failures;
    for (int i = 0; i < n && i < most; i++)
        block_text(b, list, STYLE_ARM, print_bold(b, print_saying(b, check_failed(b, i)->brief)));
    if (n > most)
        block_paragraph(b, list, STYLE_LEAD, SAYING("wall.more_failures", SAY_ARG("n", SAY_COUNT_WORD, n - most)));
    if (n > 0)
        block_paragraph(b, list, version_of(b)->next, SAYING_PLAIN("wall.next.failed"));
}

static const char *error_line_of(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct sheet_method *method = sheet_method(test->method);
    if (test->stale && test != b->outcome->deciding)
        return print_saying(b, SAYING("general.line.stale", SAY_KEY("subject", method->subject_key),
                                      SAY_STR("date", print_date(b, test->job->date)),
                                      SAY_STR("reason", print_saying(b, test->stale_reason))));
    return method->error_line ? method->error_line(b, test) : general_error_line(b, test);
}

/* Of a sled's tests those of other methods only where they are not within; of a saw on its own, or another jig, all. */
static bool is_worth_a_line(const struct sheet_builder *b, const struct proof_test *test)
{
    bool open = test->stale || test->finding != FINDING_WITHIN;
    return test != b->outcome->deciding && !outcome_is_replaced(b->proof, test) && (open || !b->plan->has_sled);
}

static void add_error_lines(const struct sheet_builder *b, struct block_list *list)
{
    if (b->outcome->deciding) /* under a failure a good test must not read as a pass */
        block_text(b, list, checks_failed(b) > 0 ? STYLE_LEAD : STYLE_ARM, error_line_of(b, b->outcome->deciding));
    else if (b->outcome->state == STATE_FIT && b->proof->n_tests == 0)
        block_paragraph(b, list, STYLE_ARM, SAYING_PLAIN("wall.no_test"));
    for (int m = 0; m < METHODS; m++) {
        const struct proof_test *test = proof_latest(b->proof, (enum method)m);
        if (test && is_worth_a_line(b, test))
            block_text(b, list, STYLE_LEAD, error_line_of(b, test));
    }
}

/* What comes next in a state that is not fit because of the deciding test: the move, or the next strips. */
static const char *next_after_test(const struct sheet_builder *b, const struct proof_test *test)
{
    if (test->stale)
        return print_word(b, "wall.next.stale");
    if (test->finding == FINDING_OUTSIDE && test->has_move && test->move.advice == ADVICE_MOVE)
        return print_saying(b, SAYING(test->strips > 0 ? "wall.next.move" : "wall.next.move_it",
                                      SAY_STR("move", move_sentence(b, &test->move))));
    if (test->finding == FINDING_UNDECIDED && test->further_strips > 0)
        return print_saying(b, SAYING("wall.next.strips", SAY_ARG("n", SAY_COUNT_WORD, test->further_strips),
                                      SAY_KEY("strips", test->further_strips == 1 ? "noun.strip" : "noun.strips")));
    if (test->finding == FINDING_UNDECIDED && test->further_strips < 0 && test->decide.key)
        return print_saying(b, SAYING("wall.next.decide", SAY_STR("decide", print_saying(b, test->decide))));
    return print_word(b, "wall.next.measure");
}

static void add_next(const struct sheet_builder *b, struct block_list *list)
{
    const struct proof_test *test = b->outcome->open;
    switch (b->outcome->state) {
    case STATE_DO_NOT_USE:
    case STATE_NOT_PROVEN:
        if (test)
            block_text(b, list, version_of(b)->next, next_after_test(b, test));
        if (test && test->stale)
            block_paragraph(b, list, STYLE_LEAD, test->stale_reason);
        break;
    case STATE_NOT_TESTED:
        block_paragraph(b, list, STYLE_ARM, SAYING_PLAIN("wall.next.not_tested"));
        break;
    case STATE_FIT:
        if (b->proof->n_tests > 0)
            block_paragraph(b, list, STYLE_LEAD,
                            SAYING(date_is_set(b->outcome->due) ? "wall.next.fit_until" : "wall.next.fit",
                                   SAY_STR("date", print_date(b, b->outcome->due))));
        break;
    }
}

static struct figure_item make_figure(const struct sheet_builder *b, double mm, struct saying label)
{
    return (struct figure_item){.number = print_bold(b, print_number(b, SAY_SIZE, mm)),
                                .unit = words_unit(b->units),
                                .label = print_saying(b, label)};
}

/* A setting read off a rule: in inches to the nearest 64th, without the decimal beside it. */
static double by_the_rule(const struct sheet_builder *b, double mm)
{
    return b->units == UNITS_IN ? round(mm / MM_PER_INCH * 64) / 64 * MM_PER_INCH : mm;
}

/* Settings for use: not for a jig that must not be built or used like this. */
static void add_figures(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *sled = &b->plan->sled;
    double sum = by_the_rule(b, sled->base_thickness + sled->blade_above_work);
    const struct figure_item items[] = {
        make_figure(b, sled->capacity_width, SAYING_PLAIN("wall.widest")),
        make_figure(b, sled->capacity_thickness, SAYING_PLAIN("wall.thickest")),
        make_figure(
            b, sum,
            SAYING("wall.blade_above", SAY_ARG("sum", SAY_SIZE, sum), SAY_ARG("q", SAY_SIZE, sled->blade_above_work))),
        make_figure(b, clamp_below[b->units], SAYING_PLAIN("wall.clamp_below")),
    };
    struct block block = {.kind = BLOCK_FIGURES};
    block.as.figures.items = pool_copy(b->pool, items, sizeof items);
    block.as.figures.n = COUNT_OF(items);
    block_append(b, list, block);
}

static void add_plan_view(const struct sheet_builder *b, struct block_list *list)
{
    struct drawing drawing = {0};
    draw_plan_view(b->plan, b->units, true, b->pool, &drawing);
    block_drawing(b, list, drawing, STYLE_BODY, version_of(b)->least_drawing, 100);
}

static void add_reckoners(const struct sheet_builder *b, struct block_list *list, int rows)
{
    for (int m = 0; m < METHODS; m++)
        if (sheet_method((enum method)m)->add_reckoner)
            sheet_method((enum method)m)->add_reckoner(b, list, rows);
}

/* The plan view with the reckoner beside it; whichever of the two there is. */
static void add_picture_and_reckoner(const struct sheet_builder *b, struct block_list *list)
{
    struct block_list picture = {0}, reckoner = {0};
    if (b->plan->has_sled && version_of(b)->least_drawing > 0)
        add_plan_view(b, &picture);
    int rows = version_of(b)->reckoner_rows;
    if (rows > 0 && b->outcome->state != STATE_DO_NOT_USE)
        add_reckoners(b, &reckoner, rows);
    if (picture.n > 0 && reckoner.n > 0) {
        block_columns(b, list, 2, (const struct block_list[]){picture, reckoner}, (const double[]){6, 6});
        return;
    }
    const struct block_list *only = picture.n > 0 ? &picture : &reckoner;
    for (size_t i = 0; i < only->n; i++)
        block_append(b, list, only->blocks[i]);
}

/* Short titles of the cautions that are not printed large. */
static void add_short_cautions(const struct sheet_builder *b, struct block_list *list, const struct plan_caution *rest,
                               size_t n)
{
    const char **titles = pool_alloc(b->pool, n * sizeof *titles);
    for (size_t i = 0; i < n; i++)
        titles[i] = print_saying(b, rest[i].title);
    block_items(b, list, STYLE_BODY, titles, n, SHORT_COLUMNS);
}

/* For whatever is no sled of the plan's. */
static const struct plan_caution general_cautions[] = {
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.guard"}, .title = {.key = "wall.general.guard"}},
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.wait"}, .title = {.key = "wall.general.wait"}},
    {.signal = SIGNAL_WARNING, .text = {.key = "wall.general.unplug"}, .title = {.key = "wall.general.unplug"}},
};

static void add_cautions(const struct sheet_builder *b, struct block_list *list)
{
    bool general = b->plan->n_cautions == 0;
    const struct plan_caution *cautions = general ? general_cautions : b->plan->cautions;
    size_t n = general ? COUNT_OF(general_cautions) : b->plan->n_cautions;
    size_t most = (size_t)version_of(b)->large_cautions, large = n < most ? n : most;
    struct block block = cautions_begin(STYLE_ARM);
    for (size_t i = 0; i < large; i++)
        cautions_add(b, &block, cautions[i].signal, print_saying(b, cautions[i].text));
    block_append(b, list, block);
    if (n > large)
        add_short_cautions(b, list, cautions + large, n - large);
}

/* In short sentences; where the page is too full only how many. */
static void add_check_cautions(const struct sheet_builder *b, struct block_list *list)
{
    struct text all = {0};
    int n = checks_cautioned(b);
    for (size_t i = 0; i < b->plan->n_checks; i++)
        if (b->plan->checks[i].verdict == VERDICT_CAUTION)
            text_printf(&all, " %s", print_saying(b, b->plan->checks[i].brief));
    if (n > 0 && version_of(b)->next == STYLE_ARM)
        block_paragraph(b, list, STYLE_BODY, SAYING("wall.check_briefs", SAY_STR("briefs", pool_string(b->pool, text_string(&all)))));
    else if (n > 0)
        block_paragraph(b, list, STYLE_BODY, SAYING("wall.check_cautions", SAY_ARG("n", SAY_COUNT_WORD, n)));
    text_free(&all);
}

void wall_fill(const struct sheet_builder *b, struct block_list *list)
{
    add_banner(b, list);
    add_failures(b, list);
    add_error_lines(b, list);
    add_next(b, list);
    if (b->plan->has_sled && checks_failed(b) == 0)
        add_figures(b, list);
    add_picture_and_reckoner(b, list);
    add_cautions(b, list);
    add_check_cautions(b, list);
}
