/* tools.h: which kinds of instrument can take which readings. May be included by src/job only. */
#ifndef FETTLE_JOB_TOOLS_H
#define FETTLE_JOB_TOOLS_H

#include "job/reader.h"

/* Reports the instrument of a test that cannot do it; none is fine: the default is assumed. */
void tools_check_lengths(struct reader *, const struct job_test *, const char *of_what);
void tools_check_gaps(struct reader *, const struct job_test *);

#endif
