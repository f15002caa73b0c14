/* The row of box-joint fingers: readings, pitch and fit, key or cutter, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include "proof/box_joint_sums.h"

#include <math.h>

enum { FINGERS_USUAL = 10 };

/* ---- record ---- */

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct box_joint_readings *r = &test->job->as.box_joint;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING(r->slot.given ? "box_joint.readings_slot" : "box_joint.readings",
                           SAY_ARG("n", SAY_COUNT, r->fingers.v), SAY_ARG("got", SAY_LIMIT, r->got.v),
                           SAY_ARG("finger", SAY_LIMIT, r->finger.v), SAY_ARG("slot", SAY_LIMIT, r->slot.v),
                           SAY_ARG("set", SAY_LIMIT, r->set.v)));
    general_add_by(b, list, test);
}

static void add_fit_rows(const struct sheet_builder *b, struct block *table, const struct box_joint_sum *sum)
{
    if (isnan(sum->fit))
        return;
    sum_add_row(b, table, SAYING_PLAIN("box_joint.fit_row"),
                pool_printf(b->pool, "%s " MINUS " %s", print_measure(b, sum->slot), print_measure(b, sum->finger)),
                print_places(b, sum->fit, PLACES_ERROR));
    if (!sum->change_cutter && fabs(sum->toward) > 0)
        sum_add_row(b, table, SAYING_PLAIN("box_joint.fit_after"),
                    pool_printf(b->pool, "%s %s %s", print_places(b, sum->fit, PLACES_ERROR),
                                sum->toward > 0 ? "+" : MINUS, print_places(b, fabs(sum->toward), PLACES_ERROR)),
                    print_places(b, sum->fit_after, PLACES_ERROR));
}

/* "(210.45 − 9.95) ÷ (11 − 1)" */
static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct box_joint_sum *sum = &test->as.box_joint;
    struct block table = sum_begin(b);
    sum_add_row(b, &table, SAYING_PLAIN("box_joint.pitch"),
                pool_printf(b->pool, "(%s " MINUS " %s) ÷ (%d " MINUS " 1)", print_measure(b, sum->got),
                            print_measure(b, sum->finger), sum->fingers),
                print_places(b, sum->pitch, PLACES_ERROR));
    sum_add_row(b, &table, SAYING_PLAIN("box_joint.pitch_error"),
                pool_printf(b->pool, "%s " MINUS " %s", print_places(b, sum->pitch, PLACES_ERROR),
                            print_measure(b, test->job->as.box_joint.set.v)),
                print_places(b, test->error, PLACES_ERROR));
    add_fit_rows(b, &table, sum);
    block_append(b, list, table);
    if (fabs(test->error) > 1e-9)
        general_add_way(b, list, test,
                        SAYING_PLAIN(test->error > 0 ? "box_joint.sign.large" : "box_joint.sign.small"));
}

