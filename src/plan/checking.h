/* plan/checking.h: the checks of a sled, one function each: value, limits, verdict, and which sentence is true. By what
   they speak of: blade, stop, guard, fences and knife (checks_blade.c), runners (checks_runners.c), balance and the room
   for the work (checks_balance.c); checks.c calls them all. What to write into the job instead is found by remedy.c.
   Private to src/plan; owns nothing. */
#ifndef FETTLE_PLAN_CHECKING_H
#define FETTLE_PLAN_CHECKING_H

#include "plan/build.h"
#include "plan/sled.h"

struct checking {
    struct plan_builder *b;
    const struct job *job;
    const struct job_sled *wish;
    const struct plan_sled *s;
    struct sled_stocks stocks;
    struct runner_wood wood;
    struct travel_sizes travel;
};

/* False where either is NAN. */
bool check_below(double value, double low);
bool check_above(double value, double high);
/* The new check; past a limit it has the verdict of its kind. Its sentence has {value}, {low} and {high}. */
struct plan_check *check_measure(struct checking *, enum check_id, double value, double low, double high);
void check_verdict_is(struct plan_check *, enum verdict);
void check_say_why(struct plan_check *, const char *key); /* another sentence */
void check_say_also(struct plan_check *, const char *name, enum say_kind, double number); /* one more number for it */
void check_mark_at(struct plan_check *, const struct num *); /* the value of the job that decides it, if it is given */
void check_leave_out(struct checking *, const char *key);    /* cannot be made: words key of what is assumed */

void check_thickness_capacity(struct checking *);
void check_travel_stop(struct checking *);
void check_exit_guard_depth(struct checking *);
void check_exit_guard_height(struct checking *);
void check_fence_bridge(struct checking *);
void check_fence_bending(struct checking *);
void check_riving_knife(struct checking *);
void check_runner_play(struct checking *);
void check_runner_play_driest(struct checking *);
void check_runner_play_dampest(struct checking *);
void check_runner_pair_play(struct checking *);
void check_runner_width_to_plane(struct checking *);
void check_runner_yaw(struct checking *);
void check_runner_height(struct checking *);
void check_runner_engaged(struct checking *);
void check_tipping_near(struct checking *);
void check_tipping_far(struct checking *);
void check_tipping_side(struct checking *);
void check_tipping_parked(struct checking *);
void check_widest_work(struct checking *);

#endif
