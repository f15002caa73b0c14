/* The last corner of a frame of mitred pieces, its other joints closed. The gap is drawn far too large.

   Open inside: both faces start at the outer corner (0, 0) and part toward the inside. Open outside: they meet at the
   inner corner (-wide, wide) and part toward the outside. */
#include "draw/pictures.h"

#include "words.h"

static const double wide = 46, long_side = 104, part = 9, label_out = 12;

/* The piece below: outer edge along y = 0; its face from (outer, 0) to (inner, wide). */
static void add_lower(struct model *m, double outer, double inner)
{
    const struct draw_point p[] = {{-long_side, 0}, {outer, 0}, {inner, wide}, {-long_side, wide}};
    add_polygon(m, p, 4, LINE_VISIBLE, FILL_TINT);
}

/* The piece at the right: outer edge along x = 0; its face from (0, outer) to (-wide, inner). */
static void add_upright(struct model *m, double outer, double inner)
{
    const struct draw_point p[] = {{0, long_side}, {-wide, long_side}, {-wide, inner}, {0, outer}};
    add_polygon(m, p, 4, LINE_VISIBLE, FILL_DARK_TINT);
}

/* Along the face of the piece below, drawn a little beside it: from one end to the other. */
static void add_leg(struct model *m, double outer, double inner)
{
    double beside = 11, x = (outer + inner) / 2 - beside, y = wide / 2;
    add_arrow(m, x, y, outer - beside, 0, 3);
    add_arrow(m, x, y, inner - beside, wide, 3);
    add_label(m, x - 1, y - 3, ANCHOR_LEFT, words_get("draw.frame.leg"));
}

static void draw_inside(struct model *m)
{
    double gap_at = 0.85 * (wide + part / 2);
    add_lower(m, 0, -wide - part);
    add_upright(m, 0, wide + part);
    add_leg(m, 0, -wide - part);
    add_pointed(m, -gap_at, gap_at, ANCHOR_ABOVE, words_get("draw.frame.gap"))->bold = true;
    add_pointed(m, 0, 0, ANCHOR_RIGHT, words_get("draw.frame.touches"));
}

static void draw_outside(struct model *m)
{
    double gap_at = 0.15 * wide;
    add_lower(m, -part, -wide);
    add_upright(m, part, wide);
    add_leg(m, -part, -wide);
    add_pointed(m, -gap_at, gap_at, ANCHOR_RIGHT, words_get("draw.frame.gap"))->bold = true;
    add_pointed(m, -wide, wide, ANCHOR_LEFT, words_get("draw.frame.touches"));
}

bool draw_frame_picture(const struct picture *p, struct drawing *out)
{
    static const char *const titles[] = {"draw.title.frame_inside", "draw.title.frame_outside"};
    static void (*const draw_step[])(struct model *) = {draw_inside, draw_outside};
    enum { STEPS = sizeof titles / sizeof *titles };
    if (p->step < 0 || p->step >= STEPS)
        return false;
    struct model m = model_begin(out, p->pool, p->units, titles[p->step]);
    out->to_scale = false;
    draw_step[p->step](&m);
    add_label(&m, -long_side + label_out, wide + label_out * 2, ANCHOR_RIGHT, words_get("draw.frame.inside"));
    add_label(&m, -long_side + label_out, -label_out, ANCHOR_RIGHT, words_get("draw.frame.outside"));
    return true;
}
