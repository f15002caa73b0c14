/* The cutting of a job: each stock's parts laid out, what must be bought, what fits nowhere. */
#include "cutting.h"

#include "stock/alike.h"
#include "stock/break_down.h"
#include "stock/fill.h"
#include "stock/lay.h"
#include "stock/rips.h"
#include "stock/sheets.h"
#include "stock/strips.h"
#include "stock/tidy.h"

#include <math.h>

/* Steps of search for one stock: the open data and what a shop cuts are done within a second. */
static const long sheet_nodes = 6000000, strip_nodes = 10000000;
static const double kerf_default = 3.2; /* a common blade, 1/8 in; common practice, no source */

/* ---- the two kinds of stock ---- */

/* Each strip is cut to its lengths, longest first unless the last would be too short to be held. */
static struct layout lay_strips(const struct supply *u, const struct strips_result *r, struct pool *pool)
{
    int n_bins = u->n_offcuts + r->fresh;
    struct layout l = layout_new(pool, u->n, n_bins);
    struct bin *bins = pool_alloc(pool, (size_t)(n_bins + 1) * sizeof *bins);
    int *order = pool_alloc(pool, (size_t)(u->n + 1) * sizeof *order), *rest = pool_alloc(pool, (size_t)(n_bins + 1) * sizeof *rest);

    for (int b = 0; b < n_bins; b++) {
        bins[b] = b < u->n_offcuts ? u->offcuts[b] : u->fresh;
        rest[b] = b;
    }
    for (int i = 0; i < u->n; i++)
        order[i] = i;
    layout_start(&l, bins, n_bins);
    fill_sort(u->pieces, order, u->n, ORDER_W);
    for (int k = 0; k < u->n; k++) {
        int i = order[k], *slab = &rest[r->bin[i]];
        slab_place(&l, *slab, &u->pieces[i], i, false, SLAB_CUT_X, 0);
        if (l.slabs[*slab].kind == SLAB_CUT_X)
            *slab = l.slabs[*slab].child[1];
    }
    return l;
}

static void cut_strips(const struct supply *u, const struct saw *saw, struct pool *pool, struct cutting_stock *out)
{
    struct pool own = {0};
    int64_t *lengths = pool_alloc(&own, (size_t)(u->n + 1) * sizeof *lengths);
    int64_t *offcuts = pool_alloc(&own, (size_t)(u->n_offcuts + 1) * sizeof *offcuts);
    struct strips_result r;

    for (int i = 0; i < u->n; i++)
        lengths[i] = u->pieces[i].w;
    for (int i = 0; i < u->n_offcuts; i++)
        offcuts[i] = u->offcuts[i].w;
    strips_pack(&(struct strips_task){lengths, u->n, u->fresh.w, offcuts, u->n_offcuts, strip_nodes}, &own, &r);
    struct layout l = lay_strips(u, &r, &own);
    tidy_layout(&l, saw, pool_alloc(&own, 2 * (size_t)l.n * sizeof(int)));
    lay_out(u, &l, saw, pool, out);
    out->at_least = r.at_least;
    pool_free(&own);
}

static void cut_sheets(const struct supply *u, const struct saw *saw, struct pool *pool, struct cutting_stock *out)
{
    struct pool own = {0};
    struct sheets_result r;

    sheets_pack(&(struct sheets_task){u->pieces, u->n, u->fresh, u->offcuts, u->n_offcuts, sheet_nodes, saw}, &own, &r);
    struct layout trial = layout_new(&own, u->n, r.layout.n_bins);
    rips_join(&r.layout, saw, &trial, pool_alloc(&own, (size_t)(r.layout.n + 1) * sizeof(int64_t)));
    struct layout parted = layout_new(&own, 2 * u->n, 2 * r.layout.n_bins);
    layout_copy(&parted, &r.layout);
    if (u->ripped)
        rips_of_strip(&parted, saw);
    else
        break_down(&parted, saw);
    lay_out(u, &parted, saw, pool, out);
    out->at_least = r.at_least;
    pool_free(&own);
}

static void count_what_to_buy(struct cutting_stock *s)
{
    int have = s->stock->have.given ? (int)s->stock->have.v : 0;

    s->proven_best = s->fresh == s->at_least;
    s->to_buy = s->fresh > have ? s->fresh - have : 0;
    s->short_of_stock = s->stock->have.given && s->to_buy > 0;
}

