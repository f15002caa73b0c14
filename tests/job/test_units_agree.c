/* The same job in millimetres and in inches, all sizes given, gives the same numbers. The job is one template whose
   lengths are printed in either unit; every number of struct job is found through the reader's own field tables. */
#include "job.h"
#include "job/tables.h"

#include "close.h"

#include <stdlib.h>
#include <string.h>

/* {n} is a length of n mm. */
static const char template[] =
    "saw:\n"
    "  blade: {diameter: {216}, kerf: {2.6}, plate: {1.7}, highest: {61.5}}\n"
    "  knife: {kind: splitter, thickness: {2.1}, below_top: {3}}\n"
    "  table: {front_edge: {333}, depth: {590}, width: {700}, left_of_blade: {320}}\n"
    "  slots: {width: [{17.02}, {17.05}], depth: {9.1}, left: {121}, right: {154.5}}\n"
    "air: {at_fitting: {temperature: 20, humidity: 51}, driest: {temperature: 22, humidity: 40}, dampest: "
    "{temperature: 16, humidity: 62}}\n"
    "stock:\n"
    "  ply: {material: birch-plywood, thickness: {14.7}, sheet: [{1520}, {760}], have: 2}\n"
    "  ash: {material: white-ash, strip: [{21}, {46}], length: {910}, rings: flat}\n"
    "screws: [{diameter: {4.5}, lengths: [{35}, {25}]}]\n"
    "cutting: {trim: {6}}\n"
    "instruments:\n"
    "  dial: {kind: caliper, resolution: {0.02}, error_limit: {0.04}}\n"
    "  set: {kind: feeler, leaves: [{0.05}, {0.3}]}\n"
    "tolerances:\n"
    "  squareness: {error: {0.12}, over: {250}}\n"
    "  blade_tilt: {error: {0.2}, over: {60}}\n"
    "  stop: {error: {0.3}, spread: {0.2}}\n"
    "  slot: {error: {0.07}, over: {210}}\n"
    "  straightness: {bow: {0.15}}\n"
    "  mitre: {error: {0.11}, over: {90}}\n"
    "  box_pitch: {error: {0.03}}\n"
    "  side_play: {low: {0.04}, high: {0.3}}\n"
    "jig:\n"
    "  kind: crosscut-sled\n"
    "  capacity: {width: {190}, thickness: {40}}\n"
    "  blade_above_work: {4}\n"
    "  base: {stock: ply, width: {620}, depth: {400}, left_of_blade: {310}}\n"
    "  reference_fence:\n"
    "    stock: ply\n"
    "    from_edge: {75}\n"
    "    layers: [{88}, {70}]\n"
    "    height: {88}\n"
    "    length: {600}\n"
    "    pivot: {side: right, from_blade: {280}}\n"
    "    moving: {side: left, from_blade: {270}}\n"
    "  other_fence: {stock: ply, from_edge: {1}, layers: 2, height: {88}, length: {500}}\n"
    "  runners: {stock: ash, width: {16.9}, thickness: {8.5}, guide: left, free_width: {16.7}, length: {390}, "
    "moisture: 9}\n"
    "  exit_guard: {stock: ply, layers: 4, width: {110}, height: {88}}\n"
    "  travel_stop: {stock: ash, in: right, length: {70}}\n"
    "tests:\n"
    "  - {method: five-cut, date: 2026-05-04, offcut: left, length: {160}, strips: [{fence_end: [{18.42}, {18.43}], "
    "far_end: {18.37}}],\n"
    "     spread: {error: {0.02}, over: {290}, dof: 5}, moved: {end: left, toward: away, distance: {0.1}}}\n";

static void fill(struct text *out, enum units units)
{
    text_printf(out, "fettle: 1\njob: {number: A, title: B}\nunits: %s\n", units == UNITS_IN ? "in" : "mm");
    for (const char *p = template; *p;) {
        char *end;
        double v = *p == '{' ? strtod(p + 1, &end) : 0;
        if (*p == '{' && *end == '}' && end > p + 1) {
            text_printf(out, "%.17f", units == UNITS_IN ? v / 25.4 : v);
            p = end + 1;
        } else {
            text_add_char(out, *p++);
        }
    }
}

static size_t compared;

static void compare_number(double a, double b, const char *key)
{
    compared++;
    if (isnan(a) || isnan(b) || fabs(a - b) > 1e-9 * fabs(a))
        fail_msg("%s: %.17g and %.17g", key, a, b);
}

