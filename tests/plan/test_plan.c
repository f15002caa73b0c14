/* Whole plans against the worked ones of the reference: figures computed by an independent program and, for blade, guard,
   pair play, yaw and bending, by brute force. Each is held to the digits that are printed there. */
#include "close.h"
#include "plan_jobs.h"

#include "plan.h"

#include <stdio.h>
#include <string.h>

#define NOT_COMPARED INFINITY

/* A check of a worked plan; NAN: none. `digit`: one unit of the last place given. */
struct worked {
    enum check_id id;
    double value, low, high, digit;
};

static void make_plan(struct job *job, struct plan *p)
{
    struct diags diags = {0};

    assert_true(plan_build(job, &diags, p));
    assert_int_equal(diags.count, 0);
    diags_free(&diags);
}

static void compare(double actual, double expected, double digit, const char *what, const char *which)
{
    if (isinf(expected))
        return;
    if (isnan(expected)) {
        if (!isnan(actual))
            fail_msg("%s: %s is %g, expected none", what, which, actual);
        return;
    }
    if (!(fabs(actual - expected) <= digit * 0.5000001))
        fail_msg("%s: %s is %.9g, expected %g", what, which, actual, expected);
}

static void compare_all(const struct plan *p, const struct worked *rows, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const char *name = plan_check_name(rows[i].id);
        const struct plan_check *c = plan_find_check(p, rows[i].id);
        if (!c)
            fail_msg("%s was not made", name);
        compare(c->value, rows[i].value, rows[i].digit, name, "value");
        compare(c->low, rows[i].low, rows[i].digit, name, "low");
        compare(c->high, rows[i].high, rows[i].digit, name, "high");
    }
}
#define COMPARE_ALL(p, rows) compare_all((p), (rows), sizeof(rows) / sizeof *(rows))

static void test_plan_build_contract_checks(void **state)
{
    static const struct worked rows[] = {
        {CHECK_THICKNESS_CAPACITY, 63.00, 60, NAN, 0.01},
        {CHECK_TRAVEL_STOP, 477.56, 472.56, NOT_COMPARED, 0.01},
        {CHECK_EXIT_GUARD_DEPTH, 90.0, 84.54, NAN, 0.01},
        {CHECK_EXIT_GUARD_HEIGHT, 100, 78.75, NAN, 0.01},
        {CHECK_FENCE_BRIDGE, 32.0, 25.0, NAN, 0.1},
        {CHECK_FENCE_BENDING, 2.025e-5, NAN, 3.333e-5, 1e-8},
        {CHECK_RUNNER_PLAY, 0.1000, 0.05, 0.25, 0.0001},
        {CHECK_RUNNER_PLAY_DRIEST, 0.1262, 0.05, 0.25, 0.0001},
        {CHECK_RUNNER_PLAY_DAMPEST, 0.0562, 0.05, 0.25, 0.0001},
        {CHECK_RUNNER_PAIR_PLAY, 0.0562, 0.05, NAN, 0.0001},
        {CHECK_RUNNER_WIDTH_TO_PLANE, 19.00, 18.876, 19.006, 0.001},
        {CHECK_RUNNER_YAW, 0.0898, NAN, 0.20, 0.0001},
        {CHECK_RUNNER_HEIGHT, 9.0, NAN, 9.1, 0.1},
        {CHECK_RUNNER_ENGAGED, 0.7268, 0.5, NAN, 0.0001},
        {CHECK_TIPPING_NEAR, 88.5, 50, NAN, 0.1},
        {CHECK_TIPPING_FAR, 92.9, 50, NAN, 0.1},
        {CHECK_TIPPING_SIDE, NAN, 50, NAN, 0.1}, /* arm inside the table: null */
        {CHECK_WIDEST_WORK, 436, 420, NAN, 1},
        {CHECK_RIVING_KNIFE, 2.2, 1.8, 2.8, 0.1},
        {CHECK_FIVE_CUT_STRIP, 20.65, 20, NAN, 0.01},
    };
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &p);
    compare(plan_find_check(&p, CHECK_TRAVEL_STOP)->high, 483.0, 0.1, "travel_stop", "high");
    compare(plan_find_check(&p, CHECK_RUNNER_YAW)->fail_high, 0.30, 1e-9, "runner_yaw", "fail_high");
    for (size_t i = 0; i < p.n_checks; i++)
        assert_int_equal(p.checks[i].verdict, VERDICT_PASS);
    COMPARE_ALL(&p, rows);
    plan_free(&p);
}

