/* How each cut is made. The limits and where they come from stand in cutting.h. */
#include "stock/saw.h"

#include "stock/supply.h"

/* What is no wider than this lies on a mitre gauge, however long it is; a panel so many times as long beside the blade as
   the table is deep tips off it: common practice, no source. */
static const double widest_on_gauge = 300;
enum { TABLES_LONG = 2 };
/* How far a saw led by hand may run beside its mark, and marks that are easily found: common practice, no source. */
static const double runs_off[] = {[UNITS_MM] = 1.5, [UNITS_IN] = MM_PER_INCH / 16};
static const double mark_step[] = {[UNITS_MM] = 1, [UNITS_IN] = MM_PER_INCH / 16};

static int64_t stated(struct num n)
{
    return n.given ? supply_units(n.v) : INT64_MAX;
}

struct saw saw_of_job(const struct job *job, const struct cutting *c, const struct job_stock *stock)
{
    const struct job_table *t = &job->saw.table;

    return (struct saw){.strip = stock->is_strip,
                        .kerf = supply_units(c->kerf),
                        .at_fence = supply_units(c->shortest_at_fence),
                        .in_hand = supply_units(c->shortest_in_hand),
                        .runs_off = supply_units(runs_off[job->units]),
                        .mark = supply_units(mark_step[job->units]),
                        .narrow = supply_units(c->narrow_rip),
                        .table_width = stated(t->width),
                        .table_depth = stated(t->depth),
                        .reach = t->width.given && t->left_of_blade.given ? supply_units(t->width.v - t->left_of_blade.v) : INT64_MAX};
}

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static bool is_too_large(const struct saw *s, int64_t across, int64_t along)
{
    return least(across, along) > supply_units(widest_on_gauge) &&
           (across > s->table_width || along / TABLES_LONG > s->table_depth);
}

enum cut_way saw_way(const struct saw *s, bool crosscut, int64_t across, int64_t along, int64_t fence)
{
    bool held = across >= s->in_hand;

    if (s->strip && crosscut)
        return held ? CUT_AT_STOP : CUT_TOO_SHORT;
    if (is_too_large(s, across, along))
        return CUT_TOO_LARGE;
    if (along >= s->at_fence && along >= fence && fence <= s->reach)
        return CUT_AT_FENCE;
    if (along > supply_units(widest_on_gauge))
        return fence > s->reach ? CUT_PAST_FENCE : CUT_PAST_GAUGE;
    return held && (crosscut || fence >= s->narrow) ? CUT_ON_SLED : CUT_TOO_SHORT;
}

enum cut_way saw_way_of_slab(const struct saw *s, enum slab_kind cut, int64_t w, int64_t h, int64_t size)
{
    bool crosscut = cut == SLAB_CUT_X;
    int64_t across = (crosscut ? w : h) - s->kerf, along = (crosscut ? h : w) - s->kerf;

    return saw_way(s, crosscut, across, along, size - s->kerf);
}

bool saw_is_by_hand(enum cut_way way)
{
    return way == CUT_TOO_LARGE || way == CUT_PAST_FENCE || way == CUT_PAST_GAUGE;
}

int saw_count_short(const struct saw *s, const struct layout *l)
{
    int n = 0;

    for (int i = 0; s && i < l->n; i++) {
        const struct slab *slab = &l->slabs[i];
        if (slab->kind != SLAB_CUT_X && slab->kind != SLAB_CUT_Y)
            continue;
        const struct slab *first = &l->slabs[slab->child[0]];
        int64_t size = slab->kind == SLAB_CUT_X ? first->w : first->h;
        n += saw_way_of_slab(s, slab->kind, slab->w, slab->h, size) == CUT_TOO_SHORT;
    }
    return n;
}
