/* metrics.h: the sizes everything on a page is made from: paper and margins, text styles, rules, spaces. One place,
   points. Private to src/pages. */
#ifndef FETTLE_PAGES_METRICS_H
#define FETTLE_PAGES_METRICS_H

#include "sheet.h"

double pt_of_mm(double mm);
double mm_of_pt(double pt);

/* The paper and the rectangle that ink may touch: 20 mm at the left for a punch or a binder (ISO 5457's filing margin;
   the holes of ISO 838 end 15 mm from the edge), 12 mm elsewhere: more than the 4 to 6 mm that cheap printers leave
   white (common practice, no source). */
struct frame {
    double width, height;            /* of the paper [pt] */
    double left, top, right, bottom; /* of the rectangle, from the paper's top left corner [pt] */
    double type_scale;               /* A3 and Tabloid are read from further away */
};
struct frame frame_of(enum paper);

struct style {
    enum face face, bold;
    double size, leading; /* [pt], at type_scale 1 */
    double least_cap_mm;  /* what the reading tier asks of a capital; 0: nothing */
};
const struct style *style_of(enum text_style);

/* Spaces and rules [pt], at type_scale 1. */
#define GUTTER 14.0         /* between columns of the 12-column grid */
#define RULE_HAIR 0.4       /* between rows */
#define RULE_THIN 0.6       /* boxes, feet */
#define RULE_MEDIUM 1.0     /* under a table's head */
#define RULE_HEAVY 2.2      /* under a page's head */
#define MEASURE_MOST_EMS 43 /* no line of running text is longer: about 100 characters of the condensed face */

/* Least sizes that pages_check asks for, by kind of sheet: on the wall, 2.5 mm capitals (0.5 m / 200). */
#define WALL_CAP_MM 2.5
#define WALL_FAR_CAP_MM 7.5
#define SMALL_CAP_MM 2.1
#define SOURCE_LEAST_PT 4.5
/* A page holds at least this share of its text area, unless it is its sheet's only one. */
#define FILLED_LEAST (1.0 / 4)

#define COLOR_GREY(v) ((struct color){(float)(v), (float)(v), (float)(v)})

#endif
