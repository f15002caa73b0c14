/* The row of a runner's play: readings, worst place, yaw, plane or pack, the bench page. */
#include "sheet/bench_page.h"
#include "sheet/general.h"

#include <math.h>

static const char *const line_keys[] = {
    [FINDING_WITHIN] = "side_play.line.within",
    [FINDING_OUTSIDE] = "side_play.line.outside",
    [FINDING_UNDECIDED] = "side_play.line.undecided",
};

static const char *error_line(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct side_play_sum *sum = &test->as.side_play;
    return print_saying(b, SAYING(line_keys[test->finding], SAY_ARG("least", SAY_FIT, sum->least),
                                  SAY_ARG("most", SAY_FIT, sum->most), SAY_ARG("low", SAY_FIT, sum->low),
                                  SAY_ARG("high", SAY_FIT, sum->high), SAY_STR("u", print_result(b, test).u),
                                  SAY_STR("date", print_date(b, test->job->date))));
}

/* ---- record ---- */

static const char *print_taken(const struct sheet_builder *b, const struct side_play_sum *sum)
{
    const char *all = "";
    for (size_t i = 0; i < sum->n; i++)
        all = pool_printf(b->pool, "%s%s%s", all, i ? "  " : "", print_places(b, sum->plays[i].value, PLACES_ERROR));
    return all;
}

static bool is_by_leaves(const struct side_play_sum *sum)
{
    return !isnan(sum->plays[0].below);
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct readings *r = &test->job->as.side_play.plays;
    const struct side_play_sum *sum = &test->as.side_play;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("side_play.readings", SAY_STR("readings", print_readings(b, r->v, r->n))));
    if (is_by_leaves(sum))
        block_paragraph(b, list, STYLE_BODY, SAYING("side_play.taken", SAY_STR("readings", print_taken(b, sum))));
    general_add_by(b, list, test);
}

/* "(0.05 + 0.25) ÷ 2" */
static const char *express_middle(const struct sheet_builder *b, const struct side_play_sum *sum)
{
    return pool_printf(b->pool, "(%s + %s) ÷ 2", print_as_given(b, sum->low), print_as_given(b, sum->high));
}

static void add_yaw_row(const struct sheet_builder *b, struct block *table, const struct side_play_sum *sum)
{
    double over = b->job->tolerances.squareness.over.v;
    if (isnan(sum->yaw))
        return;
    sum_add_row(b, table, SAYING("side_play.yaw_row", SAY_ARG("over", SAY_SIZE, over)),
                pool_printf(b->pool, "%s ÷ %s × %s", print_places(b, sum->most, PLACES_ERROR),
                            print_measure(b, sum->engaged), print_measure(b, over)),
                print_places(b, sum->yaw * over, PLACES_ERROR));
}

static void add_sum(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct side_play_sum *sum = &test->as.side_play;
    double middle = (sum->low + sum->high) / 2;
    struct block table = sum_begin(b);
    sum_add_row(b, &table, SAYING_PLAIN("side_play.least"), "", print_places(b, sum->least, PLACES_ERROR));
    sum_add_row(b, &table, SAYING_PLAIN("side_play.most"), "", print_places(b, sum->most, PLACES_ERROR));
    sum_add_row(b, &table, SAYING_PLAIN("side_play.middle"), express_middle(b, sum),
                print_places(b, middle, PLACES_ERROR));
    sum_add_row(b, &table, SAYING_PLAIN("side_play.worst"),
                pool_printf(b->pool, "%s " MINUS " %s", print_places(b, sum->plays[sum->worst].value, PLACES_ERROR),
                            print_places(b, middle, PLACES_ERROR)),
                print_places(b, test->error, PLACES_ERROR));
    add_yaw_row(b, &table, sum);
    block_append(b, list, table);
    block_paragraph(b, list, STYLE_BODY,
                    SAYING(test->error < 0 ? "side_play.sign.tight" : "side_play.sign.loose",
                           SAY_ARG("place", SAY_COUNT, (double)sum->worst + 1)));
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("side_play.rule", SAY_ARG("low", SAY_FIT, sum->low), SAY_ARG("high", SAY_FIT, sum->high)));
}

static const struct action_row record_rows[] = {
    {"general.record.unplug", "general.record.unplug.why", NULL, SIGNAL_NONE},
    {"side_play.record.do", "side_play.record.do.why", NULL, SIGNAL_NONE},
    {"general.record.again", "general.record.again.why", NULL, SIGNAL_NONE},
};

static void add_move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    general_add_steps(b, list, record_rows, COUNT_OF(record_rows), move_sentence(b, &test->move));
}

/* ---- bench ---- */

static struct saying say(const struct sheet_builder *b, const char *key)
{
    const struct job_tolerances *t = &b->job->tolerances;
    return SAYING(key, SAY_ARG("low", SAY_FIT, t->side_play_low.v), SAY_ARG("high", SAY_FIT, t->side_play_high.v),
                  SAY_ARG("middle", SAY_LIMIT, (t->side_play_low.v + t->side_play_high.v) / 2),
                  SAY_ARG("engaged", SAY_SIZE, b->plan->setting.engaged_length), SAY_ARG("range", SAY_FIT, t->side_play_high.v - t->side_play_low.v),
                  SAY_ARG("over", SAY_SIZE, t->squareness.over.v));
}