static void test_plan_build_contract_parts(void **state)
{
    static const struct {
        enum part_kind kind;
        int quantity;
        double mass, x, v;
    } rows[] = {
        {PART_BASE, 1, 3.623, -20, 290},      {PART_REFERENCE_FENCE, 2, 1.874, -20, 108}, {PART_OTHER_FENCE, 1, 0.740, -20, 571},
        {PART_EXIT_GUARD, 5, 0.617, 0, 45},   {PART_GUIDE_RUNNER, 1, 0.069, -142, 290},   {PART_FREE_RUNNER, 1, 0.069, 178, 290},
    };
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &p);
    assert_int_equal(p.n_parts, 10); /* and the stop, and three of the flip stop */
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct plan_part *q = &p.parts[i];
        assert_int_equal(q->letter[0], 'A' + (int)i);
        assert_int_equal(q->kind, rows[i].kind);
        assert_int_equal(q->quantity, rows[i].quantity);
        assert_within(q->mass, rows[i].mass, 0.0005);
        if (q->kind != PART_FREE_RUNNER) /* which is cut back after it is weighed */
            assert_within((q->bodies[0].v0 + q->bodies[0].v1) / 2, rows[i].v, 0.5);
        assert_within(q->centre_x, rows[i].x, 1e-9);
        assert_within(q->centre_v, rows[i].v, 1e-9);
    }
    assert_within(p.sled.mass, 6.992, 0.0005);
    plan_free(&p);
}

static void test_plan_build_contract_travel_and_wood(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &p);
    assert_within(p.sled.travel.edge_start, -163.5, 0.05);
    assert_within(p.sled.travel.edge_stop, 351.6, 0.05);
    assert_within(p.sled.travel.setting_above_table, 77, 1e-9); /* 12 + 60 + 5 */
    assert_within(p.sled.mc_fitting, 9.320, 0.0005);
    assert_within(p.sled.mc_driest, 8.485, 0.0005);
    assert_within(p.sled.mc_dampest, 10.714, 0.0005);
    assert_within(p.sled.runner[SIDE_RIGHT].length, 388, 1e-9); /* cut for the stop */
    assert_within(p.sled.runner[SIDE_LEFT].length, 580, 1e-9);
    assert_true(p.sled.stop_in_slot);
    assert_within(p.sled.stop_y, 351.559 + 388, 0.001);
    assert_within(p.sled.plane_to, 19.00, 1e-9); /* a present width inside is left alone */
    plan_free(&p);
}

static void test_plan_setting_contract(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &p);
    assert_true(p.setting.has_fence);
    assert_int_equal(p.setting.fence_side, FENCE_NEAR);
    assert_within(p.setting.pivot_to_moving, 610, 1e-9); /* 330 + 280 */
    assert_within(p.setting.capacity_width, 420, 1e-9);
    assert_within(p.setting.proof_length, 350, 1e-9); /* 420 - 40 = 380 */
    plan_free(&p);
}

/* The worked plan of the contract's job with a far fence. It has no cover; the plan's is left out of both sums, where it
   would hold the sled down. By hand: the cover, 490 x 150 x 12 of 685 kg/m3, is 0.604 kg or 5.93 N at 335: 173.5 inside the
   table's near edge with the hand 62.5 outside, 111.4 inside its far edge with the hand 115.6 outside; it would bear
   5.93 x 173.5 / (1.2 x 62.5) = 13.7 N and 5.93 x 111.4 / (1.2 x 115.6) = 4.8 N more. */
