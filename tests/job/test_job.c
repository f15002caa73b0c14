/* Whole jobs, read to the right numbers. */
#include "base/file.h"
#include "job.h"

#include "close.h"

#include <stdlib.h>
#include <string.h>

static struct job job;
static struct diags diags;

static bool read_text(const char *text)
{
    return job_read_text("test.yaml", text, strlen(text), &diags, &job);
}

static void print_diags(void)
{
    struct text t = {0};
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &t);
    if (t.size)
        print_error("%s", text_string(&t));
    text_free(&t);
}

static int free_all(void **state)
{
    (void)state;
    job_free(&job);
    diags_free(&diags);
    return 0;
}

static void read_fixture(const char *name)
{
    struct text path = {0};
    text_printf(&path, "%s/tests/job/jobs/%s", SOURCE_FOLDER, name);
    bool ok = job_read(text_string(&path), &diags, &job);
    print_diags();
    assert_true(ok);
    assert_int_equal(diags.count, 0);
    text_free(&path);
}

static void assert_num(struct num n, double v, int line)
{
    assert_true(n.given);
    assert_close(n.v, v, 1e-12);
    assert_int_equal(n.mark.line, line);
}

static void test_job_read_full_saw(void **state)
{
    (void)state;
    read_fixture("full.yaml");
    assert_string_equal(job.number.s, "TS-07");
    assert_string_equal(job.title.s, "Crosscut sled, bay 2");
    assert_string_equal(job.shop.s, "Joinery training shop");
    assert_string_equal(job.made_by.s, "bench class B");
    assert_true(job.date_given);
    assert_int_equal(job.date.year * 10000 + job.date.month * 100 + job.date.day, 20261102);
    assert_int_equal(job.units, UNITS_MM);
    assert_int_equal(job.paper, PAPER_A4);
    assert_true(job.sheets_given && job.sheets[SHEET_WALL] && job.sheets[SHEET_BUILD] && job.sheets[SHEET_RECORD] &&
                job.sheets[SHEET_BENCH]);
    assert_num(job.saw.blade.diameter, 254, 14);
    assert_num(job.saw.blade.kerf, 2.8, 14);
    assert_num(job.saw.blade.plate, 1.8, 14);
    assert_num(job.saw.blade.highest, 80, 14);
    assert_int_equal(job.saw.blade.kerf.mark.column, 32);
    assert_int_equal(job.saw.knife.kind, KNIFE_RIVING);
    assert_num(job.saw.knife.thickness, 2.2, 15);
    assert_num(job.saw.table.front_edge, 500, 16);
    assert_num(job.saw.table.left_of_blade, 470, 16);
    assert_num(job.saw.slots.width, 19.1, 17);
    assert_num(job.saw.slots.width_widest, 19.1, 17);
    assert_num(job.saw.slots.left, 142, 17);
    assert_num(job.saw.slots.right, 178, 17);
    assert_num(job.air.driest.humidity, 45, 21);
    assert_num(job.air.dampest.temperature, 17, 22);
}

static void test_job_read_full_stock(void **state)
{
    (void)state;
    read_fixture("full.yaml");
    assert_int_equal(job.n_stock, 3);
    const struct job_stock *ply12 = &job.stock[0], *ply18 = &job.stock[1], *maple = &job.stock[2];
    assert_string_equal(ply12->name, "ply12");
    assert_string_equal(ply12->material.name, "birch-plywood");
    assert_false(ply12->is_strip);
    assert_close(ply12->material.density, 685, 0);
    assert_close(ply12->material.stiffness, 10719, 0);
    assert_close(ply18->material.stiffness, 10048, 0);
    assert_close(ply12->material.movement, 2e-4, 1e-15);
    assert_true(isnan(ply12->material.shrink_radial));
    assert_num(ply18->sheet_along, 1250, 26);
    assert_num(ply18->sheet_across, 625, 26);
    assert_num(ply18->have, 1, 26);
    assert_true(maple->is_strip);
    assert_num(maple->thickness, 25, 27);
    assert_num(maple->strip_width, 50, 27);
    assert_num(maple->length, 1200, 27);
    assert_int_equal(maple->rings, RINGS_QUARTER);
    assert_close(maple->material.density, 700, 0);
    assert_close(maple->material.shrink_radial, 4.8, 0);
    assert_close(maple->material.shrink_tangential, 9.9, 0);
}

