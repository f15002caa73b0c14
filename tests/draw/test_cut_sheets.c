/* Drawings of cut sheets: no text on a line or on another, every piece and cut there, for random lists. */
#include "draw/check.h"

#include "stock/cut_job.h"

#include <stdlib.h>
#include <string.h>

enum { LISTS = 40 };

static size_t count_labels(const struct drawing *d, bool ringed)
{
    size_t n = 0;
    for (size_t i = 0; i < d->n_labels; i++)
        n += (d->labels[i].ring != RING_NONE) == ringed;
    return n;
}

static size_t count_cuts(const struct cutting_stock *s, size_t sheet)
{
    size_t n = 0;
    for (size_t i = 0; i < s->n_cuts; i++)
        n += s->cuts[i].sheet == (int)sheet;
    return n;
}

/* Heights and widths [pt] as on the build sheet: half a page and a whole one, 8.5 pt text. */
static void check_drawing(const struct faces *faces, const struct cutting_stock *s, size_t sheet, unsigned seed)
{
    static const double boxes[][2] = {{240, 220}, {510, 340}};
    bool small = s->sheets[sheet].n_pieces <= 4;
    for (size_t i = small ? 0 : 1; i < 2; i++) {
        struct pool pool = {0};
        struct drawing d;
        struct placed_drawing placed;
        struct text problems = {0};
        draw_cut_sheet(s, sheet, UNITS_MM, &pool, &d);
        assert_int_equal(count_labels(&d, true), count_cuts(s, sheet));
        assert_true(count_labels(&d, false) >= s->sheets[sheet].n_pieces);
        draw_place(&d, faces, boxes[i][0], boxes[i][1], 8.5, &pool, &placed);
        if (placed.n_labels != d.n_labels)
            fail_msg("list %u, %s, sheet %zu: %zu of %zu labels", seed, s->stock->name, sheet + 1, placed.n_labels, d.n_labels);
        if (draw_check(&placed, faces, &problems))
            fail_msg("list %u, %s, sheet %zu: %s", seed, s->stock->name, sheet + 1, text_string(&problems));
        text_free(&problems);
        pool_free(&pool);
    }
}

static void test_draw_cut_sheet_keeps_texts_free_in_random_lists(void **state)
{
    const struct faces *faces = *state;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        struct cut_job *j = cut_job_of_list(seed);
        for (size_t i = 0; i < j->cutting.n_stocks; i++)
            for (size_t k = 0; k < j->cutting.stocks[i].n_sheets; k++)
                check_drawing(faces, &j->cutting.stocks[i], k, seed);
        cut_job_free(j);
    }
}

/* Every shape lies on the sheet, and pieces, rests and kerfs cover it: areas sum up to it. */
static void test_draw_cut_sheet_covers_the_sheet(void **state)
{
    (void)state;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        struct cut_job *j = cut_job_of_list(seed);
        for (size_t i = 0; i < j->cutting.n_stocks; i++)
            for (size_t k = 0; k < j->cutting.stocks[i].n_sheets; k++) {
                struct pool pool = {0};
                struct drawing d;
                double sum = 0, whole = 0;
                draw_cut_sheet(&j->cutting.stocks[i], k, UNITS_MM, &pool, &d);
                for (size_t n = 0; n < d.n_shapes; n++) {
                    const struct draw_point *p = d.shapes[n].points;
                    double area = (p[2].x - p[0].x) * (p[2].y - p[0].y);
                    if (n == 0)
                        whole = area;
                    else
                        sum += area;
                    assert_true(p[0].x >= -1e-6 && p[0].y >= -1e-6 && p[2].x <= d.shapes[0].points[2].x + 1e-6 &&
                                p[2].y <= d.shapes[0].points[2].y + 1e-6);
                }
                assert_close(sum, whole, 1e-6);
                pool_free(&pool);
            }
        cut_job_free(j);
    }
}

static int open_faces(void **state)
{
    *state = type_open();
    return 0;
}

static int close_faces(void **state)
{
    type_close(*state);
    return 0;
}

