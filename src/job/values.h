/* values.h: a function for each kind of value that a field may hold. May be included by src/job only. */
#ifndef FETTLE_JOB_VALUES_H
#define FETTLE_JOB_VALUES_H

#include "job/reader.h"

/* Reads one value into `base` at the field's offsets. node NULL: it is left out, and `home` is the mapping's place. */
typedef void value_reader(struct reader *, const struct field *, const struct node *, struct mark home, char *base);
extern value_reader *const read_value[]; /* by enum value_kind */

#endif
