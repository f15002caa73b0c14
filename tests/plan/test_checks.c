/* Every check at its limits: a value of the job is moved until the verdict turns; just before, the check passes, just past
   it does not; and the number of its remedy, written into the job, makes it pass and no other check fail. */
#include "close.h"
#include "plan_jobs.h"

#include "plan.h"

#include <stdio.h>
#include <string.h>

/* ---- a plan and its verdicts ---- */

static void make_plan(struct test_job *t, struct plan *p)
{
    struct diags diags = {0};

    if (!plan_build(&t->job, &diags, p))
        fail_msg("no sled: %s: %s", diags.list[0].path, diags.list[0].detail);
    diags_free(&diags);
}

static const struct plan_check *check_of(const struct plan *p, enum check_id id)
{
    const struct plan_check *c = plan_find_check(p, id);

    if (!c)
        fail_msg("%s was not made", plan_check_name(id));
    return c;
}

/* ---- one value of the job each ---- */

static struct job_sled *sled(struct test_job *t)
{
    return &t->job.jig.as.sled;
}

static void set_thickness(struct test_job *t, double v) { sled(t)->capacity_thickness = given(v); }
static void set_width(struct test_job *t, double v) { sled(t)->capacity_width = given(v); }
static void set_depth(struct test_job *t, double v) { sled(t)->base_depth = given(v); }
static void set_from_edge(struct test_job *t, double v) { sled(t)->reference_fence.from_edge = given(v); }
static void set_guard_height(struct test_job *t, double v) { sled(t)->guard_height = given(v); }
static void set_other_height(struct test_job *t, double v) { sled(t)->other_fence.height = given(v); }
static void set_reference_height(struct test_job *t, double v) { sled(t)->reference_fence.height = given(v); }
static void set_tolerance(struct test_job *t, double v) { t->job.tolerances.squareness.error = given(v); }
static void set_runner_width(struct test_job *t, double v) { sled(t)->runner_width = given(v); }
static void set_free_width(struct test_job *t, double v) { sled(t)->runner_free_width = given(v); }
static void set_runner_thickness(struct test_job *t, double v) { sled(t)->runner_thickness = given(v); }
static void set_left_of_blade(struct test_job *t, double v) { t->job.saw.table.left_of_blade = given(v); }
static void set_front_edge(struct test_job *t, double v) { t->job.saw.table.front_edge = given(v); }
static void set_knife(struct test_job *t, double v) { t->job.saw.knife.thickness = given(v); }
static void set_below_top(struct test_job *t, double v) { t->job.saw.knife.below_top = given(v); }
static void set_reading(struct test_job *t, double v) { t->readings[4] = v; }
static void set_sheet(struct test_job *t, double v) { t->stock[0].sheet_along = t->stock[0].sheet_across = given(v); }
static void set_strip_length(struct test_job *t, double v) { t->stock[2].length = given(v); }
static void set_strip_width(struct test_job *t, double v) { t->stock[2].strip_width = t->stock[2].thickness = given(v); }
static void set_damp(struct test_job *t, double v) { t->job.air.dampest.humidity = given(v); }

static void set_guard_layers(struct test_job *t, double v)
{
    sled(t)->guard_layers.count = (int)round(v);
}

static void set_layers(struct test_job *t, double v)
{
    sled(t)->reference_fence.layers = (struct job_layers){.given = true, .count = (int)round(v)};
}

/* Layers 86 high but for the outermost. */
static void set_tallest_layer(struct test_job *t, double v)
{
    t->heights[0] = v;
    t->heights[1] = fmin(v, 86);
    sled(t)->reference_fence.layers = (struct job_layers){.given = true, .count = 2, .heights = t->heights};
}

/* Narrower work on a base that leaves no room to spare. */
static void set_guard_on_tight_base(struct test_job *t, double v)
{
    set_guard_layers(t, v);
    set_from_edge(t, 18 * round(v));
    set_depth(t, 18 * round(v) + 36 + 424 + 18);
}

static void set_flat_rings_damp(struct test_job *t, double v)
{
    t->stock[2].rings = RINGS_FLAT;
    t->job.air.driest.humidity = given(49);
    set_damp(t, v);
}

static void set_blade_teeth_free(struct test_job *t, double v) /* slot depth, runners left to the rule */
{
    t->job.saw.slots.depth = given(v);
}

/* ---- the table ---- */

enum base_job { CONTRACT, FAR_FENCE };

