/* Tipping: sums against boxes taken apart into small cubes, and against trying one force after another. */
#include "close.h"
#include "plan_jobs.h"

#include "plan/balance.h"
#include "plan/sled.h"

static void make_plan(struct job *job, struct plan *p)
{
    struct diags diags = {0};

    assert_true(plan_build(job, &diags, p));
    diags_free(&diags);
}

/* A part's boxes in slices across one axis: moment of its weight about an edge at `edge`, inward +1 or -1. */
static double moment_by_slices(const struct plan *p, bool along, double edge, int inward)
{
    double sum = 0, cover = 0;

    for (size_t i = 0; i < p->n_parts; i++) {
        const struct plan_part *q = &p->parts[i];
        if (q->kind == PART_TRAVEL_STOP)
            continue;
        double *to_sum = q->kind == PART_BLADE_COVER ? &cover : &sum; /* counted only where it makes things worse */
        for (size_t b = 0; b < q->n_bodies; b++) {
            struct body box = q->bodies[b];
            if (q->kind == PART_FREE_RUNNER)
                box.v1 = box.v0 + q->length; /* weighed at full length */
            double from = along ? box.v0 : box.x0, to = along ? box.v1 : box.x1, d = (to - from) / 500;
            double kg_per_mm = q->stock->material.density * 1e-9 * (box.x1 - box.x0) * (box.v1 - box.v0) * (box.z1 - box.z0) / (to - from);
            for (int k = 0; k < 500; k++)
                *to_sum += kg_per_mm * d * 9.81 * inward * (from + (k + 0.5) * d - edge);
        }
    }
    return sum + fmin(cover, 0);
}

static double work_by_slices(const struct plan *p, double width, double edge, int inward)
{
    const struct plan_sled *s = &p->sled;
    double from = s->reference.side == FENCE_NEAR ? s->reference.v_face : s->reference.v_face - width, sum = 0, d = width / 500;

    for (int k = 0; k < 500; k++)
        sum += 700e-9 * s->reference.length * s->capacity_thickness * d * 9.81 * inward * (from + (k + 0.5) * d - edge);
    return sum;
}

/* The worst width, one millimetre after the other; no work at all is one of them. */
static double worst_work_by_trial(const struct plan *p, double most, double edge, int inward)
{
    double worst = 0;

    for (double w = 20; w <= most; w += 1)
        worst = fmin(worst, work_by_slices(p, w, edge, inward));
    return worst;
}

static void compare_along(const struct sled_tipping *t, const struct plan *p, double edge, int inward, const struct plan_fence *f, double work)
{
    double moment = moment_by_slices(p, true, edge, inward) + work;
    double arm = inward * ((f->v_outer + f->v_face) / 2 - edge), force = 0;

    assert_close(t->moment, moment, 1e-4);
    assert_within(t->arm, arm, 1e-9);
    while (arm < 0 && moment + 1.2 * force * arm > 0) /* press harder until it tips */
        force += 0.001;
    if (arm < 0 && moment < 0)
        assert_true(t->force < 0); /* it falls by itself */
    else if (arm < 0)
        assert_within(t->force, force, 0.02);
    else
        assert_true(isnan(t->force));
}

static void compare_sled(struct test_job *t)
{
    struct plan p;
    struct sled_tipping tip;

    make_plan(&t->job, &p);
    const struct plan_sled *s = &p.sled;
    bool near = s->reference.side == FENCE_NEAR;
    double edge = -s->travel.edge_start, width = s->capacity_width;
    tip = sled_tip_near(&t->job, s, width);
    compare_along(&tip, &p, edge, 1, near ? &s->reference : &s->other,
                  near ? fmin(0, work_by_slices(&p, width, edge, 1)) : worst_work_by_trial(&p, width, edge, 1));
    edge = t->job.saw.table.depth.v - s->travel.edge_stop;
    tip = sled_tip_far(&t->job, s, width);
    compare_along(&tip, &p, edge, -1, near ? &s->other : &s->reference, worst_work_by_trial(&p, width, edge, -1));
    plan_free(&p);
}

static void test_sled_tip_contract(void **state)
{
    static struct test_job t;

    (void)state;
    contract_job(&t);
    compare_sled(&t);
}

static void test_sled_tip_far_fence(void **state)
{
    static struct test_job t;

    (void)state;
    contract_job_far(&t);
    compare_sled(&t);
}

static void test_sled_tip_layers_of_unequal_height(void **state)
{
    static struct test_job t;

    (void)state;
    contract_job(&t);
    t.heights[0] = 100;
    t.heights[1] = 86;
    t.job.jig.as.sled.reference_fence.layers.heights = t.heights;
    compare_sled(&t);
}

/* A shallow table: the work hangs over both edges. */
static void test_sled_tip_shallow_table(void **state)
{
    static struct test_job t;

    (void)state;
    contract_job(&t);
    set_saw(&t.job, 254, 2.8, 80, 300, 520);
    compare_sled(&t);
    contract_job_far(&t);
    set_saw(&t.job, 254, 2.8, 80, 300, 520);
    compare_sled(&t);
}

static void test_sled_tip_side_by_slices(void **state)
{
    static struct test_job t;
    struct sled_tipping tip;
    struct plan p;

    (void)state;
    contract_job(&t);
    t.job.saw.table.left_of_blade = given(250); /* the fence ends 400 to the left */
    make_plan(&t.job, &p);
    assert_true(sled_tip_side(&t.job, &p.sled, 420, &tip));
    assert_close(tip.moment, moment_by_slices(&p, false, -250, 1), 1e-4);
    assert_within(tip.arm, -150, 1e-9);
    assert_close(tip.force, tip.moment / (1.2 * 150), 1e-9);
    t.job.saw.table.width = left_out();
    assert_false(sled_tip_side(&t.job, &p.sled, 420, &tip));
    plan_free(&p);
}

