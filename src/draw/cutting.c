/* One sheet or strip and how it is cut: pieces with letter and size, cuts numbered in sawing order, waste hatched,
   offcuts worth keeping named with their size. The grain runs from left to right. */
#include "draw/model.h"

#include "words.h"

#include <math.h>
#include <stdlib.h>

/* A strip's width is drawn so many times as large that it is at least this share of its length. */
static const double least_share = 1.0 / 18;
static const double same = 1e-3; /* edges this near each other are one [mm] */

static const char *const source_keys[] = {
    [CUT_FROM_OFFCUT] = "draw.cut.offcut", [CUT_FROM_RACK] = "draw.cut.rack", [CUT_FROM_BOUGHT] = "draw.cut.to_buy"};

const char *draw_list_numbers(const int *numbers, size_t n, struct pool *pool)
{
    const char *list = "";
    for (size_t i = 0, last; i < n; i = last + 1) {
        for (last = i; last + 1 < n && numbers[last + 1] == numbers[last] + 1;)
            last++;
        list = pool_printf(pool, "%s%s%d", list, i > 0 ? ", " : "", numbers[i]);
        if (last > i)
            list = pool_printf(pool, "%s%s%d", list, last > i + 1 ? "\xE2\x80\x93" : ", ", numbers[last]);
    }
    return list;
}

static int compare_numbers(const void *a, const void *b)
{
    return *(const int *)a - *(const int *)b;
}

const char *draw_list_alike(const struct cutting_stock *s, size_t sheet, struct pool *pool)
{
    int *numbers = pool_alloc(pool, s->n_sheets * sizeof *numbers);
    size_t n = 0;
    for (size_t i = 0; i < s->n_sheets; i++)
        if (s->sheets[i].alike == s->sheets[sheet].alike)
            numbers[n++] = (int)i + 1;
    return draw_list_numbers(numbers, n, pool);
}

static bool is_at(const struct cut_rest *r, const struct cut_area *a)
{
    return fabs(r->at.x - a->x) < same && fabs(r->at.y - a->y) < same && r->number > 0;
}

const char *draw_list_kept(const struct cutting_stock *s, size_t sheet, const struct cut_area *at, struct pool *pool)
{
    int *numbers = pool_alloc(pool, s->n_sheets * sizeof *numbers);
    size_t n = 0;
    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->sheets[i].n_rests; k++)
            if (s->sheets[i].alike == s->sheets[sheet].alike && is_at(&s->sheets[i].rests[k], at))
                numbers[n++] = s->sheets[i].rests[k].number;
    qsort(numbers, n, sizeof *numbers, compare_numbers);
    return draw_list_numbers(numbers, n, pool);
}

struct sheet_model {
    struct model m;
    const struct cutting_stock *stock;
    const struct cut_sheet *sheet;
    double stretch; /* times as wide as it is */
};

static double stretch_of(const struct cut_sheet *s)
{
    return fmax(1, ceil(least_share * s->w / s->h));
}

static void add_area(struct sheet_model *s, const struct cut_area *a, enum line_kind line, enum fill_kind fill)
{
    add_box(&s->m, a->x, a->y * s->stretch, a->x + a->w, (a->y + a->h) * s->stretch, line, fill);
}

/* In the middle of an area; turned where that is narrow. */
static struct draw_label *add_area_label(struct sheet_model *s, const struct cut_area *a, struct saying saying)
{
    struct draw_label *label =
        add_leader(&s->m, a->x + a->w / 2, (a->y + a->h / 2) * s->stretch, model_say(&s->m, saying));
    label->has_home = true;
    label->home_from = (struct draw_point){a->x, a->y * s->stretch};
    label->home_to = (struct draw_point){a->x + a->w, (a->y + a->h) * s->stretch};
    label->upward = a->h * s->stretch > 2.5 * a->w;
    return label;
}

static void label_piece(struct sheet_model *s, const struct cut_piece *p)
{
    bool length_only = s->stock->stock->is_strip && !s->stock->ripped;
    const char *key = length_only ? "draw.cut.length" : p->turned ? "draw.cut.piece_turned" : "draw.cut.piece";
    struct draw_label *label =
        add_area_label(s, &p->at,
                       SAYING(key, SAY_STR("part", p->part->letter), SAY_ARG("along", SAY_SIZE, p->at.w),
                              SAY_ARG("across", SAY_SIZE, p->at.h)));
    label->brief = pool_string(s->m.pool, p->part->letter);
}

static void label_rest(struct sheet_model *s, const struct cut_rest *r)
{
    bool length_only = s->stock->stock->is_strip && !s->stock->ripped;
    struct say_arg n = SAY_STR("n", draw_list_kept(s->stock, s->sheet->alike, &r->at, s->m.pool));
    struct draw_label *label =
        add_area_label(s, &r->at,
                       SAYING(length_only ? "draw.cut.keep_length" : "draw.cut.keep", n,
                              SAY_ARG("along", SAY_SIZE, r->at.w), SAY_ARG("across", SAY_SIZE, r->at.h)));
    label->brief = model_say(&s->m, SAYING("draw.cut.keep_brief", n));
}

static void add_pieces(struct sheet_model *s)
{
    for (size_t i = 0; i < s->sheet->n_rests; i++)
        add_area(s, &s->sheet->rests[i].at, LINE_NARROW, s->sheet->rests[i].number ? FILL_WHITE : FILL_HATCH);
    for (size_t i = 0; i < s->sheet->n_pieces; i++)
        add_area(s, &s->sheet->pieces[i].at, LINE_NARROW, FILL_TINT);
    for (size_t i = 0; i < s->sheet->n_pieces; i++)
        label_piece(s, &s->sheet->pieces[i]);
    for (size_t i = 0; i < s->sheet->n_rests; i++)
        if (s->sheet->rests[i].number)
            label_rest(s, &s->sheet->rests[i]);
}

