/* The blade stepped through the work: a disc, blocks, and no formula of the program's own. */
#include "close.h"
#include "random.h"

#include "plan/travel.h"

#include <stdbool.h>

/* A saw and a sled to try; y from the table's near edge. */
struct trial {
    double radius, highest, axis_y;
    struct travel_sizes sizes;
    double thickness, width; /* of the work: T, W */
};

static struct trial random_trial(struct random *r, enum fence_side side)
{
    struct trial t;
    double radius = random_between(r, 90, 160);

    t.radius = radius;
    t.highest = radius * random_between(r, 0.5, 0.7);
    t.axis_y = random_between(r, 250, 600);
    t.width = random_between(r, 40, 420);
    t.sizes = (struct travel_sizes){
        .blade = {t.radius, t.highest, t.axis_y}, .side = side,
        .base_thickness = random_between(r, 9, 13), .base_depth = random_between(r, 560, 700),
        .thickness = random_between(r, 24, 60), .other_thickness = random_between(r, 15, 30),
        .least_above_work = random_between(r, 1, 3), .clearance = 5, .overrun = 5,
    };
    t.sizes.from_edge = side == FENCE_NEAR ? random_between(r, 60, 120) : 0;
    t.sizes.other_from_edge = side == FENCE_NEAR ? 0 : random_between(r, 60, 120);
    t.thickness = random_between(r, 5, t.highest - t.sizes.base_thickness - t.sizes.least_above_work - 1);
    return t;
}

/* Is the point (y, z) inside the blade when it stands h above the table? */
static bool in_blade(const struct trial *t, double h, double y, double z)
{
    double dy = y - t->axis_y, dz = z - (h - t->radius);

    return dy * dy + dz * dz <= t->radius * t->radius;
}

/* Work of the section from y0 to y1 (when the sled is at s = 0) and z0 to z1, carried from s = -travel to s = 0 in steps:
   has each point of it been inside the blade? Corners and edges decide: the section is convex, looked at on a grid. */
static bool cut_through(const struct trial *t, double h, double y0, double y1, double z0, double z1, double travel)
{
    for (int i = 0; i <= 8; i++)
        for (int k = 0; k <= 8; k++) {
            double y = y0 + (y1 - y0) * i / 8, z = z0 + (z1 - z0) * k / 8;
            bool cut = false;
            for (double s = -travel; s <= 1e-9 && !cut; s += 0.1)
                cut = in_blade(t, h, y + s, z);
            if (!cut)
                return false;
        }
    return true;
}

/* The work's place on the stop, by where its fence stands; W at full width. */
static void work_on_stop(const struct trial *t, double *y0, double *y1)
{
    const struct travel_sizes *s = &t->sizes;
    double near_face = s->from_edge + s->thickness, far_face = s->base_depth - s->from_edge - s->thickness;
    double face = travel_edge_stop(s, t->width) + (s->side == FENCE_NEAR ? near_face : far_face);

    *y0 = t->sizes.side == FENCE_NEAR ? face : face - t->width;
    *y1 = *y0 + t->width;
}

static double least_height(const struct trial *t)
{
    return t->sizes.base_thickness + t->thickness + t->sizes.least_above_work;
}

static void try_cuts(enum fence_side side, uint64_t seed)
{
    struct random r = {seed};

    for (int i = 0; i < 40; i++) {
        struct trial t = random_trial(&r, side);
        double y0, y1, bottom = t.sizes.base_thickness, top = bottom + t.thickness;
        work_on_stop(&t, &y0, &y1);
        for (int step = 0; step <= 4; step++) {
            double h = least_height(&t) + (t.highest - least_height(&t)) * step / 4;
            double travel = t.width + 2 * t.radius + 20;
            assert_true(cut_through(&t, h, y0, y1, bottom, top, travel));
        }
        /* The stop leaves its overrun and no more: nearly that much sooner the lowest blade is through, a little sooner not. */
        assert_true(cut_through(&t, least_height(&t), y0 - t.sizes.overrun + 0.2, y1 - t.sizes.overrun + 0.2, bottom, top,
                                t.width + 2 * t.radius + 20));
        assert_false(cut_through(&t, least_height(&t), y0 - t.sizes.overrun - 0.2, y1 - t.sizes.overrun - 0.2, bottom, top,
                                 t.width + 2 * t.radius + 20));
    }
}

static void test_travel_stop_near_fence_cuts_the_whole_section(void **state)
{
    (void)state;
    try_cuts(FENCE_NEAR, 11);
}

static void test_travel_stop_far_fence_cuts_the_whole_section(void **state)
{
    (void)state;
    try_cuts(FENCE_FAR, 12);
}

