/* From parts and stock in millimetres to pieces and bins in whole numbers. */
#include "stock/supply.h"

#include "stock/bound.h"

#include <math.h>
#include <string.h>

/* 1 mm or 1/32 in over, on a mark of the rule: common practice, no source. */
static const double planing[] = {[UNITS_MM] = 1, [UNITS_IN] = MM_PER_INCH / 32};
static const double marks[] = {[UNITS_MM] = 0.5, [UNITS_IN] = MM_PER_INCH / 64};

double supply_planing(enum units units)
{
    return planing[units];
}

int64_t supply_units(double mm)
{
    return (int64_t)llround(mm * UNITS_PER_MM);
}

static bool names_stock(const struct plan *plan, const struct job_stock *s)
{
    for (size_t i = 0; i < plan->n_parts; i++)
        if (plan->parts[i].stock == s)
            return true;
    return false;
}

static bool is_same(double a, double b)
{
    return fabs(a - b) < 1e-6;
}

static bool is_same_material(const struct job_stock *a, const struct job_stock *b)
{
    if (a->is_strip != b->is_strip || strcmp(a->material.name, b->material.name) != 0 ||
        !is_same(a->material.density, b->material.density) || !is_same(a->thickness.v, b->thickness.v))
        return false;
    return !a->is_strip || (is_same(a->strip_width.v, b->strip_width.v) && a->rings_given == b->rings_given && a->rings == b->rings);
}

static double size_of(const struct job_stock *s)
{
    return s->is_strip ? s->length.v : s->sheet_along.v * s->sheet_across.v;
}

/* A heap of offcuts of this stock: see cutting.h. */
static bool is_offcut_of(const struct plan *plan, const struct job_stock *heap, const struct job_stock *s)
{
    return heap != s && heap->have.given && heap->have.v > 0 && !names_stock(plan, heap) && is_same_material(heap, s) &&
           size_of(heap) < size_of(s); /* false where a strip's length is not stated */
}

static struct bin bin_of(const struct job_stock *s, const struct supply *u, bool trimmed)
{
    double w = s->is_strip ? s->length.v : s->sheet_along.v, h = s->is_strip ? s->strip_width.v : s->sheet_across.v;
    struct bin b = {0, supply_units(h) + u->kerf};

    if (!isnan(w))
        b.w = supply_units(w) + u->kerf;
    if (trimmed) {
        b.w -= 2 * u->trim_x;
        b.h -= 2 * u->trim_y;
    }
    if (b.w <= u->kerf || b.h <= u->kerf)
        b.w = b.h = 0;
    return b;
}

/* The first stock that an offcut can belong to has it. */
static bool is_taken(const struct job *job, const struct plan *plan, const struct job_stock *heap, const struct job_stock *s)
{
    for (size_t i = 0; i < job->n_stock && &job->stock[i] != s; i++)
        if (names_stock(plan, &job->stock[i]) && is_offcut_of(plan, heap, &job->stock[i]))
            return true;
    return false;
}

static void gather_offcuts(const struct job *job, const struct plan *plan, struct pool *pool, struct supply *u)
{
    u->offcuts = pool_alloc(pool, SUPPLY_OFFCUTS_MOST * sizeof *u->offcuts);
    u->offcut_stock = pool_alloc(pool, SUPPLY_OFFCUTS_MOST * sizeof *u->offcut_stock);
    for (size_t i = 0; i < job->n_stock; i++) {
        const struct job_stock *heap = &job->stock[i];
        if (!is_offcut_of(plan, heap, u->stock) || is_taken(job, plan, heap, u->stock))
            continue;
        for (int k = 0; k < (int)heap->have.v && u->n_offcuts < SUPPLY_OFFCUTS_MOST; k++) {
            u->offcuts[u->n_offcuts] = bin_of(heap, u, false);
            u->offcut_stock[u->n_offcuts++] = heap;
        }
    }
}

/* A part of a strip is planed to its width and thickness afterwards, either way up. */
static bool section_fits(const struct plan_part *p)
{
    double a = fmax(p->width, p->thickness), b = fmin(p->width, p->thickness);
    double c = fmax(p->stock->strip_width.v, p->stock->thickness.v), d = fmin(p->stock->strip_width.v, p->stock->thickness.v);

    return a <= c + 1e-9 && b <= d + 1e-9;
}

