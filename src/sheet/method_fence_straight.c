/* The row of the straight edge on a fence: readings, the narrowest strip, what to plane or pack, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

static const struct column_row reading_columns[] = {
    {"fence_straight.place", ALIGN_RIGHT, 0},
    {"fence_straight.read", ALIGN_RIGHT, 0},
    {"fence_straight.taken", ALIGN_POINT, 0},
    {"fence_straight.stands", ALIGN_POINT, 0},
};

/* ---- record ---- */

/* The gap as the job has it; NAN over a shim. */
static double gap_as_read(const struct fence_straight_readings *r, double place)
{
    for (size_t i = 0; i < r->n_gaps; i++)
        if (r->gaps[i].first == place)
            return r->gaps[i].second;
    return NAN;
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct fence_straight_readings *read = &test->job->as.fence_straight;
    const struct fence_straight_sum *sum = &test->as.fence_straight;
    struct block table = table_begin(b, NULL, reading_columns, COUNT_OF(reading_columns));
    table.as.table.caption =
        print_saying(b, SAYING("fence_straight.readings", SAY_KEY("unit", key_of_unit(b->units)),
                               SAY_ARG("shim", SAY_LIMIT, sum->shim), SAY_ARG("length", SAY_SIZE, sum->length)));
    for (size_t i = 0; i < sum->n; i++) {
        const char *const cells[] = {
            print_measure(b, sum->points[i].x),
            sum->at_shim[i] ? print_word(b, "draw.fence_straight.shim") : print_as_given(b, gap_as_read(read, sum->points[i].x)),
            print_places(b, sum->gaps[i].value, PLACES_ERROR), print_places(b, sum->points[i].dev, PLACES_ERROR)};
        table_add_row(b, &table, cells);
    }
    block_append(b, list, table);
    if (test->job->instrument && test->job->instrument->kind == INSTRUMENT_FEELER)
        block_note(b, list, "fence_straight.halfway");
    general_add_by(b, list, test);
}

static const char *print_term(const struct sheet_builder *b, double mm)
{
    return sum_term(b, print_places(b, mm, PLACES_ERROR));
}

/* "0.1000 + (0.0800 − 0.1000) × (300 − 150) ÷ (450 − 150)" */
static const char *express_line_at(const struct sheet_builder *b, const struct fence_straight_sum *sum)
{
    const struct face_point *from = &sum->points[sum->zone.from], *to = &sum->points[sum->zone.to];
    return pool_printf(b->pool, "%s + (%s " MINUS " %s) × (%s " MINUS " %s) ÷ (%s " MINUS " %s)",
                       print_term(b, from->dev), print_term(b, to->dev), print_term(b, from->dev),
                       print_measure(b, sum->points[sum->zone.apex].x), print_measure(b, from->x),
                       print_measure(b, to->x), print_measure(b, from->x));
}

static double line_at_apex(const struct fence_straight_sum *sum)
{
    const struct face_point *from = &sum->points[sum->zone.from], *to = &sum->points[sum->zone.to];
    return from->dev + (to->dev - from->dev) * (sum->points[sum->zone.apex].x - from->x) / (to->x - from->x);
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct fence_straight_sum *sum = &test->as.fence_straight;
    struct say_arg place = SAY_ARG("place", SAY_SIZE, sum->points[sum->zone.apex].x);
    struct say_arg from = SAY_ARG("from", SAY_SIZE, sum->points[sum->zone.from].x);
    struct say_arg to = SAY_ARG("to", SAY_SIZE, sum->points[sum->zone.to].x);
    double apex = sum->points[sum->zone.apex].dev, line = line_at_apex(sum);
    struct block table = sum_begin(b);
    sum_add_row(b, &table, SAYING("fence_straight.line_at", place, from, to), express_line_at(b, sum),
                print_places(b, line, PLACES_ERROR));
    sum_add_row(b, &table, SAYING("fence_straight.bow", place),
                pool_printf(b->pool, "%s " MINUS " %s", print_term(b, sum->zone.hump ? apex : line),
                            print_term(b, sum->zone.hump ? line : apex)),
                print_places(b, test->error, PLACES_ERROR));
    block_append(b, list, table);
    if (test->error <= test->expanded_uncertainty) {
        block_paragraph(b, list, STYLE_BODY,
                        SAYING("fence_straight.no_bow", SAY_STR("u", print_result(b, test).u), SAY_STR("unit", words_unit(b->units))));
        return;
    }
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("fence_straight.zone", from, to, place,
                           SAY_KEY("is", sum->zone.hump ? "fence_straight.is_proud" : "fence_straight.is_hollow")));
}