static void test_job_read_full_sled(void **state)
{
    (void)state;
    read_fixture("full.yaml");
    const struct job_sled *s = &job.jig.as.sled;
    assert_int_equal(job.jig.kind, JIG_CROSSCUT_SLED);
    assert_num(s->capacity_width, 420, 31);
    assert_num(s->capacity_thickness, 60, 31);
    assert_num(s->blade_above_work, 5, 32);
    assert_ptr_equal(s->base_stock, &job.stock[0]);
    assert_num(s->base_left_of_blade, 400, 33);
    assert_int_equal(s->reference_fence.side, FENCE_NEAR);
    assert_num(s->reference_fence.from_edge, 90, 37);
    assert_int_equal(s->reference_fence.layers.count, 2);
    assert_null(s->reference_fence.layers.heights);
    assert_int_equal(s->reference_fence.pivot.side, SIDE_LEFT);
    assert_num(s->reference_fence.pivot.from_blade, 330, 41);
    assert_num(s->reference_fence.moving.from_blade, 280, 42);
    assert_int_equal(s->other_fence.layers.count, 1);
    assert_false(s->other_fence.from_edge.given);
    assert_true(isnan(s->other_fence.from_edge.v));
    assert_int_equal(s->other_fence.from_edge.mark.line, 43);
    assert_num(s->runner_free_width, 18.85, 44);
    assert_int_equal(s->guide, SIDE_LEFT);
    assert_int_equal(s->guard_layers.count, 5);
    assert_true(s->travel_stop_in_given);
    assert_int_equal(s->travel_stop_in, SIDE_RIGHT);
    assert_true(s->has_stop);
    assert_ptr_equal(s->stop_stock, &job.stock[1]);
}

static void test_job_read_full_test(void **state)
{
    (void)state;
    read_fixture("full.yaml");
    assert_num(job.tolerances.squareness.error, 0.10, 50);
    assert_num(job.retest_months, 3, 51);
    assert_int_equal(job.n_instruments, 2);
    assert_num(job.instruments[0].error_limit, 0.03, 53);
    assert_int_equal(job.instruments[0].checked.month, 1);
    assert_int_equal(job.instruments[1].n_leaves, 13);
    assert_int_equal(job.n_tests, 1);
    const struct job_test *t = &job.tests[0];
    assert_int_equal(t->method, METHOD_FIVE_CUT);
    assert_ptr_equal(t->instrument, &job.instruments[0]);
    assert_int_equal(t->as.five_cut.offcut, SIDE_RIGHT);
    assert_num(t->as.five_cut.length, 388, 62);
    assert_int_equal(t->as.five_cut.n_strips, 3);
    assert_int_equal(t->as.five_cut.strips[2].far_end.n, 3);
    assert_close(t->as.five_cut.strips[2].far_end.v[2], 20.66, 1e-15);
    assert_false(t->moved.given);
    assert_false(t->practice);
    assert_int_equal(job.n_changes, 0);
}

static void test_job_read_least(void **state)
{
    (void)state;
    read_fixture("least.yaml");
    assert_close(job.jig.as.sled.capacity_width.v, 200, 0);
    assert_false(job.jig.as.sled.capacity_thickness.given);
    assert_false(job.saw.slots.right.given);
    assert_false(job.air.given);
    assert_false(job.stock[0].have.given);
    assert_false(date_is_set(job.date));
    assert_false(job.sheets_given);
    /* 11.8 lies between 9 (11395) and 12 (10719): 11395 - 676 * 2.8 / 3 */
    assert_close(job.stock[0].material.stiffness, 11395 - 676 * 2.8 / 3, 1e-12);
}

