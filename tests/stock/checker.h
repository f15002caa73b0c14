/* What a layout must be, told by a checker that shares no code with the packing: rectangles with whole sides, inside the
   sheet, apart by a kerf, and parted by cuts right across. */
#ifndef FETTLE_TESTS_CHECKER_H
#define FETTLE_TESTS_CHECKER_H

#include <stdbool.h>
#include <stdint.h>

struct rect {
    int64_t x, y, w, h;
};

static inline bool rects_lie_inside(const struct rect *r, int n, int64_t w, int64_t h)
{
    for (int i = 0; i < n; i++)
        if (r[i].x < 0 || r[i].y < 0 || r[i].w <= 0 || r[i].h <= 0 || r[i].x + r[i].w > w || r[i].y + r[i].h > h)
            return false;
    return true;
}

/* No two overlap, nor come nearer than the kerf in both directions. */
static inline bool rects_lie_apart(const struct rect *r, int n, int64_t kerf)
{
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++)
            if (r[i].x < r[j].x + r[j].w + kerf && r[j].x < r[i].x + r[i].w + kerf && r[i].y < r[j].y + r[j].h + kerf &&
                r[j].y < r[i].y + r[i].h + kerf)
                return false;
    return true;
}

static inline int64_t rect_low(const struct rect *r, bool x)
{
    return x ? r->x : r->y;
}

static inline int64_t rect_high(const struct rect *r, bool x)
{
    return x ? r->x + r->w : r->y + r->h;
}

/* Moves those that end before the cut to the front; gives their number, -1 where a rectangle lies in the cut. */
static inline int rects_part(struct rect *r, int n, bool x, int64_t cut, int64_t kerf)
{
    int before = 0;

    for (int i = 0; i < n; i++)
        if (rect_high(&r[i], x) > cut && rect_low(&r[i], x) < cut + kerf)
            return -1;
    for (int i = 0; i < n; i++)
        if (rect_high(&r[i], x) <= cut) {
            struct rect t = r[i];
            r[i] = r[before];
            r[before++] = t;
        }
    return before;
}

/* By recursive split: any cut that parts the rectangles will do, because what is sawn right across stays so when pieces
   are taken away. Changes their order. */
static inline bool rects_are_guillotine(struct rect *r, int n, int64_t kerf)
{
    if (n <= 1)
        return true;
    for (int k = 0; k < 2 * n; k++) {
        bool x = k % 2 == 0;
        int before = rects_part(r, n, x, rect_high(&r[k / 2], x), kerf);
        if (before > 0 && before < n)
            return rects_are_guillotine(r, before, kerf) && rects_are_guillotine(r + before, n - before, kerf);
    }
    return false;
}

/* A generator of the tests' own: numerical recipes' 64-bit linear congruence. */
static inline int64_t draw_number(uint64_t *state, int64_t low, int64_t high)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return low + (int64_t)((*state >> 33) % (uint64_t)(high - low + 1));
}

#endif
