/* The pictorial view: no box painted over one that stands before it, every part named once, where it is seen. */
#include "close.h"

#include "draw/check.h"
#include "draw/clip.h"
#include "draw/place.h"
#include "draw/solid.h"
#include "flip_sample.h"
#include "random_sled.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

static struct faces *faces;

static void make_plan(uint64_t *seed, int i, struct plan *plan)
{
    struct sample a = random_sled(seed);
    sample_plan_of(&a, plan);
    if (i % 3)
        sample_flip_stop(plan, i % 2 ? SIDE_LEFT : SIDE_RIGHT, i % 3 == 2);
}

/* How near the viewer the line of sight through a point of the paper leaves the box; -INFINITY: it misses. The line
   runs (1, -1, 1) toward the viewer; `start` is a point on it. */
static double leaves_at(const struct body *b, const double start[3])
{
    double low[] = {b->x0, b->v0, b->z0}, high[] = {b->x1, b->v1, b->z1}, way[] = {1, -1, 1}, t0 = -INFINITY,
           t1 = INFINITY;
    for (int i = 0; i < 3; i++) {
        double a = (low[i] - start[i]) * way[i], c = (high[i] - start[i]) * way[i];
        t0 = fmax(t0, fmin(a, c));
        t1 = fmin(t1, fmax(a, c));
    }
    return t1 - t0 > 0.2 ? t1 : -INFINITY; /* not a mere edge */
}

/* The last painted box under a point of the paper, and the nearest to the viewer. */
static void look_through(const struct solid *solids, size_t n, struct draw_point paper, size_t *painted,
                         size_t *nearest)
{
    double x = paper.x * 2 / sqrt(3), start[] = {x, 0, paper.y + x / 2}, best = -INFINITY;
    *painted = *nearest = n;
    for (size_t i = 0; i < n; i++) {
        double t = leaves_at(&solids[i].body, start);
        if (isinf(t))
            continue;
        *painted = i;
        if (t > best)
            best = t, *nearest = i;
    }
}

static void test_no_box_is_painted_over_one_before_it(void **state)
{
    (void)state;
    enum { CASES = 150 };
    uint64_t seed = 11;
    size_t looks = 0;
    for (int i = 0; i < CASES; i++) {
        struct plan plan;
        struct solid solids[SOLIDS_MOST];
        make_plan(&seed, i, &plan);
        size_t n = solids_of_sled(&plan, solids);
        solids_sort(solids, n);
        for (int k = 0; k < 3000; k++) {
            const struct body *b = &solids[(size_t)k % n].body;
            struct draw_point paper =
                isometric_point(random_between(&seed, b->x0, b->x1), random_between(&seed, b->v0, b->v1),
                                random_between(&seed, b->z0, b->z1));
            size_t painted, nearest;
            look_through(solids, n, paper, &painted, &nearest);
            assert_int_equal(painted, nearest);
            looks += painted < n;
        }
        pool_free(&plan.pool);
    }
    assert_true(looks > 400000);
}

static bool names(const struct draw_label *label, const struct plan_part *part)
{
    return label->bold && label->leader && label->text[0] == part->letter[0] &&
           strncmp(label->text + 1, "\xC2\xA0", 2) == 0;
}

static bool is_below_others(enum part_kind kind)
{
    return kind == PART_TRAVEL_STOP; /* its outline is drawn through what lies over it */
}

static void check_names(const struct plan *plan, const struct drawing *d)
{
    struct solid solids[SOLIDS_MOST];
    size_t n = solids_of_sled(plan, solids);
    for (size_t i = 0; i < plan->n_parts; i++) {
        const struct plan_part *part = &plan->parts[i];
        int named = 0;
        for (size_t k = 0; k < d->n_labels; k++) {
            if (!names(&d->labels[k], part))
                continue;
            size_t painted, nearest;
            look_through(solids, n, d->labels[k].at, &painted, &nearest);
            named++;
            if (!is_below_others(part->kind))
                assert_true(nearest < n && solids[nearest].part == part);
        }
        if (named != 1)
            print_error("%s is named %d times\n", part->letter, named);
        assert_int_equal(named, 1);
    }
}

static void test_every_part_is_named_once_where_it_is_seen(void **state)
{
    (void)state;
    enum { CASES = 60 };
    uint64_t seed = 12;
    for (int i = 0; i < CASES; i++) {
        struct plan plan;
        struct drawing d;
        struct pool pool = {0};
        make_plan(&seed, i, &plan);
        draw_pictorial(&plan, UNITS_MM, &pool, &d);
        check_names(&plan, &d);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* On paper: names off lines and off each other, on A4 and in little room, and the arrow goes the way of the feed. */
static void test_pictorial_keeps_the_rules_on_paper(void **state)
{
    (void)state;
    enum { CASES = 40 };
    uint64_t seed = 13;
    for (int i = 0; i < CASES; i++) {
        struct plan plan;
        struct drawing d;
        struct pool pool = {0};
        struct text problems = {0};
        struct placed_drawing placed;
        make_plan(&seed, i, &plan);
        draw_pictorial(&plan, UNITS_MM, &pool, &d);
        double height = i % 2 ? 118 : 60;
        draw_place(&d, faces, 176 * POINT_PER_MM, height * POINT_PER_MM, 10, &pool, &placed);
        if (draw_check(&placed, faces, &problems))
            fail_msg("sled %d at %s: %s", i, placed.scale_text, text_string(&problems));
        assert_true(placed.width <= 176 * POINT_PER_MM + 1e-6 && placed.height <= height * POINT_PER_MM + 1e-6);
        struct draw_point a = isometric_point(0, 0, 0), b = isometric_point(0, 1, 0);
        double cross = (d.arrows[0].to.x - d.arrows[0].from.x) * (b.y - a.y) -
                       (d.arrows[0].to.y - d.arrows[0].from.y) * (b.x - a.x);
        assert_within(cross, 0, 1e-6);
        assert_true(d.arrows[0].to.y > d.arrows[0].from.y);
        text_free(&problems);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Lengths along the three axes are alike: ISO 5456-3, isometric axonometry. */
static void test_isometric_axes_have_one_scale(void **state)
{
    (void)state;
    struct draw_point x = isometric_point(1, 0, 0), v = isometric_point(0, 1, 0), z = isometric_point(0, 0, 1);
    assert_within(hypot(x.x, x.y), 1, 1e-12);
    assert_within(hypot(v.x, v.y), 1, 1e-12);
    assert_within(hypot(z.x, z.y), 1, 1e-12);
    assert_within(x.x * v.x + x.y * v.y, 0.5, 1e-12);  /* 60 degrees between x and v, */
    assert_within(v.x * z.x + v.y * z.y, 0.5, 1e-12);  /* and between v and z; */
    assert_within(x.x * z.x + x.y * z.y, -0.5, 1e-12); /* 120 between x and z */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_box_is_painted_over_one_before_it),
        cmocka_unit_test(test_every_part_is_named_once_where_it_is_seen),
        cmocka_unit_test(test_pictorial_keeps_the_rules_on_paper),
        cmocka_unit_test(test_isometric_axes_have_one_scale),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