static void test_plan_build_contract_with_far_fence(void **state)
{
    static const struct worked rows[] = {
        {CHECK_TRAVEL_STOP, 897.56, 892.56, NOT_COMPARED, 0.01}, {CHECK_EXIT_GUARD_DEPTH, 90, 86.54, NAN, 0.01},
        {CHECK_EXIT_GUARD_HEIGHT, 100, 79.77, NAN, 0.01}, {CHECK_RUNNER_ENGAGED, 0.7302, 0.5, NAN, 0.0001},
        {CHECK_TIPPING_NEAR, 146.1, 50, NAN, 0.1},      {CHECK_TIPPING_FAR, 51.3, 50, NAN, 0.1},
    };
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job_far(&t);
    make_plan(&t.job, &p);
    COMPARE_ALL(&p, rows);
    assert_within(p.sled.travel.y_near_face, 461.56, 0.005);
    const struct plan_part *cover = &p.parts[7];
    assert_int_equal(cover->kind, PART_BLADE_COVER);
    assert_within(cover->length, 490, 1e-9); /* over both fences: from 90 to 580 */
    assert_within(cover->width, 150, 1e-9);  /* the strip without hands, 75 either side */
    assert_within(cover->bodies[0].z0, 112, 1e-9); /* on fences 100 high on a base of 12 */
    assert_within(p.sled.cover_screw_x, 60, 1e-9); /* heads 8 wide: clear of the strip of 40 */
    plan_free(&p);
}

static void test_plan_build_least_job(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    least_job(&t);
    make_plan(&t.job, &p);
    assert_within(p.sled.travel.y_stop, 280.08, 0.005);
    assert_within(p.sled.travel.guard_needed, 40.91, 0.005);
    assert_within(plan_find_check(&p, CHECK_EXIT_GUARD_DEPTH)->low, 65.91, 0.005);
    assert_within(plan_find_check(&p, CHECK_THICKNESS_CAPACITY)->value, 46.2, 1e-9);
    assert_within(plan_find_check(&p, CHECK_FENCE_BRIDGE)->value, 20.8, 1e-9);
    assert_within(p.sled.base_depth, 340, 1e-9); /* 71 + 3 x 11.8 + 200 + 10 + 2 x 11.8 */
    assert_within(p.sled.base_width, 700, 1e-9); /* 350 either side: 118 + 60 is less */
    assert_int_equal(p.sled.reference.layers, 3);
    assert_int_equal(p.sled.other.layers, 2);
    assert_int_equal(p.sled.guard_layers, 6);
    assert_true(p.n_assumed > 25);
    plan_free(&p);
}

/* The worked figures are those of a base 500 wide with its runner at full length. */
static void test_plan_build_least_job_on_a_base_of_500(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    least_job(&t);
    t.job.jig.as.sled.base_width = given(500);
    make_plan(&t.job, &p);
    assert_within(plan_find_check(&p, CHECK_TIPPING_NEAR)->value, 123, 0.5);
    plan_free(&p);
    t.job.saw.table.depth = given(760); /* room for stop and runner: nothing is cut */
    make_plan(&t.job, &p);
    assert_within(plan_find_check(&p, CHECK_RUNNER_ENGAGED)->value, 0.716, 0.0005);
    plan_free(&p);
}

/* Rules that the worked plans do not reach. */
static void test_plan_build_derives_both_runners(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    leave_out_sled(&t.job.jig.as.sled);
    make_plan(&t.job, &p);
    assert_within(p.sled.base_x0, -350, 1e-9); /* max(142 + 60, 350) */
    assert_within(p.sled.pivot_x, -300, 1e-9); /* equal sides: left, 50 from the end */
    assert_within(p.sled.moving_x, 300, 1e-9);
    assert_true(p.sled.runner[SIDE_LEFT].is_guide);
    assert_within(p.sled.runner[SIDE_LEFT].width, 18.94, 1e-9);  /* (18.8761 + 19.0061) / 2 */
    assert_within(p.sled.runner[SIDE_RIGHT].width, 18.78, 1e-9); /* 18.94 - 2 x 0.0512 - 0.05 = 18.7876 */
    assert_within(p.sled.runner[SIDE_LEFT].thickness, 9, 1e-9);  /* 9.6 - 0.5 = 9.1 */
    assert_within(p.sled.reference.height, 91, 1e-9);            /* max(68 + 20, 4/3 x 68 = 90.67) */
    assert_within(fmod(p.sled.capacity_width, 5), 0, 1e-9);
    plan_free(&p);
}

