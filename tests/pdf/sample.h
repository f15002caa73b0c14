/* sample.h: pages filled by hand with everything that a page can hold, for the tests of the PDF writer. */
#ifndef FETTLE_TESTS_SAMPLE_H
#define FETTLE_TESTS_SAMPLE_H

#include "pdf.h"

#include <string.h>

/* A job with leading blanks at many depths: the text taken out of the page must be this again. */
static const char sample_source[] = "fettle: 1\n"
                                    "job:\n"
                                    "  number: FS-012\n"
                                    "  title: Crosscut sled 600 × 50, \"the long one\"\n"
                                    "jig:\n"
                                    "  crosscut-sled:\n"
                                    "    base:\n"
                                    "      width: 1 3/8 in    # two  blanks, four    blanks\n"
                                    "        - {left: 1.5, right: 2.25}\n"
                                    "    runners: [18.9, 19.0]\n"
                                    "tests:\n"
                                    "- date: 2026-03-04\n";

static const char *const sample_words[] = {
    "AVATAR Tool To WAVE kerned",
    "Žluťoučký kůň, Łódź, Ørsted, őrült, șurub, Čapek",
    "Ελληνικά ε Δ µ",
    "12.5 mm × 3 ÷ 2 ± 0.1, 45° 30′ 15″, ≤ 5 ≥ 4, −0.25 – — …",
    "½ in ¼ in ¾ in ⅛ in ⅜ in ⅝ in ⅞ in",
    "☐ box, → arrow, ⌀ 12",
    "cut at 2026 mm³ and 3/8 in, then 11/64 in, not 1 3/8 in",
    "3 × 3 mm³, 3⁄8 in and 5/8",
};
enum { SAMPLE_WORDS = sizeof sample_words / sizeof *sample_words };

static inline void sample_add_source(struct inks *inks, const struct faces *faces)
{
    double y = 60;
    for (const char *line = sample_source; *line; y += 8) {
        const char *end = strchr(line, '\n');
        ink_add_text(inks, faces, FACE_MONO, 0, 6.5, 60, y, COLOR_BLACK, line, (size_t)(end - line));
        line = end + 1;
    }
}

static inline void sample_add_texts(struct inks *inks, const struct faces *faces)
{
    double y = 60;
    for (int i = 0; i < SAMPLE_WORDS; i++)
        for (enum face face = FACE_REGULAR; face <= FACE_CONDENSED_BOLD; face++, y += 16)
            ink_add_text(inks, faces, face, TYPE_FRACTIONS, 11, 60, y, COLOR_BLACK, sample_words[i], strlen(sample_words[i]));
    ink_add_text(inks, faces, FACE_BOLD, TYPE_FRACTIONS, 60, 430, 690, COLOR_BLACK, "1/1", 3);
    ink_add_text(inks, faces, FACE_BOLD, 0, 14, 40, 700, (struct color){0.6f, 0.1f, 0.1f}, "upward AVAT", 11);
    inks->list[inks->n - 1].as.text.upward = true;
}

static inline void sample_add_paths(struct inks *inks)
{
    static const struct path_op ops[] = {
        {.verb = PATH_MOVE, .x = 300, .y = 600},
        {.verb = PATH_CURVE, .x = 400, .y = 600, .x1 = 320, .y1 = 550, .x2 = 380, .y2 = 650},
        {.verb = PATH_LINE, .x = 350, .y = 680},
        {.verb = PATH_CLOSE, .x = 300, .y = 600},
    };
    struct ink curve = {.kind = INK_PATH};
    curve.as.path = (struct ink_path){.ops = pool_copy(inks->pool, ops, sizeof ops), .n = 4, .fill = true, .stroke = true,
                                      .fill_color = {0.9f, 0.9f, 1}, .stroke_color = {0, 0, 0.5f}, .width = 0.7};
    ink_add(inks, curve);
    ink_add_line(inks, 60, 720, 500, 720, 0.35, COLOR_BLACK);
    ink_add_line(inks, 60, 730, 500, 730, 6, COLOR_BLACK); /* chained, then dashed */
    memcpy(inks->list[inks->n - 1].as.path.dash, (double[]){12, 6, 4, 6}, 4 * sizeof(double));
    ink_add_line(inks, 60, 800, 500, 800, 6, COLOR_BLACK);
    memcpy(inks->list[inks->n - 1].as.path.dash, (double[]){10, 10}, 2 * sizeof(double));
    ink_add_rect(inks, 100, 740, 200, 780, true, COLOR_BLACK, 0);
    ink_add_rect(inks, 250, 740, 350, 780, false, COLOR_BLACK, 2);
}

static inline struct page sample_page(struct inks *inks, double width, double height, const char *label)
{
    return (struct page){.width = width, .height = height, .inks = inks->list, .n_inks = inks->n, .label = label};
}

/* Page 1 texts and paths (A4), page 2 the source (US Letter), page 3 nothing. */
static inline void sample_build(const struct faces *faces, struct pages *out)
{
    *out = (struct pages){0};
    out->list = pool_alloc(&out->pool, 3 * sizeof *out->list);
    struct inks texts = {.pool = &out->pool}, source = {.pool = &out->pool}, nothing = {.pool = &out->pool};
    sample_add_texts(&texts, faces);
    sample_add_paths(&texts);
    sample_add_source(&source, faces);
    out->list[out->n++] = sample_page(&texts, 210 / 25.4 * 72, 297 / 25.4 * 72, "W");
    out->list[out->n++] = sample_page(&source, 8.5 * 72, 11 * 72, "R 1");
    out->list[out->n++] = sample_page(&nothing, 8.5 * 72, 11 * 72, "R 2");
    static const struct page_bookmark bookmarks[] = {{"Wall sheet ≤ 1", 0}, {"Record Łódź", 1}};
    out->bookmarks = pool_copy(&out->pool, bookmarks, sizeof bookmarks);
    out->n_bookmarks = 2;
}

static const struct pdf_info sample_info = {
    .title = "FS-012 Crosscut sled <600 & \"more\"> Łódź \xF0\x9F\xAA\x9A",
    .author = "Workshop Ørsted",
    .subject = "Wall, build and record sheet",
    .keywords = "FS-012, 0123456789abcdef",
    .creator = "fettle 0.1.0",
    .language = "en-GB",
    .date = {2026, 11, 2},
    .identity = "fettle 0.1.0 0123456789abcdef",
};

#endif
