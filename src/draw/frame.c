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

static void draw_inside(struct model *m)
{
    add_lower(m, 0, -wide - part);
    add_upright(m, 0, wide + part);
    struct draw_label *gap = add_leader(m, -wide - part / 2, wide + part / 2, words_get("draw.frame.gap"));
    gap->anchor = ANCHOR_LEFT;
    gap->bold = true;
    add_leader(m, 0, 0, words_get("draw.frame.touches"))->anchor = ANCHOR_RIGHT;
}

static void draw_outside(struct model *m)
{
    add_lower(m, -part, -wide);
    add_upright(m, part, wide);
    struct draw_label *gap = add_leader(m, 0, 0, words_get("draw.frame.gap"));
    gap->anchor = ANCHOR_RIGHT;
    gap->bold = true;
    add_leader(m, -wide, wide, words_get("draw.frame.touches"))->anchor = ANCHOR_LEFT;
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
    add_leader(&m, -wide / 2, wide / 2, words_get("draw.frame.leg"))->anchor = ANCHOR_BELOW;
    return true;
}
