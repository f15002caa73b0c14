/* The straight edge: worked by hand, the zone against a search over all slopes, and fences built, probed and put right
   without the sum under test. */
#include "method_kit.h"
#include "proof/fence_straight_sums.h"

enum { PLACES_MOST = 9 };

static const struct job_instrument leaves = {
    .name = "leaves", .kind = INSTRUMENT_FEELER, .leaves = hand_leaves, .n_leaves = COUNT(hand_leaves)};
static const struct job_instrument fine_leaves = {.name = "fine",
                                                  .kind = INSTRUMENT_OTHER,
                                                  .resolution = {.v = 1e-7, .given = true},
                                                  .error_limit = {.v = 0, .given = true}};
static const struct job_instrument perfect_edge = {
    .name = "edge", .kind = INSTRUMENT_STRAIGHT_EDGE, .error_limit = {.v = 0.000001, .given = true}};

static void set_readings(struct hand *h, const struct job_pair *gaps, size_t n, double shim, double length,
                         const struct job_instrument *edge)
{
    h->tests[0].as.fence_straight = (struct fence_straight_readings){.gaps = gaps,
                                                                     .n_gaps = n,
                                                                     .shim = given(shim),
                                                                     .length = given(length),
                                                                     .shortest_work = given(100),
                                                                     .straight_edge = edge};
}

/* Shims of 0.50 at 0 and 600; gaps 0.40, 0.35, 0.42 at 150, 300, 450: dev 0.10, 0.15, 0.08. The lower parallel is the
   line of the shims, the upper goes through 300: bow 0.15. Steepest piece 0 to 150: 0.10/150 = 6.667e-4. U: reading
   0.0000001, edge 0.000001/sqrt 3, both times 1.96: nothing; so 0.15 is outside 0.10. */
static void test_fence_straight_worked_by_hand(void **state)
{
    (void)state;
    static const struct job_pair gaps[] = {{300, 0.35, {0}}, {150, 0.40, {0}}, {450, 0.42, {0}}};
    struct hand h;
    kit_begin(&h, METHOD_FENCE_STRAIGHT, &fine_leaves);
    set_readings(&h, gaps, COUNT(gaps), 0.50, 600, &perfect_edge);
    const struct proof_test *t = hand_prove(&h);
    const struct fence_straight_sum *sum = &t->as.fence_straight;
    assert_close(t->error, 0.15, 1e-9);
    assert_true(sum->zone.hump);
    assert_close(sum->points[sum->zone.apex].x, 300, 0);
    assert_close(sum->angle, 0.10 / 150, 1e-12);
    assert_close(sum->angle_from, 0, 0);
    assert_int_equal(t->finding, FINDING_OUTSIDE);
    assert_string_equal(t->move.what.key, "fence_straight.proud");
    assert_int_equal(t->move.toward, TOWARD_OPERATOR);
    hand_end(&h);
}

/* The same with leaves that go in steps of 0.05 (0.10 above 0.30) and an assumed edge of 600: half-widths 0.05 at the
   one gap that counts, E of a leaf 0.006 for the gap (0.40 goes, 0.50 does not: 0.45) and the shim, edge 0.008 +
   600/40000 = 0.023. u = sqrt(0.05^2 + 0.006^2 + 0.006^2 + 0.023^2)/sqrt 3 = 0.0321 (by hand 0.05569/1.732 = 0.03215).
 */
static void test_fence_straight_budget_by_hand(void **state)
{
    (void)state;
    static const struct job_pair gaps[] = {{300, 0.40, {0}}};
    struct hand h;
    kit_begin(&h, METHOD_FENCE_STRAIGHT, &leaves);
    set_readings(&h, gaps, COUNT(gaps), 0.50, 600, NULL);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->error, 0.05, 1e-9);
    assert_close(t->standard_uncertainty, sqrt(0.05 * 0.05 + 2 * 0.006 * 0.006 + 0.023 * 0.023) / sqrt(3), 1e-9);
    assert_int_equal(t->n_lines, 4);
    assert_int_equal(t->finding, FINDING_UNDECIDED);
    assert_int_equal(t->move.advice, ADVICE_LEAVE); /* 0.05 is less than its U, 0.063 */
    hand_end(&h);
}

