/* tables.h: the field tables of a job's sections, each in the file named beside it. May be included by src/job only. */
#ifndef FETTLE_JOB_TABLES_H
#define FETTLE_JOB_TABLES_H

#include "job/reader.h"

extern const struct table saw_table;           /* saw.c */
extern const struct table air_table;           /* shop.c */
extern const struct table climate_table;       /* shop.c */
extern const struct table screw_table;         /* shop.c */
extern const struct table instrument_table;    /* shop.c */
extern const struct table tolerances_table;    /* shop.c */
extern const struct table retest_table;        /* shop.c */
extern const struct table cutting_table;       /* shop.c */
extern const struct table stock_table;         /* stock.c */
extern const struct table crosscut_sled_table; /* crosscut_sled.c, of struct job_jig */
extern const struct table parts_table;         /* parts.c, of struct job_jig */
extern const struct table jig_table;           /* kinds.c: what every jig may hold */
extern const struct table test_table;          /* methods.c: what every test may hold */
/* PREFIX.c each, of struct job_test */
#define METHOD(id, prefix, name) extern const struct table prefix##_table;
#include "job/methods.inc"
#undef METHOD
extern const struct table change_table;        /* methods.c */
extern const struct table root_table;          /* job.c */

extern const struct words side_words;          /* words.c */
extern const struct words fence_side_words;
extern const struct words toward_words;

extern const struct variants jig_variants;     /* kinds.c */
enum { TEST_METHODS_MOST = 16 };
extern const struct variants test_variants;    /* methods.c */

void crosscut_sled_check(struct reader *); /* what a sled needs of saw and stock */
void tests_check(struct reader *);         /* their dates, against the job's */

#endif
