/* What stands on the four sheets, in every state of a jig. */
#include "kit.h"

#include "base/date.h"

static const char outside_test[] =
    "tests:\n  - {method: five-cut, date: 2026-11-02, instrument: caliper-3, offcut: right, length: 388, strips: ["
    "{fence_end: 21.90, far_end: 21.20}, {fence_end: 22.60, far_end: 21.91}, {fence_end: 21.35, far_end: 20.66}]}\n";
static const char stale_change[] = "changes: [{date: 2026-11-10, what: new blade}]\n";
static const char history[] =
    "tests:\n"
    "  - {method: five-cut, date: 2026-05-05, offcut: right, length: 388, by: A. Smith, strips: [{fence_end: 21.90, "
    "far_end: 21.20}], "
    "moved: {end: right, toward: operator, distance: 0.28}}\n"
    "  - {method: five-cut, date: 2026-06-01, offcut: right, length: 388, practice: true, strips: [{fence_end: 21.30, "
    "far_end: 21.20}]}\n"
    "  - {method: five-cut, date: 2026-08-04, offcut: right, length: 388, strips: [{fence_end: 21.30, far_end: 21.20}, "
    "{fence_end: 21.31, far_end: 21.20}, {fence_end: 21.30, far_end: 21.19}]}\n";

/* A job for each state, and one for what else a sheet may have to say. */
static const struct situation {
    const char *name, *layers, *tests, *rest;
    enum state state;
    const char *words;
    enum mark_shape mark;
} situations[] = {
    {"fit", "5", THREE_STRIPS, "", STATE_FIT, "FIT FOR USE", MARK_FILLED_SQUARE},
    {"not tested", "5", "", "", STATE_NOT_TESTED, "NOT TESTED", MARK_EMPTY_SQUARE},
    {"undecided", "5", ONE_STRIP, "", STATE_NOT_PROVEN, "NOT PROVEN", MARK_HALF_SQUARE},
    {"stale", "5", THREE_STRIPS, stale_change, STATE_NOT_PROVEN, "NOT PROVEN", MARK_HALF_SQUARE},
    {"outside", "5", outside_test, "", STATE_DO_NOT_USE, "DO NOT USE", MARK_CROSS},
    {"guard too thin", "1", THREE_STRIPS, "", STATE_DO_NOT_USE, "DO NOT USE", MARK_CROSS},
    {"history", "5", history, "", STATE_FIT, "FIT FOR USE", MARK_FILLED_SQUARE},
};
enum { SITUATIONS = sizeof situations / sizeof *situations };

static struct made *make_situation(const struct situation *s)
{
    struct made *m = make_job(false, s->layers, "0.10", s->tests, s->rest);
    if (m->outcome.state != s->state)
        print_error("%s: state %d\n", s->name, (int)m->outcome.state);
    assert_int_equal(m->outcome.state, s->state);
    return m;
}

static void check_banner(const struct block *b, void *arg)
{
    const struct situation *s = arg;
    if (b->kind != BLOCK_BANNER)
        return;
    assert_string_equal(b->as.banner.words, s->words);
    assert_int_equal(b->as.banner.mark, s->mark);
    assert_int_equal(strncmp(b->as.banner.right, "valid to ", 9) == 0, s->state == STATE_FIT);
}

static void test_wall_state_words_and_mark(void **state)
{
    (void)state;
    for (int i = 0; i < SITUATIONS; i++) {
        struct situation s = situations[i];
        struct made *m = make_situation(&s);
        const struct sheet *wall = find_sheet(m, SHEET_WALL);
        assert_true(wall->one_page);
        visit_blocks(&wall->body, check_banner, &s);
        assert_says(wall, s.words, true);
        free_made(m);
    }
}

/* May I use it? how far off? until when? what next? */
static void test_wall_answers(void **state)
{
    static const struct answer {
        int situation;
        const char *says[4];
    } answers[] = {
        {0,
         {"Square to \x0E"
          "0.042 mm in 300\x0F (±\xC2\xA0" "0.005): right end too far from the operator; allowed 0.10.",
          "Tested 2026-11-02, three strips.", "valid to 2027-02-02", "test again by 2027-02-02"}},
        {1, {"How far it is off is not known", "bench sheet", "test cuts only"}},
        {2, {"±\xC2\xA0" "0.13", "Not decided", "more strips", "test cuts only"}},
        {3, {"no longer counts", "new blade", "Test again"}},
        {4, {"Out of square by", "Move the fence’s right end", "toward the operator", "unplugged"}},
        {5, {"The blade comes out", "head of the build sheet", "no cut at all"}},
    };
    (void)state;
    for (size_t i = 0; i < sizeof answers / sizeof *answers; i++) {
        struct made *m = make_situation(&situations[answers[i].situation]);
        for (int k = 0; k < 4 && answers[i].says[k]; k++)
            assert_says(find_sheet(m, SHEET_WALL), answers[i].says[k], true);
        free_made(m);
    }
}

