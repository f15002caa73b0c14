/* draw/pictures.h: the pictures of each test method; the table is in pictures.c. Private to src/draw. Owns nothing. */
#ifndef FETTLE_DRAW_PICTURES_H
#define FETTLE_DRAW_PICTURES_H

#include "draw/model.h"

/* What a picture is drawn from. */
struct picture {
    const struct plan *plan;
    const struct proof *proof;
    const struct proof_test *test; /* the latest of its method, whose sides the picture shows; NULL: none yet */
    int step;                      /* from 0 */
    enum units units;
    struct pool *pool;
};
/* False: no picture of that step. PREFIX.c each. */
#define METHOD(id, prefix, name) bool draw_##prefix##_picture(const struct picture *, struct drawing *out);
#include "job/methods.inc"
#undef METHOD

#endif
