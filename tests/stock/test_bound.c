/* Lower bounds: each function keeps what a bound rests on, hand-worked cases, and never above what is found by trying all. */
#include "stock/bound.h"

#include "close.h"
#include "checker.h"

/* Lengths that share a strip still share one after the function: tried on random sums, whole C odd and even. */
static void test_dff_value_lengths_that_share_a_strip_still_do(void **state)
{
    (void)state;
    uint64_t random = 1;
    for (int trial = 0; trial < 200000; trial++) {
        int64_t c = draw_number(&random, 4, 60), room = c, sum = 0;
        enum dff_kind kind = (enum dff_kind)draw_number(&random, DFF_LENGTH, DFF_ROUNDED);
        struct dff f = {kind, kind == DFF_ROUNDED ? draw_number(&random, 1, 20) : draw_number(&random, 2, c / 2)};
        while (room > 0) {
            int64_t x = draw_number(&random, 1, room);
            int64_t v = dff_value(f, x, c);
            assert_true(v >= 0);
            sum += v;
            room -= x;
        }
        if (sum > dff_whole(f, c))
            fail_msg("kind %d k %ld C %ld: %ld above %ld", (int)f.kind, (long)f.k, (long)c, (long)sum, (long)dff_whole(f, c));
    }
}

static void test_bound_lengths_by_hand(void **state)
{
    (void)state;
    static const struct {
        int64_t strip, lengths[8];
        int n, bound;
    } rows[] = {
        {100, {0}, 0, 0},
        {100, {100}, 1, 1},
        {100, {51, 51, 51}, 3, 3},             /* sum 153 asks for 2; no two share */
        {100, {60, 60, 45, 45, 10}, 5, 3},     /* 220: 3 by length alone */
        {100, {34, 34, 34, 34, 34, 34}, 6, 3}, /* 204: 3; two to a strip */
        {100, {34, 34, 34, 34, 34, 34, 34}, 7, 4}, /* 238: 3 by length; in whole 34s two to a strip: 7/2 */
        {100, {70, 70, 40, 40}, 4, 3},         /* 220; the 40s do not go beside the 70s: 2 + 1 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(bound_lengths(rows[i].lengths, rows[i].n, rows[i].strip), rows[i].bound);
}

static void test_bound_pieces_by_hand(void **state)
{
    (void)state;
    static const struct piece large[] = {{51, 51, true}, {51, 51, true}, {51, 51, true}};
    static const struct piece rails[] = {{100, 34, false}, {100, 34, false}, {100, 34, false}};
    static const struct piece lying[] = {{60, 20, false}, {60, 20, false}, {60, 20, false}};
    assert_int_equal(bound_pieces(large, 3, (struct bin){100, 100}), 3); /* 3 × 2601 asks for 1 sheet of 10000 */
    assert_int_equal(bound_pieces(rails, 3, (struct bin){100, 100}), 2); /* 10200; two to a sheet */
    assert_int_equal(bound_pieces(lying, 3, (struct bin){100, 50}), 2);  /* only two above each other */
    struct piece turning[] = {{60, 20, true}, {60, 20, true}, {60, 20, true}};
    assert_int_equal(bound_pieces(turning, 3, (struct bin){100, 60}), 1); /* turned, all three stand side by side */
}

static void test_bound_with_offcuts_by_hand(void **state)
{
    (void)state;
    static const struct piece p[] = {{50, 50, false}, {50, 50, false}, {90, 10, false}};
    static const struct bin offcut[] = {{60, 60}};
    assert_int_equal(bound_with_offcuts(p, 2, (struct bin){100, 100}, offcut, 1), 1); /* 5000 of 3600 */
    assert_int_equal(bound_with_offcuts(p, 1, (struct bin){100, 100}, offcut, 1), 0);
    assert_int_equal(bound_with_offcuts(p + 2, 1, (struct bin){100, 100}, offcut, 1), 1); /* too long for the offcut */
    /* 4 × 2601 less 3600 of the offcut asks for 1 sheet of 10000; no two share a sheet, and the offcut takes one */
    static const struct piece large[] = {{51, 51, true}, {51, 51, true}, {51, 51, true}, {51, 51, true}};
    assert_int_equal(bound_with_offcuts(large, 4, (struct bin){100, 100}, offcut, 1), 3);
    static const struct bin longer[] = {{220, 52}}; /* longer than the sheet: takes four by area, and is not asked more */
    assert_int_equal(bound_with_offcuts(large, 4, (struct bin){100, 100}, longer, 1), 0);
}

/* A sum of areas that 64 bits do not hold in one number. */
static void test_bound_pieces_many_large_sheets(void **state)
{
    (void)state;
    static struct piece p[5000];
    int64_t side = (int64_t)7000 * UNITS_PER_MM;
    for (int i = 0; i < 5000; i++)
        p[i] = (struct piece){side, side, true};
    assert_int_equal(bound_pieces(p, 5000, (struct bin){side, side}), 5000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_dff_value_lengths_that_share_a_strip_still_do),
        cmocka_unit_test(test_bound_lengths_by_hand),
        cmocka_unit_test(test_bound_pieces_by_hand),
        cmocka_unit_test(test_bound_with_offcuts_by_hand),
        cmocka_unit_test(test_bound_pieces_many_large_sheets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
