/* A row of box-joint fingers as it is measured, and the key beside the cutter. */
#include "draw/pictures.h"

#include "words.h"

static const double pitch = 34, finger = 16, deep = 26, board = 34;
enum { FINGERS = 5 };

/* Fingers point up; slots between them go down to the shoulder, y = 0. */
static void draw_row(struct model *m)
{
    struct draw_point p[4 * FINGERS + 2];
    int n = 0;
    for (int i = 0; i < FINGERS; i++) {
        double x = i * pitch;
        p[n++] = (struct draw_point){x, i ? 0 : -board};
        p[n++] = (struct draw_point){x, deep};
        p[n++] = (struct draw_point){x + finger, deep};
        p[n++] = (struct draw_point){x + finger, i < FINGERS - 1 ? 0 : -board};
    }
    double end = (FINGERS - 1) * pitch + finger;
    add_polygon(m, p, (size_t)n, LINE_VISIBLE, FILL_TINT);
    add_dim_words(m, 0, -board, end, -board, DIM_BELOW, words_get("draw.box_joint.got"));
    add_dim_words(m, pitch, deep, 2 * pitch, deep, DIM_ABOVE, words_get("draw.box_joint.pitch"));
    add_dim_words(m, 2 * pitch, deep, 2 * pitch + finger, deep, DIM_ABOVE, words_get("draw.box_joint.finger"));
    add_dim_words(m, 2 * pitch + finger, deep, 3 * pitch, deep, DIM_ABOVE, words_get("draw.box_joint.slot"));
    add_leader(m, finger / 2, -board / 2, words_get("draw.box_joint.first"))->bold = true;
}

/* The board's last slot sits over the key, its wall on the key's near face, with a little air at the other; the next slot is
   sawn beside it. */
static void draw_key(struct model *m)
{
    double base = 12, key = 14, gap = 20, cutter = 18, high = 24, end = 78, top = 70;
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
    static void (*const draw_step[])(struct model *) = {draw_row, draw_key};
    enum { STEPS = sizeof titles / sizeof *titles };
    if (p->step < 0 || p->step >= STEPS)
        return false;
    struct model m = model_begin(out, p->pool, p->units, titles[p->step]);
    out->to_scale = false;
    draw_step[p->step](&m);
    return true;
}
