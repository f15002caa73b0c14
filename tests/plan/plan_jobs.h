/* Jobs filled by hand for the tests of plan: the contract's complete job, its far-fence variant, the least job. */
#ifndef FETTLE_TESTS_PLAN_JOBS_H
#define FETTLE_TESTS_PLAN_JOBS_H

#include "job.h"
#include "plan.h"

#include <math.h>
#include <string.h>

enum { TEST_STOCKS = 4 };

/* A job and all that it points at; move it only with test_job_copy. */
struct test_job {
    struct job job;
    struct job_stock stock[TEST_STOCKS];
    double heights[8];
    struct job_test test;
    struct five_cut_strip strips[3];
    double readings[18];
};

static inline struct num given(double v)
{
    return (struct num){.v = v, .given = true};
}

static inline struct num left_out(void)
{
    return (struct num){.v = NAN};
}

static inline struct job_climate climate(double temperature, double humidity)
{
    return (struct job_climate){true, given(temperature), given(humidity)};
}

/* Birch plywood and hard maple: the figures that the worked plan gives; moduli are looked up by thickness. */
static inline struct job_stock plywood(const char *name, double thickness, double along, double across)
{
    return (struct job_stock){
        .name = name,
        .material = {.name = "birch-plywood", .form = MATERIAL_PLYWOOD, .density = 685, .stiffness = NAN, .shrink_radial = NAN, .shrink_tangential = NAN, .movement = 2.0e-4},
        .thickness = given(thickness), .sheet_along = given(along), .sheet_across = given(across),
        .strip_width = left_out(), .length = left_out(), .have = left_out(),
    };
}

static inline struct job_stock maple_strip(const char *name, double thickness, double width, double length)
{
    return (struct job_stock){
        .name = name,
        .material = {.name = "hard-maple", .form = MATERIAL_SOLID, .density = 700, .stiffness = 12600, .shrink_radial = 4.8, .shrink_tangential = 9.9, .movement = NAN},
        .is_strip = true, .thickness = given(thickness), .strip_width = given(width), .length = given(length),
        .sheet_along = left_out(), .sheet_across = left_out(), .have = left_out(),
        .rings = RINGS_QUARTER, .rings_given = true,
    };
}

static inline void leave_out_sled(struct job_sled *s)
{
    struct num none = left_out();
    struct job_fence fence = {.from_edge = none, .height = none, .length = none};

    *s = (struct job_sled){
        .capacity_width = none, .capacity_thickness = none, .blade_above_work = none,
        .base_width = none, .base_depth = none, .base_left_of_blade = none,
        .reference_fence = fence, .other_fence = fence,
        .runner_width = none, .runner_thickness = none, .runner_free_width = none, .runner_length = none, .runner_moisture = none,
        .guard_width = none, .guard_height = none, .travel_stop_length = none,
    };
}

/* A job that says nothing: defaults of the program where it has them. */
static inline void empty_job(struct test_job *t)
{
    struct num none = left_out();

    memset(t, 0, sizeof *t);
    t->job.file = "test.yaml";
    t->job.units = UNITS_MM;
    t->job.stock = t->stock;
    t->job.trim = none;
    t->job.saw = (struct job_saw){
        .given = true,
        .blade = {none, none, none, none}, .knife = {.thickness = none, .below_top = none},
        .table = {none, none, none, none}, .slots = {none, none, none, none, none},
    };
    t->job.tolerances.squareness = (struct job_limit){{.v = 0.10}, {.v = 300}};
    t->job.tolerances.side_play_low.v = 0.05;
    t->job.tolerances.side_play_high.v = 0.25;
    t->job.jig.given = true;
    t->job.jig.kind = JIG_CROSSCUT_SLED;
    leave_out_sled(&t->job.jig.as.sled);
}

static inline void set_saw(struct job *j, double diameter, double kerf, double highest, double front_edge, double depth)
{
    j->saw.blade.diameter = given(diameter);
    j->saw.blade.kerf = given(kerf);
    j->saw.blade.highest = given(highest);
    j->saw.table.front_edge = given(front_edge);
    j->saw.table.depth = given(depth);
}

static inline void set_slots(struct job *j, double width, double depth)
{
    j->saw.slots.width = j->saw.slots.width_widest = given(width);
    j->saw.slots.depth = given(depth);
}

/* The last five-cut test of the contract's job. */
static inline void add_contract_test(struct test_job *t)
{
    static const double readings[18] = {21.47, 21.46, 21.48, 21.26, 21.26, 21.25, 22.13, 22.12, 22.14,
                                        21.93, 21.92, 21.92, 20.88, 20.89, 20.88, 20.65, 20.65, 20.66};

    memcpy(t->readings, readings, sizeof readings);
    for (size_t i = 0; i < 3; i++)
        t->strips[i] = (struct five_cut_strip){{t->readings + 6 * i, 3, {0}}, {t->readings + 6 * i + 3, 3, {0}}};
    t->test.method = METHOD_FIVE_CUT;
    t->test.as.five_cut = (struct five_cut_readings){.offcut = SIDE_RIGHT, .length = given(388), .strips = t->strips, .n_strips = 3};
    t->job.tests = &t->test;
    t->job.n_tests = 1;
}

