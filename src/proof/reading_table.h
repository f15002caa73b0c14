/* reading_table.h: the small table of a method's bench page: what to move for what is read, made for the board, span or frame
   of the last test; and the zones of every method's error: up to where to leave it alone, from where to move it. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_READING_TABLE_H
#define FETTLE_PROOF_READING_TABLE_H

#include "proof.h"

/* Of every method. The tests of the proof are judged already. An error's zone is found by proving tests that read it, at every
   length from zones.least_at up, so the bench page cannot say other than the record will. Other readings that an error depends on, such as the scatter of
   a stop's pieces, count as in the latest test. */
void reading_tables_build(const struct job *, const struct setting *, struct proof *);

#endif
