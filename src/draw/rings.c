/* Numbers in rings, each at the line that it numbers: beyond an end of the line where that is allowed, so that they stand
   in rows outside the drawing, else on the line, which the ring then interrupts. Those that find no room so are left to
   labels.c, which leads them away.

        (3)------------+------
                       |
                      (5)
                       |                     */
#include "draw/place.h"

#include <math.h>
#include <string.h>

static const double text_room = 0.35 * POINT_PER_MM; /* between a text and the ring round it */
static const double beyond_room = 0.7 * POINT_PER_MM; /* between a ring and the end of its line */
static const double stub = 0.3 * POINT_PER_MM;        /* of a line left to be seen on both sides of a ring */
static const double letter_share = 0.6;               /* of the text's size: room for a letter beside the ring */
static const double square_share = 0.9;               /* of a circle's diameter, to look as large */

double placing_ring_size(const struct placing *p, const struct draw_label *label)
{
    enum face face = placing_face(label->bold);
    double width = placing_text_width(p, face, label->text, strlen(label->text));
    double cap = placing_cap_height(p, face, p->text), below = placing_descent(p, face, p->text);
    return 2 * (hypot(width / 2, cap / 2 + below) + text_room);
}

static struct rect box_around(struct draw_point middle, double size)
{
    return (struct rect){middle.x - size / 2, middle.y - size / 2, middle.x + size / 2, middle.y + size / 2};
}

/* Corners of a square lie on its circle at an eighth of the way round. */
void placing_add_ring(struct placing *p, const struct draw_label *label, struct draw_point middle)
{
    enum { MOST_SIDES = 24 };
    struct draw_point ring[MOST_SIDES];
    double size = placing_ring_size(p, label), r = size / 2;
    size_t n_text = strlen(label->text);
    enum face face = placing_face(label->bold);
    int sides = label->ring == RING_SQUARE ? 4 : MOST_SIDES;
    if (label->ring == RING_SQUARE)
        r *= square_share * sqrt(2);
    for (int i = 0; i < sides; i++) {
        double turn = (i + 0.5) * 2 * UNIT_PI / sides;
        ring[i] = (struct draw_point){middle.x + r * cos(turn), middle.y + r * sin(turn)};
    }
    placing_add_patch(p, ring, (size_t)sides, true, SEGMENT_OF_OUTLINE);
    placing_add_text(p, middle.x - placing_text_width(p, face, label->text, n_text) / 2,
                     middle.y + placing_cap_height(p, face, p->text) / 2, face, false, label->text, n_text);
    placing_add_text_box(p, box_around(middle, size));
}

struct numbered {
    struct placing *p;
    const struct draw_label *label;
    struct draw_point from, to;
    double length, size;
};

static struct draw_point along(const struct numbered *n, double distance)
{
    double t = distance / n->length;
    return (struct draw_point){n->from.x + t * (n->to.x - n->from.x), n->from.y + t * (n->to.y - n->from.y)};
}

static bool meets_other_line(const struct numbered *n, const struct rect *box)
{
    const struct drawing *d = n->p->drawing;
    for (size_t i = 0; i < d->n_labels; i++)
        if (d->labels[i].numbers_line && &d->labels[i] != n->label &&
            rect_meets_segment(box, placing_point(n->p, d->labels[i].from), placing_point(n->p, d->labels[i].to)))
            return true;
    return false;
}

static bool meets_text(const struct placing *p, const struct rect *box)
{
    for (size_t i = 0; i < p->n_texts; i++)
        if (rect_meets_rect(box, &p->texts[i]))
            return true;
    return false;
}

static bool try_ring(const struct numbered *n, double distance, bool beyond)
{
    struct draw_point middle = along(n, distance);
    struct rect box = box_around(middle, n->size);
    struct rect wide = rect_grown(box, stub);
    if (beyond ? !placing_is_free(n->p, &box, stub) : meets_text(n->p, &wide) || meets_other_line(n, &wide))
        return false;
    if (!beyond && placing_covers_point(n->p, &box, letter_share * n->p->text, n->label))
        return false;
    placing_add_ring(n->p, n->label, middle);
    return true;
}

/* On the line: first near its ends, where no text of what lies beside it stands. */
static bool try_on_line(const struct numbered *n)
{
    for (double d = n->size / 2 + stub; d <= n->length / 2; d += n->size / 4)
        if (try_ring(n, d, false) || try_ring(n, n->length - d, false))
            return true;
    return false;
}

static bool place_number(struct placing *p, const struct draw_label *label)
{
    struct numbered n = {.p = p, .label = label, .size = placing_ring_size(p, label)};
    n.from = placing_point(p, label->from);
    n.to = placing_point(p, label->to);
    n.length = hypot(n.to.x - n.from.x, n.to.y - n.from.y);
    double past = n.size / 2 + beyond_room;
    if (label->in_middle)
        return try_ring(&n, n.length / 2, false);
    return (label->beyond_from && try_ring(&n, -past, true)) || (label->beyond_to && try_ring(&n, n.length + past, true)) ||
           try_on_line(&n);
}

void placing_add_line_numbers(struct placing *p)
{
    for (size_t i = 0; i < p->drawing->n_labels; i++)
        if (p->drawing->labels[i].numbers_line)
            p->placed[i] = place_number(p, &p->drawing->labels[i]);
}