/* A text that no words were found for shows as "?key?". */
static bool has_missing_words(const char *s)
{
    for (const char *p = strchr(s, '?'); p; p = strchr(p + 1, '?')) {
        size_t n = strspn(p + 1, "abcdefghijklmnopqrstuvwxyz0123456789_.-# ");
        if (n > 0 && p[1] != ' ' && p[1 + n] == '?') {
            print_error("missing words: %.*s\n", (int)n + 2, p);
            return true;
        }
    }
    return false;
}

static void check_words_of(const struct made *m)
{
    for (size_t i = 0; i < m->sheets.n; i++) {
        struct text text = gather_sheet(&m->sheets.list[i]);
        assert_false(has_missing_words(text_string(&text)));
        assert_int_equal(utf8_first_bad(text_string(&text), text.size), text.size);
        text_free(&text);
    }
}

static void test_all_words_are_there(void **state)
{
    (void)state;
    for (int i = 0; i < SITUATIONS; i++) {
        struct made *m = make_situation(&situations[i]);
        check_words_of(m);
        free_made(m);
    }
    struct made *inches = make_job(true, "6", "0.004", "", ""), *least = make_sheets(LEAST_JOB, NULL);
    check_words_of(inches);
    check_words_of(least);
    free_made(inches);
    free_made(least);
}

/* Claims that only an accredited laboratory may make (ISO/IEC 17025:2017; ILAC-P8), and conformity with rules that no
   sheet can promise. */
static void test_sheets_never_claim(void **state)
{
    static const char *const never[] = {"ertified", "raceable to", "17025 certificate", "complies with", "guarantee"};
    (void)state;
    for (int i = 0; i < SITUATIONS; i++) {
        struct made *m = make_situation(&situations[i]);
        for (size_t k = 0; k < m->sheets.n; k++)
            for (size_t n = 0; n < sizeof never / sizeof *never; n++)
                assert_says(&m->sheets.list[k], never[n], false);
        free_made(m);
    }
}

static void test_record_says_what_it_is(void **state)
{
    static const char *const says[] = {"In-house record",
                                       "Not issued by an accredited laboratory",
                                       "no conformity with that standard is claimed",
                                       "closure method",
                                       "No metrological traceability is claimed",
                                       "Results relate only to this jig",
                                       "ILAC-G8:09/2019",
                                       "0.1.0"};
    (void)state;
    struct made *m = make_situation(&situations[0]);
    const struct sheet *record = find_sheet(m, SHEET_RECORD);
    for (size_t i = 0; i < sizeof says / sizeof *says; i++)
        assert_says(record, says[i], true);
    assert_says(record, m->job.fingerprint, true);
    assert_says(record, "beyond that of the lengths", false); /* none is claimed for them either */
    free_made(m);
}

static void test_record_shows_history(void **state)
{
    (void)state;
    struct made *m = make_situation(&situations[6]);
    const struct sheet *record = find_sheet(m, SHEET_RECORD);
    assert_says(record, "2026-05-05", true);
    assert_says(record, "practice, does not count", true);
    assert_says(record, "then the right end was moved", true);
    assert_says(record, "A. Smith", true);
    free_made(m);
}

static void count_danger(const struct block *b, void *arg)
{
    int *n = arg;
    for (int i = 0; b->kind == BLOCK_CAUTIONS && i < b->as.cautions.n; i++)
        *n += b->as.cautions.items[i].signal == SIGNAL_DANGER;
    for (int i = 0; b->kind == BLOCK_STEPS && i < b->as.steps.n; i++)
        *n += b->as.steps.items[i].signal == SIGNAL_DANGER;
}

/* DANGER at most once a sheet: overuse dulls it (ANSI Z535.4 keeps it for the most extreme cases). */
static void test_danger_at_most_once(void **state)
{
    (void)state;
    for (int i = 0; i < SITUATIONS; i++) {
        struct made *m = make_situation(&situations[i]);
        for (size_t k = 0; k < m->sheets.n; k++) {
            int n = 0;
            visit_blocks(&m->sheets.list[k].body, count_danger, &n);
            assert_true(n <= 1);
        }
        free_made(m);
    }
}

static void count_large_cautions(const struct block *b, void *arg)
{
    int *n = arg;
    if (b->kind == BLOCK_CAUTIONS && b->as.cautions.style == STYLE_ARM)
        *n += b->as.cautions.n;
}

