/* The example jobs as the reader gives them: the complete one makes the same plan as the job filled by hand, and every
   example of a sled makes one. */
#include "close.h"
#include "plan_jobs.h"

#include "plan.h"
#include "plan/sled.h"

#include <stdio.h>

static void read_example(const char *name, struct job *job)
{
    struct diags diags = {0};
    char path[512];

    snprintf(path, sizeof path, "%s/jobs/%s", SOURCE_FOLDER, name);
    if (!job_read(path, &diags, job))
        fail_msg("%s: %s: %s", path, diags.list[0].path, diags.list[0].detail);
    diags_free(&diags);
}

static void make_plan(const struct job *job, struct plan *p)
{
    struct diags diags = {0};

    assert_true(plan_build(job, &diags, p));
    diags_free(&diags);
}

static void test_plan_build_example_is_the_job_filled_by_hand(void **state)
{
    static struct test_job t;
    struct plan by_hand, read;
    struct job job;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &by_hand);
    read_example("bay-2-sled.yaml", &job);
    make_plan(&job, &read);
    assert_int_equal(read.n_checks, by_hand.n_checks);
    for (size_t i = 0; i < read.n_checks; i++) {
        const struct plan_check *r = &read.checks[i], *h = &by_hand.checks[i];
        assert_int_equal(r->id, h->id);
        assert_int_equal(r->verdict, h->verdict);
        if (!isnan(h->value))
            assert_close(r->value, h->value, 1e-9);
    }
    assert_close(read.sled.mass, by_hand.sled.mass, 1e-9);
    assert_int_equal(read.n_assumed, by_hand.n_assumed);
    plan_free(&by_hand);
    plan_free(&read);
    job_free(&job);
}

/* Parked, a hand of 50 N tips the sled of one runner, 208 mm of which hang out (by hand from its parts table 33 to 43 N, by what lies on it),
   and does not tip the one that hangs out little. */
static void test_plan_build_says_which_sled_tips_when_parked(void **state)
{
    static const struct {
        const char *name;
        double least, most;
        bool said;
    } sleds[] = {{"one-slot-315.yaml", 30, 43, true}, {"sled-with-mitre-fences-and-key.yaml", 50, 1e9, false}};

    (void)state;
    for (size_t i = 0; i < sizeof sleds / sizeof *sleds; i++) {
        struct job job;
        struct plan plan;
        bool said = false;

        read_example(sleds[i].name, &job);
        make_plan(&job, &plan);
        double force = sled_tip_parked(&job, &plan.sled).force;
        printf("%s: %.1f N\n", sleds[i].name, force);
        assert_true(force >= sleds[i].least && force <= sleds[i].most);
        for (size_t k = 0; k < plan.n_cautions; k++)
            said = said || strcmp(plan.cautions[k].text.key, "caution.parked_light") == 0;
        assert_int_equal(said, sleds[i].said);
        plan_free(&plan);
        job_free(&job);
    }
}

/* What the examples are there to show. */
static void test_plan_build_examples(void **state)
{
    static const struct {
        const char *name;
        bool fails;
    } rows[] = {
        {"first-sled.yaml", false}, {"garage-sled-inches.yaml", false}, {"new-sled-not-tested.yaml", false},
        {"one-strip.yaml", false},  {"damp-shed-do-not-use.yaml", true},
        {"small-bench-saw.yaml", false}, {"one-slot-315.yaml", false},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct job job;
        struct plan p;
        bool fails = false;
        read_example(rows[i].name, &job);
        make_plan(&job, &p);
        for (size_t c = 0; c < p.n_checks; c++) {
            fails = fails || p.checks[c].verdict == VERDICT_FAIL;
            if (p.checks[c].verdict != VERDICT_PASS)
                print_message("    %s: %s %s\n", rows[i].name, plan_check_name(p.checks[c].id),
                              p.checks[c].verdict == VERDICT_FAIL ? "fails" : "cautions");
        }
        assert_int_equal(fails, rows[i].fails);
        plan_free(&p);
        job_free(&job);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_build_example_is_the_job_filled_by_hand),
        cmocka_unit_test(test_plan_build_says_which_sled_tips_when_parked),
        cmocka_unit_test(test_plan_build_examples),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
