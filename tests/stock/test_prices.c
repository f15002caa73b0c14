/* Bounds by prices: dearest patterns against trying every cut, and what prices prove against numbers of sheets that are known. */
#include "stock/pattern.h"
#include "stock/price.h"

#include "layout_checker.h"

#include <string.h>

enum { SIDE_MOST = 24, LIMIT_MOST = 3, KINDS_MOST = 4, NO_LIMIT = 1 << 30 };
static const int no_limit[24];

/* ---- dearest patterns ---- */

/* The dearest of every size up to w by h, by each cut at each whole number; of the first kind at most `limit`, 0: any number. */
static int32_t dearest_by_all_cuts(const struct piece *kinds, int n, int limit, const int32_t *price, int w, int h)
{
    static int32_t v[LIMIT_MOST + 1][SIDE_MOST + 1][SIDE_MOST + 1];
    memset(v, 0, sizeof v);
    for (int c = 0; c <= limit; c++)
        for (int x = 1; x <= w; x++)
            for (int y = 1; y <= h; y++) {
                int32_t best = 0;
                for (int k = limit > 0 && c == 0; k < n; k++)
                    if (((kinds[k].w <= x && kinds[k].h <= y) || (kinds[k].turns && kinds[k].h <= x && kinds[k].w <= y)) && price[k] > best)
                        best = price[k];
                for (int a = 0; a <= c; a++) {
                    for (int cut = 1; cut < x; cut++)
                        best = v[a][cut][y] + v[c - a][x - cut][y] > best ? v[a][cut][y] + v[c - a][x - cut][y] : best;
                    for (int cut = 1; cut < y; cut++)
                        best = v[a][x][cut] + v[c - a][x][y - cut] > best ? v[a][x][cut] + v[c - a][x][y - cut] : best;
                }
                v[c][x][y] = best;
            }
    return v[limit][w][h];
}

static int draw_kinds(uint64_t *random, struct bin b, struct piece *kinds, int32_t *price)
{
    int n = (int)draw_number(random, 1, KINDS_MOST);
    for (int k = 0; k < n; k++) {
        kinds[k] = (struct piece){draw_number(random, 2, b.w), draw_number(random, 2, b.h), draw_number(random, 0, 1)};
        price[k] = (int32_t)draw_number(random, 0, 2 * kinds[k].w * kinds[k].h);
    }
    return n;
}

static void test_pattern_dearest_as_by_all_cuts(void **state)
{
    (void)state;
    uint64_t random = 41;
    int several = 0;
    for (int trial = 0; trial < 4000; trial++) {
        struct pool pool = {0};
        struct pattern_table t;
        struct piece kinds[KINDS_MOST];
        int32_t price[KINDS_MOST], worth = 0;
        int uses[KINDS_MOST], pieces = 0, limit[KINDS_MOST] = {trial % 2 ? (int)draw_number(&random, 1, LIMIT_MOST) : 0};
        struct bin b = {draw_number(&random, 2, SIDE_MOST), draw_number(&random, 2, SIDE_MOST)};
        int n = draw_kinds(&random, b, kinds, price);
        assert_true(pattern_open(&t, kinds, limit, n, b, NO_LIMIT, &pool));
        int32_t dearest = pattern_dearest(&t, price);
        assert_int_equal(dearest, dearest_by_all_cuts(kinds, n, limit[0], price, (int)b.w, (int)b.h));
        pattern_uses(&t, price, uses);
        for (int k = 0; k < n; k++) {
            worth += uses[k] * price[k];
            pieces += uses[k];
        }
        assert_int_equal(worth, dearest);
        assert_true(limit[0] == 0 || uses[0] <= limit[0]);
        assert_true(pieces <= pattern_pieces_most(&t));
        several += pieces > 3;
        pool_free(&pool);
    }
    assert_true(several > 1000);
}

/* Sizes rounded down to a coarser unit hold no less. */
static void test_pattern_dearest_is_never_less_on_a_coarser_raster(void **state)
{
    (void)state;
    uint64_t random = 43;
    int coarser = 0;
    for (int trial = 0; trial < 2000; trial++) {
        struct pool pool = {0};
        struct pattern_table t;
        struct piece kinds[KINDS_MOST];
        int32_t price[KINDS_MOST];
        struct bin b = {draw_number(&random, 16, SIDE_MOST), draw_number(&random, 16, SIDE_MOST)};
        int n = draw_kinds(&random, (struct bin){9, 9}, kinds, price);
        if (pattern_open(&t, kinds, no_limit, n, b, 200, &pool)) {
            int32_t exact = dearest_by_all_cuts(kinds, n, 0, price, (int)b.w, (int)b.h), coarse = pattern_dearest(&t, price);
            assert_true(coarse >= exact);
            coarser += coarse > exact;
        }
        pool_free(&pool);
    }
    print_message("%d dearer on the coarser raster\n", coarser);
    assert_true(coarser > 100);
}

