/* Signal panels of ISO 3864-2 / ANSI Z535.4: word, triangle and frame say it; the colour of ISO 3864-4 says it again.
 */
#include "pages/blocks.h"

#include "words.h"

#include <assert.h>
#include <math.h>

/* Red 9B2423, yellow F9A900, blue 005387 as in ISO 3864-4. Orange is ANSI Z535.1's lighter one (Munsell 5.0YR 6.0/15,
   luminance 0.30; from memory): ISO's D05D29 prints as a grey on which black is weak. Without colour the four are told
   apart all the same: white on dark in a heavy frame, black on a middle grey in a heavy one, black on light in a thin one,
   white paper in a hair line and no triangle. */
static const struct panel {
    const char *word; /* key */
    struct color ground, text;
    double frame; /* in ems of the word */
    bool triangle;
} panels[] = {
    [SIGNAL_NONE] = {NULL, {1, 1, 1}, {0, 0, 0}, 0, false},
    [SIGNAL_NOTICE] = {"signal.notice", {1, 1, 1}, {0x00 / 255.f, 0x53 / 255.f, 0x87 / 255.f}, 0.04, false},
    [SIGNAL_CAUTION] = {"signal.caution", {0xF9 / 255.f, 0xA9 / 255.f, 0x00 / 255.f}, {0, 0, 0}, 0.06, true},
    [SIGNAL_WARNING] = {"signal.warning", {0xE8 / 255.f, 0x76 / 255.f, 0x00 / 255.f}, {0, 0, 0}, 0.12, true},
    [SIGNAL_DANGER] = {"signal.danger", {0x9B / 255.f, 0x24 / 255.f, 0x23 / 255.f}, {1, 1, 1}, 0.12, true},
};

/* In a square of side 1 with its top left at (0, 0). */
static const double triangle[][2] = {{0.50, 0.06}, {1.00, 0.94}, {0.00, 0.94}};
static const double stroke[][2] = {{0.435, 0.36}, {0.565, 0.36}, {0.545, 0.66}, {0.455, 0.66}};
static const double dot[][2] = {{0.44, 0.72}, {0.56, 0.72}, {0.56, 0.84}, {0.44, 0.84}};

#define TRIANGLE_EMS 0.98 /* side of its square */
#define PAD_EMS 0.36      /* beside word and triangle */

static const struct panel *panel_of(enum signal signal)
{
    assert((size_t)signal < sizeof panels / sizeof *panels);
    return &panels[signal];
}

double signal_panel_width(const struct setter *setter, const struct rich *rich, enum signal signal)
{
    const struct panel *p = panel_of(signal);
    struct rich bold = rich_bolder(*rich);
    double word = p->word ? lines_natural_width(setter->widths, &bold, words_get(p->word)) : 0;
    return word + (2 * PAD_EMS + (p->triangle ? TRIANGLE_EMS + 0.7 * PAD_EMS : 0)) * rich->size;
}

double signal_panel_height(const struct rich *rich)
{
    return 1.44 * rich->size;
}

static void put_triangle(const struct panel *p, double x, double y, double side, struct inks *inks)
{
    put_polygon(inks, triangle, sizeof triangle / sizeof *triangle, x, y, side, p->text);
    put_polygon(inks, stroke, sizeof stroke / sizeof *stroke, x, y, side, p->ground);
    put_polygon(inks, dot, sizeof dot / sizeof *dot, x, y, side, p->ground);
}

void put_signal_panel(const struct setter *setter, const struct rich *rich, enum signal signal, double x, double y,
                      double width, struct inks *inks)
{
    if (signal == SIGNAL_NONE)
        return;
    const struct panel *p = panel_of(signal);
    double em = rich->size, height = signal_panel_height(rich), frame = p->frame * em;
    ink_add_rect(inks, x, y, x + width, y + height, true, COLOR_BLACK, 0);
    ink_add_rect(inks, x + frame, y + frame, x + width - frame, y + height - frame, true, p->ground, 0);
    struct rich word = rich_bolder(*rich);
    word.color = p->text;
    word.leading = height;
    double own = signal_panel_width(setter, rich, signal), text = x + (width - own) / 2 + PAD_EMS * em;
    if (p->triangle) {
        put_triangle(p, text, y + (height - TRIANGLE_EMS * em) / 2, TRIANGLE_EMS * em, inks);
        text += (TRIANGLE_EMS + 0.7 * PAD_EMS) * em;
    }
    put_text(setter, &word, words_get(p->word), text, y, width, inks);
}