/* The fence nearer the operator, on the stop: from its outer face back, wood as deep and high as planned. No point of the
   blade above the base lies behind it or above it, for any height, with the margins that were asked for. */
static void try_guard(enum fence_side side, uint64_t seed)
{
    struct random r = {seed};

    for (int i = 0; i < 200; i++) {
        struct trial t = random_trial(&r, side);
        double from_near_edge = side == FENCE_NEAR ? t.sizes.from_edge : t.sizes.other_from_edge;
        double outer = travel_edge_stop(&t.sizes, t.width) + from_near_edge;
        double reach = travel_reach(&t.sizes, t.width, 0), exit_height = travel_exit_height(&t.sizes, t.width);
        double deepest = 0, highest = 0; /* of the blade past the outer face */
        for (double h = least_height(&t); h <= t.highest + 1e-9; h += (t.highest - least_height(&t)) / 3)
            for (double y = t.axis_y - t.radius; y < fmin(outer, t.axis_y + t.radius); y += 0.1) {
                double inside = t.radius * t.radius - (y - t.axis_y) * (y - t.axis_y);
                double z = h - t.radius + sqrt(fmax(inside, 0));
                if (z <= 0)
                    continue;
                deepest = fmax(deepest, outer - y);
                highest = fmax(highest, z);
            }
        assert_within(fmax(reach, 0), deepest, 0.11);
        if (isnan(exit_height))
            assert_within(deepest, 0, 0.11);
        else
            assert_within(exit_height, highest, 0.5); /* a step of 0.1 in y is more than that in z at a steep place */
    }
}

static void test_travel_guard_near_fence_covers_the_blade(void **state)
{
    (void)state;
    try_guard(FENCE_NEAR, 21);
}

static void test_travel_guard_far_fence_covers_the_blade(void **state)
{
    (void)state;
    try_guard(FENCE_FAR, 22);
}

/* At the start no point of the blade touches the work; the clearance farther on it touches. Parked, none touches the base. */
static void test_travel_start_and_parked_clear_the_blade(void **state)
{
    struct random r = {31};

    (void)state;
    for (int i = 0; i < 200; i++) {
        struct trial t = random_trial(&r, i % 2 ? FENCE_NEAR : FENCE_FAR);
        double z = t.sizes.base_thickness, face = travel_edge_start(&t.sizes, t.width) + travel_face_v(&t.sizes);
        double lead = t.sizes.side == FENCE_NEAR ? face + t.width : face; /* the work's edge that the blade meets first */
        double far_edge = travel_edge_parked(&t.sizes) + t.sizes.base_depth;
        assert_false(in_blade(&t, t.highest, lead, z));
        assert_false(in_blade(&t, t.highest, lead + t.sizes.clearance - 0.01, z));
        assert_true(in_blade(&t, t.highest, lead + t.sizes.clearance + 0.01, z));
        assert_false(in_blade(&t, t.highest, far_edge + t.sizes.clearance - 0.01, 0));
        assert_true(in_blade(&t, t.highest, far_edge + t.sizes.clearance + 0.01, 0));
    }
}

static void test_travel_engaged_is_what_lies_on_the_table(void **state)
{
    (void)state;
    assert_within(travel_engaged(-158.46, 0, 580, 800), 421.54, 1e-9);
    assert_within(travel_engaged(351.56, 0, 580, 800), 448.44, 1e-9);
    assert_within(travel_engaged(100, 0, 580, 800), 580, 1e-9);
    assert_within(travel_engaged(-700, 0, 580, 800), 0, 1e-9);
}

/* Chords measured on drawings of four saws: 254 mm blade 79 high: 235 at the table, 224 on 12 mm. */
static void test_blade_half_chord_known_saws(void **state)
{
    static const double rows[][4] = {{210, 60, 190, 176}, {250, 75, 229, 217}, {254, 79, 235, 224}, {305, 102, 288, 278}, {315, 100, 293, 283}};

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct blade b = {rows[i][0] / 2, rows[i][1], 400};
        assert_within(2 * blade_half_chord(b, 0), rows[i][2], 0.5);
        assert_within(2 * blade_half_chord(b, 12), rows[i][3], 0.5);
        assert_within(blade_half_chord_below(b, 3), blade_half_chord(b, b.highest - 3), 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_travel_stop_near_fence_cuts_the_whole_section),
        cmocka_unit_test(test_travel_stop_far_fence_cuts_the_whole_section),
        cmocka_unit_test(test_travel_guard_near_fence_covers_the_blade),
        cmocka_unit_test(test_travel_guard_far_fence_covers_the_blade),
        cmocka_unit_test(test_travel_start_and_parked_clear_the_blade),
        cmocka_unit_test(test_travel_engaged_is_what_lies_on_the_table),
        cmocka_unit_test(test_blade_half_chord_known_saws),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
