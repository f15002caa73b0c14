/* use.h: the texts that make up a job, as one mapping of sections. May be included by src/job only. */
#ifndef FETTLE_JOB_USE_H
#define FETTLE_JOB_USE_H

#include "job/reader.h"

/* Parses the job's text and the files that it uses; fills job.sources and job.fingerprint, the reader's units of each
   file, and excuse_absent where something could not be read. NULL: nothing can be read of it. */
const struct node *use_read(struct reader *, const char *name, const char *text, size_t size);
/* A whole file; false after an error, which stands at that place. */
bool use_read_bytes(struct diags *, const char *name, struct mark, const char *path, struct text *out);

#endif
