/* The table of a cutting layout: cut after cut, which piece to take, what to set or mark, what the cut gives and leaves. */
#include "sheet/cutting_table.h"

#include "draw.h"

#include <math.h>
#include <string.h>

static const double same = 1e-3; /* areas this near each other are one [mm] */
enum { MOST_WHOLE = 12 };        /* so many rows are not split over pages */
/* Common practice, no source. */
static const double sliver_below[] = {[UNITS_MM] = 10, [UNITS_IN] = MM_PER_INCH * 3 / 8};
static const double steps[] = {[UNITS_MM] = 0.5, [UNITS_IN] = MM_PER_INCH / 64}; /* to which sizes are printed [mm] */

enum { SHEET_COLUMN = 3 }; /* left out where there is one sheet */
static const struct column_row cut_columns[] = {
    {"cutting.cut", ALIGN_RIGHT, 0},         {"cutting.set", ALIGN_RIGHT, 0},  {"cutting.way", ALIGN_LEFT, 1},
    {"cutting.column.sheet", ALIGN_LEFT, 0}, {"cutting.take", ALIGN_LEFT, 0}, {"cutting.gives", ALIGN_LEFT, 0},
    {"cutting.leaves", ALIGN_LEFT, 0},
};

/* What is set for a cut, and how it is made beside being a rip or a crosscut. */
static const struct {
    const char *set_key, *by_key; /* NULL: nothing more to say */
} ways[] = {
    [CUT_AT_FENCE] = {"cutting.set.fence", NULL},
    [CUT_AT_STOP] = {"cutting.set.stop", "cutting.by.gauge"},
    [CUT_ON_SLED] = {"cutting.set.stop", "cutting.by.gauge"},
    [CUT_TOO_LARGE] = {"cutting.set.mark", "cutting.by.too_large"},
    [CUT_PAST_FENCE] = {"cutting.set.mark", "cutting.by.past_fence"},
    [CUT_PAST_GAUGE] = {"cutting.set.mark", "cutting.by.past_gauge"},
    [CUT_TOO_SHORT] = {"cutting.set.mark", "cutting.by.too_short"},
};

bool cutting_is_on_edge(const struct cut_piece *p)
{
    return p->part->width > p->part->thickness && p->at.h < p->part->width - same;
}

bool cutting_needs_block(const struct cutting *c, const struct cut_line *cut)
{
    return (cut->way == CUT_AT_STOP || cut->way == CUT_ON_SLED) && !cutting_is_by_eye(cut) && cut->fence < c->shortest_in_hand - same;
}

bool cutting_is_thin(const struct sheet_builder *b, const struct cut_line *cut)
{
    return cut->way == CUT_AT_FENCE && cut->fence < cutting_thin_below(b) - same;
}

/* Common practice, no source: no push stick passes between fence and blade. */
double cutting_thin_below(const struct sheet_builder *b)
{
    return b->units == UNITS_IN ? MM_PER_INCH : 25;
}

struct layout_section {
    const struct sheet_builder *b;
    const struct cutting_stock *stock;
    bool length_only; /* strips that keep their width: only lengths are told */
};

static bool is_same_area(const struct cut_area *a, const struct cut_area *c)
{
    return fabs(a->x - c->x) < same && fabs(a->y - c->y) < same && fabs(a->w - c->w) < same && fabs(a->h - c->h) < same;
}

/* Index of the cut that the panel comes from; -1: it is a whole sheet. */
static int cut_before(const struct cutting_stock *s, size_t cut)
{
    for (size_t i = 0; i < cut; i++) {
        struct cut_area gives = cutting_gives(&s->cuts[i]), leaves = cutting_leaves(&s->cuts[i]);
        if (s->cuts[i].sheet == s->cuts[cut].sheet &&
            (is_same_area(&gives, &s->cuts[cut].panel) || is_same_area(&leaves, &s->cuts[cut].panel)))
            return (int)i;
    }
    return -1;
}

/* `which`: numbers or the letter of what it is, or of what it comes from; n: how many of it. */
static const char *print_areas(const struct layout_section *s, const char *key, const char *strip_key, const char *which,
                               size_t n, const struct cut_area *a)
{
    return print_saying(s->b, SAYING(s->length_only ? strip_key : key, SAY_STR("which", which),
                                     SAY_ARG("n", SAY_COUNT, (double)n),
                                     SAY_ARG("along", SAY_SIZE, a->w), SAY_ARG("across", SAY_SIZE, a->h)));
}

static const char *print_area(const struct layout_section *s, const char *key, const char *strip_key, const char *which,
                              const struct cut_area *a)
{
    return print_areas(s, key, strip_key, which, 1, a);
}

/* Waste so thin beside the teeth is told, for it can jam there. */
static const char *print_waste(const struct layout_section *s, const struct cut_line *c, const struct cut_area *a)
{
    if (!s->length_only && (c->along_y ? a->w : a->h) < sliver_below[s->b->units])
        return print_area(s, "cutting.piece.sliver", NULL, "", a);
    return print_word(s->b, "cutting.piece.waste");
}

