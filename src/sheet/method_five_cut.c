/* The five-cut method's row: what it says on the wall, what was read, the verdict, the reckoner. */
#include "sheet/five_cut.h"
#include "sheet/general.h"

#include <math.h>

static const struct column_row reckoner_columns[] = {
    {"five_cut.differ", ALIGN_POINT, 0},
    {"five_cut.move", ALIGN_POINT, 0},
    {"five_cut.leaves", ALIGN_LEFT, 1}, /* last: left out where the job has no set */
};
static const struct column_row reading_columns[] = {
    {"five_cut.strip", ALIGN_LEFT, 0},
    {"five_cut.fence_end", ALIGN_RIGHT, 1},
    {"five_cut.mean", ALIGN_POINT, 0},
    {"five_cut.far_end", ALIGN_RIGHT, 1},
    {"five_cut.mean", ALIGN_POINT, 0},
    {"five_cut.difference", ALIGN_POINT, 0},
};

static const char *const error_keys[] = {
    [FINDING_WITHIN] = "five_cut.wall.within",
    [FINDING_OUTSIDE] = "five_cut.wall.outside",
    [FINDING_UNDECIDED] = "five_cut.wall.undecided",
};
static const char *const verdict_keys[] = {
    [FINDING_WITHIN] = "finding.within",
    [FINDING_OUTSIDE] = "finding.outside",
    [FINDING_UNDECIDED] = "finding.undecided",
};

/* Which way, where the error is surely not nothing. */
static const char *say_which_way(const struct sheet_builder *b, const struct proof_test *test)
{
    if (fabs(test->error) <= test->expanded_uncertainty)
        return "";
    return print_word(b, test->error > 0 ? "five_cut.wall.away" : "five_cut.wall.toward");
}

static const char *error_line(const struct sheet_builder *b, const struct proof_test *test)
{
    struct printed_result r = print_result(b, test);
    return print_saying(b, SAYING(error_keys[test->finding], SAY_STR("error", r.size), SAY_STR("u", r.u),
                                  SAY_STR("unit", words_unit(b->units)), SAY_STR("over", print_over_length(b, test)),
                                  SAY_ARG("limit", SAY_LIMIT, test->tolerance * test->over_length),
                                  SAY_STR("which", say_which_way(b, test))));
}

/* Places of the reading that has most: one instrument, one column of figures. */
static int given_places(const struct sheet_builder *b, const struct five_cut_readings *given)
{
    int most = 0;
    for (size_t i = 0; i < given->n_strips; i++) {
        const struct readings *ends[] = {&given->strips[i].fence_end, &given->strips[i].far_end};
        for (int k = 0; k < 2; k++) {
            int places = readings_places(b, ends[k]->v, ends[k]->n);
            most = places > most ? places : most;
        }
    }
    return most;
}

static const char *list_readings(const struct sheet_builder *b, const struct readings *readings, int places)
{
    return print_readings_to(b, readings->v, readings->n, places);
}

static void add_reading_rows(const struct sheet_builder *b, struct block *table, const struct proof_test *test)
{
    const struct five_cut_readings *given = &test->job->as.five_cut;
    int places = five_cut_width_places(b, test), read = given_places(b, given);
    for (size_t i = 0; i < given->n_strips; i++) {
        const struct five_cut_run *run = &test->as.five_cut.runs[i];
        const char *const cells[] = {
            pool_printf(b->pool, "%zu", i + 1),      list_readings(b, &given->strips[i].fence_end, read),
            print_places(b, run->fence_end, places), list_readings(b, &given->strips[i].far_end, read),
            print_places(b, run->far_end, places),   print_places(b, run->difference, places),
        };
        table_add_row(b, table, cells);
    }
}

/* L, sides, D and who measured, as far as the job tells. */
static const char *say_conditions(const struct sheet_builder *b, const struct proof_test *test)
{
    const struct five_cut_sum *sum = &test->as.five_cut;
    const char *all = print_saying(b, SAYING("five_cut.conditions", SAY_STR("length", print_measure(b, sum->length)),
                                             SAY_KEY("offcut", key_of_side(test->job->as.five_cut.offcut)),
                                             SAY_KEY("fence", key_of_fence(b->plan->setting.fence_side))));
    if (sum->pivot_to_moving > 0)
        all = pool_printf(b->pool, "%s %s", all,
                          print_saying(b, SAYING("five_cut.pivot_to_gauge",
                                                 SAY_STR("distance", print_measure(b, sum->pivot_to_moving)))));
    if (test->job->by.s)
        all = pool_printf(b->pool, "%s %s", all,
                          print_saying(b, SAYING("five_cut.measured_by", SAY_STR("by", test->job->by.s))));
    return all;
}

static void add_readings(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct block table = table_begin(b, NULL, reading_columns, COUNT_OF(reading_columns));
    table.as.table.caption = print_saying(b, SAYING("five_cut.readings", SAY_KEY("unit", key_of_unit(b->units))));
    add_reading_rows(b, &table, test);
    block_append(b, list, table);
    block_text(b, list, STYLE_BODY, say_conditions(b, test));
}

