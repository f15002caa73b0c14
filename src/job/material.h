/* material.h: finding materials by name. The public part is in job.h. May be included by src/job only. */
#ifndef FETTLE_JOB_MATERIAL_H
#define FETTLE_JOB_MATERIAL_H

#include "job.h"
#include "job/guess.h"

void material_guess(struct guess *); /* offers every name */
const char *material_name(size_t i); /* in the order of the table, then "other"; NULL past the end */

#endif