static void test_plan_build_inch_job_rounds_to_sixteenths(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    least_job(&t);
    t.job.units = UNITS_IN;
    make_plan(&t.job, &p);
    assert_within(fmod(p.sled.base_depth, 25.4 / 16) / 25.4, round(fmod(p.sled.base_depth, 25.4 / 16) / 25.4), 1e-9);
    assert_within(p.sled.reference.height, 45 * 25.4 / 16, 1e-9); /* 71.2 mm = 44.85 sixteenths; 68.27 less */
    assert_within(p.sled.guard_width, 4 * 25.4, 1e-9);
    assert_within(p.sled.pivot_x, -12 * 25.4, 1e-9); /* the base 14 in to the left, less 2 in */
    assert_within(p.sled.keep_out, 3 * 25.4, 1e-9);
    plan_free(&p);
}

static void test_plan_build_without_jig_gives_nothing(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    empty_job(&t);
    t.job.jig.given = false;
    make_plan(&t.job, &p);
    assert_false(p.has_sled);
    assert_false(p.setting.has_fence);
    assert_int_equal(p.n_parts + p.n_checks + p.n_steps + p.n_assumed, 0);
    plan_free(&p);
}

static void test_plan_build_kind_parts(void **state)
{
    static struct test_job t;
    struct job_parts_part parts[2];
    struct plan p;

    (void)state;
    empty_job(&t);
    t.stock[0] = plywood("ply12", 12, 1250, 1250);
    t.stock[1] = maple_strip("maple", 25, 50, 1200);
    parts[0] = (struct job_parts_part){.name = "cheek", .stock = &t.stock[0], .length = given(400), .width = given(120), .quantity = given(2), .grain = GRAIN_ACROSS};
    parts[1] = (struct job_parts_part){.name = "key", .stock = &t.stock[1], .length = given(90), .width = left_out(), .quantity = left_out()};
    t.job.jig.kind = JIG_PARTS;
    t.job.jig.as.parts = (struct job_parts){parts, 2};
    make_plan(&t.job, &p);
    assert_false(p.has_sled);
    assert_int_equal(p.n_parts, 2);
    assert_int_equal(p.parts[0].quantity, 2);
    assert_within(p.parts[0].length, 120, 1e-9); /* along the grain */
    assert_within(p.parts[0].width, 400, 1e-9);
    assert_within(p.parts[1].width, 50, 1e-9);
    assert_within(p.parts[1].thickness, 25, 1e-9);
    assert_within(p.parts[1].mass, 700e-9 * 90 * 50 * 25, 1e-12);
    assert_int_equal(p.n_checks, 1);
    assert_int_equal(p.checks[0].id, CHECK_STOCK_FITS);
    plan_free(&p);
}

/* All letters of a list of a thousand parts, the most that a job may have, differ; those of the turns are as written here. */
static void test_plan_build_letters_of_a_thousand_parts(void **state)
{
    static const struct {
        size_t part;
        const char *letter;
    } rows[] = {{0, "A"}, {25, "Z"}, {26, "a"}, {51, "z"}, {52, "AA"}, {53, "AB"}, {727, "ZZ"}, {728, "AAA"}, {999, "AKL"}};
    static struct job_parts_part parts[1000];
    static struct test_job t;
    struct plan p;

    (void)state;
    empty_job(&t);
    t.stock[0] = plywood("ply12", 12, 1250, 1250);
    for (size_t i = 0; i < 1000; i++)
        parts[i] = (struct job_parts_part){.name = "a", .stock = &t.stock[0], .length = given(50), .width = given(20), .quantity = given(1)};
    t.job.jig.kind = JIG_PARTS;
    t.job.jig.as.parts = (struct job_parts){parts, 1000};
    make_plan(&t.job, &p);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_string_equal(p.parts[rows[i].part].letter, rows[i].letter);
    for (size_t i = 1; i < p.n_parts; i++)
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(p.parts[i].letter, p.parts[k].letter);
    plan_free(&p);
}

