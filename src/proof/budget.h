/* budget.h: what the methods share: gaps read with leaves, lines of a budget, what would decide, whether to move. Owns
   nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_BUDGET_H
#define FETTLE_PROOF_BUDGET_H

#include "proof.h"
#include "proof/instruments.h"

/* `leaves` ascending, n 0: read by another tool, whose step is `resolution`. A gap that is a leaf of the set is the
   leaf that goes: the gap lies halfway to the next that does not; 0: none goes, half the thinnest. Above the thickest leaf
   leaves are stacked, and the next try is the thinnest more. Between two leaves: as given, either may be as near. */
struct gap gap_of(double given, const double *leaves, size_t n, double resolution);
/* The same with a tool of the job; NULL or no set of leaves: read to its resolution. */
struct gap gap_read(double given, const struct job_instrument *);
/* No light at either end: it may stand open by up to the thinnest leaf, or half a step, on either side. */
struct gap gap_closed(const struct job_instrument *);

/* Lines of a budget, added to a test; room for MOST of them. */
enum { BUDGET_LINES_MOST = 8 };
void budget_begin(struct pool *, struct proof_test *);
void budget_add_limit(struct proof_test *, struct saying source, double half_width, double sensitivity);
void budget_add_mean(struct proof_test *, struct saying source, double deviation, int count, double dof,
                     double sensitivity);
void budget_add_standard(struct proof_test *, struct saying source, double u, double dof, double sensitivity);
/* The lines of a gap: how finely it was read, and the tool's limit. */
void budget_add_gap(struct proof_test *, const struct gap *, const struct job_instrument *, double sensitivity);
/* Repeated readings of one thing: scatter of their mean, never less than rounding alone gives. */
void budget_add_readings(struct proof_test *, struct saying source, const double *readings, size_t n,
                         double resolution, double sensitivity);
/* The tool's limit E/sqrt(3), or `share` of it where two nearly equal readings are compared. */
void budget_add_tool(struct proof_test *, const struct tool *, double share, double sensitivity);

/* Tolerance, and over which length its result is printed. */
void proof_limit_angle(struct proof_test *, const struct job_limit *);
void proof_limit_length(struct proof_test *, const struct num *error);
struct proof_figure *proof_add_figure(struct proof_test *, struct proof_figure);

/* After verdict_conclude: whether to make the move, whose distance and uncertainty stand in it already; `thinnest` leaf
   that gauges it, 0: none is needed. */
void advice_choose(const struct proof_test *, double thinnest, struct move *);
/* Where the test is undecided: the largest line of the budget is what to better. */
void decide_by_largest_line(struct proof_test *);

#endif
