/* Screws: the two series and the pilots against published figures, the choice by hand, and the rules that every placed
   screw keeps, on many sleds. */
#include "close.h"
#include "plan_jobs.h"
#include "random_saws.h"

#include "plan/build.h"
#include "plan/screws.h"

#include <string.h>

struct made {
    struct plan plan;
    struct diags diags;
};

/* The job's sled with parts and screws; false: no sled. */
static bool make_screws(const struct test_job *t, struct made *m)
{
    struct plan_builder b = {.job = &t->job, .diags = &m->diags, .plan = &m->plan};
    if (!sled_resolve(&b))
        return false;
    sled_list_parts(&b);
    sled_place_screws(&b);
    return true;
}

static void free_made(struct made *m)
{
    pool_free(&m->plan.pool);
    diags_free(&m->diags);
}

/* ANSI B18.6.1: shanks as tables list them; heads as listed for Nos. 4 to 7, the others from the linear fit (from
 * memory). */
static void test_screw_shank_of_number_listed(void **state)
{
    (void)state;
    static const struct {
        int number;
        double shank, head; /* in */
    } listed[] = {{4, .112, .225}, {5, .125, .252},  {6, .138, .279}, {7, .151, .305},
                  {8, .164, .332}, {10, .190, .385}, {12, .216, .438}};
    for (size_t i = 0; i < sizeof listed / sizeof *listed; i++) {
        assert_within(screw_shank_of_number(listed[i].number) / 25.4, listed[i].shank, 1e-9);
        assert_within(screw_head_of_number(listed[i].number) / 25.4, listed[i].head, 0.0011);
        assert_int_equal(screw_number_of_shank(listed[i].shank * 25.4), listed[i].number);
    }
    assert_int_equal(screw_number_of_shank(4.0), 0); /* .1575 in lies between Nos. 7 and 8 */
}

/* Wood Handbook ch. 8: root two thirds of the shank; lead hole 70 % of the root in softer woods, 90 % from gravity 0.6
   up. The millimetre figures are those worked from it for the inch and the metric series. */
static void test_screw_pilot_both_series(void **state)
{
    (void)state;
    static const struct {
        double shank, soft, hard, within;
    } rows[] = {
        {.112 * 25.4, 1.33, 1.71, 0.006},
        {.125 * 25.4, 1.48, 1.90, 0.006},
        {.138 * 25.4, 1.64, 2.10, 0.006},
        {.164 * 25.4, 1.94, 2.50, 0.006},
        {.190 * 25.4, 2.25, 2.90, 0.006},
        {.216 * 25.4, 2.56, 3.29, 0.006},
        {3.0, 1.4, 1.8, 0.05},
        {3.5, 1.6, 2.1, 0.05},
        {4.0, 1.9, 2.4, 0.05},
        {4.5, 2.1, 2.7, 0.05},
        {5.0, 2.3, 3.0, 0.05},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_within(screw_pilot(rows[i].shank, 0.42), rows[i].soft, rows[i].within);
        assert_within(screw_pilot(rows[i].shank, 0.62), rows[i].hard, rows[i].within);
    }
    assert_close(screw_pilot(4, 0.6), 2.4, 1e-12);        /* 4 x 2/3 x 0.9: 0.6 is hard */
    assert_close(screw_pilot(4, 0.599), 1.8666667, 1e-7); /* 4 x 2/3 x 0.7 */
}

static void test_screw_drill_steps(void **state)
{
    (void)state;
    assert_close(screw_drill(1.8666667, UNITS_MM), 1.9, 1e-12);
    assert_close(screw_drill(2.50, UNITS_IN), 6 * 25.4 / 64, 1e-12); /* 2.50 / 0.3969 = 6.30: 3/32 in */
}

static const double few[] = {20, 25, 30, 35, 40};
static const struct screw_kind rack4 = {.diameter = 4, .head = 8, .lengths = few, .n_lengths = 5};