/* What is left of the sheet when its rough edges are off: a cut that runs up to there runs up to the sheet's edge. */
static struct cut_area trimmed(const struct sheet_model *s)
{
    for (size_t i = 0; i < s->stock->n_cuts; i++)
        if (&s->stock->sheets[s->stock->cuts[i].sheet] == s->sheet && !s->stock->cuts[i].trims)
            return s->stock->cuts[i].panel;
    return (struct cut_area){0, 0, s->sheet->w, s->sheet->h};
}

/* A cut that runs up to an edge of the sheet has its number outside there; crosscuts above if they can. */
static void number_cut(struct sheet_model *s, const struct cut_line *c)
{
    double middle = (c->kerf_from + c->kerf_to) / 2;
    struct cut_area p = c->panel, all = trimmed(s);
    bool from_edge = c->along_y ? p.y + p.h > all.y + all.h - same : p.x < all.x + same;
    bool to_edge = c->along_y ? p.y < all.y + same : p.x + p.w > all.x + all.w - same;
    struct draw_point from, to;
    if (c->along_y) {
        from = (struct draw_point){middle, from_edge ? s->sheet->h : p.y + p.h};
        to = (struct draw_point){middle, to_edge ? 0 : p.y};
    } else {
        from = (struct draw_point){from_edge ? 0 : p.x, middle};
        to = (struct draw_point){to_edge ? s->sheet->w : p.x + p.w, middle};
    }
    from.y *= s->stretch;
    to.y *= s->stretch;
    struct draw_label *label = add_leader(&s->m, (from.x + to.x) / 2, (from.y + to.y) / 2,
                                          pool_printf(s->m.pool, "%d", c->number));
    label->ring = cutting_is_by_hand(c) ? RING_SQUARE : RING_ROUND;
    label->bold = true;
    label->numbers_line = true;
    label->end = END_HEAD;
    label->from = from;
    label->to = to;
    label->beyond_from = from_edge;
    label->beyond_to = to_edge;
}

/* The kerf at its true width, never narrower than a line. */
static void add_cut(struct sheet_model *s, const struct cut_line *c)
{
    struct cut_area kerf = c->panel;
    if (c->along_y) {
        kerf.x = c->kerf_from;
        kerf.w = c->kerf_to - c->kerf_from;
    } else {
        kerf.y = c->kerf_from;
        kerf.h = c->kerf_to - c->kerf_from;
    }
    add_area(s, &kerf, LINE_VISIBLE, FILL_BLACK);
}

static void add_cuts(struct sheet_model *s)
{
    for (size_t i = 0; i < s->stock->n_cuts; i++)
        if (&s->stock->sheets[s->stock->cuts[i].sheet] == s->sheet)
            add_cut(s, &s->stock->cuts[i]);
    for (size_t i = 0; i < s->stock->n_cuts; i++)
        if (&s->stock->sheets[s->stock->cuts[i].sheet] == s->sheet)
            number_cut(s, &s->stock->cuts[i]);
}

/* Above the sheet, where few cuts end, both ways along the grain. */
static void add_grain(struct sheet_model *s)
{
    double w = s->sheet->w, h = s->sheet->h * s->stretch, size = 0.02 * fmax(w, h), y = h + 2.2 * size;
    if (s->stock->stock->material.form == MATERIAL_MDF || s->stock->stock->is_strip)
        return;
    add_arrow(&s->m, 0.1 * w, y, 0.16 * w, y, size);
    add_arrow(&s->m, 0.1 * w, y, 0.04 * w, y, size);
    add_label(&s->m, 0.16 * w, y, ANCHOR_RIGHT, words_get("draw.cut.grain"));
}

static const char *say_title(struct sheet_model *s, size_t sheet)
{
    bool strip = s->stock->stock->is_strip;
    size_t n = s->sheet->n_alike;
    struct saying which =
        SAYING(n > 1 ? (strip ? "draw.cut.strips" : "draw.cut.sheets") : strip ? "draw.cut.strip" : "draw.cut.sheet",
               SAY_STR("list", draw_list_alike(s->stock, sheet, s->m.pool)), SAY_ARG("n", SAY_COUNT, (double)n));
    struct saying title =
        SAYING(s->stretch > 1 ? "draw.title.cut_stretched" : "draw.title.cut", SAY_STR("which", model_say(&s->m, which)),
               SAY_STR("stock", s->sheet->stock->name), SAY_KEY("source", source_keys[s->sheet->source]),
               SAY_ARG("along", SAY_SIZE, s->sheet->w), SAY_ARG("across", SAY_SIZE, s->sheet->h),
               SAY_ARG("times", SAY_COUNT, s->stretch));
    return model_say(&s->m, title);
}

void draw_cut_sheet(const struct cutting_stock *stock, size_t sheet, enum units units, struct pool *pool,
                    struct drawing *out)
{
    struct sheet_model s = {.stock = stock, .sheet = &stock->sheets[sheet]};
    s.stretch = stretch_of(s.sheet);
    s.m = model_begin(out, pool, units, "draw.cut.sheet");
    out->any_scale = true;
    out->title = say_title(&s, sheet);
    add_box(&s.m, 0, 0, s.sheet->w, s.sheet->h * s.stretch, LINE_VISIBLE, FILL_WHITE);
    add_pieces(&s);
    add_cuts(&s);
    add_grain(&s);
}
