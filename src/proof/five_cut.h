/* five_cut.h: the sums of the five-cut test, as pure functions of numbers. Lengths mm, angles rad. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_FIVE_CUT_H
#define FETTLE_PROOF_FIVE_CUT_H

#include "proof.h"
#include "proof/methods.h"
#include "proof/statistics.h"

/* The readings of one strip [mm], and the smallest step of the tool that read them. */
struct five_cut_widths {
    const double *fence_end, *far_end;
    size_t n_fence_end, n_far_end; /* at least 1 each */
};

/* c of error = c (fence end - far end)/(4 L). */
int five_cut_sign(enum fence_side, enum side offcut);
struct five_cut_run five_cut_run_of(const struct five_cut_widths *, double length);
/* Step 1: spread of repeated readings of one end, pooled over all ends [mm]; dof INFINITY where nothing was repeated. */
struct stat_term five_cut_reading_spread(const struct five_cut_widths *, size_t n, double resolution);
/* Step 1: what reading adds to one strip's slope [rad], mean square over the strips. */
double five_cut_u_reading(const struct five_cut_widths *, size_t n, double reading_spread, double resolution, double length);

/* All that the budget follows from. */
struct five_cut_basis {
    int strips;                /* n, at least 1 */
    double error;              /* [rad] */
    double length;             /* L */
    double run_spread;         /* s [rad]; not used for one strip */
    struct stat_term reading;  /* u_read of a strip [rad], nu_r */
    struct stat_term earlier;  /* s0 [rad], nu0 */
    double error_limit;        /* E of the tool [mm] */
};
enum five_cut_line { FIVE_CUT_RUNS, FIVE_CUT_READING, FIVE_CUT_TOOL, FIVE_CUT_LENGTH, FIVE_CUT_LINES };
/* Steps 2 to 4: the lines of the budget; FIVE_CUT_READING is 0 unless there is one strip only, since the spread of runs
   already holds it. */
void five_cut_lines(const struct five_cut_basis *, struct stat_term out[FIVE_CUT_LINES]);
struct stat_budget five_cut_budget(const struct five_cut_basis *);

enum { FURTHER_STRIPS_MOST = 20 };
/* The smallest number of further strips for which mean and spread as they are would decide; 0: no number up to 20. */
int five_cut_further(const struct five_cut_basis *, double tolerance);

/* What a next test has to go by before it is made: spread of runs from the job, earlier tests or the default (sets
   *from to a words key), and the tool. */
struct stat_term five_cut_earlier_spread(const struct five_cut_readings *, const struct proof_test *earlier, size_t n_earlier,
                                         const char **from);
double five_cut_resolution(const struct job_instrument *);  /* NULL: the default calliper [mm] */
double five_cut_error_limit(const struct job_instrument *); /* NULL: the default calliper [mm] */
const struct job_instrument *five_cut_leaf_set(const struct job *); /* the job's first set of leaves; NULL: none */

/* The row of methods. */
void five_cut_prove(const struct proving *, const struct job_test *, struct proof_test *out);
double five_cut_after_move(const struct proof_test *, double error, const struct job_moved *);

#endif