/* `set` writes a value; at `good` the check has the verdict `before`, at `bad` the verdict `after`. `step`: how near the
   two are brought to each other. The number of the remedy is tried where `number` is true: nothing in a job saves a sled
   whose slots lie beside the table. */
struct limit_row {
    enum check_id id;
    enum base_job base;
    void (*set)(struct test_job *, double);
    double good, bad, step;
    enum verdict before, after;
    bool number;
};

static const struct limit_row rows[] = {
    {CHECK_THICKNESS_CAPACITY, CONTRACT, set_thickness, 60, 70, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_TRAVEL_STOP, CONTRACT, set_from_edge, 90, 60, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_TRAVEL_STOP, CONTRACT, set_guard_layers, 5, 4, 1, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_DEPTH, CONTRACT, set_from_edge, 90, 60, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_DEPTH, CONTRACT, set_guard_layers, 5, 4, 1, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_DEPTH, CONTRACT, set_guard_on_tight_base, 5, 4, 1, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_DEPTH, FAR_FENCE, set_depth, 580, 565, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_HEIGHT, CONTRACT, set_guard_height, 100, 50, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_EXIT_GUARD_HEIGHT, FAR_FENCE, set_guard_height, 100, 50, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_FENCE_BRIDGE, CONTRACT, set_other_height, 100, 70, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_FENCE_BRIDGE, CONTRACT, set_reference_height, 100, 70, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_FENCE_BRIDGE, CONTRACT, set_tallest_layer, 100, 70, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_FENCE_BRIDGE, CONTRACT, set_reference_height, 100, 170, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_FENCE_BENDING, CONTRACT, set_tolerance, 0.10, 0.05, 1e-8, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_FENCE_BENDING, CONTRACT, set_layers, 2, 1, 1, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PLAY, CONTRACT, set_runner_width, 19, 19.2, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PLAY, CONTRACT, set_runner_width, 19, 18.6, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PLAY_DRIEST, CONTRACT, set_runner_width, 19, 18.6, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PLAY_DAMPEST, CONTRACT, set_runner_width, 19, 19.2, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PLAY_DAMPEST, CONTRACT, set_flat_rings_damp, 51, 80, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PAIR_PLAY, CONTRACT, set_free_width, 18.85, 18.99, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_PAIR_PLAY, CONTRACT, set_free_width, 18.95, 19.06, 1e-7, VERDICT_CAUTION, VERDICT_FAIL, true},
    {CHECK_RUNNER_PAIR_PLAY, CONTRACT, set_runner_width, 19, 19.04, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_WIDTH_TO_PLANE, CONTRACT, set_runner_width, 19, 19.2, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_WIDTH_TO_PLANE, CONTRACT, set_runner_width, 19, 18.6, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_WIDTH_TO_PLANE, CONTRACT, set_damp, 58, 90, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_WIDTH_TO_PLANE, CONTRACT, set_flat_rings_damp, 51, 80, 1e-7, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_YAW, CONTRACT, set_tolerance, 0.10, 0.035, 1e-8, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_RUNNER_YAW, CONTRACT, set_tolerance, 0.04, 0.02, 1e-8, VERDICT_CAUTION, VERDICT_FAIL, true},
    {CHECK_RUNNER_HEIGHT, CONTRACT, set_runner_thickness, 9, 9.5, 1e-7, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_RUNNER_HEIGHT, CONTRACT, set_blade_teeth_free, 9.6, 9, 1e-7, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_RUNNER_ENGAGED, CONTRACT, set_width, 420, 700, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_TIPPING_NEAR, CONTRACT, set_width, 420, 470, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_TIPPING_NEAR, CONTRACT, set_width, 470, 560, 1e-6, VERDICT_CAUTION, VERDICT_FAIL, true},
    {CHECK_TIPPING_FAR, CONTRACT, set_depth, 580, 680, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_TIPPING_FAR, CONTRACT, set_depth, 680, 1100, 1e-6, VERDICT_CAUTION, VERDICT_FAIL, true},
    {CHECK_TIPPING_FAR, FAR_FENCE, set_width, 420, 436, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_TIPPING_SIDE, CONTRACT, set_left_of_blade, 390, 150, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_TIPPING_SIDE, CONTRACT, set_left_of_blade, 150, 10, 1e-6, VERDICT_CAUTION, VERDICT_FAIL, false},
    {CHECK_TIPPING_PARKED, CONTRACT, set_front_edge, 500, 400, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_WIDEST_WORK, CONTRACT, set_width, 420, 440, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_WIDEST_WORK, FAR_FENCE, set_width, 420, 440, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_RIVING_KNIFE, CONTRACT, set_knife, 2.2, 3.0, 1e-7, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_RIVING_KNIFE, CONTRACT, set_knife, 2.2, 1.5, 1e-7, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_RIVING_KNIFE, CONTRACT, set_below_top, 2, -3, 1e-7, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_FIVE_CUT_STRIP, CONTRACT, set_reading, 20.65, 19, 1e-6, VERDICT_PASS, VERDICT_CAUTION, true},
    {CHECK_STOCK_FITS, CONTRACT, set_sheet, 1250, 500, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_STOCK_FITS, CONTRACT, set_strip_length, 1200, 500, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
    {CHECK_STOCK_FITS, CONTRACT, set_strip_width, 50, 15, 1e-6, VERDICT_PASS, VERDICT_FAIL, true},
};
enum { ROWS = sizeof rows / sizeof *rows };

/* ---- writing a remedy into the job ---- */

static double number_of(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].number;
    fail_msg("%s has no {%s}", s->key, name);
    return NAN;
}

