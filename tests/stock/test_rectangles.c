/* Rectangles from sheets: every layout judged by a checker of its own, few pieces against trying everything, open data. */
#include "stock/sheets.h"

#include "stock/bound.h"
#include "stock/exact.h"

#include "close.h"
#include "layout_checker.h"
#include "open_data.h"
#include "shop_lists.h"

#include <string.h>

enum { LISTS = 10000, SMALL_LISTS = 400, SHOP_LISTS = 200, SIDE_MOST = 9, OFFCUT_MISSED_PER_CENT = 5 };

/* ---- the checker ---- */

static void check_sheets(const struct sheets_task *t, const struct sheets_result *r, int64_t kerf)
{
    struct bin bins[2 * CHECKED_PIECES_MOST];
    bool used[2 * CHECKED_PIECES_MOST];
    int fresh = 0;
    for (int b = 0; b < r->layout.n_bins; b++)
        bins[b] = b < t->n_offcuts ? t->offcuts[b] : t->sheet;
    check_layout(&r->layout, t->pieces, t->n, bins, kerf, used);
    for (int b = t->n_offcuts; b < r->layout.n_bins; b++)
        fresh += used[b];
    assert_int_equal(fresh, r->fresh);
    assert_true(r->at_least <= r->fresh);
}

/* The checker itself: what it must refuse. */
static void test_checker_refuses_bad_layouts(void **state)
{
    (void)state;
    /* the pinwheel: five rectangles that no cut right across parts */
    struct rect wheel[] = {{0, 0, 20, 10}, {20, 0, 10, 20}, {10, 20, 20, 10}, {0, 10, 10, 20}, {10, 10, 10, 10}};
    struct rect near[] = {{0, 0, 10, 10}, {12, 0, 10, 10}};
    assert_true(rects_lie_inside(wheel, 5, 30, 30));
    assert_false(rects_lie_inside(wheel, 5, 30, 29));
    assert_true(rects_lie_apart(wheel, 5, 0));
    assert_false(rects_are_guillotine(wheel, 5, 0));
    assert_true(rects_are_guillotine(wheel, 4, 0) == false); /* the four arms alone are no better */
    assert_true(rects_are_guillotine(near, 2, 2));
    assert_true(rects_lie_apart(near, 2, 2));
    assert_false(rects_lie_apart(near, 2, 3));
    assert_false(rects_are_guillotine(near, 2, 3));
}

/* ---- random lists ---- */

static void draw_pieces(uint64_t *random, const struct sheets_task *t, struct piece *p, int turns)
{
    int64_t most_w = draw_number(random, 1, 3) == 1 ? t->sheet.w : t->sheet.w / 2, most_h = draw_number(random, 1, 3) == 1 ? t->sheet.h : t->sheet.h / 2;
    for (int i = 0; i < t->n; i++) {
        p[i] = (struct piece){draw_number(random, 5, most_w), draw_number(random, 5, most_h), turns == 2 || (turns == 1 && i % 2)};
        if (i > 0 && draw_number(random, 0, 2) == 0)
            p[i] = p[i - 1];
    }
}

static void test_sheets_pack_random_lists(void **state)
{
    (void)state;
    uint64_t random = 3;
    int unproven = 0, with_offcuts = 0, several = 0;
    for (int trial = 0; trial < LISTS; trial++) {
        struct piece p[24];
        struct bin offcuts[2];
        struct pool pool = {0};
        struct sheets_result r;
        int64_t kerf = draw_number(&random, 0, 4);
        struct sheets_task t = {p, (int)draw_number(&random, 1, trial % 50 ? 12 : 24), {draw_number(&random, 40, 300), draw_number(&random, 40, 300)}, offcuts,
                                (int)draw_number(&random, 0, 5) - 3, 1000};
        t.n_offcuts = t.n_offcuts < 0 ? 0 : t.n_offcuts;
        for (int i = 0; i < t.n_offcuts; i++)
            offcuts[i] = (struct bin){draw_number(&random, 10, t.sheet.w), draw_number(&random, 10, t.sheet.h)};
        draw_pieces(&random, &t, p, trial % 3);
        sheets_pack(&t, &pool, &r);
        check_sheets(&t, &r, kerf);
        unproven += r.fresh > r.at_least;
        with_offcuts += t.n_offcuts > 0;
        several += r.fresh > 1;
        pool_free(&pool);
    }
    print_message("%d lists: %d of several sheets, %d with offcuts, %d not proven\n", LISTS, several, with_offcuts, unproven);
    assert_true(with_offcuts > 2000 && several > 3000);
}

