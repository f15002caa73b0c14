/* draw/check.h: what every placed drawing must keep. Private to src/draw and its tests. */
#ifndef FETTLE_DRAW_CHECK_H
#define FETTLE_DRAW_CHECK_H

#include "base/text.h"
#include "draw.h"

/* No two texts overlap, no text lies on a line or across a black edge, nothing lies outside the box the drawing says it
   uses. Judged by the ink alone. Problems are added a line each; gives their number. */
size_t draw_check(const struct placed_drawing *, const struct faces *, struct text *problems);

#endif