/* Base 12, fence 100 high: 40 - 12 = 28 = 7 x 4, the shortest that serves. */
static void test_screw_choose_shortest_into_fence(void **state)
{
    (void)state;
    struct screw_joint j = {
        .through = 12, .into = 100, .least_diameters = 7, .tip_inside = 2, .wanted_diameter = 4, .most_diameter = 5.4};
    struct screw_fit f = screw_choose(&rack4, 1, &j);
    assert_true(f.serves);
    assert_close(f.length, 40, 1e-12);
    assert_close(f.hold, 28, 1e-12);
    assert_close(f.tip, 72, 1e-12);
    j.through = 12.5; /* 27.5 < 28: none serves, 40 misses by least */
    f = screw_choose(&rack4, 1, &j);
    assert_false(f.serves);
    assert_close(f.length, 40, 1e-12);
}

/* Base 12, runner 9: the tip of a 20 is 12 + 9 - 20 = 1 inside, that of a 25 is out. */
static void test_screw_choose_longest_into_runner(void **state)
{
    (void)state;
    size_t n;
    const struct screw_kind *series = screw_series(UNITS_MM, &n);
    struct screw_joint j = {.through = 12,
                            .into = 9,
                            .least_diameters = 1,
                            .tip_inside = 1,
                            .wanted_diameter = 4,
                            .most_diameter = 5.7,
                            .deep = true};
    struct screw_fit f = screw_choose(series, n, &j);
    assert_true(f.serves);
    assert_close(f.kind->diameter, 4, 1e-12);
    assert_close(f.length, 20, 1e-12);
    j.into = 8.9; /* 20.9 - 20 = 0.9: the 16 it is, 4 inside = 1 d */
    assert_close(screw_choose(series, n, &j).length, 16, 1e-12);
}

static void test_screw_choose_rack_too_thick(void **state)
{
    (void)state;
    struct screw_joint j = {
        .through = 12, .into = 70, .least_diameters = 7, .tip_inside = 2, .wanted_diameter = 2.6, .most_diameter = 3.5};
    assert_null(screw_choose(&rack4, 1, &j).kind);
}

static void test_screw_spread_counts(void **state)
{
    (void)state;
    double at[64];
    assert_int_equal(screw_spread(40, 540, 150, 5, 40, at, 64), 5); /* 500 / 150: 5 ends and between; 125 apart */
    assert_close(at[1], 165, 1e-12);
    assert_int_equal(screw_spread(0, 600, 150, 2, 40, at, 64), 5); /* 4 gaps of 150 exactly */
    assert_int_equal(screw_spread(0, 601, 150, 2, 40, at, 64), 6);
    assert_int_equal(screw_spread(0, 100, 150, 5, 40, at, 64), 3); /* 100 / 40: two gaps of at least 40 */
    assert_int_equal(screw_spread(0, 30, 150, 5, 40, at, 64), 1);
    assert_close(at[0], 15, 1e-12);
}

static void test_screw_clear_of_runner(void **state)
{
    (void)state;
    struct screw_gap runner = {-150, -130};
    assert_close(screw_clear_of(-100, &runner, 1, 6, 45, 300), -100, 1e-12);
    assert_close(screw_clear_of(-145, &runner, 1, 6, 45, 300), -156, 1e-12); /* 11 outward, 21 inward */
    assert_close(screw_clear_of(-132, &runner, 1, 6, 45, 300), -124, 1e-12); /* 24 outward, 8 inward */
    runner = (struct screw_gap){45, 60};
    assert_close(screw_clear_of(46, &runner, 1, 6, 45, 300), 66,
                 1e-12); /* inward would be nearer to the blade than 45 */
    runner = (struct screw_gap){270, 300};
    assert_close(screw_clear_of(295, &runner, 1, 6, 45, 300), 264, 1e-12); /* outward there is no fence any more */
}

static void test_screw_name_of_packet(void **state)
{
    (void)state;
    struct pool pool = {0};
    size_t n;
    const struct screw_kind *inch = screw_series(UNITS_IN, &n);
    assert_string_equal(screw_name(&pool, &rack4, 40, UNITS_MM), "4\u00A0\u00D7\u00A040\u00A0mm");
    assert_string_equal(screw_name(&pool, &inch[2], 1.5 * 25.4, UNITS_IN),
                        "No.\u00A08\u00A0\u00D7\u00A01\u00A01\u20442\u00A0in");
    assert_string_equal(screw_name(&pool, &inch[2], 25.4, UNITS_IN), "No.\u00A08\u00A0\u00D7\u00A01\u00A0in");
    assert_string_equal(screw_drill_name(&pool, 6 * 25.4 / 64, UNITS_IN), "3\u204432\u00A0in");
    assert_string_equal(screw_drill_name(&pool, 2.4, UNITS_MM), "2.4\u00A0mm");
    pool_free(&pool);
}

