/* The kind of jig that a list of parts describes. */
#include "plan/parts_list.h"

#include "plan/stock_fit.h"

static bool section_given(const struct job_parts_part *p)
{
    return p->width.given;
}

/* A part of a sheet is `length` along its grain by `width`, as thick as the sheet. A part of a strip is a length of it,
   as wide as it says or as the strip is. */
static void add_listed(struct plan_builder *b, const struct job_parts_part *wish)
{
    const struct job_stock *s = wish->stock;
    struct plan_part *p = build_add_part(b);
    double whole = s->is_strip ? s->strip_width.v : wish->length.v;
    bool turned = wish->grain == GRAIN_ACROSS; /* its length lies across the stock's grain */

    p->kind = PART_LISTED;
    p->name = wish->name;
    p->quantity = wish->quantity.given ? (int)wish->quantity.v : 1;
    p->length = p->sawn_length = p->final_length = turned ? wish->width.v : wish->length.v;
    p->width = turned ? wish->length.v : section_given(wish) ? wish->width.v : whole;
    p->thickness = s->thickness.v;
    p->grain_matters = s->is_strip || wish->grain != GRAIN_ANY;
    p->stock = s;
    p->mass = p->quantity * s->material.density * 1e-9 * p->length * p->width * p->thickness;
}

void parts_list_parts(struct plan_builder *b)
{
    const struct job_parts *parts = &b->job->jig.as.parts;

    for (size_t i = 0; i < parts->n; i++)
        add_listed(b, &parts->parts[i]);
}

void parts_list_check(struct plan_builder *b)
{
    stock_check_fits(b);
}
