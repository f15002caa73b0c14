/* Pictures of the five-cut test and of the fence's adjustment, seen from above, the operator below. Not to scale.

   The edge sawn in cut n is edge n. With the fence near and the offcut to the right the board turns clockwise:

          2                 3
      +-------+         +-------+
    3 |       | 1     4 |       | 2      the fresh edge 1 has gone to the fence
      +-------+         +-------+
   ======4=========  ======1========  fence                                                                   */
#include "draw/pictures.h"
#include "draw/sled.h"

#include "words.h"

#include <math.h>

static const double board_kept = 84, board_deep = 64, fence_thick = 23;
static const double fence_kept = 100, fence_offcut = 82;      /* the fence reaches beyond the board on both sides */
static const double guard_half = 14, guard_deep = 14;
static const double sliver = 14, strip_gap = 4, strip_wide = 32, saw_past_near = 14, saw_past_far = 20;

/* Which way things lie in this sled's test. */
struct test_sides {
    double away;   /* from the fence into the board: +1 up the picture for a near fence, -1 for a far one */
    double offcut; /* +1: the offcut falls to the right */
    double length; /* between the marks [mm] */
    double keep_out; /* half of the strip where no hand goes, to the board's scale along the fence */
};

/* What a board has beyond the marks, about; without a sled the strip as in the caution: common practice, no source. */
static const double board_past_marks = 40, plain_keep_out = 75;
static const double keep_out_least = 16, keep_out_most = 44;

static struct test_sides sides_of(const struct plan *plan, const struct proof *proof)
{
    struct test_sides t = {.away = 1, .offcut = 1, .length = plan->setting.proof_length};
    enum fence_side fence = plan->setting.fence_side;
    enum side offcut = SIDE_RIGHT;
    if (proof->reckoner.has) {
        fence = proof->reckoner.fence_side;
        offcut = proof->reckoner.offcut;
        t.length = proof->reckoner.length;
    }
    double keep = plan->has_sled ? plan->sled.keep_out : plain_keep_out, board = fmax(t.length, 0) + board_past_marks;
    t.keep_out = fmax(keep_out_least, fmin(keep_out_most, keep / board * (board_kept + sliver)));
    t.away = fence == FENCE_NEAR ? 1 : -1;
    t.offcut = offcut == SIDE_RIGHT ? 1 : -1;
    return t;
}

/* Clockwise for (near, right) and (far, left). */
static bool turns_clockwise(const struct test_sides *t)
{
    return t->away * t->offcut > 0;
}

/* How far the saw line goes on beyond the board; on the operator's side there are more names. */
static double saw_past(const struct test_sides *t)
{
    return t->away > 0 ? saw_past_near : saw_past_far;
}

/* On the operator's side, where fence or saw line ends. */
static double lowest_sawn(const struct test_sides *t)
{
    return t->away > 0 ? -fence_thick : -board_deep - saw_past(t);
}

static void add_fence_bar(struct model *m, const struct test_sides *t)
{
    double y0 = fmin(0, -t->away * fence_thick);
    double kept = -t->offcut * fence_kept, past = t->offcut * fence_offcut;
    add_box(m, fmin(kept, past), y0, fmax(kept, past), y0 + fence_thick, LINE_VISIBLE, FILL_DARK_TINT);
    add_label(m, -t->offcut * 0.76 * fence_kept, -t->away * fence_thick / 2, ANCHOR_CENTRE, words_get("draw.fence"));
}

/* The strip where no hand goes, over board and fence, and on the operator's side the guard that the blade comes out
   into: behind a near fence; of a sled with a far one behind the other fence, which is not drawn. */
static void add_keep_out(struct model *m, const struct test_sides *t)
{
    double end = t->away * (board_deep + saw_past(t)), back = -t->away * fence_thick;
    double guard = lowest_sawn(t);
    add_box(m, -t->keep_out, fmin(end, back), t->keep_out, fmax(end, back), LINE_NONE, FILL_KEEP_OUT);
    add_box(m, -guard_half, guard - guard_deep, guard_half, guard, LINE_VISIBLE, FILL_DARK_TINT);
    double way = t->away * t->offcut; /* names of guard and strip stand on either side; of a far fence the blade's is there too */
    add_label(m, way * (guard_half + 2), guard - 0.7 * guard_deep, way > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT,
              words_get("draw.guard"));
    add_pointed(m, -way * 0.7 * t->keep_out, t->away * (board_deep + saw_past(t) / 2), way > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT,
                words_get("draw.no_hands"))
        ->bold = true;
}

/* Its name beside the end that stands out beyond the board; the hatched strip is named on the other side. */
static void add_saw_line(struct model *m, const struct test_sides *t)
{
    double end = t->away * (board_deep + saw_past(t));
    add_line(m, 0, 0, 0, end, LINE_HEAVY);
    add_label(m, 0, end - t->away * 0.5 * saw_past(t), t->away * t->offcut > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT, words_get("draw.blade"));
}

/* Beside the guard of a near fence, which saves height; else below it, since the blade's name stands beside. */
static void add_operator(struct model *m, const struct test_sides *t)
{
    double guard = lowest_sawn(t) - guard_deep / 2;
    if (t->away > 0)
        add_label(m, -t->offcut * (guard_half + 2), guard, t->offcut > 0 ? ANCHOR_LEFT : ANCHOR_RIGHT, words_get("draw.operator_side"));
    else
        add_label(m, 0, lowest_sawn(t) - guard_deep, ANCHOR_BELOW, words_get("draw.operator_side"));
}

