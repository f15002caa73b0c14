/* plan/sizing.h: what a search for a sled's sizes works with, and its parts: across the feed (sizes_across.c), along it
   (sizes_along.c), for work of one width or the widest (widest.c); sizes.c puts them together. Sizes that are derived go
   straight into struct plan_sled. Lengths mm. Private to src/plan; owns nothing.

   The rules, as the sources number them: 1 stock and heights; 2 height of the fences; 3 their layers; 4 the guard; 5 the
   base's depth; 6 the widest work; 7 the base's width; 8 pivot and gauge; 9 the runners; 10 the stop. */
#ifndef FETTLE_PLAN_SIZING_H
#define FETTLE_PLAN_SIZING_H

#include "plan/build.h"
#include "plan/sled.h"

struct sizing {
    struct plan_builder *builder;
    const struct job *job;
    const struct job_sled *wish;
    struct sled_stocks stocks;
    struct runner_wood wood;
    double step;   /* derived sizes are rounded to it */
    double deeper; /* what a base of no given depth has beyond the least that the work needs */
    bool no_width; /* no runner width does over the year */
};

/* A figure that is set by rule is round in the job's own unit. */
struct figure {
    double mm, in;
};
double sizing_figure(const struct sizing *, struct figure); /* mm */
double sizing_on_a_rule(const struct sizing *, double mm);  /* less by what is no step of a rule in inches; mm stay as they are */
double sizing_given_or(const struct num *, double derived);
struct mark sizing_mark(const struct num *, struct mark otherwise);
const char *sizing_length_text(const struct sizing *, double mm); /* as the job's unit has it, for a message */
int sizing_layers(double wanted, double layer, int least);        /* how many make up a thickness */

/* Sizes on which the widest work has no say. False, with a diagnostic: no sled. */
bool sizes_across(struct sizing *, struct plan_sled *);

/* All that hangs on the widest work; sizes_base_along: the guard, the fences' places and the base's depth alone. */
void sizes_for_width(struct sizing *, double width, struct plan_sled *);
void sizes_base_along(const struct sizing *, struct plan_sled *);
struct width_range sizes_runner_widths(const struct sizing *); /* that keep the play within its limits all year */
double sizes_yaw_limit(const struct job *, double times);      /* of the tolerance [mm over its length] */

/* Rule 6: the widest work that the saw and the stock allow. False, with a diagnostic: none. */
bool widest_search(struct sizing *, struct plan_sled *);
/* Work of a given width gets its sled whatever speaks against it: the checks say so. */
void widest_given(struct sizing *, struct plan_sled *);

#endif
