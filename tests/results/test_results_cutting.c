/* What the results say of the cutting: read back from the JSON, for a list worked by hand. */
#include "results.h"

#include "close.h"

#include <cjson/cJSON.h>
#include <stdlib.h>
#include <string.h>

struct scene {
    struct job job;
    struct diags diags;
    struct plan plan;
    struct cutting cutting;
    struct proof proof;
    struct outcome outcome;
    cJSON *root;
    const cJSON *one; /* the job */
};

static void read_scene(struct scene *s, const char *yaml, bool with_cutting)
{
    struct text json = {0};
    *s = (struct scene){0};
    assert_true(job_read_text("job.yaml", yaml, strlen(yaml), &s->diags, &s->job) &&
                plan_build(&s->job, &s->diags, &s->plan) &&
                proof_build(&s->job, &s->plan.setting, &s->diags, &s->proof));
    cutting_build(&s->job, &s->plan, &s->cutting);
    const struct cutting *cutting = with_cutting ? &s->cutting : NULL;
    outcome_build(&s->plan, cutting, &s->proof, &s->outcome);
    struct result_job r = {.file = "job.yaml", .job = &s->job, .diags = &s->diags, .plan = &s->plan, .cutting = cutting,
                           .proof = &s->proof, .outcome = &s->outcome};
    results_json(&r, 1, (struct date){2026, 11, 10}, &json);
    s->root = cJSON_Parse(text_string(&json));
    s->one = cJSON_GetArrayItem(cJSON_GetObjectItem(s->root, "jobs"), 0);
    text_free(&json);
}

static void free_scene(struct scene *s)
{
    cJSON_Delete(s->root);
    outcome_free(&s->outcome);
    proof_free(&s->proof);
    cutting_free(&s->cutting);
    plan_free(&s->plan);
    job_free(&s->job);
    diags_free(&s->diags);
}

static const cJSON *check_of(const struct scene *s, const char *id, int *n)
{
    const cJSON *found = NULL, *c;
    *n = 0;
    cJSON_ArrayForEach(c, cJSON_GetObjectItem(s->one, "checks"))
        if (strcmp(cJSON_GetObjectItem(c, "id")->valuestring, id) == 0) {
            found = c;
            ++*n;
        }
    return found;
}

static double number_of(const cJSON *o, const char *key)
{
    const cJSON *item = cJSON_GetObjectItem(o, key);
    return cJSON_IsNumber(item) ? item->valuedouble : NAN;
}

#define LIST(parts) \
    "fettle: 1\njob: {number: L-1, title: List}\nunits: mm\nsaw: {blade: {diameter: 250, kerf: 3}}\nstock:\n" \
    "  ply: {material: birch-plywood, thickness: 12, sheet: [1203, 800], have: 1}\n" \
    "jig: {kind: parts, parts: [" parts "]}\n"

/* Two of 600 lie beside each other on 1203 with one kerf of 3, and no third beside them on 800: four need two sheets.
   Parts are 4 x 0.36 m2 of 2 x 0.9624 m2. Left of each sheet: 1203 x 197. */
static void test_results_cutting_of_four_lids(void **state)
{
    (void)state;
    struct scene s;
    read_scene(&s, LIST("{name: lid, stock: ply, length: 600, width: 600, quantity: 4}"), true);
    const cJSON *cutting = cJSON_GetObjectItem(s.one, "cutting"), *ply = cJSON_GetArrayItem(cutting, 0);
    int n;
    assert_int_equal(cJSON_GetArraySize(cutting), 1);
    assert_string_equal(cJSON_GetObjectItem(ply, "stock")->valuestring, "ply");
    assert_close(number_of(ply, "sheets"), 2, 1e-12);
    assert_close(number_of(ply, "at_least"), 2, 1e-12);
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(ply, "proven_best")));
    assert_close(number_of(ply, "to_buy"), 1, 1e-12);
    assert_close(number_of(ply, "yield"), 4 * 0.36 / (2 * 0.9624), 1e-9);
    const cJSON *offcuts = cJSON_GetObjectItem(ply, "offcuts");
    assert_int_equal(cJSON_GetArraySize(offcuts), 2);
    assert_close(number_of(cJSON_GetArrayItem(offcuts, 0), "along"), 1203, 1e-9);
    assert_close(number_of(cJSON_GetArrayItem(offcuts, 0), "across"), 197, 1e-9);
    const cJSON *enough = check_of(&s, "stock_enough", &n);
    assert_int_equal(n, 1);
    assert_string_equal(cJSON_GetObjectItem(enough, "unit")->valuestring, "1");
    assert_string_equal(cJSON_GetObjectItem(enough, "verdict")->valuestring, "fail");
    assert_close(number_of(enough, "value"), 1, 1e-12);
    assert_close(number_of(enough, "low"), 2, 1e-12);
    assert_string_equal(cJSON_GetObjectItem(s.one, "state")->valuestring, "do-not-use");
    free_scene(&s);
}

/* Both know that 1300 is 97 more than 1203; one of them says it. */
static void test_results_say_stock_fits_once(void **state)
{
    (void)state;
    struct scene s;
    int n;
    read_scene(&s, LIST("{name: long, stock: ply, length: 1300, width: 100}, {name: lid, stock: ply, length: 600, width: 600}"), true);
    const cJSON *fits = check_of(&s, "stock_fits", &n);
    assert_int_equal(n, 1);
    assert_close(number_of(fits, "value"), -97, 1e-9);
    assert_string_equal(cJSON_GetObjectItem(cJSON_GetObjectItem(fits, "why_said"), "key")->valuestring, "cutting.misfit.why");
    free_scene(&s);
    read_scene(&s, LIST("{name: lid, stock: ply, length: 600, width: 600}"), true);
    fits = check_of(&s, "stock_fits", &n);
    assert_int_equal(n, 1);
    assert_string_equal(cJSON_GetObjectItem(fits, "verdict")->valuestring, "pass");
    free_scene(&s);
}

static void test_results_without_a_cutting_have_an_empty_list(void **state)
{
    (void)state;
    struct scene s;
    int n;
    read_scene(&s, LIST("{name: lid, stock: ply, length: 600, width: 600}"), false);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(s.one, "cutting")), 0);
    assert_non_null(check_of(&s, "stock_fits", &n));
    assert_int_equal(n, 1);
    free_scene(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_results_cutting_of_four_lids),
        cmocka_unit_test(test_results_say_stock_fits_once),
        cmocka_unit_test(test_results_without_a_cutting_have_an_empty_list),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
