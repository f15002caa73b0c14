/* The flip stop: common practice, no source; arithmetic by hand. */
#include "close.h"
#include "plan_jobs.h"

#include "plan/build.h"
#include "plan/flip_stop.h"

#include <string.h>

/* The contract's fence: its left end 400 from the blade plane, 100 high, two layers of 18; kerf 2.8. */
static const struct flip_seat contract = {
    .side = SIDE_LEFT, .fence_end = 400, .fence_height = 100, .fence_thickness = 36, .stock_thickness = 18, .kerf = 2.8,
    .keep_out = 75, .gap = 3, .body_length = 80, .arm_width = 40, .cheek_height = 40, .track_height = 15, .bolt_hole = 6.5, .step = 1,
};

static void test_flip_stop_sizes_with_a_cheek(void **state)
{
    struct plan_flip f = flip_stop_sizes(&contract);

    (void)state;
    assert_true(f.present && f.side == SIDE_LEFT);
    assert_within(f.body_width, 69, 1e-9);    /* fence 36, track 15 and cheek 18 */
    assert_within(f.arm_length, 115, 1e-9);   /* 100 + 18 of the body - 3 for dust */
    assert_within(f.cheek_height, 40, 1e-9);
    assert_within(f.tape_zero, 81.4, 1e-9);   /* half the kerf 1.4, and 80 */
    assert_within(f.track_length, 325, 1e-9); /* 400 - 75 */
    assert_within(f.bolt_along, 40, 1e-9);    /* the middle of the cheek, 80 x 40 */
    assert_within(f.bolt_across, 20, 1e-9);
    assert_within(f.shortest, 74, 1e-9);      /* 75 - 1.4 = 73.6, up */
    assert_within(f.longest, 318, 1e-9);      /* 400 - 80 - 1.4 = 318.6, down */
}

/* A piece of the longest length ends where the arm stands, and the body ends with the fence; the tape reads its length. */
static void test_flip_stop_sizes_tape_reads_the_length(void **state)
{
    struct plan_flip f = flip_stop_sizes(&contract);

    (void)state;
    for (double length = f.shortest; length <= f.longest; length += 1) {
        double arm = 1.4 + length, outer = arm + f.body_length; /* from the blade plane */
        assert_within(outer - f.tape_zero, length, 1e-9);
        assert_true(outer <= 400 && arm >= 75 - 1e-9);
    }
}

static void test_flip_stop_sizes_with_a_rebate(void **state)
{
    struct flip_seat seat = contract;
    struct plan_flip f;

    (void)state;
    seat.rebate_height = 14;
    seat.rebate_width = 18;
    f = flip_stop_sizes(&seat);
    assert_within(f.body_width, 36, 1e-9); /* the fence's thickness: no cheek */
    assert_within(f.cheek_height, 0, 0);
    assert_within(f.bolt_along, 60, 1e-9);  /* between the hinge, 40 long, and the body's other end at 80 */
    assert_within(f.bolt_across, 27, 1e-9); /* from the working face: over the middle of the outer 18 of 36 */
    seat.rebate_at_work = true;
    assert_within(flip_stop_sizes(&seat).bolt_across, 9, 1e-9);
}

static void test_flip_stop_sizes_on_a_short_fence(void **state)
{
    struct flip_seat seat = contract;

    (void)state;
    seat.fence_end = 150; /* 150 - 81.4 = 68 < 74 */
    assert_false(flip_stop_sizes(&seat).present);
}

/* Common practice, no source: layers 80 and 66 high leave a rebate 14 high. */
static void test_flip_rebate_height_of_layers(void **state)
{
    (void)state;
    assert_within(flip_rebate_height((const double[]){80, 66}, 2), 14, 1e-9);
    assert_within(flip_rebate_height((const double[]){100, 100}, 2), 0, 0);
    assert_within(flip_rebate_height((const double[]){86, 100, 100}, 3), 14, 1e-9);
    assert_within(flip_rebate_height((const double[]){100}, 1), 0, 0);
}

static const struct plan_step *find_step(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_steps; i++)
        if (strcmp(p->steps[i].what.key, key) == 0)
            return &p->steps[i];
    return NULL;
}

