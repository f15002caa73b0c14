/* A panel out of square, from above, the operator below: which diagonal is which, and which corner is larger. The slant
   is drawn far too large. */
#include "draw/pictures.h"

#include "words.h"

static const double wide = 150, deep = 92, slant = 24;

static void add_corner(struct model *m, struct draw_point at, enum anchor beside, const char *key, bool bold)
{
    add_label(m, at.x, at.y, beside, words_get(key))->bold = bold;
}

bool draw_diagonals_picture(const struct picture *p, struct drawing *out)
{
    if (p->step != 0)
        return false;
    bool smaller = p->test && p->test->error < 0;
    double lean = smaller ? slant : -slant; /* of the far edge; to the left the near left corner is larger than 90 */
    const struct draw_point corner[] = {{0, 0}, {wide, 0}, {wide + lean, deep}, {lean, deep}};
    struct model m =
        model_begin(out, p->pool, p->units, smaller ? "draw.title.diagonals_other" : "draw.title.diagonals");
    out->to_scale = false;
    add_polygon(&m, corner, 4, LINE_VISIBLE, FILL_TINT);
    add_line(&m, corner[0].x, corner[0].y, corner[2].x, corner[2].y, LINE_NARROW);
    add_line(&m, corner[1].x, corner[1].y, corner[3].x, corner[3].y, LINE_NARROW);
    add_leader(&m, 0.74 * wide + 0.74 * lean, 0.74 * deep, words_get("draw.diagonals.d1"))->bold = true;
    add_leader(&m, 0.26 * wide + 0.74 * lean, 0.74 * deep, words_get("draw.diagonals.d2"))->bold = true;
    add_corner(&m, corner[0], ANCHOR_LEFT, "draw.diagonals.near_left", true);
    add_corner(&m, corner[1], ANCHOR_RIGHT, "draw.diagonals.near_right", false);
    add_corner(&m, corner[2], ANCHOR_RIGHT, "draw.diagonals.far_right", false);
    add_corner(&m, corner[3], ANCHOR_LEFT, "draw.diagonals.far_left", false);
    add_label(&m, wide / 2, -8, ANCHOR_BELOW, words_get("draw.operator_side"));
    return true;
}
