/* lines.h: marked text to lines: bold marks, hard line ends, fractions, and breaking with the least raggedness.
   Private to src/pages. */
#ifndef FETTLE_PAGES_LINES_H
#define FETTLE_PAGES_LINES_H

#include "ink.h"
#include "pages/widths.h"
#include "sheet.h"

/* How a text is set. A bold part may be larger: a sheet's number beside its title. */
struct rich {
    enum face face, bold;
    double size, bold_size, leading; /* [pt] */
    unsigned features;
    struct color color;
};
struct rich rich_of(enum text_style, double type_scale);
struct rich rich_bolder(struct rich); /* all of it bold */

/* A piece of one line in one face. */
struct run {
    const char *s; /* borrowed from the text that was broken */
    size_t n;
    bool bold, fraction;
    double width; /* [pt] */
};
struct line {
    struct run *runs;
    size_t n;
    double width;  /* from the text's left edge [pt] */
    double indent; /* lines of an item after the first stand under its words [pt] */
};
struct lines {
    struct rich rich;
    struct line *list;
    size_t n;
    double widest; /* [pt] */
};

/* Breaks at blanks (never at no-break ones) so that as few lines as can be are as even as can be; a word wider than the
   measure is broken after the last character that fits. No character but the blank at a line's end is lost. "" has no
   lines. A stretch that begins with a bullet and a blank is an item: its further lines are indented. */
void lines_break(struct widths *, struct pool *, const struct rich *, const char *text, double measure,
                 struct lines *out);
/* Width of a text where it is broken only at its hard line ends, and of its widest word. */
double lines_natural_width(struct widths *, const struct rich *, const char *text);
double lines_least_width(struct widths *, const struct rich *, const char *text);

double lines_height(const struct lines *); /* n times the leading */
/* Baseline of a line of this style in a row `leading` high, from its top: capitals stand in the middle. */
double lines_baseline(struct widths *, const struct rich *);
/* Puts lines from up to before end, the first line's top at y. */
void lines_ink(const struct lines *, struct widths *, size_t from, size_t end, double x, double y, double measure,
               enum align, struct inks *into);

#endif