static void assert_screw_is_in_its_part(const struct plan *p, const struct plan_hole *h)
{
    for (size_t i = 0; i < p->n_parts; i++)
        if (strcmp(p->parts[i].letter, h->part) == 0)
            assert_true(h->v > p->parts[i].bodies[0].v0 && h->v < p->parts[i].bodies[0].v1);
}

/* A guard wider than the strip for hands is glued where the track would begin. */
static void test_plan_build_flip_stop_clears_a_wide_guard(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.jig.as.sled.guard_width = given(200);
    assert_true(plan_build(&t.job, &diags, &p));
    assert_within(p.sled.flip.track_from, 100, 1e-9);
    assert_within(p.sled.flip.shortest, 99, 1e-9); /* 100 - 1.4, up */
    plan_free(&p);
    diags_free(&diags);
}

/* The fence is proved before the stop is put on it, and nothing is screwed or glued to it after that. */
static void test_sled_write_steps_nothing_goes_into_a_proved_fence(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job(&t);
    assert_true(plan_build(&t.job, &diags, &p));
    const struct plan_step *track = find_step(&p, "step.track.what"), *pivot = find_step(&p, "step.pivot.what"),
                           *proof = find_step(&p, "step.proof.what"), *tape = find_step(&p, "step.tape.what"),
                           *stop = find_step(&p, "step.flip_stop.what"), *arm = find_step(&p, "step.flip_arm.what");
    assert_true(track && track < pivot && pivot < proof && proof < tape && tape < stop && stop < arm);
    for (const struct plan_step *s = stop; s <= arm; s++)
        assert_null(strchr(s->parts, build_find_part(&p, PART_REFERENCE_FENCE)->letter[0]));
    plan_free(&p);
    diags_free(&diags);
}

/* Layers of 100 and 86: parts without a cheek, the rebate in the step that glues them, the track's step after the proof. */
static void test_plan_build_flip_stop_in_a_rebate(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job(&t);
    t.heights[0] = 100;
    t.heights[1] = 86;
    t.job.jig.as.sled.reference_fence.layers = (struct job_layers){.given = true, .count = 2, .heights = t.heights};
    assert_true(plan_build(&t.job, &diags, &p));
    assert_true(p.sled.flip.present);
    assert_within(p.sled.flip.rebate_height, 14, 1e-9);
    assert_within(p.sled.flip.rebate_width, 18, 1e-9);
    assert_non_null(find_step(&p, "step.flip_stop.what.rebate"));
    assert_null(find_step(&p, "step.flip_stop.what"));
    assert_true(find_step(&p, "step.tape.what.rebate") > find_step(&p, "step.last_screws.what"));
    assert_true(find_step(&p, "step.tape.what.rebate") < find_step(&p, "step.flip_stop.what.rebate"));
    assert_true(find_step(&p, "step.track.what.rebate") < find_step(&p, "step.pivot.what"));
    for (size_t i = 0; i < p.n_holes; i++) /* fence screws go into the outer layer, 18 of 36 from the face */
        if (p.holes[i].role == HOLE_PIVOT)
            assert_screw_is_in_its_part(&p, &p.holes[i]);
    plan_free(&p);
    diags_free(&diags);
}

static void test_plan_build_no_flip_stop_where_none_is_asked(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.jig.as.sled.has_stop = false;
    assert_true(plan_build(&t.job, &diags, &p));
    assert_false(p.sled.flip.present);
    assert_null(find_step(&p, "step.tape.what"));
    assert_int_equal(p.n_parts, 7);
    plan_free(&p);
    diags_free(&diags);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flip_stop_sizes_with_a_cheek),
        cmocka_unit_test(test_flip_stop_sizes_tape_reads_the_length),
        cmocka_unit_test(test_flip_stop_sizes_with_a_rebate),
        cmocka_unit_test(test_flip_stop_sizes_on_a_short_fence),
        cmocka_unit_test(test_flip_rebate_height_of_layers),
        cmocka_unit_test(test_plan_build_flip_stop_in_a_rebate),
        cmocka_unit_test(test_plan_build_flip_stop_clears_a_wide_guard),
        cmocka_unit_test(test_sled_write_steps_nothing_goes_into_a_proved_fence),
        cmocka_unit_test(test_plan_build_no_flip_stop_where_none_is_asked),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
