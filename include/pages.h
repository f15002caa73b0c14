/* pages.h: pages of placed ink, in points. Made by src/pages from sheets and faces. May be included by pdf, run. */
#ifndef FETTLE_PAGES_H
#define FETTLE_PAGES_H

#include "base/text.h"
#include "ink.h"
#include "sheet.h"

struct page {
    double width, height;       /* [pt] */
    struct ink *inks;
    size_t n_inks;
    enum sheet_kind kind;
    const char *label;          /* page label: "1" … */
    double filled;              /* share of the text area's height that holds something, 0 to 1 */
    bool true_scale;            /* holds a drawing at true scale */
    bool torn;                  /* its last piece belongs to the next page's first: a heading, a caption */
    size_t left_out;            /* labels of its drawings that found no room: a fault */
};
struct page_bookmark {
    const char *title;
    size_t page;
};
/* Everything reachable is owned by the pool and freed by pages_free. */
struct pages {
    struct pool pool;
    struct page *list;
    size_t n;
    struct page_bookmark *bookmarks;
    size_t n_bookmarks;
};
/* False with a message where a sheet that must be one page does not fit (a defect of the program, not of the job). */
bool pages_build(const struct sheets *, const struct faces *, struct pages *out, struct text *problem);
void pages_free(struct pages *);
/* Every rule a page must keep: ink inside the printable area, no two texts overlap, no text on a line, every glyph there,
   capitals at least as high as the tier asks, no page under a quarter full unless it is the sheet's only one, nothing kept
   together torn apart. Problems are added a line each; gives their number. */
size_t pages_check(const struct pages *, const struct faces *, struct text *problems);
/* Every text with its place, for golden files: "page 1\n  20.0 30.5 10.0 face text\n". */
void pages_dump(const struct pages *, struct text *out);

#endif
