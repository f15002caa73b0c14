/* A straight edge on two shims along a fence, from above. The face is drawn far from straight, once proud and once
   hollow, so that both signs stand in one picture; the work's side is up for a near fence, down for a far one. */
#include "draw/pictures.h"

#include "words.h"

#include <math.h>

static const double half_length = 88, shim = 12, shim_wide = 9, edge_wide = 10, swing = 8, thick = 20;

/* How far the face stands toward the work: proud left of the middle, hollow right of it, 0 at both ends. */
static double stands(double x)
{
    return -swing * sin(UNIT_PI * x / half_length);
}

static void add_face(struct model *m, double out)
{
    enum { STEPS = 40 };
    struct draw_point p[STEPS + 3];
    for (int i = 0; i <= STEPS; i++) {
        double x = -half_length + 2 * half_length * i / STEPS;
        p[i] = (struct draw_point){x, out * stands(x)};
    }
    p[STEPS + 1] = (struct draw_point){half_length, -out * thick};
    p[STEPS + 2] = (struct draw_point){-half_length, -out * thick};
    add_polygon(m, p, STEPS + 3, LINE_VISIBLE, FILL_DARK_TINT);
}

static void add_gap(struct model *m, double out, double x, enum anchor beside, const char *sign_key)
{
    add_arrow(m, x, out * (shim + edge_wide + 9), x, out * shim, 3);
    add_arrow(m, x, out * (stands(x) - 12), x, out * stands(x), 3);
    struct draw_label *label = add_leader(m, x, out * (shim + edge_wide + 9), words_get(sign_key));
    label->anchor = beside;
    label->bold = true;
}

bool draw_fence_straight_picture(const struct picture *p, struct drawing *out)
{
    if (p->step != 0)
        return false;
    bool far_fence = p->plan->setting.has_fence && p->plan->setting.fence_side == FENCE_FAR;
    double up = far_fence ? -1 : 1;
    struct model m = model_begin(out, p->pool, p->units, "draw.title.fence_straight");
    out->to_scale = false;
    add_face(&m, up);
    add_box(&m, -half_length - 6, fmin(up * shim, up * (shim + edge_wide)), half_length + 6,
            fmax(up * shim, up * (shim + edge_wide)), LINE_VISIBLE, FILL_WHITE);
    for (int side = -1; side <= 1; side += 2)
        add_box(&m, side * half_length, fmin(0, up * shim), side * (half_length - shim_wide), fmax(0, up * shim),
                LINE_VISIBLE, FILL_BLACK);
    add_gap(&m, up, -half_length / 2, far_fence ? ANCHOR_BELOW : ANCHOR_ABOVE, "draw.fence_straight.plus");
    add_gap(&m, up, half_length / 2, far_fence ? ANCHOR_BELOW : ANCHOR_ABOVE, "draw.fence_straight.minus");
    add_leader(&m, 0, up * (shim + edge_wide / 2), words_get("draw.fence_straight.edge"));
    add_leader(&m, half_length, up * shim / 2, words_get("draw.fence_straight.shim"))->anchor = ANCHOR_RIGHT;
    add_leader(&m, -half_length * 0.6, -up * thick * 0.75, words_get("draw.fence"));
    add_label(&m, 0, far_fence ? -shim - edge_wide - 34 : -thick, ANCHOR_BELOW, words_get("draw.operator_side"));
    return true;
}
