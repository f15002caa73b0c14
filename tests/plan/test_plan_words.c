/* Every sentence that a plan can ask for is there, and has every number that it names. */
#include "close.h"
#include "random_saws.h"

#include "base/file.h"
#include "plan.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

static void put_saying(const struct saying *s)
{
    static const enum units units[] = {UNITS_MM, UNITS_IN};

    if (!s->key)
        return;
    for (size_t u = 0; u < 2; u++) {
        struct text out = {0};
        words_put_plain(&out, s, units[u]);
        if (strchr(text_string(&out), '?') || strlen(text_string(&out)) < 3)
            fail_msg("%s: %s", s->key, text_string(&out));
        text_free(&out);
    }
}

/* For the wall: read in passing, so short, and without a number; its only slots are letters of parts and a stock's name. */
static void put_brief(const struct saying *s)
{
    struct text out = {0};

    put_saying(s);
    words_put_plain(&out, s, UNITS_MM);
    assert_true(out.size <= 70);
    assert_null(strpbrk(words_get(s->key), "0123456789"));
    if (strstr(words_get(s->key), "{part}")) /* with its letter: "guard D." */
        assert_null(strstr(text_string(&out), "  "));
    text_free(&out);
}

static void put_plan(struct test_job *t)
{
    struct diags diags = {0};
    struct plan p;

    if (plan_build(&t->job, &diags, &p)) {
        for (size_t i = 0; i < p.n_checks; i++) {
            put_saying(&p.checks[i].what);
            put_saying(&p.checks[i].why);
            put_saying(&p.checks[i].remedy);
            assert_non_null(p.checks[i].why.key);
            assert_int_equal(p.checks[i].verdict != VERDICT_PASS, p.checks[i].remedy.key != NULL);
            assert_int_equal(p.checks[i].verdict != VERDICT_PASS, p.checks[i].brief.key != NULL);
            if (p.checks[i].brief.key)
                put_brief(&p.checks[i].brief);
        }
        for (size_t i = 0; i < p.n_assumed; i++)
            put_saying(&p.assumed[i].what);
    }
    plan_free(&p);
    diags_free(&diags);
}

/* Bends a job out of shape, so that every kind of sentence is wanted somewhere. */
static void spoil_job(struct random *r, struct test_job *t)
{
    struct job_sled *s = &t->job.jig.as.sled;

    if (random_below(r, 2))
        s->capacity_width = given(round(random_between(r, 50, 700)));
    if (random_below(r, 3) == 0)
        s->base_depth = given(round(random_between(r, 200, 900)));
    if (random_below(r, 3) == 0)
        s->base_width = given(round(random_between(r, 420, 1200)));
    if (random_below(r, 3) == 0)
        s->runner_width = given(t->job.saw.slots.width.v - random_between(r, -0.1, 0.4));
    if (random_below(r, 3) == 0)
        s->reference_fence.height = given(round(random_between(r, 40, 180)));
    if (random_below(r, 3) == 0)
        s->guard_layers = (struct job_layers){.given = true, .count = 1 + random_below(r, 6)};
    if (random_below(r, 3) == 0)
        s->runner_thickness = given(in_tenths(random_between(r, 7, 10)));
    if (random_below(r, 3) == 0)
        s->reference_fence.side = FENCE_FAR, s->reference_fence.side_given = true;
    t->job.saw.knife.kind = (enum knife_kind)random_below(r, 4);
    if (random_below(r, 3))
        t->job.saw.knife.thickness = given(random_between(r, 1.5, 3.5));
    if (random_below(r, 2))
        t->job.saw.knife.below_top = given(round(random_between(r, -4, 5)));
    if (random_below(r, 2))
        t->job.saw.blade.plate = given(t->job.saw.blade.kerf.v - 0.6);
    if (random_below(r, 4) == 0)
        t->stock[0].sheet_along = given(300);
}

static void test_plan_sentences_of_spoilt_jobs(void **state)
{
    struct random r = {20261105};
    static struct test_job t;

    (void)state;
    for (int i = 0; i < 400; i++) {
        random_saw(&r, &t);
        if (random_below(&r, 2))
            random_air(&r, &t, (enum rings)random_below(&r, 3));
        spoil_job(&r, &t);
        put_plan(&t);
    }
}

static void test_plan_sentences_of_the_worked_plans(void **state)
{
    static struct test_job t;

    (void)state;
    contract_job(&t);
    put_plan(&t);
    contract_job_far(&t);
    put_plan(&t);
    least_job(&t);
    put_plan(&t);
}

static void want_key(const char *key)
{
    if (!words_find(key))
        fail_msg("no words for %s", key);
}

/* Every key that stands in the sources of plan. */
static void want_keys_of(const char *file)
{
    static const char *const starts[] = {"\"remedy.", "\"assumed.", "\"check.", "\"part."};
    char path[512], key[128];
    struct text text = {0};

    snprintf(path, sizeof path, "%s/src/plan/%s", SOURCE_FOLDER, file);
    assert_int_equal(file_read(path, 1 << 20, &text), FILE_READ);
    for (size_t k = 0; k < 4; k++)
        for (const char *at = strstr(text_string(&text), starts[k]); at; at = strstr(at + 1, starts[k])) {
            size_t n = strcspn(at + 1, "\"");
            if (at[n] == '.') /* the first half of a key that a macro puts together */
                continue;
            assert_true(n < sizeof key);
            memcpy(key, at + 1, n);
            key[n] = '\0';
            want_key(key);
        }
    text_free(&text);
}

static void test_plan_keys_have_words(void **state)
{
    static const char *const files[] = {"checks.c", "checks_blade.c", "checks_runners.c", "checks_balance.c", "brief.c", "remedy.c", "levers.c", "assumed.c", "stock_fit.c", "parts.inc"};
    static const char *const tails[] = {"title", "why"};

    (void)state;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++)
        want_keys_of(files[i]);
    for (int id = 0; id < CHECKS; id++) {
        bool elsewhere = id == CHECK_SCREW_FREE_STRIP || id == CHECK_SCREW_LENGTH || id == CHECK_STOCK_ENOUGH;
        for (size_t k = 0; k < 2; k++) {
            char key[128];
            snprintf(key, sizeof key, "check.%s.%s", plan_check_name((enum check_id)id), tails[k]);
            if (k == 0 || !elsewhere)
                want_key(key);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_keys_have_words),
        cmocka_unit_test(test_plan_sentences_of_the_worked_plans),
        cmocka_unit_test(test_plan_sentences_of_spoilt_jobs),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
