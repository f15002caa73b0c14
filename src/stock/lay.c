/* Back to millimetres: kerfs taken off again, rough edges put round, cuts in sawing order with their settings. */
#include "stock/lay.h"

#include "stock/order.h"

#include <math.h>
#include <stdlib.h>

/* An offcut worth its place on the rack: common practice, no source. */
static const double sheet_offcut_least = 100; /* shorter side */
static const double small_table = 600;        /* width and depth where the job has none, judgement */
static const double strip_offcut_least = 150, strip_offcut_narrowest = 15; /* length, width */

/* What lay_out works with. */
struct laying {
    const struct supply *supply;
    const struct layout *layout;
    const struct saw *saw;
    struct pool *pool;
    struct cutting_stock *out;
    int *sheet_of; /* by bin: index in out->sheets; -1: not used */
    int *bin_of;   /* by slab */
};

static double mm(int64_t units)
{
    return (double)units / UNITS_PER_MM;
}

static bool is_new(const struct laying *l, int bin)
{
    return bin >= l->supply->n_offcuts;
}

/* The slab itself, without the kerf that was added to its size. */
static struct cut_area area_of(const struct laying *l, int slab)
{
    const struct slab *s = &l->layout->slabs[slab];
    const struct supply *u = l->supply;
    bool trimmed = is_new(l, l->bin_of[slab]);

    return (struct cut_area){mm(s->x + (trimmed ? u->trim_x : 0)), mm(s->y + (trimmed ? u->trim_y : 0)), mm(s->w - u->kerf),
                             mm(s->h - u->kerf)};
}

static void mark_bins(struct laying *l, int slab, int bin)
{
    const struct slab *s = &l->layout->slabs[slab];

    l->bin_of[slab] = bin;
    if (s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y) {
        mark_bins(l, s->child[0], bin);
        mark_bins(l, s->child[1], bin);
    }
}

/* ---- sheets ---- */

static struct cut_sheet sheet_of_bin(const struct laying *l, int bin, int *fresh)
{
    const struct supply *u = l->supply;
    const struct job_stock *s = is_new(l, bin) ? u->stock : u->offcut_stock[bin];
    struct cut_sheet sheet = {.stock = s, .source = CUT_FROM_OFFCUT};

    sheet.w = s->is_strip ? s->length.v : s->sheet_along.v;
    sheet.h = s->is_strip ? s->strip_width.v : s->sheet_across.v;
    if (is_new(l, bin)) {
        sheet.source = CUT_FROM_BOUGHT;
        ++*fresh;
    }
    return sheet;
}

static void add_rest(struct cut_sheet *s, double x, double y, double w, double h)
{
    if (w > 0 && h > 0)
        s->rests[s->n_rests++] = (struct cut_rest){{x, y, w, h}, 0};
}

/* What falls off the rough edges of a new sheet beside the blade, in the order of trim_cuts. */
static void add_trimmings(const struct laying *l, struct cut_sheet *s)
{
    double x = mm(l->supply->trim_x), y = mm(l->supply->trim_y), kerf = mm(l->supply->kerf);

    add_rest(s, 0, s->h - y + kerf, s->w, y - kerf);
    add_rest(s, 0, 0, s->w, y - kerf);
    add_rest(s, s->w - x + kerf, y, x - kerf, s->h - 2 * y);
    add_rest(s, 0, y, x - kerf, s->h - 2 * y);
}

static void collect_areas(const struct laying *l, int slab, struct cut_sheet *sheet)
{
    const struct slab *s = &l->layout->slabs[slab];
    struct cut_area a = area_of(l, slab);

    switch (s->kind) {
    case SLAB_PIECE:
        sheet->pieces[sheet->n_pieces++] = (struct cut_piece){l->supply->part[s->piece], a, s->turned};
        break;
    case SLAB_REST:
        add_rest(sheet, a.x, a.y, a.w, a.h);
        break;
    case SLAB_CUT_X:
    case SLAB_CUT_Y:
        collect_areas(l, s->child[0], sheet);
        collect_areas(l, s->child[1], sheet);
        break;
    }
}