static void test_job_read_tolerances_left_out(void **state)
{
    (void)state;
    read_fixture("least.yaml");
    const struct job_tolerances *t = &job.tolerances;
    assert_false(t->squareness.error.given);
    assert_close(t->squareness.error.v, 0.10, 0);
    assert_close(t->squareness.over.v, 300, 0);
    assert_close(t->blade_tilt.over.v, 50, 0);
    assert_close(t->slot.error.v, 0.08, 0);
    assert_close(t->mitre.over.v, 100, 0);
    assert_close(t->stop_error.v, 0.2, 0);
    assert_close(t->stop_spread.v, 0.1, 0);
    assert_close(t->bow.v, 0.10, 0);
    assert_close(t->box_pitch.v, 0.02, 0);
    assert_close(t->side_play_low.v, 0.05, 0);
    assert_close(t->side_play_high.v, 0.25, 0);
}

#define HEAD "fettle: 1\njob: {number: A, title: B}\nunits: mm\n"
#define STRIPS "offcut: left, length: 150, strips: [{fence_end: 18.42, far_end: 18.37}]"

static void test_job_read_sorts_tests_by_date_then_file(void **state)
{
    (void)state;
    assert_true(
        read_text(HEAD "saw: {name: old saw}\ntests:\n"
                       "  - {method: five-cut, date: 2026-05-04, note: third, " STRIPS "}\n"
                       "  - {method: five-cut, date: 2026-05-04, note: fourth, " STRIPS "}\n"
                       "  - {method: five-cut, date: 2025-01-31, note: first, " STRIPS "}\n"
                       "  - {method: five-cut, date: 2026-04-30, note: second, " STRIPS "}\n"
                       "changes: [{date: 2026-06-01, what: new blade, ends: []}, {date: 2026-01-01, what: belt}]\n"));
    static const char *const order[] = {"first", "second", "third", "fourth"};
    for (size_t i = 0; i < 4; i++)
        assert_string_equal(job.tests[i].note.s, order[i]);
    assert_false(job.jig.given);
    assert_false(job.date_given);
    assert_int_equal(job.date.month, 6); /* the newest date in the file */
    assert_false(job.changes[0].ends[METHOD_FIVE_CUT]);
    assert_true(job.changes[1].ends[METHOD_FIVE_CUT]);
}

static void test_job_read_slots_list(void **state)
{
    (void)state;
    assert_true(read_text(HEAD "saw: {slots: {width: [19.12, 19.08, 19.15]}}\ntests: []\n"));
    assert_close(job.saw.slots.width.v, 19.08, 1e-15);
    assert_close(job.saw.slots.width_widest.v, 19.15, 1e-15);
}

/* A groove 9.6 deep, a lining 9.5 high with a floor 1.5 thick in it: from the table down to its floor 9.6 - 1.5 = 8.1. */
static void test_job_read_slots_of_a_lining_below_the_table(void **state)
{
    (void)state;
    assert_true(read_text(HEAD "saw: {slots_to_make: {width: 16, depth: 9.6, bit: 12, base_diameter: 150, profile: {outer_width: 16, "
                               "outer_height: 9.5, inner_width: 13, inner_depth: 8}}}\ntests: []\n"));
    assert_close(job.saw.slots.width.v, 13, 1e-12);
    assert_close(job.saw.slots.depth.v, 8.1, 1e-12);
}

static void test_job_read_slots_stated_as_the_lining_inside(void **state)
{
    (void)state;
    assert_true(read_text(HEAD "saw: {slots: {depth: 8}, slots_to_make: {width: 16, depth: 9.6, bit: 12, base_diameter: 150, "
                               "profile: {outer_width: 16, outer_height: 9.5, inner_width: 13, inner_depth: 8}}}\ntests: []\n"));
    assert_close(job.saw.slots.depth.v, 8, 1e-12);
}