static struct num num_of(const struct saying *s, const char *name)
{
    return given(number_of(s, name));
}

static struct num *guarded_edge(struct test_job *t)
{
    return sled(t)->reference_fence.side == FENCE_NEAR ? &sled(t)->reference_fence.from_edge : &sled(t)->other_fence.from_edge;
}

static void do_capacity_width(struct test_job *t, const struct saying *s) { sled(t)->capacity_width = num_of(s, "number"); }
static void do_capacity_thickness(struct test_job *t, const struct saying *s) { sled(t)->capacity_thickness = num_of(s, "number"); }
static void do_depth(struct test_job *t, const struct saying *s) { sled(t)->base_depth = num_of(s, "number"); }
static void do_guard_height(struct test_job *t, const struct saying *s) { sled(t)->guard_height = num_of(s, "number"); }
static void do_other_in(struct test_job *t, const struct saying *s) { sled(t)->other_fence.from_edge = num_of(s, "number"); }
static void do_width(struct test_job *t, const struct saying *s) { sled(t)->runner_width = num_of(s, "number"); }
static void do_free(struct test_job *t, const struct saying *s) { sled(t)->runner_free_width = num_of(s, "number"); }
static void do_thickness(struct test_job *t, const struct saying *s) { sled(t)->runner_thickness = num_of(s, "number"); }
static void do_knife(struct test_job *t, const struct saying *s) { t->job.saw.knife.thickness = num_of(s, "number"); }
static void do_knife_top(struct test_job *t, const struct saying *s) { t->job.saw.knife.below_top = num_of(s, "number"); }
static void do_strip(struct test_job *t, const struct saying *s) { t->readings[4] = number_of(s, "low"); }

static void do_guard(struct test_job *t, const struct saying *s)
{
    sled(t)->guard_layers.count = (int)number_of(s, "number");
}

static void do_guard_edge(struct test_job *t, const struct saying *s)
{
    do_guard(t, s);
    *guarded_edge(t) = num_of(s, "edge");
}

static void do_guard_edge_depth(struct test_job *t, const struct saying *s)
{
    do_guard_edge(t, s);
    sled(t)->base_depth = num_of(s, "depth");
}

static void do_layers(struct test_job *t, const struct saying *s)
{
    set_layers(t, number_of(s, "number"));
}

static void do_layers_depth(struct test_job *t, const struct saying *s)
{
    do_layers(t, s);
    sled(t)->base_depth = num_of(s, "depth");
}

static void raise_fence(struct job_fence *f, struct test_job *t, double h)
{
    if (f->layers.heights)
        t->heights[0] = fmax(t->heights[0], h);
    else
        f->height = given(fmax(f->height.v, h));
}

static void do_higher(struct test_job *t, const struct saying *s)
{
    raise_fence(&sled(t)->reference_fence, t, number_of(s, "number"));
    raise_fence(&sled(t)->other_fence, t, number_of(s, "number"));
}

static void do_lower(struct test_job *t, const struct saying *s)
{
    sled(t)->reference_fence.height = given(fmin(sled(t)->reference_fence.height.v, number_of(s, "number")));
    sled(t)->other_fence.height = given(fmin(sled(t)->other_fence.height.v, number_of(s, "number")));
}

