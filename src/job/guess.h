/* guess.h: the name that was probably meant. Owns nothing. May be included by src/job only. */
#ifndef FETTLE_JOB_GUESS_H
#define FETTLE_JOB_GUESS_H

#include <stddef.h>

struct guess {
    const char *wanted; /* as it stands in the job */
    const char *best;   /* the nearest name offered so far that is near enough; NULL: none */
    size_t distance;    /* letters added, dropped, changed or swapped with their neighbour; case does not count */
};
void guess_offer(struct guess *, const char *name);

#endif
