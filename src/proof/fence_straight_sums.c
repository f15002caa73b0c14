/* A straight edge on two equal shims along a fence, seen from above; the work is on the edge's side:

     ====================================  straight edge
     |s       g1        g2        g3    s|   s: shim, g: gap; dev = s - g
     ------\_________________/-----------  fence

   The bow is the width of the narrowest pair of parallels that holds every point: one of the two always lies on an edge
   of the points' convex hull, so it is enough to look at those (minimum zone straightness, ISO 12780-1, from memory).
 */
#include "proof/fence_straight_sums.h"

#include <assert.h>
#include <math.h>

/* How far a point stands above the line through a and b, square to that line. */
static double height_above(const struct face_point *p, size_t a, size_t b, size_t i)
{
    double slope = (p[b].dev - p[a].dev) / (p[b].x - p[a].x);
    return (p[i].dev - p[a].dev - slope * (p[i].x - p[a].x)) / hypot(1, slope);
}

/* The zone with one parallel through a and b; its width is INFINITY where points stand on both sides of that line. */
static struct face_zone zone_on(const struct face_point *p, size_t n, size_t a, size_t b)
{
    const double on_the_line = 1e-12;
    double highest = 0, lowest = 0;
    size_t high = a, low = a;
    for (size_t i = 0; i < n; i++) {
        double h = height_above(p, a, b, i);
        high = h > highest ? i : high;
        low = h < lowest ? i : low;
        highest = fmax(highest, h);
        lowest = fmin(lowest, h);
    }
    bool below = highest <= on_the_line, above = lowest >= -on_the_line;
    bool hump = highest >= -lowest;
    return (struct face_zone){.width = above || below ? highest - lowest : INFINITY,
                              .from = a,
                              .to = b,
                              .apex = hump ? high : low,
                              .hump = hump};
}

struct face_zone fence_straight_zone(const struct face_point *p, size_t n)
{
    assert(n >= 3 && "two points are always straight");
    struct face_zone best = {.width = INFINITY};
    for (size_t a = 0; a < n; a++) {
        for (size_t b = a + 1; b < n; b++) {
            struct face_zone z = zone_on(p, n, a, b);
            if (z.width < best.width)
                best = z;
        }
    }
    return best;
}

double fence_straight_weight(const struct face_point *p, const struct face_zone *z, size_t i)
{
    double share = (p[z->apex].x - p[z->from].x) / (p[z->to].x - p[z->from].x), w = 0;
    if (i == z->apex)
        w += 1;
    if (i == z->from)
        w -= 1 - share;
    if (i == z->to)
        w -= share;
    return z->hump ? w : -w;
}

double fence_straight_dev(const struct face_point *p, size_t n, double x)
{
    size_t i = 1;
    while (i + 1 < n && x > p[i].x)
        i++;
    return p[i - 1].dev + (p[i].dev - p[i - 1].dev) * (x - p[i - 1].x) / (p[i].x - p[i - 1].x);
}

/* Between points the face is straight, so the worst place has one end of the work at a point. */
double fence_straight_angle(const struct face_point *p, size_t n, double work, double *from)
{
    double left = p[0].x, right = p[n - 1].x, w = fmin(work, right - left), worst = -1;
    for (size_t i = 0; i < 2 * n; i++) {
        double a = i < n ? p[i].x : p[i - n].x - w;
        if (a < left - 1e-9 || a + w > right + 1e-9)
            continue;
        double lean = fabs(fence_straight_dev(p, n, a + w) - fence_straight_dev(p, n, a)) / w;
        if (lean > worst) {
            worst = lean;
            *from = a;
        }
    }
    return worst;
}

double fence_straight_edge_limit(double length)
{
    return 0.008 + length / 40 / 1000;
}
