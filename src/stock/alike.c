/* Sheets that are the same and are cut the same way are sawn together: the same cut of each, one after another, before the
   fence moves. That never cuts a panel before it is there: on each sheet the cuts keep their order, and a shared number
   stands where the first of its cuts does. */
#include "stock/alike.h"

#include <math.h>

static const double same = 1e-6; /* [mm] */

static bool is_same(double a, double b)
{
    return fabs(a - b) < same;
}

static bool areas_are_same(const struct cut_area *a, const struct cut_area *b)
{
    return is_same(a->x, b->x) && is_same(a->y, b->y) && is_same(a->w, b->w) && is_same(a->h, b->h);
}

static bool contents_are_same(const struct cut_sheet *a, const struct cut_sheet *b)
{
    if (a->stock != b->stock || a->source != b->source || a->n_pieces != b->n_pieces || a->n_rests != b->n_rests ||
        !is_same(a->w, b->w) || !is_same(a->h, b->h))
        return false;
    for (size_t i = 0; i < a->n_pieces; i++)
        if (a->pieces[i].part != b->pieces[i].part || !areas_are_same(&a->pieces[i].at, &b->pieces[i].at))
            return false;
    for (size_t i = 0; i < a->n_rests; i++)
        if ((a->rests[i].number > 0) != (b->rests[i].number > 0) || !areas_are_same(&a->rests[i].at, &b->rests[i].at))
            return false;
    return true;
}

/* The next cut of a sheet from index `from` on; n_cuts: none. */
static size_t next_cut(const struct cutting_stock *s, size_t sheet, size_t from)
{
    while (from < s->n_cuts && s->cuts[from].sheet != (int)sheet)
        from++;
    return from;
}

static bool cuts_are_same(const struct cutting_stock *s, size_t a, size_t b)
{
    size_t i = next_cut(s, a, 0), k = next_cut(s, b, 0);
    while (i < s->n_cuts && k < s->n_cuts) {
        const struct cut_line *c = &s->cuts[i], *d = &s->cuts[k];
        if (c->along_y != d->along_y || c->keeps_higher != d->keeps_higher || c->way != d->way ||
            !is_same(c->fence, d->fence) || !areas_are_same(&c->panel, &d->panel))
            return false;
        i = next_cut(s, a, i + 1);
        k = next_cut(s, b, k + 1);
    }
    return i == s->n_cuts && k == s->n_cuts;
}

static size_t first_alike(const struct cutting_stock *s, size_t sheet)
{
    for (size_t i = 0; i < sheet; i++)
        if (s->sheets[i].alike == i && contents_are_same(&s->sheets[i], &s->sheets[sheet]) && cuts_are_same(s, i, sheet))
            return i;
    return sheet;
}

/* Number of a cut before this one that is the same cut of a sheet that is alike, or trims by eye the edge opposite; 0: none. */
static int shared_number(const struct cutting_stock *s, size_t cut)
{
    const struct cut_line *c = &s->cuts[cut];
    for (size_t i = 0; i < cut; i++) {
        const struct cut_line *d = &s->cuts[i];
        bool same_cut = areas_are_same(&d->panel, &c->panel) && is_same(d->kerf_from, c->kerf_from);
        if (s->sheets[d->sheet].alike == s->sheets[c->sheet].alike && d->along_y == c->along_y &&
            (same_cut || (cutting_is_by_eye(c) && cutting_is_by_eye(d))))
            return d->number;
    }
    return 0;
}

void alike_number(struct cutting_stock *s)
{
    int number = 0;
    for (size_t i = 0; i < s->n_sheets; i++)
        s->sheets[i].alike = first_alike(s, i);
    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->n_sheets; k++)
            s->sheets[i].n_alike += s->sheets[k].alike == s->sheets[i].alike;
    for (size_t i = 0; i < s->n_cuts; i++) {
        int shared = shared_number(s, i);
        s->cuts[i].number = shared ? shared : ++number;
    }
}
