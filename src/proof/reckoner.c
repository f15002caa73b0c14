/* The reckoner holds for one sled, one length L between the marks, one side of the strip: move = difference x D/(4 L),
   so that it can be followed by hand; for angles this small the tangent is the angle. */
#include "proof/reckoner.h"

#include "proof/leaves.h"
#include "proof/turning.h"

#include <math.h>

/* Round differences of the ends, ascending; a row is the nearest that the leaves can make, the first of them the first
   that shows an error above the tolerance. */
static const double steps_mm[] = {0.02, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50,
                                  0.60, 0.80, 1.00, 1.20, 1.50, 2.00, 2.50, 3.00, 4.00};
static const double steps_in[] = {.001, .002, .004, .006, .008, .010, .012, .016, .020,
                                  .025, .030, .040, .050, .060, .080, .100, .120, .160};
enum { STEPS = sizeof steps_mm / sizeof *steps_mm, OWN_DOF = 2 /* three strips of this sled */ };
_Static_assert(sizeof steps_mm == sizeof steps_in, "as many steps in inch jobs");

struct reckoner_limit reckoner_leave_below(double length, double tolerance, struct stat_term beforehand, struct stat_term own,
                                           double resolution, double error_limit)
{
    static const int strips[] = {1, 3};
    struct five_cut_basis b = {
        .error = tolerance, /* the most that is left alone */
        .length = length,
        .run_spread = own.u,
        .reading = {resolution * sqrt(2) / (4 * length), INFINITY}, /* each end read once */
        .earlier = beforehand,
        .error_limit = error_limit,
    };
    for (size_t i = 0; i < sizeof strips / sizeof *strips; i++) {
        b.strips = strips[i];
        double left = tolerance - five_cut_budget(&b).expanded;
        if (left > 0)
            return (struct reckoner_limit){4 * length * left, b.strips};
    }
    return (struct reckoner_limit){0, 0};
}

static struct reckoner_row make_row(double differ, double factor, const struct job_instrument *set)
{
    struct reckoner_row row = {.differ = differ, .move = differ * factor};
    struct leaves_pick pick = {.n = 0};
    if (set)
        pick = leaves_find(set->leaves, set->n_leaves, row.move);
    if (pick.n && row.move - pick.sum > fmax(LEAVES_NEAR, set->leaves[0] / 2)) /* the whole set is too thin */
        pick.n = 0;
    for (int i = 0; i < pick.n; i++)
        row.leaves[i] = pick.leaf[i];
    row.n_leaves = pick.n;
    if (pick.n) { /* a row for what the set can make, so that difference, move and leaves agree */
        row.move = pick.sum;
        row.differ = pick.sum / factor;
    }
    return row;
}

static void add_rows(enum units units, const struct job_instrument *set, struct reckoner *r)
{
    for (int i = 0; i < STEPS && r->n_rows < RECKONER_MOST; i++) {
        double differ = units == UNITS_IN ? steps_in[i] * MM_PER_INCH : steps_mm[i];
        struct reckoner_row row = make_row(differ, r->factor, set);
        double before = r->n_rows ? r->rows[r->n_rows - 1].differ : 0;
        if (row.differ > r->out_above && row.differ > before * (1 + 1e-9))
            r->rows[r->n_rows++] = row;
    }
}

static enum side other_side(enum side s)
{
    return s == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
}

/* What the reckoner is made for: the plan's fence and length, else what the latest test used. False: not known. */
static bool find_frame(const struct setting *s, const struct proof_test *latest, struct reckoner *r)
{
    const struct five_cut_readings *test = latest ? &latest->job->as.five_cut : NULL;
    r->offcut = test ? test->offcut : SIDE_RIGHT;
    r->fence_side = s->fence_side;
    if (s->has_fence) {
        r->length = s->proof_length;
        r->pivot_to_moving = s->pivot_to_moving;
        r->moving_end = s->moving_x > s->pivot_x ? SIDE_RIGHT : SIDE_LEFT;
    } else if (latest && latest->has_move) {
        r->length = test->length.v;
        r->pivot_to_moving = latest->as.five_cut.pivot_to_moving;
        r->moving_end = latest->move.end;
    }
    r->pivot_side = other_side(r->moving_end);
    return r->length > 0 && r->pivot_to_moving > 0;
}

static void set_limit(const struct job *job, const struct proof *proof, const struct proof_test *latest,
                      struct reckoner *r)
{
    const struct five_cut_readings *test = latest ? &latest->job->as.five_cut : NULL;
    const struct job_instrument *tool = latest ? latest->job->instrument : NULL;
    const struct job_limit *limit = &job->tolerances.squareness;
    const char *from;
    struct stat_term spread = five_cut_earlier_spread(test, proof->tests, proof->n_tests, &from);
    struct stat_term own = five_cut_own_spread(proof->tests, proof->n_tests);
    struct reckoner_limit leave =
        reckoner_leave_below(r->length, limit->error.v / limit->over.v, spread, own.dof >= OWN_DOF ? own : spread,
                             five_cut_resolution(tool), five_cut_error_limit(tool));
    r->leave_below = leave.leave_below;
    r->out_above = 4 * r->length * limit->error.v / limit->over.v;
    r->leave_strips = leave.strips;
}

void reckoner_build(const struct job *job, const struct setting *s, const struct proof *proof, struct reckoner *r)
{
    const struct proof_test *latest = proof_latest(proof, METHOD_FIVE_CUT);
    *r = (struct reckoner){0};
    r->has = find_frame(s, latest, r);
    if (!r->has)
        return;
    int sign = five_cut_sign(r->fence_side, r->offcut);
    r->factor = r->pivot_to_moving / (4 * r->length);
    r->fence_end_wider = turning_toward(sign, r->moving_end);
    r->far_end_wider = turning_toward(-sign, r->moving_end);
    set_limit(job, proof, latest, r);
    add_rows(job->units, five_cut_leaf_set(job), r);
}
