/* The hardest jobs that the format allows, from their text to the finished PDF: the longest texts, forty tests, the smallest
   and the largest saws, racks and drawers full of things, a job whose own text fills pages. */
#include "whole/random_job.h"
#include "whole/typeset.h"

#include <stdio.h>

static const char *const papers[] = {"A4", "A3", "Letter", "Tabloid"};

static void check_some(struct typeset_test *t, struct random_job g, int n)
{
    struct text yaml = {0};
    t->planned = t->failed = 0;
    for (int i = 0; i < n; i++) {
        g.paper = papers[i % 4];
        g.units = i % 2 ? RANDOM_IN : RANDOM_MM;
        random_job_write(&g, &yaml);
        typeset_check(t, text_string(&yaml), TYPESET_FINISHED);
    }
    assert_int_equal(t->failed, 0);
    assert_true(t->planned > 0);
    text_free(&yaml);
}

static void test_torture_forty_tests(void **state)
{
    check_some(*state, (struct random_job){.state = 5, .n_tests = 40}, 1);
}

/* A sled with one test and with none, a saw without a jig and so without stock, with one test of each method. */
static void test_torture_little_to_tell(void **state)
{
    check_some(*state, (struct random_job){.state = 21, .n_tests = 1}, 2);
    check_some(*state, (struct random_job){.state = 22, .n_tests = 0}, 2);
    check_some(*state, (struct random_job){.state = 23, .n_tests = 1, .kind = RANDOM_SAW, .all_methods = true}, 4);
    check_some(*state, (struct random_job){.state = 24, .n_tests = 0, .kind = RANDOM_PARTS}, 4);
}

static void test_torture_longest_texts(void **state)
{
    check_some(*state, (struct random_job){.state = 9, .n_tests = 3, .long_texts = true}, 4);
}

/* The smallest and the largest saw of the job format's ranges that get a sled. */
static void test_torture_smallest_and_largest_saw(void **state)
{
    static const char *const saws[] = {
        "  blade: {diameter: 100, kerf: 1.2, highest: 30}\n  table: {front_edge: 110, depth: 320}\n"
        "  slots: {width: 8, depth: 5, left: 70}\n",
        "  blade: {diameter: 600, kerf: 5.2, highest: 220}\n  table: {front_edge: 900, depth: 1500}\n"
        "  slots: {width: 30, depth: 15, left: 250, right: 300}\n",
    };
    struct typeset_test *t = *state;
    t->planned = t->failed = 0;
    for (size_t i = 0; i < 8; i++) {
        struct text yaml = {0};
        text_printf(&yaml, "fettle: 1\njob: {number: X-%zu, title: Range}\nunits: %s\npaper: %s\nsaw:\n%s"
                    "stock:\n  ply: {material: birch-plywood, thickness: 12, sheet: [2500, 1250]}\n"
                    "  ply24: {material: birch-plywood, thickness: %d, sheet: [2500, 1250]}\n"
                    "  maple: {material: hard-maple, strip: [40, 60], length: 2500, rings: quarter}\n"
                    "jig: {kind: crosscut-sled%s}\n",
                    i, "mm", papers[i / 2], saws[i % 2], i % 2 ? 24 : 9, i % 2 ? "" : ", capacity: {width: 60}");
        int before = t->planned;
        typeset_check(t, text_string(&yaml), TYPESET_FINISHED);
        if (t->planned == before) {
            struct whole *w = whole_calculate(text_string(&yaml));
            print_problems(&w->diags);
            whole_free(w);
        }
        assert_int_equal(t->planned, before + 1);
        text_free(&yaml);
    }
    assert_int_equal(t->failed, 0);
}

