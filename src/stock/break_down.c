/* Parts that lie side by side, each cut off a sheet by hand,

       { a, { b, { c, left } } }    becomes    { { a, { b, c } }, left }

   where the panel of a, b and c can be parted at the saw. No part moves, and the cuts are as many.

   Then what is cut off by hand is cut off larger, and the last of its parts gets a cut of its own at the saw:

       { { a, { b, c } }, left }        becomes    { { a, { b, { c, sliver } } }, less left }

   for a saw led by hand leaves neither a true edge nor a true size. */
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
    return saw_is_by_hand(saw_way_of_slab(saw, cut, panel->w, panel->h, size));
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

/* ---- larger by hand ---- */

static int64_t *place_of(struct slab *s, enum slab_kind cut)
{
    return cut == SLAB_CUT_X ? &s->x : &s->y;
}

/* Whether the slab can begin so much later and end where it does: at a rest's cost. */
static bool can_shrink(struct layout *l, const struct saw *saw, int slab, enum slab_kind cut, int64_t by)
{
    struct slab *s = &l->slabs[slab];

    if (!is_cut(s))
        return s->kind == SLAB_REST && *size_of(s, cut) > by + saw->kerf;
    bool first = can_shrink(l, saw, s->child[0], cut, by), second = can_shrink(l, saw, s->child[1], cut, by);
    return s->kind == cut ? first || second : first && second;
}

static void move(struct layout *l, int slab, enum slab_kind cut, int64_t by)
{
    *place_of(&l->slabs[slab], cut) += by;
    for (int k = 0; k < 2 && is_cut(&l->slabs[slab]); k++)
        move(l, l->slabs[slab].child[k], cut, by);
}

static void shrink(struct layout *l, const struct saw *saw, int slab, enum slab_kind cut, int64_t by)
{
    struct slab *s = &l->slabs[slab];

    *place_of(s, cut) += by;
    *size_of(s, cut) -= by;
    if (!is_cut(s))
        return;
    if (s->kind != cut) {
        shrink(l, saw, s->child[0], cut, by);
        shrink(l, saw, s->child[1], cut, by);
    } else if (can_shrink(l, saw, s->child[1], cut, by)) {
        move(l, s->child[0], cut, by);
        shrink(l, saw, s->child[1], cut, by);
    } else {
        shrink(l, saw, s->child[0], cut, by);
    }
}

/* So that the whole stands on a mark, and a kerf and the sliver beside it are more than the hand is off. */
static int64_t allowance(const struct saw *saw, int64_t size)
{
    int64_t least = size + saw->runs_off; /* a slab's size has the kerf of the cut at the saw in it already */

    return (least + saw->mark - 1) / saw->mark * saw->mark + saw->kerf - size;
}

static void cut_off_larger(struct layout *l, const struct saw *saw, int slab)
{
    enum slab_kind cut = l->slabs[slab].kind;
    int panel = l->slabs[slab].child[0], left = l->slabs[slab].child[1], last = panel;
    int64_t more = allowance(saw, *size_of(&l->slabs[panel], cut));

    if (!is_by_hand(saw, cut, &l->slabs[slab], *size_of(&l->slabs[panel], cut)))
        return;
    while (l->slabs[last].kind == cut)
        last = l->slabs[last].child[1];
    struct slab part = l->slabs[last], whole = part, sliver = {.kind = SLAB_REST, .piece = -1, .x = part.x, .y = part.y, .w = part.w, .h = part.h};
    *size_of(&whole, cut) += more;
    enum cut_way way = saw_way_of_slab(saw, cut, whole.w, whole.h, *size_of(&part, cut));
    if (part.kind == SLAB_REST || (way != CUT_AT_FENCE && way != CUT_ON_SLED) || !can_shrink(l, saw, left, cut, more))
        return;
    shrink(l, saw, left, cut, more);
    for (int i = panel; i != last; i = l->slabs[i].child[1])
        *size_of(&l->slabs[i], cut) += more;
    *place_of(&sliver, cut) += *size_of(&part, cut);
    *size_of(&sliver, cut) = more;
    whole.kind = cut;
    whole.piece = -1;
    whole.child[0] = l->n;
    whole.child[1] = l->n + 1;
    l->slabs[last] = whole;
    l->slabs[l->n++] = part;
    l->slabs[l->n++] = sliver;
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
    cut_off_larger(l, saw, slab);
    for (int k = 0; k < 2; k++)
        break_slab(l, saw, l->slabs[slab].child[k]);
}

void break_down(struct layout *l, const struct saw *saw)
{
    for (int b = 0; b < l->n_bins; b++)
        break_slab(l, saw, b);
}