static void test_job_read_slots_that_no_lining_leaves(void **state)
{
    (void)state;
    assert_false(read_text(HEAD "saw: {slots: {depth: 8.5}, slots_to_make: {width: 16, depth: 9.6, bit: 12, base_diameter: 150, "
                                "profile: {outer_width: 16, outer_height: 9.5, inner_width: 13, inner_depth: 8}}}\ntests: []\n"));
}

static void test_job_read_aliases_are_copies(void **state)
{
    (void)state;
    assert_true(read_text(HEAD
                          "saw: {name: &n Old saw, blade: {diameter: 250, kerf: &k 3, plate: 2}, slots: {width: 19}}\n"
                          "stock: {a: &a {material: mdf, thickness: 12, sheet: [800, 600]}, b: *a}\n"
                          "tests:\n  - {method: five-cut, date: 2026-01-01, by: *n, " STRIPS "}\n"));
    assert_string_equal(job.tests[0].by.s, "Old saw");
    assert_int_equal(job.n_stock, 2);
    assert_string_equal(job.stock[1].name, "b");
    assert_close(job.stock[1].sheet_along.v, 800, 0);
}

static void test_job_read_parts(void **state)
{
    (void)state;
    assert_true(read_text(HEAD "stock:\n  ply: {material: plywood, thickness: 9, sheet: [1200, 600]}\n  ash: "
                               "{material: white-ash, strip: [20, 45]}\n"
                               "cutting: {trim: 4}\nscrews: [{diameter: 4, lengths: [40, 20, 30]}]\n"
                               "jig: {kind: parts, parts: [{name: cheek, stock: ply, length: 400, width: 120, "
                               "quantity: 2, grain: across}, {name: key, stock: ash, length: 90}]}\n"));
    const struct job_parts *p = &job.jig.as.parts;
    assert_int_equal(p->n, 2);
    assert_int_equal(p->parts[0].grain, GRAIN_ACROSS);
    assert_close(p->parts[1].quantity.v, 1, 0);
    assert_false(p->parts[1].quantity.given);
    assert_false(p->parts[1].width.given);
    assert_close(job.trim.v, 4, 0);
    assert_close(job.screws[0].lengths[0], 20, 0);
    assert_close(job.screws[0].lengths[2], 40, 0);
}

static void test_job_read_layers_of_unequal_height(void **state)
{
    (void)state;
    read_text("fettle: 1\nunits: in\njig: {kind: crosscut-sled, reference_fence: {layers: [4, 3 1/2]}}\n");
    const struct job_layers *l = &job.jig.as.sled.reference_fence.layers;
    assert_int_equal(l->count, 2);
    assert_close(l->heights[0], 101.6, 1e-12);
    assert_close(l->heights[1], 88.9, 1e-12);
}

static void test_job_read_material_other(void **state)
{
    (void)state;
    assert_true(read_text(
        HEAD "saw: {}\ntests: []\nstock:\n"
             "  phenolic: {material: other, thickness: 12, sheet: [600, 600], density: 1350, stiffness: 9000, "
             "movement: 0.01}\n"
             "  plum: {material: other, strip: [20, 40], density: 700, stiffness: 11000, shrinkage: [5, 9]}\n"));
    assert_int_equal(job.stock[0].material.form, MATERIAL_OTHER);
    assert_close(job.stock[0].material.movement, 1e-4, 1e-15);
    assert_close(job.stock[0].material.density, 1350, 0);
    assert_close(job.stock[1].material.shrink_tangential, 9, 0);
    assert_close(job.stock[1].thickness.v, 20, 0);
}

static void test_job_read_paper_follows_units(void **state)
{
    (void)state;
    assert_true(read_text("fettle: 1\njob: {number: A, title: B}\nunits: in\nsaw: {}\ntests: []\n"));
    assert_int_equal(job.paper, PAPER_LETTER);
    assert_false(job.paper_given);
}

static void test_job_read_keeps_number_and_title_of_a_bad_job(void **state)
{
    (void)state;
    assert_false(read_text("fettle: 1\njob: {number: A-1, title: Half}\nunits: mm\nsaw: ["));
    assert_string_equal(job.number.s, "A-1");
    assert_string_equal(job.title.s, "Half");
}

