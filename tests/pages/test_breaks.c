/* Page breaks: hand cases, and every set of breaks tried against the program's on small random stacks. */
#include "kit.h"

#include "pages/breaks.h"

enum { MOST = 14 };

static size_t find(const struct break_item *items, size_t n, double page_height, size_t *ends)
{
    size_t pages, level[MOST + 10];
    breaks_find(items, 1, n, page_height, ends, level, &pages);
    return pages;
}

static void test_breaks_find_nothing(void **state)
{
    (void)state;
    size_t ends[1], level[1], pages = 7;
    assert_close(breaks_find(NULL, 1, 0, 100, ends, level, &pages), 0, 0);
    assert_int_equal(pages, 0);
}

static void test_breaks_find_one_page(void **state)
{
    (void)state;
    struct break_item items[] = {{.height = 5}, {.above = 3, .height = 4}};
    size_t ends[2];
    assert_int_equal(find(items, 2, 100, ends), 1);
    assert_int_equal(ends[0], 2);
}

/* The white above is dropped at the head of a page: 40 + (10 + 50) fits 100, 40 + 10 + 50.5 does not. */
static void test_breaks_find_counts_white_between_only(void **state)
{
    (void)state;
    struct break_item items[] = {{.above = 70, .height = 40}, {.above = 10, .height = 50}};
    size_t ends[2];
    assert_int_equal(find(items, 2, 100, ends), 1);
    items[1].height = 50.5;
    assert_int_equal(find(items, 2, 100, ends), 2);
}

static void test_breaks_find_keeps_a_heading_with_its_text(void **state)
{
    (void)state;
    struct break_item items[] = {{.height = 80}, {.above = 5, .height = 10, .keep_with_next = true}, {.height = 30}};
    size_t ends[3];
    assert_int_equal(find(items, 3, 100, ends), 2);
    assert_int_equal(ends[0], 1);
}

/* Eleven lines of ten, ten of them fit: the last page would hold one. A quarter of it is asked for, so three go over. */
static void test_breaks_find_leaves_no_page_nearly_empty(void **state)
{
    (void)state;
    struct break_item items[11];
    for (int i = 0; i < 11; i++)
        items[i] = (struct break_item){.height = 10};
    size_t ends[11];
    assert_int_equal(find(items, 11, 100, ends), 2);
    assert_int_equal(ends[0], 8);
}

/* A repeated head of 12 counts on the page that begins with a row: 12 + 9 rows of 10 do not fit 100. */
static void test_breaks_find_counts_repeated_heads(void **state)
{
    (void)state;
    struct break_item items[19];
    for (int i = 0; i < 19; i++)
        items[i] = (struct break_item){.height = 10, .head = i ? 12 : 0};
    size_t ends[19];
    assert_int_equal(find(items, 19, 100, ends), 3);
}

static void test_breaks_find_new_page(void **state)
{
    (void)state;
    struct break_item items[] = {{.height = 40}, {.height = 40, .new_page = true}};
    size_t ends[2];
    assert_int_equal(find(items, 2, 100, ends), 2);
    items[0].height = 20; /* a page a fifth full is worse than a missing break */
    assert_int_equal(find(items, 2, 100, ends), 1);
}

/* Drawings of 60 and 50 do not fit one page as high as they may be; as low as 50 and 40 they do. On the page after them
   nothing is squeezed. */
static void test_breaks_find_a_level_for_each_page(void **state)
{
    (void)state;
    struct break_item items[] = {{.height = 60}, {.height = 50}, {.height = 60, .new_page = true},
                                 {.height = 50, .squeezed = 9}, {.height = 40, .squeezed = 9},
                                 {.height = 50, .new_page = true, .squeezed = 9}};
    size_t ends[3], level[3], pages;
    breaks_find(items, 2, 3, 100, ends, level, &pages);
    assert_int_equal(pages, 2);
    assert_int_equal(ends[0], 2);
    assert_int_equal(level[0], 1);
    assert_int_equal(level[1], 0);
}

/* Two columns of three slabs of 40 each, in rows left, right, left …: 80 of each stand on the first page, 40 on the next;
   one below the other they would fill three. */
