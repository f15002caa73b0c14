/* Sleds of any sizes from a generator of our own, the same on every machine. */
#ifndef FETTLE_TESTS_DRAW_RANDOM_SLED_H
#define FETTLE_TESTS_DRAW_RANDOM_SLED_H

#include "sample_plan.h"

#include <stdint.h>

/* The multiplier and increment are those of Knuth's MMIX generator. */
static inline double random_between(uint64_t *state, double low, double high)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(*state >> 11) / 9007199254740992.0;
}

static inline double random_half(uint64_t *state, double low, double high)
{
    return round(2 * random_between(state, low, high)) / 2;
}

static inline struct sample random_sled(uint64_t *state)
{
    struct sample a = {0};
    a.side = random_between(state, 0, 1) < 0.5 ? FENCE_NEAR : FENCE_FAR;
    a.guide = random_between(state, 0, 1) < 0.5 ? SIDE_LEFT : SIDE_RIGHT;
    a.blade_diameter = random_half(state, 180, 360);
    a.highest = random_half(state, 0.2 * a.blade_diameter, 0.36 * a.blade_diameter);
    a.front_edge = random_half(state, 300, 650);
    a.base_thickness = random_half(state, 6, 20);
    double left = random_half(state, 250, 700), right = random_half(state, 250, 700);
    a.left_of_blade = left;
    a.base_width = left + right;
    a.capacity_width = random_half(state, 120, 620);
    a.reference_thickness = random_half(state, 18, 54);
    a.other_thickness = random_half(state, 15, 40);
    a.fence_height = a.highest - a.base_thickness + random_half(state, 20, 50);
    a.guard_depth = random_half(state, 60, 150);
    a.base_depth =
        a.guard_depth + a.reference_thickness + a.capacity_width + a.other_thickness + random_half(state, 10, 60);
    a.reference_length = random_between(state, 0, 1) < 0.5 ? a.base_width : a.base_width - random_half(state, 5, 60);
    a.other_length = random_between(state, 0, 1) < 0.3 ? a.base_width : a.base_width - random_half(state, 10, 200);
    double way = random_between(state, 0, 1) < 0.5 ? 1 : -1;
    double pivot = random_half(state, 120, (way > 0 ? left : right) - 40),
           moving = random_half(state, 90, (way > 0 ? right : left) - 40);
    a.pivot_x = -way * pivot;
    a.moving_x = way * moving;
    a.slot_left = random_half(state, 90, left - 60);
    a.slot_right = random_half(state, 90, right - 60);
    if (random_between(state, 0, 1) < 0.25) {
        if (a.guide == SIDE_LEFT)
            a.slot_right = 0;
        else
            a.slot_left = 0;
    }
    a.runner_width = round(100 * random_between(state, 8, 22)) / 100;
    a.above_work = 5;
    return a;
}

#endif
