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

static struct saying say(const struct sheet_builder *b, const char *key)
{
    return SAYING(key, SAY_ARG("limit", SAY_LIMIT, b->job->tolerances.box_pitch.v),
                  SAY_ARG("n", SAY_COUNT_WORD, FINGERS_USUAL), SAY_ARG("low", SAY_FIT, BOX_FIT_LOW),
                  SAY_ARG("high", SAY_FIT, BOX_FIT_HIGH));
}

static const struct action_row cut_rows[] = {
    {"box_joint.bench.cut", "box_joint.bench.cut.why", "box_joint.bench.cut.caution", SIGNAL_WARNING},
    {"box_joint.bench.row", "box_joint.bench.row.why", NULL, SIGNAL_NONE},
    {"box_joint.bench.finger", "box_joint.bench.finger.why", NULL, SIGNAL_NONE},
};
static const struct blank pitch_blanks[] = {
    {"box_joint.bench.got", NULL, NULL, 18},
    {"box_joint.bench.one", NULL, "box_joint.bench.finger_caption", 18},
    {"box_joint.bench.steps", NULL, "box_joint.bench.steps_caption", 12},
    {"box_joint.bench.wanted", NULL, "box_joint.bench.set_caption", 18},
    {NULL, "=", "box_joint.bench.error", 18},
};
static const struct blank fit_blanks[] = {
    {"box_joint.bench.slot", NULL, NULL, 22},
    {"box_joint.bench.one", NULL, "box_joint.bench.finger_caption", 22},
    {NULL, "=", "box_joint.bench.fit", 22},
};
static const struct blank *const blanks[] = {pitch_blanks, fit_blanks};
static const int blank_counts[] = {COUNT_OF(pitch_blanks), COUNT_OF(fit_blanks)};
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
    .signs_key = "box_joint.bench.signs",
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_BOX_JOINT);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    bench_add_page(b, list, &page);
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
