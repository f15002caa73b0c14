/* Lengths from strips: the bin packing problem, strip by strip.

   For a given number of strips the search fills one strip after another. All ways to fill it are listed, fullest first,
   and tried in that order (bin completion: Korf, "A new algorithm for optimal bin packing", AAAI 2002). Three things keep
   the search small: what may be left over in all strips together is known; a filling into which one more length would
   have fit is never needed; and where all strips that are left are alike, the longest length left can be put into the
   next. The first way down, fullest first, is the heuristic of Gupta and Ho ("A new heuristic algorithm for the
   one-dimensional bin packing problem", Production Planning & Control 10, 1999). Equal lengths are one kind with a count.

   The number of strips rises from the bound until the search finds a way; each number that it has tried to the end
   without success is proven too small. Then one strip is shortened as far as all still fits: what it lost is the longest
   offcut. */
#include "stock/strips.h"

#include "stock/bound.h"
#include "stock/chance.h"

#include <stdlib.h>
#include <string.h>

enum { FILLINGS_MOST = 3000 }; /* listed for one strip; more: the search is no proof any more */

struct filling { /* kinds in pick[first … first + n) */
    int64_t rest;
    int first, n, order;
};

struct search {
    int64_t *length; /* kinds, longest first */
    int *count, n_kinds;
    int left;        /* pieces */
    const int64_t *strips; /* those to fill, in this order */
    int n_strips, alike_from; /* all from there on are equally long */
    struct filling *fillings;
    int n_fillings;
    size_t filling_capacity;
    int *pick;
    int n_picks;
    size_t pick_capacity;
    int *taken, n_taken; /* kinds in the filling being listed */
    int *chosen;         /* filling of each strip, or -1 */
    long nodes;
    bool cut_short;      /* something was left untried */
};

enum found { FOUND, FOUND_NONE, FOUND_UNDECIDED };

static int compare_descending(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

    return (x < y) - (x > y);
}

static int compare_fillings(const void *a, const void *b)
{
    const struct filling *x = a, *y = b;

    if (x->rest != y->rest)
        return x->rest < y->rest ? -1 : 1;
    return x->order - y->order;
}

static void keep_filling(struct search *s, int64_t rest, int start)
{
    s->fillings = mem_grow(s->fillings, (size_t)s->n_fillings, &s->filling_capacity, sizeof *s->fillings);
    s->fillings[s->n_fillings++] = (struct filling){rest, s->n_picks, s->n_taken, s->n_fillings - start};
    for (int i = 0; i < s->n_taken; i++) {
        s->pick = mem_grow(s->pick, (size_t)s->n_picks, &s->pick_capacity, sizeof *s->pick);
        s->pick[s->n_picks++] = s->taken[i];
    }
}

/* No length that is left would still go in. */
static bool is_full(const struct search *s, int64_t room)
{
    for (int k = s->n_kinds - 1; k >= 0 && s->length[k] <= room; k--)
        if (s->count[k] > 0)
            return false;
    return true;
}

/* Whether the kinds from k on can bring `room` down to `waste`. */
static bool can_fill(const struct search *s, int k, int64_t room, int64_t waste)
{
    for (; k < s->n_kinds && room > waste; k++)
        room -= s->count[k] * s->length[k];
    return room <= waste;
}

/* Lists the fillings that hold what is taken, and kinds from k on; at most `waste` may be left. */
static void list_fillings(struct search *s, int k, int64_t room, int64_t waste, int start)
{
    if (s->nodes <= 0 || s->n_fillings - start >= FILLINGS_MOST) {
        s->cut_short = true;
        return;
    }
    s->nodes--;
    while (k < s->n_kinds && (s->count[k] == 0 || s->length[k] > room))
        k++;
    if (k == s->n_kinds) {
        if (room <= waste && is_full(s, room))
            keep_filling(s, room, start);
        return;
    }
    s->count[k]--;
    s->taken[s->n_taken++] = k;
    list_fillings(s, k, room - s->length[k], waste, start);
    s->n_taken--;
    s->count[k]++;
    if (can_fill(s, k + 1, room, waste)) /* without another of this kind */
        list_fillings(s, k + 1, room, waste, start);
}

