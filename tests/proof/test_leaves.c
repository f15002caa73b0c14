/* Leaves: the search against looking at every set of at most four. */
#include "by_hand.h"

#include "proof/leaves.h"

/* Every subset, by counting in binary. */
static void find_by_trying_all(const double *leaves, size_t n, double distance, int *fewest_near,
                               double *nearest_of_fewest, double *nearest)
{
    *fewest_near = -1;
    *nearest = *nearest_of_fewest = INFINITY;
    for (unsigned set = 0; set < 1u << n; set++) {
        int count = 0;
        double sum = 0;
        for (size_t i = 0; i < n; i++)
            if (set >> i & 1) {
                sum += leaves[i];
                count++;
            }
        double off = fabs(sum - distance);
        if (count > 4)
            continue;
        *nearest = fmin(*nearest, off);
        if (off > 0.01 + 1e-9)
            continue;
        if (*fewest_near < 0 || count < *fewest_near || (count == *fewest_near && off < *nearest_of_fewest)) {
            *fewest_near = count;
            *nearest_of_fewest = off;
        }
    }
}

static void check_pick(const double *leaves, size_t n, double distance)
{
    int fewest;
    double of_fewest, nearest, sum = 0;
    struct leaves_pick p = leaves_find(leaves, n, distance);
    find_by_trying_all(leaves, n, distance, &fewest, &of_fewest, &nearest);
    for (int i = 0; i < p.n; i++) {
        sum += p.leaf[i];
        assert_true(i == 0 || p.leaf[i] < p.leaf[i - 1]); /* each leaf once, thickest first */
    }
    assert_within(p.sum, sum, 1e-12);
    if (fewest >= 0) {
        assert_int_equal(p.n, fewest);
        assert_within(fabs(p.sum - distance), of_fewest, 2e-9);
    } else {
        assert_within(fabs(p.sum - distance), nearest, 2e-9);
    }
}

/* Common sets of 8 and 13 leaves (trade, from memory), and sets drawn at random. */
static void test_leaves_find_against_every_sum(void **state)
{
    (void)state;
    struct hand_random r = {3};
    for (int i = 0; i < 300; i++) {
        check_pick(hand_leaves, 13, hand_within(&r, 0, 3.7));
        check_pick(hand_leaves, 8, round(hand_within(&r, 0, 200)) / 100);
        double own[10], at = 0;
        for (size_t k = 0; k < COUNT(own); k++)
            own[k] = at += hand_within(&r, 0.015, 0.15);
        check_pick(own, COUNT(own), hand_within(&r, 0, 3));
    }
}

static void test_leaves_find_by_hand(void **state)
{
    (void)state;
    struct leaves_pick p = leaves_find(hand_leaves, 13, 0.085159); /* the worked example: 0.10 alone, 0.015 off */
    assert_int_equal(p.n, 1);
    assert_within(p.leaf[0], 0.10, 0);
    p = leaves_find(hand_leaves, 13, 0.06); /* 0.05 is 0.01 off: near enough, though not exact in binary */
    assert_int_equal(p.n, 1);
    assert_within(p.leaf[0], 0.05, 0);
    p = leaves_find(hand_leaves, 13, 1.35); /* 1.00 + 0.30 + 0.05, 0.90 + 0.40 + 0.05, …: three; no two make it */
    assert_int_equal(p.n, 3);
    assert_within(p.sum, 1.35, 1e-9);
    p = leaves_find(hand_leaves, 13, 5);
    assert_int_equal(p.n, 4);
    assert_within(p.sum, 3.4, 1e-9); /* 1.0 + 0.9 + 0.8 + 0.7 */
    assert_int_equal(leaves_find(hand_leaves, 13, 0).n, 0);
    assert_int_equal(leaves_find(hand_leaves, 13, 0.02).n, 0); /* no leaf is nearer than the thinnest */
    assert_int_equal(leaves_find(NULL, 0, 1).n, 0);
}

static void test_leaves_find_ends_on_an_absurd_set(void **state)
{
    (void)state;
    double many[600];
    for (size_t i = 0; i < COUNT(many); i++)
        many[i] = 0.5 + 0.0001 * (double)i;
    struct leaves_pick p = leaves_find(many, COUNT(many), 0.25);
    assert_int_equal(p.n, 0); /* half of the thinnest: no leaf and one are as near, none is fewer */
    p = leaves_find(many, COUNT(many), 3);
    assert_int_equal(p.n, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_leaves_find_against_every_sum),
        cmocka_unit_test(test_leaves_find_by_hand),
        cmocka_unit_test(test_leaves_find_ends_on_an_absurd_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
