/* A small generator with a fixed seed: xorshift64* (Vigna 2016). The same numbers on every machine. */
#ifndef FETTLE_TESTS_RANDOM_H
#define FETTLE_TESTS_RANDOM_H

#include <stdint.h>

struct random {
    uint64_t state; /* not 0 */
};

static inline double random_between(struct random *r, double low, double high)
{
    r->state ^= r->state >> 12;
    r->state ^= r->state << 25;
    r->state ^= r->state >> 27;
    return low + (high - low) * (double)((r->state * UINT64_C(2685821657736338717)) >> 11) / 9007199254740992.0;
}

static inline int random_below(struct random *r, int n)
{
    int i = (int)random_between(r, 0, n);

    return i < n ? i : n - 1;
}

#endif