static void count_areas(const struct laying *l, int slab, size_t *pieces, size_t *rests)
{
    const struct slab *s = &l->layout->slabs[slab];

    if (s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y) {
        count_areas(l, s->child[0], pieces, rests);
        count_areas(l, s->child[1], pieces, rests);
    } else if (s->kind == SLAB_PIECE) {
        ++*pieces;
    } else {
        ++*rests;
    }
}

static void lay_sheets(struct laying *l)
{
    struct cutting_stock *out = l->out;

    out->sheets = pool_alloc(l->pool, (size_t)(l->layout->n_bins + 1) * sizeof *out->sheets);
    for (int b = 0; b < l->layout->n_bins; b++) {
        size_t pieces = 0, rests = 4;
        l->sheet_of[b] = -1;
        if (l->layout->slabs[b].kind == SLAB_REST)
            continue;
        mark_bins(l, b, b);
        count_areas(l, b, &pieces, &rests);
        struct cut_sheet s = sheet_of_bin(l, b, &out->fresh);
        s.pieces = pool_alloc(l->pool, pieces * sizeof *s.pieces);
        s.rests = pool_alloc(l->pool, rests * sizeof *s.rests);
        if (is_new(l, b))
            add_trimmings(l, &s);
        collect_areas(l, b, &s);
        l->sheet_of[b] = (int)out->n_sheets;
        out->sheets[out->n_sheets++] = s;
    }
}

/* ---- offcuts worth keeping ---- */

static bool is_worth_keeping(double w, double h, bool is_strip)
{
    return is_strip ? w >= strip_offcut_least && h >= strip_offcut_narrowest : fmin(w, h) >= sheet_offcut_least;
}

bool lay_is_worth_keeping(int64_t w, int64_t h, bool is_strip)
{
    return is_worth_keeping(mm(w), mm(h), is_strip);
}

static struct cut_rest *largest_unnamed(struct cutting_stock *out)
{
    struct cut_rest *largest = NULL;

    for (size_t i = 0; i < out->n_sheets; i++)
        for (size_t k = 0; k < out->sheets[i].n_rests; k++) {
            struct cut_rest *r = &out->sheets[i].rests[k];
            if (r->number == 0 && is_worth_keeping(r->at.w, r->at.h, out->stock->is_strip) &&
                (!largest || r->at.w * r->at.h > largest->at.w * largest->at.h))
                largest = r;
        }
    return largest;
}

static void name_offcuts(struct cutting_stock *out)
{
    int number = 0;

    for (struct cut_rest *r; (r = largest_unnamed(out)) != NULL;)
        r->number = ++number;
}

/* ---- cuts ---- */

static void add_cut(struct cutting_stock *out, struct cut_line c)
{
    if (c.trims && c.way != CUT_AT_FENCE) {
        c.setting = -1;
        out->cuts[out->n_cuts++] = c;
        return;
    }
    struct cut_setting *last = out->n_settings ? &out->settings[out->n_settings - 1] : NULL;
    bool same = last && last->fence == c.fence && order_what_is_set(out->cuts[last->first_cut].way) == order_what_is_set(c.way);

    if (!same) {
        last = &out->settings[out->n_settings++];
        *last = (struct cut_setting){c.fence, out->n_cuts, 0};
    }
    last->n_cuts++;
    c.setting = (int)out->n_settings - 1;
    out->cuts[out->n_cuts++] = c;
}

/* Of a table that the job does not state what a small one carries (common practice, no source): better held up for nothing. */
static int64_t known_or_small(int64_t size)
{
    return size == INT64_MAX ? supply_units(small_table) : size;
}

static void settle_way(const struct laying *l, struct cut_line *c)
{
    int64_t w = supply_units(c->panel.w), h = supply_units(c->panel.h), across = c->along_y ? w : h, along = c->along_y ? h : w;

    c->way = saw_way(l->saw, c->along_y, across, along, supply_units(c->fence));
    c->overhangs = across > known_or_small(l->saw->table_width) || along > known_or_small(l->saw->table_depth);
}

