/* Count, bound and seconds of each set of the open data. Not a test: nothing is timed there. Build type Release, then
   `ninja bench_stock && tests/bench_stock`. */
#include "open_data.h"
#include "shop_lists.h"

#include "stock/sheets.h"
#include "stock/strips.h"

#include <time.h>

static const long sheet_nodes = 6000000, strip_nodes = 10000000; /* as src/stock/cutting.c has them */

static double seconds_since(clock_t start)
{
    return (double)(clock() - start) / CLOCKS_PER_SEC;
}

static void bench_binpack(void)
{
    FILE *f = open_data("binpack2.txt");
    int problems = 0, met = 0;
    clock_t start = clock();

    if (!f || fscanf(f, "%d", &problems) != 1) {
        printf("binpack2: open data not here\n");
        return;
    }
    printf("%-10s %6s %6s %8s %8s\n", "lengths", "best", "found", "at least", "seconds");
    for (int i = 0; i < problems; i++) {
        struct open_problem p;
        struct pool pool = {0};
        struct strips_result r;
        if (!read_binpack(f, &p))
            break;
        clock_t one = clock();
        strips_pack(&(struct strips_task){p.item_w, p.n, p.w, NULL, 0, strip_nodes}, &pool, &r);
        printf("%-10s %6d %6d %8d %8.3f\n", p.name, p.best_known, r.fresh, r.at_least, seconds_since(one));
        met += r.fresh <= p.best_known;
        pool_free(&pool);
    }
    fclose(f);
    printf("%d of %d at the best known number, %.1f s\n\n", met, problems, seconds_since(start));
}

static void bench_gcut(int number, bool turns)
{
    static struct open_problem p;
    static struct piece pieces[OPEN_ITEMS_MOST];
    struct pool pool = {0};
    struct sheets_result r;

    if (read_gcut(number, &p) != 1) {
        printf("gcut%d: open data not here\n", number);
        return;
    }
    for (int i = 0; i < p.n; i++)
        pieces[i] = (struct piece){p.item_w[i], p.item_h[i], turns};
    clock_t start = clock();
    sheets_pack(&(struct sheets_task){pieces, p.n, {p.w, p.h}, NULL, 0, sheet_nodes, NULL}, &pool, &r);
    printf("gcut%d %-8s %6d %8d %8.3f\n", number, turns ? "turning" : "fixed", r.fresh, r.at_least, seconds_since(start));
    pool_free(&pool);
}

/* Random lists of a shop, by their number of pieces: what share is proven, of those on one new sheet and of the others. */
static void bench_shop_lists(enum shop_list_kind kind, int least, int most)
{
    enum { LISTS = 200 };
    uint64_t random = (uint64_t)most;
    int proven = 0, several = 0, several_proven = 0;
    double longest = 0;
    clock_t start = clock();

    for (int i = 0; i < LISTS; i++) {
        struct shop_list l;
        struct pool pool = {0};
        struct sheets_result r;
        draw_shop_list(&l, kind, (int)draw_number(&random, least, most), &random);
        clock_t one = clock();
        sheets_pack(&(struct sheets_task){l.pieces, l.n, l.sheet, l.offcuts, l.n_offcuts, sheet_nodes, NULL}, &pool, &r);
        longest = seconds_since(one) > longest ? seconds_since(one) : longest;
        several += r.fresh > 1;
        proven += r.fresh == r.at_least;
        several_proven += r.fresh > 1 && r.fresh == r.at_least;
        pool_free(&pool);
    }
    printf("%-8s %2d–%2d %9.1f%% %9.1f%% of %3d %8.3f %8.3f\n", kind == SHOP_JIGS ? "jigs" : "drawers", least, most,
           100.0 * proven / LISTS, several ? 100.0 * several_proven / several : 100, several, seconds_since(start) / LISTS, longest);
}

int main(void)
{
    bench_binpack();
    printf("%-14s %6s %8s %8s\n", "rectangles", "found", "at least", "seconds");
    for (int i = 1; i <= GCUT_PROBLEMS; i++)
        for (int turns = 0; turns < 2; turns++)
            bench_gcut(i, turns);
    printf("\n%-14s %9s %20s %8s %8s\n", "shop lists", "proven", "of several sheets", "seconds", "longest");
    for (int kind = 0; kind < SHOP_LIST_KINDS; kind++)
        for (int most = 10; most <= SHOP_PIECES_MOST; most += 10)
            bench_shop_lists((enum shop_list_kind)kind, most > 10 ? most - 9 : 5, most);
    return 0;
}