/* Width of the strip at one slope; convex in the slope, so that a search by thirds finds the least. */
static double width_at_slope(const struct face_point *p, size_t n, double slope)
{
    double most = -INFINITY, least = INFINITY;
    for (size_t i = 0; i < n; i++) {
        double c = (p[i].dev - slope * p[i].x) / hypot(1, slope);
        most = fmax(most, c);
        least = fmin(least, c);
    }
    return most - least;
}

static double search_width(const struct face_point *p, size_t n)
{
    double a = -0.1, b = 0.1;
    for (int i = 0; i < 200; i++) {
        double third = (b - a) / 3;
        if (width_at_slope(p, n, a + third) < width_at_slope(p, n, b - third))
            b -= third;
        else
            a += third;
    }
    return width_at_slope(p, n, (a + b) / 2);
}

/* Slopes at every 0.01 mm instead of at the corners. */
static double search_angle(const struct face_point *p, size_t n, double work)
{
    double worst = 0;
    for (double a = p[0].x; a + work <= p[n - 1].x; a += 0.05)
        worst = fmax(worst, fabs(fence_straight_dev(p, n, a + work) - fence_straight_dev(p, n, a)) / work);
    return worst;
}

static void test_fence_straight_zone_is_the_least(void **state)
{
    (void)state;
    struct hand_random r = {7};
    for (int k = 0; k < 400; k++) {
        struct face_point p[PLACES_MOST];
        size_t n = 3 + (size_t)(hand_uniform(&r) * 6.99);
        for (size_t i = 0; i < n; i++)
            p[i] = (struct face_point){100.0 * (double)i + hand_within(&r, -20, 20), hand_within(&r, -0.5, 0.5)};
        struct face_zone z = fence_straight_zone(p, n);
        assert_within(z.width, search_width(p, n), 1e-9);
        double by_weights = 0, from;
        for (size_t i = 0; i < n; i++)
            by_weights += fence_straight_weight(p, &z, i) * p[i].dev;
        assert_within(by_weights, z.width, 1e-4 * z.width); /* the cosine of the slope, up to 0.01 */
        assert_within(fence_straight_angle(p, n, 70, &from), search_angle(p, n, 70), 2e-5);
    }
}

/* ---- Fences built and probed ---- */

/* A face bent by `bend` in its middle toward the operator (negative: away), 700 long, that stands at an angle. */
struct built_face {
    double angle, bend, length;
    enum fence_side side;
};
struct spot {
    double x, y;
};
static struct spot face_at(const struct built_face *f, double s)
{
    double q = s / f->length, off = -f->bend * 4 * q * (1 - q);
    return (struct spot){s * cos(f->angle) - off * sin(f->angle), s * sin(f->angle) + off * cos(f->angle)};
}

/* Two shims stand on the face's ends, the straight edge on them; what is left between edge and face, square to the
   edge. The work's side of a near fence is away from the operator. */
static void probe(struct hand *h, const struct built_face *f, double shim, struct job_pair *gaps, size_t n)
{
    struct spot a = face_at(f, 0), b = face_at(f, f->length);
    double along = hypot(b.x - a.x, b.y - a.y), ux = (b.x - a.x) / along, uy = (b.y - a.y) / along;
    double out = f->side == FENCE_NEAR ? 1 : -1;
    for (size_t i = 0; i < n; i++) {
        double s = f->length * (double)(i + 1) / (double)(n + 1);
        struct spot p = face_at(f, s);
        double place = (p.x - a.x) * ux + (p.y - a.y) * uy, stands = out * (-(p.x - a.x) * uy + (p.y - a.y) * ux);
        gaps[i] = (struct job_pair){.first = place, .second = shim - stands};
    }
    h->setting.fence_side = f->side;
    set_readings(h, gaps, n, shim, along, &perfect_edge);
}

