/* The five-cut test as actions at the bench, with blanks to fill in by pencil and this sled's constants already in the
   sum. */
#include "sheet/bench_page.h"
#include "sheet/five_cut.h"

enum { STRIPS = 3, READINGS = 3 };
#define BOARD_MARGIN                                                                                                   \
    40 /* the board is longer than the marks are apart [mm]; it still fits the sled: proof_length is so chosen */

static const struct action_row get_ready[] = {
    {"bench.ready.saw", "bench.ready.saw.why", "bench.ready.unplug", SIGNAL_WARNING},
    {"bench.ready.sled", "bench.ready.sled.why", NULL, SIGNAL_NONE},
    {"bench.ready.tools", "bench.ready.tools.why", NULL, SIGNAL_NONE},
    {"bench.ready.board", "bench.ready.board.why", NULL, SIGNAL_NONE},
};
static const struct action_row cut_strip[] = {
    {"bench.cut.first", "bench.cut.first.why", "bench.cut.caution", SIGNAL_WARNING},
    {"bench.cut.turn", "bench.cut.turn.why", NULL, SIGNAL_NONE},
    {"bench.cut.mark", "bench.cut.mark.why", NULL, SIGNAL_NONE},
    {"bench.cut.fifth", "bench.cut.fifth.why", NULL, SIGNAL_NONE},
    {"bench.cut.again", "bench.cut.again.why", NULL, SIGNAL_NONE},
};
static const struct action_row measure_strip[] = {
    {"bench.measure.marks", "bench.measure.marks.why", NULL, SIGNAL_NONE},
    {"bench.measure.read", "bench.measure.read.why", NULL, SIGNAL_NONE},
    {"bench.measure.write", "bench.measure.write.why", NULL, SIGNAL_NONE},
};
static const struct action_row move_fence[] = {
    {"bench.move.decide", "bench.move.decide.why", NULL, SIGNAL_NONE},
    {"bench.move.unplug", "bench.move.unplug.why", "bench.move.caution", SIGNAL_WARNING},
    {"bench.move.block", "bench.move.block.why", NULL, SIGNAL_NONE},
    {"bench.move.fix", "bench.move.fix.why", NULL, SIGNAL_NONE},
    {"bench.move.hand_in", "bench.move.hand_in.why", NULL, SIGNAL_NONE},
};

/* Round figures of the trade in each unit [mm] (common practice, no source; least: the check five_cut_strip). */
static const struct bench_figures {
    double strip, least, trim, agree, differ, beside;
} bench_figures[] = {
    [UNITS_MM] = {.strip = 25, .least = 20, .trim = 5, .agree = 0.02, .differ = 0.10, .beside = 10},
    [UNITS_IN] = {.strip = 1 * MM_PER_INCH,
                  .least = 13 * MM_PER_INCH / 16,
                  .trim = 3 * MM_PER_INCH / 16,
                  .agree = 0.001 * MM_PER_INCH,
                  .differ = 0.004 * MM_PER_INCH,
                  .beside = 7 * MM_PER_INCH / 16},
};

/* What any action of cutting and measuring may name. */
static struct saying say_cut(const struct sheet_builder *b, const char *key)
{
    const struct reckoner *r = &b->proof->reckoner;
    const struct bench_figures *f = &bench_figures[b->units];
    return SAYING(key, SAY_ARG("length", SAY_SIZE, r->length), SAY_ARG("board", SAY_SIZE, r->length + BOARD_MARGIN),
                  SAY_KEY("offcut", key_of_side(r->offcut)), SAY_KEY("turn", key_of_turn(r->fence_side, r->offcut)),
                  SAY_ARG("strip", SAY_SIZE, f->strip), SAY_ARG("least", SAY_SIZE, f->least),
                  SAY_ARG("trim", SAY_SIZE, f->trim), SAY_ARG("agree", SAY_FIT, f->agree));
}

/* What any action of moving may name. The block stands at the outer face: see findings.c. */
static struct saying say_moving(const struct sheet_builder *b, const char *key)
{
    const struct reckoner *r = &b->proof->reckoner;
    bool near_fence = r->fence_side == FENCE_NEAR;
    return SAYING(key, SAY_KEY("end", key_of_side(r->moving_end)),
                  SAY_KEY("gauge_first", key_of_toward(near_fence ? TOWARD_OPERATOR : TOWARD_AWAY)),
                  SAY_KEY("gauge_after", key_of_toward(near_fence ? TOWARD_AWAY : TOWARD_OPERATOR)),
                  SAY_ARG("beside", SAY_SIZE, bench_figures[b->units].beside),
                  SAY_ARG("differ", SAY_FIT, bench_figures[b->units].differ));
}

static const struct action_list ready_list = {"bench.ready", get_ready, COUNT_OF(get_ready), say_cut};
static const struct action_list cut_list = {"bench.cut", cut_strip, COUNT_OF(cut_strip), say_cut};
static const struct action_list measure_list = {"bench.measure", measure_strip, COUNT_OF(measure_strip), say_cut};
static const struct action_list move_list = {"bench.move_fence", move_fence, COUNT_OF(move_fence), say_moving};

/* ---- blanks ---- */

static void add_end_boxes(const struct sheet_builder *b, struct block *boxes, const char *end_key)
{
    boxes_add_text(b, boxes, SAYING_PLAIN(end_key));
    for (int i = 0; i < READINGS; i++)
        boxes_add_box(b, boxes, NULL, 15);
    boxes_add_text(b, boxes, SAYING_PLAIN("bench.mean"));
    boxes_add_box(b, boxes, NULL, 18);
}