static void test_wall_cautions(void **state)
{
    (void)state;
    struct made *m = make_situation(&situations[0]);
    int n = 0;
    visit_blocks(&find_sheet(m, SHEET_WALL)->body, count_large_cautions, &n);
    assert_int_equal(n, 3);
    for (size_t i = 0; i < m->plan.n_cautions; i++) { /* the first three in full, the others by their titles */
        struct text text = {0};
        words_put(&text, i < 3 ? &m->plan.cautions[i].text : &m->plan.cautions[i].title, UNITS_MM);
        assert_says(find_sheet(m, SHEET_WALL), text_string(&text), true);
        text_free(&text);
    }
    free_made(m);
}

/* Steps of the sheet are the plan's, all of them, in order, numbered from one, each with a box to tick. */
struct step_count {
    const struct plan *plan;
    size_t n;
};
static void check_steps(const struct block *b, void *arg)
{
    struct step_count *count = arg;
    for (int i = 0; b->kind == BLOCK_STEPS && i < b->as.steps.n; i++) {
        struct text what = {0};
        assert_true(count->n < count->plan->n_steps);
        words_put(&what, &count->plan->steps[count->n].what, UNITS_MM);
        assert_string_equal(b->as.steps.items[i].what, text_string(&what));
        assert_int_equal(atoi(b->as.steps.items[i].number), (int)++count->n);
        assert_true(b->as.steps.items[i].tick);
        text_free(&what);
    }
}

static void test_build_has_all_steps(void **state)
{
    (void)state;
    struct made *m = make_situation(&situations[1]);
    struct step_count count = {&m->plan, 0};
    visit_blocks(&find_sheet(m, SHEET_BUILD)->body, check_steps, &count);
    assert_true(count.n > 10);
    assert_int_equal(count.n, m->plan.n_steps);
    free_made(m);
}

static void test_build_failures_stand_first(void **state)
{
    (void)state;
    struct made *m = make_situation(&situations[5]);
    const struct block_list *body = &find_sheet(m, SHEET_BUILD)->body;
    assert_int_equal(body->blocks[0].kind, BLOCK_HEADING);
    assert_int_equal(body->blocks[1].kind, BLOCK_PARAGRAPH);
    assert_true(body->blocks[1].as.paragraph.boxed);
    assert_says(find_sheet(m, SHEET_BUILD), "FAIL", true);
    free_made(m);
}

static void find_source(const struct block *b, void *arg)
{
    const struct block **source = arg;
    if (b->kind == BLOCK_SOURCE)
        *source = b;
}

/* The record's last block is the job, byte for byte. */
static void test_record_ends_with_job(void **state)
{
    (void)state;
    struct text text = {0};
    text_printf(&text, JOB_IN_MM, "5", "0.10", THREE_STRIPS, "# a remark, with \"quotes\"\tand a tab\n");
    struct made *m = make_sheets(text_string(&text), NULL);
    const struct block *source = NULL;
    const struct block_list *body = &find_sheet(m, SHEET_RECORD)->body;
    visit_blocks(body, find_source, &source);
    assert_ptr_equal(source, &body->blocks[body->n - 1]);
    assert_string_equal(source->as.source.text, text_string(&text));
    assert_string_equal(source->as.source.name, "job.yaml");
    free_made(m);
    text_free(&text);
}

static void test_sheets_by_data_and_wish(void **state)
{
    static const bool wanted[SHEET_KINDS] = {[SHEET_RECORD] = true, [SHEET_BENCH] = true};
    (void)state;
    struct made *untested = make_sheets(LEAST_JOB, NULL), *asked = make_sheets(LEAST_JOB, wanted),
                *fit = make_situation(&situations[0]);
    assert_int_equal(untested->sheets.n, 3); /* without tests: wall, build, bench */
    assert_null(find_sheet(untested, SHEET_RECORD));
    assert_int_equal(asked->sheets.n, 1); /* a record cannot be made without a test */
    assert_int_equal(asked->sheets.list[0].kind, SHEET_BENCH);
    assert_int_equal(fit->sheets.n, 4);
    free_made(untested);
    free_made(asked);
    free_made(fit);
}

/* The line above all ends every sheet, and every sheet but the wall says in its head what it is. */
static void test_heads_and_feet(void **state)
{
    (void)state;
    struct made *m = make_situation(&situations[0]);
    for (size_t i = 0; i < m->sheets.n; i++) {
        const struct sheet *s = &m->sheets.list[i];
        assert_non_null(strstr(s->foot_left, "saw maker"));
        assert_non_null(strstr(s->foot_left, "local codes"));
        assert_non_null(strstr(s->foot_left, "supervisor"));
        assert_non_null(strstr(s->foot_right, "TS-07 2026-11-02 "));
        assert_int_equal(strncmp(strstr(s->foot_right, "02 ") + 3, m->job.fingerprint, 16), 0);
        assert_true((strstr(s->head_left, s->title) != NULL) == (s->kind != SHEET_WALL));
        assert_true((strstr(s->head_right, "FIT FOR USE") != NULL) == (s->kind != SHEET_WALL));
        assert_true((strstr(s->head_right, "as tested 2026-11-02") != NULL) == (s->kind == SHEET_BUILD));
    }
    free_made(m);
}

