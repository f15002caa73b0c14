/* The row of the frame of mitred pieces: readings, sum, which way to turn the fence, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

static const char *const open_keys[] = {[OPEN_INSIDE] = "frame.open.inside", [OPEN_OUTSIDE] = "frame.open.outside"};
static const char *const sign_keys[] = {[OPEN_INSIDE] = "frame.sign.inside", [OPEN_OUTSIDE] = "frame.sign.outside"};
static const char *const fence_keys[] = {
    [FRAME_LEFT_FENCE] = "frame.the_left", [FRAME_RIGHT_FENCE] = "frame.the_right", [FRAME_BOTH_FENCES] = "frame.each"};

/* ---- record ---- */

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct frame_readings *r = &test->job->as.frame;
    const struct frame_sum *sum = &test->as.frame;
    const char *key = !r->open_given    ? "frame.readings_closed"
                      : sum->reads_both ? "frame.readings_both"
                                        : "frame.readings";
    block_paragraph(b, list, STYLE_BODY,
                    SAYING(key, SAY_ARG("n", SAY_COUNT, sum->pieces), SAY_ARG("tight", SAY_COUNT_WORD, sum->pieces - 1),
                           SAY_KEY("fence", fence_keys[r->fence]), SAY_KEY("open", open_keys[r->open]),
                           SAY_ARG("gap", SAY_LIMIT, r->gap.v), SAY_ARG("other", SAY_LIMIT, r->gap_other.v),
                           SAY_ARG("leg", SAY_THICKNESS, sum->leg)));
    general_add_by(b, list, test);
}

static double opening_of(const struct frame_sum *sum)
{
    return sum->gap.value - sum->gap_other.value;
}

static int gap_places(const struct proof_test *test)
{
    const struct frame_sum *sum = &test->as.frame;
    return sum_places(test->over_length / (sum->leg * 2 * sum->pieces));
}

/* "0.2250 ÷ 50 ÷ (2 × 4) × 100" */
static const char *express_error(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct frame_sum *sum = &test->as.frame;
    return pool_printf(b->pool, "%s ÷ %s ÷ (2 × %d) × %s",
                       print_places(b, sum->sign * opening_of(sum), gap_places(test)), print_measure(b, sum->leg),
                       sum->pieces, print_measure(b, test->over_length));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct frame_readings *r = &test->job->as.frame;
    const struct frame_sum *sum = &test->as.frame;
    int places = gap_places(test);
    struct block table = sum_begin(b);
    sum_add_gap(b, &table, &sum->gap, places);
    if (sum->reads_both) {
        sum_add_gap(b, &table, &sum->gap_other, places);
        sum_add_row(b, &table, SAYING_PLAIN("frame.opening"),
                    pool_printf(b->pool, "%s " MINUS " %s", print_places(b, sum->gap.value, places),
                                print_places(b, sum->gap_other.value, places)),
                    print_places(b, opening_of(sum), places));
    }
    sum_add_error(b, &table, test, express_error(b, test));
    block_append(b, list, table);
    block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN(r->open_given ? sign_keys[r->open] : "frame.sign.closed"));
}

static const struct action_row record_rows[] = {
    {"general.record.unplug", "general.record.unplug.why", NULL, SIGNAL_NONE},
    {"frame.record.do", "frame.record.do.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, record_rows, COUNT_OF(record_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

static const struct proof_test *latest(const struct sheet_builder *b)
{
    return proof_latest(b->proof, METHOD_FRAME);
}

/* As many pieces as last time; four to begin with. */
static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_limit *limit = &b->job->tolerances.mitre;
    int pieces = latest(b) ? latest(b)->as.frame.pieces : 4;
    return SAYING(key, SAY_ARG("n", SAY_COUNT, pieces), SAY_ARG("cuts", SAY_COUNT, 2 * pieces),
                  SAY_ARG("over", SAY_SIZE, limit->over.v), SAY_ARG("limit", SAY_LIMIT, limit->error.v));
}

static const struct action_row cut_rows[] = {
    {"frame.bench.cut", "frame.bench.cut.why", "frame.bench.cut.hands", SIGNAL_WARNING},
    {"frame.bench.lay", "frame.bench.lay.why", NULL, SIGNAL_NONE},
    {"frame.bench.slide", "frame.bench.slide.why", NULL, SIGNAL_NONE},
    {"frame.bench.read", "frame.bench.read.why", NULL, SIGNAL_NONE},
};
static const struct action_row turn_rows[] = {
    BENCH_SHOW_ROW,
    {"frame.bench.turn", "frame.bench.turn.why", NULL, SIGNAL_NONE},
    BENCH_AGAIN_ROW,
};
static const struct blank reading_blanks[] = {
    {"frame.bench.fence", NULL, NULL, 20},
    {"frame.bench.open", NULL, NULL, 24},
    {"frame.bench.leg", NULL, NULL, 22},
};
static const struct blank gap_blanks[] = {{"frame.bench.gap", NULL, NULL, GAP_BOX(22)}};
static const struct blank sum_blanks[] = {
    {"frame.bench.error", NULL, "frame.bench.gap", 22},
    {NULL, "÷", "frame.bench.leg", 22},
    {"frame.bench.times", NULL, "frame.bench.error_caption", 26},
};
static const struct blank *const blanks[] = {reading_blanks, gap_blanks, sum_blanks};
static const int blank_counts[] = {COUNT_OF(reading_blanks), COUNT_OF(gap_blanks), COUNT_OF(sum_blanks)};
static const char *const mistakes[] = {"frame.mistake.two", "frame.mistake.length", "frame.mistake.force",
                                       "frame.mistake.creep"};
static const struct bench_page page = {
    .method = METHOD_FRAME,
    .heading_key = "frame.bench",
    .idea_key = "frame.bench.idea",
    .actions = {"frame.bench.do", cut_rows, COUNT_OF(cut_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "frame.bench.allowed",
    .of_key = "frame.bench.of",
    .length_key = "frame.bench.leg",
    .signs_key = "frame.bench.signs",
    .table_key = "frame.bench.table",
    .at_kind = SAY_THICKNESS, /* as the record prints the leg */
    .move_head_key = "frame.bench.table.move",
    .moving = {"bench.adjust", turn_rows, COUNT_OF(turn_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_FRAME);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    bench_add_page(b, list, &page);
}

const struct sheet_method sheet_method_frame = {
    .name_key = "method.frame",
    .subject_key = "frame.subject",
    .until_then_key = "frame.until_then",
    .moved_by_play = true,
    .tells_remark = true,
    .needs_no_standard = true,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
