/* Pictures of the five-cut test, of the fence's adjustment, and the history chart. */
#include "close.h"

#include "draw/check.h"
#include "draw/place.h"
#include "sample_plan.h"
#include "words.h"

#include <string.h>

static struct faces *faces;

static void check_placed(const struct drawing *d, double width_mm, double height_mm)
{
    struct pool pool = {0};
    struct text problems = {0};
    struct placed_drawing placed;
    draw_place(d, faces, width_mm * POINT_PER_MM, height_mm * POINT_PER_MM, 9, &pool, &placed);
    size_t n = draw_check(&placed, faces, &problems);
    if (n)
        print_error("\"%s\"\n%s", d->title, text_string(&problems));
    assert_int_equal(n, 0);
    assert_true(placed.width <= width_mm * POINT_PER_MM + 1e-6 && placed.height <= height_mm * POINT_PER_MM + 1e-6);
    text_free(&problems);
    pool_free(&pool);
}

static const struct draw_label *find_label(const struct drawing *d, const char *text)
{
    for (size_t i = 0; i < d->n_labels; i++)
        if (strcmp(d->labels[i].text, text) == 0)
            return &d->labels[i];
    return NULL;
}

static void sides(struct plan *plan, struct proof *proof, enum fence_side fence, enum side offcut)
{
    struct sample a = SAMPLE_WORKED;
    a.side = fence;
    sample_plan_of(&a, plan);
    *proof = (struct proof){.reckoner = {.has = true, .length = 388, .fence_side = fence, .offcut = offcut}};
}

/* The four combinations of the job-file reference: clockwise for (near, right) and (far, left). */
static void test_board_turns_as_the_sides_demand(void **state)
{
    (void)state;
    static const struct {
        enum fence_side fence;
        enum side offcut;
        bool clockwise;
    } rows[] = {{FENCE_NEAR, SIDE_RIGHT, true},
                {FENCE_FAR, SIDE_LEFT, true},
                {FENCE_NEAR, SIDE_LEFT, false},
                {FENCE_FAR, SIDE_RIGHT, false}};
    for (size_t i = 0; i < 4; i++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing d;
        sides(&plan, &proof, rows[i].fence, rows[i].offcut);
        assert_true(draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, 0, UNITS_MM, &pool, &d));
        assert_int_equal(find_label(&d, words_get("draw.clockwise")) != NULL, rows[i].clockwise);
        assert_int_equal(find_label(&d, words_get("draw.counter_clockwise")) != NULL, !rows[i].clockwise);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* The place that edge 1 has before the turn goes, turned a quarter about the board's middle by the word in the picture,
   to the fence: checked by turning its number's place with a matrix and comparing with the next picture. */
static void test_fresh_edge_goes_to_the_fence(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing before, after;
        sides(&plan, &proof, c % 2 ? FENCE_FAR : FENCE_NEAR, c / 2 ? SIDE_LEFT : SIDE_RIGHT);
        draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, 0, UNITS_MM, &pool, &before);
        draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, 1, UNITS_MM, &pool, &after);
        struct draw_point at[4], next[4], middle = {0, 0};
        for (int e = 0; e < 4; e++) {
            char name[2] = {(char)('1' + e), 0};
            at[e] = find_label(&before, name)->at;
            next[e] = find_label(&after, name)->at;
            middle.x += at[e].x / 4, middle.y += at[e].y / 4;
        }
        double turn =
            find_label(&before, words_get("draw.clockwise")) ? -1 : 1; /* a quarter, counter-clockwise positive */
        for (int e = 0; e < 4; e++) {
            double x = at[e].x - middle.x, y = at[e].y - middle.y, tx = -turn * y, ty = turn * x;
            /* the board is not square: the direction counts, not the distance */
            double nx = next[e].x - middle.x, ny = next[e].y - middle.y;
            assert_true((tx * nx + ty * ny) / (hypot(tx, ty) * hypot(nx, ny)) > 0.95);
        }
        double fence = c % 2 ? 1 : -1; /* where the fence lies in the picture, up or down */
        assert_true(fence * (next[0].y - middle.y) > 10);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Fence end next to the fence, far end away from it, on the offcut's side. */
