/* Labels: every place round a label's point has its price, and the cheapest one that touches no line and no other text is
   taken. It may be broken into two, three or four lines. One that has to go far keeps its point by a leader line. */
#include "draw/place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_LINES = 6, MOST_BREAKS = 4, MOST_FORMS = MOST_BREAKS + 1, NEAR_RINGS = 6, FAR_RINGS = 110, DIRECTIONS = 24 };
static const double label_room = 0.8 * POINT_PER_MM;  /* between a label and a line */
static const double anchor_room = 1.0 * POINT_PER_MM; /* between a label and its point */
static const double brief_room = 0.6 * POINT_PER_MM;  /* between a brief text and a line: half its width, and ascenders above the capitals */
static const double ring_step = 0.5;                  /* in text sizes */
static const double leader_from = 1.3; /* a label wished beside its point and further off than this, in text
                                          sizes, gets a leader; one wished on its point, wherever it is not */

/* Prices, in text sizes: so much further away would be as bad. */
static const double price_of_break = 0.1;   /* one line more */
static const double price_of_many_breaks = 1.2; /* each line beyond the second: a column of words is read slowly */
static const double price_beside_text = 2.5;    /* so near to another text that both are read as one */
static const double beside_along = 1.0, beside_across = 0.8; /* so near, in text sizes */
static const double price_of_straight = 1.5;    /* a long leader along or across the page, like an edge */
static const double straight_from = 4;          /* long, in text sizes */
static const double price_of_brief = 3;
static const double price_of_leader = 4;
static const double price_of_wrong_side = 8; /* a leader to a side of the point that was not wished */
static const double price_on_rows = 20;      /* on the ground of the dimension lines */
#define PRICE_ACROSS_LINE 1.0   /* a leader over a line of the drawing */
#define PRICE_ACROSS_DIM 40.0   /* a leader over a dimension or extension line */
static const double price_along_line = 20;   /* a leader that goes on where the line ends that it numbers */
static const double price_on_line = 15;         /* a leader that lies on a line of the drawing */
static const double along_room = 1.5, along_least = 4; /* so near and so long [pt] */
static const double price_in_other_home = 1.5;   /* in the piece of another name */
static const double price_out_of_box = 100;  /* out of the box that the drawing may take up */
#define PRICE_ACROSS_LEADER 150.0

/* A label broken into lines. */
struct label_form {
    const char *line[MOST_LINES];
    size_t size[MOST_LINES];
    int n;
    bool upward;
    double width, height; /* as it lies on paper: turned labels are high and narrow */
    double room;          /* to lines and other texts */
    double price;
};

struct spot {
    double price; /* INFINITY: none found */
    const struct label_form *form;
    struct rect box;
    bool led;
    struct draw_point leader; /* its start; it ends at the label's point */
};

struct label_work {
    struct placing *p;
    const struct draw_label *label;
    struct draw_point at;
    enum face face;
    struct label_form forms[MOST_FORMS];
    int n_forms;
    struct spot best;
};

static double line_pitch(const struct placing *p)
{
    return 1.15 * p->text;
}

static void add_line_to_form(struct label_form *form, const char *s, size_t size)
{
    if (form->n < MOST_LINES) {
        form->line[form->n] = s;
        form->size[form->n++] = size;
    }
}

/* Breaks at '\n' where the text has any. */
static void break_as_given(const char *s, struct label_form *form)
{
    for (;;) {
        size_t size = strcspn(s, "\n");
        add_line_to_form(form, s, size);
        if (s[size] == '\0')
            return;
        s += size + 1;
    }
}

/* Greedy lines no longer than `most` bytes where blanks allow it; false where that takes more than n lines. */
static bool break_greedily(const char *s, size_t most, int n, struct label_form *form)
{
    form->n = 0;
    while (*s) {
        size_t end = strcspn(s, " ");
        while (s[end] == ' ') {
            size_t next = end + 1 + strcspn(s + end + 1, " ");
            if (next > most)
                break;
            end = next;
        }
        if (form->n == n)
            return false;
        add_line_to_form(form, s, end);
        s += end + (s[end] == ' ');
    }
    return form->n == n;
}

/* n lines as even as can be. */
static bool break_evenly(const char *s, int n, struct label_form *form)
{
    size_t size = strlen(s);
    for (size_t most = size / (size_t)n; most <= size; most++)
        if (break_greedily(s, most, n, form))
            return true;
    return false;
}

static void measure_form(const struct label_work *w, struct label_form *form)
{
    double widest = 0, size = w->p->text;
    for (int i = 0; i < form->n; i++)
        widest = fmax(widest, placing_text_width(w->p, w->face, form->line[i], form->size[i]));
    double high = placing_cap_height(w->p, w->face, size) + placing_descent(w->p, w->face, size) +
                  (form->n - 1) * line_pitch(w->p);
    form->width = form->upward ? high : widest;
    form->height = form->upward ? widest : high;
    if (w->label->ring)
        form->width = form->height = placing_ring_size(w->p, w->label);
}

