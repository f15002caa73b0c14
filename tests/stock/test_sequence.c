/* Bins filled one after another: every layout judged by a checker of its own, and pieces found again in the bins that they
   were sawn from. */
#include "stock/sequence.h"

#include "layout_checker.h"

enum { LISTS = 400 };

/* Pieces sawn from `n_bins` bins: without waste in whole units, or, with a little, of sizes that no raster holds exactly. */
static int saw_bins(uint64_t *random, int trial, struct bin *bins, int n_bins, struct piece *p)
{
    int64_t unit = trial % 2 ? 9973 : 1;
    int n = (int)draw_number(random, 4, 16);
    for (int b = 0; b < n_bins; b++) {
        bins[b] = (struct bin){unit * draw_number(random, 100, 240), unit * draw_number(random, 60, 120)};
        if (b > 0 && draw_number(random, 0, 1))
            bins[b] = bins[0];
        p[b] = (struct piece){bins[b].w - unit / 4, bins[b].h - unit / 4, false};
    }
    saw_at_random(random, p, n_bins, n < n_bins ? n_bins : n, 0);
    n = n < n_bins ? n_bins : n;
    for (int i = 0; i < n; i++)
        if (draw_number(random, 0, 3) == 0)
            p[i] = (struct piece){p[i].h, p[i].w, true};
    return n;
}

static void test_sequence_pack_lays_what_was_sawn_from_the_bins(void **state)
{
    (void)state;
    uint64_t random = 61;
    int found[2] = {0, 0}, several = 0;
    for (int trial = 0; trial < LISTS; trial++) {
        struct piece p[24];
        struct bin bins[3];
        bool used[3];
        struct pool pool = {0};
        int n_bins = (int)draw_number(&random, 1, 3), n = saw_bins(&random, trial, bins, n_bins, p);
        struct layout out = layout_new(&pool, n, n_bins);
        if (sequence_pack(&(struct sequence_task){p, n, bins, n_bins, 150, NULL, 100000}, &out)) {
            check_layout(&out, p, n, bins, 0, used);
            found[trial % 2]++;
            several += n_bins > 1;
        }
        pool_free(&pool);
    }
    print_message("%d and, not in whole units, %d of %d found again, %d of several bins\n", found[0], found[1], LISTS / 2, several);
    assert_true(found[0] > LISTS / 2 * 8 / 10 && found[1] > LISTS / 2 / 4 && several > 50);
}

/* Of equal pieces no more are laid than there are, whatever their number. */
static void test_sequence_pack_counts_equal_pieces(void **state)
{
    (void)state;
    struct piece p[CHECKED_PIECES_MOST];
    struct bin bins[2] = {{80, 40}, {80, 40}};
    bool used[2];
    for (int i = 0; i < CHECKED_PIECES_MOST; i++)
        p[i] = (struct piece){i < 60 ? 10 : 20, i < 60 ? 10 : 10, false};
    for (int n = 1; n <= CHECKED_PIECES_MOST; n++) {
        struct pool pool = {0};
        struct layout out = layout_new(&pool, n, 2);
        bool fits = n <= 60 || 60 + 2 * (n - 60) <= 64;
        assert_int_equal(sequence_pack(&(struct sequence_task){p, n, bins, 2, 150, NULL, 20000}, &out), fits);
        if (fits)
            check_layout(&out, p, n, bins, 0, used);
        pool_free(&pool);
    }
}

static void test_sequence_pack_without_nodes_finds_nothing(void **state)
{
    (void)state;
    static const struct piece p[] = {{10, 10, false}, {10, 10, false}};
    struct pool pool = {0};
    struct bin b = {80, 40};
    struct layout out = layout_new(&pool, 2, 1);
    assert_false(sequence_pack(&(struct sequence_task){p, 2, &b, 1, 150, NULL, 0}, &out));
    assert_true(sequence_pack(&(struct sequence_task){p, 2, &b, 1, 150, NULL, 1000}, &out));
    pool_free(&pool);
}

/* Offcuts too small for any piece, and no bin at all: nothing is joined, and yet the search ends. */
static void test_sequence_pack_ends_where_nothing_fits(void **state)
{
    (void)state;
    static const struct piece p[] = {{100, 100, false}, {10, 10, false}, {10, 10, false}};
    struct pool pool = {0};
    struct bin b = {12, 12};
    struct layout out = layout_new(&pool, 3, 1);
    assert_false(sequence_pack(&(struct sequence_task){p, 3, &b, 1, 150, NULL, 20000}, &out));
    assert_false(sequence_pack(&(struct sequence_task){p, 3, &b, 0, 150, NULL, 20000}, &out));
    pool_free(&pool);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sequence_pack_lays_what_was_sawn_from_the_bins),
        cmocka_unit_test(test_sequence_pack_counts_equal_pieces),
        cmocka_unit_test(test_sequence_pack_without_nodes_finds_nothing),
        cmocka_unit_test(test_sequence_pack_ends_where_nothing_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
