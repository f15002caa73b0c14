/* The flip test: a board is sawn through on the sled, one half rolled over, and the gap between the sawn faces shows
   the blade's lean doubled, with no square to trust. */
#include "proof/flip_sums.h"

#include "proof/budget.h"
#include "proof/methods.h"
#include "proof/reading_table.h"
#include "proof/verdict.h"

#include <math.h>

/* Judgement of this program, printed in the budget. */
#define EVEN_OVER 100.0       /* how even a sled's base and a board's faces are: over this length [mm] ... */
#define EVEN_HALF_WIDTH 0.05  /* ... to this, either way [mm] */
#define HEIGHT_HALF_WIDTH 0.5 /* how well the height is known [mm] */

static void write_budget(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct flip_sum *sum = &t->as.flip;
    struct saying even_args =
        SAYING("", SAY_ARG("within", SAY_FIT, EVEN_HALF_WIDTH), SAY_ARG("over", SAY_SIZE, EVEN_OVER));
    struct saying base = even_args, faces = even_args;
    base.key = "flip.budget.base";
    faces.key = "flip.budget.faces";
    budget_begin(p->pool, t);
    budget_add_gap(t, &sum->gap, test->instrument, flip_lean(1, sum->height));
    budget_add_limit(t, SAYING("flip.budget.height", SAY_ARG("within", SAY_FIT, HEIGHT_HALF_WIDTH)), HEIGHT_HALF_WIDTH,
                     t->error / sum->height);
    budget_add_limit(t, base, EVEN_HALF_WIDTH, 1 / EVEN_OVER);
    budget_add_limit(t, faces, EVEN_HALF_WIDTH, 0.5 / EVEN_OVER);
}

static void advise(struct proof_test *t)
{
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = fabs(t->error_over);
    m->uncertainty = t->expanded_uncertainty * t->over_length;
    m->what = SAYING("flip.move", SAY_ARG("distance", SAY_MOVE, m->distance), SAY_ARG("over", SAY_SIZE, t->over_length),
                     SAY_ARG("degrees", SAY_DEGREES, fabs(t->error)),
                     SAY_KEY("side", t->error > 0 ? "side.left" : "side.right"));
    advice_choose(t, 0, m);
}

static void flip_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    const struct flip_readings *r = &test->as.flip;
    struct flip_sum *sum = &t->as.flip;
    sum->height = r->height.v;
    sum->sign = r->open_given ? flip_sign(r->open, r->turned) : 0;
    sum->gap = r->open_given ? gap_read(r->gap.v, test->instrument) : gap_closed(test->instrument);
    t->error = sum->sign * flip_lean(sum->gap.value, sum->height);
    proof_limit_angle(t, &p->job->tolerances.blade_tilt);
    write_budget(p, test, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    proof_add_figure(t, (struct proof_figure){.id = "lean",
                                              .what = SAYING_PLAIN("flip.lean"),
                                              .unit = "rad",
                                              .kind = SAY_DEGREES,
                                              .value = t->error,
                                              .expanded_uncertainty = t->expanded_uncertainty,
                                              .limit = NAN});
    advise(t);
}

/* Before any test for a board as high as the bench page asks for. */
static bool flip_reckon(const struct proving *p, const struct proof_test *latest, struct reading_table *out)
{
    if (!latest && p->job->jig.given)
        return false; /* no bench page asks for it */
    out->at = latest ? latest->as.flip.height : flip_usual_height(p->job->units);
    out->over = p->job->tolerances.blade_tilt.over.v;
    out->error_per_mm = flip_lean(1, out->at);
    out->factor = out->error_per_mm * out->over;
    out->last = latest ? latest->job->as.flip.gap.v : 0;
    out->reads_gap = true;
    return true;
}

static void flip_read(double at, const double *read, struct job_test *out)
{
    out->as.flip.height.v = at;
    out->as.flip.gap.v = *read;
    out->as.flip.open_given = true;
}

const struct method_row flip_method = {.prove = flip_prove, .reckon = flip_reckon, .read = flip_read};