/* Written over several lines, or with a tab: printed it is one line. */
static void test_job_read_texts_as_one_line(void **state)
{
    (void)state;
    assert_true(read_text("fettle: 1\njob:\n  number: |\n    A-1\n  title: |\n    Sled for\n    bay 2\n"
                          "  shop: \"Joinery\\ttraining\\n  shop \"\nunits: >\n  mm\nsaw: {}\ntests: []\n"));
    assert_string_equal(job.number.s, "A-1");
    assert_string_equal(job.title.s, "Sled for bay 2");
    assert_string_equal(job.shop.s, "Joinery training shop");
}

static void test_job_read_missing_file(void **state)
{
    (void)state;
    assert_false(job_read("no/such/job.yaml", &diags, &job));
    assert_int_equal(diags.count, 1);
    assert_int_equal(diags.list[0].code, DIAG_CANNOT_READ);
    assert_string_equal(job.file, "no/such/job.yaml");
    struct text t = {0};
    diag_print(&diags, &diags.list[0], &t);
    assert_string_equal(text_string(&t),
                        "no/such/job.yaml: error: cannot read the file: no/such/job.yaml: there is no such file\n");
    text_free(&t);
}

static void test_job_read_fingerprint(void **state)
{
    (void)state;
    static const char text[] = "abc";
    /* FIPS 180-4's example for the message "abc" (NIST, SHA256.pdf) */
    assert_false(job_read_text("x", text, 3, &diags, &job));
    assert_string_equal(job.fingerprint, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

static void test_job_read_used_file(void **state)
{
    (void)state;
    read_fixture("bay/job.yaml");
    assert_int_equal(job.units, UNITS_MM);
    assert_int_equal(job.n_sources, 2);
    /* The shop's file is in inches, and its bare numbers stay so: 10 in. */
    assert_close(job.saw.blade.diameter.v, 254, 1e-12);
    assert_int_equal(job.saw.blade.diameter.mark.file, 1);
    /* The job's own section replaces the shop's whole one. */
    assert_int_equal(job.n_stock, 1);
    assert_string_equal(job.stock[0].name, "mine");
    /* sha256sum of both files, one after the other: cat job.yaml ../shop.yaml | sha256sum */
    assert_string_equal(job.fingerprint, "d1be8e0ba9c87599de10d81fd90506c690944a4fcd18beac4622812445cba751");
}

static void test_job_free_nothing(void **state)
{
    (void)state;
    struct job empty = {0};
    job_free(NULL);
    job_free(&empty);
}

#define WHOLE(name) cmocka_unit_test_teardown(name, free_all)
int main(void)
{
    const struct CMUnitTest tests[] = {
        WHOLE(test_job_read_full_saw),
        WHOLE(test_job_read_full_stock),
        WHOLE(test_job_read_full_sled),
        WHOLE(test_job_read_full_test),
        WHOLE(test_job_read_least),
        WHOLE(test_job_read_tolerances_left_out),
        WHOLE(test_job_read_sorts_tests_by_date_then_file),
        WHOLE(test_job_read_slots_list),
        WHOLE(test_job_read_slots_of_a_lining_below_the_table),
        WHOLE(test_job_read_slots_stated_as_the_lining_inside),
        WHOLE(test_job_read_slots_that_no_lining_leaves),
        WHOLE(test_job_read_aliases_are_copies),
        WHOLE(test_job_read_parts),
        WHOLE(test_job_read_layers_of_unequal_height),
        WHOLE(test_job_read_material_other),
        WHOLE(test_job_read_paper_follows_units),
        WHOLE(test_job_read_keeps_number_and_title_of_a_bad_job),
        WHOLE(test_job_read_texts_as_one_line),
        WHOLE(test_job_read_missing_file),
        WHOLE(test_job_read_fingerprint),
        WHOLE(test_job_read_used_file),
        cmocka_unit_test(test_job_free_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
