/* stop_sums.h: the line of a stop's errors over its settings, and what it foretells. Lengths mm. Owns nothing. May be
   included by src/proof and its tests. */
#ifndef FETTLE_PROOF_STOP_SUMS_H
#define FETTLE_PROOF_STOP_SUMS_H

#include "proof/statistics.h"

/* A value foretold from a line of n points. */
struct stop_forecast {
    double value;
    double u_line;   /* standard uncertainty of the line there */
    double u_single; /* of one new value there: the scatter added */
};
/* u^2 = s^2 (1/n + (x - mean)^2/Sxx): about the mean setting intercept and slope do not go together, so no covariance
   is left to add (GUM H.3.4, from memory). */
struct stop_forecast stop_foretell(const struct stat_line *, size_t n, double x);
/* Further pairs that would decide, mean and scatter staying as they are: 1 to most; 0: none does. */
int stop_further(double error, double scatter, size_t n, size_t lost_dof, double u_rest, double tolerance, int most);

#endif