static void do_shorter(struct test_job *t, const struct saying *s)
{
    sled(t)->reference_fence.length = given(fmin(sled(t)->reference_fence.length.v, number_of(s, "number")));
    sled(t)->other_fence.length = given(fmin(sled(t)->other_fence.length.v, number_of(s, "number")));
}

static void do_narrower(struct test_job *t, const struct saying *s)
{
    sled(t)->base_width = num_of(s, "number");
    sled(t)->base_left_of_blade = num_of(s, "left");
    do_shorter(t, s);
}

static void do_both_widths(struct test_job *t, const struct saying *s)
{
    do_width(t, s);
    sled(t)->runner_free_width = num_of(s, "free");
}

static void do_rings(struct test_job *t, const struct saying *s)
{
    t->stock[2].rings = RINGS_QUARTER;
    sled(t)->runner_width = num_of(s, "width");
    sled(t)->runner_free_width = num_of(s, "free");
}

static void do_play_high(struct test_job *t, const struct saying *s)
{
    t->job.tolerances.side_play_high = num_of(s, "number");
    sled(t)->runner_width = num_of(s, "width");
    sled(t)->runner_free_width = num_of(s, "free");
}

static void do_knife_both(struct test_job *t, const struct saying *s)
{
    do_knife(t, s);
    t->job.saw.knife.below_top = num_of(s, "top");
}

static struct job_stock *stock_named(struct test_job *t, const struct saying *s)
{
    for (size_t i = 0; i < t->job.n_stock; i++)
        for (int a = 0; a < SAY_MOST_ARGS && s->arg[a].name; a++)
            if (strcmp(s->arg[a].name, "stock") == 0 && strcmp(s->arg[a].text, t->stock[i].name) == 0)
                return &t->stock[i];
    fail_msg("%s names no stock", s->key);
    return NULL;
}

static void do_sheet(struct test_job *t, const struct saying *s)
{
    struct job_stock *stock = stock_named(t, s);

    stock->sheet_along = num_of(s, "along");
    stock->sheet_across = num_of(s, "across");
}

static void do_new_strip(struct test_job *t, const struct saying *s)
{
    struct job_stock *stock = stock_named(t, s);

    stock->thickness = num_of(s, "thickness");
    stock->strip_width = num_of(s, "width");
    stock->length = num_of(s, "length");
}

static const struct {
    const char *key;
    void (*write)(struct test_job *, const struct saying *);
} writers[] = {
    {"remedy.capacity_width", do_capacity_width}, {"remedy.capacity_thickness", do_capacity_thickness},
    {"remedy.base_deeper", do_depth},             {"remedy.base_shallower", do_depth},
    {"remedy.base_narrower", do_narrower},        {"remedy.guard_layers", do_guard},
    {"remedy.guard_and_edge", do_guard_edge},     {"remedy.guard_edge_and_depth", do_guard_edge_depth},
    {"remedy.guard_height", do_guard_height},     {"remedy.fences_higher", do_higher},
    {"remedy.fences_lower", do_lower},            {"remedy.reference_layers", do_layers},
    {"remedy.reference_layers_and_depth", do_layers_depth}, {"remedy.fences_shorter", do_shorter},
    {"remedy.other_in", do_other_in},             {"remedy.plane", do_width},
    {"remedy.plane_both", do_both_widths},        {"remedy.widen", do_width},
    {"remedy.widen_both", do_both_widths},        {"remedy.free_width", do_free},
    {"remedy.runner_thickness", do_thickness},    {"remedy.rings", do_rings},
    {"remedy.play_high", do_play_high},           {"remedy.knife_thickness", do_knife},
    {"remedy.knife_top", do_knife_top},           {"remedy.knife_both", do_knife_both},
    {"remedy.stock.sheet", do_sheet},             {"remedy.stock.strip", do_new_strip},
    {"check.five_cut_strip.remedy", do_strip},
};

static bool write_remedy(struct test_job *t, const struct saying *s)
{
    for (size_t i = 0; i < sizeof writers / sizeof *writers; i++)
        if (strcmp(writers[i].key, s->key) == 0) {
            writers[i].write(t, s);
            return true;
        }
    return false;
}

/* ---- the tests ---- */

static void base_job(const struct limit_row *row, struct test_job *t)
{
    if (row->base == FAR_FENCE)
        contract_job_far(t);
    else
        contract_job(t);
}