static void test_strip_ends_are_named_where_they_lie(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing d;
        sides(&plan, &proof, c % 2 ? FENCE_FAR : FENCE_NEAR, c / 2 ? SIDE_LEFT : SIDE_RIGHT);
        draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, 2, UNITS_MM, &pool, &d);
        const struct draw_label *fence = find_label(&d, words_get("draw.fence_end")),
                                *far = find_label(&d, words_get("draw.far_end"));
        assert_true((c % 2 ? -1 : 1) * (far->at.y - fence->at.y) > 30); /* the fence lies at y 0 */
        assert_true(fabs(fence->at.y) < fabs(far->at.y));
        assert_true((c / 2 ? -1 : 1) * fence->at.x > 0);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* The cuts stand in a row, as wide as the page, and are of one size: no name makes one of them smaller to find room. */
static void check_row_of_cuts(const struct plan *plan, const struct proof *proof)
{
    double least = INFINITY, most = 0;
    for (int step = 0; step < 3; step++) {
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        assert_true(draw_test_picture(plan, proof, METHOD_FIVE_CUT, step, UNITS_MM, &pool, &d));
        draw_place(&d, faces, 52 * POINT_PER_MM, 38 * POINT_PER_MM, 10, &pool, &placed);
        least = fmin(least, placed.scale);
        most = fmax(most, placed.scale);
        pool_free(&pool);
    }
    assert_true(least > 0.9 * most);
}

/* At the smallest place that a picture has, a third of a page: "fence" stands in the fence, the first shape. */
static void check_fence_label(const struct plan *plan, const struct proof *proof)
{
    for (int step = 0; step < 3; step++) {
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        assert_true(draw_test_picture(plan, proof, METHOD_FIVE_CUT, step, UNITS_MM, &pool, &d));
        draw_place(&d, faces, 52 * POINT_PER_MM, 40 * POINT_PER_MM, 10, &pool, &placed);
        double bar[4] = {0}, text[4];
        for (size_t i = 0, filled = 0; i < placed.inks.n; i++) {
            if (placed.inks.list[i].kind == INK_PATH && placed.inks.list[i].as.path.fill && filled++ == 0)
                ink_box(&placed.inks.list[i], faces, bar);
            if (placed.inks.list[i].kind != INK_TEXT || strcmp(placed.inks.list[i].as.text.s, words_get("draw.fence")) != 0)
                continue;
            ink_box(&placed.inks.list[i], faces, text);
            assert_true(text[1] > bar[1] && text[3] < bar[3] && text[0] > bar[0] && text[2] < bar[2]);
        }
        pool_free(&pool);
    }
}