static void add_verdict(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    struct printed_result r = print_result(b, test);
    block_boxed(
        b, list, STYLE_LEAD,
        print_saying(b, SAYING("five_cut.verdict", SAY_KEY("finding", verdict_keys[test->finding]),
                               SAY_STR("error", r.value), SAY_STR("u", r.u), SAY_STR("unit", words_unit(b->units)),
                               SAY_STR("over", print_over_length(b, test)),
                               SAY_STR("k", print_significant(b, test->coverage_factor, 3)),
                               SAY_ARG("limit", SAY_LIMIT, test->tolerance * test->over_length),
                               SAY_STR("working", general_verdict_working(b, test)))));
    block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("five_cut.headline_sign"));
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("verdict.rule", SAY_ARG("tolerance", SAY_LIMIT, test->tolerance * test->over_length)));
    if (test->tolerance_is_default)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("sheet.default_tolerance"));
}

/* ---- reckoner ---- */

const char *five_cut_leave_alone(const struct sheet_builder *b)
{
    static const char *const keys[] = {
        [0] = "five_cut.never_small_enough", [1] = "five_cut.leave_one", [3] = "five_cut.leave_three"};
    const struct reckoner *r = &b->proof->reckoner;
    return print_saying(b, SAYING(keys[r->leave_strips], SAY_ARG("below", SAY_FIT, r->leave_below),
                                  SAY_ARG("above", SAY_FIT, r->out_above),
                                  SAY_STR("factor", print_significant(b, r->factor, 4))));
}

static void add_reckoner_face(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("five_cut.reckoner.face", SAY_ARG("length", SAY_SIZE, r->length),
                           SAY_ARG("distance", SAY_SIZE, r->pivot_to_moving),
                           SAY_KEY("fence", key_of_fence(r->fence_side)), SAY_KEY("offcut", key_of_side(r->offcut)),
                           SAY_KEY("pivot", key_of_side(r->pivot_side)),
                           SAY_KEY("turn", key_of_turn(r->fence_side, r->offcut))));
}

static void add_reckoner_row(const struct sheet_builder *b, struct block *table, const struct reckoner_row *row)
{
    const char *const cells[] = {print_number(b, SAY_FIT, row->differ),
                                 print_bold(b, print_number(b, row->n_leaves > 0 ? SAY_LIMIT : SAY_FIT, row->move)),
                                 row->n_leaves > 0 ? print_leaves(b, row->leaves, row->n_leaves)
                                                   : print_word(b, "five_cut.no_leaves")};
    table_add_row(b, table, cells);
}

int reckoner_leaves_most(const struct reckoner *r)
{
    int most = 0;
    for (int i = 0; i < r->n_rows; i++)
        most = r->rows[i].n_leaves > most ? r->rows[i].n_leaves : most;
    return most;
}

/* Rows spread over the whole reckoner, its first and last among them; no column of leaves where the job has no set. */
static void add_reckoner_rows(const struct sheet_builder *b, struct block_list *list, int most)
{
    const struct reckoner *r = &b->proof->reckoner;
    struct block table = table_begin(b, NULL, reckoner_columns, reckoner_leaves_most(r) > 0 ? 3 : 2);
    int n = r->n_rows < most ? r->n_rows : most;
    for (int i = 0; i < n; i++)
        add_reckoner_row(b, &table, &r->rows[n > 1 ? i * (r->n_rows - 1) / (n - 1) : 0]);
    if (n > 0)
        block_append(b, list, table);
}

static void add_reckoner_signs(const struct sheet_builder *b, struct block_list *list)
{
    const struct reckoner *r = &b->proof->reckoner;
    block_paragraph(b, list, STYLE_BODY,
                    SAYING("five_cut.reckoner.signs", SAY_KEY("end", key_of_side(r->moving_end)),
                           SAY_KEY("fence_wider", key_of_toward(r->fence_end_wider)),
                           SAY_KEY("far_wider", key_of_toward(r->far_end_wider))));
}

void five_cut_add_reckoner_table(const struct sheet_builder *b, struct block_list *list, int most_rows)
{
    block_heading(b, list, 3, SAYING("five_cut.reckoner", SAY_KEY("unit", key_of_unit(b->units))));
    add_reckoner_signs(b, list);
    block_keep_with_next(list);
    add_reckoner_rows(b, list, most_rows);
    add_reckoner_face(b, list);
}

void five_cut_add_reckoner(const struct sheet_builder *b, struct block_list *list, int most_rows)
{
    if (!b->proof->reckoner.has)
        return;
    five_cut_add_reckoner_table(b, list, most_rows);
    const struct proof_test *latest = proof_latest(b->proof, METHOD_FIVE_CUT);
    if (latest && !latest->stale && latest->finding == FINDING_WITHIN)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("five_cut.reckoner.within"));
    block_text(b, list, STYLE_BODY, five_cut_leave_alone(b));
}

static bool has_bench(const struct sheet_builder *b)
{
    return b->proof->reckoner.has;
}

const struct sheet_method sheet_method_five_cut = {
    .name_key = "method.five-cut",
    .subject_key = "five_cut.subject",
    .moved_by_play = true,
    .count_key = "record.strips",
    .needs_no_standard = true,
    .error_line = error_line,
    .add_reckoner = five_cut_add_reckoner,
    .add_readings = add_readings,
    .add_sum = five_cut_add_sum,
    .add_budget = five_cut_add_budget,
    .add_verdict = add_verdict,
    .has_bench = has_bench,
    .add_bench = five_cut_add_bench,
};
