/* The five-cut test as actions at the bench, with blanks to fill in by pencil and this sled's constants already in the
   sum. */
#include "sheet/bench_page.h"
#include "sheet/findings.h"
#include "sheet/five_cut.h"

#include <math.h>
#include <string.h>

enum { STRIPS = 3, READINGS = 3 };
#define MARK_INSET 2.0 /* of a mark from its end of the strip, at least [mm] */

static const struct action_row get_ready[] = {
    {"bench.ready.saw", "bench.ready.saw.why", "bench.ready.unplug", SIGNAL_WARNING},
    {"bench.ready.sled", "bench.ready.sled.why", NULL, SIGNAL_NONE},
    {"bench.ready.tools", "bench.ready.tools.why", NULL, SIGNAL_NONE},
    {"bench.ready.board", "bench.ready.board.why", NULL, SIGNAL_NONE},
};
static const char which_wall[] = "bench.cut.first.why";
static const struct action_row cut_strip[] = {
    {"bench.cut.first", which_wall, "bench.cut.caution", SIGNAL_WARNING},
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
/* The record's own steps say these two: findings.h. */
static const char free_screws[] = "bench.move.free", fresh_holes[] = "bench.move.fix";
static const struct action_row move_fence[] = {
    {"bench.move.decide", "bench.move.decide.why", NULL, SIGNAL_NONE},
    {"bench.move.unplug", "bench.move.unplug.why", "bench.move.caution", SIGNAL_WARNING},
    {"bench.move.block", "bench.move.block.why", NULL, SIGNAL_NONE},
    {free_screws, "move.free_screws.why", NULL, SIGNAL_NONE},
    {"bench.move.turn", "bench.move.turn.why", NULL, SIGNAL_NONE},
    {fresh_holes, "move.fix.why", NULL, SIGNAL_NONE},
    {"bench.move.hand_in", "bench.move.hand_in.why", NULL, SIGNAL_NONE},
};

/* Round figures of the trade in each unit [mm] (common practice, no source; least: the check five_cut_strip). */
static const struct bench_figures {
    double strip, least, trim, agree, differ, thin, thick;
    double margin; /* the board is longer than the marks are apart; it still fits the sled: proof_length leaves 40 mm */
} bench_figures[] = {
    [UNITS_MM] = {.strip = 25, .least = 20, .trim = 5, .agree = 0.02, .differ = 0.10, .thin = 12, .thick = 18,
                  .margin = 40},
    [UNITS_IN] = {.strip = 1 * MM_PER_INCH,
                  .least = 13 * MM_PER_INCH / 16,
                  .trim = 3 * MM_PER_INCH / 16,
                  .agree = 0.001 * MM_PER_INCH,
                  .differ = 0.004 * MM_PER_INCH,
                  .thin = MM_PER_INCH / 2,
                  .thick = 3 * MM_PER_INCH / 4,
                  .margin = 3 * MM_PER_INCH / 2},
};

/* ---- how far a board reaches ---- */

/* Four slivers, each with its kerf, come off before every strip: two of them shorten it. Round 0 is the first strip. */
static double strip_length(const struct sheet_builder *b, int round)
{
    double kerf = b->job->saw.blade.kerf.given ? b->job->saw.blade.kerf.v : 0;
    double board = b->proof->reckoner.length + bench_figures[b->units].margin;
    return board - 2 * (round + 1) * (bench_figures[b->units].trim + kerf);
}

/* The marks stand a little in from the strip's ends. */
static bool gives_two_strips(const struct sheet_builder *b)
{
    return strip_length(b, 1) >= b->proof->reckoner.length + 2 * MARK_INSET;
}

/* Some sentences have a second wording for a board that gives one strip only. */
static const char *key_by_strips(const struct sheet_builder *b, const char *key)
{
    static const char *const keys[] = {"bench.ready.board.why", "bench.cut.again", "bench.cut.again.why"};
    for (int i = 0; i < COUNT_OF(keys) && !gives_two_strips(b); i++)
        if (strcmp(keys[i], key) == 0)
            return pool_printf(b->pool, "%s.one", key);
    return key;
}

static const char *key_of_places(const struct sheet_builder *b)
{
    return b->units == UNITS_IN ? "bench.places.three" : "bench.places.two";
}

static const char *key_of_knife(const struct sheet_builder *b)
{
    static const char *const keys[] = {[KNIFE_NOT_STATED] = "bench.knife.not_stated",
                                       [KNIFE_RIVING] = "bench.knife.riving",
                                       [KNIFE_SPLITTER] = "bench.knife.splitter",
                                       [KNIFE_NONE] = "bench.knife.none"};
    return keys[b->job->saw.knife.kind];
}

/* ---- sentences and their numbers ---- */

/* What any action of getting ready may name. */
static struct saying say_ready(const struct sheet_builder *b, const char *key)
{
    const struct bench_figures *f = &bench_figures[b->units];
    double board = b->proof->reckoner.length + bench_figures[b->units].margin, thickest = b->plan->sled.capacity_thickness;
    double thick = thickest > 0 ? fmin(f->thick, thickest) : f->thick;
    return SAYING(key_by_strips(b, key), SAY_KEY("knife", key_of_knife(b)),
                  SAY_ARG("boards", SAY_COUNT_WORD, gives_two_strips(b) ? 2 : STRIPS),
                  SAY_ARG("thin", SAY_SIZE, fmin(f->thin, thick)), SAY_ARG("thick", SAY_SIZE, thick),
                  SAY_ARG("board", SAY_SIZE, board), SAY_ARG("first", SAY_ABOUT, strip_length(b, 0)),
                  SAY_ARG("second", SAY_ABOUT, strip_length(b, 1)));
}

/* What any action of cutting and measuring may name. */
static struct saying say_cut(const struct sheet_builder *b, const char *key)
{
    const struct reckoner *r = &b->proof->reckoner;
    const struct bench_figures *f = &bench_figures[b->units];
    if (key == which_wall)
        return SAYING(key, SAY_KEY("slot", key_of_side(b->plan->sled.runner[SIDE_LEFT].is_guide ? SIDE_LEFT : SIDE_RIGHT)));
    return SAYING(key_by_strips(b, key), SAY_ARG("length", SAY_SIZE, r->length), SAY_ARG("keep", SAY_ABOUT, b->plan->sled.keep_out),
                  SAY_KEY("offcut", key_of_side(r->offcut)), SAY_KEY("turn", key_of_turn(r->fence_side, r->offcut)),
                  SAY_ARG("strip", SAY_SIZE, f->strip), SAY_ARG("least", SAY_SIZE, f->least),
                  SAY_ARG("trim", SAY_SIZE, f->trim), SAY_ARG("agree", SAY_FIT, f->agree));
}

static struct saying say_measuring(const struct sheet_builder *b, const char *key)
{
    return SAYING(key, SAY_ARG("length", SAY_SIZE, b->proof->reckoner.length),
                  SAY_ARG("agree", SAY_FIT, bench_figures[b->units].agree), SAY_KEY("places", key_of_places(b)));
}

/* What any action of moving may name. The block stands at the outer face: see findings.c. */
static struct saying say_moving(const struct sheet_builder *b, const char *key)
{
    const struct reckoner *r = &b->proof->reckoner;
    bool near_fence = r->fence_side == FENCE_NEAR;
    if (key == free_screws)
        return move_free_screws(b);
    if (key == fresh_holes)
        return move_fresh_holes(b);
    return SAYING(key, SAY_KEY("end", key_of_side(r->moving_end)),
                  SAY_KEY("gauge_first", key_of_toward(near_fence ? TOWARD_OPERATOR : TOWARD_AWAY)),
                  SAY_KEY("gauge_after", key_of_toward(near_fence ? TOWARD_AWAY : TOWARD_OPERATOR)),
                  SAY_ARG("gauge", SAY_SIZE, fabs(b->plan->setting.moving_x)),
                  SAY_KEY("carrier", plan_block_carrier_key(b->plan)),
                  SAY_ARG("differ", SAY_FIT, bench_figures[b->units].differ));
}

static const struct action_list ready_list = {"bench.ready", get_ready, COUNT_OF(get_ready), say_ready};
static const struct action_list cut_list = {"bench.cut", cut_strip, COUNT_OF(cut_strip), say_cut};
static const struct action_list measure_list = {"bench.measure", measure_strip, COUNT_OF(measure_strip), say_measuring};
static const struct action_list move_list = {"bench.move_fence", move_fence, COUNT_OF(move_fence), say_moving};

/* ---- blanks ---- */

/* Wide enough for "Strip 3  fence end", so that the boxes of both ends stand under each other [mm]. */
static const double end_width = 32;

static void add_end_boxes(const struct sheet_builder *b, struct block *boxes, int strip, const char *end_key)
{
    boxes_add_text(b, boxes, SAYING("bench.strip", SAY_ARG("n", SAY_COUNT, strip), SAY_KEY("end", end_key)));
    boxes->as.boxes.items[0].text_width = end_width;
    for (int i = 0; i < READINGS; i++)
        boxes_add_box(b, boxes, NULL, 15);
    boxes_add_text(b, boxes, SAYING_PLAIN("bench.mean"));
    boxes_add_box(b, boxes, NULL, 18);
}

/* Strip 1  fence end  [ ] [ ] [ ]  mean [ ]
   Strip 1  far end    [ ] [ ] [ ]  mean [ ]  fence end − far end = [ ]                                            */
static void add_strip_boxes(const struct sheet_builder *b, struct block_list *list, int strip)
{
    struct block fence = boxes_begin(), far = boxes_begin();
    add_end_boxes(b, &fence, strip, "bench.fence_end");
    add_end_boxes(b, &far, strip, "bench.far_end");
    boxes_add_text(b, &far, SAYING_PLAIN("bench.fence_minus_far"));
    boxes_add_box(b, &far, NULL, 20);
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

/* The leaves that the sum may be made up of. */
static void add_leaf_set(const struct sheet_builder *b, struct block_list *list)
{
    for (size_t i = 0; i < b->job->n_instruments; i++) {
        const struct job_instrument *set = &b->job->instruments[i];
        if (set->kind != INSTRUMENT_FEELER || set->n_leaves == 0)
            continue;
        block_paragraph(b, list, STYLE_BODY,
                        SAYING("bench.leaf_set", SAY_STR("leaves", list_leaves(b, set->leaves, set->n_leaves))));
        return;
    }
}

static void add_move_boxes(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    const struct job_limit *limit = &b->job->tolerances.squareness;
    struct block error = boxes_begin(), row = boxes_begin(), gauge = boxes_begin();
    boxes_add_box(b, &error, "bench.mean_difference", 24);
    boxes_add_text(b, &error, SAYING("bench.error_times", SAY_ARG("length", SAY_SIZE, r->length), SAY_ARG("over", SAY_SIZE, limit->over.v)));
    boxes_add_box(b, &error, "five_cut.error", 24);
    block_append(b, list, error);
    boxes_add_box(b, &row, "bench.mean_difference", 24);
    boxes_add_word(b, &row, pool_printf(b->pool, "× %s =", print_significant(b, r->factor, 4)));
    boxes_add_box(b, &row, "bench.move", 24);
    boxes_add_text(b, &row,
                   SAYING("bench.factor", SAY_STR("distance", print_measure(b, r->pivot_to_moving)),
                          SAY_STR("length", print_measure(b, r->length)),
                          SAY_STR("factor", print_significant(b, r->factor, 4))));
    block_append(b, list, row);
    int leaves = reckoner_leaves_most(r);
    if (leaves > 0)
        boxes_add_text(b, &gauge, SAYING_PLAIN("bench.leaves"));
    for (int i = 0; i < leaves; i++) {
        boxes_add_word(b, &gauge, i ? "+" : "");
        boxes_add_box(b, &gauge, NULL, 18);
    }
    boxes_add_text(b, &gauge, SAYING_PLAIN(leaves > 0 ? "bench.direction" : "bench.direction.alone"));
    boxes_add_box(b, &gauge, NULL, 34);
    block_append(b, list, gauge);
    add_leaf_set(b, list);
}

/* Which way, by which end is wider. */
static void add_signs(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    const struct job_limit *limit = &b->job->tolerances.squareness;
    block_boxed(b, list, STYLE_BODY,
                print_saying(b, SAYING("bench.signs", SAY_ARG("limit", SAY_LIMIT, limit->error.v), SAY_ARG("over", SAY_SIZE, limit->over.v),
                                       SAY_ARG("above", SAY_FIT, r->out_above), SAY_KEY("end", key_of_side(r->moving_end)),
                                       SAY_KEY("fence_wider", key_of_toward(r->fence_end_wider)),
                                       SAY_KEY("far_wider", key_of_toward(r->far_end_wider)),
                                       SAY_STR("leave", five_cut_leave_alone(b)))));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING_PLAIN("bench.sum_heading"));
    size_t first = list->n;
    add_mean_boxes(b, list);
    add_move_boxes(b, list);
    add_signs(b, list);
    block_keep_from(list, first);
}

/* What the record must be told beside the readings: filled in where this sled's sum below depends on it. */
static void add_condition_boxes(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    struct block row = boxes_begin();
    boxes_add_text(b, &row, SAYING_PLAIN("bench.marks_apart"));
    row.as.boxes.items[0].text_width = end_width;
    boxes_add_filled(b, &row, print_number(b, SAY_SIZE, r->length), 22);
    boxes_add_text(b, &row, SAYING_PLAIN("bench.offcut_side"));
    boxes_add_filled(b, &row, print_word(b, key_of_side(r->offcut)), 18);
    boxes_add_text(b, &row, SAYING_PLAIN("bench.test_date"));
    boxes_add_box(b, &row, NULL, 32);
    row.keep_with_next = true;
    block_append(b, list, row);
}

/* The boxes are for the plan's marks; a test made with others has its own sum on the record. */
static void add_other_marks(const struct sheet_builder *b, struct block_list *list)
{
    const struct proof_test *test = proof_latest(b->proof, METHOD_FIVE_CUT);
    if (!test || fabs(test->job->as.five_cut.length.v - b->proof->reckoner.length) < 0.5)
        return;
    block_paragraph(b, list, STYLE_BODY, SAYING("bench.other_marks", SAY_STR("date", print_date(b, test->job->date)),
                                                SAY_ARG("marks", SAY_SIZE, test->job->as.five_cut.length.v)));
    block_keep_with_next(list);
}

static void add_strips(const struct sheet_builder *b, struct block_list *list)
{
    block_heading(b, list, 2, SAYING("bench.readings", SAY_KEY("unit", key_of_unit(b->units)),
                                   SAY_KEY("places", key_of_places(b))));
    add_other_marks(b, list);
    add_condition_boxes(b, list);
    for (int i = 1; i <= STRIPS; i++)
        add_strip_boxes(b, list, i);
}

/* ---- moving, what good looks like, usual mistakes ---- */

static void add_advice(const struct sheet_builder *b, struct block_list *list)
{
    const struct saying good[] = {say_cut(b, "bench.good.readings"), say_cut(b, "bench.good.strip"),
                                  say_moving(b, "bench.good.strips"), say_cut(b, "bench.good.sled")};
    const struct saying mistakes[] = {say_cut(b, "bench.mistake.turn"), say_cut(b, "bench.mistake.swap"),
                                      say_cut(b, "bench.mistake.side"), say_cut(b, "bench.mistake.dust"),
                                      say_cut(b, "bench.mistake.wall"), say_cut(b, "bench.mistake.narrow"),
                                      say_cut(b, "bench.mistake.burr")};
    struct block_list columns[2] = {{0}, {0}};
    bench_add_items(b, &columns[0], "bench.good", good, COUNT_OF(good), 1);
    bench_add_items(b, &columns[1], "bench.mistakes", mistakes, COUNT_OF(mistakes), 1);
    block_columns(b, list, 2, columns, (const double[]){6, 6});
}

/* The actions beside their picture and the table that saves the sum. */
static void add_moving(const struct sheet_builder *b, struct block_list *list, int *number)
{
    struct block_list columns[2] = {{0}, {0}};
    struct drawing adjustment = {0};
    bench_add_actions(b, &columns[0], &move_list, false, number);
    draw_fence_adjustment(b->plan, b->proof, b->units, b->pool, &adjustment);
    block_drawing(b, &columns[1], adjustment, STYLE_BODY, 40, 70);
    five_cut_add_reckoner_table(b, &columns[1], RECKONER_MOST);
    block_paragraph(b, &columns[1], STYLE_BODY, SAYING_PLAIN(reckoner_leaves_most(&b->proof->reckoner) > 0 ? "bench.read_reckoner" : "bench.read_reckoner.plain"));
    block_columns(b, list, 2, columns, (const double[]){6.5, 5.5});
}

void five_cut_add_bench(const struct sheet_builder *b, struct block_list *list)
{
    int number = 0;
    struct drawing pictures[PICTURES_MOST] = {{0}};
    int n = bench_draw_pictures(b, METHOD_FIVE_CUT, pictures);
    block_heading(b, list, 1, SAYING_PLAIN("bench.five_cut"));
    block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("bench.five_cut.idea"));
    bench_add_actions(b, list, &ready_list, false, &number);
    bench_add_actions(b, list, &cut_list, false, &number);
    block_keep_with_next(list);
    bench_add_pictures(b, list, pictures, n - 1);
    bench_add_actions(b, list, &measure_list, false, &number);
    block_keep_with_next(list);
    if (n > 0)
        block_drawing(b, list, pictures[n - 1], STYLE_BODY, 18, 19);
    add_strips(b, list);
    add_sum(b, list);
    add_advice(b, list);
    add_moving(b, list, &number);
}
