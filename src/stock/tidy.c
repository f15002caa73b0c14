/* Cuts side by side in one direction, and so one after another, may come in any order: each run of them is laid anew.
   Slabs that no run needs any more become rests of no size. */
#include "stock/tidy.h"

#include <assert.h>

struct run { /* parts of one panel, cut off one after another in one direction */
    struct layout *layout;
    enum slab_kind cut;
    int *part, n;       /* in the order in which they lie */
    int *inner, n_inner; /* slabs that are cut; the first is the panel */
};

static int64_t size_in(const struct run *r, int slab)
{
    const struct slab *s = &r->layout->slabs[slab];

    return r->cut == SLAB_CUT_X ? s->w : s->h;
}

static void gather_run(struct run *r, int slab)
{
    const struct slab *s = &r->layout->slabs[slab];

    if (s->kind != r->cut) {
        r->part[r->n++] = slab;
        return;
    }
    r->inner[r->n_inner++] = slab;
    gather_run(r, s->child[0]);
    gather_run(r, s->child[1]);
}

static bool is_rest(const struct run *r, int slab)
{
    return r->layout->slabs[slab].kind == SLAB_REST;
}

/* All rests become one; it is the last. */
static void join_rests(struct run *r)
{
    int kept = 0, rest = -1;

    for (int i = 0; i < r->n; i++) {
        struct slab *s = &r->layout->slabs[r->part[i]];
        if (s->kind != SLAB_REST) {
            r->part[kept++] = r->part[i];
        } else if (rest < 0) {
            rest = r->part[i];
        } else {
            *(r->cut == SLAB_CUT_X ? &r->layout->slabs[rest].w : &r->layout->slabs[rest].h) += size_in(r, r->part[i]);
            s->w = s->h = 0;
        }
    }
    if (rest >= 0)
        r->part[kept++] = rest;
    r->n = kept;
    assert(kept >= 2 && "a panel is cut for a piece's sake");
}

static bool some_cut_is_short(const struct run *r, const struct saw *saw)
{
    const struct slab *panel = &r->layout->slabs[r->inner[0]];
    int64_t w = panel->w, h = panel->h;

    for (int i = 0; i + 1 < r->n; i++) {
        int64_t size = size_in(r, r->part[i]);
        if (saw_way_of_slab(saw, r->cut, w, h, size) == CUT_TOO_SHORT)
            return true;
        *(r->cut == SLAB_CUT_X ? &w : &h) -= size;
    }
    return false;
}

/* Shortest first, equal ones as they lay; a rest stays last. */
static void sort_parts(struct run *r)
{
    for (int i = 1; i < r->n; i++) {
        int part = r->part[i], k = i;
        for (; k > 0 && !is_rest(r, part) && size_in(r, r->part[k - 1]) > size_in(r, part); k--)
            r->part[k] = r->part[k - 1];
        r->part[k] = part;
    }
}

static void move_slab(struct layout *l, int slab, int64_t dx, int64_t dy)
{
    struct slab *s = &l->slabs[slab];

    s->x += dx;
    s->y += dy;
    if (s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y) {
        move_slab(l, s->child[0], dx, dy);
        move_slab(l, s->child[1], dx, dy);
    }
}

/* The panel cut part by part in their order. */
static void lay_run(struct run *r)
{
    struct slab *slabs = r->layout->slabs, left = slabs[r->inner[0]];

    for (int i = 0; i < r->n; i++) {
        const struct slab *part = &slabs[r->part[i]];
        int64_t size = size_in(r, r->part[i]);
        move_slab(r->layout, r->part[i], left.x - part->x, left.y - part->y);
        if (i + 1 < r->n) {
            left.kind = r->cut;
            left.child[0] = r->part[i];
            left.child[1] = i + 2 < r->n ? r->inner[i + 1] : r->part[i + 1];
            slabs[r->inner[i]] = left;
        }
        *(r->cut == SLAB_CUT_X ? &left.x : &left.y) += size;
        *(r->cut == SLAB_CUT_X ? &left.w : &left.h) -= size;
    }
    for (int i = r->n - 1; i < r->n_inner; i++)
        slabs[r->inner[i]] = (struct slab){.kind = SLAB_REST, .piece = -1};
}

static void tidy_slab(struct layout *, const struct saw *, int slab, int *scratch);

static void tidy_parts(struct layout *l, const struct saw *saw, int slab, enum slab_kind run, int *scratch)
{
    for (; l->slabs[slab].kind == run; slab = l->slabs[slab].child[1])
        tidy_slab(l, saw, l->slabs[slab].child[0], scratch);
    tidy_slab(l, saw, slab, scratch);
}

static void tidy_slab(struct layout *l, const struct saw *saw, int slab, int *scratch)
{
    enum slab_kind kind = l->slabs[slab].kind;
    struct run r = {l, kind, scratch, 0, scratch + l->n, 0};

    if (kind != SLAB_CUT_X && kind != SLAB_CUT_Y)
        return;
    gather_run(&r, slab);
    join_rests(&r);
    if (saw && some_cut_is_short(&r, saw))
        sort_parts(&r);
    lay_run(&r);
    tidy_parts(l, saw, slab, kind, scratch);
}

void tidy_layout(struct layout *l, const struct saw *saw, int *scratch)
{
    for (int b = 0; b < l->n_bins; b++)
        tidy_slab(l, saw, b, scratch);
}