/* The rough edges of a new sheet: one edge off, then the opposite one, the fresh edge at the fence; then the other two. */
static struct cut_line trim_cut(const struct laying *l, int sheet, int stage)
{
    const struct cut_sheet *s = &l->out->sheets[sheet];
    const struct supply *u = l->supply;
    bool along_y = stage >= 2, second = stage % 2 == 1;
    double trim = along_y ? mm(u->trim_x) : mm(u->trim_y), kerf = mm(u->kerf), whole = along_y ? s->w : s->h;
    struct cut_line c = {.sheet = sheet, .along_y = along_y, .trims = true, .keeps_higher = second,
                         .panel = {0, along_y ? mm(u->trim_y) : 0, s->w, along_y ? s->h - 2 * mm(u->trim_y) : s->h}};

    c.fence = mm(supply_units(whole) - (second ? 2 : 1) * (along_y ? u->trim_x : u->trim_y));
    if (second && along_y)
        c.panel.w = whole - trim;
    else if (second)
        c.panel.h = whole - trim;
    c.kerf_from = second ? fmax(trim - kerf, 0) : whole - trim;
    c.kerf_to = second ? trim : fmin(whole - trim + kerf, whole);
    settle_way(l, &c);
    return c;
}

static bool is_trimmed(const struct laying *l, size_t sheet)
{
    return l->out->sheets[sheet].source != CUT_FROM_OFFCUT;
}

/* Both edges or both ends of one sheet; the second is trimmed as the first is. */
static void add_trims_by_eye(const struct laying *l, size_t sheet, int stage, enum cut_way way)
{
    for (int k = 0; k < 2; k++) {
        struct cut_line c = trim_cut(l, (int)sheet, stage + k);
        c.way = way;
        add_cut(l->out, c);
    }
}

/* All sheets at one setting before the next. */
static void add_trims_at_fence(const struct laying *l, int stage)
{
    for (int k = 0; k < 2; k++)
        for (size_t i = 0; i < l->out->n_sheets; i++)
            if (is_trimmed(l, i))
                add_cut(l->out, trim_cut(l, (int)i, stage + k));
}

/* How the edges (stage 0) or the ends (2) are trimmed: at the fence where both can be, else as the one that cannot. */
static enum cut_way trim_way(const struct laying *l, size_t sheet, int stage)
{
    enum cut_way one = trim_cut(l, (int)sheet, stage).way, other = trim_cut(l, (int)sheet, stage + 1).way;

    return one == CUT_AT_FENCE ? other : one;
}

/* New sheets are all alike. By eye one sheet is trimmed all round before the next. */
static void add_trim_cuts(const struct laying *l)
{
    size_t first = 0;
    int stage = l->supply->stock->is_strip ? 2 : 0;

    while (first < l->out->n_sheets && !is_trimmed(l, first))
        first++;
    if (l->supply->trim_x == 0 || first == l->out->n_sheets)
        return;
    for (int next; stage < 4; stage = next) {
        next = stage + 2;
        if (trim_way(l, first, stage) == CUT_AT_FENCE) {
            add_trims_at_fence(l, stage);
            continue;
        }
        if (next < 4 && trim_way(l, first, next) != CUT_AT_FENCE)
            next = 4;
        for (size_t i = 0; i < l->out->n_sheets; i++)
            for (int s = stage; s < next && is_trimmed(l, i); s += 2)
                add_trims_by_eye(l, i, s, trim_way(l, first, s));
    }
}

static struct cut_line cut_of(const struct laying *l, struct sawing saw)
{
    const struct slab *s = &l->layout->slabs[saw.slab];
    struct cut_line c = {
        .sheet = l->sheet_of[l->bin_of[saw.slab]], .panel = area_of(l, saw.slab), .along_y = s->kind == SLAB_CUT_X};
    double from = c.along_y ? c.panel.x : c.panel.y, size = c.along_y ? c.panel.w : c.panel.h;

