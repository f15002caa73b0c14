/* Jobs and settings built in C, without a reader: a sled with the sizes of the sample job by default, no tests. */
#ifndef FETTLE_TESTS_PROOF_BY_HAND_H
#define FETTLE_TESTS_PROOF_BY_HAND_H

#include "close.h"
#include "proof.h"
#include "proof/methods.h"
#include "proof/reading_table.h"

#include <string.h>

enum { HAND_TESTS = 32, HAND_STRIPS = 16, HAND_CHANGES = 8 };

struct hand {
    struct job job;
    struct setting setting;
    struct job_test tests[HAND_TESTS];
    struct five_cut_strip strips[HAND_TESTS][HAND_STRIPS];
    struct job_change changes[HAND_CHANGES];
    struct job_instrument instruments[2];
    struct proof proof;
};

static const double hand_leaves[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.00};

static inline struct num given(double v)
{
    return (struct num){.v = v, .given = true};
}

static inline struct num not_given(double v)
{
    return (struct num){.v = v};
}

static inline struct date day(const char *s)
{
    struct date d;
    assert_true(date_parse(s, &d));
    return d;
}

/* The sled of the sample job TS-07: near fence, pivot 330 left, gauge 280 right, work to 420 wide, squareness 0.10 over
 * 300. */
static inline void hand_begin(struct hand *h)
{
    memset(h, 0, sizeof *h);
    h->instruments[0] = (struct job_instrument){
        .name = "caliper-3", .kind = INSTRUMENT_CALIPER, .resolution = given(0.01), .error_limit = given(0.03)};
    h->instruments[1] = (struct job_instrument){.name = "leaves-1",
                                                .kind = INSTRUMENT_FEELER,
                                                .leaves = hand_leaves,
                                                .n_leaves = sizeof hand_leaves / sizeof *hand_leaves};
    h->job.instruments = h->instruments;
    h->job.n_instruments = 2;
    h->job.tests = h->tests;
    h->job.changes = h->changes;
    h->job.tolerances.squareness = (struct job_limit){given(0.10), given(300)};
    h->job.retest_months = not_given(NAN);
    h->setting = (struct setting){.has_fence = true,
                                  .fence_side = FENCE_NEAR,
                                  .pivot_x = -330,
                                  .moving_x = 280,
                                  .pivot_to_moving = 610,
                                  .capacity_width = 420,
                                  .proof_length = 350};
}

static inline struct job_test *hand_test(struct hand *h, const char *date, enum side offcut, double length)
{
    assert_true(h->job.n_tests < HAND_TESTS);
    struct job_test *t = &h->tests[h->job.n_tests];
    *t = (struct job_test){.method = METHOD_FIVE_CUT, .date = day(date), .instrument = &h->instruments[0]};
    t->as.five_cut = (struct five_cut_readings){.offcut = offcut,
                                                .length = given(length),
                                                .strips = h->strips[h->job.n_tests++],
                                                .spread_error = not_given(NAN),
                                                .spread_over = not_given(NAN),
                                                .spread_dof = not_given(NAN),
                                                .pivot_to_moving = not_given(NAN)};
    return t;
}

/* The arrays are borrowed. */
static inline void hand_strip_of(struct job_test *t, const double *fence, size_t n_fence, const double *far,
                                 size_t n_far)
{
    struct five_cut_strip *s = (struct five_cut_strip *)&t->as.five_cut.strips[t->as.five_cut.n_strips++];
    assert_true(t->as.five_cut.n_strips <= HAND_STRIPS);
    s->fence_end = (struct readings){.v = fence, .n = n_fence};
    s->far_end = (struct readings){.v = far, .n = n_far};
}
#define COUNT(a) (sizeof(a) / sizeof *(a))
#define hand_strip(t, fence, far) hand_strip_of((t), (fence), COUNT(fence), (far), COUNT(far))

/* A strip read once at either end. */
static inline void hand_strip_once(struct hand *h, struct job_test *t, double fence, double far)
{
    double *v = pool_alloc(&h->job.pool, 2 * sizeof *v);
    v[0] = fence;
    v[1] = far;
    hand_strip_of(t, v, 1, v + 1, 1);
}

/* A test of n strips whose error is `error` [rad], near fence and offcut right, with strips that scatter by `step`
   [rad] about it in steps of one another: their standard deviation is step for 3 strips. */
static inline struct job_test *hand_test_of_error(struct hand *h, const char *date, int n, double error, double step)
{
    struct job_test *t = hand_test(h, date, SIDE_RIGHT, 400);
    for (int i = 0; i < n; i++)
        hand_strip_once(h, t, 25 + 1600 * (error + step * (i - (n - 1) / 2.0)), 25);
    return t;
}

static inline void hand_move(struct job_test *t, enum side end, enum toward toward, double distance)
{
    t->moved = (struct job_moved){.given = true, .end = end, .toward = toward, .distance = given(distance)};
}

static inline struct job_change *hand_change(struct hand *h, const char *date, bool ends_five_cut)
{
    struct job_change *c = &h->changes[h->job.n_changes++];
    *c = (struct job_change){.date = day(date), .what = {.s = "new runner"}};
    c->ends[METHOD_FIVE_CUT] = ends_five_cut;
    return c;
}

/* Without reading tables and zones, which prove a test many times over. */
static inline struct proof_test *hand_prove(struct hand *h)
{
    proof_free(&h->proof);
    proof_judge(&h->job, &h->setting, &h->proof);
    return h->proof.n_tests ? &h->proof.tests[h->proof.n_tests - 1] : NULL;
}

static inline struct proof_test *hand_prove_with_tables(struct hand *h)
{
    struct proof_test *last = hand_prove(h);
    reading_tables_build(&h->job, &h->setting, &h->proof);
    return last;
}

static inline void hand_end(struct hand *h)
{
    proof_free(&h->proof);
    pool_free(&h->job.pool);
}

/* A fixed generator: SplitMix64 (Steele, Lea and Flood 2014; constants from memory). */
struct hand_random {
    uint64_t state;
};
static inline double hand_uniform(struct hand_random *r)
{
    uint64_t z = r->state += 0x9E3779B97F4A7C15u;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9u;
    z = (z ^ z >> 27) * 0x94D049BB133111EBu;
    return ((double)((z ^ z >> 31) >> 11) + 0.5) / 9007199254740992.0;
}
static inline double hand_within(struct hand_random *r, double low, double high)
{
    return low + (high - low) * hand_uniform(r);
}
/* Standard normal, by Box and Muller: no function of the program is used. */
static inline double hand_normal(struct hand_random *r)
{
    double u = hand_uniform(r), v = hand_uniform(r);
    return sqrt(-2 * log(u)) * cos(2 * 3.14159265358979323846 * v);
}

#endif