static void add_form(struct label_work *w, struct label_form form)
{
    form.price = form.n > 1 ? price_of_break + (form.n - 2) * price_of_many_breaks : 0;
    if (w->n_forms == 0)
        form.price = 0;
    form.room = label_room;
    form.upward = w->label->upward;
    measure_form(w, &form);
    w->forms[w->n_forms++] = form;
}

static void add_brief_form(struct label_work *w)
{
    struct label_form form = {.room = brief_room, .price = price_of_brief};
    add_line_to_form(&form, w->label->brief, strlen(w->label->brief));
    measure_form(w, &form);
    w->forms[w->n_forms++] = form;
}

static void make_forms(struct label_work *w)
{
    const char *s = w->label->text;
    struct label_form form = {.n = 0};
    break_as_given(s, &form);
    add_form(w, form);
    for (int n = 2; n <= MOST_BREAKS && !strchr(s, '\n') && w->label->leader; n++)
        if (break_evenly(s, n, &form))
            add_form(w, form);
    if (w->label->brief)
        add_brief_form(w);
}

static struct rect box_at(const struct label_form *form, double x, double y)
{
    return (struct rect){x - form->width / 2, y - form->height / 2, x + form->width / 2, y + form->height / 2};
}

/* Middle of the box where the label is wished. */
static struct draw_point wished_middle(const struct label_work *w, const struct label_form *form)
{
    struct draw_point m = w->at;
    switch (w->label->anchor) {
    case ANCHOR_CENTRE:
        break;
    case ANCHOR_LEFT:
        m.x -= form->width / 2 + anchor_room;
        break;
    case ANCHOR_RIGHT:
        m.x += form->width / 2 + anchor_room;
        break;
    case ANCHOR_ABOVE:
        m.y -= form->height / 2 + anchor_room;
        break;
    case ANCHOR_BELOW:
        m.y += form->height / 2 + anchor_room;
        break;
    }
    return m;
}

static bool stays_in_box(const struct placing *p, const struct rect *box)
{
    struct rect all = p->used;
    rect_join(&all, box);
    return p->shrinks || (all.x1 - all.x0 <= p->most_width && all.y1 - all.y0 <= p->most_height);
}

static bool lies_on_rows(const struct placing *p, const struct rect *box)
{
    for (int side = 0; side < 4; side++)
        if (rect_meets_rect(&p->rows[side], box))
            return true;
    return false;
}

/* Lines of a label beside its point begin or end on the side of the point. */
static double share_before(enum anchor anchor)
{
    return anchor == ANCHOR_LEFT ? 1 : anchor == ANCHOR_RIGHT ? 0 : 0.5;
}

static void put_lines(const struct label_work *w, const struct label_form *form, const struct rect *box)
{
    double size = w->p->text;
    double cap = placing_cap_height(w->p, w->face, size), along = share_before(w->label->anchor);
    if (w->label->ring) {
        placing_add_ring(w->p, w->label, (struct draw_point){(box->x0 + box->x1) / 2, (box->y0 + box->y1) / 2});
        return;
    }
    for (int i = 0; i < form->n; i++) {
        double width = placing_text_width(w->p, w->face, form->line[i], form->size[i]);
        double down = cap + i * line_pitch(w->p);
        if (form->upward)
            placing_add_text(w->p, box->x0 + down, box->y1 - (form->height - width) / 2, w->face, true, form->line[i],
                             form->size[i]);
        else
            placing_add_text(w->p, box->x0 + along * (form->width - width), box->y0 + down, w->face, false,
                             form->line[i], form->size[i]);
    }
    placing_add_text_box(w->p, *box);
}

/* Where a leader leaves the box: of a ring straight toward the point, else in the middle of the side that looks most toward
   it. */
static struct draw_point leader_start(const struct rect *box, struct draw_point at, bool ring)
{
    double mx = (box->x0 + box->x1) / 2, my = (box->y0 + box->y1) / 2, gap = 0.4 * POINT_PER_MM;
    if (ring) {
        double t = (box->x1 - mx) / hypot(at.x - mx, at.y - my);
        return (struct draw_point){mx + t * (at.x - mx), my + t * (at.y - my)};
    }
    if (at.x > box->x1 + 2 * gap)
        return (struct draw_point){box->x1 + gap, my};
    if (at.x < box->x0 - 2 * gap)
        return (struct draw_point){box->x0 - gap, my};
    return (struct draw_point){mx, at.y > my ? box->y1 + gap : box->y0 - gap};
}