static void plan_at(const struct limit_row *row, double v, struct test_job *t, struct plan *p)
{
    base_job(row, t);
    row->set(t, v);
    make_plan(t, p);
}

static enum verdict verdict_at(const struct limit_row *row, double v)
{
    static struct test_job t;
    struct plan p;
    enum verdict verdict;

    plan_at(row, v, &t, &p);
    verdict = check_of(&p, row->id)->verdict;
    plan_free(&p);
    return verdict;
}

/* Brings good and bad together where the verdict turns. */
static void close_in(const struct limit_row *row, double *good, double *bad)
{
    *good = row->good;
    *bad = row->bad;
    while (fabs(*bad - *good) > row->step * 1.5) {
        double middle = (*good + *bad) / 2;
        if (verdict_at(row, middle) == row->before)
            *good = middle;
        else
            *bad = middle;
    }
}

static void name_row(const struct limit_row *row, size_t i)
{
    print_message("    row %zu: %s\n", i, plan_check_name(row->id));
}

static void test_sled_check_turns_at_its_limit(void **state)
{
    int faults = 0;

    (void)state;
    for (size_t i = 0; i < ROWS; i++) {
        double good, bad;
        close_in(&rows[i], &good, &bad);
        if (verdict_at(&rows[i], good) != rows[i].before || verdict_at(&rows[i], bad) != rows[i].after) {
            name_row(&rows[i], i);
            print_error("at %.9g verdict %d, at %.9g verdict %d\n", good, verdict_at(&rows[i], good), bad, verdict_at(&rows[i], bad));
            faults++;
        }
    }
    assert_int_equal(faults, 0);
}

/* Not: counts; a second reason to fail beside the value; a strip's section, which has no slack that adds up. */
static bool runs_evenly(const struct limit_row *row)
{
    bool second_reason = row->set == set_below_top || row->set == set_flat_rings_damp ||
                         (row->id == CHECK_FENCE_BRIDGE && row->after == VERDICT_CAUTION) ||
                         (row->id == CHECK_RUNNER_WIDTH_TO_PLANE && row->set == set_damp);

    return row->step < 1 && !second_reason && row->set != set_strip_width;
}

/* Where the value runs evenly, it meets one of the limits at the turning point. */
static void test_sled_check_limit_is_the_one_it_tells(void **state)
{
    static struct test_job t;
    int faults = 0;

    (void)state;
    for (size_t i = 0; i < ROWS; i++) {
        double good, bad, nearest = INFINITY;
        struct plan p;
        if (!runs_evenly(&rows[i]))
            continue;
        close_in(&rows[i], &good, &bad);
        plan_at(&rows[i], good, &t, &p);
        const struct plan_check *c = check_of(&p, rows[i].id);
        const double limits[] = {c->low, c->high, c->fail_low, c->fail_high};
        for (size_t k = 0; k < 4; k++)
            if (!isnan(limits[k]))
                nearest = fmin(nearest, fabs(c->value - limits[k]));
        if (!(nearest <= 1e-3)) {
            name_row(&rows[i], i);
            print_error("value %g, low %g, high %g, fail %g %g\n", c->value, c->low, c->high, c->fail_low, c->fail_high);
            faults++;
        }
        plan_free(&p);
    }
    assert_int_equal(faults, 0);
}

/* Gives the number of faults, each printed. */
static int compare_others(const struct plan *before, const struct plan *after, const struct limit_row *row, size_t i, const char *key)
{
    int faults = 0;

    for (size_t k = 0; k < after->n_checks; k++) {
        const struct plan_check *now = &after->checks[k], *was = plan_find_check(before, now->id);
        if (now->verdict == VERDICT_FAIL && !(was && was->verdict == VERDICT_FAIL)) {
            name_row(row, i);
            print_error("%s makes %s fail\n", key, plan_check_name(now->id));
            faults++;
        }
    }
    return faults;
}

static int try_remedy(const struct limit_row *row, size_t i, double bad)
{
    static struct test_job t;
    struct plan before, after;
    int faults = 0;

    plan_at(row, bad, &t, &before);
    const struct saying *remedy = &check_of(&before, row->id)->remedy;
    assert_non_null(remedy->key);
    if (write_remedy(&t, remedy)) {
        make_plan(&t, &after);
        if (check_of(&after, row->id)->verdict != VERDICT_PASS) {
            name_row(row, i);
            print_error("%s with %g does not make it pass\n", remedy->key, remedy->arg[0].number);
            faults++;
        }
        faults += compare_others(&before, &after, row, i, remedy->key);
        plan_free(&after);
    } else {
        name_row(row, i);
        print_error("%s holds no number\n", remedy->key);
        faults++;
    }
    plan_free(&before);
    return faults;
}