/* What a part of a panel is: a part of the job, an offcut to keep, waste, or something to be sawn further. */
static const char *print_outcome(const struct layout_section *s, const struct cut_line *c, const struct cut_area *a)
{
    const struct cut_sheet *sheet = &s->stock->sheets[c->sheet];
    if (a->w <= same || a->h <= same)
        return print_word(s->b, "cutting.piece.none");
    for (size_t i = 0; i < sheet->n_pieces; i++)
        if (is_same_area(&sheet->pieces[i].at, a))
            return print_area(s, sheet->pieces[i].turned ? "cutting.piece.turned" : "cutting.piece.part", "cutting.piece.part.strip",
                              sheet->pieces[i].part->letter, a);
    for (size_t i = 0; i < sheet->n_rests; i++)
        if (is_same_area(&sheet->rests[i].at, a))
            return sheet->rests[i].number ? print_area(s, "cutting.piece.keep", "cutting.piece.keep.strip",
                                                       draw_list_kept(s->stock, (size_t)c->sheet, a, s->b->pool), a)
                                          : print_waste(s, c, a);
    return print_area(s, "cutting.piece.further", "cutting.piece.further.strip", "", a);
}

/* Both pieces are sawn further and are printed with the same size. */
static bool makes_two_alike(const struct layout_section *s, const struct cut_line *c)
{
    struct cut_area gives = cutting_gives(c), leaves = cutting_leaves(c);
    return strcmp(print_outcome(s, c, &gives), print_outcome(s, c, &leaves)) == 0;
}

static const char *print_panel(const struct layout_section *s, size_t cut)
{
    const struct cut_line *c = &s->stock->cuts[cut];
    const char *which = draw_list_alike(s->stock, (size_t)c->sheet, s->b->pool);
    size_t n = s->stock->sheets[c->sheet].n_alike;
    bool each = n > 1;
    int before = cut_before(s->stock, cut);
    if (before < 0 && s->stock->stock->is_strip)
        return print_area(s, each ? "cutting.panel.strip_sheets" : "cutting.panel.strip_sheet",
                          each ? "cutting.panel.strips" : "cutting.panel.strip", which, &c->panel);
    if (before < 0)
        return print_area(s, each ? "cutting.panel.sheets" : "cutting.panel.sheet", NULL, which, &c->panel);
    if (!each && makes_two_alike(s, &s->stock->cuts[before]))
        return print_area(s, "cutting.panel.either", "cutting.panel.either_strip",
                          pool_printf(s->b->pool, "%d", s->stock->cuts[before].number), &c->panel);
    return print_areas(s, each ? "cutting.panel.from_each" : "cutting.panel.from",
                       each ? "cutting.panel.from_each_strip" : "cutting.panel.from_strip",
                       pool_printf(s->b->pool, "%d", s->stock->cuts[before].number), n, &c->panel);
}

static const char *add_words(const struct sheet_builder *b, const char *words, const char *key)
{
    return key ? print_saying(b, SAYING("cutting.way.more", SAY_STR("way", words), SAY_KEY("more", key))) : words;
}

/* What is set lies so near the blade that a rule asks for a block. */
static const char *block_key(const struct sheet_builder *b, const struct cut_line *c)
{
    return cutting_needs_block(b->cutting, c) ? "cutting.way.block" : cutting_is_thin(b, c) ? "cutting.way.thin" : NULL;
}

static enum cut_way kind_of(enum cut_way way)
{
    return way == CUT_ON_SLED ? CUT_AT_STOP : way;
}

/* Number of the last cut before this setting that was made at the same one, so that its piece sets fence or stop again; 0: none. */
static int set_before(const struct cutting_stock *s, size_t cut)
{
    const struct cut_line *c = &s->cuts[cut];
    int number = 0;
    for (size_t i = 0; i < cut && !cutting_is_by_hand(c) && !cutting_is_by_eye(c); i++)
        if (kind_of(s->cuts[i].way) == kind_of(c->way) && !cutting_is_by_eye(&s->cuts[i]) && fabs(s->cuts[i].fence - c->fence) < same)
            number = s->cuts[i].number;
    return number;
}

/* "rip", "crosscut, gauge, held up", "trim about 5 off both ends, gauge". */
static const char *print_way(const struct layout_section *s, size_t cut, bool is_new)
{
    const struct cut_line *c = &s->stock->cuts[cut];
    const struct sheet_builder *b = s->b;
    const char *key = c->along_y ? "cutting.way.crosscut" : "cutting.way.rip";
    if (cutting_is_by_eye(c))
        key = c->along_y ? "cutting.way.trim_ends" : "cutting.way.trim_edges";
    const char *words = print_saying(b, SAYING(key, SAY_ARG("trim", SAY_SIZE, b->cutting->trim)));
    words = add_words(b, words, ways[c->way].by_key);
    words = add_words(b, words, block_key(b, c));
    words = add_words(b, words, c->keeps_higher && !cutting_is_by_eye(c) ? "cutting.way.fresh_edge" : NULL);
    words = add_words(b, words, c->overhangs && !cutting_is_by_hand(c) ? "cutting.way.held_up" : NULL);
    int before = is_new ? set_before(s->stock, cut) : 0;
    return before ? print_saying(b, SAYING("cutting.way.set_before", SAY_STR("way", words), SAY_ARG("cut", SAY_COUNT, before))) : words;
}

