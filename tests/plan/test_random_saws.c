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

static void plan_one(struct test_job *t, int i, struct count *count)
{
    struct diags diags = {0};
    struct plan plan;

    if (plan_build(&t->job, &diags, &plan)) {
        count->made++;
        assert_int_equal(diags.count, 0);
        for (size_t k = 0; k < plan.n_checks; k++) {
            if (plan.checks[k].verdict == VERDICT_FAIL)
                tell_failure(&plan, &plan.checks[k], i);
            assert_int_not_equal(plan.checks[k].verdict, VERDICT_FAIL);
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

static void plan_many(uint64_t seed, bool air, enum rings rings, struct count *count)
{
    struct random r = {seed};
    static struct test_job t;

    *count = (struct count){0};
    for (int i = 0; i < SAWS; i++) {
        random_saw(&r, &t);
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
    plan_many(20261102, false, RINGS_QUARTER, &count);
    assert_true(count.made > SAWS / 2);
}

static void test_plan_build_random_saws_with_upright_rings(void **state)
{
    struct count count;

    (void)state;
    plan_many(20261103, true, RINGS_QUARTER, &count);
    assert_true(count.made > SAWS / 2);
}

/* Flat rings move twice as much: fewer sleds, the rest refused for want of a runner width. */
static void test_plan_build_random_saws_with_flat_rings(void **state)
{
    struct count flat, upright;

    (void)state;
    plan_many(20261103, true, RINGS_FLAT, &flat);
    plan_many(20261103, true, RINGS_QUARTER, &upright);
    assert_true(flat.made < upright.made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_build_random_saws_without_air),
        cmocka_unit_test(test_plan_build_random_saws_with_upright_rings),
        cmocka_unit_test(test_plan_build_random_saws_with_flat_rings),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