/* The longest length left is put in. Of what goes beside it, one length y alone beats all that is together no longer than
   y: these could change places with y, wherever that lies (the dominance criterion of Martello and Toth, Knapsack
   Problems, 1990, section 8.5, from memory). So y is the longest that fits, and all others listed are longer than it. */
static void list_beside_longest(struct search *s, int64_t room, int64_t waste, int start)
{
    int k = 0, y;

    while (s->count[k] == 0)
        k++;
    room -= s->length[k];
    if (room < 0)
        return;
    s->count[k]--;
    s->taken[s->n_taken++] = k;
    for (y = k; y < s->n_kinds && (s->count[y] == 0 || s->length[y] > room);)
        y++;
    if (y == s->n_kinds) {
        if (room <= waste)
            keep_filling(s, room, start);
    } else {
        int64_t rest = room - s->length[y];
        if (rest > 0)
            list_fillings(s, k, room, waste < rest ? waste : rest - 1, start);
        s->count[y]--;
        s->taken[s->n_taken++] = y;
        if (rest <= waste && is_full(s, rest))
            keep_filling(s, rest, start);
        s->count[y]++;
    }
    s->count[k]++;
}

static void list_for_strip(struct search *s, int strip, int64_t waste)
{
    int start = s->n_fillings;

    s->n_taken = 0;
    if (strip < s->alike_from)
        list_fillings(s, 0, s->strips[strip], waste, start);
    else
        list_beside_longest(s, s->strips[strip], waste, start);
    if (s->n_fillings > start)
        qsort(s->fillings + start, (size_t)(s->n_fillings - start), sizeof *s->fillings, compare_fillings);
}

static void take_filling(struct search *s, int f, int sign)
{
    for (int i = 0; i < s->fillings[f].n; i++)
        s->count[s->pick[s->fillings[f].first + i]] -= sign;
    s->left -= sign * s->fillings[f].n;
}

static bool fill_strips(struct search *s, int strip, int64_t waste)
{
    int start = s->n_fillings, first_pick = s->n_picks;
    bool found = false;

    if (s->left == 0)
        return true;
    if (strip == s->n_strips)
        return false;
    list_for_strip(s, strip, waste);
    for (int f = start, end = s->n_fillings; f < end && !found; f++) {
        s->chosen[strip] = f;
        take_filling(s, f, 1);
        found = fill_strips(s, strip + 1, waste - s->fillings[f].rest);
        if (!found)
            take_filling(s, f, -1);
        if (!found && s->nodes <= 0)
            s->cut_short = true;
        if (!found && s->nodes <= 0)
            break;
    }
    if (!found) {
        s->chosen[strip] = -1;
        s->n_fillings = start;
        s->n_picks = first_pick;
    }
    return found;
}

/* All lengths sorted into kinds. */
static void search_open(struct search *s, const struct strips_task *t)
{
    int64_t *sorted = mem_alloc((size_t)t->n * sizeof *sorted + 1);

    memset(s, 0, sizeof *s);
    memcpy(sorted, t->lengths, (size_t)t->n * sizeof *sorted);
    qsort(sorted, (size_t)t->n, sizeof *sorted, compare_descending);
    s->length = mem_alloc((size_t)(t->n + 1) * sizeof *s->length);
    s->count = mem_alloc((size_t)(t->n + 1) * sizeof *s->count);
    s->taken = mem_alloc((size_t)(t->n + 1) * sizeof *s->taken);
    s->chosen = mem_alloc((size_t)(t->n + t->n_offcuts + 2) * sizeof *s->chosen);
    for (int i = 0; i < t->n; i++) {
        if (i == 0 || sorted[i] != sorted[i - 1])
            s->length[s->n_kinds++] = sorted[i];
        s->count[s->n_kinds - 1]++;
    }
    s->left = t->n;
    free(sorted);
}

static void search_close(struct search *s)
{
    free(s->length);
    free(s->count);
    free(s->taken);
    free(s->chosen);
    free(s->fillings);
    free(s->pick);
}

