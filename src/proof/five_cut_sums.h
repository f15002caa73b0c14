/* five_cut_sums.h: the sums of the five-cut test, as pure functions of numbers. Lengths mm, angles rad. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_FIVE_CUT_SUMS_H
#define FETTLE_PROOF_FIVE_CUT_SUMS_H

#include "proof.h"
#include "proof/statistics.h"

/* Judgement of this program, printed in the budget. */
#define DIFFERENCE_SHARE 0.2  /* share of a tool's limit that differs between two nearly equal widths */
#define LENGTH_HALF_WIDTH 0.5 /* a_L: how well L is known, rectangular [mm] */

/* The readings of one strip [mm]. */
struct five_cut_widths {
    const double *fence_end, *far_end;
    size_t n_fence_end, n_far_end; /* at least 1 each */
};

/* c of error = c (fence end - far end)/(4 L). */
int five_cut_sign(enum fence_side, enum side offcut);
struct five_cut_run five_cut_run_of(const struct five_cut_widths *, double length);
/* Spread of repeated readings of one end, pooled over all ends [mm]; dof INFINITY where none was repeated. */
struct stat_term five_cut_reading_spread(const struct five_cut_widths *, size_t n, double resolution);
/* What reading adds to one strip's slope [rad], mean square over the strips. */
double five_cut_u_reading(const struct five_cut_widths *, size_t n, double reading_spread, double resolution,
                          double length);

/* All that the budget follows from. */
struct five_cut_basis {
    int strips;               /* n, at least 1 */
    double error;             /* [rad] */
    double length;            /* L */
    double run_spread;        /* s [rad]; not used for one strip */
    struct stat_term reading; /* u_read of a strip [rad], nu_r */
    struct stat_term earlier; /* s0 [rad], nu0 */
    double error_limit;       /* E of the tool [mm] */
};
enum five_cut_line { FIVE_CUT_RUNS, FIVE_CUT_READING, FIVE_CUT_TOOL, FIVE_CUT_LENGTH, FIVE_CUT_LINES };
/* The lines of the budget; FIVE_CUT_READING is 0 unless there is one strip only, since the spread of runs
   already holds it. */
void five_cut_lines(const struct five_cut_basis *, struct stat_term out[FIVE_CUT_LINES]);
struct stat_budget five_cut_budget(const struct five_cut_basis *);

enum { FURTHER_STRIPS_MOST = 20 };
/* The smallest number of further strips for which mean and spread as they are would decide; 0: no number up to 20. */
int five_cut_further(const struct five_cut_basis *, double tolerance);

#endif