/* A board 388 + 40 long, drawn 98 long; the strip 75 to either side of the blade: 2 x 75 x 98 / 428 = 34.3 wide. */
static void test_the_strip_for_no_hands_is_to_the_boards_scale_and_named(void **state)
{
    (void)state;
    for (int step = 0; step < 3; step++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing d;
        double low = INFINITY, high = -INFINITY;
        sides(&plan, &proof, FENCE_NEAR, SIDE_RIGHT);
        draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, step, UNITS_MM, &pool, &d);
        for (size_t i = 0; i < d.n_shapes; i++)
            for (size_t k = 0; d.shapes[i].fill == FILL_KEEP_OUT && k < d.shapes[i].n; k++)
                low = fmin(low, d.shapes[i].points[k].x), high = fmax(high, d.shapes[i].points[k].x);
        assert_within(high - low, 34.3, 0.1);
        assert_within(high + low, 0, 1e-9);
        const struct draw_label *name = find_label(&d, words_get("draw.no_hands"));
        assert_non_null(name);
        assert_true(name->pointed && name->at.x > low && name->at.x < high);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* Each number of an edge stands on a side of the board or of the strip that falls off it. */
static void test_edge_numbers_stand_on_their_edges(void **state)
{
    (void)state;
    for (int c = 0; c < 12; c++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing d;
        sides(&plan, &proof, c % 2 ? FENCE_FAR : FENCE_NEAR, c / 2 % 2 ? SIDE_LEFT : SIDE_RIGHT);
        draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, c / 4, UNITS_MM, &pool, &d);
        for (int e = 0; e < 4; e++) {
            char name[2] = {(char)('1' + e), 0};
            const struct draw_label *number = find_label(&d, name);
            bool on_edge = false;
            assert_true(number->ring == RING_ROUND);
            for (size_t i = 0; i < d.n_shapes; i++)
                for (size_t k = 0; d.shapes[i].fill == FILL_TINT && k < 4; k++) {
                    struct draw_point a = d.shapes[i].points[k], b = d.shapes[i].points[(k + 1) % 4];
                    double along = hypot(number->at.x - a.x, number->at.y - a.y) + hypot(number->at.x - b.x, number->at.y - b.y);
                    on_edge = on_edge || along < hypot(b.x - a.x, b.y - a.y) + 1e-6;
                }
            assert_true(on_edge);
        }
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

static void test_pictures_keep_the_rules_and_end(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct plan plan;
        struct proof proof;
        struct pool pool = {0};
        struct drawing d;
        int step = 0;
        sides(&plan, &proof, c % 2 ? FENCE_FAR : FENCE_NEAR, c / 2 ? SIDE_LEFT : SIDE_RIGHT);
        for (; draw_test_picture(&plan, &proof, METHOD_FIVE_CUT, step, UNITS_MM, &pool, &d); step++) {
            assert_false(d.to_scale);
            assert_null(strchr(d.title, '?'));
            check_placed(&d, 85, 60);
            check_placed(&d, 176, 90);
        }
        assert_int_equal(step, 4);
        check_fence_label(&plan, &proof);
        check_row_of_cuts(&plan, &proof);
        assert_string_equal(d.dims[0].text, "388"); /* the last picture: marks L apart */
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

struct history_of {
    struct job job;
    struct proof proof;
    struct job_test tests[400];
    struct proof_test results[400];
};

/* Errors and uncertainties in mm over 300; tolerance 0.10. */
static void add_test(struct history_of *h, const char *date, double error, double u)
{
    struct job_test *t = &h->tests[h->job.n_tests++];
    struct proof_test *r = &h->results[h->proof.n_tests++];
    *t = (struct job_test){.method = METHOD_FIVE_CUT};
    assert_true(date_parse(date, &t->date));
    *r = (struct proof_test){.job = t,
                             .method = METHOD_FIVE_CUT,
                             .unit = "rad",
                             .error = error / 300,
                             .error_over = error,
                             .over_length = 300};
    r->expanded_uncertainty = u / 300;
    r->tolerance = 0.10 / 300;
    h->job.tests = h->tests;
    h->proof.tests = h->results;
}

static void set_move(struct history_of *h, enum toward toward)
{
    struct proof_test *last = &h->results[h->proof.n_tests - 1];
    last->counts = true;
    last->has_move = true;
    last->move = (struct move){.advice = ADVICE_MOVE, .toward = toward, .distance = 0.085};
}

static struct history_of work;

static void test_fence_adjustment_points_the_way_of_the_move(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        struct sample a = SAMPLE_WORKED;
        bool away = c % 2, left = c / 2;
        if (left)
            a.pivot_x = 250, a.moving_x = -310;
        sample_plan_of(&a, &plan);
        work = (struct history_of){0};
        add_test(&work, "2026-11-02", 0.042, 0.005);
        set_move(&work, away ? TOWARD_AWAY : TOWARD_OPERATOR);
        draw_fence_adjustment(&plan, &work.proof, UNITS_MM, &pool, &d);
        assert_int_equal(d.n_arrows, 1);
        assert_true((away ? 1 : -1) * (d.arrows[0].to.y - d.arrows[0].from.y) > 5);
        assert_non_null(find_label(&d, words_get(away ? "draw.leaf_after" : "draw.leaf_before")));
        /* the gauge mark, a line across the fence's top, on its side of the pivot's circle, the only black shape with many
           corners; the arrow at the mark, off the fence and off the block */
        double gauge = 0, pivot = 0;
        for (size_t i = 0; i < d.n_shapes; i++) {
            if (d.shapes[i].n == 2 && d.shapes[i].line == LINE_VISIBLE)
                gauge = d.shapes[i].points[0].x;
            if (d.shapes[i].n > 20 && d.shapes[i].fill == FILL_BLACK)
                pivot = d.shapes[i].points[d.shapes[i].n / 4].x;
        }
        assert_true((left ? -1 : 1) * (gauge - pivot) > 100);
        assert_close(d.arrows[0].from.x, gauge, 1e-9);
        assert_true(fmin(d.arrows[0].from.y, d.arrows[0].to.y) > d.shapes[0].points[2].y);
        check_placed(&d, 110, 60);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

/* The block stands at the outer face: beyond a far fence, so that the leaf goes in first for a move away. */
static void test_fence_adjustment_of_a_far_fence_is_mirrored(void **state)
{
    (void)state;
    for (int far = 0; far < 2; far++) {
        struct plan plan;
        struct pool pool = {0};
        struct drawing d;
        struct sample a = SAMPLE_WORKED;
        sample_plan_of(&a, &plan);
        plan.setting.fence_side = far ? FENCE_FAR : FENCE_NEAR;
        work = (struct history_of){0};
        add_test(&work, "2026-11-02", 0.042, 0.005);
        set_move(&work, TOWARD_AWAY);
        draw_fence_adjustment(&plan, &work.proof, UNITS_MM, &pool, &d);
        const struct draw_label *block = find_label(&d, words_get("draw.block"));
        const struct draw_label *fence = find_label(&d, "B\xC2\xA0reference fence");
        assert_non_null(block);
        assert_non_null(fence);
        assert_true((far ? 1 : -1) * (block->at.y - fence->at.y) > 10);
        assert_non_null(find_label(&d, words_get(far ? "draw.leaf_before" : "draw.leaf_after")));
        check_placed(&d, 110, 60);
        pool_free(&pool);
        pool_free(&plan.pool);
    }
}

static void test_fence_adjustment_without_a_move_shows_both_ways(void **state)
{
    (void)state;
    struct plan plan;
    struct pool pool = {0};
    struct drawing d;
    sample_plan(&plan);
    work = (struct history_of){0};
    draw_fence_adjustment(&plan, &work.proof, UNITS_MM, &pool, &d);
    assert_int_equal(d.n_arrows, 2);
    check_placed(&d, 110, 60);
    pool_free(&pool);
    pool_free(&plan.pool);
}

/* A bow is a size: the band stands on 0, and no figure has a sign. */
static void test_history_of_sizes_has_no_minus_side(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d;
    work = (struct history_of){0};
    add_test(&work, "2026-10-03", 0.225, 0.038);
    add_test(&work, "2026-10-10", 0.050, 0.043);
    for (size_t i = 0; i < work.proof.n_tests; i++)
        work.results[i].method = work.tests[i].method = METHOD_FENCE_STRAIGHT;
    assert_true(draw_history(&work.job, &work.proof, METHOD_FENCE_STRAIGHT, &pool, &d));
    for (size_t i = 0; i < d.n_labels; i++)
        assert_true(*d.labels[i].text != '+' && strncmp(d.labels[i].text, MINUS, strlen(MINUS)) != 0);
    assert_non_null(find_label(&d, "0.100"));
    assert_non_null(find_label(&d, "0.225"));
    pool_free(&pool);
}

static void test_history_needs_two_tests(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d;
    work = (struct history_of){0};
    assert_false(draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d));
    add_test(&work, "2026-11-02", 0.042, 0.005);
    assert_false(draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d));
    pool_free(&pool);
}

static double shape_middle_y(const struct draw_shape *s)
{
    struct polygon p = polygon_of(s->points, s->n);
    return (p.box.y0 + p.box.y1) / 2;
}

/* Points stand at error / tolerance of the band's half width above its middle; bars reach as far as U. */
static void test_history_is_drawn_to_its_own_scale(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d;
    work = (struct history_of){0};
    add_test(&work, "2026-02-03", -0.061, 0.02);
    work.tests[0].moved = (struct job_moved){.given = true, .toward = TOWARD_AWAY, .distance = {.v = 0.15}};
    add_test(&work, "2026-05-05", 0.012, 0.006);
    add_test(&work, "2026-11-02", 0.042, 0.005);
    assert_true(draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d));
    struct polygon band = polygon_of(d.shapes[0].points, d.shapes[0].n);
    assert_int_equal(d.shapes[0].fill, FILL_TINT);
    double zero = (band.box.y0 + band.box.y1) / 2, half = (band.box.y1 - band.box.y0) / 2, last_x = -1;
    static const double errors[] = {-0.061, 0.012, 0.042}, us[] = {0.02, 0.006, 0.005};
    int n = 0;
    for (size_t i = 0; i < d.n_shapes; i++) {
        if (d.shapes[i].fill != FILL_BLACK)
            continue;
        struct polygon p = polygon_of(d.shapes[i].points, d.shapes[i].n);
        assert_within(shape_middle_y(&d.shapes[i]), zero + half * errors[n] / 0.10, 1e-6);
        const struct draw_shape *bar = &d.shapes[i - 3];
        assert_within(fabs(bar->points[1].y - bar->points[0].y), 2 * half * us[n] / 0.10, 1e-6);
        assert_true(p.box.x0 > last_x);
        last_x = p.box.x0;
        n++;
    }
    assert_int_equal(n, 3);
    struct saying moved = {.key = "draw.moved_away", .arg = {SAY_ARG("distance", SAY_MOVE, 0.15)}};
    struct text text = {0};
    words_put_plain(&text, &moved, UNITS_MM);
    assert_non_null(find_label(&d, text_string(&text)));
    assert_non_null(find_label(&d, "2026-02-03"));
    text_free(&text);
    check_placed(&d, 176, 55);
    pool_free(&pool);
}

/* Where a word's line stands, from the left. */
static double x_of_word(const struct drawing *d, const char *word)
{
    const struct draw_label *label = find_label(d, word);
    assert_non_null(label);
    for (size_t i = 0; i < d->n_shapes; i++)
        if (d->shapes[i].n == 2 && d->shapes[i].line == LINE_HIDDEN && d->shapes[i].points[0].x == label->at.x &&
            d->shapes[i].points[1].x == label->at.x)
            return label->at.x;
    fail_msg("no line at \"%s\"", word);
    return NAN;
}

static double x_of_point(const struct drawing *d, int which)
{
    for (size_t i = 0; i < d->n_shapes; i++) {
        struct polygon p = polygon_of(d->shapes[i].points, d->shapes[i].n);
        if (d->shapes[i].fill == FILL_BLACK && which-- == 0)
            return (p.box.x0 + p.box.x1) / 2;
    }
    return NAN;
}

/* A move stands after its own test and before the next; a change between the tests round its date, one on a test's day
   before it; what ends other methods' proofs, or was done before the first test, is not shown. */
static void test_history_moves_and_changes_stand_between_their_tests(void **state)
{
    (void)state;
    struct pool pool = {0};
    struct drawing d;
    struct job_change changes[] = {{.what = {.s = "before"}},
                                   {.what = {.s = "new blade"}},
                                   {.what = {.s = "same day"}},
                                   {.what = {.s = "other method"}}};
    static const char *const dates[] = {"2026-01-01", "2026-03-05", "2026-05-05", "2026-06-01"};
    work = (struct history_of){0};
    add_test(&work, "2026-02-03", -0.061, 0.02);
    add_test(&work, "2026-05-05", 0.012, 0.006);
    work.tests[1].moved = (struct job_moved){.given = true, .toward = TOWARD_OPERATOR, .distance = {.v = 0.15}};
    add_test(&work, "2026-08-02", 0.042, 0.005);
    for (size_t i = 0; i < 4; i++) {
        assert_true(date_parse(dates[i], &changes[i].date));
        changes[i].ends[i == 3 ? METHOD_FLIP : METHOD_FIVE_CUT] = true;
    }
    work.job.changes = changes;
    work.job.n_changes = 4;
    assert_true(draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d));
    struct saying moved = {.key = "draw.moved_toward", .arg = {SAY_ARG("distance", SAY_MOVE, 0.15)}};
    struct text text = {0};
    words_put_plain(&text, &moved, UNITS_MM);
    double move = x_of_word(&d, text_string(&text)), blade = x_of_word(&d, "new blade"),
           day = x_of_word(&d, "same day");
    assert_true(x_of_point(&d, 0) < blade && blade < x_of_point(&d, 1));
    assert_true(x_of_point(&d, 1) < move && move < x_of_point(&d, 2));
    assert_true(x_of_point(&d, 0) < day && day < x_of_point(&d, 1));
    assert_null(find_label(&d, "before"));
    assert_null(find_label(&d, "other method"));
    check_placed(&d, 176, 55);
    text_free(&text);
    pool_free(&pool);
}