/* A leader from a to b lies on the line, or so near beside it that it is taken for a part of it. */
static bool lies_on(struct draw_point a, struct draw_point b, const struct segment *s)
{
    double lx = s->b.x - s->a.x, ly = s->b.y - s->a.y, dx = b.x - a.x, dy = b.y - a.y;
    double line = hypot(lx, ly), leader = hypot(dx, dy);
    if (fabs(lx * dy - ly * dx) > 0.1 * line * leader || line < along_least || leader < along_least)
        return false;
    double off_a = fabs(lx * (a.y - s->a.y) - ly * (a.x - s->a.x)) / line, off_b = fabs(lx * (b.y - s->a.y) - ly * (b.x - s->a.x)) / line;
    double t0 = (lx * (a.x - s->a.x) + ly * (a.y - s->a.y)) / line, t1 = (lx * (b.x - s->a.x) + ly * (b.y - s->a.y)) / line;
    return fmax(off_a, off_b) < along_room && fmin(line, fmax(t0, t1)) - fmax(0, fmin(t0, t1)) > along_least;
}

/* What a leader runs over, counted until it costs `most`; over a text it must not run at all. */
static double price_of_crossings(const struct placing *p, struct draw_point a, struct draw_point b, double most)
{
    static const double prices[] = {
        [SEGMENT_OF_OUTLINE] = PRICE_ACROSS_LINE, [SEGMENT_OF_DIM] = PRICE_ACROSS_DIM, [SEGMENT_OF_LEADER] = PRICE_ACROSS_LEADER};
    double price = 0;
    struct rect wide = rect_grown(rect_of_segment(a, b), along_room);
    if (placing_meets_text(p, a, b))
        return INFINITY;
    for (size_t i = 0; i < p->n_segments && price < most; i++) {
        const struct segment *s = &p->segments[i];
        if (!rect_meets_rect(&wide, &s->box))
            continue;
        if (segments_cross(a, b, s->a, s->b))
            price += prices[s->of];
        if (lies_on(a, b, s))
            price += price_on_line;
    }
    return price;
}

/* At less than about 15 degrees to the line. */
static bool runs_along(const struct label_work *w, struct draw_point leader)
{
    struct draw_point from = placing_point(w->p, w->label->from), to = placing_point(w->p, w->label->to);
    double dx = leader.x - w->at.x, dy = leader.y - w->at.y, lx = to.x - from.x, ly = to.y - from.y;
    return fabs(dx * ly - dy * lx) < 0.27 * fabs(dx * lx + dy * ly);
}

static bool is_straight(const struct placing *p, struct draw_point a, struct draw_point b)
{
    double dx = fabs(a.x - b.x), dy = fabs(a.y - b.y);
    return fmax(dx, dy) > straight_from * p->text && fmin(dx, dy) < 0.05 * fmax(dx, dy);
}

static bool is_beside_text(const struct placing *p, const struct rect *box, bool upward)
{
    double along = beside_along * p->text, across = beside_across * p->text, dx = upward ? across : along, dy = upward ? along : across;
    struct rect wide = {box->x0 - dx, box->y0 - dy, box->x1 + dx, box->y1 + dy};
    for (size_t i = 0; i < p->n_texts; i++)
        if (rect_meets_rect(&wide, &p->texts[i]))
            return true;
    return false;
}

static struct rect home_of(const struct placing *p, const struct draw_label *label)
{
    return rect_of_segment(placing_point(p, label->home_from), placing_point(p, label->home_to));
}

static bool is_in_other_home(const struct label_work *w, const struct rect *box)
{
    const struct drawing *d = w->p->drawing;
    for (size_t i = 0; i < d->n_labels; i++) {
        struct rect home = home_of(w->p, &d->labels[i]);
        if (d->labels[i].has_home && &d->labels[i] != w->label && rect_meets_rect(&home, box))
            return true;
    }
    return false;
}

/* Takes the place with its middle at (x, y) where it is cheaper than the best so far. */
static void try_spot(struct label_work *w, const struct label_form *form, double x, double y, double price, bool led)
{
    *w->p->search -= led;
    struct spot spot = {.form = form, .box = box_at(form, x, y), .led = led};
    spot.price = price + form->price;
    if (!stays_in_box(w->p, &spot.box))
        spot.price += w->p->leaves_box ? price_out_of_box : INFINITY;
    if (lies_on_rows(w->p, &spot.box))
        spot.price += price_on_rows;
    if (spot.price >= w->best.price || !placing_is_free(w->p, &spot.box, form->room) ||
        placing_covers_point(w->p, &spot.box, label_room, w->label))
        return;
    if (w->label->leader && is_beside_text(w->p, &spot.box, form->upward))
        spot.price += price_beside_text;
    if (led) {
        if (!w->label->numbers_line && is_in_other_home(w, &spot.box))
            spot.price += price_in_other_home;
        spot.leader = leader_start(&spot.box, w->at, w->label->ring != RING_NONE);
        spot.price += price_of_crossings(w->p, spot.leader, w->at, w->best.price - spot.price);
        if (w->label->numbers_line && runs_along(w, spot.leader))
            spot.price += price_along_line;
        if (is_straight(w->p, spot.leader, w->at))
            spot.price += price_of_straight;
    }
    if (spot.price < w->best.price)
        w->best = spot;
}