/* The base's weight counts at its middle, as all parts' do; work in small slices. */
static void test_sled_parked_ratio_by_slices(void **state)
{
    static struct test_job t;
    struct plan p;
    double holds = 0, overturns = 0, edge;
    struct sled_load loads[SLED_LOADS];
    size_t n;

    (void)state;
    contract_job(&t);
    make_plan(&t.job, &p);
    edge = -p.sled.travel.edge_parked;
    n = sled_loads(&t.job, &p.sled, loads);
    for (size_t i = 0; i < n; i++)
        *(loads[i].v > edge ? &holds : &overturns) += loads[i].mass * 9.81 * fabs(loads[i].v - edge);
    overturns -= worst_work_by_trial(&p, 420, edge, 1);
    assert_close(sled_parked_ratio(&t.job, &p.sled), holds / overturns, 1e-4);
    plan_free(&p);
}

/* Drawn clear of the blade the far fence's sled has its cover, 0.604 kg, outside the table: there it overturns and counts,
   though it is left out where it holds the sled down. */
static void test_sled_parked_ratio_with_a_cover_outside_the_table(void **state)
{
    static struct test_job t;
    struct plan p;
    double holds = 0, overturns = 0, edge;
    struct sled_load loads[SLED_LOADS];
    size_t n;

    (void)state;
    contract_job_far(&t);
    set_saw(&t.job, 254, 2.8, 80, 300, 800);
    make_plan(&t.job, &p);
    edge = -p.sled.travel.edge_parked;
    assert_true(edge > 335); /* the cover's middle */
    n = sled_loads(&t.job, &p.sled, loads);
    for (size_t i = 0; i < n; i++)
        *(loads[i].v > edge ? &holds : &overturns) += loads[i].mass * 9.81 * fabs(loads[i].v - edge);
    overturns -= worst_work_by_trial(&p, 420, edge, 1);
    assert_close(sled_parked_ratio(&t.job, &p.sled), holds / overturns, 1e-4);
    plan_free(&p);
}

static void test_balance_worst_work_by_trial(void **state)
{
    (void)state;
    for (int direction = -1; direction <= 1; direction += 2)
        for (double face = -300; face <= 300; face += 37) {
            double worst = 0;
            for (double w = 20; w <= 420; w += 0.5)
                worst = fmin(worst, 0.03 * 9.81 * w * (face + direction * w / 2));
            assert_within(balance_worst_work(0.03, face, direction, 20, 420), worst, 0.02);
        }
}

/* 1 kg 100 mm inside bears 9.80665 / 1.2 = 8.172 N at an arm of 100 mm; a fence that ends at the edge itself, give or take
   the last digit of a double, is not outside and bears no number of sixteen figures. */
static void test_balance_force_at_the_very_edge(void **state)
{
    (void)state;
    assert_close(balance_force(980.665, -100), 8.1722, 1e-4);
    assert_true(isnan(balance_force(980.665, 0)));
    assert_true(isnan(balance_force(980.665, -5.7e-14)));
    assert_close(balance_force(980.665, -0.5), 1634.44, 1e-5);
}

/* The work counts only where its middle hangs over the table's edge, and then it overturns. By hand: 700 kg/m3 x 760 long x
   60 thick x 420 wide is 13.4064 kg; 10 mm outside the edge it takes 13.4064 x 9.81 x 10 = 1315.17 N mm from what holds. */
static void test_sled_tip_side_work_hangs_over(void **state)
{
    static const struct {
        double left_of_blade, width, fence_middle, change; /* table; fence's middle from the blade plane; N mm for 420 of work */
    } rows[] = {
        {10, 4000, -20, -1315.17},  /* 10 mm outside the left edge */
        {30, 4000, -20, 0},         /* 10 mm inside it */
        {3000, 3370, 380, -1315.17}, /* 10 mm outside the right edge */
        {3000, 3390, 380, 0},       /* 10 mm inside it */
    };
    static struct test_job t;

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct sled_tipping with, without;
        struct plan p;
        contract_job(&t);
        make_plan(&t.job, &p);
        t.job.saw.table.left_of_blade = given(rows[i].left_of_blade);
        t.job.saw.table.width = given(rows[i].width);
        p.sled.reference.x0 = rows[i].fence_middle - 380;
        assert_true(sled_tip_side(&t.job, &p.sled, 420, &with));
        assert_true(sled_tip_side(&t.job, &p.sled, 0, &without));
        assert_within(with.moment - without.moment, rows[i].change, 0.01);
        plan_free(&p);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sled_tip_contract),
        cmocka_unit_test(test_sled_tip_far_fence),
        cmocka_unit_test(test_sled_tip_layers_of_unequal_height),
        cmocka_unit_test(test_sled_tip_shallow_table),
        cmocka_unit_test(test_sled_tip_side_by_slices),
        cmocka_unit_test(test_sled_tip_side_work_hangs_over),
        cmocka_unit_test(test_sled_parked_ratio_by_slices),
        cmocka_unit_test(test_sled_parked_ratio_with_a_cover_outside_the_table),
        cmocka_unit_test(test_balance_worst_work_by_trial),
        cmocka_unit_test(test_balance_force_at_the_very_edge),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