static struct cutting_stock cut_stock(const struct supply *u, const struct saw *saw, struct pool *pool)
{
    struct cutting_stock s = {.stock = u->stock, .length_needed = u->length_needed, .n_pieces = u->n};
    bool unknown = u->stock->is_strip && !u->stock->length.given;

    if (u->n == 0 || u->too_many || unknown)
        return s;
    s.ripped = u->ripped;
    if (u->stock->is_strip && !u->ripped)
        cut_strips(u, saw, pool, &s);
    else
        cut_sheets(u, saw, pool, &s);
    count_what_to_buy(&s);
    return s;
}

/* ---- findings ---- */

static const char *letter_of(struct cutting *c, const struct plan_part *p)
{
    return pool_string(&c->pool, p->letter);
}

/* How much the stock is larger than a part in the direction in which it is least so; negative. */
static double slack_of(const struct cutting_misfit *m)
{
    const struct job_stock *s = m->part->stock;

    if (!s->is_strip)
        return fmin(s->sheet_along.v - m->needs_along, s->sheet_across.v - m->needs_across);
    double section = fmin(fmax(s->strip_width.v, s->thickness.v) - fmax(m->part->width, m->part->thickness),
                          fmin(s->strip_width.v, s->thickness.v) - fmin(m->part->width, m->part->thickness));
    return fmin(section, s->length.given ? s->length.v - m->needs_along : 0);
}

/* To the next whole millimetre or 64th of an inch; what is whole already stays so. */
static double round_up(enum units units, double mm)
{
    double step = units == UNITS_IN ? MM_PER_INCH / 64 : 1;

    return ceil(mm / step - 1e-6) * step;
}

static struct saying larger_stock(struct cutting *c, enum units units, const struct cutting_misfit *m)
{
    const struct job_stock *s = m->part->stock;
    const struct plan_part *p = m->part;

    if (s->is_strip)
        return SAYING("remedy.stock.strip", SAY_STR("stock", s->name),
                      SAY_ARG("thickness", SAY_FIT, fmax(s->thickness.v, fmin(p->thickness, p->width))),
                      SAY_ARG("width", SAY_FIT, fmax(s->strip_width.v, fmax(p->thickness, p->width))),
                      SAY_ARG("length", SAY_SIZE, round_up(units, m->needs_along)), SAY_STR("part", letter_of(c, p)));
    return SAYING("remedy.stock.sheet", SAY_STR("stock", s->name),
                  SAY_ARG("along", SAY_SIZE, round_up(units, m->needs_along)),
                  SAY_ARG("across", SAY_SIZE, round_up(units, m->needs_across)), SAY_STR("part", letter_of(c, p)));
}

static void find_misfit(struct cutting *c, enum units units, const struct cutting_misfit *m)
{
    const struct plan_part *p = m->part;

    c->findings[c->n_findings++] = (struct cutting_finding){
        .id = "stock_fits", .value = slack_of(m), .low = 0, .unit = "mm", .verdict = VERDICT_FAIL, .mark = p->stock->mark,
        .why = SAYING("cutting.misfit.why", SAY_STR("part", letter_of(c, p)), SAY_ARG("length", SAY_SIZE, p->sawn_length),
                      SAY_ARG("width", SAY_SIZE, p->width), SAY_STR("stock", p->stock->name)),
        .remedy = larger_stock(c, units, m)};
}

static void find_shortage(struct cutting *c, const struct cutting_stock *s)
{
    double have = s->stock->have.v;

    c->findings[c->n_findings++] = (struct cutting_finding){
        .id = "stock_enough", .value = have, .low = s->fresh, .unit = "1", .verdict = VERDICT_FAIL, .mark = s->stock->have.mark,
        .why = SAYING(s->proven_best ? "cutting.short.why" : "cutting.short.why.maybe", SAY_ARG("needed", SAY_COUNT, s->fresh),
                      SAY_STR("stock", s->stock->name), SAY_ARG("have", SAY_COUNT, have), SAY_ARG("at_least", SAY_COUNT, s->at_least)),
        .remedy = SAYING("cutting.short.remedy", SAY_ARG("buy", SAY_COUNT, s->to_buy), SAY_STR("stock", s->stock->name))};
}

