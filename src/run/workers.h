/* run/workers.h: doing the same thing to many jobs, some at a time. Private to src/run. */
#ifndef FETTLE_RUN_WORKERS_H
#define FETTLE_RUN_WORKERS_H

#include <stddef.h>

/* Calls work(context, i) once for each i below count, on up to `at_a_time` threads; returns when all are done. */
void workers_run(size_t count, int at_a_time, void (*work)(void *context, size_t i), void *context);

#endif
