/* A row of box-joint fingers as it is measured, and the key beside the cutter. */
#include "draw/pictures.h"

#include "words.h"

static const double pitch = 34, deep = 26, board = 34;
enum { FINGERS = 10, FINGERS_MOST = 40 }; /* as many as the test asks for; as many as can be seen */

/* Of the row that was measured last, else of any: its fingers, and how wide one is beside the slot. */
struct row {
    int fingers;
    double finger;
};

static struct row row_of(const struct proof_test *test)
{
    struct row row = {.fingers = FINGERS, .finger = pitch / 2};
    if (!test)
        return row;
    const struct box_joint_sum *sum = &test->as.box_joint;
    if (sum->fingers > 2)
        row.fingers = sum->fingers < FINGERS_MOST ? sum->fingers : FINGERS_MOST;
    if (sum->finger > 0.1 * sum->pitch && sum->finger < 0.9 * sum->pitch)
        row.finger = pitch * sum->finger / sum->pitch;
    return row;
}

/* In the board, from an end of it inward. */
static void add_name(struct model *m, double x, enum anchor inward, const char *text)
{
    struct draw_label *label = add_leader(m, x, -board / 2, text);
    label->anchor = inward;
    label->bold = true;
}

/* Fingers point up; slots between them go down to the shoulder, y = 0. Dimensions stand in the middle of the row. */
static void draw_row(struct model *m, const struct proof_test *test)
{
    struct row row = row_of(test);
    struct draw_point p[4 * FINGERS_MOST];
    size_t n = 0;
    for (int i = 0; i < row.fingers; i++) {
        double x = i * pitch, foot = i < row.fingers - 1 ? 0 : -board;
        p[n++] = (struct draw_point){x, i ? 0 : -board};
        p[n++] = (struct draw_point){x, deep};
        p[n++] = (struct draw_point){x + row.finger, deep};
        p[n++] = (struct draw_point){x + row.finger, foot};
    }
    double end = (row.fingers - 1) * pitch + row.finger, a = (row.fingers / 2 - 1) * pitch, b = a + pitch;
    add_polygon(m, p, n, LINE_VISIBLE, FILL_TINT);
    add_dim_words(m, 0, -board, end, -board, DIM_BELOW, words_get("draw.box_joint.got"));
    add_dim_words(m, a, deep, b, deep, DIM_ABOVE, words_get("draw.box_joint.pitch"));
    add_dim_words(m, b, deep, b + row.finger, deep, DIM_ABOVE, words_get("draw.box_joint.finger"));
    add_dim_words(m, b + row.finger, deep, b + pitch, deep, DIM_ABOVE, words_get("draw.box_joint.slot"));
    add_name(m, 2, ANCHOR_RIGHT, words_get("draw.box_joint.first"));
    add_name(m, end - 2, ANCHOR_LEFT, words_get("draw.box_joint.last"));
}

/* The board's last slot sits over the key, its wall on the key's near face, with a little air at the other; the next slot is
   sawn beside it. */
static void draw_key(struct model *m, const struct proof_test *test)
{
    (void)test;
    double base = 12, key = 14, gap = 18, cutter = 18, high = 24, end = 78, top = 70;
    const struct draw_point wood[] = {{-end, top}, {-end, 0}, {-4, 0},  {-4, high},
                                      {key, high}, {key, 0},  {end, 0}, {end, top}};
    add_box(m, -end - 20, -base, end + 20, 0, LINE_VISIBLE, FILL_DARK_TINT);
    add_polygon(m, wood, 8, LINE_VISIBLE, FILL_TINT);
    add_box(m, -2, 0, key, high - 4, LINE_VISIBLE, FILL_DARK_TINT);
    add_box(m, key + gap, -base, key + gap + cutter, high, LINE_HEAVY, FILL_HATCH);
    add_arrow(m, key / 2 - 26, -base - 12, key / 2 + 26, -base - 12, 4);
    add_label(m, key / 2 + 28, -base - 12, ANCHOR_RIGHT, words_get("draw.box_joint.toward"))->bold = true;
    add_pointed(m, key / 2 - 2, high / 2 - 2, ANCHOR_LEFT, words_get("draw.box_joint.key"));
    add_pointed(m, key + gap + cutter * 0.7, high * 0.7, ANCHOR_RIGHT, words_get("draw.box_joint.cutter"));
    add_dim_words(m, key, high, key + gap, high, DIM_ABOVE, words_get("draw.box_joint.finger"));
}

bool draw_box_joint_picture(const struct picture *p, struct drawing *out)
{
    static const char *const titles[] = {"draw.title.box_joint", "draw.title.box_joint_key"};
    static void (*const draw_step[])(struct model *, const struct proof_test *) = {draw_row, draw_key};
    enum { STEPS = sizeof titles / sizeof *titles };
    if (p->step < 0 || p->step >= STEPS)
        return false;
    struct model m = model_begin(out, p->pool, p->units, titles[p->step]);
    out->to_scale = false;
    draw_step[p->step](&m, p->test);
    return true;
}
