/* draw/sled.h: what the views of a sled share beside the model's building blocks. Private to src/draw. Owns nothing. */
#ifndef FETTLE_DRAW_SLED_H
#define FETTLE_DRAW_SLED_H

#include "draw/model.h"

/* Where the moving end is gauged: an open triangle, its point at (x, y) on the fence's face, its foot `high` up from it. */
void add_gauge_mark(struct model *, double x, double y, double high);
/* All screws but the pivot's, each by the sign of its kind; names of the moving end's; and the gauge mark's line across the
   fence's top, which leaves the sign of hole 1 free where holes are drawn. */
void add_holes(struct model *, const struct plan *);
double between_screws(const struct plan *, double x, double v); /* a place at x near v, midway between a row's screws */
void label_moving_holes(struct model *, const struct plan *);
void add_gauge_line(struct model *, const struct plan *, bool with_holes);
/* Half the width of the blade along the feed at height z above the table, at its highest; 0 above it. Circle of radius
   R whose axis lies R - h below the table. */
double drawn_half_chord(const struct plan_travel *, double z);
/* Height up to which the blade has cut the wood that stands at y in the saw's frame, the sled on its stop: along the
   blade's near half the blade itself, beyond its axis all that has passed under its highest tooth. */
double drawn_cut_height(const struct plan_travel *, double y);
/* The near end of the kerf in the base, in the sled's frame, not below 0. */
double kerf_near_end(const struct plan_sled *);
/* The fence on the operator's side, and the other. */
const struct plan_fence *near_fence(const struct plan_sled *);
const struct plan_fence *far_fence(const struct plan_sled *);
double fence_low_v(const struct plan_fence *);  /* its edge nearer the operator */
double fence_high_v(const struct plan_fence *);
double fence_middle_v(const struct plan_fence *);
double middle_beyond(double edge, double low, double high); /* of what lies beyond the edge; of all where nothing does */
/* Edges between the layers of a fence, seen from above (VIEW_PLAN, over its length) or from the side. */
void add_fence_layers(struct model *, const struct plan_fence *, double base_thickness, enum view);
void add_guard_layers(struct model *, const struct plan_sled *, enum view);

#endif