/* The zones of the error are about the middle of the limits. */
static const char *say_zones(const struct sheet_builder *b)
{
    const struct zones *z = &b->proof->zones[METHOD_SIDE_PLAY];
    const struct job_tolerances *t = &b->job->tolerances;
    double middle = (t->side_play_low.v + t->side_play_high.v) / 2;
    bool binds = middle - z->move_from < 0; /* no play shows it: less than none cannot be read */
    return print_saying(b, SAYING(isnan(z->leave_to) ? "side_play.bench.zones.no_leave"
                                  : binds            ? "side_play.bench.zones.binds"
                                                     : "side_play.bench.zones",
                                  SAY_ARG("from", SAY_LIMIT, middle - z->leave_to),
                                  SAY_ARG("to", SAY_LIMIT, middle + z->leave_to),
                                  SAY_ARG("tight", SAY_LIMIT, middle - z->move_from),
                                  SAY_ARG("loose", SAY_LIMIT, middle + z->move_from)));
}

static const struct action_row read_rows[] = {
    {"side_play.bench.clean", "side_play.bench.clean.why", "side_play.bench.clean.caution", SIGNAL_WARNING},
    {"side_play.bench.press", "side_play.bench.press.why", NULL, SIGNAL_NONE},
    {"side_play.bench.along", "side_play.bench.along.why", NULL, SIGNAL_NONE},
};
static const struct action_row fit_rows[] = {BENCH_SHOW_ROW, BENCH_AGAIN_ROW};
#define PLAY_BLANKS(key)                                                                                               \
    {                                                                                                                  \
        {key, NULL, NULL, 0},                                                                                          \
        {                                                                                                              \
            NULL, NULL, NULL, GAP_BOX(20)                                                                              \
        }                                                                                                              \
    }
static const struct blank play_blanks[5][2] = {
    PLAY_BLANKS("side_play.bench.place_1"), PLAY_BLANKS("side_play.bench.place_2"), PLAY_BLANKS("side_play.bench.place_3"),
    PLAY_BLANKS("side_play.bench.place_4"), PLAY_BLANKS("side_play.bench.place_5")};
static const struct blank change_blanks[] = {
    {"side_play.bench.least_and_most", NULL, "side_play.least", 22},
    {NULL, "+", "side_play.most", 22},
    {"bench.halve", NULL, NULL, 22},
    {"side_play.bench.less_middle", NULL, "side_play.bench.change", 24},
};
static const struct blank yaw_blanks[] = {
    {"side_play.bench.most", NULL, NULL, 22},
    {"side_play.bench.over", NULL, NULL, 24},
    {"side_play.bench.times", NULL, "side_play.bench.yaw", 24},
};
static const struct blank yaw_known_blanks[] = { /* with the plan's length */
    {"side_play.bench.most", NULL, NULL, 22},
    {"side_play.bench.over_known", NULL, "side_play.bench.yaw", 24},
};
static const struct blank *const known_blanks[] = {play_blanks[0], play_blanks[1], play_blanks[2],  play_blanks[3],
                                                   play_blanks[4], change_blanks,  yaw_known_blanks};
static const int known_counts[] = {2, 2, 2, 2, 2, COUNT_OF(change_blanks), COUNT_OF(yaw_known_blanks)};
static const struct blank *const blanks[] = {play_blanks[0], play_blanks[1], play_blanks[2], play_blanks[3],
                                             play_blanks[4], change_blanks,  yaw_blanks};
static const int blank_counts[] = {2, 2, 2, 2, 2, COUNT_OF(change_blanks), COUNT_OF(yaw_blanks)};
static const char *const mistakes[] = {"side_play.mistake.season", "side_play.mistake.screws", "side_play.mistake.two",
                                       "side_play.mistake.wax"};
static const struct bench_page page = {
    .method = METHOD_SIDE_PLAY,
    .heading_key = "side_play.bench",
    .idea_key = "side_play.bench.idea",
    .actions = {"side_play.bench.do", read_rows, COUNT_OF(read_rows), say},
    .blanks = blanks,
    .blank_counts = blank_counts,
    .n_blanks = COUNT_OF(blanks),
    .allowed_key = "side_play.bench.allowed",
    .say_zones = say_zones,
    .signs_key = "side_play.bench.signs",
    .moving = {"bench.adjust", fit_rows, COUNT_OF(fit_rows), say},
    .mistake_keys = mistakes,
    .n_mistakes = COUNT_OF(mistakes),
    .say = say,
};

static bool has_bench(const struct sheet_builder *b)
{
    return bench_has_test_of(b, METHOD_SIDE_PLAY);
}

static void add_bench(const struct sheet_builder *b, struct block_list *list)
{
    struct bench_page own = page;
    if (b->plan->setting.engaged_length > 0) {
        own.blanks = known_blanks;
        own.blank_counts = known_counts;
    }
    bench_add_page(b, list, &own);
}

const struct sheet_method sheet_method_side_play = {
    .name_key = "method.side-play",
    .subject_key = "side_play.subject",
    .tells_remark = true,
    .error_line = error_line,
    .add_readings = add_readings,
    .add_sum = add_sum,
    .add_move_steps = add_move_steps,
    .has_bench = has_bench,
    .add_bench = add_bench,
};
