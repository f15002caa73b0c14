/* The same job told in millimetres and in inches gives the same results. 1 in = 25.4 mm exactly; every length of these jobs is
   a whole number of 64ths or thousandths of an inch, which decimals of a millimetre can tell exactly. */
#include "whole/random_job.h"
#include "whole/whole.h"

#include <cjson/cJSON.h>
#include <stdio.h>

enum { JOBS = 120 };

/* What the unit itself decides: round figures of the trade and of derived sizes are round in the job's own unit, screws come
   from a metric or an inch series, sentences are printed. Keys of results, each wherever it stands. */
static const char *const own_of_unit[] = {
    "units", "fingerprint",              /* the texts differ */
    "why", "remedy", "job_change", "text", /* printed */
    "why_said", "remedy_said",           /* a remedy's number is rounded as it will be written */
    "steps", "cautions", "assumed", "needs", /* round figures of the trade stand in them */
    "holes",                             /* a metric or an inch series of screws */
    "reckoner", "proof_length", "leaves", /* marks stand a multiple of 50 mm or 2 in apart; leaves follow from the move */
    "reading_tables",                    /* round readings of the unit, or leaves; a board of 60 mm or 2.5 in */
    "zones",                             /* rounded outward to the place of the unit, or to what the tool shows */
    "flip_stop",                         /* its figures are of the shop, in round numbers of the job's unit */
    "plane_to",                          /* the width to aim at is rounded to the unit's fit */
    "keep_out", "chamfer",               /* 75 mm or 3 in; 2 mm or 1/16 in */
    "cover_screws_from_blade",           /* 15 mm or 5/8 in less than that */
    "sawn_length",      /* a piece to be planed is 300 mm or 12 in long */
    "cutting", "cutting_findings",       /* layouts of sizes that are round in their unit may tie */
};

static bool is_own_of_unit(const char *key)
{
    for (size_t i = 0; key && i < sizeof own_of_unit / sizeof *own_of_unit; i++)
        if (strcmp(own_of_unit[i], key) == 0)
            return true;
    return false;
}

/* Checks that rest on the screws' series. */
static bool is_of_screws(const cJSON *check)
{
    const cJSON *id = cJSON_GetObjectItemCaseSensitive(check, "id");
    return cJSON_IsString(id) && (strcmp(id->valuestring, "screw_length") == 0 || strcmp(id->valuestring, "screw_free_strip") == 0);
}

/* The blade cover is as wide as the strip for hands, 150 mm or 6 in: it weighs 1.6 % more in inches, and the sled with it. */
static bool is_cover(const cJSON *part)
{
    const cJSON *name = cJSON_GetObjectItemCaseSensitive(part, "name");
    return cJSON_IsString(name) && strcmp(name->valuestring, "blade cover") == 0;
}

static bool has_cover(const cJSON *job)
{
    const cJSON *part;
    cJSON_ArrayForEach(part, cJSON_GetObjectItemCaseSensitive(job, "parts"))
        if (is_cover(part))
            return true;
    return false;
}

static bool weighs_the_cover(const char *path)
{
    return strstr(path, "/tipping_") || strstr(path, "/mass") || strstr(path, "/centre_") ||
           strstr(path, "/taken_share");
}

static bool is_close(double a, double b, bool cover)
{
    double most = fmax(fabs(a), fabs(b));
    return fabs(a - b) <= (cover ? 0.016 * fmax(most, 1) : 1e-9 * fmax(most, 1e-3));
}

static int differences(const cJSON *a, const cJSON *b, const char *path, bool cover, int told)
{
    int n = 0;
    char deeper[512];
    if (!a || !b || a->type != b->type) {
        print_error("%s: only in one unit\n", path);
        return 1;
    }
    if (cJSON_IsNumber(a) && !is_close(a->valuedouble, b->valuedouble, cover && weighs_the_cover(path))) {
        if (told < 5)
            print_error("%s: %.15g in mm, %.15g in inches\n", path, a->valuedouble, b->valuedouble);
        return 1;
    }
    if (cJSON_IsString(a) && strcmp(a->valuestring, b->valuestring) != 0) {
        print_error("%s: %s in mm, %s in inches\n", path, a->valuestring, b->valuestring);
        return 1;
    }
    if (is_of_screws(a) || is_cover(a))
        return 0;
    cover = cover || has_cover(a);
    const cJSON *x = a->child, *y = b->child;
    for (int i = 0; x || y; x = x ? x->next : NULL, y = y ? y->next : NULL, i++) {
        const char *key = x ? x->string : y->string;
        if (is_own_of_unit(key))
            continue;
        const cJSON *id = x ? cJSON_GetObjectItemCaseSensitive(x, "id") : NULL;
        snprintf(deeper, sizeof deeper, "%s/%s%s", path, key ? key : "", cJSON_IsString(id) ? id->valuestring : "");
        n += differences(x, y, deeper, cover, told + n);
    }
    return n;
}

static cJSON *results_in(uint64_t state, enum random_units units, struct text *yaml)
{
    struct random_job g = {.state = state, .n_tests = -1, .units = units, .exact = true, .all_given = true};
    random_job_write(&g, yaml);
    struct whole *w = whole_calculate(text_string(yaml));
    if (!w->read)
        print_problems(&w->diags);
    assert_true(w->read);
    whole_results(w);
    cJSON *root = cJSON_Parse(text_string(&w->json));
    bool planned = w->planned;
    whole_free(w);
    if (planned)
        return root;
    cJSON_Delete(root);
    return NULL;
}

static void test_units_same_job_in_mm_and_inches(void **state)
{
    (void)state;
    int compared = 0, failed = 0;
    for (uint64_t seed = 1; seed <= JOBS && failed < 5; seed++) {
        struct text in_mm = {0}, in_inches = {0};
        cJSON *a = results_in(seed * 7919, RANDOM_MM, &in_mm), *b = results_in(seed * 7919, RANDOM_IN, &in_inches);
        assert_true((a == NULL) == (b == NULL));
        if (a) {
            compared++;
            if (differences(a, b, "", false, 0) > 0) {
                failed++;
                if (getenv("FETTLE_SHOW"))
                    print_error("%s\n%s\n", text_string(&in_mm), text_string(&in_inches));
            }
        }
        cJSON_Delete(a);
        cJSON_Delete(b);
        text_free(&in_mm);
        text_free(&in_inches);
    }
    print_message("%d jobs compared\n", compared);
    assert_int_equal(failed, 0);
    assert_true(compared > JOBS * 3 / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_units_same_job_in_mm_and_inches),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