    c.fence = mm(saw.fence - l->supply->kerf);
    c.kerf_from = from + c.fence;
    c.kerf_to = fmin(c.kerf_from + mm(l->supply->kerf), from + size);
    settle_way(l, &c);
    return c;
}

static bool is_same_setting(const struct cutting_stock *s, size_t i, size_t k)
{
    const struct cut_setting *a = &s->settings[i], *b = &s->settings[k];

    return a->fence == b->fence && order_what_is_set(s->cuts[a->first_cut].way) == order_what_is_set(s->cuts[b->first_cut].way);
}

static int count_different(const struct cutting_stock *s)
{
    int n = 0;

    for (size_t i = 0; i < s->n_settings; i++) {
        size_t k = 0;
        while (k < i && !is_same_setting(s, k, i))
            k++;
        n += k == i;
    }
    return n;
}

static void lay_cuts(struct laying *l)
{
    struct cutting_stock *out = l->out;
    struct sawing *order = mem_alloc((size_t)(l->layout->n + 1) * sizeof *order);
    int n = order_cuts(l->layout, l->saw, order);
    size_t most = (size_t)n + 4 * out->n_sheets;

    out->cuts = pool_alloc(l->pool, most * sizeof *out->cuts);
    out->settings = pool_alloc(l->pool, most * sizeof *out->settings);
    add_trim_cuts(l);
    for (int i = 0; i < n; i++)
        add_cut(out, cut_of(l, order[i]));
    out->different_settings = count_different(out);
    free(order);
}

/* Of new sheets, those on the rack are sawn first. */
static void settle_sources(const struct laying *l)
{
    const struct num *have = &l->supply->stock->have;
    int taken = 0;

    for (size_t i = 0; i < l->out->n_sheets; i++)
        if (l->out->sheets[i].source != CUT_FROM_OFFCUT)
            l->out->sheets[i].source = taken++ < (have->given ? (int)have->v : 0) ? CUT_FROM_RACK : CUT_FROM_BOUGHT;
}

/* Sheet 1 is the one that is sawn first, and so on; one without a cut comes last. */
static void number_sheets(const struct laying *l)
{
    struct cutting_stock *out = l->out;
    struct cut_sheet *old = mem_alloc((out->n_sheets + 1) * sizeof *old);
    int *now = mem_alloc((out->n_sheets + 1) * sizeof *now), next = 0;

    for (size_t i = 0; i < out->n_sheets; i++) {
        old[i] = out->sheets[i];
        now[i] = -1;
    }
    for (size_t i = 0; i < out->n_cuts; i++)
        if (now[out->cuts[i].sheet] < 0)
            now[out->cuts[i].sheet] = next++;
    for (size_t i = 0; i < out->n_sheets; i++) {
        now[i] = now[i] < 0 ? next++ : now[i];
        out->sheets[now[i]] = old[i];
    }
    for (size_t i = 0; i < out->n_cuts; i++)
        out->cuts[i].sheet = now[out->cuts[i].sheet];
    settle_sources(l);
    free(old);
    free(now);
}

static double yield_of(const struct cutting_stock *s)
{
    double parts = 0, sheets = 0;

    for (size_t i = 0; i < s->n_sheets; i++) {
        const struct cut_sheet *sheet = &s->sheets[i];
        sheets += sheet->w * sheet->h;
        for (size_t k = 0; k < sheet->n_pieces; k++)
            parts += sheet->pieces[k].at.w * sheet->pieces[k].at.h;
    }
    return sheets > 0 ? parts / sheets : 0;
}

void lay_out(const struct supply *supply, const struct layout *layout, const struct saw *saw, struct pool *pool, struct cutting_stock *out)
{
    struct laying l = {supply, layout, saw, pool, out, mem_alloc((size_t)(layout->n_bins + 1) * sizeof *l.sheet_of),
                       mem_alloc((size_t)(layout->n + 1) * sizeof *l.bin_of)};

    lay_sheets(&l);
    name_offcuts(out);
    lay_cuts(&l);
    number_sheets(&l);
    out->yield = yield_of(out);
    out->laid_out = true;
    free(l.sheet_of);
    free(l.bin_of);
}
