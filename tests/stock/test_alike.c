/* Sheets that are alike: drawn once, the same cut of each with one number. */
#include "stock/cut_job.h"

enum { LISTS = 60 };

/* One part of 600 x 390 fills a sheet of 610 x 400: three of them take three sheets, two cuts each. The part of 500 x 390
   has a sheet of its own, a little different. */
static void test_three_sheets_alike_share_the_numbers_of_their_cuts(void **state)
{
    (void)state;
    struct cut_job *j = cut_job_make("fettle: 1\njob: {number: A-1, title: alike}\nunits: mm\n"
                             "saw: {blade: {kerf: 3}}\n"
                             "stock:\n  ply: {material: birch-plywood, thickness: 12, sheet: [610, 400]}\n"
                             "jig:\n  kind: parts\n  parts:\n"
                             "    - {name: panel, stock: ply, length: 600, width: 390, quantity: 3}\n"
                             "    - {name: door, stock: ply, length: 500, width: 390}\n");
    const struct cutting_stock *s = &j->cutting.stocks[0];
    assert_int_equal(s->n_sheets, 4);
    assert_int_equal(s->n_cuts, 8);
    size_t of_three = 0, alone = 0;
    for (size_t i = 0; i < s->n_sheets; i++) {
        of_three += s->sheets[i].n_alike == 3;
        alone += s->sheets[i].n_alike == 1 && s->sheets[i].alike == i;
    }
    assert_int_equal(of_three, 3);
    assert_int_equal(alone, 1);
    int most = 0;
    for (size_t i = 0; i < s->n_cuts; i++)
        most = s->cuts[i].number > most ? s->cuts[i].number : most;
    assert_int_equal(most, 4);
    cut_job_free(j);
}

/* On each sheet the numbers ascend, so that no panel is sawn before it is there; from 1, none left out; a shared number is
   the same cut with the same setting, made the same way, or trims the edge opposite by eye. */
static void check_numbers(const struct cutting_stock *s)
{
    int most = 0;
    for (size_t i = 0; i < s->n_cuts; i++) {
        const struct cut_line *c = &s->cuts[i];
        assert_true(c->number >= 1 && c->number <= most + 1);
        most = c->number > most ? c->number : most;
        for (size_t k = 0; k < i; k++) {
            const struct cut_line *d = &s->cuts[k];
            if (d->sheet == c->sheet)
                assert_true(d->number < c->number || (d->number == c->number && cutting_is_by_eye(c) && !d->keeps_higher && c->keeps_higher));
            if (d->number != c->number)
                continue;
            assert_int_equal(d->along_y, c->along_y);
            assert_int_equal(d->way, c->way);
            if (cutting_is_by_eye(d) && d->keeps_higher != c->keeps_higher)
                continue;
            assert_int_equal(s->sheets[d->sheet].alike, s->sheets[c->sheet].alike);
            assert_within(d->fence, c->fence, 1e-6);
            assert_within(d->panel.w, c->panel.w, 1e-6);
            assert_within(d->panel.h, c->panel.h, 1e-6);
        }
    }
}

static void test_numbers_of_random_lists(void **state)
{
    (void)state;
    size_t alike = 0;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        struct cut_job *j = cut_job_of_list(seed);
        for (size_t i = 0; i < j->cutting.n_stocks; i++) {
            const struct cutting_stock *s = &j->cutting.stocks[i];
            check_numbers(s);
            for (size_t k = 0; k < s->n_sheets; k++)
                alike += s->sheets[k].n_alike > 1;
        }
        cut_job_free(j);
    }
    assert_true(alike > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_three_sheets_alike_share_the_numbers_of_their_cuts),
        cmocka_unit_test(test_numbers_of_random_lists),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
