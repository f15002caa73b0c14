/* Whether a drawing keeps the rules on paper and stays in the room that its sheet has for it. */
#ifndef FETTLE_TESTS_DRAW_ROOM_H
#define FETTLE_TESTS_DRAW_ROOM_H

#include "close.h"

#include "draw/check.h"
#include "draw/place.h"

/* `number` of the sled, for whoever reads the failure. */
static inline void check_room(const struct drawing *d, const struct faces *faces, double wide_mm, double high_mm,
                              int number)
{
    struct pool pool = {0};
    struct text problems = {0};
    struct placed_drawing placed;
    draw_place(d, faces, wide_mm * POINT_PER_MM, high_mm * POINT_PER_MM, 10, &pool, &placed);
    if (draw_check(&placed, faces, &problems))
        fail_msg("sled %d, \"%s\": %s", number, d->title, text_string(&problems));
    if (placed.width > wide_mm * POINT_PER_MM || placed.height > high_mm * POINT_PER_MM)
        fail_msg("sled %d, \"%s\" at %s: %.1f x %.1f mm", number, d->title, placed.scale_text,
                 placed.width / POINT_PER_MM, placed.height / POINT_PER_MM);
    text_free(&problems);
    pool_free(&pool);
}

#endif