static void test_sheets_pack_twice_is_the_same(void **state)
{
    (void)state;
    uint64_t random = 5;
    for (int trial = 0; trial < 50; trial++) {
        struct piece p[20];
        struct pool pool = {0};
        struct sheets_result a, b;
        struct sheets_task t = {p, 20, {200, 120}, NULL, 0, 20000};
        draw_pieces(&random, &t, p, trial % 3);
        sheets_pack(&t, &pool, &a);
        sheets_pack(&t, &pool, &b);
        assert_int_equal(a.layout.n, b.layout.n);
        for (int i = 0; i < a.layout.n; i++) {
            const struct slab *x = &a.layout.slabs[i], *y = &b.layout.slabs[i];
            assert_true(x->kind == y->kind && x->piece == y->piece && x->turned == y->turned);
            assert_true(x->x == y->x && x->y == y->y && x->w == y->w && x->h == y->h);
        }
        pool_free(&pool);
    }
}

/* Turning is a chance, never a loss; and a bound with turning holds for the list without. */
static void test_sheets_pack_turning_is_never_worse(void **state)
{
    (void)state;
    uint64_t random = 9;
    int better = 0;
    for (int trial = 0; trial < 500; trial++) {
        struct piece p[16];
        struct pool pool = {0};
        struct sheets_result fixed, turning;
        struct sheets_task t = {p, (int)draw_number(&random, 2, 16), {draw_number(&random, 50, 200), draw_number(&random, 50, 200)}, NULL, 0, 2000};
        draw_pieces(&random, &t, p, 0);
        sheets_pack(&t, &pool, &fixed);
        for (int i = 0; i < t.n; i++)
            p[i].turns = true;
        sheets_pack(&t, &pool, &turning);
        check_sheets(&t, &turning, 0);
        assert_true(turning.fresh <= fixed.fresh);
        assert_true(turning.at_least <= fixed.fresh);
        better += turning.fresh < fixed.fresh;
        pool_free(&pool);
    }
    assert_true(better > 20);
}

/* What a shop cuts: nearly all is proven. The shares of larger lists, with all nodes: tests/bench. */
static void test_sheets_pack_proves_most_shop_lists(void **state)
{
    (void)state;
    uint64_t random = 11;
    int proven = 0, several = 0;
    for (int i = 0; i < SHOP_LISTS; i++) {
        struct shop_list l;
        struct pool pool = {0};
        struct sheets_result r;
        draw_shop_list(&l, (enum shop_list_kind)(i % SHOP_LIST_KINDS), (int)draw_number(&random, 5, 30), &random);
        struct sheets_task t = {l.pieces, l.n, l.sheet, l.offcuts, l.n_offcuts, 200000, NULL};
        sheets_pack(&t, &pool, &r);
        check_sheets(&t, &r, 0);
        proven += r.fresh == r.at_least;
        several += r.fresh > 1;
        pool_free(&pool);
    }
    print_message("%d of %d shop lists proven, %d of several sheets\n", proven, SHOP_LISTS, several);
    assert_true(several > SHOP_LISTS / 3 && proven > SHOP_LISTS * 19 / 20);
}

/* ---- few pieces, everything tried ---- */