static void test_bench_before_any_test(void **state)
{
    static const char *const says[] = {"clockwise",       "Under 18",      "supervisor",     "leave the fence alone",
                                       "Fence end wider", "Far end wider", "Usual mistakes", "What good looks like",
                                       "prove it with three strips"};
    (void)state;
    struct made *m = make_situation(&situations[1]);
    for (size_t i = 0; i < sizeof says / sizeof *says; i++)
        assert_says(find_sheet(m, SHEET_BENCH), says[i], true);
    free_made(m);
}

#define PARTS_JOB                                                                                                      \
    "fettle: 1\njob: {number: P-1, title: Parts jig}\nunits: mm\nsaw: {blade: {diameter: 254, kerf: 2.8, highest: 80}}\n" \
    "stock: {ply12: {material: birch-plywood, thickness: 12, sheet: [1250, 1250]}}\n"                                  \
    "jig: {kind: parts, parts: [{name: cheek, stock: ply12, length: 400, width: 120, quantity: 2}]}\n"
#define PARTS_TEST(practice)                                                                                           \
    "tests: [{method: five-cut, date: 2026-11-02, offcut: left, length: 300, " practice                                \
    "pivot_to_moving: 500, moving_end: left, strips: [{fence_end: 21.30, far_end: 21.20}]}]\n"

/* A jig of listed parts: its own names, the usual cautions, and no word of fitness that leans on a test there is not. */
static void test_jig_of_parts(void **state)
{
    (void)state;
    struct made *bare = make_sheets(PARTS_JOB, NULL);
    struct made *practice = make_sheets(PARTS_JOB PARTS_TEST("practice: true, "), NULL);
    struct made *tested = make_sheets(PARTS_JOB PARTS_TEST(""), NULL);
    assert_int_equal(bare->sheets.n, 1); /* nothing to use or to prove: no wall, no record */
    assert_says(find_sheet(bare, SHEET_BUILD), "cheek", true);
    assert_says(find_sheet(practice, SHEET_RECORD), "practice, does not count", true);
    assert_int_equal(practice->sheets.list[0].kind, SHEET_BUILD); /* an exercise proves nothing: no wall */
    assert_says(find_sheet(tested, SHEET_WALL), "Unplug before", true);
    check_words_of(bare);
    check_words_of(practice);
    check_words_of(tested);
    free_made(bare);
    free_made(practice);
    free_made(tested);
}

static void find_what_is_no_setting(const struct block *b, void *arg)
{
    int *found = arg;
    if (b->kind != BLOCK_TABLE || !b->as.table.caption || strcmp(b->as.table.caption, words_get("build.sled_and_air")) != 0) {
        for (int r = 0; b->kind == BLOCK_TABLE && r < b->as.table.n_rows; r++)
            assert_string_not_equal(b->as.table.rows[r].cells[0], words_get("setting.mass"));
        return;
    }
    for (int r = 0; r < b->as.table.n_rows; r++)
        *found += strcmp(b->as.table.rows[r].cells[0], words_get("setting.mass")) == 0;
}

/* Weight, centre and moisture are nothing that is set: they have a table of their own. */
static void test_weight_is_no_setting_of_the_saw(void **state)
{
    (void)state;
    struct made *m = make_job(false, "5", "0.10", THREE_STRIPS, "");
    int found = 0;
    visit_blocks(&find_sheet(m, SHEET_BUILD)->body, find_what_is_no_setting, &found);
    assert_int_equal(found, 1);
    free_made(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wall_state_words_and_mark),
        cmocka_unit_test(test_wall_answers),
        cmocka_unit_test(test_all_words_are_there),
        cmocka_unit_test(test_sheets_never_claim),
        cmocka_unit_test(test_record_says_what_it_is),
        cmocka_unit_test(test_record_shows_history),
        cmocka_unit_test(test_danger_at_most_once),
        cmocka_unit_test(test_wall_cautions),
        cmocka_unit_test(test_build_has_all_steps),
        cmocka_unit_test(test_build_failures_stand_first),
        cmocka_unit_test(test_record_ends_with_job),
        cmocka_unit_test(test_sheets_by_data_and_wish),
        cmocka_unit_test(test_heads_and_feet),
        cmocka_unit_test(test_bench_before_any_test),
        cmocka_unit_test(test_jig_of_parts),
        cmocka_unit_test(test_weight_is_no_setting_of_the_saw),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
