/* Build sheet, section "Cutting layout": which sheets and strips to take, what to set the fence to, which cuts in which
   order, what is left, what to buy. */
#include "sheet/cutting_table.h"
#include "sheet/kinds.h"

#include "draw.h"

#include <math.h>

static const double small_height = 80, large_height = 140; /* of drawings, at most [mm] */
static const double least_share = 0.5;                     /* of that height, where the page asks for it */
static const double same = 1e-3; /* areas this near each other are one [mm] */
enum { SHEET_PIECES = 5, STRIP_PIECES = 2 }; /* so many pieces can be read in half a page's width */
static const double readable_share = 0.12;   /* of its length, where a sheet's pieces are not narrower than that */
/* Common practice, no source: narrower rips are pushed with a stick. */
static const double push_stick_below[] = {[UNITS_MM] = 150, [UNITS_IN] = 6 * MM_PER_INCH};

struct layout_section {
    const struct sheet_builder *b;
    const struct cutting_stock *stock;
};

/* ---- which words of the table need telling ---- */

static bool some_cut(const struct cutting *c, bool (*is)(const struct cut_line *))
{
    for (size_t i = 0; i < c->n_stocks; i++)
        for (size_t k = 0; k < c->stocks[i].n_cuts; k++)
            if (is(&c->stocks[i].cuts[k]))
                return true;
    return false;
}

static bool is_marked(const struct cut_line *c)
{
    return cutting_is_by_hand(c) && !cutting_is_by_eye(c);
}

static bool has_fresh_edge(const struct cut_line *c)
{
    return c->keeps_higher && !cutting_is_by_eye(c);
}

static bool is_by_hand_saw(const struct cut_line *c)
{
    return cutting_is_by_hand(c) && c->way != CUT_TOO_SHORT;
}

static bool is_too_short(const struct cut_line *c)
{
    return c->way == CUT_TOO_SHORT;
}

static bool is_at_gauge(const struct cut_line *c)
{
    return c->way == CUT_AT_STOP || c->way == CUT_ON_SLED;
}

static bool is_held_up(const struct cut_line *c)
{
    return c->overhangs && !cutting_is_by_hand(c);
}

static bool some_needs_block(const struct cutting *c)
{
    for (size_t i = 0; i < c->n_stocks; i++)
        for (size_t k = 0; k < c->stocks[i].n_cuts; k++)
            if (cutting_needs_block(c, &c->stocks[i].cuts[k]))
                return true;
    return false;
}

static bool some_is_thin(const struct sheet_builder *b)
{
    for (size_t i = 0; i < b->cutting->n_stocks; i++)
        for (size_t k = 0; k < b->cutting->stocks[i].n_cuts; k++)
            if (cutting_is_thin(b, &b->cutting->stocks[i].cuts[k]))
                return true;
    return false;
}

/* Some edge is as it was bought or lay on the rack. */
static bool some_is_untrimmed(const struct cutting *c)
{
    for (size_t i = 0; i < c->n_stocks; i++)
        for (size_t k = 0; k < c->stocks[i].n_sheets; k++)
            if (c->trim <= 0 || c->stocks[i].stock->is_strip || c->stocks[i].sheets[k].source == CUT_FROM_OFFCUT)
                return true;
    return false;
}

static bool some_rip_is_narrow(const struct sheet_builder *b)
{
    for (size_t i = 0; i < b->cutting->n_stocks; i++) {
        const struct cutting_stock *s = &b->cutting->stocks[i];
        for (size_t k = 0; k < s->n_cuts; k++)
            if (s->cuts[k].way == CUT_AT_FENCE && !s->cuts[k].along_y && s->cuts[k].fence < push_stick_below[b->units])
                return true;
    }
    return false;
}

/* ---- drawings ---- */

static bool is_small(const struct cut_sheet *s)
{
    for (size_t i = 0; i < s->n_pieces && !s->stock->is_strip; i++)
        if (fmin(s->pieces[i].at.w, s->pieces[i].at.h) < readable_share * s->w)
            return false;
    return s->n_pieces <= (size_t)(s->stock->is_strip ? STRIP_PIECES : SHEET_PIECES);
}