/* Whether the pieces of a set can be sawn from w by h: every way to part the set, every place of the first cut. */
static bool can_be_sawn(const struct piece *p, unsigned set, int64_t w, int64_t h)
{
    int first = 0;
    if (set == 0)
        return true;
    while (!(set >> first & 1))
        first++;
    if (set == 1u << first)
        return bin_holds((struct bin){w, h}, &p[first]);
    for (unsigned a = (set - 1) & set; a; a = (a - 1) & set) {
        for (int64_t c = 1; c < w; c++)
            if (can_be_sawn(p, a, c, h) && can_be_sawn(p, set & ~a, w - c, h))
                return true;
        for (int64_t c = 1; c < h; c++)
            if (can_be_sawn(p, a, w, c) && can_be_sawn(p, set & ~a, w, h - c))
                return true;
    }
    return false;
}

/* Least number of sheets: the set that holds the first piece, then the rest. */
static int fewest_sheets(const struct piece *p, unsigned set, struct bin sheet, const bool *sawn)
{
    int best = 99;
    unsigned lowest = set & (~set + 1);
    if (set == 0)
        return 0;
    for (unsigned a = set; a; a = (a - 1) & set)
        if (a & lowest && sawn[a]) {
            int n = 1 + fewest_sheets(p, set & ~a, sheet, sawn);
            best = n < best ? n : best;
        }
    return best;
}

static void test_sheets_pack_few_pieces_as_by_trying_everything(void **state)
{
    (void)state;
    uint64_t random = 21;
    int above_area = 0;
    for (int trial = 0; trial < SMALL_LISTS; trial++) {
        struct piece p[5];
        bool sawn[32];
        struct pool pool = {0};
        struct sheets_result r;
        struct sheets_task t = {p, (int)draw_number(&random, 2, 5), {draw_number(&random, 4, 8), draw_number(&random, 4, 8)}, NULL, 0, 100000};
        int64_t area = 0;
        for (int i = 0; i < t.n; i++) {
            p[i] = (struct piece){draw_number(&random, 1, t.sheet.w), draw_number(&random, 1, t.sheet.h), draw_number(&random, 0, 1)};
            area += p[i].w * p[i].h;
        }
        for (unsigned set = 0; set < 1u << t.n; set++)
            sawn[set] = can_be_sawn(p, set, t.sheet.w, t.sheet.h);
        int fewest = fewest_sheets(p, (1u << t.n) - 1, t.sheet, sawn);
        sheets_pack(&t, &pool, &r);
        check_sheets(&t, &r, 0);
        assert_int_equal(r.fresh, fewest);
        assert_int_equal(r.at_least, fewest); /* proven, and the bound not above what there is */
        assert_true(bound_pieces(p, t.n, t.sheet) <= fewest);
        above_area += fewest > (int)((area + t.sheet.w * t.sheet.h - 1) / (t.sheet.w * t.sheet.h));
        pool_free(&pool);
    }
    assert_true(above_area > 50);
}

/* The largest rest that can be left in one piece where a set of pieces is sawn from w by h; -1: it cannot be. `known` holds
   what has been worked out, 1 more than it is; 0: not yet. */
static int64_t largest_rest(const struct piece *p, unsigned set, int w, int h, int64_t known[32][SIDE_MOST + 1][SIDE_MOST + 1])
{
    int64_t best = -1, *memo = &known[set][w][h];
    if (set == 0)
        return w * h;
    if (*memo)
        return *memo - 2;
    for (int i = 0; set == (set & (~set + 1)) && i < 5; i++)
        if (set == 1u << i && ((p[i].w == w && p[i].h == h) || (p[i].turns && p[i].h == w && p[i].w == h)))
            best = 0;
    for (unsigned a = set;; a = (a - 1) & set) {
        for (int c = 1; c < w + h - 1; c++) {
            bool x = c < w;
            int at = x ? c : c - w + 1;
            if (at >= (x ? w : h))
                continue;
            int64_t one = largest_rest(p, a, x ? at : w, x ? h : at, known);
            int64_t other = one < 0 ? -1 : largest_rest(p, set & ~a, x ? w - at : w, x ? h : h - at, known);
            if (other >= 0)
                best = one > best ? one : best, best = other > best ? other : best;
        }
        if (a == 0)
            break;
    }
    *memo = best + 2;
    return best;
}