static const struct plan_fence *fence_of(const struct plan *p, const struct plan_part *part)
{
    return part->kind == PART_REFERENCE_FENCE ? &p->sled.reference : &p->sled.other;
}

static bool is_under_runner(const struct plan_sled *s, double x, double v, double apart)
{
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (r->present && fabs(x - r->slot_x) < r->width / 2 + apart && v > r->v0 && v < r->v0 + r->length)
            return true;
    }
    return false;
}

static void check_fence_hole(const struct plan *p, const struct plan_hole *h, const struct plan_part *part)
{
    const struct plan_sled *s = &p->sled;
    const struct plan_fence *f = fence_of(p, part);
    bool given = h->role == HOLE_PIVOT || h->role == HOLE_TRIAL,
         under = is_under_runner(s, h->x, h->v, h->head_diameter / 2);
    double runner = s->runner[SIDE_LEFT].present ? s->runner[SIDE_LEFT].thickness : s->runner[SIDE_RIGHT].thickness;
    double hold = h->screw_length - s->base_thickness - (under ? runner : 0);
    assert_true(hold >= 7 * h->screw_diameter - 1e-9);
    assert_true(f->height - hold >= 2 - 1e-9);
    assert_within(h->tip, f->height - hold, 1e-9);
    assert_true(given || !is_under_runner(s, h->x, h->v, h->head_diameter / 2 + 1.99));
    assert_true(h->x > f->x0 && h->x < f->x0 + f->length && h->x > s->base_x0 && h->x < s->base_x0 + s->base_width);
    double layer = fabs(f->v_outer - f->v_face) / f->layers, in = fabs(h->v - f->v_face) / layer;
    assert_within(in - floor(in), 0.5, 1e-9); /* the middle of one layer, no glue line */
    assert_true(h->screw_diameter <= 0.3 * layer + 1e-9);
    assert_false(h->from_above);
}

static void check_runner_hole(const struct plan *p, const struct plan_hole *h, const struct plan_part *part)
{
    const struct plan_sled *s = &p->sled;
    const struct plan_runner *r = &s->runner[h->x < 0 ? SIDE_LEFT : SIDE_RIGHT];
    double hold = h->screw_length - s->base_thickness;
    assert_true(r->is_guide == (part->kind == PART_GUIDE_RUNNER));
    assert_true(hold >= h->screw_diameter - 1e-9 && r->thickness - hold >= 1 - 1e-9);
    assert_within(h->x, r->slot_x, 1e-9);
    assert_true(h->v > r->v0 && h->v < r->v0 + r->length && h->v > 0 && h->v < s->base_depth);
    assert_true(h->from_above);
}

/* Screws of one part stand ten diameters apart along it, but for fresh holes and places reserved for them, and for places
   that the job gives. */
static void check_spacing(const struct plan *p)
{
    for (size_t i = 0; i < p->n_holes; i++)
        for (size_t k = 0; k < i; k++) {
            const struct plan_hole *a = &p->holes[i], *b = &p->holes[k];
            bool beside = a->role == HOLE_RESERVED || (a->role == HOLE_FRESH && b->role == HOLE_TRIAL);
            double apart = hypot(a->x - b->x, a->v - b->v);
            if (strcmp(a->part, b->part) == 0)
                assert_true(apart >= (beside ? fmax(2 * a->screw_diameter, 10) : 7 * a->screw_diameter) - 1e-9);
        }
}

