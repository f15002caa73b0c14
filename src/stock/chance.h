/* stock/chance.h: numbers for the searches that try things by chance: always the same ones. Owns nothing.
   Private to src/stock. */
#ifndef FETTLE_STOCK_CHANCE_H
#define FETTLE_STOCK_CHANCE_H

#include <stdint.h>

#define CHANCE_SEED 88172645463325252u

/* xorshift of Marsaglia ("Xorshift RNGs", Journal of Statistical Software 8, 2003). */
static inline uint64_t chance_next(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return *state;
}

#endif
