/* Lengths from strips: against trying everything, on random lists, on the open data. */
#include "stock/strips.h"

#include "close.h"
#include "checker.h"
#include "open_data.h"

#include <string.h>

enum { LISTS = 5000, SMALL_LISTS = 1500 };

/* Every length lies in one strip, none is overfull, none is called new beyond those counted. */
static void check_strips(const struct strips_task *t, const struct strips_result *r)
{
    int64_t most = 0;
    bool empty_new = false;
    assert_true(r->at_least <= r->fresh);
    for (int b = 0; b < t->n_offcuts + r->fresh; b++) {
        int64_t room = b < t->n_offcuts ? t->offcuts[b] : t->strip;
        for (int i = 0; i < t->n; i++)
            room -= r->bin[i] == b ? t->lengths[i] : 0;
        assert_true(room >= 0);
        if (b >= t->n_offcuts && room > most)
            most = room;
        empty_new |= b >= t->n_offcuts && room == t->strip;
    }
    for (int i = 0; i < t->n; i++)
        assert_true(r->bin[i] >= 0 && r->bin[i] < t->n_offcuts + r->fresh);
    assert_false(empty_new);
    assert_true(r->fresh == 0 || r->longest_rest == most);
}

/* Fewest new strips, and then the most that can be left of one of them, by trying every strip for every length. */
struct trial {
    const struct strips_task *t;
    int64_t room[16];
    int fresh;
    int64_t rest;
};
static void try_all(struct trial *b, int i, int opened)
{
    const struct strips_task *t = b->t;
    if (opened > b->fresh)
        return;
    if (i == t->n) {
        int64_t most = 0;
        for (int s = t->n_offcuts; s < t->n_offcuts + opened; s++)
            most = b->room[s] > most ? b->room[s] : most;
        if (opened < b->fresh || most > b->rest)
            b->rest = most;
        b->fresh = opened;
        return;
    }
    for (int s = 0; s <= t->n_offcuts + opened; s++) {
        bool opens = s == t->n_offcuts + opened;
        if (opens)
            b->room[s] = t->strip;
        if (b->room[s] < t->lengths[i])
            continue;
        b->room[s] -= t->lengths[i];
        try_all(b, i + 1, opened + opens);
        b->room[s] += t->lengths[i];
    }
}

static void test_strips_pack_small_lists_as_by_trying_everything(void **state)
{
    (void)state;
    uint64_t random = 7;
    int with_offcuts = 0, none_new = 0;
    for (int trial = 0; trial < SMALL_LISTS; trial++) {
        int64_t lengths[9], offcuts[2];
        struct pool pool = {0};
        struct strips_result r;
        struct strips_task t = {lengths, (int)draw_number(&random, 1, 9), draw_number(&random, 20, 60), offcuts, (int)draw_number(&random, 0, 2), 1000000};
        int64_t most = trial % 3 ? t.strip * 3 / 5 : t.strip;
        for (int i = 0; i < t.n; i++)
            lengths[i] = draw_number(&random, most / 5, most);
        for (int i = 0; i < t.n_offcuts; i++)
            offcuts[i] = draw_number(&random, 1, t.strip - 1);
        struct trial best = {.t = &t, .fresh = 10};
        for (int i = 0; i < t.n_offcuts; i++)
            best.room[i] = offcuts[i];
        try_all(&best, 0, 0);
        strips_pack(&t, &pool, &r);
        check_strips(&t, &r);
        assert_int_equal(r.fresh, best.fresh);
        assert_int_equal(r.at_least, best.fresh);
        if (r.fresh > 0)
            assert_int_equal(r.longest_rest, best.rest);
        with_offcuts += t.n_offcuts > 0;
        none_new += r.fresh == 0;
        pool_free(&pool);
    }
    assert_true(with_offcuts > 500 && none_new > 20);
}

