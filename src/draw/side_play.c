/* A runner in its slot: in section, pressed to the left wall; from above, yawed as far as it goes. The play is drawn
   far too large. */
#include "draw/pictures.h"

#include "words.h"

#include <math.h>

static const double slot_wide = 54, slot_deep = 34, play = 9, table_past = 42, base_thick = 16;
static const double bar_long = 130, bar_wide = 22, bar_play = 12;

static void draw_section(struct model *m)
{
    double left = -slot_wide / 2, right = slot_wide / 2, end = right + table_past;
    const struct draw_point table[] = {{-end, 0},  {left, 0}, {left, -slot_deep},     {right, -slot_deep},
                                       {right, 0}, {end, 0},  {end, -slot_deep - 14}, {-end, -slot_deep - 14}};
    add_polygon(m, table, 8, LINE_VISIBLE, FILL_HATCH_WIDE);
    add_box(m, -end + 10, 0, end - 10, base_thick, LINE_VISIBLE, FILL_DARK_TINT);
    add_box(m, left, -slot_deep + 6, right - play, 0, LINE_VISIBLE, FILL_TINT);
    add_arrow(m, end + 16, base_thick / 2, end - 10, base_thick / 2, 4);
    add_label(m, end + 17, base_thick / 2, ANCHOR_RIGHT, words_get("draw.side_play.press"))->bold = true;
    add_label(m, -play / 2, -slot_deep / 2 + 3, ANCHOR_CENTRE, words_get("draw.runner"));
    add_arrow(m, right - play / 2, -slot_deep - 26, right - play / 2, -slot_deep / 2, 3);
    add_label(m, right - play / 2, -slot_deep - 27, ANCHOR_BELOW, words_get("draw.side_play.leaf"))->bold = true;
    add_leader(m, -end + 30, base_thick / 2, words_get("draw.base"));
}

/* The bar turned about its middle until two opposite corners touch the walls. */
static void draw_yawed(struct model *m)
{
    double angle = atan(bar_play / bar_long), wall = (bar_wide + bar_play) / 2, half = bar_long / 2, w = bar_wide / 2;
    double c = cos(angle), s = sin(angle);
    const struct draw_point bar[] = {{-w * c - half * s, half * c - w * s},
                                     {w * c - half * s, half * c + w * s},
                                     {w * c + half * s, -half * c + w * s},
                                     {-w * c + half * s, -half * c - w * s}};
    add_line(m, -wall, -half - 14, -wall, half + 14, LINE_VISIBLE);
    add_line(m, wall, -half - 14, wall, half + 14, LINE_VISIBLE);
    add_polygon(m, bar, 4, LINE_VISIBLE, FILL_TINT);
    add_line(m, 0, -half - 18, 0, half + 18, LINE_CENTRE);
    add_leader(m, -half * s, half * c, words_get("draw.side_play.yaw"))->anchor = ANCHOR_RIGHT;
    add_label(m, wall + 6, 0, ANCHOR_RIGHT, words_get("draw.side_play.engaged"));
    add_label(m, 0, -half - 18, ANCHOR_BELOW, words_get("draw.operator_side"));
}

bool draw_side_play_picture(const struct picture *p, struct drawing *out)
{
    static const char *const titles[] = {"draw.title.side_play", "draw.title.side_play_yaw"};
    static void (*const draw_step[])(struct model *) = {draw_section, draw_yawed};
    enum { STEPS = sizeof titles / sizeof *titles };
    if (p->step < 0 || p->step >= STEPS)
        return false;
    struct model m = model_begin(out, p->pool, p->units, titles[p->step]);
    out->to_scale = false;
    draw_step[p->step](&m);
    return true;
}
