/* In which order labels choose their places: a label's room depends on those before it. */
#include "draw/place.h"

#include <limits.h>
#include <math.h>
#include <string.h>

enum { MOST_TRIES = 8, BETTER_TRIES = 6 };

/* How much there was of everything before the labels. */
struct before {
    size_t n_segments, n_strokes, n_patches, n_lines, n_texts;
    struct rect used;
    struct ground ground;
};

static void take_labels_back(struct placing *p, const struct before *b)
{
    p->n_segments = b->n_segments;
    p->n_strokes = b->n_strokes;
    p->n_patches = b->n_patches;
    p->n_lines = b->n_lines;
    p->n_texts = b->n_texts;
    p->used = b->used;
    p->ground.n = b->ground.n;
    memcpy(p->ground.newest, b->ground.newest, sizeof p->ground.newest);
}

/* Labels in the order in which they choose their places, and what came of it. */
struct order {
    size_t *list; /* of indices */
    size_t n;
    size_t failed; /* in the list, the first that found no room, or n */
    size_t dearest; /* in the list */
    double price;  /* of all together */
};

/* Places labels in order until the drawing is given up. */
static void place_in_order(struct placing *p, struct order *o, bool even_too_large)
{
    double most = 0;
    o->failed = o->n;
    o->dearest = 0;
    o->price = 0;
    for (size_t i = 0; i < o->n; i++)
        p->placed[o->list[i]] = false;
    for (size_t i = 0; i < o->n && (even_too_large || placing_share(p) <= 1); i++) {
        double price = placing_add_label(p, &p->drawing->labels[o->list[i]]);
        p->placed[o->list[i]] = price < INFINITY;
        if (price == INFINITY) {
            o->failed = o->failed == o->n ? i : o->failed;
            continue;
        }
        o->price += price;
        if (price > most) {
            most = price;
            o->dearest = i;
        }
    }
}

static void move_to_front(size_t *order, size_t i)
{
    size_t moved = order[i];
    for (; i > 0; i--)
        order[i] = order[i - 1];
    order[0] = moved;
}

static struct order copy_order(const struct placing *p, const struct order *o)
{
    struct order copy = *o;
    copy.list = pool_copy(p->pool, o->list, (o->n + 1) * sizeof *o->list);
    return copy;
}

static struct before before_labels(const struct placing *p)
{
    return (struct before){p->n_segments, p->n_strokes, p->n_patches, p->n_lines, p->n_texts, p->used, p->ground};
}

/* All have room: whether one that stands far off, since it chose late, makes the whole better when it chooses first. */
static void better_order(struct placing *p, struct order *o, const struct before *before)
{
    struct order best = copy_order(p, o);
    for (int i = 0; i < BETTER_TRIES && o->dearest > 0 && *p->search > 0; i++) {
        take_labels_back(p, before);
        move_to_front(o->list, o->dearest);
        place_in_order(p, o, true);
        if (o->failed == o->n && o->price < best.price - 0.01 && placing_share(p) <= 1)
            best = copy_order(p, o);
        else if (o->failed < o->n)
            break;
    }
    long left = *p->search;
    *p->search = LONG_MAX; /* it is to come out as it did */
    take_labels_back(p, before);
    place_in_order(p, &best, true);
    *p->search = left;
}

enum { RANK_NEAR, RANK_NUMBER, RANK_HOME, RANK_LED, RANKS };

/* It has to stand near its point; near its line, which a long leader would not tell from the next; in its piece, if it
   can; anywhere. */
static int rank_of(const struct draw_label *label)
{
    return !label->leader ? RANK_NEAR : label->numbers_line ? RANK_NUMBER : label->has_home ? RANK_HOME : RANK_LED;
}

/* Those with the least choice first. One that finds no room goes before all in the next try. */
void placing_add_labels(struct placing *p, bool even_too_large)
{
    size_t count = p->drawing->n_labels;
    struct order o = {.list = pool_alloc(p->pool, (count + 1) * sizeof *o.list)};
    for (int rank = 0; rank < RANKS; rank++)
        for (size_t i = 0; i < count; i++)
            if (!p->placed[i] && rank_of(&p->drawing->labels[i]) == rank)
                o.list[o.n++] = i;
    struct before before = before_labels(p);
    for (int i = 0;; i++) {
        place_in_order(p, &o, even_too_large);
        if (o.failed == o.n && placing_share(p) <= 1)
            better_order(p, &o, &before);
        if (o.failed == o.n || i == MOST_TRIES || *p->search <= 0)
            return;
        take_labels_back(p, &before);
        move_to_front(o.list, o.failed);
    }
}