static const struct action_row record_rows[] = {
    {"general.record.unplug", "general.record.unplug.why", NULL, SIGNAL_NONE},
    {"fence_straight.record.do", "fence_straight.record.do.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, record_rows, COUNT_OF(record_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

static const double usual_shim[] = {[UNITS_MM] = 0.5, [UNITS_IN] = 0.020 * MM_PER_INCH};

static struct saying say(const struct sheet_builder *b, const char *key)
{
    return SAYING(key, SAY_ARG("limit", SAY_LIMIT, b->job->tolerances.bow.v),
                  SAY_ARG("shim", SAY_FIT, usual_shim[b->units]));
}

static const struct action_row read_rows[] = {
    {"fence_straight.bench.clean", "fence_straight.bench.clean.why", "fence_straight.bench.clean.caution",
     SIGNAL_WARNING},
    {"fence_straight.bench.shims", "fence_straight.bench.shims.why", NULL, SIGNAL_NONE},
    {"fence_straight.bench.read", "fence_straight.bench.read.why", NULL, SIGNAL_NONE},
    {"fence_straight.bench.turn", "fence_straight.bench.turn.why", NULL, SIGNAL_NONE},
};
static const struct action_row plane_rows[] = {BENCH_SHOW_ROW, BENCH_AGAIN_ROW};
static const struct blank place_blanks[] = {
    {"fence_straight.bench.at", NULL, NULL, 18},
    {"fence_straight.bench.gap", NULL, NULL, GAP_BOX(20)},
    {"fence_straight.bench.minus", NULL, "fence_straight.bench.stands", 20},
};
static const struct blank shim_blanks[] = {{"fence_straight.bench.shim", NULL, NULL, 22}};
static const struct blank bow_blanks[] = {
    {"fence_straight.bench.most", NULL, NULL, 22},
    {NULL, MINUS, "fence_straight.bench.least", 22},
    {NULL, "=", "fence_straight.bench.bow", 22},
};
static const struct blank *const blanks[] = {shim_blanks,  place_blanks, place_blanks, place_blanks,
                                             place_blanks, place_blanks, bow_blanks};
static const int blank_counts[] = {COUNT_OF(shim_blanks),  COUNT_OF(place_blanks), COUNT_OF(place_blanks),
                                   COUNT_OF(place_blanks), COUNT_OF(place_blanks), COUNT_OF(place_blanks),
                                   COUNT_OF(bow_blanks)};
static const char *const mistakes[] = {"fence_straight.mistake.shims", "fence_straight.mistake.press",
                                       "fence_straight.mistake.height", "fence_straight.mistake.rule"};
static const struct bench_page page = {
    .method = METHOD_FENCE_STRAIGHT,
    .heading_key = "fence_straight.bench",
    .idea_key = "fence_straight.bench.idea",
    .actions = {"fence_straight.bench.do", read_rows, COUNT_OF(read_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "fence_straight.bench.allowed",
    .of_key = "fence_straight.bench.of",
    .signs_key = "fence_straight.bench.signs",
    .moving = {"bench.adjust", plane_rows, COUNT_OF(plane_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_FENCE_STRAIGHT);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    bench_add_page(b, list, &page);
}

const struct sheet_method sheet_method_fence_straight = {
    .name_key = "method.fence-straight",
    .subject_key = "fence_straight.subject",
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