/* Where one sheet does, the largest rest is the largest that there is, but for a few lists in a hundred. */
static void test_sheets_pack_keeps_the_largest_offcut_there_is(void **state)
{
    (void)state;
    uint64_t random = 37;
    int one_sheet = 0, smaller = 0;
    for (int trial = 0; trial < SMALL_LISTS; trial++) {
        static int64_t known[32][SIDE_MOST + 1][SIDE_MOST + 1];
        struct piece p[5];
        struct pool pool = {0};
        struct sheets_result r;
        struct sheets_task t = {p, (int)draw_number(&random, 2, 5), {draw_number(&random, 5, SIDE_MOST), draw_number(&random, 5, SIDE_MOST)}, NULL, 0, 100000, NULL};
        for (int i = 0; i < t.n; i++)
            p[i] = (struct piece){draw_number(&random, 1, 4), draw_number(&random, 1, 4), draw_number(&random, 0, 1)};
        memset(known, 0, sizeof known);
        int64_t best = largest_rest(p, (1u << t.n) - 1, (int)t.sheet.w, (int)t.sheet.h, known);
        sheets_pack(&t, &pool, &r);
        if (best >= 0) {
            int64_t found = layout_largest_rest(&r.layout, 0);
            assert_int_equal(r.fresh, 1);
            assert_true(found <= best);
            one_sheet++;
            smaller += found < best;
        }
        pool_free(&pool);
    }
    print_message("%d lists on one sheet, %d with a smaller offcut than there could be\n", one_sheet, smaller);
    assert_true(one_sheet > 200 && smaller * 100 <= one_sheet * OFFCUT_MISSED_PER_CENT);
}

/* The same with two offcuts on the rack: what each of them takes is tried, then new sheets for the rest. */
static void test_sheets_pack_offcuts_as_by_trying_everything(void **state)
{
    (void)state;
    uint64_t random = 23;
    int saved = 0;
    for (int trial = 0; trial < SMALL_LISTS; trial++) {
        struct piece p[5];
        struct bin offcuts[2];
        bool sawn[32], from[2][32];
        struct pool pool = {0};
        struct sheets_result r;
        struct sheets_task t = {p, (int)draw_number(&random, 2, 5), {draw_number(&random, 4, 8), draw_number(&random, 4, 8)}, offcuts, 2, 100000};
        unsigned all = (1u << t.n) - 1;
        int fewest = 99;
        for (int i = 0; i < t.n; i++)
            p[i] = (struct piece){draw_number(&random, 1, t.sheet.w), draw_number(&random, 1, t.sheet.h), draw_number(&random, 0, 1)};
        for (int i = 0; i < 2; i++)
            offcuts[i] = (struct bin){i ? offcuts[0].w : draw_number(&random, 2, t.sheet.w), draw_number(&random, 2, t.sheet.h)};
        for (unsigned set = 0; set <= all; set++) {
            sawn[set] = can_be_sawn(p, set, t.sheet.w, t.sheet.h);
            for (int i = 0; i < 2; i++)
                from[i][set] = can_be_sawn(p, set, offcuts[i].w, offcuts[i].h);
        }
        for (unsigned a = 0; a <= all; a++)
            for (unsigned b = 0; b <= all; b++)
                if (!(a & b) && from[0][a] && from[1][b]) {
                    int n = fewest_sheets(p, all & ~a & ~b, t.sheet, sawn);
                    fewest = n < fewest ? n : fewest;
                }
        sheets_pack(&t, &pool, &r);
        check_sheets(&t, &r, 0);
        assert_int_equal(r.fresh, fewest);
        assert_int_equal(r.at_least, fewest);
        saved += fewest < fewest_sheets(p, all, t.sheet, sawn);
        pool_free(&pool);
    }
    assert_true(saved > 50);
}

