/* Golden cases: results and page dump of every example job, and of the jobs in this folder, against files in this folder.
   FETTLE_ACCEPT=1 writes them anew: look at the diff, and commit it only with the check that shows the new value right. */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"
#include "outcome.h"
#include "pages.h"
#include "results.h"
#include "sheet.h"

#include <cjson/cJSON.h>
#include <glob.h>
#include <regex.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "close.h"

static const struct date day = {2026, 11, 10};

/* Numbers may differ in the last digits from one compiler to the next. */
static bool json_alike(const cJSON *a, const cJSON *b, const char *path)
{
    bool ok = a && b && a->type == b->type;
    if (ok && cJSON_IsNumber(a))
        ok = fabs(a->valuedouble - b->valuedouble) <= 1e-9 * fmax(fabs(a->valuedouble), 1e-6);
    if (ok && cJSON_IsString(a))
        ok = strcmp(a->valuestring, b->valuestring) == 0;
    const cJSON *x = ok ? a->child : NULL, *y = ok ? b->child : NULL;
    for (; ok && (x || y); x = x->next, y = y->next) {
        char deeper[512];
        snprintf(deeper, sizeof deeper, "%s/%s", path, x && x->string ? x->string : "");
        if (!x || !y || (x->string && strcmp(x->string, y->string ? y->string : "") != 0) || !json_alike(x, y, deeper))
            return false;
    }
    if (!ok)
        print_error("differs at %s\n", path);
    return ok;
}

static void compare(const char *name, const char *ending, const struct text *is, bool json)
{
    char path[1024];
    struct text was = {0};
    snprintf(path, sizeof path, "%s/tests/golden/%s.%s", SOURCE_FOLDER, name, ending);
    if (getenv("FETTLE_ACCEPT")) {
        assert_true(file_write_whole(path, text_string(is), is->size));
        return;
    }
    if (file_read(path, 1 << 24, &was) != FILE_READ)
        fail_msg("no golden file %s", path);
    if (json) {
        cJSON *a = cJSON_Parse(text_string(is)), *b = cJSON_Parse(text_string(&was));
        bool ok = json_alike(a, b, "");
        cJSON_Delete(a);
        cJSON_Delete(b);
        if (!ok)
            fail_msg("%s: the results differ", name);
    } else {
        assert_string_equal(text_string(is), text_string(&was));
    }
    text_free(&was);
}

/* "?key?" stands where a sentence or a number is missing. */
static void check_no_missing_words(const char *dump)
{
    regex_t missing;
    assert_int_equal(regcomp(&missing, "\\?[a-z_.#-]+\\?", REG_EXTENDED | REG_NOSUB), 0);
    int found = regexec(&missing, dump, 0, NULL, 0);
    regfree(&missing);
    assert_int_equal(found, REG_NOMATCH);
}

static void check_case(const char *path, const struct faces *faces)
{
    char name[256];
    const char *slash = strrchr(path, '/');
    snprintf(name, sizeof name, "%.*s", (int)strcspn(slash + 1, "."), slash + 1);
    struct diags diags = {0};
    struct job job = {0};
    struct plan plan = {0};
    struct cutting cutting = {0};
    struct proof proof = {0};
    struct outcome outcome = {0};
    struct sheets sheets = {0};
    struct pages pages = {0};
    struct text json = {0}, dump = {0}, problems = {0};
    if (!job_read(path, &diags, &job) || !plan_build(&job, &diags, &plan) || !proof_build(&job, &plan.setting, &diags, &proof))
        fail_msg("%s does not read", name);
    cutting_build(&job, &plan, &cutting);
    outcome_build(&plan, &cutting, &proof, &outcome);
    assert_true(sheets_build(&job, &plan, &cutting, &proof, &outcome, job.sheets_given ? job.sheets : NULL, &sheets));
    if (!pages_build(&sheets, faces, &pages, &problems))
        fail_msg("%s: %s", name, text_string(&problems));
    if (pages_check(&pages, faces, &problems))
        fail_msg("%s:\n%s", name, text_string(&problems));
    struct result_job result = {.file = slash + 1, .job = &job, .diags = &diags, .plan = &plan, .cutting = &cutting, .proof = &proof, .outcome = &outcome,
                                .sheet_file = "x.pdf", .pages = (int)pages.n};
    results_json(&result, 1, day, &json);
    pages_dump(&pages, &dump);
    check_no_missing_words(text_string(&dump));
    compare(name, "json", &json, true);
    compare(name, "pages", &dump, false);
    text_free(&json);
    text_free(&dump);
    text_free(&problems);
    pages_free(&pages);
    sheets_free(&sheets);
    outcome_free(&outcome);
    proof_free(&proof);
    cutting_free(&cutting);
    plan_free(&plan);
    job_free(&job);
    diags_free(&diags);
}

static void test_golden_examples(void **state)
{
    (void)state;
    struct faces *faces = type_open();
    glob_t found;
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 6);
    assert_int_equal(glob(SOURCE_FOLDER "/tests/golden/*.yaml", GLOB_APPEND, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++)
        check_case(found.gl_pathv[i], faces);
    globfree(&found);
    type_close(faces);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden_examples),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