static void add_drawing(const struct layout_section *s, struct block_list *list, size_t sheet, double most)
{
    struct drawing drawing = {0};
    draw_cut_sheet(s->stock, sheet, s->b->units, s->b->pool, &drawing);
    block_drawing(s->b, list, drawing, STYLE_SMALL, least_share * most, most);
}

/* The next sheet from index i on that is drawn: the first of those that are alike. */
static size_t next_drawn(const struct cutting_stock *s, size_t i)
{
    while (i < s->n_sheets && s->sheets[i].alike != i)
        i++;
    return i;
}

/* Two small ones beside each other; one that has no other keeps its half of the page. */
static void add_drawings(const struct layout_section *s, struct block_list *list)
{
    const struct cut_sheet *sheets = s->stock->sheets;
    for (size_t i = 0, next; (i = next_drawn(s->stock, i)) < s->stock->n_sheets; i = next) {
        next = next_drawn(s->stock, i + 1);
        if (!is_small(&sheets[i])) {
            add_drawing(s, list, i, large_height);
            continue;
        }
        struct block_list columns[2] = {{0}, {0}};
        add_drawing(s, &columns[0], i, small_height);
        if (next < s->stock->n_sheets && is_small(&sheets[next])) {
            add_drawing(s, &columns[1], next, small_height);
            next++;
        }
        block_columns(s->b, list, 2, columns, (const double[]){6, 6});
    }
}

/* ---- what to take, keep and buy ---- */

static const char *join(const struct sheet_builder *b, const char *first, const char *between, const char *second)
{
    return pool_printf(b->pool, "%s%s%s", first, *first && *second ? between : "", second);
}

static const char *count_of(const struct sheet_builder *b, const char *key, int n)
{
    return n > 0 ? print_saying(b, SAYING(key, SAY_ARG("n", SAY_COUNT, n))) : "";
}

/* In the order in which the sheets are numbered. */
static const char *print_take(const struct layout_section *s)
{
    const struct cutting_stock *k = s->stock;
    const char *offcuts = count_of(s->b, "cutting.take.offcuts", (int)k->n_sheets - k->fresh);
    const char *fresh = join(s->b, count_of(s->b, "cutting.take.rack", k->fresh - k->to_buy), ", ", count_of(s->b, "cutting.take.buy", k->to_buy));
    bool offcuts_first = k->n_sheets > 0 && k->sheets[0].source == CUT_FROM_OFFCUT;
    return offcuts_first ? join(s->b, offcuts, ", ", fresh) : join(s->b, fresh, ", ", offcuts);
}

static bool is_over_in_width(const struct cut_piece *p, const struct job_stock *s)
{
    (void)s;
    return p->at.h > p->part->width + same;
}

static bool is_over_in_thickness(const struct cut_piece *p, const struct job_stock *s)
{
    return s->thickness.v > p->part->thickness + same;
}

/* "Plane A, C to width."; "": none is over. */
static const char *print_planing(const struct layout_section *s, const char *key, bool (*is_over)(const struct cut_piece *, const struct job_stock *))
{
    const struct plan *plan = s->b->plan;
    const char *letters = "";
    for (size_t i = 0; i < plan->n_parts; i++) {
        bool over = false;
        for (size_t k = 0; k < s->stock->n_sheets; k++)
            for (size_t j = 0; j < s->stock->sheets[k].n_pieces; j++) {
                const struct cut_piece *p = &s->stock->sheets[k].pieces[j];
                over |= p->part == &plan->parts[i] && is_over(p, s->stock->stock);
            }
        letters = over ? join(s->b, letters, ", ", plan->parts[i].letter) : letters;
    }
    return *letters ? print_saying(s->b, SAYING(key, SAY_STR("parts", letters))) : "";
}

