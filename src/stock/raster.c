/* Only a few sizes need be looked at, the reduced raster points (Terno, Lindemann and Scheithauer, "Zuschnittprobleme und ihre
   praktische Lösung", 1987; from memory). Let S be all sums of lengths of pieces, and <x> the largest of S not above x. The
   points are <W - s> for all s of S. Why they are enough: say a part of the bin needs a, is cut from <W - c>, and its
   neighbour there needs b, all three sums. Make it <W - (b + c)>, which is a point and not below a; then the neighbour can
   be <W - (c + that)>, again a point and not below b; and both together are not above <W - c>. So from the whole bin, c = 0,
   down to the pieces each part can be made as large as a point. */
#include "stock/raster.h"

#include <stdlib.h>
#include <string.h>

enum { UNITS_MOST = 1 << 15 }; /* of one direction */

static int64_t common_unit(int64_t a, int64_t b)
{
    while (b) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

int64_t raster_length(const struct piece *p, bool of_w, bool turned)
{
    return of_w != turned ? p->w : p->h;
}

int64_t raster_unit(const struct piece *kinds, int n, bool of_w, int64_t whole)
{
    int64_t unit = 0;

    for (int i = 0; i < n; i++)
        for (int turned = 0; turned <= kinds[i].turns; turned++)
            unit = common_unit(raster_length(&kinds[i], of_w, turned), unit);
    while (whole / unit > UNITS_MOST)
        unit *= 2;
    return unit;
}

struct raster raster_of(const struct piece *kinds, int n, bool of_w, int64_t unit, int64_t size, bool up, struct pool *pool)
{
    int whole = (int)(size / unit), sum = 0;
    bool *is_sum = mem_alloc((size_t)(whole + 1)), *is_point = mem_alloc((size_t)(whole + 1));
    int *largest_sum = mem_alloc((size_t)(whole + 1) * sizeof *largest_sum);
    struct raster r = {0, NULL};

    is_sum[0] = true;
    for (int i = 0; i < n; i++)
        for (int turned = 0; turned <= kinds[i].turns; turned++)
            for (int64_t length = (raster_length(&kinds[i], of_w, turned) + (up ? unit - 1 : 0)) / unit, x = length; x <= whole; x++)
                is_sum[x] |= is_sum[x - length];
    for (int x = 0; x <= whole; x++) {
        sum = is_sum[x] ? x : sum;
        largest_sum[x] = sum;
    }
    for (int x = 0; x <= whole; x++)
        if (is_sum[x] && !is_point[largest_sum[whole - x]]) {
            is_point[largest_sum[whole - x]] = true;
            r.n++;
        }
    r.at = pool_alloc(pool, (size_t)r.n * sizeof *r.at);
    for (int x = 0, i = 0; x <= whole; x++)
        if (is_point[x])
            r.at[i++] = x;
    free(is_sum);
    free(is_point);
    free(largest_sum);
    return r;
}

int raster_point(const struct raster *r, int64_t size)
{
    int low = 0, high = r->n;

    while (low < high) {
        int middle = low + (high - low) / 2;
        if (r->at[middle] < size)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}
