/* The slot test's row: readings, sum, how blade or table is brought round, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

static const struct column_row reading_columns[] = {
    {"slot_parallel.place", ALIGN_LEFT, 0},
    {"slot_parallel.read", ALIGN_RIGHT, 1},
    {"slot_parallel.mean", ALIGN_POINT, 0},
};

/* ---- record ---- */

static void add_place(const struct sheet_builder *b, struct block *table, const char *key, const struct readings *read,
                      double mean)
{
    const char *const cells[] = {print_word(b, key), print_readings(b, read->v, read->n),
                                 print_places(b, mean, PLACES_ERROR)};
    table_add_row(b, table, cells);
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct slot_parallel_readings *r = &test->job->as.slot_parallel;
    struct block table = table_begin(b, NULL, reading_columns, COUNT_OF(reading_columns));
    table.as.table.caption = print_saying(b, SAYING("five_cut.readings", SAY_KEY("unit", key_of_unit(b->units))));
    add_place(b, &table, "slot_parallel.front", &r->front, test->as.slot_parallel.front);
    add_place(b, &table, "slot_parallel.back", &r->back, test->as.slot_parallel.back);
    block_append(b, list, table);
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("slot_parallel.readings", SAY_KEY("slot", key_of_side(r->slot)),
                           SAY_STR("span", print_quantity(b, SAY_SIZE, r->span.v))));
    general_add_by(b, list, test);
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct slot_parallel_sum *own = &test->as.slot_parallel;
    bool right = own->sign > 0;
    int places = sum_places(test->over_length / own->span);
    const char *first = print_places(b, right ? own->back : own->front, places);
    const char *second = print_places(b, right ? own->front : own->back, places);
    const char *difference = print_places(b, test->error * own->span, places);
    struct block sum = sum_begin(b);
    sum_add_row(b, &sum, SAYING_PLAIN(right ? "slot_parallel.difference_right" : "slot_parallel.difference_left"),
                pool_printf(b->pool, "%s " MINUS " %s", first, sum_term(b, second)), difference);
    sum_add_error(b, &sum, test,
                  pool_printf(b->pool, "%s ÷ %s × %s", difference, print_measure(b, own->span),
                              print_measure(b, test->over_length)));
    block_append(b, list, sum);
    if (test->error != 0)
        general_add_way(
            b, list, test,
            SAYING("slot_parallel.sign", SAY_KEY("side", key_of_side(test->error > 0 ? SIDE_RIGHT : SIDE_LEFT))));
}

static const struct action_row shift_rows[] = {
    {"slot_parallel.unplug", "slot_parallel.unplug.why", NULL, SIGNAL_NONE},
    {"slot_parallel.loosen", "slot_parallel.loosen.why", NULL, SIGNAL_NONE},
    {"slot_parallel.shift", "slot_parallel.shift.why", NULL, SIGNAL_NONE},
    {"slot_parallel.again", "slot_parallel.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, shift_rows, COUNT_OF(shift_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_limit *limit = &b->job->tolerances.slot;
    return SAYING(key, SAY_ARG("over", SAY_SIZE, limit->over.v), SAY_ARG("limit", SAY_LIMIT, limit->error.v));
}

static const struct action_row read_rows[] = {
    {"slot_parallel.bench.ready", "slot_parallel.bench.ready.why", "slot_parallel.bench.ready.caution", SIGNAL_WARNING},
    {"slot_parallel.bench.mark", "slot_parallel.bench.mark.why", NULL, SIGNAL_NONE},
    {"slot_parallel.bench.back", "slot_parallel.bench.back.why", NULL, SIGNAL_NONE},
    {"slot_parallel.bench.span", "slot_parallel.bench.span.why", NULL, SIGNAL_NONE},
};
static const struct action_row hand_in_rows[] = {
    {"slot_parallel.bench.show", "slot_parallel.bench.show.why", NULL, SIGNAL_NONE},
};
static const struct blank front_blanks[] = {
    {"slot_parallel.bench.front_boxes", NULL, NULL, 18},
    {NULL, NULL, NULL, 18},
    {NULL, NULL, NULL, 18},
    {"slot_parallel.bench.mean_box", NULL, NULL, 22},
    {"slot_parallel.bench.slot_used", NULL, NULL, 20},
};
static const struct blank back_blanks[] = {
    {"slot_parallel.bench.back_boxes", NULL, NULL, 18},
    {NULL, NULL, NULL, 18},
    {NULL, NULL, NULL, 18},
    {"slot_parallel.bench.mean_box", NULL, NULL, 22},
};
static const struct blank right_blanks[] = {
    {"slot_parallel.bench.in_right", NULL, "slot_parallel.bench.back_mean", 20},
    {NULL, MINUS, "slot_parallel.bench.front_mean", 20},
    {NULL, "=", NULL, 20},
    {NULL, "÷", "slot_parallel.bench.span_caption", 20},
    {"slot_parallel.bench.times", NULL, "slot_parallel.bench.error", 22},
};
static const struct blank left_blanks[] = { /* in the left slot the plunger looks the other way */
    {"slot_parallel.bench.in_left", NULL, "slot_parallel.bench.front_mean", 20},
    {NULL, MINUS, "slot_parallel.bench.back_mean", 20},
    {NULL, "=", NULL, 20},
    {NULL, "÷", "slot_parallel.bench.span_caption", 20},
    {"slot_parallel.bench.times", NULL, "slot_parallel.bench.error", 22},
};
static const struct blank *const blanks[] = {front_blanks, back_blanks, left_blanks, right_blanks};
static const int blank_counts[] = {COUNT_OF(front_blanks), COUNT_OF(back_blanks), COUNT_OF(left_blanks),
                                   COUNT_OF(right_blanks)};
static const char *const mistakes[] = {"slot_parallel.mistake.teeth", "slot_parallel.mistake.wall",
                                       "slot_parallel.mistake.sign", "slot_parallel.mistake.tip"};
static const struct bench_page page = {
    .method = METHOD_SLOT_PARALLEL,
    .heading_key = "slot_parallel.bench",
    .idea_key = "slot_parallel.bench.idea",
    .actions = {"slot_parallel.bench.do", read_rows, COUNT_OF(read_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "slot_parallel.bench.allowed",
    .of_key = "slot_parallel.bench.of",
    .length_key = "slot_parallel.bench.span_caption",
    .signs_key = "slot_parallel.bench.signs",
    .table_key = "slot_parallel.bench.table",
    .move_head_key = "slot_parallel.bench.table.move",
    .moving = {"slot_parallel.bench.hand_in", hand_in_rows, COUNT_OF(hand_in_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_SLOT_PARALLEL);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    struct bench_page own = page;
    if (b->job->saw.table.depth.given)
        own.move_head_key = "slot_parallel.bench.table_edge.move";
    bench_add_page(b, list, &own);
}

const struct sheet_method sheet_method_slot_parallel = {
    .name_key = "method.slot-parallel",
    .subject_key = "slot_parallel.subject",
    .needs_no_standard = false,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
