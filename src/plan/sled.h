/* plan/sled.h: what follows from the sizes of a sled: stock of each part, masses, tipping, play, yaw. Shared by the
   search for sizes and by the checks, so that both say the same. Private to src/plan; owns nothing. */
#ifndef FETTLE_PLAN_SLED_H
#define FETTLE_PLAN_SLED_H

#include "plan.h"
#include "plan/balance.h"
#include "plan/travel.h"
#include "plan/wood.h"

/* Judgements: common practice, no source. Lengths mm, forces N. */
#define SLED_BASE_LEAST 9.0          /* thickness of a base, where there is a choice */
#define SLED_WIDTH_MOST 600.0        /* of work, where the job leaves it out */
#define SLED_CLEARANCE 5.0           /* blade to work at the start, base to blade when parked */
#define SLED_OVERRUN 5.0             /* of the stop past the place where the cut is through */
#define SLED_LEAST_ABOVE_WORK 3.0    /* q_min, or blade_above_work where that is less */
#define SLED_HAND_FORCE 50.0         /* down on a fence, or against it */
#define SLED_WORK_DENSITY 700.0      /* kg/m3 */
#define SLED_WORK_LEAST 20.0         /* narrowest work, along the feed */
#define SLED_GUARD_MARGIN 25.0       /* wood beyond the blade, behind and above */
#define SLED_SCREW_FREE 40.0         /* either side of the blade plane */
#define SLED_SCREW_AXIS 45.0         /* screw axes next to the kerf, at least */
#define SLED_KEEP_OUT 75.0           /* either side of the blade plane, for hands */
#define SLED_ENGAGED_LEAST 0.5       /* share of the guide runner in its slot while cutting */
#define SLED_YAW_CAUTION 2.0         /* times the tolerance: the runner's play may turn the sled */
#define SLED_YAW_FAIL 3.0
#define SLED_RUNNER_BELOW_SLOT 0.5   /* so that the base bears on the table */
#define SLED_STRIP_LEAST 20.0        /* five-cut strip: narrower ones twist in the caliper */
#define SLED_NO_AIR_SWING 15.0       /* per cent RH that the free runner allows for where the job has no air */
#define SLED_LEAST_SHORT_RUNNER 100.0 /* a free runner is not cut shorter than this to make room for the stop */

/* What each part is made of. runner NULL: a hardwood strip to buy. */
struct sled_stocks {
    const struct job_stock *base, *reference, *other, *guard, *runner, *travel_stop, *flip_stop;
};
/* base NULL: the job has no sheet at all. */
struct sled_stocks sled_choose_stocks(const struct job *);
double sled_density(const struct job_stock *); /* kg/m3; of the strip to buy where NULL */

/* How the runners move with the shop's air. known false: no air in the job, or nothing known of the material. */
struct runner_wood {
    bool known, solid;
    double mc_fitting, mc_driest, mc_dampest; /* per cent; NAN where not known */
    double r_driest, r_dampest;               /* width then as a share of today's */
    double per_percent;                       /* share of the width that 1 % moisture content is worth; 0: panel */
};
struct runner_wood sled_runner_wood(const struct job *, const struct job_stock *runner);
/* Movement of `length` of the base from the fitting air to the air given [mm, signed]; NAN: not known. */
double sled_base_shift(const struct job *, const struct job_stock *base, double length, const struct job_climate *);
/* The greatest of those over the year; without air that of SLED_NO_AIR_SWING. */
double sled_base_shift_most(const struct job *, const struct job_stock *base, double length);

struct travel_sizes sled_travel_sizes(const struct job *, const struct plan_sled *);
struct sled_engaged {
    double touch, stop; /* mm of the runner in its slot */
};
struct sled_engaged sled_guide_engaged(const struct job *, const struct plan_sled *, double width);
const struct plan_runner *sled_guide(const struct plan_sled *);
/* Yaw of the guide over the tolerance's length [mm] with its greatest play now and over the year. */
double sled_yaw(const struct job *, struct sled_engaged, const struct runner_wood *, double runner_width);

/* Where the blade stands bare between the fences, of a sled whose reference fence is the far one, a board lies along the
   kerf on both fences, as wide as the strip for hands. false: the sled has none. */
bool sled_cover(const struct plan_sled *, struct body *);

/* Mass and centre of every part that travels with the sled, runners at full length. */
struct sled_load {
    enum part_kind kind;
    double mass, x, v;
};
enum { SLED_LOADS = 7 };
size_t sled_loads(const struct job *, const struct plan_sled *, struct sled_load out[SLED_LOADS]);

struct sled_tipping {
    double moment; /* N mm, the work's included where it makes things worse */
    double arm;    /* of the hand force, inward positive */
    double force;  /* that the fence bears; NAN: arm inside the table */
};
/* For work up to `width` wide. */
struct sled_tipping sled_tip_near(const struct job *, const struct plan_sled *, double width);
struct sled_tipping sled_tip_far(const struct job *, const struct plan_sled *, double width);
/* The worse side; false: the table's width or place is not known. */
bool sled_tip_side(const struct job *, const struct plan_sled *, double width, struct sled_tipping *);
/* Drawn clear of the blade, the narrowest work lying on it: what a hand may press on the fence that hangs out farthest. */
struct sled_tipping sled_tip_parked(const struct job *, const struct plan_sled *);
/* Drawn clear of the blade: what holds the sled down as a multiple of what overturns it. */
double sled_parked_ratio(const struct job *, const struct plan_sled *);
/* The widest work that the sled's sizes let it cut with the runner half engaged and without falling off the table. */
double sled_widest_work(const struct job *, const struct plan_sled *);

/* As made, before it is cut for the stop. */
double sled_runner_full_length(const struct job *, const struct plan_sled *);
double sled_least_edge_step(enum units); /* derived sizes are rounded to it: 1 mm, 1/16 in */
double sled_width_step(enum units);   /* of the widths of work that are tried: 5 mm, 1/4 in */
double sled_widest_tried(enum units); /* SLED_WIDTH_MOST, in whole steps */
double sled_round_up(double x, double step);
double sled_round_down(double x, double step);

#endif