/* How wide a part is ripped from its strip: on edge where the strip is thick enough for that, else flat; up to the next
   mark, so that the fence can be set to what is printed. */
static double ripped_width(const struct plan_part *p, enum units units)
{
    double wide = fmax(p->width, p->thickness), narrow = fmin(p->width, p->thickness);
    double across = wide <= p->stock->thickness.v + 1e-9 ? narrow : wide;

    double over = ceil((across + planing[units]) / marks[units] - 1e-6) * marks[units];

    return fmin(over, p->stock->strip_width.v);
}

static struct piece piece_of(const struct plan_part *p, const struct supply *u)
{
    double across = p->stock->is_strip ? ripped_width(p, u->units) : p->width;

    return (struct piece){supply_units(p->sawn_length) + u->kerf, supply_units(across) + u->kerf, !p->stock->is_strip && !p->grain_matters};
}

/* Where no two parts go side by side, only lengths are laid out, and each part takes the whole width. */
static void settle_ripping(struct supply *u)
{
    for (int i = 0; i < u->n; i++)
        u->ripped |= 2 * u->pieces[i].h <= u->fresh.h;
    for (int i = 0; i < u->n && !u->ripped; i++)
        u->pieces[i].h = u->fresh.h;
}

static bool fits_stock(const struct supply *u, const struct plan_part *p, const struct piece *piece)
{
    return (!p->stock->is_strip || section_fits(p)) && bin_holds(u->fresh, piece);
}

/* The least stock that would do for a part alone: as it lies, or turned where that asks for less more. */
static struct cutting_misfit misfit_of(const struct plan_part *p, double trim)
{
    const struct job_stock *s = p->stock;
    double along = p->sawn_length, across = p->width;

    if (s->is_strip)
        return (struct cutting_misfit){p, fmax(s->length.given ? s->length.v : 0, along + 2 * trim), 0};
    if (!p->grain_matters && (along > across) != (s->sheet_along.v > s->sheet_across.v)) {
        along = p->width;
        across = p->sawn_length;
    }
    return (struct cutting_misfit){p, fmax(s->sheet_along.v, along + 2 * trim), fmax(s->sheet_across.v, across + 2 * trim)};
}

static void gather_pieces(const struct plan *plan, struct cutting *c, struct supply *u)
{
    u->pieces = pool_alloc(&c->pool, SUPPLY_PIECES_MOST * sizeof *u->pieces);
    u->part = pool_alloc(&c->pool, SUPPLY_PIECES_MOST * sizeof *u->part);
    for (size_t i = 0; i < plan->n_parts; i++) {
        const struct plan_part *p = &plan->parts[i];
        if (p->stock != u->stock)
            continue;
        struct piece piece = piece_of(p, u);
        bool unknown = u->fresh.w == 0 && u->stock->is_strip && !u->stock->length.given && section_fits(p);
        if (u->stock->is_strip)
            u->length_needed += p->quantity * (p->sawn_length + c->kerf);
        if (!unknown && !fits_stock(u, p, &piece)) {
            c->misfits[c->n_misfits++] = misfit_of(p, c->trim);
            continue;
        }
        for (int k = 0; k < p->quantity; k++) {
            if (u->n == SUPPLY_PIECES_MOST) {
                u->too_many = true;
                return;
            }
            u->pieces[u->n] = piece;
            u->part[u->n++] = p;
        }
    }
}

bool supply_gather(const struct job *job, const struct plan *plan, const struct job_stock *s, struct cutting *c, struct supply *out)
{
    if (!names_stock(plan, s))
        return false;
    *out = (struct supply){.stock = s, .units = job->units, .kerf = supply_units(c->kerf), .trim_x = supply_units(c->trim)};
    out->trim_y = s->is_strip ? 0 : out->trim_x;
    out->fresh = bin_of(s, out, true);
    gather_offcuts(job, plan, &c->pool, out);
    gather_pieces(plan, c, out);
    if (s->is_strip)
        settle_ripping(out);
    return true;
}
