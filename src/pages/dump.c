/* Every text with its place, for golden files. */
#include "pages.h"

static const char *const face_names[FACES] = {
    [FACE_REGULAR] = "regular",     [FACE_BOLD] = "bold",
    [FACE_CONDENSED] = "condensed", [FACE_CONDENSED_BOLD] = "condensed-bold",
    [FACE_MONO] = "mono",           [FACE_FALLBACK] = "fallback",
};

void pages_dump(const struct pages *pages, struct text *out)
{
    for (size_t p = 0; p < pages->n; p++) {
        text_printf(out, "page %zu\n", p + 1);
        for (size_t i = 0; i < pages->list[p].n_inks; i++) {
            const struct ink *ink = &pages->list[p].inks[i];
            if (ink->kind != INK_TEXT)
                continue;
            const struct ink_text *t = &ink->as.text;
            text_printf(out, "  %.1f %.1f %.1f %s%s %s\n", t->x, t->y, t->size, face_names[t->face],
                        t->upward ? "-upward" : "", t->s);
        }
    }
}
