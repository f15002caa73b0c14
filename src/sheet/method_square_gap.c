/* The square test's row: readings, sum, the bench page. The move is that of the fence's end. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

static const char *const end_keys[] = {[EDGE_FENCE] = "square_gap.end.fence", [EDGE_FAR] = "square_gap.end.far"};

/* ---- record ---- */

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct square_gap_readings *r = &test->job->as.square_gap;
    const char *grade = r->grade.s ? r->grade.s : print_word(b, "square_gap.no_grade");
    block_paragraph(b, list, STYLE_BODY,
                    SAYING(r->end_given ? "square_gap.readings" : "square_gap.readings_closed",
                           SAY_KEY("offcut", key_of_side(r->offcut)),
                           SAY_KEY("fence", key_of_fence(b->plan->setting.fence_side)), SAY_STR("grade", grade),
                           SAY_ARG("length", SAY_SIZE, r->length.v), SAY_KEY("end", end_keys[r->end]),
                           SAY_ARG("gap", SAY_LIMIT, r->gap.v)));
    general_add_by(b, list, test);
}

static int gap_places(const struct proof_test *test)
{
    return sum_places(test->over_length / test->as.square_gap.length);
}

/* "0.3250 ÷ 280 × 300" */
static const char *express_at(const struct sheet_builder *b, const struct proof_test *test, double gap, double at)
{
    return pool_printf(b->pool, "%s ÷ %s × %s", print_places(b, gap, gap_places(test)),
                       print_measure(b, test->as.square_gap.length), print_measure(b, at));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct square_gap_readings *r = &test->job->as.square_gap;
    const struct square_gap_sum *own = &test->as.square_gap;
    struct block sum = sum_begin(b);
    sum_add_gap(b, &sum, &own->gap, gap_places(test));
    sum_add_error(b, &sum, test, express_at(b, test, own->sign * own->gap.value, test->over_length));
    if (own->pivot_to_moving > 0)
        sum_add_row(b, &sum, SAYING("square_gap.at_gauge", SAY_STR("distance", print_measure(b, own->pivot_to_moving))),
                    express_at(b, test, own->gap.value, own->pivot_to_moving),
                    print_places(b, fabs(test->error) * own->pivot_to_moving, PLACES_MOVE));
    block_append(b, list, sum);
    if (r->end_given)
        block_paragraph(b, list, STYLE_BODY,
                        SAYING("square_gap.sign", SAY_KEY("offcut", key_of_side(r->offcut)),
                               SAY_KEY("fence", key_of_fence(b->plan->setting.fence_side)),
                               SAY_KEY("end", end_keys[r->end]),
                               SAY_KEY("which", own->sign > 0 ? "five_cut.too_far" : "five_cut.too_near")));
}

/* ---- bench: signs for the offcut of the latest test, else to the right ---- */

static bool fence_light_is_far(const struct sheet_builder *b)
{
    const struct proof_test *test = proof_latest(b->proof, METHOD_SQUARE_GAP);
    enum side offcut = test ? test->job->as.square_gap.offcut : SIDE_RIGHT;
    return (b->plan->setting.fence_side == FENCE_NEAR) == (offcut == SIDE_RIGHT);
}

/* Of the sled, else as the latest test has it; where nobody knows what turns, the right end is told of. */
static enum side moving_end(const struct sheet_builder *b)
{
    const struct setting *s = &b->plan->setting;
    const struct proof_test *test = proof_latest(b->proof, METHOD_SQUARE_GAP);
    if (s->has_fence)
        return s->moving_x < s->pivot_x ? SIDE_LEFT : SIDE_RIGHT;
    return test && test->has_move ? test->move.end : SIDE_RIGHT;
}

