/* The move of a fence, seen from above, x to the right and y away from the operator:

        y |                     . moving point, D to the right of the pivot
          |            . ' e       stands D tan e too far from the operator
          |   pivot o------------> x

   Its uncertainty follows from d(D tan e) = D de + tan e dD (to first order in e; GUM 5.1.2, from memory). */
#include "proof/turning.h"

#include "proof/leaves.h"

#include <math.h>

#define D_HALF_WIDTH 0.5 /* a_D: how well the distance from pivot to gauge is known, rectangular [mm]; judgement */

_Static_assert((int)LEAVES_MAX == (int)LEAVES_MOST, "a move has room for every leaf that the search can pick");

static double side_sign(enum side s)
{
    return s == SIDE_RIGHT ? 1 : -1;
}

enum toward turning_toward(double error, enum side moving_end)
{
    return side_sign(moving_end) * error > 0 ? TOWARD_OPERATOR : TOWARD_AWAY;
}

bool turning_find_pivot(const struct setting *s, const struct num *stated, bool end_stated, enum side stated_end,
                        double *distance, enum side *moving_end)
{
    *distance = s->has_fence ? s->pivot_to_moving : stated->v;
    *moving_end = s->has_fence ? (s->moving_x > s->pivot_x ? SIDE_RIGHT : SIDE_LEFT) : stated_end;
    return *distance > 0 && (s->has_fence || end_stated);
}

double turning_error_after(double error, double pivot_to_moving, enum side end, enum toward toward, double distance)
{
    double away = toward == TOWARD_AWAY ? distance : -distance;
    return atan(tan(error) + side_sign(end) * away / pivot_to_moving);
}

double turning_move_uncertainty(double error, double u_c, double coverage_factor, double pivot_to_moving)
{
    double u_pivot = D_HALF_WIDTH / sqrt(3); /* GUM 4.3.7 */
    return coverage_factor * hypot(pivot_to_moving * u_c, tan(error) * u_pivot);
}

/* The rule: leave what is within, what cannot be told from no move at all, and what no leaf can gauge. What
   is left is moved if it is outside, or if more strips, coming out as these did, would not show it within. */
static void choose_advice(const struct proof_test *t, struct move *m)
{
    double thinnest = m->set ? m->set->leaves[0] : 0;
    if (t->finding == FINDING_WITHIN) {
        m->advice = ADVICE_LEAVE;
        m->reason = SAYING_PLAIN("advice.leave.within");
    } else if (m->distance < m->uncertainty) {
        m->advice = ADVICE_LEAVE;
        m->reason = SAYING("advice.leave.unclear", SAY_ARG("move", SAY_MOVE, m->distance),
                           SAY_ARG("u", SAY_UNCERTAINTY, m->uncertainty));
    } else if (m->distance < thinnest / 2) {
        m->advice = ADVICE_LEAVE;
        m->reason =
            SAYING("advice.leave.thin", SAY_ARG("move", SAY_MOVE, m->distance), SAY_ARG("leaf", SAY_LIMIT, thinnest));
    } else if (t->finding == FINDING_OUTSIDE) {
        m->advice = ADVICE_MOVE;
        m->reason = SAYING_PLAIN("advice.move.outside");
    } else if (t->further_strips > 0 && fabs(t->error) <= t->tolerance) {
        m->advice = ADVICE_MEASURE_MORE;
        m->reason = SAYING("advice.measure_more", SAY_ARG("strips", SAY_COUNT_WORD, t->further_strips),
                           SAY_KEY("noun", t->further_strips == 1 ? "noun.strip" : "noun.strips"));
    } else {
        m->advice = ADVICE_MOVE;
        m->reason = SAYING_PLAIN("advice.move.undecided");
    }
}

static void pick_leaves(const struct job_instrument *set, struct move *m)
{
    struct leaves_pick pick = {.n = 0};
    if (set)
        pick = leaves_find(set->leaves, set->n_leaves, m->distance);
    for (int i = 0; i < pick.n; i++)
        m->leaves[i] = pick.leaf[i];
    m->n_leaves = pick.n;
    m->set = set;
    m->left_over = m->distance - pick.sum;
}

void turning_advise(const struct proof_test *t, double pivot_to_moving, enum side moving_end,
                    const struct job_instrument *set, struct move *m)
{
    *m = (struct move){.end = moving_end, .toward = turning_toward(t->error, moving_end)};
    m->distance = pivot_to_moving * fabs(tan(t->error));
    m->uncertainty = turning_move_uncertainty(t->error, t->standard_uncertainty, t->coverage_factor, pivot_to_moving);
    pick_leaves(set, m);
    double made = m->n_leaves ? m->distance - m->left_over : m->distance;
    m->expected_error = turning_error_after(t->error, pivot_to_moving, moving_end, m->toward, made);
    choose_advice(t, m);
}