/* What holds of every sled's screws. */
static void check_rules(const struct plan *p)
{
    const struct plan_hole *pivot = NULL, *trial = NULL, *last = NULL;
    for (size_t i = 0; i < p->n_holes; i++) {
        const struct plan_hole *h = &p->holes[i];
        const struct plan_part *part = NULL;
        for (size_t k = 0; k < p->n_parts; k++)
            if (strcmp(p->parts[k].letter, h->part) == 0)
                part = &p->parts[k];
        assert_non_null(part);
        assert_true(fabs(h->x) - h->head_diameter / 2 >= 40 - 1e-9);
        assert_true(h->diameter > 0 && h->diameter < h->screw_diameter);
        if (part->kind == PART_GUIDE_RUNNER || part->kind == PART_FREE_RUNNER)
            check_runner_hole(p, h, part);
        else if (part->kind == PART_REFERENCE_FENCE || part->kind == PART_OTHER_FENCE)
            check_fence_hole(p, h, part);
        else
            fail_msg("a screw in part %s", part->letter); /* the guard has no metal */
        assert_true((h->role == HOLE_FIXED) == (part->kind != PART_REFERENCE_FENCE));
        const struct plan_hole **one = h->role == HOLE_PIVOT   ? &pivot
                                       : h->role == HOLE_TRIAL ? &trial
                                       : h->role == HOLE_FRESH  ? &last
                                                               : NULL;
        assert_true(!one || !*one);
        if (one)
            *one = h;
    }
    check_spacing(p);
    assert_true(pivot && trial && last);
    assert_within(pivot->x, p->sled.pivot_x, 1e-9);
    assert_within(trial->x, p->sled.moving_x, 1e-9);
    assert_true(fabs(last->x - trial->x) >= fmax(2 * trial->screw_diameter, 10) - 1e-9);
    assert_int_equal(plan_find_check(p, CHECK_SCREW_FREE_STRIP)->verdict, VERDICT_PASS);
    const struct plan_check *length = plan_find_check(p, CHECK_SCREW_LENGTH);
    if (length->verdict != VERDICT_PASS) /* a base of 17.5 on a runner of 7.5: no length between 20 and 25 */
        assert_string_equal(length->remedy.key, "check.screw_length.glue_only");
}

static void check_job(const struct test_job *t)
{
    struct made m = {0};
    assert_true(make_screws(t, &m));
    check_rules(&m.plan);
    free_made(&m);
}

/* Two later moves: each hole but the pivot's has two fresh places beside it, the nearest 10 or more off every other hole;
   outward first, but not under the free runner (168.5 to 187.5, and 6 either side for the head) and not nearer to the
   blade plane than 45. */
static void test_sled_place_screws_reserved(void **state)
{
    (void)state;
    static const double wanted[] = {300, -55, -198, 55, 152.5, 310, -65, -178, 65, 142.5};
    static struct test_job t;
    struct made m = {0};
    size_t n = 0;
    contract_job(&t);
    assert_true(make_screws(&t, &m));
    for (size_t i = 0; i < m.plan.n_holes; i++)
        if (m.plan.holes[i].role == HOLE_RESERVED) {
            assert_true(n < sizeof wanted / sizeof *wanted);
            assert_within(m.plan.holes[i].x, wanted[n++], 1e-9);
        }
    assert_int_equal(n, sizeof wanted / sizeof *wanted);
    free_made(&m);
}

static void test_sled_place_screws_contract(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job(&t);
    assert_true(make_screws(&t, &m));
    check_rules(&m.plan);
    int in_guide = 0, in_free = 0;
    for (size_t i = 0; i < m.plan.n_holes; i++) {
        const struct plan_hole *h = &m.plan.holes[i];
        in_guide += strcmp(h->part, "E") == 0;
        in_free += strcmp(h->part, "F") == 0;
        if (h->role == HOLE_PIVOT) {
            assert_close(h->x, -330, 1e-12);
            assert_close(h->v, 99, 1e-12);         /* face 126, two layers of 18: the outer one's middle, 126 - 27 */
            assert_close(h->diameter, 2.4, 1e-12); /* birch plywood 685 / 1120 = 0.61: 4 x 2/3 x 0.9 */
        }
    }
    assert_int_equal(in_guide, 5); /* 580 - 2 x 40 = 500 long: 4 gaps of 125 */
    assert_int_equal(in_free, 5);  /* 388 - 2 x 40 = 308 long would do with 4; five a runner */
    assert_close(plan_find_check(&m.plan, CHECK_SCREW_FREE_STRIP)->value, 41, 1e-12); /* 45 - 8/2 */
    assert_int_equal(plan_find_check(&m.plan, CHECK_SCREW_LENGTH)->verdict, VERDICT_PASS);
    free_made(&m);
}

static void test_sled_place_screws_variants(void **state)
{
    (void)state;
    static struct test_job t;
    contract_job_far(&t);
    check_job(&t);
    least_job(&t);
    check_job(&t);
    t.job.units = UNITS_IN;
    check_job(&t);
    contract_job(&t);
    t.job.units = UNITS_IN;
    check_job(&t);
}