/* Twelve tools with the longest certificates, ten sizes of screws, offcuts of every kind. */
static void write_full_shop(struct text *yaml, bool inches)
{
    text_add(yaml, "instruments:\n");
    for (int i = 0; i < 12; i++)
        text_printf(yaml, "  caliper-of-the-other-bench-%02d: {kind: caliper, resolution: 0.01 mm, error_limit: 0.03 mm, "
                    "checked: 2026-0%d-15, certificate: \"Łódź measuring room, Čapek & Ørsted, ½ of the range, no. %02d − 2026, °é ß\"}\n",
                    i, 1 + i % 9, i);
    text_add(yaml, "screws:\n");
    for (int i = 0; i < 10; i++)
        text_printf(yaml, "  - {diameter: %.1f mm, lengths: [12 mm, 16 mm, 20 mm, 25 mm, 30 mm, 35 mm, 40 mm, 45 mm, 50 mm, 60 mm]}\n",
                    3 + 0.5 * i);
    text_add(yaml, inches ? "stock:\n  ply12: {material: birch-plywood, thickness: .472, sheet: [48, 48]}\n"
                          : "stock:\n  ply12: {material: birch-plywood, thickness: 12, sheet: [1220, 1220]}\n");
    for (int i = 0; i < 8; i++)
        text_printf(yaml, "  offcuts-from-the-cupboard-job-%d: {material: birch-plywood, thickness: 12 mm, sheet: [%d mm, %d mm], have: %d}\n",
                    i, 300 + 90 * i, 250 + 70 * i, 1 + i % 3);
    text_add(yaml, "  maple: {material: hard-maple, strip: [25 mm, 50 mm], length: 1200 mm}\n");
}

/* 150 lines of remarks, the longest 200 characters, at all depths. */
static void write_remarks(struct text *yaml)
{
    for (int i = 0; i < 150; i++) {
        text_printf(yaml, "%*s# %d: ", i % 7 * 2, "", i);
        for (int k = 0; k < 5 + i % 24; k++)
            text_add(yaml, k % 5 ? "Straße " : "15° − ½; ");
        text_add_char(yaml, '\n');
    }
}

static void test_torture_full_shop_and_long_remarks(void **state)
{
    struct typeset_test *t = *state;
    t->planned = t->failed = 0;
    for (int i = 0; i < 4; i++) {
        struct text yaml = {0};
        bool inches = i % 2;
        text_printf(&yaml, "fettle: 1\njob: {number: FULL-%d, title: \"Ærø — Łódź — Čapek — Straße — ½ − 15° — naïve façade, bay 2\"}\n"
                    "units: %s\npaper: %s\nsaw:\n  blade: {diameter: 254 mm, kerf: 2.8 mm, highest: 80 mm}\n"
                    "  table: {front_edge: 500 mm, depth: 800 mm}\n  slots: {width: 19.1 mm, depth: 9.6 mm, left: 142 mm, right: 178 mm}\n",
                    i, inches ? "in" : "mm", papers[i]);
        write_full_shop(&yaml, inches);
        text_add(&yaml, "jig: {kind: crosscut-sled, capacity: {width: 300 mm}}\ntests:\n");
        for (int k = 0; k < 12; k++)
            text_printf(&yaml, "  - {method: five-cut, date: 2026-%02d-02, offcut: right, length: 250 mm, instrument: caliper-of-the-other-bench-%02d,\n"
                        "     strips: [{fence_end: [21.4%d mm], far_end: [21.39 mm]}]}\n", 1 + k, k, k % 10);
        write_remarks(&yaml);
        typeset_check(t, text_string(&yaml), TYPESET_FINISHED);
        text_free(&yaml);
    }
    assert_int_equal(t->failed, 0);
    assert_int_equal(t->planned, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_torture_forty_tests),
        cmocka_unit_test(test_torture_little_to_tell),
        cmocka_unit_test(test_torture_longest_texts),
        cmocka_unit_test(test_torture_smallest_and_largest_saw),
        cmocka_unit_test(test_torture_full_shop_and_long_remarks),
    };
    return cmocka_run_group_tests(tests, typeset_set_up, typeset_tear_down);
}