/* Strip of each length: equal lengths go to the strips in turn. */
static void read_bins(const struct search *s, const struct strips_task *t, const int *strip_name, int *bin)
{
    for (int i = 0; i < t->n; i++)
        bin[i] = -1;
    for (int strip = 0; strip < s->n_strips; strip++) {
        if (s->chosen[strip] < 0)
            continue;
        const struct filling *f = &s->fillings[s->chosen[strip]];
        for (int j = 0; j < f->n; j++) {
            int i = 0;
            while (bin[i] >= 0 || t->lengths[i] != s->length[s->pick[f->first + j]])
                i++;
            bin[i] = strip_name[strip];
        }
    }
}

/* Whether all goes into these strips; then `bin` is filled. */
static enum found try_strips(const struct strips_task *t, const int64_t *strips, const int *strip_name, int n, long *nodes,
                             int *bin)
{
    struct search s;
    int64_t waste = 0;

    search_open(&s, t);
    s.strips = strips;
    s.n_strips = n;
    s.alike_from = n;
    while (s.alike_from > 0 && strips[s.alike_from - 1] == strips[n - 1])
        s.alike_from--;
    s.nodes = *nodes;
    for (int i = 0; i < n; i++) {
        s.chosen[i] = -1;
        waste += strips[i];
    }
    for (int i = 0; i < t->n; i++)
        waste -= t->lengths[i];
    bool found = waste >= 0 && fill_strips(&s, 0, waste);
    if (found)
        read_bins(&s, t, strip_name, bin);
    *nodes = s.nodes;
    enum found result = found ? FOUND : s.cut_short ? FOUND_UNDECIDED : FOUND_NONE;
    search_close(&s);
    return result;
}

/* The offcuts, shortest first so that the long ones stay whole where they can; `name` is their number in the task. */
static void sort_offcuts(const struct strips_task *t, int64_t *strips, int *name)
{
    for (int i = 0; i < t->n_offcuts; i++) {
        int j = i;
        for (; j > 0 && strips[j - 1] > t->offcuts[i]; j--) {
            strips[j] = strips[j - 1];
            name[j] = name[j - 1];
        }
        strips[j] = t->offcuts[i];
        name[j] = i;
    }
}

/* Room for a list of strips: offcuts, a shortened strip, new strips. */
struct rack {
    int64_t *strips;
    int *name, n_offcuts;
};

static enum found try_fresh(const struct strips_task *t, struct rack *r, int fresh, long *nodes, int *bin)
{
    for (int i = 0; i < fresh; i++) {
        r->strips[r->n_offcuts + i] = t->strip;
        r->name[r->n_offcuts + i] = t->n_offcuts + i;
    }
    return try_strips(t, r->strips, r->name, r->n_offcuts + fresh, nodes, bin);
}

/* One of the new strips is only `length` long. */
static enum found try_shortened(const struct strips_task *t, struct rack *r, int fresh, int64_t length, long *nodes, int *bin)
{
    int at = r->n_offcuts;

    r->strips[at] = length;
    r->name[at] = t->n_offcuts + fresh - 1;
    for (int i = 1; i < fresh; i++) {
        r->strips[at + i] = t->strip;
        r->name[at + i] = t->n_offcuts + i - 1;
    }
    return try_strips(t, r->strips, r->name, at + fresh, nodes, bin);
}

static int64_t longest_rest(const struct strips_task *t, const int *bin, int fresh)
{
    int64_t most = 0;

    for (int f = 0; f < fresh; f++) {
        int64_t rest = t->strip;
        for (int i = 0; i < t->n; i++)
            rest -= bin[i] == t->n_offcuts + f ? t->lengths[i] : 0;
        most = rest > most ? rest : most;
    }
    return most;
}

