/* Two changes of the tree of cuts. Join: where a crosscut parts two panels that are ripped alike,

       CUT_X { CUT_Y a { A, rest }, CUT_Y a { B, rest } }    becomes    CUT_Y a { CUT_X { A, B }, rest }

   which is a cut less where nothing more is sawn from the two rests. Put first: where a crosscut leaves waste beside a panel
   that is ripped once,

       CUT_X { CUT_Y a { A, rest }, waste }                  becomes    CUT_Y a { CUT_X { A, waste }, rest }

   The same holds with X and Y changed over. Slabs that are not needed any more become rests of no size. */
#include "stock/rips.h"

#include "stock/lay.h"
#include "stock/order.h"

static bool is_cut(const struct slab *s)
{
    return s->kind == SLAB_CUT_X || s->kind == SLAB_CUT_Y;
}

/* Size of a slab in the direction that a cut divides. */
static int64_t *size_of(struct slab *s, enum slab_kind cut)
{
    return cut == SLAB_CUT_X ? &s->w : &s->h;
}

static int64_t *place_of(struct slab *s, enum slab_kind cut)
{
    return cut == SLAB_CUT_X ? &s->x : &s->y;
}

/* Where `part` and `rest` are free: the slab, cut one way in two, is cut the other way at the size of a instead, and its first
   part the way that it was: into a and b. */
static void turn_cuts(struct layout *l, int slab, int a, int b, int part, int rest)
{
    struct slab *s = &l->slabs[slab];
    enum slab_kind other = s->kind == SLAB_CUT_X ? SLAB_CUT_Y : SLAB_CUT_X;
    int64_t size = *size_of(&l->slabs[a], other);
    struct slab first = *s, second = *s;

    *size_of(&first, other) = size;
    first.child[0] = a;
    first.child[1] = b;
    second.kind = SLAB_REST;
    *place_of(&second, other) += size;
    *size_of(&second, other) -= size;
    l->slabs[part] = first;
    l->slabs[rest] = second;
    s->kind = other;
    s->child[0] = part;
    s->child[1] = rest;
}

static bool is_rest(const struct layout *l, int slab)
{
    return l->slabs[slab].kind == SLAB_REST;
}

static bool are_ripped_alike(struct layout *l, int one, int two, enum slab_kind cut, bool strip)
{
    struct slab *s = &l->slabs[one], *t = &l->slabs[two];

    return s->kind == cut && t->kind == cut && *size_of(&l->slabs[s->child[0]], cut) == *size_of(&l->slabs[t->child[0]], cut) &&
           (strip || (is_rest(l, s->child[1]) && is_rest(l, t->child[1])));
}

static void join_two(struct layout *l, int slab)
{
    struct slab *s = &l->slabs[slab];
    int one = s->child[0], two = s->child[1];
    int a = l->slabs[one].child[0], b = l->slabs[two].child[0], rest_a = l->slabs[one].child[1], rest_b = l->slabs[two].child[1];
    enum slab_kind kind = s->kind;

    turn_cuts(l, slab, a, b, one, two);
    if (is_rest(l, rest_a) && is_rest(l, rest_b)) {
        l->slabs[rest_a] = l->slabs[rest_b] = (struct slab){.kind = SLAB_REST, .piece = -1};
    } else {
        l->slabs[two].kind = kind;
        l->slabs[two].child[0] = rest_a;
        l->slabs[two].child[1] = rest_b;
    }
}

/* The two are neighbours among more parts: { one, { two, others } } becomes { { one, two }, others }. */
static void bring_together(struct layout *l, int slab)
{
    struct slab *s = &l->slabs[slab];
    int one = s->child[0], pair = s->child[1], two = l->slabs[pair].child[0], others = l->slabs[pair].child[1];

    *place_of(&l->slabs[pair], s->kind) = *place_of(s, s->kind);
    *size_of(&l->slabs[pair], s->kind) = *size_of(&l->slabs[one], s->kind) + *size_of(&l->slabs[two], s->kind);
    l->slabs[pair].child[0] = one;
    l->slabs[pair].child[1] = two;
    s->child[0] = pair;
    s->child[1] = others;
}

