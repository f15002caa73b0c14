/* Steps: tick box, number, what to do; beside it how to know that it is right and why, a little smaller. A caution that
   bites in a step stands before it on the row of its number, in the same slab. */
#include "pages/blocks.h"

#include <math.h>

#define TICK_MM 3.6
#define BESIDE_LEAST 330.0 /* narrower than this, the aside goes below [pt] */
#define ASIDE_SHARE 0.92   /* of the step's size */

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
    r.size *= ASIDE_SHARE; /* but of the step's leading: their lines stand on one line */
    r.bold_size *= ASIDE_SHARE;
    return r;
}

static double text_height(const struct setter *setter, const struct rich *rich, const char *text, double width)
{
    struct lines lines;
    lines_break(setter->widths, setter->pool, rich, text, width, &lines);
    return lines_height(&lines);
}

static struct step_grid make_grid(const struct setter *setter, const struct step_plan *plan, double width, double em)
{
    struct step_grid g = {0};
    double scale = setter->scale;
    g.number_right = (plan->ticks ? pt_of_mm(TICK_MM) * scale + 0.7 * em : 0) + plan->number;
    g.what = g.number_right + (plan->number > 0 ? 0.6 * em : 0);
    g.beside = plan->asides && width >= BESIDE_LEAST * scale;
    g.aside = g.beside ? grid_left(setter, width, plan->division) : g.what;
    g.aside_width = fmin(width - g.aside, MEASURE_MOST_EMS * em);
    g.what_width = fmin((g.beside ? g.aside - GUTTER * scale : width) - g.what, MEASURE_MOST_EMS * em);
    return g;
}

/* Height of all steps of a list (those in columns are too narrow for asides), without what does not depend on the
 * division. */
static double height_of_steps(const struct setter *setter, const struct block_list *list, const struct step_grid *g,
                              const struct rich *rich)
{
    struct rich aside = aside_style(setter);
    double height = 0;
    for (size_t i = 0; i < list->n; i++)
        for (int k = 0; list->blocks[i].kind == BLOCK_STEPS && k < list->blocks[i].as.steps.n; k++) {
            const struct step_item *item = &list->blocks[i].as.steps.items[k];
            height += fmax(text_height(setter, rich, item->what, g->what_width),
                           text_height(setter, &aside, item->aside, g->aside_width));
        }
    return height;
}

static void look_at_steps(const struct setter *setter, const struct block_list *list, const struct rich *rich,
                          struct step_plan *plan)
{
    struct rich bold = rich_bolder(*rich);
    for (size_t i = 0; i < list->n; i++) {
        const struct block *b = &list->blocks[i];
        for (int c = 0; b->kind == BLOCK_COLUMNS && c < b->as.columns.n; c++)
            look_at_steps(setter, &b->as.columns.list[c], rich, plan);
        for (int k = 0; b->kind == BLOCK_STEPS && k < b->as.steps.n; k++) {
            const struct step_item *item = &b->as.steps.items[k];
            plan->number = fmax(plan->number, lines_natural_width(setter->widths, &bold, item->number));
            plan->ticks = plan->ticks || item->tick;
            plan->asides = plan->asides || (item->aside && *item->aside);
        }
    }
}

/* Long asides get a wider column: of a few divisions the one that makes the steps lowest, the first among equals. */
struct step_plan plan_steps(const struct setter *setter, const struct block_list *body, double width)
{
    static const double divisions[] = {7, 6.5, 6};
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    struct step_plan plan = {.division = divisions[0]}, best;
    double lowest = HUGE_VAL;
    look_at_steps(setter, body, &rich, &plan);
    best = plan;
    for (size_t i = 0; plan.asides && i < sizeof divisions / sizeof *divisions; i++) {
        plan.division = divisions[i];
        struct step_grid grid = make_grid(setter, &plan, width, rich.size);
        double height = height_of_steps(setter, body, &grid, &rich);
        if (height < lowest - 0.5 * rich.leading) {
            lowest = height;
            best = plan;
        }
    }
    return best;
}

/* Panel and sentence; gives the height with the white below. */
static double put_caution(const struct setter *setter, const struct rich *rich, const struct step_item *item, double x,
                          double width, struct inks *inks)
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
    ink_add_rect(inks, inset, middle - side / 2 + inset, side - inset, middle + side / 2 - inset, false, COLOR_BLACK,
                 RULE_MEDIUM * setter->scale);
}

static void set_step(const struct setter *setter, const struct step_item *item, const struct step_grid *g,
                     const struct rich *rich, double width, struct slab *slab)
{
    struct rich bold = rich_bolder(*rich), aside = aside_style(setter);
    bool has_aside = item->aside && *item->aside;
    double y = 0;
    if (item->signal != SIGNAL_NONE && item->caution)
        y = put_caution(setter, rich, item, g->what, width - g->what, &slab->inks);
    if (item->tick)
        put_tick_box(setter, rich, 0, &slab->inks);
    double number = lines_natural_width(setter->widths, &bold, item->number);
    put_text(setter, &bold, item->number, g->number_right - number, 0, number + 1, &slab->inks);
    double what = put_text(setter, rich, item->what, g->what, y, g->what_width, &slab->inks);
    double drop = lines_baseline(setter->widths, rich) - lines_baseline(setter->widths, &aside);
    double aside_top = g->beside ? y + drop : y + what;
    double beside =
        has_aside ? put_text(setter, &aside, item->aside, g->aside, aside_top, g->aside_width, &slab->inks) : 0;
    slab->height = g->beside ? y + fmax(what, drop + beside) : y + what + beside;
    slab->height = fmax(slab->height, y + rich->leading);
}

void set_steps(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    struct rich rich = rich_of(STYLE_BODY, setter->scale);
    struct step_grid grid = make_grid(setter, &setter->steps, width, rich.size);
    for (int i = 0; i < b->as.steps.n; i++) {
        struct slab *slab = slabs_add(out);
        slab->above = (i ? 0.5 : 0.4) * rich.leading;
        slab->break_cost = 2;
        set_step(setter, &b->as.steps.items[i], &grid, &rich, width, slab);
    }
}
