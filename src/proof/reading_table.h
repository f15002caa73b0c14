/* reading_table.h: the small table of a method's bench page: what to move for what is read, made for the board, span or frame
   of the last test. Owns nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_READING_TABLE_H
#define FETTLE_PROOF_READING_TABLE_H

#include "proof.h"

/* Rows and limit of a table whose at, over, factor and error_per_mm are known. `gap`: what is read is a gap, with the leaves
   of the set where there is one (NULL: none); else a difference. Rows begin with the first reading that shows an error
   above the tolerance, so a row never tells to move what is within. */
void reading_table_fill(struct reading_table *, double tolerance, enum units, bool gap, const struct job_instrument *leaves);
/* Of every method that has one. The tests of the proof are judged already. */
void reading_tables_build(const struct job *, const struct setting *, struct proof *);

#endif
