/* How the fence is moved, seen from above, the operator below: pivot, gauge mark squared across the fence's top at the moving
   end, there the block clamped at the outer face with the gauge leaf between, and on the other face the arrow. Not to scale. */
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static const double bar_long = 170, bar_thick = 14, end_room = 16, arrow_long = 22, arrow_off = 3;

/* The last five-cut test's move, where it asks for one. */
static const struct move *move_of(const struct proof *proof)
{
    const struct proof_test *test = proof_latest(proof, METHOD_FIVE_CUT);
    return test && test->has_move && !test->stale && test->move.advice == ADVICE_MOVE ? &test->move : NULL;
}

/* Pivot at x 0, the gauge mark at x `reach`, negative where it lies to the left. */
static void add_bar(struct model *m, double reach)
{
    double way = reach > 0 ? 1 : -1, middle = bar_thick / 2;
    add_box(m, -way * end_room, 0, reach + way * end_room, bar_thick, LINE_VISIBLE, FILL_DARK_TINT);
    add_circle(m, 0, middle, 3, LINE_NARROW, FILL_BLACK);
    add_leader(m, 0, middle + 3, words_get("draw.pivot_screw"))->anchor = ANCHOR_ABOVE;
    add_line(m, -6, middle, 6, middle, LINE_CENTRE);
    add_line(m, 0, middle - 6, 0, middle + 6, LINE_CENTRE);
    add_line(m, reach, 0, reach, bar_thick, LINE_VISIBLE);
    add_leader(m, reach, middle, words_get("draw.gauge"))->anchor = way > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT;
}

/* The leaf goes in before clamping where the fence then comes toward the block, after the move where it has gone away.
   It sticks out on the pivot's side, where a hand can take it. */
static void add_block_and_leaf(struct model *m, double reach, double outer, const char *leaf_words)
{
    double half = 17, leaf = 2, deep = 16, way = reach > 0 ? 1 : -1, out = reach - way * 34;
    double face = outer < 0 ? 0 : bar_thick, block = face + outer * leaf, end = block + outer * deep;
    add_box(m, out, fmin(face, block), reach + way * 10, fmax(face, block), LINE_NARROW, FILL_BLACK);
    add_box(m, reach - half, fmin(block, end), reach + half, fmax(block, end), LINE_VISIBLE, FILL_TINT);
    add_leader(m, reach, (block + end) / 2, words_get("draw.block"));
    add_leader(m, out + way * 4, block, leaf_words)->anchor = outer < 0 ? ANCHOR_BELOW : ANCHOR_ABOVE;
}

/* An arrow from a face of the fence (`from`) as far out as `to`, or back; its words beside it, on the pivot's side. */
static void add_way(struct model *m, double x, double from, double to, bool back, enum anchor beside, const char *text)
{
    double off = beside == ANCHOR_LEFT ? -5 : 5;
    add_arrow(m, x, back ? to : from, x, back ? from : to, 7);
    add_label(m, x + off, (from + to) / 2, beside, text)->bold = true;
}

/* At the mark, on the face that no block stands at (`inner` is the way to it: +1 up the picture): out of the fence, or on to
   it, as the fence goes. */
static void add_move(struct model *m, double reach, double inner, bool goes_inward, const char *text)
{
    double from = (inner > 0 ? bar_thick : 0) + inner * arrow_off;
    add_way(m, reach, from, from + inner * arrow_long, !goes_inward, reach > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT, text);
}

/* Where the last test asks for no move: both ways, the other one beside the block and its leaf. */
static void add_both_ways(struct model *m, double reach, double outer)
{
    double way = reach > 0 ? 1 : -1, from = (outer < 0 ? 0 : bar_thick) + outer * arrow_off;
    add_move(m, reach, -outer, true, words_get(outer < 0 ? "draw.away" : "draw.toward"));
    add_way(m, reach - way * 62, from, from + outer * arrow_long, false, way > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT,
            words_get(outer < 0 ? "draw.toward" : "draw.away"));
}

/* A listed jig's fence has no letter of its own. */
static void label_fence(struct model *m, const struct plan *plan, double x, double y)
{
    const struct plan_part *fence = find_part(plan, PART_REFERENCE_FENCE);
    if (fence)
        add_part_label(m, fence, x, y);
    else
        add_leader(m, x, y, words_get("draw.fence"))->bold = true;
}

void draw_fence_adjustment(const struct plan *plan, const struct proof *proof, enum units units, struct pool *pool,
                           struct drawing *out)
{
    struct model m = model_begin(out, pool, units, "draw.title.adjust");
    const struct move *move = move_of(proof);
    double way = plan->setting.moving_x >= plan->setting.pivot_x ? 1 : -1, reach = way * bar_long;
    bool near = plan->setting.fence_side == FENCE_NEAR;
    double outer = near ? -1 : 1;
    out->to_scale = false;
    add_bar(&m, reach);
    label_fence(&m, plan, reach / 4, bar_thick / 2);
    if (move) {
        bool away = move->toward == TOWARD_AWAY;
        struct saying saying = {.key = away ? "draw.move_away" : "draw.move_toward",
                                .arg = {SAY_ARG("distance", SAY_MOVE, move->distance)}};
        add_block_and_leaf(&m, reach, outer, words_get(away == near ? "draw.leaf_after" : "draw.leaf_before"));
        add_move(&m, reach, -outer, away == near, model_say(&m, saying));
        add_label(&m, reach / 2, -4, ANCHOR_BELOW, words_get("draw.operator_side"));
    } else {
        add_block_and_leaf(&m, reach, outer, words_get("draw.leaf"));
        add_both_ways(&m, reach, outer);
    }
}
