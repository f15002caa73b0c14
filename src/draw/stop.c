/* A stop on the fence: what its scale says and what the piece measures, from above, operator below. */
#include "draw/pictures.h"

#include "words.h"

static const double fence_deep = 16, piece_deep = 30, got_long = 150, off = 8, block_wide = 20, fence_past = 34;

static void add_tape(struct model *m, double length)
{
    double ticks = 12;
    for (double x = ticks; x < length; x += ticks)
        add_line(m, x, -fence_deep * 0.35, x, 0, LINE_NARROW);
}

bool draw_stop_picture(const struct picture *p, struct drawing *out)
{
    if (p->step != 0)
        return false;
    bool too_short = p->test && p->test->error < 0;
    double set = too_short ? got_long + off : got_long - off;
    struct model m = model_begin(out, p->pool, p->units, "draw.title.stop");
    out->to_scale = false;
    add_box(&m, -fence_past, -fence_deep, got_long + block_wide + fence_past, 0, LINE_VISIBLE, FILL_DARK_TINT);
    add_tape(&m, got_long + block_wide);
    add_box(&m, 0, 0, got_long, piece_deep, LINE_VISIBLE, FILL_TINT);
    add_box(&m, got_long, -fence_deep * 0.6, got_long + block_wide, piece_deep * 0.7, LINE_VISIBLE, FILL_WHITE);
    add_line(&m, 0, 0, 0, piece_deep + 20, LINE_HEAVY);
    add_label(&m, 0, piece_deep + 16, ANCHOR_LEFT, words_get("draw.blade"));
    add_label(&m, got_long / 2, piece_deep / 2, ANCHOR_CENTRE, words_get("draw.stop.piece"));
    add_leader(&m, got_long + block_wide / 2, piece_deep * 0.3, words_get("draw.stop.stop"))->anchor = ANCHOR_RIGHT;
    struct draw_dim *dims = pool_alloc(p->pool, 2 * sizeof *dims);
    dims[0] = (struct draw_dim){{0, -fence_deep}, {set, -fence_deep}, DIM_BELOW, words_get("draw.stop.set")};
    dims[1] = (struct draw_dim){{0, piece_deep}, {got_long, piece_deep}, DIM_ABOVE, words_get("draw.stop.got")};
    out->dims = dims;
    out->n_dims = 2;
    struct draw_label *sign = add_leader(&m, got_long + block_wide + 4, -fence_deep,
                                         words_get(too_short ? "draw.stop.short" : "draw.stop.long"));
    sign->anchor = ANCHOR_BELOW;
    sign->bold = true;
    return true;
}
