/* What the tests of the further methods share: a job with one test, proven; leaves and tools as they read; coverage. */
#ifndef FETTLE_TESTS_PROOF_METHOD_KIT_H
#define FETTLE_TESTS_PROOF_METHOD_KIT_H

#include "by_hand.h"

static const double degree = 3.14159265358979323846 / 180;

/* A job by hand with the default tolerances of the format, and one test of a method with the tool. */
static inline struct job_test *kit_begin(struct hand *h, enum method method, const struct job_instrument *tool)
{
    hand_begin(h);
    h->job.tolerances.mitre = (struct job_limit){given(0.10), given(100)};
    h->job.tolerances.bow = given(0.10);
    h->job.tolerances.box_pitch = given(0.02);
    h->job.tolerances.side_play_low = given(0.05);
    h->job.tolerances.side_play_high = given(0.25);
    h->job.n_tests = 1;
    h->tests[0] = (struct job_test){.method = method, .date = day("2026-11-02"), .instrument = tool};
    return &h->tests[0];
}

/* The leaf that goes into a gap, 0 where none does: leaves of the set one at a time, then the thickest with another. */
static inline double kit_leaf(double gap, const double *leaves, size_t n)
{
    double goes = 0;
    for (size_t i = 0; i < n; i++)
        if (leaves[i] <= gap)
            goes = leaves[i];
    return goes;
}

static inline double kit_round(double v, double step)
{
    return round(v / step) * step;
}

/* The share of 20,000 tests, each drawn by `draw`, whose error lies within U of the truth. */
enum { KIT_TRIALS = 20000 };
typedef double kit_draw(struct hand *, struct hand_random *, const void *with); /* sets the readings; gives the truth */
static inline double kit_coverage(struct hand *h, uint64_t seed, kit_draw *draw, const void *with)
{
    struct hand_random r = {seed};
    int covered = 0;
    for (int i = 0; i < KIT_TRIALS; i++) {
        double truth = draw(h, &r, with);
        const struct proof_test *t = hand_prove(h);
        covered += fabs(t->error - truth) <= t->expanded_uncertainty;
    }
    return (double)covered / KIT_TRIALS;
}

#endif
