/* Passes of a router. Common practice, no source; arithmetic by hand, and a slot routed strip by strip. */
#include "close.h"
#include "plan_jobs.h"
#include "random.h"

#include "plan/routing.h"
#include "words.h"

#include <string.h>

/* A 15 mm slot with a 12 mm bit takes two passes 3 mm apart; a base of 150 rides 75 off its middle. */
static void test_routing_passes_two_across(void **state)
{
    struct plan_routing r = routing_passes(15, 10, 12, 150, 4);

    (void)state;
    assert_int_equal(r.across, 2);
    assert_within(r.apart, 3, 1e-9);
    assert_within(r.guide_least, 73.5, 1e-9); /* 75 - 3/2 */
    assert_within(r.guide_most, 76.5, 1e-9);
    assert_int_equal(r.deep, 3); /* 10/4 = 2.5 */
    assert_within(r.each, 10.0 / 3, 1e-9);
}

static void test_routing_passes_as_wide_as_the_bit(void **state)
{
    struct plan_routing r = routing_passes(12, 6, 12, 150, 6);

    (void)state;
    assert_int_equal(r.across, 1);
    assert_within(r.apart, 0, 0);
    assert_within(r.guide_least, 75, 1e-9);
    assert_int_equal(r.deep, 1);
}

/* A slot more than twice as wide as the bit: no wood is left between the passes. */
static void test_routing_passes_leave_no_wood(void **state)
{
    struct random random = {20261205};

    (void)state;
    for (int i = 0; i < 500; i++) {
        double bit = random_between(&random, 4, 20), width = bit + random_between(&random, 0, 30), base = 150;
        struct plan_routing r = routing_passes(width, 10, bit, base, 3);
        for (double x = -width / 2 + 0.005; x < width / 2; x += 0.01) { /* each place of the slot under some pass */
            bool cut = false;
            for (int k = 0; k < r.across; k++)
                cut = cut || fabs(x - (r.guide_least - base / 2 + k * r.apart)) <= bit / 2 + 1e-9;
            assert_true(cut);
        }
        assert_within(r.guide_most + bit / 2 - base / 2, width / 2, 1e-9); /* the wall */
        assert_within(r.guide_least + (r.across - 1) * r.apart, r.guide_most, 1e-9);
        assert_true(r.each <= 3 + 1e-9);
    }
}

static const struct plan_step *find_step(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_steps; i++)
        if (strcmp(p->steps[i].what.key, key) == 0)
            return &p->steps[i];
    return NULL;
}

static double number_of(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].number;
    return NAN;
}

/* The router goes along +y with its guide at -x, and its bit, seen from above, turns clockwise: a tooth at (x, y) from the
   bit's axis moves along (y, -x). Of the second groove the teeth that stand in new wood, half a circle tried degree by degree,
   must move along the feed in the mean: the wood then holds the router back, and draws it to the guide, for what they are
   driven into is on their left. Turn and feed: the trade's rule for hand routers, no source; the rest is geometry. */
static void check_no_climbing(double guide, double next, double bit, double base)
{
    double first_axis = base / 2 - guide, axis = base / 2 - next, along = 0; /* from the slot's middle, + right */
    int teeth = 0;

    for (int degree = 0; degree <= 180; degree++) { /* the half of the bit that meets the wood ahead */
        double x = bit / 2 * cos(degree * acos(-1) / 180);
        if (fabs(axis + x - first_axis) <= bit / 2)
            continue; /* routed before */
        along += -x;
        teeth++;
    }
    assert_true(teeth > 0);
    assert_true(along > 0);
}

static void put_into_words(const struct plan_step *s)
{
    const struct saying *const sayings[] = {&s->what, &s->know, &s->why, &s->caution};

    for (size_t i = 0; i < 4; i++) {
        struct text out = {0};
        if (sayings[i]->key)
            words_put_plain(&out, sayings[i], UNITS_MM);
        assert_null(strchr(text_string(&out), '?'));
        text_free(&out);
    }
}

/* The slots are routed, and lined, before anything is measured from them. */
static void test_plan_build_slots_to_make_come_first(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.saw.slots_to_make = (struct job_slots_to_make){
        .given = true, .width = given(25), .depth = given(12.8), .bit = given(12), .base_diameter = given(150), .step = left_out(),
        .profile = {true, given(25), given(12.7), given(19.1), given(9.6)}};
    assert_true(plan_build(&t.job, &diags, &p));
    assert_string_equal(p.steps[0].what.key, "step.mark_slots.what.two");
    assert_string_equal(p.steps[1].what.key, "step.route.what.many");
    assert_string_equal(p.steps[2].what.key, "step.line_slots.what");
    /* Guide on the left: the groove farthest to the right first, base 150, 6.5 right of the middle and 6.5 left of it. */
    assert_within(number_of(&p.steps[1].what, "guide"), 68.5, 1e-9);
    assert_within(number_of(&p.steps[1].what, "last"), 81.5, 1e-9);
    check_no_climbing(68.5, 68.5 + number_of(&p.steps[1].what, "apart"), 12, 150); /* “away from the line” */
    assert_within(p.sled.routing.lining_wall, 2.95, 1e-9); /* (25 - 19.1) / 2 */
    assert_within(p.sled.routing.lining_floor, 3.1, 1e-9); /* 12.7 - 9.6 */
    for (int i = 0; i < 3; i++)
        put_into_words(&p.steps[i]);
    assert_int_equal(strncmp(p.steps[3].what.key, "step.saw_read", 13), 0);
    plan_free(&p);
    for (int across = 1; across <= 2; across++) {
        t.job.saw.slots_to_make.bit = given(across == 1 ? 25 : 15);
        t.job.saw.slots_to_make.profile.given = false;
        assert_true(plan_build(&t.job, &diags, &p));
        assert_string_equal(p.steps[1].what.key, across == 1 ? "step.route.what" : "step.route.what.two");
        put_into_words(&p.steps[1]);
        plan_free(&p);
    }
    t.job.saw.slots_to_make.given = false;
    assert_true(plan_build(&t.job, &diags, &p));
    assert_null(find_step(&p, "step.route.what.many"));
    plan_free(&p);
    diags_free(&diags);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_routing_passes_two_across),
        cmocka_unit_test(test_routing_passes_as_wide_as_the_bit),
        cmocka_unit_test(test_routing_passes_leave_no_wood),
        cmocka_unit_test(test_plan_build_slots_to_make_come_first),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
