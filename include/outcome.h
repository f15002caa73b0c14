/* outcome.h: what all of it comes to: the state of the jig, until when, and what counts against it.
   Made by src/outcome from plan, cutting, proof. Sheets and results both say what stands here. */
#ifndef FETTLE_OUTCOME_H
#define FETTLE_OUTCOME_H

#include "cutting.h"
#include "job.h"
#include "plan.h"
#include "proof.h"

enum state { STATE_DO_NOT_USE, STATE_NOT_PROVEN, STATE_NOT_TESTED, STATE_FIT };

/* One reason for the state, or one caution, worst first. */
struct finding_line {
    enum verdict verdict;
    bool hurts;
    struct saying what, remedy;
    struct saying brief; /* of a check: what is wrong, in one short sentence; else key NULL */
};

struct outcome {
    struct pool pool;
    enum state state;
    const struct proof_test *deciding; /* the test that decides squareness; NULL: none */
    const struct proof_test *open;     /* the first latest test, worst first, that is not within or is stale; NULL: none */
    struct date due;                   /* earlier of interval and drift; {0}: none */
    bool due_is_drift;
    struct finding_line *lines;        /* failed checks, tests outside, then cautions */
    size_t n_lines, n_failed;
    const struct plan_check *checks;   /* the plan's, then the cutting's; at most one is stock_fits */
    size_t n_checks;
};

/* cutting NULL: nothing is said of it. */
void outcome_build(const struct plan *, const struct cutting *, const struct proof *, struct outcome *out);
void outcome_free(struct outcome *);
/* A stale test of squareness after which a newer one that counts was made by another method. */
bool outcome_is_replaced(const struct proof *, const struct proof_test *);
bool outcome_is_overdue(const struct outcome *, struct date today);
/* The state that results, job line and exit status tell on that day: fit becomes not-proven when overdue. */
enum state outcome_state_on(const struct outcome *, struct date today);
int outcome_exit_status(enum state); /* 0 or 1 */
const char *outcome_state_id(enum state);  /* "do-not-use" */
const char *outcome_state_key(enum state); /* words key */

#endif
