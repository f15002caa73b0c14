/* What to fetch before the first step: counted against the holes. */
#include "close.h"
#include "plan_jobs.h"

#include "words.h"

#include <string.h>

static int count_key(const struct plan *p, const char *key)
{
    int n = 0;

    for (size_t i = 0; i < p->n_needs; i++)
        n += strcmp(p->needs[i].what.key, key) == 0;
    return n;
}

static void put_all_into_words(const struct plan *p)
{
    for (size_t i = 0; i < p->n_needs; i++) {
        struct text out = {0};
        words_put_plain(&out, &p->needs[i].what, UNITS_MM);
        assert_null(strchr(text_string(&out), '?'));
        text_free(&out);
    }
}

static void test_plan_needs_count_every_screw_once(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;
    int holes = 0, screws = 0;

    (void)state;
    contract_job(&t);
    assert_true(plan_build(&t.job, &diags, &p));
    for (size_t i = 0; i < p.n_holes; i++)
        holes += p.holes[i].role != HOLE_RESERVED && p.holes[i].role != HOLE_FRESH; /* no screw, and that of hole 1 */
    for (size_t i = 0; i < p.n_needs; i++)
        if (strcmp(p.needs[i].what.key, "need.screws") == 0) {
            assert_int_equal(p.needs[i].kind, NEED_HARDWARE);
            screws += (int)p.needs[i].what.arg[0].number;
            for (size_t k = 0; k < i; k++) /* each designation once */
                assert_false(strcmp(p.needs[k].what.key, "need.screws") == 0 &&
                             strcmp(p.needs[k].what.arg[1].text, p.needs[i].what.arg[1].text) == 0);
        }
    assert_int_equal(screws, holes);
    assert_int_equal(count_key(&p, "need.drills"), 1);
    assert_int_equal(count_key(&p, "need.track"), 1);
    assert_int_equal(count_key(&p, "need.router"), 0);
    assert_int_equal(count_key(&p, "need.cover"), 0);
    put_all_into_words(&p);
    plan_free(&p);
    diags_free(&diags);
}

static void test_plan_needs_follow_the_job(void **state)
{
    static struct test_job t;
    struct diags diags = {0};
    struct plan p;

    (void)state;
    contract_job_far(&t);
    t.job.jig.as.sled.has_stop = false;
    t.job.saw.slots_to_make = (struct job_slots_to_make){
        .given = true, .width = given(25), .depth = given(12.8), .bit = given(12), .base_diameter = given(150), .step = left_out(),
        .profile = {true, given(25), given(12.7), given(19.1), given(9.6)}};
    assert_true(plan_build(&t.job, &diags, &p));
    assert_string_equal(p.needs[0].what.key, "need.router"); /* the slots come first */
    assert_int_equal(count_key(&p, "need.lining"), 1);
    assert_int_equal(count_key(&p, "need.cover"), 1);
    assert_int_equal(count_key(&p, "need.track"), 0);
    put_all_into_words(&p);
    plan_free(&p);
    diags_free(&diags);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_needs_count_every_screw_once),
        cmocka_unit_test(test_plan_needs_follow_the_job),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