static void test_sled_place_screws_random_saws(void **state)
{
    (void)state;
    static struct test_job t;
    struct random r = {.state = 7};
    int sleds = 0;
    for (int i = 0; i < 60; i++) {
        struct made m = {0};
        random_saw(&r, &t);
        t.job.units = i % 3 ? UNITS_MM : UNITS_IN;
        if (i % 2)
            t.job.jig.as.sled.reference_fence.side = FENCE_FAR;
        if (make_screws(&t, &m)) {
            check_rules(&m.plan);
            sleds++;
        }
        free_made(&m);
    }
    assert_true(sleds > 30);
}

static void test_sled_place_screws_rack_serves(void **state)
{
    (void)state;
    static struct test_job t;
    struct job_screw rack = {.diameter = 4, .lengths = few, .n_lengths = 5};
    contract_job(&t);
    t.job.screws = &rack;
    t.job.n_screws = 1;
    check_job(&t);
}

/* Heads of 2 x 5.2 = 10.4: axes at 40 + 5.2, rounded up to 46, not at 45. */
static void test_sled_place_screws_thick_heads(void **state)
{
    (void)state;
    static struct test_job t;
    static const double lengths[] = {20, 50};
    struct job_screw rack = {.diameter = 5.2, .lengths = lengths, .n_lengths = 2};
    struct made m = {0};
    contract_job(&t);
    t.job.screws = &rack;
    t.job.n_screws = 1;
    assert_true(make_screws(&t, &m));
    check_rules(&m.plan);
    assert_close(plan_find_check(&m.plan, CHECK_SCREW_FREE_STRIP)->value, 46 - 5.2, 1e-12);
    free_made(&m);
}

static void test_sled_place_screws_rack_too_short(void **state)
{
    (void)state;
    static struct test_job t;
    static const double lengths[] = {20, 25};
    struct job_screw rack = {.diameter = 4, .lengths = lengths, .n_lengths = 2};
    struct made m = {0};
    contract_job(&t);
    t.job.screws = &rack;
    t.job.n_screws = 1;
    assert_true(make_screws(&t, &m));
    const struct plan_check *c = plan_find_check(&m.plan, CHECK_SCREW_LENGTH);
    assert_int_equal(c->verdict, VERDICT_CAUTION);
    assert_close(c->value, 13, 1e-12); /* 25 - 12 */
    assert_close(c->low, 28, 1e-12);
    assert_string_equal(c->remedy.key, "check.screw_length.buy");
    assert_string_equal(c->remedy.arg[1].text, "4\u00A0\u00D7\u00A040\u00A0mm");
    for (size_t i = 0; i < m.plan.n_holes; i++) /* the plan is made with what is to be bought */
        assert_true(m.plan.holes[i].from_above || m.plan.holes[i].screw_length == 40);
    free_made(&m);
}

static void test_sled_place_screws_rack_too_thick(void **state)
{
    (void)state;
    static struct test_job t;
    static const double lengths[] = {50};
    struct job_screw rack = {.diameter = 6, .lengths = lengths, .n_lengths = 1};
    struct made m = {0};
    contract_job(&t);
    t.job.screws = &rack;
    t.job.n_screws = 1;
    assert_true(make_screws(&t, &m));
    const struct plan_check *c = plan_find_check(&m.plan, CHECK_SCREW_LENGTH);
    assert_int_equal(c->verdict, VERDICT_CAUTION);
    assert_true(isnan(c->value));
    assert_string_equal(c->why.key, "check.screw_length.why.none");
    assert_string_equal(c->remedy.key, "check.screw_length.buy");
    free_made(&m);
}

/* A base of 17.5 and a runner of 7.5: from 17.5 + 3.5 to 25 - 1 no standard length; the runner is glued only. */
static void test_sled_place_screws_runner_glue_only(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job(&t);
    t.stock[0].thickness = given(17.5);
    t.job.jig.as.sled.capacity_thickness = given(50);
    t.job.jig.as.sled.runner_thickness = given(7.5);
    assert_true(make_screws(&t, &m));
    const struct plan_check *c = plan_find_check(&m.plan, CHECK_SCREW_LENGTH);
    assert_int_equal(c->verdict, VERDICT_CAUTION);
    assert_string_equal(c->remedy.key, "check.screw_length.glue_only");
    assert_close(c->value, 2.5, 1e-12); /* 20 - 17.5 */
    for (size_t i = 0; i < m.plan.n_holes; i++)
        assert_false(m.plan.holes[i].from_above);
    free_made(&m);
}

