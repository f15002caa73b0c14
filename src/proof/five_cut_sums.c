/* The five-cut test. A board is turned on so that each fresh edge goes to the fence; after four turns the fence's error
   stands four times between the first edge and the fifth cut, so that the strip cut off last tapers by four times the
   error over its length:

        fence end |<-- w_f -->|
                  |           |
              L   |            |          error = c (w_f - w_a)/(4 L)
                  |            |
        far end   |<--- w_a --->|

   (common practice, no source; the tests turn and cut polygons). Clauses of the GUM (JCGM 100:2008) from memory. */
#include "proof/five_cut_sums.h"

#include "proof/verdict.h"

#include <assert.h>
#include <math.h>

static double square(double x)
{
    return x * x;
}

int five_cut_sign(enum fence_side fence, enum side offcut)
{
    return (fence == FENCE_NEAR) == (offcut == SIDE_RIGHT) ? 1 : -1;
}

struct five_cut_run five_cut_run_of(const struct five_cut_widths *w, double length)
{
    struct five_cut_run r = {.fence_end = stat_mean(w->fence_end, w->n_fence_end),
                             .far_end = stat_mean(w->far_end, w->n_far_end)};
    r.difference = r.fence_end - r.far_end;
    r.slope = r.difference / (4 * length);
    return r;
}

struct stat_term five_cut_reading_spread(const struct five_cut_widths *w, size_t n, double resolution)
{
    double squares = 0, dof = 0;
    for (size_t i = 0; i < n; i++) {
        squares +=
            stat_sum_of_squares(w[i].fence_end, w[i].n_fence_end) + stat_sum_of_squares(w[i].far_end, w[i].n_far_end);
        dof += (double)(w[i].n_fence_end + w[i].n_far_end) - 2;
    }
    return dof > 0 ? (struct stat_term){sqrt(squares / dof), dof} : (struct stat_term){resolution, INFINITY};
}

/* Of a mean of m readings, squared: the larger of scatter and rounding (GUM 4.2.3; F.2.2.1: step/sqrt 12). */
static double mean_width_variance(double spread, size_t m, double resolution)
{
    return fmax(spread * spread / (double)m, resolution * resolution / 12);
}

double five_cut_u_reading(const struct five_cut_widths *w, size_t n, double reading_spread, double resolution,
                          double length)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += mean_width_variance(reading_spread, w[i].n_fence_end, resolution) +
               mean_width_variance(reading_spread, w[i].n_far_end, resolution);
    return sqrt(sum / (double)n) / (4 * length);
}

/* One strip: what earlier ones scattered by. Two: their own scatter weighed with the earlier, never below their
   own. Three or more: their own, never below what reading alone makes (GUM 4.2.3: s/sqrt n). */
static struct stat_term runs_line(const struct five_cut_basis *b)
{
    double n = b->strips, s = b->run_spread;
    if (b->strips == 1)
        return b->earlier;
    if (b->strips == 2) {
        double pooled = (b->earlier.dof * (square(b->earlier.u) + square(b->reading.u)) + s * s) / (b->earlier.dof + 1);
        return (struct stat_term){sqrt(fmax(pooled, s * s) / 2), b->earlier.dof + 1};
    }
    if (b->reading.u > s)
        return (struct stat_term){b->reading.u / sqrt(n), b->reading.dof};
    return (struct stat_term){s / sqrt(n), n - 1};
}

/* Tool and length have rectangular limits, a/sqrt 3 (GUM 4.3.7), through L as error = difference/(4 L). */
void five_cut_lines(const struct five_cut_basis *b, struct stat_term out[FIVE_CUT_LINES])
{
    assert(b->strips >= 1 && b->length > 0 && "a test has a strip of some length");
    out[FIVE_CUT_RUNS] = runs_line(b);
    out[FIVE_CUT_READING] = b->strips == 1 ? b->reading : (struct stat_term){0, INFINITY};
    out[FIVE_CUT_TOOL] = (struct stat_term){DIFFERENCE_SHARE * b->error_limit / sqrt(3) / (4 * b->length), INFINITY};
    out[FIVE_CUT_LENGTH] = (struct stat_term){fabs(b->error) * LENGTH_HALF_WIDTH / sqrt(3) / b->length, INFINITY};
}

struct stat_budget five_cut_budget(const struct five_cut_basis *b)
{
    struct stat_term lines[FIVE_CUT_LINES];
    five_cut_lines(b, lines);
    return stat_expand(lines, FIVE_CUT_LINES, CONFIDENCE);
}

int five_cut_further(const struct five_cut_basis *now, double tolerance)
{
    struct five_cut_basis then = *now;
    if (now->strips == 1)
        then.run_spread = hypot(now->earlier.u, now->reading.u);
    for (int more = 1; more <= FURTHER_STRIPS_MOST; more++) {
        then.strips = now->strips + more;
        if (verdict_find(then.error, five_cut_budget(&then).expanded, tolerance) != FINDING_UNDECIDED)
            return more;
    }
    return 0;
}
