/* Build sheets of random lists with their layouts: every page keeps the rules of pages_check. */
#include "pages.h"

#include "close.h"
#include "stock/random_lists.h"

#include <string.h>

enum { LISTS = 25 };

static void check_list(unsigned seed, const struct faces *faces)
{
    struct text yaml = {0}, problems = {0};
    struct diags diags = {0};
    struct job job = {0};
    struct plan plan = {0};
    struct cutting cutting = {0};
    struct proof proof = {0};
    struct outcome outcome = {0};
    struct sheets sheets = {0};
    struct pages pages = {0};
    random_list(seed, &yaml);
    assert_true(job_read_text("job.yaml", text_string(&yaml), yaml.size, &diags, &job) && plan_build(&job, &diags, &plan) &&
                proof_build(&job, &plan.setting, &diags, &proof));
    cutting_build(&job, &plan, &cutting);
    outcome_build(&plan, &cutting, &proof, &outcome);
    assert_true(sheets_build(&job, &plan, &cutting, &proof, &outcome, NULL, &sheets));
    if (!pages_build(&sheets, faces, &pages, &problems) || pages_check(&pages, faces, &problems))
        fail_msg("list %u:\n%s", seed, text_string(&problems));
    pages_free(&pages);
    sheets_free(&sheets);
    outcome_free(&outcome);
    proof_free(&proof);
    cutting_free(&cutting);
    plan_free(&plan);
    job_free(&job);
    diags_free(&diags);
    text_free(&problems);
    text_free(&yaml);
}

static void test_pages_of_random_lists_keep_the_rules(void **state)
{
    (void)state;
    struct faces *faces = type_open();
    for (unsigned seed = 1; seed <= LISTS; seed++)
        check_list(seed, faces);
    type_close(faces);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_pages_of_random_lists_keep_the_rules)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