static void test_pattern_open_refuses_a_raster_in_which_a_piece_vanishes(void **state)
{
    (void)state;
    static const struct piece kinds[] = {{1, 1, false}, {7, 11, false}, {13, 5, false}};
    struct pool pool = {0};
    struct pattern_table t;
    assert_false(pattern_open(&t, kinds, no_limit, 3, (struct bin){100, 100}, 1000, &pool));
    pool_free(&pool);
}

/* ---- what prices prove ---- */

/* Sheets and offcuts sawn up at random, so that the number of sheets is known to do. */
static void saw_up(uint64_t *random, const struct bin *bins, int n_bins, struct piece *p, int n)
{
    for (int b = 0; b < n_bins; b++)
        p[b] = (struct piece){bins[b].w, bins[b].h, false};
    saw_at_random(random, p, n_bins, n, 1);
    for (int i = 0; i < n; i++)
        if (draw_number(random, 0, 1) == 0)
            p[i] = (struct piece){p[i].h, p[i].w, true};
}

static void test_price_bound_is_never_above_what_was_sawn_up(void **state)
{
    (void)state;
    uint64_t random = 47;
    int met = 0, lists = 0;
    for (int trial = 0; trial < 1500; trial++) {
        struct piece p[24];
        int fresh = (int)draw_number(&random, 1, 4), n_offcuts = (int)draw_number(&random, 0, 2);
        struct bin bins[6], sheet = {60, 40};
        for (int b = 0; b < n_offcuts + fresh; b++)
            bins[b] = b < n_offcuts ? (struct bin){draw_number(&random, 10, 60), draw_number(&random, 10, 40)} : sheet;
        if (n_offcuts == 2 && draw_number(&random, 0, 1))
            bins[1] = bins[0];
        int n = (int)draw_number(&random, 8, 24);
        saw_up(&random, bins, n_offcuts + fresh, p, n);
        bool fits = true;
        for (int i = 0; i < n; i++)
            fits &= (p[i].w <= sheet.w && p[i].h <= sheet.h) || (p[i].turns && p[i].h <= sheet.w && p[i].w <= sheet.h);
        if (!fits)
            continue;
        int bound = price_bound(&(struct price_task){p, n, sheet, bins, n_offcuts, 99, trial % 2, 200000, NULL});
        assert_true(bound <= fresh);
        met += bound == fresh;
        lists++;
    }
    print_message("%d of %d bounds are the number of sheets sawn up\n", met, lists);
    assert_true(lists > 1000 && met > lists * 9 / 10);
}

/* Whatever the prices, spoiled ones too: they may prove little, never what is untrue. */
static void test_price_proves_nothing_untrue_by_any_prices(void **state)
{
    (void)state;
    uint64_t random = 53;
    int met = 0, untrue = 0;
    for (int trial = 0; trial < 3000; trial++) {
        struct pool pool = {0};
        struct pattern_table t[2];
        struct piece p[12];
        int32_t price[12], dearest[2];
        int count[12], n_of_class[2] = {0, 1}, fresh = (int)draw_number(&random, 1, 3);
        struct bin bins[4] = {{25, 15}, {40, 30}, {40, 30}, {40, 30}};
        int n = 12;
        saw_up(&random, bins, 1 + fresh, p, n);
        for (int i = 0; i < n; i++) {
            price[i] = (int32_t)(p[i].w * p[i].h * draw_number(&random, 80, 120));
            count[i] = 1;
        }
        for (int c = 0; c < 2; c++) {
            assert_true(pattern_open(&t[c], p, no_limit, n, bins[1 - c], NO_LIMIT, &pool));
            dearest[c] = pattern_dearest(&t[c], price);
        }
        int proven = price_proves(price, count, n, dearest, n_of_class, 1);
        assert_true(proven <= fresh);
        met += proven == fresh;
        dearest[0] = dearest[0] * 3 / 4; /* as if the dearest pattern had been missed */
        untrue += price_proves(price, count, n, dearest, n_of_class, 1) > fresh;
        pool_free(&pool);
    }
    print_message("%d met; %d untrue where a sheet is taken for less than it can be worth\n", met, untrue);
    assert_true(met > 100 && untrue > 100);
}

