/* Parts that lie side by side, each cut off a sheet by hand,

       { a, { b, { c, left } } }    becomes    { { a, { b, c } }, left }

   where the panel of a, b and c can be parted at the saw. No part moves, and the cuts are as many. */
#include "stock/break_down.h"

enum { RUN_MOST = 32 }; /* parts taken off together */

static bool is_cut(const struct slab *s)
{
    return s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y;
}

static int64_t *size_of(struct slab *s, enum slab_kind cut)
{
    return cut == SLAB_CUT_X ? &s->w : &s->h;
}

static bool is_by_hand(const struct saw *saw, enum slab_kind cut, const struct slab *panel, int64_t size)
{
    enum cut_way way = saw_way_of_slab(saw, cut, panel->w, panel->h, size);

    return way == CUT_TOO_LARGE || way == CUT_PAST_FENCE;
}

/* Those slabs, from the first on, of which one part after another is cut off by hand in one direction. */
static int gather(struct layout *l, const struct saw *saw, int slab, int *run)
{
    enum slab_kind cut = l->slabs[slab].kind;
    int n = 0;

    for (; n < RUN_MOST && l->slabs[slab].kind == cut; slab = l->slabs[slab].child[1]) {
        if (!is_by_hand(saw, cut, &l->slabs[slab], *size_of(&l->slabs[l->slabs[slab].child[0]], cut)))
            break;
        run[n++] = slab;
    }
    return n;
}

/* Whether the first n parts of the run, as one panel, are parted at the saw. */
static bool is_parted_at_saw(struct layout *l, const struct saw *saw, const int *run, int n)
{
    enum slab_kind cut = l->slabs[run[0]].kind;
    struct slab panel = l->slabs[run[0]];
    int64_t *whole = size_of(&panel, cut);

    *whole = 0;
    for (int i = 0; i < n; i++)
        *whole += *size_of(&l->slabs[l->slabs[run[i]].child[0]], cut);
    for (int i = 0; i + 1 < n; i++) {
        int64_t part = *size_of(&l->slabs[l->slabs[run[i]].child[0]], cut);
        enum cut_way way = saw_way_of_slab(saw, cut, panel.w, panel.h, part);
        if (way != CUT_AT_FENCE && way != CUT_ON_SLED)
            return false;
        *whole -= part;
    }
    return true;
}

static void take_off_together(struct layout *l, const int *run, int n)
{
    struct slab *sheet = &l->slabs[run[0]];
    enum slab_kind cut = sheet->kind;
    int first = sheet->child[0], left = l->slabs[run[n - 1]].child[1], last = l->slabs[run[n - 1]].child[0];
    int64_t size = 0;

    for (int i = n - 1; i > 0; i--) { /* run[i] becomes the panel of the parts from i - 1 on */
        struct slab *panel = &l->slabs[run[i]];
        int part = i > 1 ? l->slabs[run[i - 1]].child[0] : first;
        size = (i == n - 1 ? *size_of(&l->slabs[last], cut) : size) + *size_of(&l->slabs[part], cut);
        panel->x = l->slabs[part].x;
        panel->y = l->slabs[part].y;
        *size_of(panel, cut) = size;
        panel->child[0] = part;
        panel->child[1] = i == n - 1 ? last : run[i + 1];
    }
    sheet->child[0] = run[1];
    sheet->child[1] = left;
}

static void break_slab(struct layout *l, const struct saw *saw, int slab)
{
    int run[RUN_MOST];

    if (!is_cut(&l->slabs[slab]))
        return;
    int n = gather(l, saw, slab, run);
    while (n > 1 && !is_parted_at_saw(l, saw, run, n))
        n--;
    if (n > 1)
        take_off_together(l, run, n);
    for (int k = 0; k < 2; k++)
        break_slab(l, saw, l->slabs[slab].child[k]);
}

void break_down(struct layout *l, const struct saw *saw)
{
    for (int b = 0; b < l->n_bins; b++)
        break_slab(l, saw, b);
}