static void number_edge(struct model *m, double x0, double y0, double x1, double y1, int edge)
{
    struct draw_label *label = add_leader(m, (x0 + x1) / 2, (y0 + y1) / 2, pool_printf(m->pool, "%d", edge));
    label->bold = label->numbers_line = label->in_middle = true;
    label->end = END_HEAD;
    label->ring = RING_ROUND;
    label->from = (struct draw_point){x0, y0};
    label->to = (struct draw_point){x1, y1};
}

/* Numbers stand on the board's edges: on the offcut's side (NAN: that edge is gone), away from the fence, opposite, at the
   fence. */
static void add_edge_numbers(struct model *m, const struct test_sides *t, double x_kept, double x_sawn, int turned)
{
    double deep = t->away * board_deep;
    double clear = t->away > 0 ? 0 : -t->offcut * t->keep_out; /* of the blade's name, which stands there */
    double at[4][4] = {{x_sawn, 0, x_sawn, deep}, {x_kept, deep, clear, deep}, {x_kept, 0, x_kept, deep}, {x_kept, 0, 0, 0}};
    for (int i = isnan(x_sawn) ? 1 : 0; i < 4; i++)
        number_edge(m, at[i][0], at[i][1], at[i][2], at[i][3], (i + turned) % 4 + 1);
}

/* Which way the board is turned: an arrow in its middle, the word beyond the hatched strip on the offcut's side. */
static void add_turn(struct model *m, const struct test_sides *t)
{
    double x = -t->offcut * (board_kept / 2 + 6), y = t->away * board_deep / 2, r = 10;
    bool clockwise = turns_clockwise(t);
    double from = clockwise ? 0.8 * UNIT_PI : 0.2 * UNIT_PI, to = clockwise ? -0.3 * UNIT_PI : 1.3 * UNIT_PI;
    add_turn_arrow(m, x, y, r, from, to);
    enum anchor beside = t->offcut > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    add_label(m, t->offcut * fmax(t->keep_out, sliver + 10), 1.56 * y, beside, words_get(clockwise ? "draw.clockwise" : "draw.counter_clockwise"))
        ->bold = true;
}

/* Cuts 1 to 4: a sliver falls on the offcut's side; `turned` quarter turns have been made. */
static void draw_cut(struct model *m, const struct test_sides *t, int turned)
{
    double kept = -t->offcut * board_kept;
    add_fence_bar(m, t);
    add_box(m, kept, 0, t->offcut * sliver, t->away * board_deep, LINE_VISIBLE, FILL_TINT);
    add_keep_out(m, t);
    add_saw_line(m, t);
    add_edge_numbers(m, t, kept, t->offcut * sliver, turned);
    add_turn(m, t);
    add_operator(m, t);
}

static void add_end_label(struct model *m, double x, double y, enum anchor beside, const char *text)
{
    add_label(m, x, y, beside, text)->bold = true;
}

/* Cut 5: the strip with edge 1 falls; its two ends get their names before it is moved. */
static void draw_last_cut(struct model *m, const struct test_sides *t)
{
    double kept = -t->offcut * board_kept, near = t->offcut * strip_gap, far = t->offcut * (strip_gap + strip_wide),
           deep = t->away * board_deep;
    enum anchor beside = t->offcut > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    add_fence_bar(m, t);
    add_box(m, kept, 0, 0, deep, LINE_VISIBLE, FILL_TINT);
    add_box(m, near, 0, far, deep, LINE_VISIBLE, FILL_TINT);
    add_keep_out(m, t);
    add_saw_line(m, t);
    add_label(m, near + t->offcut * 0.36 * strip_wide, 0.5 * deep, ANCHOR_CENTRE, words_get("draw.strip"))->upward = true;
    number_edge(m, far, 0, far, deep, 1);
    add_end_label(m, far, 0.18 * deep, beside, words_get("draw.fence_end"));
    add_end_label(m, far, 0.82 * deep, beside, words_get("draw.far_end"));
    add_edge_numbers(m, t, kept, NAN, 0);
    add_operator(m, t);
}

/* Two arrow heads that close on the strip's width, as a caliper does. */
static void add_caliper(struct model *m, double x, double low, double high)
{
    double reach = 13, width = 4;
    add_arrow(m, x, low - reach, x, low, width);
    add_arrow(m, x, high + reach, x, high, width);
}

/* The strip laid across, fence end to the left, marks L apart. */
static void draw_measuring(struct model *m, const struct test_sides *t)
{
    double length = 176, wide = 22, mark = 16, from = mark, to = length - mark;
    add_box(m, 0, 0, length, wide, LINE_VISIBLE, FILL_TINT);
    add_line(m, from, 0, from, wide, LINE_NARROW);
    add_line(m, to, 0, to, wide, LINE_NARROW);
    add_caliper(m, from, 0, wide);
    add_caliper(m, to, 0, wide);
    add_label(m, from + 2, wide / 2, ANCHOR_RIGHT, words_get("draw.fence_end"))->bold = true;
    add_label(m, to - 2, wide / 2, ANCHOR_LEFT, words_get("draw.far_end"))->bold = true;
    if (t->length > 0)
        add_dim_of(m, from, 0, to, 0, DIM_BELOW, SAY_SIZE, t->length);
}

bool draw_five_cut_picture(const struct picture *p, struct drawing *out)
{
    static const char *const titles[] = {"draw.title.cut_1", "draw.title.cut_2", "draw.title.cut_5",
                                         "draw.title.measure"};
    enum { STEPS = sizeof titles / sizeof *titles };
    int step = p->step;
    if (step < 0 || step >= STEPS)
        return false;
    struct test_sides t = sides_of(p->plan, p->proof);
    struct model m = model_begin(out, p->pool, p->units, titles[step]);
    out->to_scale = false;
    if (step < 2)
        draw_cut(&m, &t, step == 0 ? 0 : 1);
    else if (step == 2)
        draw_last_cut(&m, &t);
    else
        draw_measuring(&m, &t);
    return true;
}
