/* Saws, stock and air at random, within what shops have; the rest of the job is left to the program. */
#ifndef FETTLE_TESTS_RANDOM_SAWS_H
#define FETTLE_TESTS_RANDOM_SAWS_H

#include "plan_jobs.h"
#include "random.h"

static inline double in_tenths(double x)
{
    return round(x * 10) / 10;
}

static inline void random_saw(struct random *r, struct test_job *t)
{
    static const double diameters[] = {203, 210, 216, 250, 254, 300, 305, 315};
    static const double slots[] = {15.9, 16.2, 17.0, 18.3, 19.1, 19.1, 19.1, 20.0};
    struct job *j = &t->job;
    double diameter = diameters[random_below(r, 8)], depth = round(random_between(r, 420, 900));

    empty_job(t);
    set_saw(j, diameter, in_tenths(random_between(r, 2.0, 3.2)), round(diameter * random_between(r, 0.28, 0.34)),
            round(depth * random_between(r, 0.45, 0.65)), depth);
    set_slots(j, slots[random_below(r, 8)] + random_below(r, 3) * 0.05, in_tenths(random_between(r, 8, 10)));
    if (random_below(r, 10) > 0)
        j->saw.slots.left = given(round(random_between(r, 95, 180)));
    if (random_below(r, 10) > 1 || !j->saw.slots.left.given)
        j->saw.slots.right = given(round(random_between(r, 95, 220)));
    if (random_below(r, 2)) {
        j->saw.table.left_of_blade = given(round(random_between(r, 250, 500)));
        j->saw.table.width = given(j->saw.table.left_of_blade.v + round(random_between(r, 250, 700)));
    }
    t->stock[0] = plywood("thin", in_tenths(random_between(r, 8.8, 12.5)), random_below(r, 2) ? 1220 : 1500, random_below(r, 2) ? 610 : 1220);
    t->stock[1] = plywood("thick", in_tenths(random_between(r, 14.5, 18.8)), 1220, 610);
    t->stock[2] = maple_strip("maple", 20, 40, random_below(r, 2) ? 1000 : 600);
    j->n_stock = (size_t)(2 + random_below(r, 2));
}

/* A workshop's year: cool and damp, warm and dry. */
static inline void random_air(struct random *r, struct test_job *t, enum rings rings)
{
    double fitting = round(random_between(r, 42, 58));

    t->job.air = (struct job_air){
        .given = true,
        .at_fitting = climate(round(random_between(r, 15, 22)), fitting),
        .driest = climate(round(random_between(r, 18, 24)), fitting - round(random_between(r, 2, 14))),
        .dampest = climate(round(random_between(r, 12, 20)), fitting + round(random_between(r, 2, 14))),
    };
    t->stock[2].rings = rings;
}

#endif