/* Lengths of 34 from strips of 100: two and no third go on each. */
static void test_price_bound_by_hand(void **state)
{
    (void)state;
    struct piece p[8];
    for (int i = 0; i < 7; i++)
        p[i] = (struct piece){34, 1, false};
    assert_int_equal(price_bound(&(struct price_task){p, 7, {100, 1}, NULL, 0, 99, false, 100000, NULL}), 4);
    struct bin offcut[] = {{70, 1}, {70, 1}};
    assert_int_equal(price_bound(&(struct price_task){p, 7, {100, 1}, offcut, 1, 99, false, 100000, NULL}), 3); /* 2 on the offcut, 5 left */
    assert_int_equal(price_bound(&(struct price_task){p, 7, {100, 1}, offcut, 2, 99, false, 100000, NULL}), 2); /* 4 on two, 3 left */
    assert_int_equal(price_bound(&(struct price_task){p, 0, {100, 1}, NULL, 0, 99, false, 100000, NULL}), 0);
    assert_int_equal(price_bound(&(struct price_task){p, 2, {100, 1}, offcut, 1, 99, false, 100000, NULL}), 0);
    assert_int_equal(price_bound(&(struct price_task){p, 7, {100, 1}, NULL, 0, 99, false, 0, NULL}), 0); /* no nodes, no proof */
}

/* Kinds counted: one sheet less would hold the list if the one large piece could be taken twice. */
static void test_price_bound_counts_where_it_helps(void **state)
{
    (void)state;
    uint64_t random = 67;
    int higher = 0;
    for (int trial = 0; trial < 400; trial++) {
        struct piece p[14];
        int n = (int)draw_number(&random, 6, 14);
        for (int i = 0; i < n; i++)
            p[i] = i > 3 && draw_number(&random, 0, 1) ? p[i - 1] : (struct piece){draw_number(&random, 10, i < 2 ? 45 : 25), draw_number(&random, 8, i < 2 ? 30 : 20), false};
        int plain = price_bound(&(struct price_task){p, n, {60, 40}, NULL, 0, 99, false, 1000000, NULL});
        int counted = price_bound(&(struct price_task){p, n, {60, 40}, NULL, 0, 99, true, 1000000, NULL});
        assert_true(counted >= plain);
        higher += counted > plain;
    }
    print_message("%d of 400 bounds higher where kinds are counted\n", higher);
    assert_true(higher > 0);
}

/* More pieces of each kind, or a smaller sheet, never need fewer. */
static void test_price_bound_is_monotone(void **state)
{
    (void)state;
    uint64_t random = 59;
    for (int trial = 0; trial < 300; trial++) {
        struct piece p[20];
        int n = (int)draw_number(&random, 2, 10);
        for (int i = 0; i < n; i++)
            p[i] = p[n + i] = (struct piece){draw_number(&random, 8, 50), draw_number(&random, 8, 30), draw_number(&random, 0, 1)};
        int one = price_bound(&(struct price_task){p, n, {60, 50}, NULL, 0, 99, false, 100000, NULL});
        assert_true(price_bound(&(struct price_task){p, n + 1, {60, 50}, NULL, 0, 99, false, 100000, NULL}) >= one);
        assert_true(price_bound(&(struct price_task){p, 2 * n, {60, 50}, NULL, 0, 99, false, 100000, NULL}) >= 2 * one - 1);
        assert_true(price_bound(&(struct price_task){p, n, {55, 50}, NULL, 0, 99, false, 100000, NULL}) >= one);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pattern_dearest_as_by_all_cuts),
        cmocka_unit_test(test_pattern_dearest_is_never_less_on_a_coarser_raster),
        cmocka_unit_test(test_pattern_open_refuses_a_raster_in_which_a_piece_vanishes),
        cmocka_unit_test(test_price_bound_is_never_above_what_was_sawn_up),
        cmocka_unit_test(test_price_proves_nothing_untrue_by_any_prices),
        cmocka_unit_test(test_price_bound_by_hand),
        cmocka_unit_test(test_price_bound_counts_where_it_helps),
        cmocka_unit_test(test_price_bound_is_monotone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