static void compare_tables(const struct table *t, const char *a, const char *b);

static void compare_lists(const struct field *f, const char *a, const char *b)
{
    size_t n = *(const size_t *)(a + f->more_at);
    const char *items_a = *(char *const *)(a + f->at), *items_b = *(char *const *)(b + f->at);
    assert_true(n > 0);
    assert_int_equal(n, *(const size_t *)(b + f->more_at));
    for (size_t i = 0; i < n; i++) {
        const char *x = items_a + i * f->size, *y = items_b + i * f->size;
        const struct table *table = f->table;
        if (f->variants) {
            int variant;
            memcpy(&variant, x + f->variants->at, sizeof variant);
            table = f->variants->list[variant].table;
        }
        compare_tables(table, x, y);
    }
}

static void compare_numbers(const struct field *f, const char *a, const char *b)
{
    size_t n = *(const size_t *)(a + f->more_at);
    const double *x = *(double *const *)(a + f->at), *y = *(double *const *)(b + f->at);
    assert_int_equal(n, *(const size_t *)(b + f->more_at));
    for (size_t i = 0; i < n; i++)
        compare_number(x[i], y[i], f->key);
}

static void compare_nums(const char *a, const char *b, const char *key)
{
    const struct num *x = (const struct num *)a, *y = (const struct num *)b;
    assert_int_equal(x->given, y->given);
    if (x->given)
        compare_number(x->v, y->v, key);
}

static void compare_layers(const struct field *f, const char *a, const char *b)
{
    const struct job_layers *x = (const struct job_layers *)(a + f->at), *y = (const struct job_layers *)(b + f->at);
    assert_int_equal(x->count, y->count);
    for (int i = 0; x->heights && i < x->count; i++)
        compare_number(x->heights[i], y->heights[i], f->key);
}

static void compare_fields(const struct field *f, const char *a, const char *b)
{
    if (f->kind == VALUE_QUANTITY || f->kind == VALUE_PAIR || f->kind == VALUE_SPAN)
        compare_nums(a + f->at, b + f->at, f->key);
    if (f->kind == VALUE_PAIR || f->kind == VALUE_SPAN)
        compare_nums(a + f->more_at, b + f->more_at, f->key);
    if (f->kind == VALUE_DOUBLE)
        compare_number(*(const double *)(a + f->at), *(const double *)(b + f->at), f->key);
    if (f->kind == VALUE_NUMBERS)
        compare_numbers(f, a, b);
    if (f->kind == VALUE_LAYERS)
        compare_layers(f, a, b);
    if (f->kind == VALUE_MAP)
        compare_tables(f->table, a + f->at, b + f->at);
    if (f->kind == VALUE_LIST && f->at != offsetof(struct job, changes))
        compare_lists(f, a, b);
    if (f->kind == VALUE_NAMED)
        compare_lists(f, a, b);
    if (f->kind == VALUE_VARIANT)
        compare_tables(&crosscut_sled_table, a + f->at, b + f->at);
}

static void compare_tables(const struct table *t, const char *a, const char *b)
{
    for (; t; t = t->extends)
        for (size_t i = 0; i < t->n; i++)
            compare_fields(&t->fields[i], a, b);
}

static void test_job_read_mm_and_inches_agree(void **state)
{
    (void)state;
    struct text mm = {0}, in = {0}, said = {0};
    struct diags diags = {0};
    struct job a, b;
    fill(&mm, UNITS_MM);
    fill(&in, UNITS_IN);
    bool ok_a = job_read_text("mm.yaml", text_string(&mm), mm.size, &diags, &a);
    bool ok_b = job_read_text("in.yaml", text_string(&in), in.size, &diags, &b);
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &said);
    if (!ok_a || !ok_b)
        fail_msg("%s", text_string(&said));
    assert_close(a.saw.blade.diameter.v, 216, 0);
    compare_tables(&root_table, (const char *)&a, (const char *)&b);
    /* None is passed over: 73 lengths in braces, 6 of air, have, moisture, dof, and the strip's thickness once more. */
    assert_int_equal(compared, 73 + 6 + 3 + 1);
    job_free(&a);
    job_free(&b);
    diags_free(&diags);
    text_free(&mm);
    text_free(&in);
    text_free(&said);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_job_read_mm_and_inches_agree)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
