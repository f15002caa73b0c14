/* Lines and fills. Widths and patterns: ISO 128-2 (from memory: dash 12 d, gap 3 d, long dash 24 d, dot 0.5 d); wide to
   narrow 2 : 1; 0.5 with 0.25 mm suits A4. Hatch lines at least 0.7 mm apart. */
#include "draw/place.h"

static const struct line_style lines[] = {
    [LINE_NONE] = {.width = 0},
    [LINE_VISIBLE] = {.width = 0.5},
    [LINE_NARROW] = {.width = 0.25},
    [LINE_HIDDEN] = {.width = 0.25, .pattern = {12, 3}},
    [LINE_CENTRE] = {.width = 0.25, .pattern = {24, 3, 0.5, 3}},
    [LINE_PHANTOM] = {.width = 0.25, .pattern = {24, 3, 0.5, 3, 0.5, 3}},
    [LINE_HEAVY] = {.width = 0.7},
};

static const struct fill_style fills[] = {
    [FILL_NONE] = {.opaque = false},
    [FILL_WHITE] = {.opaque = true, .paints = true, .color = {1, 1, 1}},
    [FILL_TINT] = {.opaque = true, .paints = true, .color = {0.94F, 0.91F, 0.84F}},
    [FILL_DARK_TINT] = {.opaque = true, .paints = true, .color = {0.80F, 0.80F, 0.78F}},
    [FILL_BLACK] = {.opaque = true, .paints = true, .color = {0, 0, 0}},
    [FILL_HATCH] = {.opaque = true, .paints = true, .color = {1, 1, 1}, .hatch = 1.6},
    [FILL_HATCH_BACK] = {.opaque = true, .paints = true, .color = {1, 1, 1}, .hatch = 1.6, .backward = true},
    [FILL_HATCH_CLOSE] = {.opaque = true, .paints = true, .color = {1, 1, 1}, .hatch = 1.0},
    [FILL_HATCH_WIDE] = {.opaque = true, .paints = true, .color = {1, 1, 1}, .hatch = 2.6, .backward = true},
    [FILL_KEEP_OUT] = {.opaque = false, .hatch = 2.4, .hatch_color = {0.45F, 0.45F, 0.45F}},
};

const struct line_style *line_style(enum line_kind kind)
{
    return &lines[kind];
}

const struct fill_style *fill_style(enum fill_kind kind)
{
    return &fills[kind];
}