static bool needs_leader(const struct label_work *w, const struct label_form *form, double x, double y)
{
    struct rect box = box_at(form, x, y);
    const struct draw_label *label = w->label;
    if (label->pointed)
        return true;
    if (label->has_home) {
        struct rect home = home_of(w->p, label);
        if (box.x0 > home.x0 && box.x1 < home.x1 && box.y0 > home.y0 && box.y1 < home.y1)
            return false;
    }
    double far = w->label->anchor == ANCHOR_CENTRE ? 0 : leader_from * w->p->text;
    return w->label->leader && rect_gap(&box, w->at) > far;
}

/* Near its wished place: no leader is needed to see what it belongs to. */
static void try_near(struct label_work *w)
{
    for (int ring = 0; ring <= NEAR_RINGS && ring * ring_step < w->best.price; ring++) {
        double r = ring * ring_step * w->p->text;
        for (int f = 0; f < w->n_forms; f++) {
            struct draw_point m = wished_middle(w, &w->forms[f]);
            for (int i = 0; i < (ring ? DIRECTIONS / 2 : 1); i++) {
                double turn = i * 4 * UNIT_PI / DIRECTIONS;
                double x = m.x + r * cos(turn), y = m.y - r * sin(turn);
                if (!needs_leader(w, &w->forms[f], x, y))
                    try_spot(w, &w->forms[f], x, y, ring * ring_step, false);
            }
        }
    }
}

/* A direction (c, s), s up the page, against the side of the point on which the label is wished. */
static bool is_wrong_side(enum anchor anchor, double c, double s)
{
    switch (anchor) {
    case ANCHOR_CENTRE:
        return false;
    case ANCHOR_LEFT:
        return c > -0.01;
    case ANCHOR_RIGHT:
        return c < 0.01;
    case ANCHOR_ABOVE:
        return s < 0.01;
    case ANCHOR_BELOW:
        return s > -0.01;
    }
    return false;
}

/* Further off and, if it can be, brief; slanting directions first: a leader along an edge would be read as an edge. */
static void try_far(struct label_work *w)
{
    static const int order[DIRECTIONS] = {3, 9,  21, 15, 2, 10, 22, 14, 4, 8,  20, 16,
                                          1, 11, 23, 13, 5, 7,  19, 17, 0, 12, 6,  18};
    for (int ring = 2; ring <= FAR_RINGS && *w->p->search > 0 && ring * ring_step + price_of_leader < w->best.price; ring++) {
        double r = ring * ring_step * w->p->text;
        for (int i = 0; i < DIRECTIONS; i++) {
            double turn = order[i] * 2 * UNIT_PI / DIRECTIONS, c = cos(turn), s = sin(turn);
            double price = ring * ring_step + price_of_leader;
            if (is_wrong_side(w->label->anchor, c, s))
                price += price_of_wrong_side;
            for (int f = w->label->brief ? w->n_forms - 1 : 0; f < w->n_forms; f++) {
                double x = w->at.x + r * c + (c > 0.01 ? 1 : c < -0.01 ? -1 : 0) * w->forms[f].width / 2;
                double y = w->at.y - r * s - (s > 0.01 ? 1 : s < -0.01 ? -1 : 0) * w->forms[f].height / 2;
                try_spot(w, &w->forms[f], x, y, price, true);
            }
        }
    }
}

static void put_leader(struct placing *p, struct draw_point from, struct draw_point to, enum leader_end end)
{
    double length = hypot(to.x - from.x, to.y - from.y);
    placing_add_line(p, from, to, SEGMENT_OF_LEADER);
    if (end == END_HEAD && length > 0)
        placing_add_head(p, to, (to.x - from.x) / length, (to.y - from.y) / length);
    else if (end == END_DOT)
        placing_add_dot(p, to);
}

/* No room at all: text over text is unread, and misread. */
double placing_add_label(struct placing *p, const struct draw_label *label)
{
    struct label_work w = {.p = p,
                           .label = label,
                           .at = placing_point(p, label->at),
                           .face = placing_face(label->bold),
                           .best.price = INFINITY};
    make_forms(&w);
    try_near(&w);
    try_far(&w);
    if (w.best.price == INFINITY)
        return INFINITY;
    if (w.best.led)
        put_leader(p, w.best.leader, w.at, label->end);
    put_lines(&w, w.best.form, &w.best.box);
    return w.best.price;
}