static void test_fence_straight_printed_direction_straightens(void **state)
{
    (void)state;
    for (int k = 0; k < 16; k++) {
        struct built_face f = {.angle = (k & 1 ? 1 : -1) * degree,
                               .bend = (k & 2 ? 1 : -1) * (k & 8 ? 1.5 : 0.4),
                               .length = 700,
                               .side = k & 4 ? FENCE_NEAR : FENCE_FAR};
        struct job_pair gaps[7];
        struct hand h;
        kit_begin(&h, METHOD_FENCE_STRAIGHT, &fine_leaves);
        probe(&h, &f, 2, gaps, COUNT(gaps));
        const struct proof_test *t = hand_prove(&h);
        assert_within(t->error, fabs(f.bend), 1e-5);
        assert_int_equal(t->move.advice, ADVICE_MOVE);
        f.bend += t->move.toward == TOWARD_OPERATOR ? t->move.distance : -t->move.distance;
        bool was_proud = t->as.fence_straight.zone.hump;
        assert_int_equal(was_proud, strcmp(t->move.what.key, "fence_straight.proud") == 0);
        probe(&h, &f, 2, gaps, COUNT(gaps));
        assert_within(hand_prove(&h)->error, 0, 1e-4);
        hand_end(&h);
    }
}

/* A hollow fence on no shims at all. */
static void test_fence_straight_hollow_without_shims(void **state)
{
    (void)state;
    static const struct job_pair gaps[] = {{200, 0.20, {0}}, {400, 0.30, {0}}};
    struct hand h;
    kit_begin(&h, METHOD_FENCE_STRAIGHT, &fine_leaves);
    set_readings(&h, gaps, COUNT(gaps), 0, 600, &perfect_edge);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->error, 0.30, 1e-6);
    assert_false(t->as.fence_straight.zone.hump);
    assert_string_equal(t->move.what.key, "fence_straight.hollow");
    hand_end(&h);
}

/* ---- Coverage ---- */

struct drawn_face {
    double bend;
    struct job_pair *gaps;
};
/* Leaves of 0.05 a step, each off by its limit at most, shims by theirs, an edge bent by its limit at most. */
static double draw_face(struct hand *h, struct hand_random *r, const void *with)
{
    static const double set[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50,
                                 0.55, 0.60, 0.65, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00};
    static const struct job_instrument tool = {
        .name = "set", .kind = INSTRUMENT_FEELER, .leaves = set, .n_leaves = COUNT(set)};
    const struct drawn_face *f = with;
    double length = 600, shim = 0.50 + hand_within(r, -0.006, 0.006), edge = hand_within(r, -0.023, 0.023);
    double most = -INFINITY, bend = f->bend + hand_within(r, -0.025, 0.025);
    for (size_t i = 0; i < 5; i++) {
        double x = length * (double)(i + 1) / 6, q = x / length, bow = 4 * q * (1 - q);
        most = fmax(most, bow);
        double gap = shim - bend * bow + edge * bow + hand_within(r, -0.006, 0.006);
        f->gaps[i] = (struct job_pair){.first = x, .second = kit_leaf(gap, set, COUNT(set))};
    }
    h->tests[0].instrument = &tool;
    set_readings(h, f->gaps, 5, 0.50, length, NULL);
    return fabs(bend) * most;
}

/* A face with a bow is covered in 95 %; a straight one is called less straight than it is by the reading's scatter
   alone, which errs on the safe side: its bow less U may then lie above 0. */
static void test_fence_straight_coverage(void **state)
{
    (void)state;
    static const double bends[] = {0.10, 0.20, -0.15, 0.40};
    for (size_t i = 0; i < COUNT(bends); i++) {
        struct job_pair gaps[5];
        struct hand h;
        kit_begin(&h, METHOD_FENCE_STRAIGHT, NULL);
        double share = kit_coverage(&h, 40 + i, draw_face, &(struct drawn_face){bends[i], gaps});
        print_message("bend %.2f: covered %.4f\n", bends[i], share);
        assert_true(share >= 0.93);
        hand_end(&h);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fence_straight_worked_by_hand),
        cmocka_unit_test(test_fence_straight_budget_by_hand),
        cmocka_unit_test(test_fence_straight_zone_is_the_least),
        cmocka_unit_test(test_fence_straight_printed_direction_straightens),
        cmocka_unit_test(test_fence_straight_hollow_without_shims),
        cmocka_unit_test(test_fence_straight_coverage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
