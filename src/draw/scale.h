/* draw/scale.h: the scales a drawing may have. Private to src/draw. Owns nothing. */
#ifndef FETTLE_DRAW_SCALE_H
#define FETTLE_DRAW_SCALE_H

#include "draw.h"

/* Scales from the largest to the smallest. Recommended ones are those of ISO 5455 (1, 2, 5 times powers of
   ten); the rest are used only where the next recommended one would leave most of the box empty. */
struct scale {
    double paper, model; /* 1 : 2.5 is {1, 2.5} */
    bool recommended;
};
size_t scale_count(void);
const struct scale *scale_at(size_t);
void scale_print(const struct scale *, struct pool *, const char **out); /* "1 : 5" */

#endif
