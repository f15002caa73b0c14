/* A straight edge held to a fence as a method: the bow, where the face stands proud or hollow, and how far short work
   can lean on it. */
#include "proof/budget.h"
#include "proof/fence_straight_sums.h"
#include "proof/methods.h"
#include "proof/verdict.h"

#include <math.h>
#include <stdlib.h>

static int compare_places(const void *a, const void *b)
{
    double x = ((const struct job_pair *)a)->first, y = ((const struct job_pair *)b)->first;
    return (x > y) - (x < y);
}

/* The job's places from left to right, with the shims where the job leaves them out. Gives how many. */
static size_t list_places(const struct fence_straight_readings *r, struct pool *pool, struct job_pair **out)
{
    struct job_pair *p = pool_alloc(pool, (r->n_gaps + 2) * sizeof *p);
    size_t n = 0;
    if (r->length.given) {
        p[n++] = (struct job_pair){.first = 0, .second = r->shim.v};
        p[n++] = (struct job_pair){.first = r->length.v, .second = r->shim.v};
    }
    for (size_t i = 0; i < r->n_gaps; i++)
        if (!r->length.given || (r->gaps[i].first > 0 && r->gaps[i].first < r->length.v))
            p[n++] = r->gaps[i];
    qsort(p, n, sizeof *p, compare_places);
    *out = p;
    return n;
}

/* The shims are as thick as they are; every gap between them was read. */
static void add_point(struct fence_straight_sum *sum, const struct job_pair *p, bool at_shim,
                      const struct job_instrument *tool)
{
    struct gap gap = at_shim ? (struct gap){sum->shim, 0, NAN, NAN} : gap_read(p->second, tool);
    sum->points[sum->n] = (struct face_point){p->first, sum->shim - gap.value};
    sum->gaps[sum->n] = gap;
    sum->at_shim[sum->n++] = at_shim;
}

static void sum_up(const struct proving *p, const struct job_test *test, struct fence_straight_sum *sum)
{
    const struct fence_straight_readings *r = &test->as.fence_straight;
    struct job_pair *places;
    size_t n = list_places(r, p->pool, &places);
    sum->points = pool_alloc(p->pool, n * sizeof *sum->points);
    sum->gaps = pool_alloc(p->pool, n * sizeof *sum->gaps);
    sum->at_shim = pool_alloc(p->pool, n * sizeof *sum->at_shim);
    sum->shim = r->shim.v;
    for (size_t i = 0; i < n; i++)
        add_point(sum, &places[i], i == 0 || i == n - 1, test->instrument);
    sum->length = places[n - 1].first - places[0].first;
    sum->zone = fence_straight_zone(sum->points, n);
    sum->edge_is_assumed = !r->straight_edge || !r->straight_edge->error_limit.given;
    sum->edge_limit = sum->edge_is_assumed ? fence_straight_edge_limit(sum->length) : r->straight_edge->error_limit.v;
    sum->work = r->shortest_work.v;
    sum->angle = fence_straight_angle(sum->points, n, sum->work, &sum->angle_from);
}

/* What the bow owes to the shims' thickness: the share of the three points that lie between them. */
static double shim_weight(const struct fence_straight_sum *sum)
{
    double w = 0;
    for (size_t i = 0; i < sum->n; i++)
        w += sum->at_shim[i] ? 0 : fence_straight_weight(sum->points, &sum->zone, i);
    return w;
}

static void write_budget(const struct proving *p, const struct fence_straight_sum *sum, struct proof_test *t)
{
    struct tool leaf = instrument_tool(t->job->instrument, sum->shim);
    budget_begin(p->pool, t);
    for (size_t i = 0; i < sum->n; i++) {
        double w = fence_straight_weight(sum->points, &sum->zone, i);
        if (w == 0 || sum->at_shim[i])
            continue;
        struct tool tool = instrument_tool(t->job->instrument, sum->gaps[i].value);
        budget_add_limit(t, SAYING("fence_straight.budget.gap", SAY_ARG("place", SAY_SIZE, sum->points[i].x)),
                         sum->gaps[i].half_width, w);
        budget_add_limit(t, SAYING("fence_straight.budget.tool", SAY_ARG("limit", SAY_LIMIT, tool.error_limit)),
                         tool.error_limit, w);
    }
    if (fabs(shim_weight(sum)) > 1e-9)
        budget_add_limit(t, SAYING("fence_straight.budget.shim", SAY_ARG("limit", SAY_LIMIT, leaf.error_limit)),
                         leaf.error_limit, shim_weight(sum));
    budget_add_limit(t,
                     SAYING(sum->edge_is_assumed ? "fence_straight.budget.edge_assumed" : "fence_straight.budget.edge",
                            SAY_ARG("limit", SAY_LIMIT, sum->edge_limit)),
                     sum->edge_limit, 1);
}

/* A near fence has its work on the far side: what stands proud goes toward the operator. A fence of no sled counts as
   near. */
static enum toward toward_straight(const struct setting *s, bool hump)
{
    bool near_fence = !s->has_fence || s->fence_side == FENCE_NEAR;
    return near_fence == hump ? TOWARD_OPERATOR : TOWARD_AWAY;
}

static void advise(const struct proving *p, struct proof_test *t)
{
    const struct fence_straight_sum *sum = &t->as.fence_straight;
    double place = sum->points[sum->zone.apex].x;
    struct move *m = &t->move;
    t->has_move = true;
    m->distance = t->error;
    m->uncertainty = t->expanded_uncertainty;
    m->toward = toward_straight(p->setting, sum->zone.hump);
    static const char *const keys[2][2] = {{"fence_straight.hollow", "fence_straight.proud"},
                                           {"fence_straight.hollow_plain", "fence_straight.proud_plain"}};
    m->what = SAYING(keys[!p->setting->has_fence][sum->zone.hump],
                     SAY_ARG("place", SAY_SIZE, place), SAY_ARG("from", SAY_SIZE, sum->points[sum->zone.from].x),
                     SAY_ARG("to", SAY_SIZE, sum->points[sum->zone.to].x), SAY_ARG("move", SAY_FIT, t->error),
                     SAY_KEY("toward", m->toward == TOWARD_OPERATOR ? "toward.operator" : "toward.away"));
    m->expected_error = 0;
    advice_choose(t, 0, m);
}

static void fence_straight_prove(const struct proving *p, const struct job_test *test, struct proof_test *t)
{
    struct fence_straight_sum *sum = &t->as.fence_straight;
    double over = p->job->tolerances.squareness.over.v;
    sum_up(p, test, sum);
    t->error = sum->zone.width;
    proof_limit_length(t, &p->job->tolerances.bow);
    write_budget(p, sum, t);
    verdict_conclude(t);
    decide_by_largest_line(t);
    proof_add_figure(
        t, (struct proof_figure){.id = "worst_angle",
                                 .what = SAYING("fence_straight.worst_angle", SAY_ARG("work", SAY_SIZE, sum->work),
                                                SAY_ARG("over", SAY_SIZE, over)),
                                 .unit = "mm",
                                 .kind = SAY_UNSIGNED,
                                 .value = sum->angle * over,
                                 .expanded_uncertainty = NAN,
                                 .limit = NAN});
    advise(p, t);
}

const struct method_row fence_straight_method = {.prove = fence_straight_prove, .error_is_a_size = true};
