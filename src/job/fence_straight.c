/* Readings of a straight edge held to a fence on two equal shims. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

#define GAP_MOST 10      /* mm */
#define SHIM_SLACK 0.003 /* a gap this near to the shim stands over it [mm] */

static const struct field fence_straight_fields[] = {
    {"gaps", .kind = VALUE_PAIRS, .low = 0, .high = 5000, .required = true, AT(struct job_test, as.fence_straight.gaps),
     MORE(struct job_test, as.fence_straight.n_gaps), .mark_at = offsetof(struct job_test, as.fence_straight.gaps_mark),
     .about = "[place from the left shim, gap there] for each place"},
    {"shim", LENGTH(0, 10), .required = true, AT(struct job_test, as.fence_straight.shim),
     .about = "thickness of the shim at either end; 0 only where the fence is hollow"},
    {"length", LENGTH(100, 5000), AT(struct job_test, as.fence_straight.length),
     .about = "between the shims; left out: the first and the last place stand over them"},
    {"shortest_work", LENGTH(10, 3000), .fallback = 100, AT(struct job_test, as.fence_straight.shortest_work),
     .about = "the shortest work held to the fence"},
    {"straight_edge", .kind = VALUE_INSTRUMENT, AT(struct job_test, as.fence_straight.straight_edge),
     .mark_at = offsetof(struct job_test, as.fence_straight.straight_edge_mark),
     .about = "one of `instruments`; left out: a straight edge of DIN 874-1 grade 2 is assumed"},
};

static void check_places(struct reader *r, const struct fence_straight_readings *f)
{
    for (size_t i = 0; i < f->n_gaps; i++) {
        const struct job_pair *p = &f->gaps[i];
        const char *path = pool_printf(&r->diags->pool, "%s.gaps[%zu]", reader_path(r), i);
        if (p->second > GAP_MOST)
            diag_at(r->diags, DIAG_IMPLAUSIBLE, p->mark, path, "a gap of %s: [place, gap] in that order?",
                    reader_length(r, p->mark, p->second));
        if (f->length.given && p->first > f->length.v)
            diag_at(r->diags, DIAG_CONTRADICTION, p->mark, path, "a place beyond the right shim, which is at %s",
                    reader_num(r, &f->length));
        for (size_t k = 0; k < i; k++)
            if (fabs(f->gaps[k].first - p->first) < 1e-6)
                diag_at(r->diags, DIAG_CONTRADICTION, p->mark, path, "%s stands there twice",
                        reader_length(r, p->mark, p->first));
    }
}

/* With a length the shims are at its ends: no gap is read there, and one is read between. */
static void check_between(struct reader *r, const struct fence_straight_readings *f)
{
    size_t between = 0;
    for (size_t i = 0; i < f->n_gaps; i++) {
        const struct job_pair *p = &f->gaps[i];
        bool at_shim = p->first == 0 || p->first == f->length.v;
        between += !at_shim;
        if (at_shim && fabs(p->second - f->shim.v) > SHIM_SLACK)
            diag_at(r->diags, DIAG_CONTRADICTION, p->mark, reader_key(r, "gaps"),
                    "a gap of %s where the shim of %s stands", reader_length(r, p->mark, p->second),
                    reader_num(r, &f->shim));
    }
    if (f->n_gaps > 0 && between == 0)
        diag_at(r->diags, DIAG_CONTRADICTION, f->gaps_mark, reader_key(r, "gaps"),
                "no place between the shims: at least one is needed");
}

static const struct job_pair *outermost(const struct fence_straight_readings *f, int side)
{
    const struct job_pair *found = &f->gaps[0];
    for (size_t i = 1; i < f->n_gaps; i++)
        if (side * f->gaps[i].first > side * found->first)
            found = &f->gaps[i];
    return found;
}

/* Without a length the shims are where the first and last gap say so themselves. */
static void check_ends(struct reader *r, const struct fence_straight_readings *f)
{
    for (int side = -1; side <= 1 && f->n_gaps; side += 2) {
        const struct job_pair *p = outermost(f, side);
        if (fabs(p->second - f->shim.v) > SHIM_SLACK)
            diag_at(r->diags, DIAG_CONTRADICTION, p->mark, reader_key(r, "gaps"),
                    "the %s place has a gap of %s and no shim of %s: give `length`, the distance between the shims",
                    side < 0 ? "first" : "last", reader_length(r, p->mark, p->second), reader_num(r, &f->shim));
    }
}

static void check_fence_straight(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    struct fence_straight_readings *f = &t->as.fence_straight;
    (void)map;
    check_places(r, f);
    if (f->length.given)
        check_between(r, f);
    else
        check_ends(r, f);
    if (!f->length.given && f->n_gaps > 0 && f->n_gaps < 3)
        diag_at(r->diags, DIAG_CONTRADICTION, f->gaps_mark, reader_key(r, "gaps"),
                "%zu places, the shims included: at least one between them is needed", f->n_gaps);
    if (f->straight_edge && f->straight_edge->kind != INSTRUMENT_STRAIGHT_EDGE)
        diag_at(r->diags, DIAG_CONTRADICTION, f->straight_edge_mark, reader_key(r, "straight_edge"),
                "\"%s\" is not of kind straight-edge", f->straight_edge->name);
    tools_check_gaps(r, t);
}

const struct table fence_straight_table = {"fence_straight", FIELDS(fence_straight_fields), .extends = &test_table,
                                           .check = check_fence_straight};