/* Halves the doubt about how short one strip can be; at length 0 it is not needed at all. `least`: known to be needed. */
static void lengthen_rest(const struct strips_task *t, struct rack *r, int64_t least, long *nodes, struct strips_result *out)
{
    enum { STEPS = 12 };
    int64_t low = -(out->fresh - 1) * t->strip, high = t->strip - out->longest_rest;
    int *bin = mem_alloc((size_t)(t->n + 1) * sizeof *bin);

    for (int i = 0; i < t->n; i++)
        low += t->lengths[i];
    for (int i = 0; i < t->n_offcuts; i++)
        low -= t->offcuts[i];
    low = low < least ? least : low;
    for (int step = 0; step < STEPS && low < high; step++) {
        int64_t middle = step == 0 ? low : low + (high - low) / 2;
        long share = *nodes / (STEPS - step), left = share;
        bool shorter = try_shortened(t, r, out->fresh, middle, &left, bin) == FOUND;
        *nodes -= share - left;
        if (shorter) {
            memcpy(out->bin, bin, (size_t)t->n * sizeof *bin);
            out->longest_rest = longest_rest(t, bin, out->fresh);
            high = t->strip - out->longest_rest;
        } else {
            low = middle + 1;
        }
    }
    free(bin);
}

/* ---- a neighbourhood search over a few strips at a time ---- */

enum { GROUP_MOST = 7, GROUP_NODES = 3000 };

static int emptiest_strip(const struct strips_task *t, const struct strips_result *r, int64_t *load)
{
    int emptiest = 0;

    memset(load, 0, (size_t)r->fresh * sizeof *load);
    for (int i = 0; i < t->n; i++)
        if (r->bin[i] >= t->n_offcuts)
            load[r->bin[i] - t->n_offcuts] += t->lengths[i];
    for (int f = 1; f < r->fresh; f++)
        if (load[f] < load[emptiest])
            emptiest = f;
    return emptiest;
}

/* The emptiest strip, or by turns any, and some others, chosen by chance; gives their number. */
static int choose_group(int fresh, int emptiest, uint64_t *random, int *group)
{
    int n = 1, wanted = 3 + (int)(chance_next(random) % (GROUP_MOST - 2));

    group[0] = chance_next(random) % 2 ? emptiest : (int)(chance_next(random) % (uint64_t)fresh);
    while (n < wanted && n < fresh) {
        int f = (int)(chance_next(random) % (uint64_t)fresh), j = 0;
        while (j < n && group[j] != f)
            j++;
        if (j == n)
            group[n++] = f;
    }
    return n;
}

/* The last strip takes the place of an empty one. */
static void drop_strip(const struct strips_task *t, struct strips_result *out, int empty)
{
    out->fresh--;
    for (int i = 0; i < t->n; i++)
        if (out->bin[i] == t->n_offcuts + out->fresh)
            out->bin[i] = t->n_offcuts + empty;
}

/* Packs a few strips anew so that the emptiest becomes emptier still. */
static void repack_group(const struct strips_task *t, const int *group, int n_group, const int64_t *load, struct rack *r,
                         struct strips_result *out, long *nodes)
{
    int *member = mem_alloc((size_t)(t->n + 1) * sizeof *member), m = 0;
    int64_t *lengths = mem_alloc((size_t)(t->n + 1) * sizeof *lengths);
    struct strips_result part = {.bin = mem_alloc((size_t)(t->n + 1) * sizeof *part.bin), .fresh = n_group,
                                 .longest_rest = t->strip - load[group[0]]};
    struct rack few = {r->strips + r->n_offcuts, r->name + r->n_offcuts, 0}; /* the list of offcuts stays */

    for (int i = 0; i < t->n; i++)
        for (int g = 0; g < n_group; g++)
            if (out->bin[i] == t->n_offcuts + group[g]) {
                part.bin[m] = g;
                lengths[m] = t->lengths[i];
                member[m++] = i;
            }
    struct strips_task few_task = {lengths, m, t->strip, NULL, 0, GROUP_NODES};
    long share = *nodes < GROUP_NODES ? *nodes : GROUP_NODES, left = share;
    lengthen_rest(&few_task, &few, 0, &left, &part);
    *nodes -= share - left + m;
    for (int j = 0; j < m; j++)
        out->bin[member[j]] = t->n_offcuts + group[part.bin[j]];
    free(member);
    free(lengths);
    free(part.bin);
}

