/* Hatching: parallel lines at 45 degrees, counted from the model's origin so that touching parts of one piece join up.
   Lettering interrupts them (ISO 128-50 allows no text on a hatch line). */
#include "draw/place.h"

#include <math.h>
#include <stdlib.h>

static const double text_room = 1.5; /* bare paper round a text [pt] */

void placing_visible(const struct placing *p, size_t i, struct draw_point a, struct draw_point b, struct spans *out)
{
    spans_add(out, 0, 1);
    for (size_t k = i + 1; k < p->drawing->n_shapes && out->n > 0; k++) {
        const struct draw_shape *shape = &p->drawing->shapes[k];
        if (!shape->closed || !fill_style(shape->fill)->opaque)
            continue;
        struct spans cut = {0};
        spans_inside(&cut, a, b, &p->shapes[k]);
        spans_subtract(out, &cut);
        spans_free(&cut);
    }
}

static void keep_off_texts(const struct placing *p, struct draw_point a, struct draw_point b, struct spans *spans)
{
    for (size_t i = 0; i < p->n_texts; i++) {
        struct rect box = rect_grown(p->texts[i], text_room);
        struct spans cut = {0};
        spans_inside_rect(&cut, a, b, &box);
        spans_subtract(spans, &cut);
        spans_free(&cut);
    }
}

/* The parts of the line from a to b that are hatched: inside shape i, visible, off every text. */
static void hatch_line(const struct placing *p, size_t i, struct draw_point a, struct draw_point b, struct spans *out)
{
    struct spans visible = {0}, whole = {0};
    spans_inside(out, a, b, &p->shapes[i]);
    if (out->n == 0)
        return;
    placing_visible(p, i, a, b, &visible);
    spans_add(&whole, 0, 1);
    spans_subtract(&whole, &visible);
    spans_subtract(out, &whole);
    keep_off_texts(p, a, b, out);
    spans_free(&visible);
    spans_free(&whole);
}

/* Lines leaning to the right are y = c - x on paper (y down), to the left y = c + x; c in steps of spacing * sqrt 2. */
void placing_hatch(const struct placing *p, size_t i, struct draw_point **pairs, size_t *n_pairs)
{
    const struct fill_style *style = fill_style(p->drawing->shapes[i].fill);
    const struct rect *box = &p->shapes[i].box;
    double lean = style->backward ? 1 : -1;
    double step = style->hatch * POINT_PER_MM * sqrt(2);
    double low = style->backward ? box->y0 - box->x1 : box->y0 + box->x0;
    double high = style->backward ? box->y1 - box->x0 : box->y1 + box->x1;
    size_t capacity = 0, n = 0;
    *pairs = NULL;
    *n_pairs = 0;
    for (double c = ceil(low / step) * step; c < high; c += step) {
        struct draw_point a = {box->x0, c + lean * box->x0}, b = {box->x1, c + lean * box->x1};
        struct spans spans = {0};
        hatch_line(p, i, a, b, &spans);
        for (size_t k = 0; k < spans.n; k++) {
            *pairs = mem_grow(*pairs, n, &capacity, 2 * sizeof **pairs);
            (*pairs)[2 * n] =
                (struct draw_point){a.x + spans.list[k].t0 * (b.x - a.x), a.y + spans.list[k].t0 * (b.y - a.y)};
            (*pairs)[2 * n + 1] =
                (struct draw_point){a.x + spans.list[k].t1 * (b.x - a.x), a.y + spans.list[k].t1 * (b.y - a.y)};
            n++;
        }
        spans_free(&spans);
    }
    *n_pairs = n;
}
