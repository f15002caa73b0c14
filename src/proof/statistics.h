/* statistics.h: the statistics that a proof needs, as pure functions of numbers. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_STATISTICS_H
#define FETTLE_PROOF_STATISTICS_H

#include <stddef.h>

double stat_mean(const double *x, size_t n);           /* n >= 1 */
double stat_sum_of_squares(const double *x, size_t n); /* about the mean; n >= 1 */
double stat_deviation(const double *x, size_t n);      /* with n - 1; NAN for n < 2 */

double stat_normal_cdf(double z);
double stat_normal_quantile(double p); /* 0 < p < 1 */
/* Student's t; dof > 0, whole or not, INFINITY gives the normal distribution. */
double stat_student_cdf(double t, double dof);
double stat_student_quantile(double p, double dof); /* 0 < p < 1 */

/* A standard uncertainty, or one contribution to it, with its degrees of freedom (INFINITY: without number). */
struct stat_term {
    double u, dof;
};
struct stat_budget {
    double u;        /* combined standard uncertainty */
    double dof;      /* effective degrees of freedom, unrounded */
    double factor;   /* k, by Student t at stat_whole_dof(dof) */
    double expanded; /* U = k u */
};
struct stat_term stat_combine(const struct stat_term *, size_t n); /* root sum of squares, Welch-Satterthwaite */
struct stat_budget stat_expand(const struct stat_term *, size_t n, double level); /* two-sided level, 0.95 */
double stat_whole_dof(double dof); /* the whole number below, at least 1; INFINITY stays */
/* Probability that a value known as `value` with this uncertainty lies within -tolerance to tolerance. */
double stat_conformance(double value, struct stat_term, double tolerance);

/* y = mean_y + slope (x - mean_x) by least squares. */
struct stat_line {
    double mean_x, mean_y, slope;
    double residual; /* standard deviation about the line; NAN for n < 3 */
    double u_slope;  /* standard uncertainty of the slope; NAN for n < 3 */
    double dof;      /* n - 2 */
};
struct stat_line stat_fit_line(const double *x, const double *y, size_t n); /* n >= 2, not all x the same */

#endif