/* A pivot so near that its head's edge is at 42 - 4 = 38. */
static void test_sled_place_screws_pivot_in_strip(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job(&t);
    t.job.jig.as.sled.reference_fence.pivot.from_blade = given(42);
    assert_true(make_screws(&t, &m));
    const struct plan_check *c = plan_find_check(&m.plan, CHECK_SCREW_FREE_STRIP);
    assert_int_equal(c->verdict, VERDICT_FAIL);
    assert_true(c->hurts);
    assert_close(c->value, 38, 1e-12);
    assert_close(c->low, 40, 1e-12);
    assert_close(c->remedy.arg[1].number, 44, 1e-12);
    free_made(&m);
}

/* A pivot over the guide's slot: the screw goes through base and runner, 12 + 9 + 28 = 49. */
static void test_sled_place_screws_pivot_under_runner(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job(&t);
    t.job.jig.as.sled.reference_fence.pivot.from_blade = given(145);
    assert_true(make_screws(&t, &m));
    check_rules(&m.plan);
    for (size_t i = 0; i < m.plan.n_holes; i++)
        if (m.plan.holes[i].role == HOLE_PIVOT)
            assert_close(m.plan.holes[i].screw_length, 50, 1e-12);
    free_made(&m);
}

/* The same under a far fence, where the free runner, cut for the stop, does not reach: through the base alone. */
static void test_sled_place_screws_beyond_short_runner(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job_far(&t);
    t.job.jig.as.sled.reference_fence.moving.from_blade = given(180);
    assert_true(make_screws(&t, &m));
    check_rules(&m.plan);
    for (size_t i = 0; i < m.plan.n_holes; i++)
        if (m.plan.holes[i].role == HOLE_TRIAL)
            assert_close(m.plan.holes[i].screw_length, 40, 1e-12);
    free_made(&m);
}

/* A slot 43 from the blade: a head of 8 would stand at 39, so that runner is glued only. */
static void test_sled_place_screws_runner_in_strip(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    contract_job(&t);
    t.job.saw.slots.left = given(43);
    if (make_screws(&t, &m)) {
        for (size_t i = 0; i < m.plan.n_holes; i++)
            assert_true(strcmp(m.plan.holes[i].part, "E") != 0);
        assert_int_equal(plan_find_check(&m.plan, CHECK_SCREW_FREE_STRIP)->verdict, VERDICT_PASS);
    } else {
        fail_msg("no sled");
    }
    free_made(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_screw_shank_of_number_listed),
        cmocka_unit_test(test_screw_pilot_both_series),
        cmocka_unit_test(test_screw_drill_steps),
        cmocka_unit_test(test_screw_choose_shortest_into_fence),
        cmocka_unit_test(test_screw_choose_longest_into_runner),
        cmocka_unit_test(test_screw_choose_rack_too_thick),
        cmocka_unit_test(test_screw_spread_counts),
        cmocka_unit_test(test_screw_clear_of_runner),
        cmocka_unit_test(test_screw_name_of_packet),
        cmocka_unit_test(test_sled_place_screws_reserved),
        cmocka_unit_test(test_sled_place_screws_contract),
        cmocka_unit_test(test_sled_place_screws_variants),
        cmocka_unit_test(test_sled_place_screws_random_saws),
        cmocka_unit_test(test_sled_place_screws_rack_serves),
        cmocka_unit_test(test_sled_place_screws_thick_heads),
        cmocka_unit_test(test_sled_place_screws_rack_too_short),
        cmocka_unit_test(test_sled_place_screws_rack_too_thick),
        cmocka_unit_test(test_sled_place_screws_runner_glue_only),
        cmocka_unit_test(test_sled_place_screws_pivot_in_strip),
        cmocka_unit_test(test_sled_place_screws_pivot_under_runner),
        cmocka_unit_test(test_sled_place_screws_beyond_short_runner),
        cmocka_unit_test(test_sled_place_screws_runner_in_strip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
