/* The state banner across the width: a mark whose shape alone tells the state, the state in words, and until when or
   what alone may be sawn. Only a jig that is fit stands white on black; one to be proven stands black on white in a
   frame; one not to be used white on the red of ISO 3864-4 within a white line, for that red prints as a dark grey. All of
   it is read from 1.5 m, so nothing shrinks below STYLE_FAR: what does not fit goes below. */
#include "pages/blocks.h"

#include <math.h>

static const double square[][2] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static const double inside[][2] = {{0.13, 0.13}, {0.87, 0.13}, {0.87, 0.87}, {0.13, 0.87}};
static const double right_half[][2] = {{0.5, 0.13}, {0.87, 0.13}, {0.87, 0.87}, {0.5, 0.87}};
static const double cross[][2] = {{0.20, 0.00}, {0.50, 0.30}, {0.80, 0.00}, {1.00, 0.20}, {0.70, 0.50}, {1.00, 0.80},
                                  {0.80, 1.00}, {0.50, 0.70}, {0.20, 1.00}, {0.00, 0.80}, {0.30, 0.50}, {0.00, 0.20}};

#define FRAME_EMS 0.1 /* of the words */
#define LINE_EMS 0.05 /* the white line within the frame */
static const struct ground {
    struct color paper, ink;
} grounds[] = {
    [MARK_CROSS] = {{0x9B / 255.f, 0x24 / 255.f, 0x23 / 255.f}, {1, 1, 1}},
    [MARK_HALF_SQUARE] = {{1, 1, 1}, {0, 0, 0}},
    [MARK_EMPTY_SQUARE] = {{1, 1, 1}, {0, 0, 0}},
    [MARK_FILLED_SQUARE] = {{0, 0, 0}, {1, 1, 1}},
};

static void put_mark(struct inks *inks, enum mark_shape mark, double x, double y, double side)
{
    struct color ink = grounds[mark].ink, paper = grounds[mark].paper;
    if (mark == MARK_CROSS) {
        put_polygon(inks, cross, sizeof cross / sizeof *cross, x, y, side, ink);
        return;
    }
    put_polygon(inks, square, 4, x, y, side, ink);
    if (mark == MARK_HALF_SQUARE)
        put_polygon(inks, right_half, 4, x, y, side, paper);
    if (mark == MARK_EMPTY_SQUARE)
        put_polygon(inks, inside, 4, x, y, side, paper);
}

static struct rich words_on(const struct setter *setter, const struct ground *ground, double size, bool bold)
{
    struct rich r = rich_of(STYLE_FAR, setter->scale);
    r.size = r.bold_size = size * setter->scale;
    r.leading = 1.16 * r.size;
    r.color = ground->ink;
    return bold ? rich_bolder(r) : r;
}

static void put_ground(struct inks *inks, const struct ground *ground, double width, double height, double frame,
                       double line)
{
    ink_add_rect(inks, 0, 0, width, height, true, COLOR_BLACK, 0);
    ink_add_rect(inks, frame, frame, width - frame, height - frame, true, ground->paper, 0);
    if (line <= 0)
        return;
    double in = 0.55 * frame, within = in + line;
    ink_add_rect(inks, in, in, width - in, height - in, true, ground->ink, 0);
    ink_add_rect(inks, within, within, width - within, height - within, true, ground->paper, 0);
}

void set_banner(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    const struct ground *ground = &grounds[b->as.banner.mark];
    struct rich words = words_on(setter, ground, 36, true);
    struct rich right = words_on(setter, ground, style_of(STYLE_FAR)->size, false);
    const char *right_text = b->as.banner.right ? b->as.banner.right : "";
    double pad = 12 * setter->scale, cap = type_cap_height(setter->widths->faces, words.face);
    double left = pad + cap * words.size + 0.35 * words.size, measure = width - left - pad;
    double right_width = lines_natural_width(setter->widths, &right, right_text), gap = 0.6 * words.size;
    if (lines_natural_width(setter->widths, &words, b->as.banner.words) + gap + right_width > measure)
        words = words_on(setter, ground, style_of(STYLE_FAR)->size, true);
    bool beside = lines_natural_width(setter->widths, &words, b->as.banner.words) + gap + right_width <= measure;

    struct lines first, second;
    lines_break(setter->widths, setter->pool, &words, b->as.banner.words, measure, &first);
    lines_break(setter->widths, setter->pool, &right, right_text, measure, &second);
    double words_height = lines_height(&first), top = 0.42 * pad;
    struct slab *slab = slabs_add(out);
    slab->above = 7 * setter->scale;
    slab->height = words_height + 2 * top + (beside ? 0 : lines_height(&second));
    put_ground(&slab->inks, ground, width, slab->height, FRAME_EMS * words.size,
               b->as.banner.mark == MARK_CROSS ? LINE_EMS * words.size : 0);
    double baseline = top + lines_baseline(setter->widths, &words), side = cap * words.size;
    put_mark(&slab->inks, b->as.banner.mark, pad, baseline - side, side);
    lines_ink(&first, setter->widths, 0, first.n, left, top, measure, ALIGN_LEFT, &slab->inks);
    double second_top = beside ? baseline - lines_baseline(setter->widths, &right) : top + words_height;
    lines_ink(&second, setter->widths, 0, second.n, left, second_top, measure, beside ? ALIGN_RIGHT : ALIGN_LEFT,
              &slab->inks);
}
