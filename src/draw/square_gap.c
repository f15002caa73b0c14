/* The square on the board, from above, operator below. The gap is drawn far too large. */
#include "draw/pictures.h"

#include "words.h"

static const double board_wide = 84, board_deep = 64, gap_wide = 7, square_wide = 9, square_past = 10;

struct square_picture {
    double away;     /* +1: the fence's end of the board is nearer the operator */
    double offcut;   /* +1: the offcut fell to the right */
    double at_fence; /* 1: light at the fence end; 0: at the far end */
    bool far_from;   /* the right end of the fence is too far from the operator */
};

static struct square_picture square_of(const struct picture *p)
{
    struct square_picture s = {.away = p->plan->setting.fence_side == FENCE_NEAR ? 1 : -1, .offcut = 1, .at_fence = 1};
    if (p->test) {
        s.offcut = p->test->job->as.square_gap.offcut == SIDE_RIGHT ? 1 : -1;
        s.at_fence = p->test->job->as.square_gap.end_given && p->test->job->as.square_gap.end == EDGE_FAR ? 0 : 1;
    }
    s.far_from = (s.away * s.offcut > 0) == (s.at_fence > 0);
    return s;
}

static void add_board(struct model *m, const struct square_picture *s)
{
    double at_fence = -s->offcut * gap_wide * s->at_fence, far = -s->offcut * gap_wide * (1 - s->at_fence);
    const struct draw_point corners[] = {{-s->offcut * board_wide, 0},
                                         {at_fence, 0},
                                         {far, s->away * board_deep},
                                         {-s->offcut * board_wide, s->away * board_deep}};
    add_polygon(m, corners, 4, LINE_VISIBLE, FILL_TINT);
    add_label(m, -s->offcut * board_wide * 0.6, s->away * board_deep / 2, ANCHOR_CENTRE,
              words_get("draw.square_gap.board"));
}

/* Stock along the edge that was at the fence, blade along the sawn edge. */
static void add_square(struct model *m, const struct square_picture *s)
{
    double out = s->offcut * square_wide, back = -s->away * square_wide * 1.4;
    add_box(m, 0, back, out, s->away * (board_deep + square_past), LINE_VISIBLE, FILL_WHITE);
    add_box(m, -s->offcut * board_wide * 0.75, back, out, 0, LINE_VISIBLE, FILL_DARK_TINT);
    add_leader(m, -s->offcut * board_wide * 0.4, back / 2, words_get("draw.square_gap.square"));
}

bool draw_square_gap_picture(const struct picture *p, struct drawing *out)
{
    if (p->step != 0)
        return false;
    struct square_picture s = square_of(p);
    struct model m = model_begin(out, p->pool, p->units, "draw.title.square_gap");
    out->to_scale = false;
    add_board(&m, &s);
    add_square(&m, &s);
    struct saying saying = {.key = s.at_fence > 0 ? "draw.square_gap.fence_end" : "draw.square_gap.far_end",
                            .arg = {SAY_KEY("reads", s.far_from ? "square_gap.far_from" : "square_gap.near_to")}};
    enum anchor beside = s.offcut > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    double light = s.at_fence > 0 ? 0.1 : 0.9, touch = s.at_fence > 0 ? 0.95 : 0.05;
    struct draw_label *gap = add_leader(&m, s.offcut * square_wide, s.away * board_deep * light, model_say(&m, saying));
    gap->anchor = beside;
    gap->bold = true;
    add_leader(&m, s.offcut * square_wide, s.away * board_deep * touch, words_get("draw.square_gap.touches"))->anchor =
        beside;
    add_label(&m, 0, s.away > 0 ? -square_wide * 1.4 : -board_deep - square_past, ANCHOR_BELOW,
              words_get("draw.operator_side"));
    return true;
}