static void test_strips_pack_random_lists(void **state)
{
    (void)state;
    uint64_t random = 11;
    for (int trial = 0; trial < LISTS; trial++) {
        int64_t lengths[40], offcuts[3];
        struct pool pool = {0};
        struct strips_result r, again;
        struct strips_task t = {lengths, (int)draw_number(&random, 1, 40), draw_number(&random, 100, 3000), offcuts, (int)draw_number(&random, 0, 3), 3000};
        for (int i = 0; i < t.n; i++)
            lengths[i] = i > 0 && draw_number(&random, 0, 2) == 0 ? lengths[i - 1] : draw_number(&random, 1, t.strip);
        for (int i = 0; i < t.n_offcuts; i++)
            offcuts[i] = draw_number(&random, 1, t.strip - 1);
        strips_pack(&t, &pool, &r);
        check_strips(&t, &r);
        strips_pack(&t, &pool, &again);
        assert_memory_equal(r.bin, again.bin, (size_t)t.n * sizeof *r.bin);
        pool_free(&pool);
    }
}

static void test_strips_pack_up_to_40_lengths_is_proven(void **state)
{
    (void)state;
    uint64_t random = 13;
    int proven = 0;
    for (int trial = 0; trial < 100; trial++) {
        int64_t lengths[40];
        struct pool pool = {0};
        struct strips_result r;
        struct strips_task t = {lengths, 40, 2400, NULL, 0, 10000000};
        for (int i = 0; i < t.n; i++)
            lengths[i] = draw_number(&random, 60, 1200);
        strips_pack(&t, &pool, &r);
        check_strips(&t, &r);
        proven += r.fresh == r.at_least;
        pool_free(&pool);
    }
    assert_int_equal(proven, 100);
}

/* Strips sawn in three, each with a little waste: the number of strips is known to do, so none may be proven beyond it. */
static void test_strips_pack_never_proves_more_than_there_were(void **state)
{
    (void)state;
    uint64_t random = 17;
    int met = 0;
    for (int trial = 0; trial < 3000; trial++) {
        int64_t lengths[30];
        struct pool pool = {0};
        struct strips_result r;
        int strips = (int)draw_number(&random, 3, 10);
        struct strips_task t = {lengths, 3 * strips, 100, NULL, 0, 40000};
        for (int i = 0; i < strips; i++) {
            int64_t a = draw_number(&random, 20, 60), b = draw_number(&random, 12, 100 - a - 10), waste = draw_number(&random, 0, 3);
            lengths[3 * i] = a;
            lengths[3 * i + 1] = b;
            lengths[3 * i + 2] = 100 - a - b - waste;
        }
        strips_pack(&t, &pool, &r);
        check_strips(&t, &r);
        assert_true(r.at_least <= strips);
        met += r.fresh <= strips;
        pool_free(&pool);
    }
    print_message("%d of 3000 found again\n", met);
    assert_true(met > 2900);
}

/* The open data: best known numbers, at most one above, at least 18 of 20 met. */
static void test_strips_pack_binpack2(void **state)
{
    (void)state;
    FILE *f = open_data("binpack2.txt");
    int problems = 0, met = 0;
    if (!f) {
        print_message("open data not here\n");
        skip();
    }
    assert_int_equal(fscanf(f, "%d", &problems), 1);
    assert_int_equal(problems, BINPACK_PROBLEMS);
    for (int i = 0; i < problems; i++) {
        struct open_problem p;
        struct pool pool = {0};
        struct strips_result r;
        assert_true(read_binpack(f, &p));
        struct strips_task t = {p.item_w, p.n, p.w, NULL, 0, 2000000};
        strips_pack(&t, &pool, &r);
        check_strips(&t, &r);
        assert_true(r.fresh <= p.best_known + 1);
        assert_true(r.at_least <= p.best_known);
        met += r.fresh <= p.best_known;
        pool_free(&pool);
    }
    fclose(f);
    assert_true(met >= 18);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strips_pack_small_lists_as_by_trying_everything),
        cmocka_unit_test(test_strips_pack_random_lists),
        cmocka_unit_test(test_strips_pack_up_to_40_lengths_is_proven),
        cmocka_unit_test(test_strips_pack_never_proves_more_than_there_were),
        cmocka_unit_test(test_strips_pack_binpack2),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