static void find_too_many(struct cutting *c, const struct cutting_stock *s)
{
    c->findings[c->n_findings++] = (struct cutting_finding){
        .id = "stock_enough", .value = NAN, .low = NAN, .unit = "1", .verdict = VERDICT_CAUTION, .mark = s->stock->mark,
        .why = SAYING("cutting.too_many.why", SAY_ARG("most", SAY_COUNT, SUPPLY_PIECES_MOST), SAY_STR("stock", s->stock->name)),
        .remedy = SAYING_PLAIN("cutting.too_many.remedy")};
}

static struct cut_strip unnamed_strip(const struct job *job, const struct plan *plan, double kerf)
{
    double width = 0, thickness = 0, length = 0;

    for (size_t i = 0; i < plan->n_parts; i++) {
        const struct plan_part *p = &plan->parts[i];
        if (p->stock)
            continue;
        width = fmax(width, fmax(p->width, p->thickness) + supply_planing(job->units));
        thickness = fmax(thickness, fmin(p->width, p->thickness) + supply_planing(job->units));
        length += p->quantity * (p->sawn_length + kerf);
    }
    return (struct cut_strip){round_up(job->units, width), round_up(job->units, thickness), round_up(job->units, length)};
}

void cutting_build(const struct job *job, const struct plan *plan, struct cutting *out)
{
    struct supply u;

    *out = (struct cutting){.kerf_assumed = !job->saw.blade.kerf.given, .trim = job->trim.given ? job->trim.v : 0};
    out->kerf = out->kerf_assumed ? kerf_default : job->saw.blade.kerf.v;
    out->shortest_in_hand = sled_clamp_below(job->units);
    out->shortest_at_fence = 2 * out->shortest_in_hand;
    out->narrow_rip = out->shortest_in_hand / 5;
    out->unnamed = unnamed_strip(job, plan, out->kerf);
    out->stocks = pool_alloc(&out->pool, (job->n_stock + 1) * sizeof *out->stocks);
    out->misfits = pool_alloc(&out->pool, (plan->n_parts + 1) * sizeof *out->misfits);
    out->findings = pool_alloc(&out->pool, (plan->n_parts + 2 * job->n_stock + 1) * sizeof *out->findings);
    for (size_t i = 0; i < job->n_stock; i++) {
        if (!supply_gather(job, plan, &job->stock[i], out, &u))
            continue;
        struct cutting_stock *s = &out->stocks[out->n_stocks++];
        struct saw saw = saw_of_job(job, out, u.stock);
        *s = cut_stock(&u, &saw, &out->pool);
        alike_number(s);
        if (u.too_many)
            find_too_many(out, s);
        if (s->short_of_stock)
            find_shortage(out, s);
    }
    for (size_t i = 0; i < out->n_misfits; i++)
        find_misfit(out, job->units, &out->misfits[i]);
}

/* The panel's part before the kerf, or after it. */
static struct cut_area side_of(const struct cut_line *c, bool higher)
{
    struct cut_area a = c->panel;
    double *from = c->along_y ? &a.x : &a.y, *size = c->along_y ? &a.w : &a.h, end = *from + *size;

    if (higher)
        *from = c->kerf_to;
    *size = fmax(0, (higher ? end : c->kerf_from) - *from);
    return a;
}

struct cut_area cutting_gives(const struct cut_line *c)
{
    return side_of(c, c->keeps_higher);
}

struct cut_area cutting_leaves(const struct cut_line *c)
{
    return side_of(c, !c->keeps_higher);
}

struct cutting_count cutting_count(const struct cutting *c, const struct job_stock *stock)
{
    struct cutting_count n = {0, 0, stock->have.given ? (int)stock->have.v : 0};

    for (size_t i = 0; i < c->n_stocks; i++)
        for (size_t k = 0; k < c->stocks[i].n_sheets; k++) {
            const struct cut_sheet *s = &c->stocks[i].sheets[k];
            n.taken += s->stock == stock;
            n.to_buy += s->stock == stock && s->source == CUT_FROM_BOUGHT;
        }
    n.left += n.to_buy - n.taken;
    return n;
}

int cutting_kept(const struct cutting_stock *s)
{
    int n = 0;

    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->sheets[i].n_rests; k++)
            n += s->sheets[i].rests[k].number > 0;
    return n;
}

bool cutting_is_by_hand(const struct cut_line *c)
{
    return c->way >= CUT_TOO_LARGE;
}

bool cutting_is_by_eye(const struct cut_line *c)
{
    return c->trims && c->setting < 0;
}

void cutting_free(struct cutting *c)
{
    if (!c)
        return;
    pool_free(&c->pool);
    *c = (struct cutting){0};
}
