/* What to fetch before the first step: counted against the holes. */
#include "close.h"
#include "plan_jobs.h"

#include "words.h"

#include <ctype.h>
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
    assert_int_equal(count_key(&p, "need.cover_screws"), 0);
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
    assert_int_equal(count_key(&p, "need.router"), 1);
    assert_int_equal(count_key(&p, "need.lining"), 1);
    assert_int_equal(count_key(&p, "need.cover_screws"), 1);
    assert_int_equal(count_key(&p, "need.track"), 0);
    put_all_into_words(&p);
    plan_free(&p);
    diags_free(&diags);
}

/* What a step's words name, and the need that stands for it. "a square", for "square" alone is a property. */
static const struct named {
    const char *words, *need;
} named[] = {
    {"router", "need.router"},
    {"straight guide", "need.guide"},
    {"caliper", "need.caliper"},
    {"rod ", "need.rod"},
    {"mitre gauge", "need.rod"},
    {"feeler leaves", "need.leaves"},
    {"a square ", "need.square"},
    {"long square", "need.square"},
    {"saw the parts", "need.sawing"},
    {"push stick", "need.sawing"},
    {"handsaw", "need.sawing"},
    {"plane guide runner", "need.plane"},
    {"plane a ", "need.plane"},
    {"plane the ", "need.plane"},
    {"straight edge", "need.straight_edge"},
    {"clamp a", "need.clamps"},
    {"clamp it", "need.clamps"},
    {"clamp both", "need.clamps"},
    {"clamps", "need.clamps"},
    {"weights", "need.weights"},
    {"trestles", "need.trestles"},
    {"with knife", "need.knife"},
    {"scrape ", "need.scraper"},
    {"drill ", "need.drills"},
    {"countersink ", "need.countersink"},
    {"drive ", "need.screwdriver"},
    {"screw it", "need.screwdriver"},
    {"point off a screw", "need.hacksaw"},
    {"saw the track", "need.hacksaw"},
    {"clamp a block", "need.block"},
    {"pencil", "need.pencil"},
    {"glue ", "need.glue"},
    {"in a vice", "need.vice"},
    {"lay paper", "need.paper"},
    {"strip of hardwood", "need.kerf_strip"},
    {"wipe", "need.cloth"},
    {"paint ", "need.paint"},
    {"in red", "need.marker"},
    {"wax ", "need.wax"},
    {"spacers", "need.spacers"},
    {"scrap", "need.waste"},
    {"flag the drill", "need.flag"},
    {"board", "need.boards"},
    {"hinge", "need.hinge"},
    {"tape along", "need.tape"},
    {"the track", "need.track"},
    {"rule ", "need.rule"},
};

static void put_lower(struct text *out, const struct saying *s)
{
    struct text said = {0};
    words_put_plain(&said, s, UNITS_MM);
    for (const char *c = text_string(&said); *c; c++)
        text_printf(out, "%c", tolower((unsigned char)*c));
    text_printf(out, " ");
    text_free(&said);
}

/* The first step that names it; n_steps: none. */
static size_t first_named(const struct plan *p, const char *need)
{
    size_t found = p->n_steps;
    for (size_t i = 0; i < p->n_steps && found == p->n_steps; i++) {
        struct text said = {0};
        put_lower(&said, &p->steps[i].what);
        put_lower(&said, &p->steps[i].know);
        if (p->steps[i].caution.key)
            put_lower(&said, &p->steps[i].caution);
        for (size_t k = 0; k < sizeof named / sizeof *named; k++)
            if (strncmp(need, named[k].need, strlen(named[k].need)) == 0 && strstr(text_string(&said), named[k].words))
                found = i;
        text_free(&said);
    }
    return found;
}

static bool is_needed(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_needs; i++)
        if (strncmp(p->needs[i].what.key, key, strlen(key)) == 0)
            return true;
    return false;
}

/* Every tool that a step names is in the lists, and a list's order is that in which the steps ask. */
static void check_needs_in_order(const struct plan *p)
{
    for (size_t k = 0; k < sizeof named / sizeof *named; k++)
        if (first_named(p, named[k].need) < p->n_steps && !is_needed(p, named[k].need))
            fail_msg("a step names \"%s\": no %s in the lists", named[k].words, named[k].need);
    for (size_t i = 0; i < p->n_needs; i++) {
        const struct plan_need *n = &p->needs[i];
        size_t first = first_named(p, n->what.key);
        if (i > 0 && n->step < p->needs[i - 1].step)
            fail_msg("%s stands behind %s", n->what.key, p->needs[i - 1].what.key);
        if (first < p->n_steps && n->step > (int)first)
            fail_msg("%s: step %zu, %s, names it before step %d", n->what.key, first + 1, p->steps[first].what.key, n->step + 1);
    }
}

static void in_a_rebate(struct test_job *t)
{
    contract_job(t);
    t->heights[0] = 100;
    t->heights[1] = 86;
    t->job.jig.as.sled.reference_fence.layers.heights = t->heights;
}

static void slots_lined(struct test_job *t)
{
    contract_job(t);
    t->job.saw.slots_to_make = (struct job_slots_to_make){
        .given = true, .width = given(25), .depth = given(12.8), .bit = given(12), .base_diameter = given(150), .step = left_out(),
        .profile = {true, given(25), given(12.7), given(19.1), given(9.6)}};
}

static void test_plan_needs_in_the_order_of_the_steps(void **state)
{
    static void (*const fill[])(struct test_job *) = {contract_job, contract_job_far, least_job, in_a_rebate, slots_lined};
    static struct test_job t;

    (void)state;
    for (size_t i = 0; i < sizeof fill / sizeof *fill; i++) {
        struct diags diags = {0};
        struct plan p;
        fill[i](&t);
        assert_true(plan_build(&t.job, &diags, &p));
        check_needs_in_order(&p);
        put_all_into_words(&p);
        plan_free(&p);
        diags_free(&diags);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plan_needs_count_every_screw_once),
        cmocka_unit_test(test_plan_needs_follow_the_job),
        cmocka_unit_test(test_plan_needs_in_the_order_of_the_steps),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
