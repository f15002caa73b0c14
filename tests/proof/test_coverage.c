/* Does U cover? Tests are drawn at random with every line of the budget from the distribution that it states, 20,000
   for each row, and counted: how often lies the true error within U of the result. Then one line is taken out of the
   budget, and the count must fall out of the band: the band can tell a missing line. */
#include "by_hand.h"

#include "proof/five_cut.h"
#include "proof/verdict.h"

enum { TRIALS = 20000, STRIPS_MOST = 5, READINGS_MOST = 3 };

struct coverage_row {
    int strips, readings; /* n, and readings of each end */
    double error, length; /* true error [rad], L as it is written down [mm] */
    double runs;          /* true spread of runs [rad] */
    int earlier_dof;      /* the earlier spread is an estimate of it with that many degrees of freedom */
    double scatter, step; /* of a reading, and of the tool's display [mm] */
    double limit;         /* E of the tool [mm] */
    enum five_cut_line matters;
};

static const struct coverage_row rows[] = {
    {1, 3, 1.4e-4, 388, 3.0e-5, 6, 0.007, 0.01,  0.03, FIVE_CUT_RUNS   },
    {1, 3, 1.4e-4, 388, 2.0e-6, 6, 0.020, 0.01,  0.03, FIVE_CUT_READING},
    {1, 3, 1.4e-4, 388, 2.0e-6, 6, 0.002, 0.001, 0.15, FIVE_CUT_TOOL   },
    {1, 3, 2.0e-2, 150, 8.0e-6, 6, 0.002, 0.001, 0.03, FIVE_CUT_LENGTH },
    {2, 3, 1.4e-4, 388, 3.0e-5, 3, 0.007, 0.01,  0.03, FIVE_CUT_RUNS   },
    {2, 3, 1.4e-4, 388, 3.0e-6, 6, 0.002, 0.001, 0.15, FIVE_CUT_TOOL   },
    {2, 3, 2.0e-2, 150, 8.0e-6, 6, 0.002, 0.001, 0.03, FIVE_CUT_LENGTH },
    {3, 3, 1.4e-4, 388, 1.0e-5, 2, 0.007, 0.01,  0.03, FIVE_CUT_RUNS   },
    {3, 1, 1.4e-4, 388, 3.0e-5, 2, 0.007, 0.01,  0.03, FIVE_CUT_RUNS   },
    {3, 3, 1.4e-4, 388, 7.0e-6, 2, 0.002, 0.001, 0.10, FIVE_CUT_TOOL   },
    {3, 3, 1.5e-2, 150, 3.0e-5, 2, 0.002, 0.001, 0.03, FIVE_CUT_LENGTH },
    {5, 3, 1.4e-4, 388, 1.0e-5, 2, 0.007, 0.01,  0.03, FIVE_CUT_RUNS   },
    {5, 3, 1.4e-4, 388, 1.0e-5, 2, 0.002, 0.001, 0.10, FIVE_CUT_TOOL   },
    {5, 3, 1.2e-2, 150, 3.0e-5, 2, 0.002, 0.001, 0.03, FIVE_CUT_LENGTH },
};

/* A standard deviation as dof + 1 normal values would show it. */
static double draw_estimate(struct hand_random *r, double true_spread, int dof)
{
    double squares = 0;
    for (int i = 0; i < dof; i++) {
        double z = hand_normal(r);
        squares += z * z;
    }
    return true_spread * sqrt(squares / dof);
}

static double draw_reading(struct hand_random *r, const struct coverage_row *row, double width)
{
    return round((width + row->scatter * hand_normal(r)) / row->step) * row->step;
}

/* One test of the bench, as it is read. */
static void draw_readings(struct hand_random *r, const struct coverage_row *row, double fence[][READINGS_MOST],
                          double far[][READINGS_MOST])
{
    double length = row->length + hand_within(r, -0.5, 0.5), tool = 0.2 * row->limit * hand_within(r, -1, 1);
    for (int i = 0; i < row->strips; i++) {
        double width = hand_within(r, 20, 25), taper = 4 * length * (row->error + row->runs * hand_normal(r));
        for (int k = 0; k < row->readings; k++) {
            fence[i][k] = draw_reading(r, row, width + taper + tool);
            far[i][k] = draw_reading(r, row, width);
        }
    }
}

static struct five_cut_basis draw_basis(struct hand_random *r, const struct coverage_row *row)
{
    double fence[STRIPS_MOST][READINGS_MOST], far[STRIPS_MOST][READINGS_MOST], slopes[STRIPS_MOST];
    struct five_cut_widths w[STRIPS_MOST];
    draw_readings(r, row, fence, far);
    for (int i = 0; i < row->strips; i++) {
        w[i] = (struct five_cut_widths){fence[i], far[i], (size_t)row->readings, (size_t)row->readings};
        slopes[i] = five_cut_run_of(&w[i], row->length).slope;
    }
    size_t n = (size_t)row->strips;
    struct stat_term reading = five_cut_reading_spread(w, n, row->step);
    reading.u = five_cut_u_reading(w, n, reading.u, row->step, row->length);
    return (struct five_cut_basis){
        .strips = row->strips,
        .error = stat_mean(slopes, n),
        .length = row->length,
        .run_spread = stat_deviation(slopes, n),
        .reading = reading,
        .earlier = {draw_estimate(r, row->runs, row->earlier_dof), row->earlier_dof},
        .error_limit = row->limit
    };
}

/* Share of tests whose U covers the true error: with the whole budget, and without the line that matters. */
static void count_covered(const struct coverage_row *row, double *all, double *without)
{
    struct hand_random r = {(uint64_t)(row - rows) + 100};
    int covered = 0, covered_without = 0;
    for (int i = 0; i < TRIALS; i++) {
        struct five_cut_basis b = draw_basis(&r, row);
        struct stat_term lines[FIVE_CUT_LINES];
        double off = fabs(b.error - row->error);
        covered += off <= five_cut_budget(&b).expanded;
        five_cut_lines(&b, lines);
        lines[row->matters].u = 0;
        covered_without += off <= stat_expand(lines, FIVE_CUT_LINES, CONFIDENCE).expanded;
    }
    *all = (double)covered / TRIALS;
    *without = (double)covered_without / TRIALS;
}

static void test_five_cut_budget_covers_and_needs_every_line(void **state)
{
    (void)state;
    int failures = 0;
    for (size_t i = 0; i < COUNT(rows); i++) {
        double all, without, most = rows[i].strips >= 3 ? 0.97 : 1;
        count_covered(&rows[i], &all, &without);
        bool good = all >= 0.93 && all <= most && without < 0.93;
        if (!good)
            print_message("row %zu: %d strips: covered %.4f, without line %d %.4f\n", i, rows[i].strips, all,
                          (int)rows[i].matters, without);
        failures += !good;
    }
    assert_int_equal(failures, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_five_cut_budget_covers_and_needs_every_line)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