static bool knows_what_turns(const struct sheet_builder *b)
{
    const struct proof_test *test = proof_latest(b->proof, METHOD_SQUARE_GAP);
    return b->plan->setting.has_fence || (test && test->has_move);
}

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct proof_test *test = proof_latest(b->proof, METHOD_SQUARE_GAP);
    const struct job_limit *limit = &b->job->tolerances.squareness;
    enum side offcut = test ? test->job->as.square_gap.offcut : SIDE_RIGHT;
    enum side moving = moving_end(b);
    bool far = fence_light_is_far(b);
    enum toward put_right = far == (moving == SIDE_RIGHT) ? TOWARD_OPERATOR : TOWARD_AWAY;
    struct saying saying =
        SAYING(key, SAY_ARG("over", SAY_SIZE, limit->over.v), SAY_ARG("limit", SAY_LIMIT, limit->error.v),
               SAY_KEY("offcut", key_of_side(offcut)), SAY_KEY("moving", key_of_side(moving)),
               SAY_KEY("fence_light", key_of_toward(put_right)),
               SAY_KEY("far_light", key_of_toward(put_right == TOWARD_AWAY ? TOWARD_OPERATOR : TOWARD_AWAY)),
               SAY_KEY("fence_reads", far ? "five_cut.too_far" : "five_cut.too_near"),
               SAY_KEY("far_reads", far ? "five_cut.too_near" : "five_cut.too_far"));
    return saying;
}

static const struct action_row look_rows[] = {
    {"square_gap.bench.ready", "square_gap.bench.ready.why", NULL, SIGNAL_NONE},
    {"square_gap.bench.cut", "square_gap.bench.cut.why", "square_gap.bench.cut.hands", SIGNAL_WARNING},
    {"square_gap.bench.look", "square_gap.bench.look.why", NULL, SIGNAL_NONE},
    {"square_gap.bench.read", "square_gap.bench.read.why", NULL, SIGNAL_NONE},
};
static const struct action_row move_rows[] = {
    BENCH_SHOW_ROW,
    {"square_gap.bench.move", "square_gap.bench.move.why", NULL, SIGNAL_NONE},
    BENCH_AGAIN_ROW,
};
static const struct blank reading_blanks[] = {
    {"square_gap.bench.end", NULL, NULL, 24},
    {"square_gap.bench.length_box", NULL, NULL, 20},
    {"square_gap.bench.grade", NULL, NULL, 14},
};
static const struct blank gap_blanks[] = {{"square_gap.bench.gap", NULL, NULL, GAP_BOX(22)}};
static const struct blank sum_blanks[] = {
    {NULL, NULL, "square_gap.bench.gap", 22},
    {NULL, "÷", "square_gap.bench.length", 22},
    {"square_gap.bench.over", NULL, "five_cut.error", 26},
};
static const struct blank *const blanks[] = {reading_blanks, gap_blanks, sum_blanks};
static const int blank_counts[] = {COUNT_OF(reading_blanks), COUNT_OF(gap_blanks), COUNT_OF(sum_blanks)};
static const char *const mistakes[] = {"square_gap.mistake.proof", "square_gap.mistake.square",
                                       "square_gap.mistake.edge", "square_gap.mistake.side",
                                       "square_gap.mistake.crooked"};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_SQUARE_GAP);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    const struct bench_page page = {
        .method = METHOD_SQUARE_GAP,
        .heading_key = "square_gap.bench",
        .idea_key = "square_gap.bench.idea",
        .actions = {"square_gap.bench.do", look_rows, COUNT_OF(look_rows), say},
        .blanks = blanks,
        .blank_counts = blank_counts,
        .n_blanks = COUNT_OF(blanks),
        .allowed_key = "square_gap.bench.allowed",
        .of_key = "square_gap.bench.of",
        .length_key = "square_gap.bench.length",
        .signs_key = knows_what_turns(b) ? "square_gap.bench.signs" : "square_gap.bench.signs_plain",
        .table_key = "square_gap.bench.table",
        .move_head_key = "square_gap.bench.table.move",
        .moving = {"bench.adjust", move_rows, COUNT_OF(move_rows), say},
        .mistake_keys = mistakes,
        .n_mistakes = COUNT_OF(mistakes),
        .say = say,
    };
    bench_add_page(b, list, &page);
}

const struct sheet_method sheet_method_square_gap = {
    .name_key = "method.square-gap",
    .subject_key = "square_gap.subject",
    .moved_by_play = true,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
