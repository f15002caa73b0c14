/* One sheet or strip and how it is cut: pieces with letter and size, cuts numbered in sawing order, waste hatched,
   offcuts worth keeping named with their size. The grain runs from left to right. */
#include "draw/model.h"

#include "words.h"

#include <math.h>

/* A strip's width is drawn so many times as large that it is at least this share of its length. */
static const double least_share = 1.0 / 18;
static const double same = 1e-3; /* edges this near each other are one [mm] */

static const char *const source_keys[] = {
    [CUT_FROM_OFFCUT] = "draw.cut.offcut", [CUT_FROM_RACK] = "draw.cut.rack", [CUT_FROM_BOUGHT] = "draw.cut.to_buy"};

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
static void add_area_label(struct sheet_model *s, const struct cut_area *a, struct saying saying)
{
    struct draw_label *label =
        add_leader(&s->m, a->x + a->w / 2, (a->y + a->h / 2) * s->stretch, model_say(&s->m, saying));
    label->upward = a->h * s->stretch > 2.5 * a->w;
}

static void label_piece(struct sheet_model *s, const struct cut_piece *p)
{
    bool length_only = s->stock->stock->is_strip && !s->stock->ripped;
    const char *key = length_only ? "draw.cut.length" : p->turned ? "draw.cut.piece_turned" : "draw.cut.piece";
    add_area_label(s, &p->at,
                   SAYING(key, SAY_STR("part", p->part->letter), SAY_ARG("along", SAY_SIZE, p->at.w),
                          SAY_ARG("across", SAY_SIZE, p->at.h)));
}

static void label_rest(struct sheet_model *s, const struct cut_rest *r)
{
    bool length_only = s->stock->stock->is_strip && !s->stock->ripped;
    add_area_label(s, &r->at,
                   SAYING(length_only ? "draw.cut.keep_length" : "draw.cut.keep", SAY_ARG("n", SAY_COUNT, r->number),
                          SAY_ARG("along", SAY_SIZE, r->at.w), SAY_ARG("across", SAY_SIZE, r->at.h)));
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

/* Its number stands outside the sheet where the cut runs up to an edge, else beside its end. */
static void number_cut(struct sheet_model *s, const struct cut_line *c, size_t number)
{
    double middle = (c->kerf_from + c->kerf_to) / 2, end = c->along_y ? c->panel.y : c->panel.x, far = end;
    bool at_low = end < same, at_high = false;
    far += c->along_y ? c->panel.h : c->panel.w;
    at_high = far > (c->along_y ? s->sheet->h : s->sheet->w) - same;
    double x = c->along_y ? middle : at_low ? end : at_high ? far : (end + far) / 2;
    double y = c->along_y ? (at_high ? far : at_low ? end : (end + far) / 2) : middle;
    enum anchor anchor = c->along_y ? (at_high ? ANCHOR_ABOVE : at_low ? ANCHOR_BELOW : ANCHOR_RIGHT)
                                    : (at_low ? ANCHOR_LEFT : at_high ? ANCHOR_RIGHT : ANCHOR_ABOVE);
    struct draw_label *label = add_leader(&s->m, x, y * s->stretch, pool_printf(s->m.pool, "%zu", number));
    label->anchor = anchor;
    label->ringed = true;
    label->bold = true;
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
            number_cut(s, &s->stock->cuts[i], i + 1);
}

/* Under the sheet, both ways along the grain. */
static void add_grain(struct sheet_model *s)
{
    double w = s->sheet->w, size = 0.02 * fmax(w, s->sheet->h * s->stretch), y = -2.2 * size;
    if (s->stock->stock->material.form == MATERIAL_MDF || s->stock->stock->is_strip)
        return;
    add_arrow(&s->m, 0.5 * w, y, 0.56 * w, y, size);
    add_arrow(&s->m, 0.5 * w, y, 0.44 * w, y, size);
    add_label(&s->m, 0.56 * w, y, ANCHOR_RIGHT, words_get("draw.cut.grain"));
}

static const char *say_title(struct sheet_model *s, size_t number)
{
    bool strip = s->stock->stock->is_strip;
    struct say_arg stretch = SAY_ARG("times", SAY_COUNT, s->stretch);
    struct saying title = SAYING(s->stretch > 1 ? "draw.title.cut_stretched" : "draw.title.cut",
                                 SAY_KEY("what", strip ? "draw.cut.strip" : "draw.cut.sheet"),
                                 SAY_ARG("n", SAY_COUNT, (double)number), SAY_STR("stock", s->sheet->stock->name),
                                 SAY_KEY("source", source_keys[s->sheet->source]),
                                 SAY_ARG("along", SAY_SIZE, s->sheet->w), SAY_ARG("across", SAY_SIZE, s->sheet->h),
                                 stretch);
    return model_say(&s->m, title);
}

void draw_cut_sheet(const struct cutting_stock *stock, size_t sheet, enum units units, struct pool *pool,
                    struct drawing *out)
{
    struct sheet_model s = {.stock = stock, .sheet = &stock->sheets[sheet]};
    s.stretch = stretch_of(s.sheet);
    s.m = model_begin(out, pool, units, "draw.cut.sheet");
    out->any_scale = true;
    out->title = say_title(&s, sheet + 1);
    add_box(&s.m, 0, 0, s.sheet->w, s.sheet->h * s.stretch, LINE_VISIBLE, FILL_WHITE);
    add_pieces(&s);
    add_cuts(&s);
    add_grain(&s);
}
