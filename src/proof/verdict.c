/* The decision rule: a guard band as wide as the expanded uncertainty on either side of the limit (ILAC-G8:09/2019,
   4.2.2, w = U), so that the shop may err only by calling a jig undecided. */
#include "proof/verdict.h"

#include "proof/statistics.h"

#include <assert.h>
#include <math.h>

enum { MOST_LINES = 8 }; /* of one budget */

enum finding verdict_find(double error, double expanded, double tolerance)
{
    if (fabs(error) + expanded <= tolerance)
        return FINDING_WITHIN;
    return fabs(error) - expanded > tolerance ? FINDING_OUTSIDE : FINDING_UNDECIDED;
}

void verdict_conclude(struct proof_test *t)
{
    assert(t->n_lines <= MOST_LINES && "a budget longer than any method makes");
    struct stat_term terms[MOST_LINES];
    for (int i = 0; i < t->n_lines; i++)
        terms[i] = (struct stat_term){t->lines[i].u, t->lines[i].dof};
    struct stat_budget b = stat_expand(terms, (size_t)t->n_lines, CONFIDENCE);
    t->error_over = t->error * t->over_length;
    t->standard_uncertainty = b.u;
    t->dof = b.dof;
    t->coverage_factor = b.factor;
    t->expanded_uncertainty = b.expanded;
    t->conformance_probability = stat_conformance(t->error, (struct stat_term){b.u, b.dof}, t->tolerance);
    t->finding = verdict_find(t->error, b.expanded, t->tolerance);
}
