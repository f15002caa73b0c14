/* Steps: tick box, number, what to do; beside it how to know that it is right, smaller. A caution that bites in a step
   stands before it, in the same slab. */
#include "pages/blocks.h"

#include <math.h>

#define TICK_MM 3.6
#define BESIDE_LEAST 330.0 /* narrower than this, the aside goes below [pt] */

/* Where the parts of a step stand [pt]. */
struct step_grid {
    double number_right; /* numbers end here */
    double what, what_width;
    double aside, aside_width;
    bool beside;
};

static struct rich aside_style(const struct setter *setter)
{
    struct rich r = rich_of(STYLE_BODY, setter->scale);
    r.color = COLOR_GREY(0.2);
    return r;
}

static struct step_grid make_grid(const struct setter *setter, const struct block *b, double width, const struct rich *rich)
{
    struct step_grid g = {0};
    struct rich bold = rich_bolder(*rich);
    double number = 0, em = rich->size;
    bool ticks = false, asides = false;
    for (int i = 0; i < b->as.steps.n; i++) {
        const struct step_item *item = &b->as.steps.items[i];
        number = fmax(number, lines_natural_width(setter->widths, &bold, item->number));
        ticks = ticks || item->tick;
        asides = asides || (item->aside && *item->aside);
    }
    g.number_right = (ticks ? pt_of_mm(TICK_MM) * setter->scale + 0.7 * em : 0) + number;
    g.what = g.number_right + (number > 0 ? 0.6 * em : 0);
    g.beside = asides && width >= BESIDE_LEAST * setter->scale;
    g.aside = g.beside ? grid_left(setter, width, 8) : g.what;
    g.aside_width = width - g.aside;
    g.what_width = fmin((g.beside ? g.aside - GUTTER * setter->scale : width) - g.what, MEASURE_MOST_EMS * em);
    return g;
}

/* Panel and sentence; gives the height with the white below. */
static double put_caution(const struct setter *setter, const struct rich *rich, const struct step_item *item, double x, double width, struct inks *inks)
{
    double panel = signal_panel_width(setter, rich, item->signal), left = panel + 0.6 * rich->size;
    double height = signal_panel_height(rich), top = (height - rich->leading) / 2;
    put_signal_panel(setter, rich, item->signal, x, 0, panel, inks);
    double text = put_text(setter, rich, item->caution, x + left, top, width - left, inks);
    return fmax(height, top + text) + 0.25 * rich->leading;
}

static void put_tick_box(const struct setter *setter, const struct rich *rich, double y, struct inks *inks)
{
    double side = pt_of_mm(TICK_MM) * setter->scale, inset = RULE_MEDIUM * setter->scale / 2;
    double middle = y + rich->leading / 2;
    ink_add_rect(inks, inset, middle - side / 2 + inset, side - inset, middle + side / 2 - inset, false, COLOR_BLACK, RULE_MEDIUM * setter->scale);
}

static void set_step(const struct setter *setter, const struct step_item *item, const struct step_grid *g, const struct rich *rich, double width, struct slab *slab)
{
    struct rich bold = rich_bolder(*rich), aside = aside_style(setter);
    bool has_aside = item->aside && *item->aside;
    double y = 0;
    if (item->signal != SIGNAL_NONE && item->caution)
        y = put_caution(setter, rich, item, g->what, width - g->what, &slab->inks);
    if (item->tick)
        put_tick_box(setter, rich, y, &slab->inks);
    double number = lines_natural_width(setter->widths, &bold, item->number);
    put_text(setter, &bold, item->number, g->number_right - number, y, number + 1, &slab->inks);
    double what = put_text(setter, rich, item->what, g->what, y, g->what_width, &slab->inks);
    double aside_top = g->beside ? y : y + what;
    double beside = has_aside ? put_text(setter, &aside, item->aside, g->aside, aside_top, g->aside_width, &slab->inks) : 0;
    slab->height = g->beside ? y + fmax(what, beside) : y + what + beside;
    slab->height = fmax(slab->height, y + rich->leading);
}

void set_steps(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    struct step_grid grid = make_grid(setter, b, width, &rich);
    for (int i = 0; i < b->as.steps.n; i++) {
        struct slab *slab = slabs_add(out);
        slab->above = (i ? 0.5 : 0.4) * rich.leading;
        slab->break_cost = 2;
        set_step(setter, &b->as.steps.items[i], &grid, &rich, width, slab);
    }
}