/* The search alone, without quick rules before it: two offcuts and a new sheet, often alike, pieces often alike. */
static void test_exact_pack_as_by_trying_everything(void **state)
{
    (void)state;
    uint64_t random = 27;
    int yes = 0;
    for (int trial = 0; trial < 2 * SMALL_LISTS; trial++) {
        struct piece p[5];
        struct bin bins[3];
        bool from[3][32], can = false;
        struct pool pool = {0};
        int n = (int)draw_number(&random, 3, 5);
        unsigned all = (1u << n) - 1;
        for (int b = 0; b < 3; b++)
            bins[b] = (struct bin){b && draw_number(&random, 0, 1) ? bins[0].w : draw_number(&random, 2, 6), draw_number(&random, 2, 6)};
        for (int i = 0; i < n; i++)
            p[i] = i > 0 && draw_number(&random, 0, 2) ? p[i - 1] : (struct piece){draw_number(&random, 1, 5), draw_number(&random, 1, 5), draw_number(&random, 0, 1)};
        for (unsigned set = 0; set <= all; set++)
            for (int b = 0; b < 3; b++)
                from[b][set] = can_be_sawn(p, set, bins[b].w, bins[b].h);
        for (unsigned a = 0; a <= all && !can; a++)
            for (unsigned b = 0; b <= all && !can; b++)
                can = !(a & b) && from[0][a] && from[1][b] && from[2][all & ~a & ~b];
        struct layout out = layout_new(&pool, n, 3);
        assert_int_equal(exact_pack(&(struct exact_task){p, n, bins, 3, 100000}, &out), can ? EXACT_YES : EXACT_NO);
        yes += can;
        pool_free(&pool);
    }
    assert_true(yes > 100 && yes < 2 * SMALL_LISTS - 100);
}

/* Pieces sawn from a part of the sheet, without waste: the rest of the sheet can be kept whole, so it must be. */
static void test_sheets_pack_finds_the_offcut_that_was_there(void **state)
{
    (void)state;
    uint64_t random = 29;
    for (int trial = 0; trial < 200; trial++) {
        struct piece p[8];
        struct pool pool = {0};
        struct sheets_result r;
        struct sheets_task t = {p, (int)draw_number(&random, 4, 8), {200, 120}, NULL, 0, 1000000};
        int64_t used = draw_number(&random, 90, 180);
        p[0] = (struct piece){used, t.sheet.h, false};
        saw_at_random(&random, p, 1, t.n, 0);
        sheets_pack(&t, &pool, &r);
        check_sheets(&t, &r, 0);
        assert_int_equal(r.fresh, 1);
        assert_true(layout_largest_rest(&r.layout, 0) >= (t.sheet.w - used) * t.sheet.h);
        pool_free(&pool);
    }
}

/* The five arms of a pinwheel fill a square and cannot be sawn from it. */
static void test_sheets_pack_pinwheel_takes_two_sheets(void **state)
{
    (void)state;
    static const struct piece wheel[] = {{2, 1, false}, {1, 2, false}, {2, 1, false}, {1, 2, false}, {1, 1, false}};
    struct pool pool = {0};
    struct sheets_result r;
    struct sheets_task t = {wheel, 5, {3, 3}, NULL, 0, 100000};
    sheets_pack(&t, &pool, &r);
    check_sheets(&t, &r, 0);
    assert_int_equal(r.fresh, 2);
    assert_int_equal(r.at_least, 2);
    assert_int_equal(bound_pieces(wheel, 5, t.sheet), 1);
    pool_free(&pool);
}

/* ---- offcuts ---- */

static void test_sheets_pack_keeps_the_offcut_in_one_piece(void **state)
{
    (void)state;
    /* two of 40 × 30 on 100 × 60: side by side along the near edge they leave 100 × 30 or, above each other, 60 × 60 */
    static const struct piece p[] = {{40, 30, false}, {40, 30, false}};
    struct pool pool = {0};
    struct sheets_result r;
    sheets_pack(&(struct sheets_task){p, 2, {100, 60}, NULL, 0, 100000}, &pool, &r);
    assert_int_equal(r.fresh, 1);
    assert_int_equal(layout_largest_rest(&r.layout, 0), 60 * 60);
    pool_free(&pool);
}

