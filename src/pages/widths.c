/* A memory of widths: a hash table that doubles. */
#include "pages/widths.h"

#include <string.h>

enum { FIRST_SLOTS = 512 };

struct width_entry {
    struct width_entry *next;
    unsigned hash, features;
    enum face face;
    size_t n;
    const char *s;
    double width;
};

/* FNV-1a, 32 bits. */
static unsigned hash_of(enum face face, unsigned features, const char *s, size_t n)
{
    unsigned h = 2166136261u ^ (unsigned)face ^ features << 8;
    for (size_t i = 0; i < n; i++)
        h = (h ^ (unsigned char)s[i]) * 16777619u;
    return h;
}

static void double_slots(struct widths *w)
{
    size_t n_slots = w->n_slots ? 2 * w->n_slots : FIRST_SLOTS;
    struct width_entry **slots = pool_alloc(&w->pool, n_slots * sizeof *slots);
    for (size_t i = 0; i < w->n_slots; i++)
        for (struct width_entry *e = w->slots[i], *next; e; e = next) {
            next = e->next;
            e->next = slots[e->hash % n_slots];
            slots[e->hash % n_slots] = e;
        }
    w->slots = slots;
    w->n_slots = n_slots;
}

double widths_of(struct widths *w, enum face face, unsigned features, const char *s, size_t n)
{
    unsigned hash = hash_of(face, features, s, n);
    if (w->n >= w->n_slots)
        double_slots(w);
    for (const struct width_entry *e = w->slots[hash % w->n_slots]; e; e = e->next)
        if (e->hash == hash && e->n == n && e->face == face && e->features == features && memcmp(e->s, s, n) == 0)
            return e->width;
    struct width_entry *e = pool_alloc(&w->pool, sizeof *e);
    *e = (struct width_entry){w->slots[hash % w->n_slots],
                              hash,
                              features,
                              face,
                              n,
                              pool_string_n(&w->pool, s, n),
                              type_width(w->faces, face, features, s, n)};
    w->slots[hash % w->n_slots] = e;
    w->n++;
    return e->width;
}

void widths_free(struct widths *w)
{
    pool_free(&w->pool);
    w->slots = NULL;
    w->n = w->n_slots = 0;
}
