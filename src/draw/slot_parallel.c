/* The dial in its slot beside the blade, from above, operator below. The slant is drawn far too large. */
#include "draw/pictures.h"

#include "words.h"

static const double blade_half = 62, slant = 7, slot_at = 58, slot_wide = 10, place = 44, dial_radius = 9;

/* One place of the dial: the tooth's x there, and its name. */
static void add_place(struct model *m, double side, double y, double blade_x, const char *text)
{
    double slot_x = side * slot_at;
    add_circle(m, slot_x, y, dial_radius, LINE_VISIBLE, FILL_WHITE);
    add_arrow(m, slot_x - side * dial_radius, y, blade_x, y, 3);
    struct draw_label *label = add_leader(m, slot_x + side * dial_radius, y, text);
    label->anchor = side > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
}

bool draw_slot_parallel_picture(const struct picture *p, struct drawing *out)
{
    if (p->step != 0)
        return false;
    bool left_slot = p->test && p->test->job->as.slot_parallel.slot == SIDE_LEFT;
    bool back_left = p->test && p->test->error < 0;
    double side = left_slot ? -1 : 1, lean = back_left ? -slant : slant, share = place / blade_half;
    struct model m = model_begin(out, p->pool, p->units, "draw.title.slot_parallel");
    out->to_scale = false;
    add_box(&m, side * slot_at - slot_wide / 2, -blade_half - 14, side * slot_at + slot_wide / 2, blade_half + 14,
            LINE_VISIBLE, FILL_TINT);
    add_line(&m, 0, -blade_half - 8, 0, blade_half + 8, LINE_CENTRE);
    add_line(&m, -lean, -blade_half, lean, blade_half, LINE_HEAVY);
    add_place(&m, side, -place, -lean * share, words_get("draw.slot_parallel.front"));
    add_place(&m, side, place, lean * share, words_get("draw.slot_parallel.back"));
    add_leader(&m, -lean * 0.2, -blade_half * 0.2, words_get("draw.blade"))->anchor =
        side > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
    add_leader(&m, side * (slot_at + slot_wide / 2), 0, words_get("draw.slot_parallel.slot"))->anchor =
        side > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    struct saying saying = {.key = "draw.slot_parallel.leans",
                            .arg = {SAY_KEY("side", back_left ? "side.left" : "side.right")}};
    saying.arg[1] = (struct say_arg)SAY_KEY("sign", back_left ? "draw.slot_parallel.minus" : "draw.slot_parallel.plus");
    struct draw_label *sign = add_leader(&m, lean, blade_half, model_say(&m, saying));
    sign->anchor = side > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
    sign->bold = true;
    add_label(&m, 0, -blade_half - 14, ANCHOR_BELOW, words_get("draw.operator_side"));
    return true;
}
