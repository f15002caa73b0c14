/* sheet/findings.h: checks and moves in words, the same on every sheet. Private to src/sheet. */
#ifndef FETTLE_SHEET_FINDINGS_H
#define FETTLE_SHEET_FINDINGS_H

#include "sheet/blocks.h"

const char *check_title(const struct sheet_builder *, const struct plan_check *);
/* With its unit; with more places where the usual ones would contradict the verdict; in words where there is none
   (a tipping arm inside the table). */
const char *check_value(const struct sheet_builder *, const struct plan_check *);
const char *check_wanted(const struct sheet_builder *, const struct plan_check *); /* "≥ 25 mm", "0.05 to 0.25 mm" */
const char *check_verdict(const struct sheet_builder *, const struct plan_check *);
/* "Exit guard, depth: 60 mm, wanted ≥ 84.5 mm." in bold, and the same with what makes it pass. */
const char *check_headline(const struct sheet_builder *, const struct plan_check *);
const char *check_sentence(const struct sheet_builder *, const struct plan_check *);
/* What the one who keeps the job file writes into it: "In the job file: jig.base.depth: 596."; "": nothing. For the record
   alone: who stands at the saw or the bench needs no keys. */
const char *check_job_change(const struct sheet_builder *, const struct plan_check *);
/* The i-th failed check, those that hurt first; NULL: no more. */
const struct plan_check *check_failed(const struct sheet_builder *, int i);
/* Does the same remedy put both right? */
bool check_same_remedy(const struct sheet_builder *, const struct plan_check *, const struct plan_check *);
/* One earlier than the i-th failed check has the same remedy. */
bool check_told_before(const struct sheet_builder *, int i);
int checks_failed(const struct sheet_builder *);
int checks_cautioned(const struct sheet_builder *);

/* "Move the right end 0.435 mm toward the operator (leaves 0.40 + 0.05)." */
const char *move_sentence(const struct sheet_builder *, const struct move *);
/* Numbered actions that make the move, safest first. */
void move_steps(const struct sheet_builder *, struct block_list *, const struct proof_test *);

/* Steps of any move of the fence: which screws come out, and where they go in again. */
struct saying move_free_screws(const struct sheet_builder *);
struct saying move_fresh_holes(const struct sheet_builder *);

#endif
