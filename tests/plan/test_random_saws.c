/* Saws at random: what the program derives passes its own failing checks, or is refused for a stated reason. */
#include "close.h"
#include "random_saws.h"

#include "plan.h"

#include <stdio.h>
#include <string.h>

enum { SAWS = 2000 };

struct count {
    int made, refused, cautions;
    int by_check[CHECKS];
};

static void tell_failure(const struct plan *p, const struct plan_check *c, int i)
{
    print_error("saw %d: %s is %g, low %g, high %g, W %g\n", i, plan_check_name(c->id), c->value, c->low, c->high, p->sled.capacity_width);
}

/* Sizes and places that no check speaks of, from the plan's own numbers alone. */
static void look_over(const struct job *job, const struct plan *p)
{
    const struct plan_sled *s = &p->sled;
    const struct plan_fence *near = s->reference.side == FENCE_NEAR ? &s->reference : &s->other;
    const struct plan_fence *far = s->reference.side == FENCE_NEAR ? &s->other : &s->reference;
    const struct plan_runner *r = &s->runner[s->stop_slot];
    double end = s->travel.edge_stop + (s->stop_in_slot ? r->v0 + r->length : s->base_depth);

    assert_true(0 <= near->v_outer && near->v_outer < near->v_face && near->v_face < far->v_face && far->v_face < far->v_outer);
    assert_true(far->v_outer <= s->base_depth + 1e-9);
    assert_true(far->v_face - near->v_face >= s->capacity_width + 10 - 1e-9); /* the room that is asked for */
    assert_within(s->stop_y, end, 1e-6); /* the block stands where the runner's end, or the base's edge, comes to */
    if (s->stop_in_slot)
        assert_true(s->stop_y + s->stop_length <= job->saw.table.depth.v + 1e-6 && r->present);
    assert_true(s->guard_v0 >= -1e-9 && s->guard_v1 == near->v_outer);
    assert_true(s->pivot_x * s->moving_x < 0 && fabs(s->pivot_x) >= 45 && fabs(s->moving_x) >= 45);
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        r = &s->runner[side];
        assert_true(!r->present || (r->slot_x - r->width / 2 > s->base_x0 && r->slot_x + r->width / 2 < s->base_x0 + s->base_width));
        assert_true(!r->present || r->width < job->saw.slots.width.v);
    }
    assert_true(s->runner[SIDE_LEFT].is_guide != s->runner[SIDE_RIGHT].is_guide);
}

static void plan_one(struct test_job *t, int i, struct count *count)
{
    struct diags diags = {0};
    struct plan plan;

    if (plan_build(&t->job, &diags, &plan)) {
        count->made++;
        assert_int_equal(diags.count, 0);
        look_over(&t->job, &plan);
        for (size_t k = 0; k < plan.n_checks; k++) {
            if (plan.checks[k].verdict == VERDICT_FAIL)
                tell_failure(&plan, &plan.checks[k], i);
            assert_int_not_equal(plan.checks[k].verdict, VERDICT_FAIL);
            if (plan.checks[k].id == CHECK_TIPPING_NEAR || plan.checks[k].id == CHECK_TIPPING_PARKED)
                assert_int_equal(plan.checks[k].verdict, VERDICT_PASS); /* widths are tried until they do */
            count->by_check[plan.checks[k].id] += plan.checks[k].verdict == VERDICT_CAUTION;
        }
    } else {
        count->refused++;
        assert_int_equal(diags.count, 1);
        assert_int_equal(diags.list[0].code, DIAG_NO_SLED);
        assert_true(strlen(diags.list[0].detail) > 20);
    }
    plan_free(&plan);
    diags_free(&diags);
}

static void plan_many(uint64_t seed, bool air, enum rings rings, enum fence_side side, struct count *count)
{
    struct random r = {seed};
    static struct test_job t;

    *count = (struct count){0};
    for (int i = 0; i < SAWS; i++) {
        random_saw(&r, &t);
        t.job.jig.as.sled.reference_fence.side = side;
        t.job.jig.as.sled.reference_fence.side_given = side == FENCE_FAR;
        if (air)
            random_air(&r, &t, rings);
        plan_one(&t, i, count);
    }
    assert_int_equal(count->made + count->refused, SAWS);
    print_message("%d of %d saws get a sled\n", count->made, SAWS);
    for (int c = 0; c < CHECKS; c++)
        if (count->by_check[c])
            print_message("    %d with a caution: %s\n", count->by_check[c], plan_check_name((enum check_id)c));
}