static void test_plan_build_refuses_for_a_reason(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    least_job(&t);
    t.job.saw.blade.highest = given(25); /* 25 - 11.8 - 5 = 8.2 for the work */
    assert_false(plan_build(&t.job, &diags, &p));
    assert_int_equal(diags.count, 1);
    assert_int_equal(diags.list[0].code, DIAG_NO_SLED);
    assert_string_equal(diags.list[0].path, "saw.blade.highest");
    plan_free(&p);
    diags_free(&diags);
}

/* The contract's fence is 760 long, from 400 left of the blade to 360 right. */
static void test_plan_build_refuses_points_beyond_the_fence(void **state)
{
    static const struct {
        double pivot, moving;
        const char *path;
    } rows[] = {
        {401, 280, "jig.reference_fence.pivot.from_blade"},
        {330, 361, "jig.reference_fence.moving.from_blade"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        static struct test_job t;
        struct diags diags = {0};
        struct plan p;
        contract_job(&t);
        t.job.jig.as.sled.reference_fence.pivot.from_blade = given(rows[i].pivot);
        t.job.jig.as.sled.reference_fence.moving.from_blade = given(rows[i].moving);
        assert_false(plan_build(&t.job, &diags, &p));
        assert_int_equal(diags.count, 1);
        assert_int_equal(diags.list[0].code, DIAG_CONTRADICTION);
        assert_string_equal(diags.list[0].path, rows[i].path);
        plan_free(&p);
        diags_free(&diags);
    }
}

/* Also for the record of a saw, which has no jig. */
static void test_plan_build_names_a_grade_that_no_table_has(void **state)
{
    static struct test_job t;
    struct job_instrument tape = {.name = "tape-1", .kind = INSTRUMENT_TAPE, .grade = {.s = "shop"}};
    struct plan p;
    struct diags diags = {0};

    (void)state;
    empty_job(&t);
    t.job.jig.given = false;
    t.job.instruments = &tape;
    t.job.n_instruments = 1;
    assert_true(plan_build(&t.job, &diags, &p));
    assert_int_equal(p.n_assumed, 1);
    assert_string_equal(p.assumed[0].what.key, "assumed.grade");
    plan_free(&p);
    tape.grade.s = "class II";
    assert_true(plan_build(&t.job, &diags, &p));
    assert_int_equal(p.n_assumed, 0);
    plan_free(&p);
    diags_free(&diags);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_build_contract_checks),
        cmocka_unit_test(test_plan_build_contract_parts),
        cmocka_unit_test(test_plan_build_contract_travel_and_wood),
        cmocka_unit_test(test_plan_setting_contract),
        cmocka_unit_test(test_plan_build_contract_with_far_fence),
        cmocka_unit_test(test_plan_build_least_job),
        cmocka_unit_test(test_plan_build_least_job_on_a_base_of_500),
        cmocka_unit_test(test_plan_build_derives_both_runners),
        cmocka_unit_test(test_plan_build_inch_job_rounds_to_sixteenths),
        cmocka_unit_test(test_plan_build_without_jig_gives_nothing),
        cmocka_unit_test(test_plan_build_names_a_grade_that_no_table_has),
        cmocka_unit_test(test_plan_build_kind_parts),
        cmocka_unit_test(test_plan_build_letters_of_a_thousand_parts),
        cmocka_unit_test(test_plan_build_refuses_for_a_reason),
        cmocka_unit_test(test_plan_build_refuses_points_beyond_the_fence),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