/* How a part's section comes out of a strip. */
static const char *print_section(const struct layout_section *s)
{
    const struct cutting_stock *k = s->stock;
    size_t on_edge = 0, n = 0;
    for (size_t i = 0; i < k->n_sheets; i++)
        for (size_t j = 0; j < k->sheets[i].n_pieces; j++, n++)
            on_edge += cutting_is_on_edge(&k->sheets[i].pieces[j]);
    if (k->ripped && on_edge > 0)
        return print_word(s->b, on_edge == n ? "cutting.ripped.on_edge" : "cutting.ripped.either");
    return join(s->b, print_planing(s, k->ripped ? "cutting.plane.ripped" : "cutting.plane.width", is_over_in_width), " ",
                print_planing(s, "cutting.plane.thickness", is_over_in_thickness));
}

static const char *print_summary(const struct layout_section *s)
{
    const struct sheet_builder *b = s->b;
    const struct cutting_stock *k = s->stock;
    int kept = cutting_kept(k);
    const char *text = k->proven_best ? print_bold(b, print_word(b, "cutting.best"))
                                      : count_of(b, "cutting.at_least", k->at_least);
    text = join(b, text, " ", print_saying(b, SAYING("cutting.yield", SAY_ARG("share", SAY_RATIO, k->yield))));
    text = join(b, text, " ", k->stock->is_strip ? print_section(s) : "");
    return join(b, text, " ", count_of(b, kept > 2 ? "cutting.keep.many" : kept == 2 ? "cutting.keep.two" : "cutting.keep", kept));
}

/* A stock without a layout: why, and what to take all the same. */
static void add_without_layout(const struct layout_section *s, struct block_list *list)
{
    if (s->stock->length_needed > 0)
        block_paragraph(s->b, list, STYLE_BODY,
                        SAYING("cutting.no_length", SAY_STR("stock", s->stock->stock->name),
                               SAY_ARG("length", SAY_SIZE, s->stock->length_needed)));
}

static void add_stock(const struct sheet_builder *b, struct block_list *list, const struct cutting_stock *stock)
{
    struct layout_section s = {b, stock};
    if (!stock->laid_out) {
        add_without_layout(&s, list);
        return;
    }
    block_heading(b, list, 3,
                  SAYING("cutting.stock", SAY_STR("stock", stock->stock->name), SAY_STR("take", print_take(&s))));
    block_text(b, list, STYLE_BODY, print_summary(&s));
    block_keep_with_next(list);
    add_drawings(&s, list);
    cutting_add_table(b, stock, list);
}

/* What falls short, in full: each part that fits nowhere, each stock that is too little. */
static void add_findings(const struct sheet_builder *b, struct block_list *list)
{
    for (size_t i = 0; i < b->cutting->n_findings; i++)
        block_boxed(b, list, STYLE_BODY,
                    print_saying(b, SAYING("cutting.finding",
                                           SAY_STR("why", print_saying(b, b->cutting->findings[i].why)),
                                           SAY_STR("remedy", print_saying(b, b->cutting->findings[i].remedy)))));
}

/* A strip that the job does not name. */
static const char *print_unnamed_strip(const struct sheet_builder *b)
{
    const struct cut_strip *s = &b->cutting->unnamed;
    if (s->length == 0)
        return "";
    return print_saying(b, SAYING("cutting.buy.strip", SAY_ARG("width", SAY_SIZE, s->width),
                                  SAY_ARG("thick", SAY_SIZE, s->thickness), SAY_ARG("length", SAY_SIZE, s->length)));
}

/* How many are to be bought; of a strip without a stated length how much of it; "": none. */
static const char *print_to_buy(const struct sheet_builder *b, const struct cutting_stock *s)
{
    if (s->to_buy > 0)
        return print_saying(b, SAYING("cutting.buy", SAY_ARG("n", SAY_COUNT, s->to_buy), SAY_STR("stock", s->stock->name)));
    if (!s->laid_out && s->length_needed > 0 && !s->stock->have.given)
        return print_saying(b, SAYING("cutting.buy.length", SAY_ARG("length", SAY_SIZE, s->length_needed),
                                      SAY_STR("stock", s->stock->name)));
    return "";
}