/* Pieces too small for their texts: what finds no room is left to the table. The search for it ends, and the sheet is drawn as
   large as its box allows, not at the smallest scale. */
static void test_draw_cut_sheet_of_a_hundred_small_pieces(void **state)
{
    struct text yaml = {0};
    struct pool pool = {0};
    struct drawing d;
    struct placed_drawing placed;
    text_add(&yaml, "fettle: 1\njob: {number: A, title: B}\nunits: mm\nsaw: {blade: {kerf: 2.4}}\n"
                    "stock:\n  ply: {material: plywood, thickness: 12, sheet: [1220, 610]}\n"
                    "jig:\n  kind: parts\n  parts: [{name: a, stock: ply, length: 50, width: 20, quantity: 100}]\n");
    struct cut_job *j = cut_job_make(text_string(&yaml));
    draw_cut_sheet(&j->cutting.stocks[0], 0, UNITS_MM, &pool, &d);
    draw_place(&d, *state, 510, 340, 8.5, &pool, &placed);
    assert_true(placed.width > 0.7 * 510 && placed.width <= 510);
    assert_true(placed.height <= 340);
    pool_free(&pool);
    text_free(&yaml);
    cut_job_free(j);
}

/* The longest leader that ends in an arrow head: it names a cut. */
static double longest_to_a_cut(const struct placed_drawing *placed)
{
    double longest = 0;
    for (size_t i = 0; i < placed->inks.n; i++)
        for (size_t k = 0; k < placed->inks.n; k++) {
            const struct ink_path *head = &placed->inks.list[i].as.path, *line = &placed->inks.list[k].as.path;
            if (placed->inks.list[i].kind == INK_PATH && placed->inks.list[k].kind == INK_PATH && head->fill && head->n == 4 &&
                line->n == 2 && hypot(line->ops[1].x - head->ops[0].x, line->ops[1].y - head->ops[0].y) < 1e-6)
                longest = fmax(longest, hypot(line->ops[0].x - line->ops[1].x, line->ops[0].y - line->ops[1].y));
        }
    return longest;
}

/* Cuts between pieces too small for a ring: their numbers stand beside them, before the letters of the pieces there take the
   room, and a letter gives way within its piece. */
static void test_draw_cut_sheet_keeps_numbers_at_their_cuts(void **state)
{
    struct text yaml = {0};
    struct pool pool = {0};
    struct drawing d;
    struct placed_drawing placed;
    text_add(&yaml, "fettle: 1\njob: {number: A, title: B}\nunits: mm\nsaw: {blade: {kerf: 2.8}}\n"
                    "stock:\n  ply: {material: plywood, thickness: 18, sheet: [1250, 625]}\n"
                    "jig:\n  kind: parts\n  parts:\n"
                    "    - {name: b, stock: ply, length: 760, width: 100, quantity: 2}\n"
                    "    - {name: c, stock: ply, length: 600, width: 100}\n"
                    "    - {name: d, stock: ply, length: 100, width: 100, quantity: 5}\n"
                    "    - {name: h, stock: ply, length: 80, width: 69}\n"
                    "    - {name: j, stock: ply, length: 115, width: 40}\n"
                    "    - {name: i, stock: ply, length: 80, width: 40}\n");
    struct cut_job *j = cut_job_make(text_string(&yaml));
    draw_cut_sheet(&j->cutting.stocks[0], 0, UNITS_MM, &pool, &d);
    draw_place(&d, *state, 480, 300, 8.5, &pool, &placed);
    assert_int_equal(placed.n_labels, d.n_labels);
    double longest = longest_to_a_cut(&placed);
    assert_true(longest > 0 && longest < 30); /* 24 pt; 70 pt where letters choose first */
    pool_free(&pool);
    text_free(&yaml);
    cut_job_free(j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_draw_cut_sheet_keeps_texts_free_in_random_lists),
        cmocka_unit_test(test_draw_cut_sheet_covers_the_sheet),
        cmocka_unit_test(test_draw_cut_sheet_of_a_hundred_small_pieces),
        cmocka_unit_test(test_draw_cut_sheet_keeps_numbers_at_their_cuts),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