static void test_breaks_find_counts_columns_side_by_side(void **state)
{
    (void)state;
    struct break_item items[6] = {{0}};
    for (int i = 0; i < 6; i++) {
        int column = i % 2, other = 1 - column, row = i / 2;
        items[i].band = 1;
        items[i].start[column] = 40 * row;
        items[i].bottom[column] = 40 * (row + 1);
        items[i].start[other] = other ? 40 * row : 40 * (row + 1);
        items[i].bottom[other] = other ? 40 * row : 40 * (row + 1);
    }
    size_t ends[6];
    assert_int_equal(find(items, 6, 100, ends), 2);
    assert_int_equal(ends[0], 4);
}

static unsigned next_random(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u; /* Numerical Recipes' generator */
    return *seed >> 8;
}

/* Cost of the page from..end at its level. Written afresh from the rules in breaks.h. */
static double cost_of_page(const struct break_item *items, size_t n, double page_height, size_t from, size_t end)
{
    double used = items[from].head + items[from].height, cost = BREAK_PAGE + items[from].squeezed;
    for (size_t i = from + 1; i < end; i++) {
        used += items[i].above + items[i].height;
        cost += (items[i].new_page ? BREAK_NOT_NEW : 0) + items[i].squeezed;
    }
    double filled = used / page_height;
    if (filled > 1 + 1e-12 && end > from + 1)
        return INFINITY;
    cost += filled > 1 + 1e-9 ? BREAK_TOO_HIGH * filled : 0;
    cost += filled < 0.25 && !(from == 0 && end == n) ? BREAK_NEARLY_EMPTY : 0;
    if (end < n) {
        cost += items[end - 1].keep_with_next ? BREAK_KEPT : 0;
        cost += items[end].new_page ? 0 : items[end].cost + BREAK_WHITE * (1 - filled) * (1 - filled);
    }
    return cost;
}

/* Cost of one set of breaks, bit i of mask: a break before item i; each page at the better of its two levels. */
static double cost_of(const struct break_item *items, size_t n, double page_height, unsigned mask)
{
    double cost = 0;
    for (size_t from = 0; from < n;) {
        size_t end = from + 1;
        while (end < n && !(mask >> end & 1))
            end++;
        cost += fmin(cost_of_page(items, n, page_height, from, end),
                     BREAK_TIGHTER + cost_of_page(items + n, n, page_height, from, end));
        from = end;
    }
    return cost;
}

static void test_breaks_find_is_the_cheapest_of_all(void **state)
{
    (void)state;
    unsigned seed = 20261102;
    for (int round = 0; round < 300; round++) {
        struct break_item items[2 * MOST];
        size_t n = 1 + next_random(&seed) % MOST, ends[MOST], level[MOST], pages;
        for (size_t i = 0; i < n; i++)
            items[i] = (struct break_item){
                .above = next_random(&seed) % 8,
                .height = 1 + next_random(&seed) % 45,
                .head = next_random(&seed) % 3 ? 0 : 7,
                .cost = next_random(&seed) % 6,
                .keep_with_next = next_random(&seed) % 4 == 0,
                .new_page = next_random(&seed) % 9 == 0,
            };
        for (size_t i = 0; i < n; i++) { /* one in three is a drawing, lower by up to a third at the second level */
            bool drawing = next_random(&seed) % 3 == 0;
            items[n + i] = items[i];
            items[n + i].height *= drawing ? 1 - next_random(&seed) % 34 / 100.0 : 1;
            items[n + i].squeezed = drawing ? 10 : 0;
        }
        double least = INFINITY;
        for (unsigned mask = 0; mask < 1u << n; mask += 2)
            least = fmin(least, cost_of(items, n, 100, mask));
        assert_close(breaks_find(items, 2, n, 100, ends, level, &pages), least, 1e-12);
        assert_int_equal(ends[pages - 1], n);
        for (size_t p = 1; p < pages; p++)
            assert_true(ends[p] > ends[p - 1]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_breaks_find_nothing),
        cmocka_unit_test(test_breaks_find_one_page),
        cmocka_unit_test(test_breaks_find_counts_white_between_only),
        cmocka_unit_test(test_breaks_find_keeps_a_heading_with_its_text),
        cmocka_unit_test(test_breaks_find_leaves_no_page_nearly_empty),
        cmocka_unit_test(test_breaks_find_counts_repeated_heads),
        cmocka_unit_test(test_breaks_find_new_page),
        cmocka_unit_test(test_breaks_find_a_level_for_each_page),
        cmocka_unit_test(test_breaks_find_counts_columns_side_by_side),
        cmocka_unit_test(test_breaks_find_is_the_cheapest_of_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