static void test_plan_build_random_saws_without_air(void **state)
{
    struct count count;

    (void)state;
    plan_many(20261102, false, RINGS_QUARTER, FENCE_NEAR, &count);
    assert_true(count.made > SAWS / 2);
}

static void test_plan_build_random_saws_with_upright_rings(void **state)
{
    struct count *count = *state;

    plan_many(20261103, true, RINGS_QUARTER, FENCE_NEAR, count);
    assert_true(count->made > SAWS / 2);
}

/* Flat rings move twice as much: fewer sleds, the rest refused for want of a runner width. */
static void test_plan_build_random_saws_with_flat_rings(void **state)
{
    struct count *upright = *state, flat;

    plan_many(20261103, true, RINGS_FLAT, FENCE_NEAR, &flat);
    assert_true(flat.made < upright->made);
}

static void test_plan_build_random_saws_with_a_far_fence(void **state)
{
    struct count count;

    (void)state;
    plan_many(20261104, false, RINGS_QUARTER, FENCE_FAR, &count);
    assert_true(count.made > SAWS / 4);
}

/* ---- inches ---- */

static bool is_whole(double mm, double parts)
{
    double n = mm / 25.4 * parts;

    return fabs(n - round(n)) < 1e-6;
}

static int count_odd(int saw, const struct plan_sled *s)
{
    const struct {
        const char *name;
        double mm, parts; /* of an inch */
    } sizes[] = {
        {"widest work", s->capacity_width, 4},
        {"thickest work", s->capacity_thickness, 16},
        {"blade above the work", s->blade_above_work, 16},
        {"base, depth", s->base_depth, 16},
        {"reference fence, height", s->reference.height, 16},
        {"other fence, height", s->other.height, 16},
        {"reference fence from its edge", s->reference.side == FENCE_NEAR ? s->reference.v_outer : s->base_depth - s->reference.v_outer, 16},
        {"other fence from its edge", s->reference.side == FENCE_NEAR ? s->base_depth - s->other.v_outer : s->other.v_outer, 16},
        {"guard, width", s->guard_width, 16},
        {"guard, height", s->guard_height, 16},
        {"runners, thickness", s->runner[0].thickness, 32},
        {"guide, width", s->runner[s->runner[SIDE_RIGHT].is_guide].width, 1000},
        {"stop, length", s->stop_length, 16},
        {"pivot", s->pivot_x, 16},
        {"gauge mark", s->moving_x, 16},
        {"chamfer", s->chamfer, 16},
        {"strip without hands", s->keep_out, 16},
        {"base, left of the blade", s->base_x0, 16},
    };
    int odd = 0;

    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
        if (!is_whole(sizes[i].mm, sizes[i].parts)) {
            print_error("saw %d: %s is %.4f in\n", saw, sizes[i].name, sizes[i].mm / 25.4);
            odd++;
        }
    return odd;
}

/* What the program chooses itself can be set with a rule of the job's own unit. */
static void test_plan_build_chooses_sizes_of_the_jobs_inches(void **state)
{
    struct random r = {20261106};
    static struct test_job t;
    int made = 0, odd = 0;

    (void)state;
    for (int i = 0; i < SAWS / 4; i++) {
        struct diags diags = {0};
        struct plan plan;
        random_saw(&r, &t);
        t.job.units = UNITS_IN;
        t.job.saw.table.width.given = t.job.saw.table.left_of_blade.given = false; /* a base as wide as the table is as odd as it */
        t.job.jig.as.sled.reference_fence.side = i % 3 ? FENCE_NEAR : FENCE_FAR;
        t.job.jig.as.sled.reference_fence.side_given = true;
        if (plan_build(&t.job, &diags, &plan)) {
            made++;
            odd += count_odd(i, &plan.sled);
        }
        plan_free(&plan);
        diags_free(&diags);
    }
    assert_true(made > SAWS / 16);
    assert_int_equal(odd, 0);
}

int main(void)
{
    struct count upright;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_build_random_saws_without_air),
        cmocka_unit_test_prestate(test_plan_build_random_saws_with_upright_rings, &upright),
        cmocka_unit_test_prestate(test_plan_build_random_saws_with_flat_rings, &upright),
        cmocka_unit_test(test_plan_build_random_saws_with_a_far_fence),
        cmocka_unit_test(test_plan_build_chooses_sizes_of_the_jobs_inches),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