static void test_sheets_pack_takes_offcuts_first(void **state)
{
    (void)state;
    static const struct piece p[] = {{50, 50, false}, {50, 50, false}, {30, 20, false}};
    static const struct bin offcuts[] = {{35, 35}, {60, 110}};
    struct pool pool = {0};
    struct sheets_result r;
    struct sheets_task t = {p, 3, {100, 100}, offcuts, 2, 100000};
    sheets_pack(&t, &pool, &r);
    check_sheets(&t, &r, 0);
    assert_int_equal(r.fresh, 0);
    assert_int_equal(r.at_least, 0);
    pool_free(&pool);
}

/* ---- the open data ---- */

static void pack_gcut(int number, bool turns, struct pool *pool, struct sheets_task *t, struct piece *pieces, struct sheets_result *r)
{
    struct open_problem o;
    int there = read_gcut(number, &o);
    if (there < 0) {
        print_message("open data not here\n");
        skip();
    }
    assert_int_equal(there, 1);
    for (int i = 0; i < o.n; i++)
        pieces[i] = (struct piece){o.item_w[i], o.item_h[i], turns};
    *t = (struct sheets_task){pieces, o.n, {o.w, o.h}, NULL, 0, 400000};
    sheets_pack(t, pool, r);
    check_sheets(t, r, 0);
}

static const int gcut_most[] = {5, 6, 8, 14, 3, 7, 11, 14}, gcut_bound[] = {5, 6, 8, 14, 3, 7, 11, 13}, gcut_bound_turning[] = {4, 6, 7, 13, 3, 6, 10, 12};

static void test_sheets_pack_gcut_without_turning(void **state)
{
    (void)state;
    for (int i = 0; i < GCUT_PROBLEMS; i++) {
        struct pool pool = {0};
        struct sheets_task t;
        struct sheets_result r;
        struct piece pieces[OPEN_ITEMS_MOST];
        pack_gcut(i + 1, false, &pool, &t, pieces, &r);
        assert_true(r.fresh <= gcut_most[i]);
        assert_true(r.at_least >= gcut_bound[i]);
        pool_free(&pool);
    }
}

static void test_sheets_pack_gcut_with_turning(void **state)
{
    (void)state;
    for (int i = 0; i < GCUT_PROBLEMS; i++) {
        struct pool pool = {0};
        struct sheets_task t;
        struct sheets_result r;
        struct piece pieces[OPEN_ITEMS_MOST];
        pack_gcut(i + 1, true, &pool, &t, pieces, &r);
        assert_true(r.fresh <= gcut_most[i]);
        assert_true(r.at_least >= gcut_bound_turning[i]);
        pool_free(&pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_checker_refuses_bad_layouts),
        cmocka_unit_test(test_sheets_pack_random_lists),
        cmocka_unit_test(test_sheets_pack_twice_is_the_same),
        cmocka_unit_test(test_sheets_pack_proves_most_shop_lists),
        cmocka_unit_test(test_sheets_pack_turning_is_never_worse),
        cmocka_unit_test(test_sheets_pack_few_pieces_as_by_trying_everything),
        cmocka_unit_test(test_sheets_pack_keeps_the_largest_offcut_there_is),
        cmocka_unit_test(test_sheets_pack_offcuts_as_by_trying_everything),
        cmocka_unit_test(test_exact_pack_as_by_trying_everything),
        cmocka_unit_test(test_sheets_pack_finds_the_offcut_that_was_there),
        cmocka_unit_test(test_sheets_pack_pinwheel_takes_two_sheets),
        cmocka_unit_test(test_sheets_pack_keeps_the_offcut_in_one_piece),
        cmocka_unit_test(test_sheets_pack_takes_offcuts_first),
        cmocka_unit_test(test_sheets_pack_gcut_without_turning),
        cmocka_unit_test(test_sheets_pack_gcut_with_turning),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
