/* Drawings of the flip stop: the pieces as large on paper as they are, hinge and hole at the end toward the blade, the
   tape's zero where the sums have it, on either side of the blade, with the fence near or far. */
#include "close.h"

#include "flip_sample.h"
#include "random_sled.h"
#include "room.h"
#include "words.h"

#include <string.h>

static struct faces *faces;

struct made {
    struct plan plan;
    struct pool pool;
    struct drawing pieces, section, reach;
};

static void make(const struct sample *a, enum side side, bool rebate, enum units units, struct made *m)
{
    *m = (struct made){.pool = {0}};
    sample_plan_of(a, &m->plan);
    sample_flip_stop(&m->plan, side, rebate);
    draw_flip_pieces(&m->plan, units, &m->pool, &m->pieces);
    draw_flip_section(&m->plan, units, &m->pool, &m->section);
    draw_flip_reach(&m->plan, units, &m->pool, &m->reach);
}

static void free_made(struct made *m)
{
    pool_free(&m->pool);
    pool_free(&m->plan.pool);
}

/* Boxes of a drawing that are as wide and as high. */
static size_t count_boxes(const struct drawing *d, double wide, double high, struct rect *last)
{
    size_t n = 0;
    for (size_t i = 0; i < d->n_shapes; i++) {
        struct polygon p = polygon_of(d->shapes[i].points, d->shapes[i].n);
        if (fabs(p.box.x1 - p.box.x0 - wide) > 1e-6 || fabs(p.box.y1 - p.box.y0 - high) > 1e-6)
            continue;
        *last = p.box;
        n++;
    }
    return n;
}

static void test_pieces_have_the_sizes_of_the_parts(void **state)
{
    (void)state;
    for (int c = 0; c < 8; c++) {
        struct sample a = SAMPLE_WORKED;
        struct made m;
        struct rect body, cheek, arm, hole, leaf;
        bool rebate = c & 4;
        enum side side = c & 1 ? SIDE_RIGHT : SIDE_LEFT;
        a.side = c & 2 ? FENCE_FAR : FENCE_NEAR;
        make(&a, side, rebate, UNITS_MM, &m);
        double work = c & 2 ? -1 : 1; /* the working face, and the hinge on the body, lie away or toward */
        assert_int_equal(count_boxes(&m.pieces, 80, rebate ? 36 : 69, &body), 1);
        assert_int_equal(count_boxes(&m.pieces, 80, 40, &cheek), rebate ? 0 : 1);
        assert_int_equal(count_boxes(&m.pieces, 40, 115, &arm), 1); /* 100 + 18 - 3 */
        assert_int_equal(count_boxes(&m.pieces, 6.5, 6.5, &hole), 1);
        assert_int_equal(count_boxes(&m.pieces, 40, 1.5, &leaf), 1); /* on the arm's top end */
        assert_within(leaf.y0, arm.y1, 1e-9);
        assert_within(leaf.x0, arm.x0, 1e-9);
        assert_int_equal(count_boxes(&m.pieces, 40, 0.8 * 18, &leaf), 1); /* on the body */
        assert_within(work > 0 ? leaf.y1 : leaf.y0, work > 0 ? body.y1 : body.y0, 1e-9);
        assert_within(side == SIDE_LEFT ? leaf.x1 : leaf.x0, side == SIDE_LEFT ? body.x1 : body.x0, 1e-9);
        double hole_x = (hole.x0 + hole.x1) / 2, hole_y = (hole.y0 + hole.y1) / 2;
        assert_within(fabs(hole_x - (side == SIDE_LEFT ? body.x1 : body.x0)), rebate ? 60 : 40, 1e-9);
        if (rebate)
            assert_within(work > 0 ? body.y1 - hole_y : hole_y - body.y0, 27, 1e-9);
        else
            assert_within(cheek.y1 - hole_y, 20, 1e-9);
        double blade = m.pieces.arrows[0].to.x - m.pieces.arrows[0].from.x;
        assert_true(side == SIDE_LEFT ? blade > 0 : blade < 0);
        free_made(&m);
    }
}