/* "Strip 1  fence end [ ][ ][ ] mean [ ]   far end [ ][ ][ ] mean [ ]", then its difference in a row of its own */
static void add_strip_boxes(const struct sheet_builder *b, struct block_list *list, int strip)
{
    struct block fence = boxes_begin(), far = boxes_begin();
    boxes_add_text(b, &fence, SAYING("bench.strip", SAY_ARG("n", SAY_COUNT, strip)));
    add_end_boxes(b, &fence, "bench.fence_end");
    boxes_add_text(b, &far, SAYING("bench.strip", SAY_ARG("n", SAY_COUNT, strip)));
    add_end_boxes(b, &far, "bench.far_end");
    boxes_add_text(b, &far, SAYING_PLAIN("bench.fence_minus_far"));
    boxes_add_box(b, &far, "bench.difference", 20);
    fence.keep_with_next = true;
    far.keep_with_next = strip < STRIPS;
    block_append(b, list, fence);
    block_append(b, list, far);
}

static void add_mean_boxes(const struct sheet_builder *b, struct block_list *list)
{
    static const char *const captions[STRIPS] = {"bench.strip_1", "bench.strip_2", "bench.strip_3"};
    struct block row = boxes_begin();
    boxes_add_text(b, &row, SAYING_PLAIN("bench.differences"));
    for (int i = 0; i < STRIPS; i++) {
        boxes_add_word(b, &row, i ? "+" : "");
        boxes_add_box(b, &row, captions[i], 20);
    }
    boxes_add_word(b, &row, "=");
    boxes_add_box(b, &row, "bench.sum", 22);
    boxes_add_word(b, &row, "÷ 3 =");
    boxes_add_box(b, &row, "bench.mean_difference", 24);
    block_append(b, list, row);
}

static void add_move_boxes(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    struct block row = boxes_begin(), gauge = boxes_begin();
    boxes_add_box(b, &row, "bench.mean_difference", 24);
    boxes_add_word(b, &row, pool_printf(b->pool, "× %s =", print_significant(b, r->factor, 4)));
    boxes_add_box(b, &row, "bench.move", 24);
    boxes_add_text(b, &row,
                   SAYING("bench.factor", SAY_STR("distance", print_measure(b, r->pivot_to_moving)),
                          SAY_STR("length", print_measure(b, r->length)),
                          SAY_STR("factor", print_significant(b, r->factor, 4))));
    block_append(b, list, row);
    boxes_add_text(b, &gauge, SAYING_PLAIN("bench.leaves"));
    for (int i = 0; i < 3; i++) {
        boxes_add_word(b, &gauge, i ? "+" : "");
        boxes_add_box(b, &gauge, NULL, 18);
    }
    boxes_add_text(b, &gauge, SAYING_PLAIN("bench.direction"));
    boxes_add_box(b, &gauge, NULL, 34);
    block_append(b, list, gauge);
}

/* Which way, by which end is wider. */
static void add_signs(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    block_boxed(b, list, STYLE_LEAD,
                print_saying(b, SAYING("bench.signs", SAY_KEY("end", key_of_side(r->moving_end)),
                                       SAY_KEY("fence_wider", key_of_toward(r->fence_end_wider)),
                                       SAY_KEY("far_wider", key_of_toward(r->far_end_wider)),
                                       SAY_STR("leave", five_cut_leave_alone(b)))));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING_PLAIN("bench.sum_heading"));
    add_mean_boxes(b, list);
    add_move_boxes(b, list);
    add_signs(b, list);
}

static void add_strips(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING("bench.readings", SAY_STR("unit", words_unit(b->units))));
    for (int i = 1; i <= STRIPS; i++)
        add_strip_boxes(b, list, i);
}

/* ---- what good looks like, usual mistakes, the reckoner ---- */

static void add_advice(const struct sheet_builder *b, struct block_list *list)
{
    const struct saying good[] = {say_cut(b, "bench.good.readings"), say_cut(b, "bench.good.strip"),
                                  say_moving(b, "bench.good.strips"), say_cut(b, "bench.good.sled")};
    const struct saying mistakes[] = {say_cut(b, "bench.mistake.turn"), say_cut(b, "bench.mistake.swap"),
                                      say_cut(b, "bench.mistake.side"), say_cut(b, "bench.mistake.dust"),
                                      say_cut(b, "bench.mistake.wall"), say_cut(b, "bench.mistake.narrow"),
                                      say_cut(b, "bench.mistake.burr")};
    struct block_list columns[2] = {{0}, {0}};
    bench_add_items(b, &columns[0], "bench.good", good, COUNT_OF(good));
    bench_add_items(b, &columns[0], "bench.mistakes", mistakes, COUNT_OF(mistakes));
    five_cut_add_reckoner(b, &columns[1], RECKONER_MOST);
    block_paragraph(b, &columns[1], STYLE_BODY, SAYING_PLAIN("bench.read_reckoner"));
    block_columns(b, list, 2, columns, (const double[]){7, 5});
}

void five_cut_add_bench(const struct sheet_builder *b, struct block_list *list)
{
    int number = 0;
    struct drawing pictures[PICTURES_MOST] = {{0}};
    int n = bench_draw_pictures(b, METHOD_FIVE_CUT, pictures);
    block_heading(b, list, 1, SAYING_PLAIN("bench.five_cut"));
    block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("bench.five_cut.idea"));
    bench_add_actions(b, list, &ready_list, &number);
    bench_add_actions(b, list, &cut_list, &number);
    bench_add_pictures(b, list, pictures, n - 1);
    bench_add_actions(b, list, &measure_list, &number);
    if (n > 0)
        bench_add_pictures(b, list, pictures + n - 1, 1);
    add_strips(b, list);
    add_sum(b, list);
    bench_add_actions(b, list, &move_list, &number);
    add_advice(b, list);
}
