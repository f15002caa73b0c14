/* one_test.h: jobs of one test of any method, what its move says, and counting how often U covers. */
#ifndef FETTLE_TESTS_PROOF_ONE_TEST_H
#define FETTLE_TESTS_PROOF_ONE_TEST_H

#include "by_hand.h"

#include "proof/statistics.h"

enum { COVERAGE_TRIALS = 20000 };

static inline void one_begin(struct hand *h)
{
    hand_begin(h);
    h->job.tolerances.blade_tilt = (struct job_limit){given(0.10), given(50)};
    h->job.tolerances.slot = (struct job_limit){given(0.08), given(200)};
    h->job.tolerances.stop_error = given(0.2);
    h->job.tolerances.stop_spread = given(0.1);
}

/* The job's only test; tool NULL: none is named. */
static inline struct job_test *one_test(struct hand *h, enum method method, const struct job_instrument *tool)
{
    h->job.n_tests = 1;
    h->tests[0] = (struct job_test){.method = method, .date = day("2026-11-02"), .instrument = tool};
    return &h->tests[0];
}

static inline const struct say_arg *said(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return &s->arg[i];
    fail_msg("nothing said of \"%s\"", name);
    return NULL;
}

/* Where a word of left and right stands, +1 right. */
static inline double said_side(const struct saying *s, const char *name)
{
    const char *key = said(s, name)->text;
    assert_true(strcmp(key, "side.left") == 0 || strcmp(key, "side.right") == 0);
    return strcmp(key, "side.right") == 0 ? 1 : -1;
}

/* The leaf of a set that goes into a gap, and none thicker: 0 where none does. */
static inline double leaf_that_goes(const double *leaves, size_t n, double gap)
{
    double goes = 0;
    for (size_t i = 0; i < n; i++)
        if (leaves[i] <= gap)
            goes = leaves[i];
    return goes;
}

/* Covered as it is, and with one line of the budget taken out. */
struct covered {
    int all, without;
};
static inline void count_one(struct covered *c, const struct proof_test *t, double true_error, int line)
{
    struct stat_term terms[8];
    double off = fabs(t->error - true_error);
    for (int i = 0; i < t->n_lines; i++)
        terms[i] = (struct stat_term){i == line ? 0 : t->lines[i].u, t->lines[i].dof};
    c->all += off <= t->expanded_uncertainty;
    c->without += off <= stat_expand(terms, (size_t)t->n_lines, 0.95).expanded;
}
static inline bool covers_and_needs_the_line(const struct covered *c)
{
    double all = (double)c->all / COVERAGE_TRIALS, without = (double)c->without / COVERAGE_TRIALS;
    bool good = all >= 0.94 && without < 0.93;
    if (!good)
        print_message("covered %.4f, without the line %.4f\n", all, without);
    return good;
}

#endif