static void test_sled_check_remedy_makes_it_pass(void **state)
{
    int faults = 0;

    (void)state;
    for (size_t i = 0; i < ROWS; i++) {
        double good, bad;
        if (!rows[i].number)
            continue;
        close_in(&rows[i], &good, &bad);
        faults += try_remedy(&rows[i], i, bad);
    }
    assert_int_equal(faults, 0);
}

static void test_sled_check_remedy_of_a_knife_wrong_in_both(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.saw.knife.thickness = given(3.0);
    t.job.saw.knife.below_top = given(-1);
    make_plan(&t, &p);
    assert_int_equal(check_of(&p, CHECK_RIVING_KNIFE)->verdict, VERDICT_FAIL);
    assert_string_equal(check_of(&p, CHECK_RIVING_KNIFE)->remedy.key, "remedy.knife_both");
    assert_true(write_remedy(&t, &check_of(&p, CHECK_RIVING_KNIFE)->remedy));
    plan_free(&p);
    make_plan(&t, &p);
    assert_int_equal(check_of(&p, CHECK_RIVING_KNIFE)->verdict, VERDICT_PASS);
    plan_free(&p);
}

/* A check without a row here is a check that nothing tests. */
static void test_every_check_has_a_row(void **state)
{
    (void)state;
    for (int id = 0; id < CHECKS; id++) {
        bool found = id == CHECK_SCREW_FREE_STRIP || id == CHECK_SCREW_LENGTH || /* tested where the screws are */
                     id == CHECK_STOCK_ENOUGH;                                       /* the cutting's */
        for (size_t i = 0; i < ROWS; i++)
            found = found || rows[i].id == (enum check_id)id;
        if (!found)
            fail_msg("%s has no row", plan_check_name((enum check_id)id));
    }
}

/* Cautions that no number lifts. */
static void test_sled_check_cautions_without_a_number(void **state)
{
    static struct test_job t;
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.air = (struct job_air){0};
    t.job.saw.knife.kind = KNIFE_NOT_STATED;
    make_plan(&t, &p);
    assert_int_equal(check_of(&p, CHECK_RUNNER_WIDTH_TO_PLANE)->verdict, VERDICT_CAUTION);
    assert_string_equal(check_of(&p, CHECK_RUNNER_WIDTH_TO_PLANE)->why.key, "check.runner_width_to_plane.why.no_air");
    assert_null(plan_find_check(&p, CHECK_RUNNER_PLAY_DRIEST));
    assert_null(plan_find_check(&p, CHECK_RUNNER_PLAY_DAMPEST));
    assert_int_equal(check_of(&p, CHECK_RIVING_KNIFE)->verdict, VERDICT_CAUTION);
    assert_string_equal(check_of(&p, CHECK_RIVING_KNIFE)->remedy.key, "check.riving_knife.remedy");
    plan_free(&p);
}

static void test_sled_check_names_what_it_cannot_check(void **state)
{
    static struct test_job t;
    static const char *const keys[] = {"assumed.no_driest", "assumed.no_dampest", "assumed.no_side_tipping", "assumed.no_strip"};
    struct plan p;

    (void)state;
    least_job(&t);
    make_plan(&t, &p);
    for (size_t k = 0; k < 4; k++) {
        bool found = false;
        for (size_t i = 0; i < p.n_assumed; i++)
            found = found || strcmp(p.assumed[i].what.key, keys[k]) == 0;
        if (!found)
            fail_msg("%s is not listed", keys[k]);
    }
    plan_free(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_check_has_a_row),
        cmocka_unit_test(test_sled_check_turns_at_its_limit),
        cmocka_unit_test(test_sled_check_limit_is_the_one_it_tells),
        cmocka_unit_test(test_sled_check_remedy_makes_it_pass),
        cmocka_unit_test(test_sled_check_remedy_of_a_knife_wrong_in_both),
        cmocka_unit_test(test_sled_check_cautions_without_a_number),
        cmocka_unit_test(test_sled_check_names_what_it_cannot_check),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
