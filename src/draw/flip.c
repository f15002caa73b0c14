/* Pictures of the flip test, from the operator's place. The lean is drawn far too large, the same in both:

     sawn face of the left half x = lean (z/high - 1/2); rolled over, the same with the sign turned round            */
#include "draw/pictures.h"

#include "words.h"

static const double high = 62, wide = 62, lean = 8, kerf = 1.5, base_thick = 8, base_past = 16;

struct flip_picture {
    double lean;   /* > 0: the top of the blade leans right */
    double turned; /* -1: the left half is rolled over, +1: the right one */
    bool open_top;
};

static struct flip_picture flip_of(const struct proof_test *test)
{
    struct flip_picture f = {lean, -1, true};
    if (!test || !test->job->as.flip.open_given)
        return f;
    f.lean = test->as.flip.sign * lean;
    f.turned = test->job->as.flip.turned == SIDE_LEFT ? -1 : 1;
    f.open_top = test->job->as.flip.open == OPEN_TOP;
    return f;
}

static void add_base(struct model *m)
{
    add_box(m, -wide - base_past, -base_thick, wide + base_past, 0, LINE_VISIBLE, FILL_DARK_TINT);
    add_leader(m, -wide, -base_thick / 2, words_get("draw.base"));
}

/* One half: side -1 left, +1 right; its face stands `slant` further right at the top than at the bottom. */
static void add_half(struct model *m, double side, double slant, double apart)
{
    double middle = side * apart / 2;
    const struct draw_point corners[] = {
        {side * wide, 0}, {middle - slant / 2, 0}, {middle + slant / 2, high}, {side * wide, high}};
    add_polygon(m, corners, 4, LINE_VISIBLE, FILL_TINT);
}

static void draw_cut(struct model *m, const struct flip_picture *f)
{
    double out = 14;
    add_base(m);
    add_half(m, -1, f->lean, 2 * kerf);
    add_half(m, 1, f->lean, 2 * kerf);
    add_line(m, -f->lean / 2, 0, f->lean / 2 * (1 + 2 * out / high), high + out, LINE_HEAVY);
    add_leader(m, f->lean / 2 * (1 + out / high), high + out / 2, words_get("draw.blade"))->anchor = ANCHOR_RIGHT;
    add_label(m, f->turned * wide * 0.55, high, ANCHOR_BELOW, words_get("draw.flip.mark"))->bold = true;
    add_label(m, -f->turned * wide * 0.55, high / 2, ANCHOR_CENTRE, words_get("draw.flip.board"));
}

static void draw_turned(struct model *m, const struct flip_picture *f)
{
    double size = f->lean > 0 ? f->lean : -f->lean;
    add_base(m);
    add_half(m, -1, f->turned < 0 ? -f->lean : f->lean, size);
    add_half(m, 1, f->turned < 0 ? f->lean : -f->lean, size);
    struct saying saying = {.key = f->open_top ? "draw.flip.gap_top" : "draw.flip.gap_bottom",
                            .arg = {SAY_KEY("side", f->lean > 0 ? "side.right" : "side.left")}};
    add_label(m, f->turned * wide * 0.55, high / 2, ANCHOR_CENTRE, words_get("draw.flip.turned"));
    add_label(m, f->turned * wide * 0.55, 0, ANCHOR_ABOVE, words_get("draw.flip.mark"))->bold = true;
    struct draw_label *gap = add_leader(m, 0, f->open_top ? high - 4 : 4, model_say(m, saying));
    gap->anchor = f->turned < 0 ? ANCHOR_RIGHT : ANCHOR_LEFT;
    gap->bold = true;
}

bool draw_flip_picture(const struct picture *p, struct drawing *out)
{
    static const char *const titles[] = {"draw.title.flip_cut", "draw.title.flip_turned"};
    static void (*const draw_step[])(struct model *, const struct flip_picture *) = {draw_cut, draw_turned};
    enum { STEPS = sizeof titles / sizeof *titles };
    if (p->step < 0 || p->step >= STEPS)
        return false;
    struct flip_picture f = flip_of(p->test);
    struct model m = model_begin(out, p->pool, p->units, titles[p->step]);
    out->to_scale = false;
    draw_step[p->step](&m, &f);
    return true;
}