static void improve_by_groups(const struct strips_task *t, struct rack *r, long nodes, struct strips_result *out)
{
    int64_t *load = mem_alloc((size_t)(out->fresh + 1) * sizeof *load);
    uint64_t random = CHANCE_SEED;
    int group[GROUP_MOST];

    while (nodes > 0 && out->fresh > out->at_least && out->fresh > 1) {
        int emptiest = emptiest_strip(t, out, load);
        int n = choose_group(out->fresh, emptiest, &random, group);
        repack_group(t, group, n, load, r, out, &nodes);
        emptiest = emptiest_strip(t, out, load);
        if (load[emptiest] == 0)
            drop_strip(t, out, emptiest);
    }
    out->longest_rest = longest_rest(t, out->bin, out->fresh);
    free(load);
}

/* First fit, longest first: a number of new strips that certainly does. */
static int first_fit(const struct strips_task *t, const struct rack *r, int *bin)
{
    int64_t *room = mem_alloc((size_t)(r->n_offcuts + t->n + 1) * sizeof *room);
    bool *placed = mem_alloc((size_t)t->n + 1);
    int fresh = 0;

    for (int i = 0; i < r->n_offcuts + t->n; i++)
        room[i] = i < r->n_offcuts ? r->strips[i] : t->strip;
    for (int done = 0; done < t->n; done++) {
        int longest = -1, b = 0;
        for (int i = 0; i < t->n; i++)
            if (!placed[i] && (longest < 0 || t->lengths[i] > t->lengths[longest]))
                longest = i;
        while (room[b] < t->lengths[longest])
            b++;
        room[b] -= t->lengths[longest];
        placed[longest] = true;
        bin[longest] = b < r->n_offcuts ? r->name[b] : t->n_offcuts + b - r->n_offcuts;
        if (b >= r->n_offcuts && b - r->n_offcuts + 1 > fresh)
            fresh = b - r->n_offcuts + 1;
    }
    free(room);
    free(placed);
    return fresh;
}

static int least_fresh(const struct strips_task *t)
{
    struct piece *p = mem_alloc((size_t)(t->n + 1) * sizeof *p);
    struct bin *offcuts = mem_alloc((size_t)(t->n_offcuts + 1) * sizeof *offcuts);

    if (t->n_offcuts == 0) {
        free(p);
        free(offcuts);
        return bound_lengths(t->lengths, t->n, t->strip);
    }
    for (int i = 0; i < t->n; i++)
        p[i] = (struct piece){t->lengths[i], 1, false};
    for (int i = 0; i < t->n_offcuts; i++)
        offcuts[i] = (struct bin){t->offcuts[i], 1};
    int least = bound_with_offcuts(p, t->n, (struct bin){t->strip, 1}, offcuts, t->n_offcuts);
    free(p);
    free(offcuts);
    return least;
}

void strips_pack(const struct strips_task *t, struct pool *pool, struct strips_result *out)
{
    struct rack r = {mem_alloc((size_t)(t->n_offcuts + t->n + 1) * sizeof *r.strips),
                     mem_alloc((size_t)(t->n_offcuts + t->n + 1) * sizeof *r.name), t->n_offcuts};
    int *bin = mem_alloc((size_t)(t->n + 1) * sizeof *bin);

    *out = (struct strips_result){.bin = pool_alloc(pool, (size_t)(t->n + 1) * sizeof *out->bin), .at_least = least_fresh(t)};
    sort_offcuts(t, r.strips, r.name);
    out->fresh = first_fit(t, &r, out->bin);
    for (int fresh = out->at_least; fresh < out->fresh; fresh++) {
        long nodes = t->nodes / 4;
        enum found f = try_fresh(t, &r, fresh, &nodes, bin);
        if (f == FOUND) {
            memcpy(out->bin, bin, (size_t)t->n * sizeof *bin);
            out->fresh = fresh;
        } else if (f == FOUND_NONE && fresh == out->at_least) {
            out->at_least = fresh + 1;
        }
    }
    improve_by_groups(t, &r, t->nodes, out);
    long nodes = t->nodes / 2;
    if (out->fresh > 0)
        lengthen_rest(t, &r, 1, &nodes, out);
    free(bin);
    free(r.strips);
    free(r.name);
}