static bool join_at(struct layout *l, int slab, bool strip)
{
    struct slab *s = &l->slabs[slab];
    enum slab_kind other = s->kind == SLAB_CUT_X ? SLAB_CUT_Y : SLAB_CUT_X;
    int one = s->child[0], two = s->child[1];

    if (are_ripped_alike(l, one, two, other, strip)) {
        join_two(l, slab);
        return true;
    }
    if (l->slabs[two].kind != s->kind || !are_ripped_alike(l, one, l->slabs[two].child[0], other, strip))
        return false;
    bring_together(l, slab);
    join_two(l, s->child[0]);
    return true;
}

/* From the bottom of the tree up, so that three and more are joined as well. */
static bool join_below(struct layout *l, int slab, bool strip)
{
    bool joined = false;

    if (!is_cut(&l->slabs[slab]))
        return false;
    for (int k = 0; k < 2; k++)
        joined |= join_below(l, l->slabs[slab].child[k], strip);
    return join_at(l, slab, strip) || joined;
}

void rips_join(struct layout *l, const struct saw *saw, struct layout *trial, int64_t *scratch)
{
    int too_short = saw_count_short(saw, l), settings = order_count_settings(l, saw, scratch);
    bool joined = false;

    layout_copy(trial, l);
    for (int b = 0; b < l->n_bins; b++)
        joined |= join_below(trial, b, saw->strip);
    if (joined && saw_count_short(saw, trial) <= too_short && order_count_settings(trial, saw, scratch) <= settings)
        layout_copy(l, trial);
}

/* ---- strips ---- */

static void put_rip_first(struct layout *l, const struct saw *saw, int slab)
{
    struct slab *s = &l->slabs[slab], *one = &l->slabs[s->child[0]], *waste = &l->slabs[s->child[1]];

    if (s->kind != SLAB_CUT_X || one->kind != SLAB_CUT_Y || !is_rest(l, one->child[1]) || !is_rest(l, s->child[1]) ||
        lay_is_worth_keeping(waste->w - saw->kerf, waste->h - saw->kerf, true))
        return;
    int a = one->child[0];
    waste->h = l->slabs[a].h;
    turn_cuts(l, slab, a, s->child[1], s->child[0], one->child[1]);
}

/* Wider by `more` across the strip: of slabs side by side the last. */
static void widen(struct layout *l, int slab, int64_t more)
{
    struct slab *s = &l->slabs[slab];

    s->h += more;
    if (s->kind == SLAB_CUT_X)
        widen(l, s->child[0], more);
    if (is_cut(s))
        widen(l, s->child[1], more);
}

/* The rip that would leave less than nothing beyond the kerf is not made. */
static void spare_sliver(struct layout *l, const struct saw *saw, int slab)
{
    struct slab *s = &l->slabs[slab];

    if (s->kind != SLAB_CUT_Y || l->slabs[s->child[1]].kind != SLAB_REST || l->slabs[s->child[1]].h >= saw->kerf)
        return;
    int part = s->child[0], unused = s->child[1];
    widen(l, part, l->slabs[unused].h);
    *s = l->slabs[part];
    l->slabs[part] = l->slabs[unused] = (struct slab){.kind = SLAB_REST, .piece = -1};
}

static void mend_below(struct layout *l, const struct saw *saw, int slab)
{
    if (!is_cut(&l->slabs[slab]))
        return;
    put_rip_first(l, saw, slab);
    spare_sliver(l, saw, slab);
    for (int k = 0; k < 2 && is_cut(&l->slabs[slab]); k++)
        mend_below(l, saw, l->slabs[slab].child[k]);
}

void rips_of_strip(struct layout *l, const struct saw *saw)
{
    for (int b = 0; b < l->n_bins; b++)
        mend_below(l, saw, b);
}
