/* Signal panels and the state banner on a printer without colour: told apart by luminance and frame, each word readable. */
#include "kit.h"

#include "faces.h"

#include <math.h>

/* Relative luminance and contrast ratio: WCAG 2.2 (W3C), "relative luminance" and "contrast ratio". */
static double linear(double c)
{
    return c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(struct color c)
{
    return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

static double contrast(double a, double b)
{
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

/* What a word stands on: the two filled boxes last drawn around it before it, the frame's and the ground's. */
struct look {
    double word, ground; /* luminance */
    double frame;        /* width [em of the word] */
};

static void test_luminance_of_known_colours(void **state)
{
    (void)state;
    assert_close(luminance(COLOR_WHITE), 1, 1e-6);
    assert_close(contrast(luminance(COLOR_WHITE), luminance(COLOR_BLACK)), 21, 1e-6); /* WCAG's largest */
}

static bool is_around(const struct ink *ink, const struct ink_text *t, double box[4])
{
    if (ink->kind != INK_PATH || !ink->as.path.fill)
        return false;
    ink_box(ink, faces, box);
    return box[0] < t->x && box[2] > t->x + t->width && box[1] < t->y && box[3] > t->y;
}

static struct look look_of(const struct page *page, const char *word)
{
    const struct ink_text *t = find_text(page, word);
    struct look look = {.frame = NAN};
    double outer = NAN, box[4];
    assert_non_null(t);
    for (size_t i = 0; i < page->n_inks && !(page->inks[i].kind == INK_TEXT && &page->inks[i].as.text == t); i++)
        if (is_around(&page->inks[i], t, box)) {
            look.ground = luminance(page->inks[i].as.path.fill_color);
            look.frame = (box[0] - outer) / t->size;
            outer = box[0];
        }
    look.word = luminance(t->color);
    return look;
}

static void build_cautions(struct pages *pages)
{
    static struct caution_item items[] = {{SIGNAL_DANGER, "one"}, {SIGNAL_WARNING, "two"}, {SIGNAL_CAUTION, "three"}, {SIGNAL_NOTICE, "four"}};
    struct block_list body = {0};
    struct block b = {.kind = BLOCK_CAUTIONS};
    b.as.cautions.items = items;
    b.as.cautions.n = COUNT(items);
    b.as.cautions.style = STYLE_ARM;
    add_block(&body, b);
    struct sheet sheet = plain_sheet(SHEET_BUILD, body);
    struct text problem = {0};
    assert_true(build_one(faces, &sheet, pages, &problem));
    assert_no_problems(pages, faces);
    free_list(&body);
}

/* Words at 4.5 : 1 at least (WCAG 2.2, 1.4.3), DANGER and WARNING at 7 : 1 (1.4.6); each ground at least 1.5 times as
   light as the next graver one's (by eye, no source); DANGER alone is white on dark, NOTICE alone on white. */
static void test_signals_are_told_apart_without_colour(void **state)
{
    (void)state;
    static const char *const words[] = {"DANGER", "WARNING", "CAUTION", "NOTICE"};
    struct pages pages;
    struct look look[4];
    build_cautions(&pages);
    for (int i = 0; i < 4; i++) {
        look[i] = look_of(&pages.list[0], words[i]);
        if (contrast(look[i].word, look[i].ground) < (i < 2 ? 7 : 4.5))
            fail_msg("%s: word on ground %.2f : 1", words[i], contrast(look[i].word, look[i].ground));
        if (i > 0 && contrast(look[i].ground, look[i - 1].ground) < 1.5)
            fail_msg("%s and %s: grounds %.2f : 1", words[i - 1], words[i], contrast(look[i].ground, look[i - 1].ground));
        assert_true(i == 0 ? look[i].word > look[i].ground : look[i].word < look[i].ground);
    }
    assert_close(look[3].ground, 1, 1e-6);
    for (int i = 0; i < 2; i++)
        for (int k = 2; k < 4; k++)
            assert_true(look[i].frame > 1.5 * look[k].frame && look[k].frame > 0);
    pages_free(&pages);
}

/* DO NOT USE and FIT FOR USE are both white on dark in grey: a white line within the frame is the former's alone. */
static void test_banner_that_forbids_has_a_white_line(void **state)
{
    (void)state;
    static const struct {
        enum mark_shape mark;
        bool line;
    } rows[] = {{MARK_CROSS, true}, {MARK_FILLED_SQUARE, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        struct block_list body = {0};
        struct block b = {.kind = BLOCK_BANNER};
        b.as.banner.mark = rows[i].mark;
        b.as.banner.words = "STATE";
        b.as.banner.right = "";
        add_block(&body, b);
        struct sheet sheet = plain_sheet(SHEET_BUILD, body);
        struct pages pages;
        struct text problem = {0};
        int white = 0;
        assert_true(build_one(faces, &sheet, &pages, &problem));
        assert_no_problems(&pages, faces);
        for (size_t k = 0; k < pages.list[0].n_inks; k++) {
            const struct ink *ink = &pages.list[0].inks[k];
            white += ink->kind == INK_PATH && ink->as.path.fill && luminance(ink->as.path.fill_color) > 0.9;
        }
        /* on a dark ground the mark is white, too */
        assert_int_equal(white > 1, rows[i].line);
        pages_free(&pages);
        free_list(&body);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_luminance_of_known_colours),
        cmocka_unit_test(test_signals_are_told_apart_without_colour),
        cmocka_unit_test(test_banner_that_forbids_has_a_white_line),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
