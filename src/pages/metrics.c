/* Paper sizes and text styles. */
#include "pages/metrics.h"

#include <assert.h>

#define PT_PER_MM (72 / 25.4)

/* ISO 216 and ANSI/ASME Y14.1 sizes, upright [mm]. */
static const struct {
    double width, height, type_scale;
} papers[] = {
    [PAPER_A4] = {210, 297, 1},
    [PAPER_A3] = {297, 420, 1.25},
    [PAPER_LETTER] = {215.9, 279.4, 1},
    [PAPER_TABLOID] = {279.4, 431.8, 1.25},
};

/* Capital heights: distance/200, the aviation display rule (NASA CR-177605 quotes it): 2.5 mm in the hand, 5 mm at 1 m,
   7.5 mm at 1.5 m. Capitals of the condensed face are 0.711 of its size. */
static const struct style styles[] = {
    [STYLE_SOURCE] = {FACE_MONO, FACE_MONO, 6.5, 8.3, 0},
    [STYLE_SMALL] = {FACE_CONDENSED, FACE_CONDENSED_BOLD, 8.5, 10.8, 2.1},
    [STYLE_BODY] = {FACE_CONDENSED, FACE_CONDENSED_BOLD, 10, 12.8, 2.5},
    [STYLE_LEAD] = {FACE_CONDENSED, FACE_CONDENSED_BOLD, 12, 15.2, 3},
    [STYLE_ARM] = {FACE_CONDENSED, FACE_CONDENSED_BOLD, 20, 24, 5},
    [STYLE_FAR] = {FACE_CONDENSED, FACE_CONDENSED_BOLD, 30, 35, 7.5},
};

double pt_of_mm(double mm)
{
    return mm * PT_PER_MM;
}

double mm_of_pt(double pt)
{
    return pt / PT_PER_MM;
}

struct frame frame_of(enum paper paper)
{
    assert((size_t)paper < sizeof papers / sizeof *papers);
    double w = papers[paper].width, h = papers[paper].height;
    return (struct frame){
        .width = pt_of_mm(w),
        .height = pt_of_mm(h),
        .left = pt_of_mm(20),
        .top = pt_of_mm(12),
        .right = pt_of_mm(w - 12),
        .bottom = pt_of_mm(h - 12),
        .type_scale = papers[paper].type_scale,
    };
}

const struct style *style_of(enum text_style style)
{
    assert((size_t)style < sizeof styles / sizeof *styles);
    return &styles[style];
}
