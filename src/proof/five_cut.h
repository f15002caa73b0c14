/* five_cut.h: the five-cut test as a row of methods, and what it assumes. Lengths mm, angles rad. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_FIVE_CUT_H
#define FETTLE_PROOF_FIVE_CUT_H

#include "proof/five_cut_sums.h"
#include "proof/methods.h"

/* What a next test has to go by before it is made: spread of runs from the job, earlier tests or the default (sets
 *from to a words key), and the tool. */
struct stat_term five_cut_earlier_spread(const struct five_cut_readings *, const struct proof_test *earlier,
                                         size_t n_earlier, const char **from);
/* The spread of runs in this sled's own tests so far, pooled; dof 0: none with two strips or more. */
struct stat_term five_cut_own_spread(const struct proof_test *tests, size_t n);
double five_cut_resolution(const struct job_instrument *);          /* NULL: the default caliper [mm] */
double five_cut_error_limit(const struct job_instrument *);         /* NULL: the default caliper [mm] */
const struct job_instrument *five_cut_leaf_set(const struct job *); /* the job's first set of leaves; NULL: none */

/* The row of methods. */
void five_cut_prove(const struct proving *, const struct job_test *, struct proof_test *out);
double five_cut_after_move(const struct proof_test *, double error, const struct job_moved *);

#endif