static void test_pieces_are_as_long_on_paper_as_the_wood(void **state)
{
    (void)state;
    struct sample a = SAMPLE_WORKED;
    struct made m;
    struct placed_drawing placed;
    make(&a, SIDE_LEFT, false, UNITS_MM, &m);
    draw_place(&m.pieces, faces, 163 * POINT_PER_MM, 560, 10, &m.pool, &placed);
    assert_string_equal(placed.scale_text, "1 : 1");
    bool found = false;
    for (size_t i = 0; i < placed.inks.n; i++) {
        const struct ink_path *path = &placed.inks.list[i].as.path;
        struct rect r = RECT_EMPTY;
        for (size_t k = 0; placed.inks.list[i].kind == INK_PATH && k < path->n; k++)
            if (path->ops[k].verb != PATH_CLOSE)
                rect_add(&r, path->ops[k].x, path->ops[k].y);
        found = found || (fabs(r.x1 - r.x0 - 40 * 72 / 25.4) < 0.01 && fabs(r.y1 - r.y0 - 115 * 72 / 25.4) < 0.01);
    }
    assert_true(found); /* the arm */
    free_made(&m);
}

/* The kept piece runs from the kerf's edge to the arm; the zero is as far from the blade plane as the sums say, on the
   same side; the offcut lies on the other. */
static void test_reach_keeps_the_stop_on_the_kept_side(void **state)
{
    (void)state;
    for (int c = 0; c < 4; c++) {
        struct sample a = SAMPLE_WORKED;
        struct made m;
        struct rect piece;
        enum side side = c & 1 ? SIDE_RIGHT : SIDE_LEFT;
        double way = side == SIDE_LEFT ? -1 : 1;
        a.side = c & 2 ? FENCE_FAR : FENCE_NEAR;
        make(&a, side, false, UNITS_MM, &m);
        const struct plan_flip *f = &m.plan.sled.flip;
        assert_int_equal(count_boxes(&m.reach, (f->shortest + f->longest) / 2, 70, &piece), 1);
        assert_within(way > 0 ? piece.x0 : -piece.x1, 1.4, 1e-9);
        assert_true(c & 2 ? piece.y1 < a.base_depth : piece.y0 > 0);
        bool zero = false, longest = false;
        for (size_t i = 0; i < m.reach.n_dims; i++) {
            const struct draw_dim *d = &m.reach.dims[i];
            zero = zero || (strcmp(d->text, "81.4") == 0 && fabs(d->b.x - way * 81.4) < 1e-9 && d->a.x == 0);
            longest = longest || fabs(d->b.x - way * (1.4 + f->longest)) < 1e-9;
        }
        assert_true(zero && longest);
        for (size_t i = 0; i < m.reach.n_labels; i++)
            if (strcmp(m.reach.labels[i].text, words_get("draw.offcut")) == 0)
                assert_true(m.reach.labels[i].at.x * way < 0);
        free_made(&m);
    }
}

static void test_flip_drawings_have_room_on_the_page(void **state)
{
    (void)state;
    enum { CASES = 100 };
    uint64_t seed = 31;
    for (int i = 0; i < CASES; i++) {
        struct sample a = random_sled(&seed);
        struct made m;
        make(&a, i & 1 ? SIDE_LEFT : SIDE_RIGHT, i & 2, i % 5 == 4 ? UNITS_IN : UNITS_MM, &m);
        check_room(&m.pieces, faces, 162, 190, i); /* eleven of twelve columns on A4 */
        check_room(&m.section, faces, 71, 75, i);  /* five of twelve */
        check_room(&m.reach, faces, 176, 60, i);
        free_made(&m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pieces_have_the_sizes_of_the_parts),
        cmocka_unit_test(test_pieces_are_as_long_on_paper_as_the_wood),
        cmocka_unit_test(test_reach_keeps_the_stop_on_the_kept_side),
        cmocka_unit_test(test_flip_drawings_have_room_on_the_page),
    };
    faces = type_open();
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    type_close(faces);
    return failed;
}