static void add_shopping(const struct sheet_builder *b, struct block_list *list)
{
    const struct cutting *c = b->cutting;
    const char *what = "";
    bool all_laid_out = true;
    for (size_t i = 0; i < c->n_stocks; i++) {
        what = join(b, what, ", ", print_to_buy(b, &c->stocks[i]));
        all_laid_out &= c->stocks[i].laid_out;
    }
    what = join(b, what, ", ", print_unnamed_strip(b));
    if (*what)
        block_paragraph(b, list, STYLE_BODY, SAYING("cutting.to_buy", SAY_STR("what", what)));
    else if (all_laid_out)
        block_paragraph(b, list, STYLE_BODY, SAYING_PLAIN("cutting.nothing_to_buy"));
}

/* What the words of the table mean: only those that stand in it. */
static void add_notes(const struct sheet_builder *b, struct block_list *list)
{
    const struct cutting *c = b->cutting;
    struct say_arg kerf = SAY_ARG("kerf", SAY_FIT, c->kerf);
    const struct {
        bool holds;
        struct saying saying;
    } notes[] = {
        {true, SAYING_PLAIN("cutting.how")},
        {b->plan->n_steps == 0, SAYING_PLAIN("cutting.how.guard")},
        {true, SAYING_PLAIN("cutting.how.chalk")},
        {some_cut(c, is_marked), SAYING_PLAIN("cutting.how.kerf")},
        {c->kerf_assumed, SAYING("cutting.kerf.assumed", kerf)},
        {some_cut(c, cutting_is_by_eye), SAYING_PLAIN("cutting.how.trim")},
        {some_cut(c, has_fresh_edge), SAYING_PLAIN("cutting.how.fresh_edge")},
        {some_cut(c, is_by_hand_saw), SAYING("cutting.how.by_hand", kerf)},
        {some_is_untrimmed(c), SAYING_PLAIN("cutting.how.untrimmed")},
        {some_cut(c, is_at_gauge), SAYING("cutting.how.gauge", SAY_ARG("least", SAY_SIZE, c->shortest_at_fence))},
        {some_cut(c, is_held_up), SAYING_PLAIN("cutting.how.held_up")},
        {some_cut(c, is_too_short), SAYING("cutting.how.handsaw", SAY_ARG("least", SAY_SIZE, c->shortest_in_hand), kerf)},
        {some_needs_block(c), SAYING("cutting.how.short", SAY_ARG("least", SAY_SIZE, c->shortest_in_hand))},
        {some_rip_is_narrow(b), SAYING("cutting.how.narrow", SAY_ARG("below", SAY_SIZE, push_stick_below[b->units]))},
        {some_is_thin(b), SAYING("cutting.how.thin", SAY_ARG("below", SAY_SIZE, cutting_thin_below(b)))},
    };
    const char *texts[COUNT_OF(notes)];
    size_t n = 0;
    for (int i = 0; i < COUNT_OF(notes); i++)
        if (notes[i].holds)
            texts[n++] = print_saying(b, notes[i].saying);
    block_items(b, list, STYLE_BODY, texts, n, 2);
}

static bool has_layout(const struct cutting *c)
{
    for (size_t i = 0; i < c->n_stocks; i++)
        if (c->stocks[i].laid_out)
            return true;
    return false;
}

void sheet_add_cutting(const struct sheet_builder *b, struct block_list *list)
{
    if (!b->cutting || (b->cutting->n_stocks == 0 && b->cutting->unnamed.length == 0))
        return;
    block_heading(b, list, 2, SAYING_PLAIN("cutting.heading"));
    add_findings(b, list);
    add_shopping(b, list);
    if (has_layout(b->cutting))
        add_notes(b, list);
    for (size_t i = 0; i < b->cutting->n_stocks; i++)
        add_stock(b, list, &b->cutting->stocks[i]);
}