/* The complete job of the contract. */
static inline void contract_job(struct test_job *t)
{
    struct job *j = &t->job;
    struct job_sled *s = &j->jig.as.sled;

    empty_job(t);
    set_saw(j, 254, 2.8, 80, 500, 800);
    j->saw.blade.plate = given(1.8);
    j->saw.knife.kind = KNIFE_RIVING;
    j->saw.knife.thickness = given(2.2);
    j->saw.knife.below_top = given(2);
    j->saw.table.width = given(940);
    j->saw.table.left_of_blade = given(470);
    set_slots(j, 19.1, 9.6);
    j->saw.slots.left = given(142);
    j->saw.slots.right = given(178);
    j->air = (struct job_air){.given = true, .at_fitting = climate(18, 50), .driest = climate(20, 45), .dampest = climate(17, 58)};
    t->stock[0] = plywood("ply12", 12, 1250, 1250);
    t->stock[1] = plywood("ply18", 18, 1250, 625);
    t->stock[2] = maple_strip("maple", 25, 50, 1200);
    j->n_stock = 3;
    s->capacity_width = given(420);
    s->capacity_thickness = given(60);
    s->blade_above_work = given(5);
    s->base_stock = &t->stock[0];
    s->base_width = given(760);
    s->base_depth = given(580);
    s->base_left_of_blade = given(400);
    s->reference_fence = (struct job_fence){
        .stock = &t->stock[1], .side = FENCE_NEAR, .side_given = true, .from_edge = given(90),
        .layers = {.given = true, .count = 2}, .height = given(100), .length = given(760),
        .pivot = {true, SIDE_LEFT, given(330), {0}}, .moving = {true, SIDE_RIGHT, given(280), {0}},
    };
    s->other_fence = (struct job_fence){.stock = &t->stock[1], .from_edge = left_out(), .layers = {.given = true, .count = 1},
                                        .height = given(100), .length = given(600)};
    s->runner_stock = &t->stock[2];
    s->runner_width = given(19.00);
    s->runner_thickness = given(9.0);
    s->guide_given = true;
    s->guide = SIDE_LEFT;
    s->runner_free_width = given(18.85);
    s->guard_stock = &t->stock[1];
    s->guard_layers = (struct job_layers){.given = true, .count = 5};
    s->travel_stop_stock = &t->stock[2];
    s->travel_stop_in_given = true;
    s->travel_stop_in = SIDE_RIGHT;
    s->has_stop = true;
    s->stop_stock = &t->stock[1];
    j->tolerances.squareness = (struct job_limit){given(0.10), given(300)};
    add_contract_test(t);
}

/* The same with a far fence: from_edge 0, the other fence 90 from its edge. */
static inline void contract_job_far(struct test_job *t)
{
    struct job_sled *s = &t->job.jig.as.sled;

    contract_job(t);
    s->reference_fence.side = FENCE_FAR;
    s->reference_fence.from_edge = given(0);
    s->other_fence.from_edge = given(90);
}

/* The least job of the contract. */
static inline void least_job(struct test_job *t)
{
    struct job *j = &t->job;

    empty_job(t);
    set_saw(j, 210, 2.4, 63, 300, 560);
    set_slots(j, 16.2, 9.0);
    j->saw.slots.left = given(118);
    t->stock[0] = plywood("ply12", 11.8, 1220, 610);
    t->stock[1] = maple_strip("maple", 20, 40, 1000);
    j->n_stock = 2;
    j->jig.as.sled.capacity_width = given(200);
}

/* A copy that points at its own stock, strips and readings. */
static inline const struct job_stock *moved_stock(const struct test_job *from, struct test_job *to, const struct job_stock *s)
{
    return s ? &to->stock[s - from->stock] : NULL;
}

static inline void test_job_copy(const struct test_job *from, struct test_job *to)
{
    struct job_sled *s = &to->job.jig.as.sled;
    const struct job_sled *f = &from->job.jig.as.sled;

    *to = *from;
    to->job.stock = to->stock;
    s->base_stock = moved_stock(from, to, f->base_stock);
    s->reference_fence.stock = moved_stock(from, to, f->reference_fence.stock);
    s->other_fence.stock = moved_stock(from, to, f->other_fence.stock);
    s->runner_stock = moved_stock(from, to, f->runner_stock);
    s->guard_stock = moved_stock(from, to, f->guard_stock);
    s->travel_stop_stock = moved_stock(from, to, f->travel_stop_stock);
    s->stop_stock = moved_stock(from, to, f->stop_stock);
    if (from->job.n_tests) {
        to->job.tests = &to->test;
        to->test.as.five_cut.strips = to->strips;
        for (size_t i = 0; i < 3; i++) {
            to->strips[i].fence_end.v = to->readings + 6 * i;
            to->strips[i].far_end.v = to->readings + 6 * i + 3;
        }
    }
}

#endif