/* How far pieces of one setting differ is no error: it stands on no chart of errors, nor errors on its chart. */
static void test_history_keeps_spreads_and_errors_apart(void **state)
{
    (void)state;
    for (int last_is_spread = 0; last_is_spread < 2; last_is_spread++) {
        struct pool pool = {0};
        struct drawing d;
        work = (struct history_of){0};
        add_test(&work, "2026-02-03", 0.061, 0.02);
        add_test(&work, "2026-03-03", 0.071, 0.02);
        add_test(&work, "2026-05-05", 0.012, 0.006);
        work.results[2].is_spread = !last_is_spread;
        add_test(&work, "2026-08-02", 0.042, 0.005);
        work.results[3].is_spread = last_is_spread;
        bool drawn = draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d);
        assert_int_equal(drawn, !last_is_spread); /* a spread would stand alone */
        if (drawn) {
            assert_null(find_label(&d, "2026-05-05"));
            assert_non_null(find_label(&d, "2026-08-02"));
        }
        pool_free(&pool);
    }
}

/* Two tests a day before and after a move, and four hundred of them: still no text on a line. */
static void test_history_crowded(void **state)
{
    (void)state;
    for (int most = 6; most <= 400; most = most * 3 + 7) {
        struct pool pool = {0};
        struct drawing d;
        struct job_change change = {.what = {.s = "new blade"}, .ends = {true}};
        work = (struct history_of){0};
        for (int i = 0; i < most; i++) {
            char date[11];
            date_print(date_from_days(20000 + (i / 2) * 11), date);
            add_test(&work, date, 0.09 * sin(i * 1.7), 0.004 + 0.01 * (i % 3));
            if (i % 9 == 4)
                work.tests[i].moved =
                    (struct job_moved){.given = true, .toward = TOWARD_OPERATOR, .distance = {.v = 0.1}};
        }
        change.date = work.tests[most / 2].date;
        work.job.changes = &change;
        work.job.n_changes = 1;
        work.proof.history[METHOD_FIVE_CUT] = (struct history){.has_drift = true, .drift_per_day = 1e-6};
        assert_true(draw_history(&work.job, &work.proof, METHOD_FIVE_CUT, &pool, &d));
        check_placed(&d, 176, 60);
        pool_free(&pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_board_turns_as_the_sides_demand),
        cmocka_unit_test(test_fresh_edge_goes_to_the_fence),
        cmocka_unit_test(test_strip_ends_are_named_where_they_lie),
        cmocka_unit_test(test_the_strip_for_no_hands_is_to_the_boards_scale_and_named),
        cmocka_unit_test(test_edge_numbers_stand_on_their_edges),
        cmocka_unit_test(test_pictures_keep_the_rules_and_end),
        cmocka_unit_test(test_fence_adjustment_points_the_way_of_the_move),
        cmocka_unit_test(test_fence_adjustment_of_a_far_fence_is_mirrored),
        cmocka_unit_test(test_fence_adjustment_without_a_move_shows_both_ways),
        cmocka_unit_test(test_history_of_sizes_has_no_minus_side),
        cmocka_unit_test(test_history_needs_two_tests),
        cmocka_unit_test(test_history_is_drawn_to_its_own_scale),
        cmocka_unit_test(test_history_moves_and_changes_stand_between_their_tests),
        cmocka_unit_test(test_history_keeps_spreads_and_errors_apart),
        cmocka_unit_test(test_history_crowded),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