static const struct action_row cutter_rows[] = {
    {"general.record.unplug", "general.record.unplug.why", NULL, SIGNAL_NONE},
    {"box_joint.record.cutter", "box_joint.record.cutter.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};
static const struct action_row key_rows[] = {
    {"general.record.unplug", "general.record.unplug.why", NULL, SIGNAL_NONE},
    {"box_joint.record.do", "box_joint.record.do.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};

_Static_assert(COUNT_OF(cutter_rows) == COUNT_OF(key_rows), "as many actions for cutter and key");

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct action_row *rows = test->as.box_joint.change_cutter ? cutter_rows : key_rows;
    general_add_steps(b, list, rows, COUNT_OF(key_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

/* As many fingers as usual of the pitch wanted last: how far a caliper must open. */
static double row_length(const struct proof_test *latest)
{
    return latest ? (FINGERS_USUAL - 0.5) * latest->job->as.box_joint.set.v : NAN;
}

/* The fit counts as right as far as readings like the last ones can tell. */
static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct proof_test *latest = proof_latest(b->proof, METHOD_BOX_JOINT);
    double place = b->units == UNITS_IN ? 0.0001 * MM_PER_INCH : 0.001;
    double u = latest && !isnan(latest->as.box_joint.fit_u) ? ceil(latest->as.box_joint.fit_u / place) * place : 0;
    return SAYING(key, SAY_ARG("limit", SAY_LIMIT, b->job->tolerances.box_pitch.v),
                  SAY_ARG("n", SAY_COUNT_WORD, FINGERS_USUAL), SAY_ARG("low", SAY_LIMIT, BOX_FIT_LOW - u),
                  SAY_ARG("high", SAY_LIMIT, BOX_FIT_HIGH + u),
                  SAY_ARG("middle", SAY_LIMIT, (BOX_FIT_LOW + BOX_FIT_HIGH) / 2),
                  SAY_ARG("set", SAY_LIMIT, latest ? latest->job->as.box_joint.set.v : NAN),
                  SAY_ARG("row", SAY_ABOUT, row_length(latest)));
}

static const struct action_row cut_rows[] = {
    {"box_joint.bench.cut", "box_joint.bench.cut.why", "box_joint.bench.cut.caution", SIGNAL_WARNING},
    {"box_joint.bench.row", "box_joint.bench.row.why", NULL, SIGNAL_NONE},
    {"box_joint.bench.finger", "box_joint.bench.finger.why", NULL, SIGNAL_NONE},
};
static const struct action_row known_rows[] = {
    {"box_joint.bench.cut", "box_joint.bench.cut.why", "box_joint.bench.cut.caution", SIGNAL_WARNING},
    {"box_joint.bench.row_known", "box_joint.bench.row.why", NULL, SIGNAL_NONE},
    {"box_joint.bench.finger", "box_joint.bench.finger.why", NULL, SIGNAL_NONE},
};
static const struct action_row key_rows_bench[] = {
    BENCH_SHOW_ROW,
    {"box_joint.bench.move", "box_joint.bench.move.why", NULL, SIGNAL_NONE},
    BENCH_AGAIN_ROW,
};
#define PITCH_BLANKS                                                                                                   \
    {"box_joint.bench.got", NULL, NULL, 20}, {"box_joint.bench.one", NULL, "box_joint.bench.finger_caption", 20},      \
    {                                                                                                                  \
        "box_joint.bench.steps", NULL, "box_joint.bench.steps_caption", 18                                             \
    }
static const struct blank pitch_blanks[] = {
    PITCH_BLANKS,
    {"box_joint.bench.wanted", NULL, "box_joint.bench.set_caption", 20},
    {NULL, "=", "box_joint.bench.error", 20},
};
static const struct blank known_blanks[] = {
    PITCH_BLANKS,
    {"box_joint.bench.wanted_is", NULL, "box_joint.bench.error", 20},
};
static const struct blank fit_blanks[] = {
    {"box_joint.bench.slot", NULL, NULL, 20},
    {"box_joint.bench.one", NULL, "box_joint.bench.finger_caption", 20},
    {NULL, "=", "box_joint.bench.fit", 20},
    {NULL, "+", "box_joint.bench.error", 20},
    {NULL, "=", "box_joint.bench.fit_after", 24},
};
static const struct blank asks_blanks[] = {
    {"box_joint.bench.asks", NULL, "box_joint.bench.fit", 20},
    {NULL, "=", "box_joint.bench.fit_asks", 20},
    {NULL, MINUS, "box_joint.bench.error", 20},
    {NULL, "=", "box_joint.bench.differ", 22},
};
static const struct blank *const blanks[] = {pitch_blanks, fit_blanks, asks_blanks};
static const struct blank *const blanks_known[] = {known_blanks, fit_blanks, asks_blanks};
static const int blank_counts[] = {COUNT_OF(pitch_blanks), COUNT_OF(fit_blanks), COUNT_OF(asks_blanks)};
static const int counts_known[] = {COUNT_OF(known_blanks), COUNT_OF(fit_blanks), COUNT_OF(asks_blanks)};
static const char *const mistakes[] = {"box_joint.mistake.far", "box_joint.mistake.dust", "box_joint.mistake.count",
                                       "box_joint.mistake.fuzz"};
static const struct bench_page page = {
    .method = METHOD_BOX_JOINT,
    .heading_key = "box_joint.bench",
    .idea_key = "box_joint.bench.idea",
    .actions = {"box_joint.bench.do", cut_rows, COUNT_OF(cut_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "box_joint.bench.allowed",
    .of_key = "box_joint.bench.of",
    .signs_key = "box_joint.bench.signs",
    .moving = {"bench.adjust", key_rows_bench, COUNT_OF(key_rows_bench), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_BOX_JOINT);
}

/* The pitch wanted is that of the latest test. */
static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    struct bench_page own = page;
    if (proof_latest(b->proof, METHOD_BOX_JOINT)) {
        own.actions.rows = known_rows;
        own.blanks = blanks_known;
        own.blank_counts = counts_known;
    }
    bench_add_page(b, list, &own);
}

const struct sheet_method sheet_method_box_joint = {
    .name_key = "method.box-joint",
    .subject_key = "box_joint.subject",
    .until_then_key = "box_joint.until_then",
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
