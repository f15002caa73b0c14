/* The flip test's row: readings, sum, how the blade is tilted, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include "proof/flip_sums.h"

#include <math.h>

static const char *const open_keys[] = {[OPEN_TOP] = "flip.open.top", [OPEN_BOTTOM] = "flip.open.bottom"};

/* ---- record ---- */

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct flip_readings *r = &test->job->as.flip;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING(r->open_given ? "flip.readings" : "flip.readings_closed",
                           SAY_ARG("height", SAY_SIZE, r->height.v), SAY_KEY("turned", key_of_side(r->turned)),
                           SAY_KEY("open", open_keys[r->open]), SAY_ARG("gap", SAY_LIMIT, r->gap.v)));
    general_add_by(b, list, test);
}

static int gap_places(const struct proof_test *test)
{
    return sum_places(test->over_length / (2 * test->as.flip.height));
}

/* "0.3250 ÷ (2 × 75) × 50" */
static const char *express_error(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct flip_sum *sum = &test->as.flip;
    return pool_printf(b->pool, "%s ÷ (2 × %s) × %s", print_places(b, sum->sign * sum->gap.value, gap_places(test)),
                       print_measure(b, sum->height), print_measure(b, test->over_length));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct flip_readings *r = &test->job->as.flip;
    struct block sum = sum_begin(b);
    sum_add_gap(b, &sum, &test->as.flip.gap, gap_places(test));
    sum_add_error(b, &sum, test, express_error(b, test));
    block_append(b, list, sum);
    if (r->open_given)
        general_add_way(b, list, test,
                        SAYING("flip.sign", SAY_KEY("turned", key_of_side(r->turned)),
                               SAY_KEY("open", open_keys[r->open]),
                               SAY_KEY("side", key_of_side(test->as.flip.sign > 0 ? SIDE_RIGHT : SIDE_LEFT))));
    else
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("flip.side.closed"));
}

static const struct action_row tilt_rows[] = {
    {"flip.record.unplug", "flip.record.unplug.why", NULL, SIGNAL_NONE},
    {"flip.record.tilt", "flip.record.tilt.why", NULL, SIGNAL_NONE},
    {"flip.record.stop", "flip.record.stop.why", NULL, SIGNAL_NONE},
    {"flip.record.again", "flip.record.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, tilt_rows, COUNT_OF(tilt_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

/* As high as is worth while, or as the sled can saw. */
static double board_height(const struct sheet_builder *b)
{
    double most = b->plan->has_sled ? b->plan->sled.capacity_thickness : INFINITY;
    return fmin(flip_usual_height(b->units), most);
}

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_limit *limit = &b->job->tolerances.blade_tilt;
    return SAYING(key, SAY_ARG("over", SAY_SIZE, limit->over.v), SAY_ARG("limit", SAY_LIMIT, limit->error.v),
                  SAY_ARG("degrees", SAY_DEGREES, limit->error.v / limit->over.v),
                  SAY_ARG("high", SAY_SIZE, board_height(b)));
}

static const struct action_row saw_rows[] = {
    {"flip.bench.ready", "flip.bench.ready.why", NULL, SIGNAL_NONE},
    {"flip.bench.cut", "flip.bench.cut.why", "flip.bench.cut.hands", SIGNAL_WARNING},
    {"flip.bench.turn", "flip.bench.turn.why", NULL, SIGNAL_NONE},
    {"flip.bench.read", "flip.bench.read.why", NULL, SIGNAL_NONE},
};
static const struct action_row adjust_rows[] = {
    {"flip.bench.unplug", "flip.bench.unplug.why", "flip.bench.unplug.caution", SIGNAL_WARNING},
    {"flip.bench.lock", "flip.bench.lock.why", NULL, SIGNAL_NONE},
};
static const struct blank reading_blanks[] = {
    {"flip.bench.turned", NULL, NULL, 20},
    {"flip.bench.open", NULL, NULL, 24},
    {"flip.bench.height", NULL, NULL, 20},
};
static const struct blank gap_blanks[] = {{"flip.bench.gap", NULL, NULL, GAP_BOX(22)}};
static const struct blank sum_blanks[] = {
    {NULL, NULL, "flip.bench.gap", 22},
    {NULL, "÷ 2 ÷", "flip.bench.height", 22},
    {"flip.bench.times", NULL, "flip.bench.lean_caption", 26},
};
static const struct blank *const blanks[] = {reading_blanks, gap_blanks, sum_blanks};
static const int blank_counts[] = {COUNT_OF(reading_blanks), COUNT_OF(gap_blanks), COUNT_OF(sum_blanks)};
static const char *const mistakes[] = {"flip.mistake.roll", "flip.mistake.base", "flip.mistake.low",
                                       "flip.mistake.burr", "flip.mistake.warp"};
static const struct bench_page page = {
    .method = METHOD_FLIP,
    .heading_key = "flip.bench",
    .idea_key = "flip.bench.idea",
    .actions = {"flip.bench.do", saw_rows, COUNT_OF(saw_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "flip.bench.allowed",
    .of_key = "flip.bench.of",
    .length_key = "flip.bench.height",
    .signs_key = "flip.bench.signs",
    .table_key = "flip.bench.table",
    .move_head_key = "flip.bench.table.move",
    .tells_angle = true,
    .moving = {"flip.bench.adjust", adjust_rows, COUNT_OF(adjust_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_FLIP);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    bench_add_page(b, list, &page);
}

const struct sheet_method sheet_method_flip = {
    .name_key = "method.flip",
    .subject_key = "flip.subject",
    .needs_no_standard = true,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