/* In every row: a table may go on over the page. */
static const char *print_set(const struct layout_section *s, const struct cut_line *c, bool is_new)
{
    if (cutting_is_by_eye(c))
        return print_word(s->b, "cutting.set.none");
    const char *set = print_saying(s->b, SAYING(ways[c->way].set_key, SAY_ARG("size", SAY_SIZE, c->fence)));
    return is_new ? print_bold(s->b, set) : set;
}

static bool has_several(const struct layout_section *s)
{
    return s->stock->n_sheets > 1;
}

/* What is left of the panel between blade and fence; where both edges are trimmed by eye, after the second. */
static struct cut_area gives_of_row(const struct cutting_stock *s, size_t cut)
{
    const struct cut_line *c = &s->cuts[cut];
    bool trims_both = cutting_is_by_eye(c) && cut + 1 < s->n_cuts && s->cuts[cut + 1].number == c->number && s->cuts[cut + 1].sheet == c->sheet;
    return cutting_gives(trims_both ? c + 1 : c);
}

/* A rough edge comes off by eye: what is left is sawn further, and its size is not exact. */
static const char *print_about(const struct layout_section *s, const struct cut_line *c, const struct cut_area *a)
{
    const struct cut_sheet *sheet = &s->stock->sheets[c->sheet];
    bool further = true;
    for (size_t i = 0; i < sheet->n_pieces; i++)
        further &= !is_same_area(&sheet->pieces[i].at, a);
    return further ? print_area(s, "cutting.piece.about", "cutting.piece.about.strip", "", a) : print_outcome(s, c, a);
}

static void add_cut_row(const struct layout_section *s, struct block *table, size_t cut, bool new_setting)
{
    const struct sheet_builder *b = s->b;
    const struct cut_line *c = &s->stock->cuts[cut];
    struct cut_area gives = gives_of_row(s->stock, cut), leaves = cutting_leaves(c);
    const char *const cells[COUNT_OF(cut_columns)] = {
        print_number(b, SAY_COUNT, c->number),
        print_set(s, c, new_setting),
        print_way(s, cut, new_setting),
        draw_list_alike(s->stock, (size_t)c->sheet, b->pool),
        print_panel(s, cut),
        cutting_is_by_eye(c) ? print_about(s, c, &gives) : print_outcome(s, c, &gives),
        cutting_is_by_eye(c) ? print_word(b, "cutting.piece.waste") : print_outcome(s, c, &leaves),
    };
    const char *shown[COUNT_OF(cut_columns)];
    int n = 0;
    for (int i = 0; i < COUNT_OF(cut_columns); i++)
        if (i != SHEET_COLUMN || has_several(s))
            shown[n++] = cells[i];
    table_add_row(b, table, shown)->ruled_above = new_setting && table->as.table.n_rows > 1;
}

static struct block begin_table(const struct layout_section *s)
{
    struct column_row columns[COUNT_OF(cut_columns)];
    bool strip = s->stock->stock->is_strip;
    int n = 0;
    for (int i = 0; i < COUNT_OF(cut_columns); i++)
        if (i != SHEET_COLUMN || has_several(s))
            columns[n++] = cut_columns[i];
    if (has_several(s) && strip)
        columns[SHEET_COLUMN].head_key = "cutting.column.strip";
    struct block table = table_begin(s->b, has_several(s) ? strip ? "cutting.table.strips" : "cutting.table.sheets" : "cutting.table", columns, n);
    table.as.table.note =
        print_saying(s->b, SAYING(s->length_only ? "cutting.note.lengths" : "cutting.note", SAY_STR("stock", s->stock->stock->name),
                                  SAY_KEY("unit", key_of_unit(s->b->units)), SAY_ARG("step", SAY_SIZE, steps[s->b->units]),
                                  SAY_ARG("kerf", SAY_FIT, s->b->cutting->kerf)));
    return table;
}

/* Cuts that share a number share a row. */
void cutting_add_table(const struct sheet_builder *b, const struct cutting_stock *stock, struct block_list *list)
{
    struct layout_section s = {b, stock, stock->stock->is_strip && !stock->ripped};
    const struct cut_line *cuts = stock->cuts, *last = NULL;
    struct block table = begin_table(&s);
    for (size_t i = 0; i < stock->n_cuts; i++) {
        if (last && cuts[i].number <= last->number)
            continue;
        add_cut_row(&s, &table, i, !last || cuts[i].setting != last->setting);
        last = &cuts[i];
    }
    if (table.as.table.n_rows == 0)
        return;
    table.as.table.whole = table.as.table.n_rows <= MOST_WHOLE;
    table.joins_last = true;
    block_append(b, list, table);
}
