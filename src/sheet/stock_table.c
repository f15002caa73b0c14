/* The stock table of the build sheet. Each row adds up: on the rack and to buy are as many as cut into and left whole. */
#include "sheet/stock_table.h"

#include "sheet/cutting_table.h"

#include "draw.h"

static const struct column_row stock_columns[] = {
    {"build.stock", ALIGN_LEFT, 0},  {"build.material", ALIGN_LEFT, 2}, {"build.for_parts", ALIGN_LEFT, 0.8},
    {"build.rack", ALIGN_RIGHT, 0},  {"build.buy", ALIGN_RIGHT, 0},     {"build.cut_into", ALIGN_RIGHT, 0},
    {"build.left_whole", ALIGN_RIGHT, 0}, {"build.kept", ALIGN_RIGHT, 0},
};

const char *stock_name(const struct sheet_builder *b, const struct job_stock *stock)
{
    return stock ? pool_string(b->pool, stock->name) : print_word(b, "build.to_buy");
}

/* ---- for which parts ---- */

static const char *add_letter(const struct sheet_builder *b, const char *letters, const struct plan_part *p)
{
    return pool_printf(b->pool, "%s%s%s", letters, *letters ? ", " : "", p->letter);
}

static bool is_cut_from(const struct sheet_builder *b, const struct plan_part *p, const struct job_stock *stock)
{
    for (size_t i = 0; b->cutting && i < b->cutting->n_stocks; i++)
        for (size_t k = 0; k < b->cutting->stocks[i].n_sheets; k++) {
            const struct cut_sheet *sheet = &b->cutting->stocks[i].sheets[k];
            for (size_t j = 0; j < sheet->n_pieces && sheet->stock == stock; j++)
                if (sheet->pieces[j].part == p)
                    return true;
        }
    return false;
}

static bool is_cut_anywhere(const struct sheet_builder *b, const struct plan_part *p)
{
    for (size_t i = 0; i < b->job->n_stock; i++)
        if (is_cut_from(b, p, &b->job->stock[i]))
            return true;
    return false;
}

/* "A, B": the parts that are cut from a stock, and those that name it and are cut from none. */
static const char *list_parts_of(const struct sheet_builder *b, const struct job_stock *stock)
{
    const char *letters = "";
    for (size_t i = 0; i < b->plan->n_parts; i++) {
        const struct plan_part *p = &b->plan->parts[i];
        if ((stock && is_cut_from(b, p, stock)) || (p->stock == stock && !is_cut_anywhere(b, p)))
            letters = add_letter(b, letters, p);
    }
    return letters;
}

/* ---- what it is ---- */

/* Whether a runner is ripped from the strip so that it turns by a quarter. */
static bool turns_on_edge(const struct sheet_builder *b, const struct plan_part *p)
{
    for (size_t i = 0; b->cutting && i < b->cutting->n_stocks; i++)
        for (size_t k = 0; b->cutting->stocks[i].ripped && k < b->cutting->stocks[i].n_sheets; k++) {
            const struct cut_sheet *sheet = &b->cutting->stocks[i].sheets[k];
            for (size_t j = 0; j < sheet->n_pieces; j++)
                if (sheet->pieces[j].part == p && cutting_is_on_edge(&sheet->pieces[j]))
                    return true;
        }
    return false;
}

/* How the growth rings must stand in runners of this strip, for their width was worked out so; the strip itself where it
   needs no word. */
static const char *add_rings(const struct sheet_builder *b, const struct job_stock *s, const char *strip)
{
    static const char *const keys[] = {[RINGS_QUARTER] = "build.rings.quarter", [RINGS_FLAT] = "build.rings.flat"};
    if (s->rings == RINGS_MIXED)
        return strip;
    for (size_t i = 0; i < b->plan->n_parts; i++)
        if (b->plan->parts[i].kind == PART_GUIDE_RUNNER && b->plan->parts[i].stock == s) {
            const char *key = turns_on_edge(b, &b->plan->parts[i]) ? "build.rings.on_edge" : "build.rings";
            const char *other = keys[s->rings == RINGS_FLAT ? RINGS_QUARTER : RINGS_FLAT];
            return print_saying(b, SAYING(key, SAY_STR("strip", strip), SAY_KEY("rings", keys[s->rings]), SAY_KEY("other", other)));
        }
    return strip;
}

static const char *name_material(const struct sheet_builder *b, const struct job_stock *s)
{
    return print_word(b, pool_printf(b->pool, "material.%s", s->material.name));
}

static const char *say_stock_size(const struct sheet_builder *b, const struct job_stock *s)
{
    if (!s)
        return print_word(b, "build.any_strip");
    if (!s->is_strip)
        return print_saying(
            b, SAYING("build.sheet", SAY_STR("material", name_material(b, s)), SAY_ARG("t", SAY_THICKNESS, s->thickness.v),
                      SAY_ARG("along", SAY_SIZE, s->sheet_along.v), SAY_ARG("across", SAY_SIZE, s->sheet_across.v)));
    const char *strip =
        print_saying(b, SAYING(s->length.given ? "build.strip" : "build.strip_any_length",
                               SAY_STR("material", name_material(b, s)), SAY_ARG("t", SAY_SIZE, s->thickness.v),
                               SAY_ARG("w", SAY_SIZE, s->strip_width.v), SAY_ARG("length", SAY_SIZE, s->length.v)));
    return add_rings(b, s, strip);
}

/* ---- how much of it ---- */

static const struct cutting_stock *cutting_of(const struct sheet_builder *b, const struct job_stock *s)
{
    for (size_t i = 0; b->cutting && i < b->cutting->n_stocks; i++)
        if (b->cutting->stocks[i].stock == s)
            return &b->cutting->stocks[i];
    return NULL;
}

/* Of a strip without a layout its length in all; 0: it is told in whole ones. */
static double length_told(const struct sheet_builder *b, const struct job_stock *s)
{
    const struct cutting_stock *k = cutting_of(b, s);
    if (!s)
        return b->cutting ? b->cutting->unnamed.length : 0;
    return k && !k->laid_out ? k->length_needed : 0;
}

static bool is_kept_of(const struct cutting_stock *k, const struct job_stock *s, int number)
{
    for (size_t i = 0; i < k->n_sheets; i++)
        for (size_t r = 0; r < k->sheets[i].n_rests; r++)
            if (k->sheets[i].stock == s && k->sheets[i].rests[r].number == number)
                return true;
    return false;
}

/* Numbers in the layout that the stock, or its heap of offcuts, is cut in. */
static const char *list_kept(const struct sheet_builder *b, const struct cutting_stock *k, const struct job_stock *s)
{
    int most = cutting_kept(k), *numbers = pool_alloc(b->pool, ((size_t)most + 1) * sizeof *numbers);
    size_t n = 0;
    for (int i = 1; i <= most; i++)
        if (is_kept_of(k, s, i))
            numbers[n++] = i;
    return draw_list_numbers(numbers, n, b->pool);
}

static const char *print_kept(const struct sheet_builder *b, const struct job_stock *s)
{
    for (size_t i = 0; b->cutting && i < b->cutting->n_stocks; i++) {
        const char *list = list_kept(b, &b->cutting->stocks[i], s);
        if (*list)
            return list;
    }
    return print_word(b, "build.none");
}

static bool names_it(const struct sheet_builder *b, const struct job_stock *s)
{
    for (size_t i = 0; i < b->plan->n_parts; i++)
        if (b->plan->parts[i].stock == s)
            return true;
    return false;
}

static void add_stock_row(const struct sheet_builder *b, struct block *table, const struct job_stock *s)
{
    const char *letters = list_parts_of(b, s), *none = print_word(b, "build.not_told");
    double length = length_told(b, s);
    const char *in_all = length > 0 ? print_quantity(b, SAY_SIZE, length) : NULL;
    struct cutting_count n = s && b->cutting ? cutting_count(b->cutting, s) : (struct cutting_count){0};
    const char *count = print_number(b, SAY_COUNT, n.to_buy);
    bool on_rack = s && s->have.given;
    if (!*letters && !(s && names_it(b, s)))
        return;
    const char *const cells[] = {
        stock_name(b, s),
        say_stock_size(b, s),
        *letters ? letters : none,
        on_rack ? print_number(b, SAY_COUNT, s->have.v) : none,
        in_all ? on_rack ? none : print_bold(b, in_all) : n.to_buy > 0 ? print_bold(b, count) : count,
        in_all ? in_all : print_number(b, SAY_COUNT, n.taken),
        in_all ? none : print_number(b, SAY_COUNT, n.left),
        print_kept(b, s),
    };
    table_add_row(b, table, cells);
}

void stock_add_table(const struct sheet_builder *b, struct block_list *list)
{
    struct block table = table_begin(b, "build.stock_list", stock_columns, COUNT_OF(stock_columns));
    for (size_t i = 0; i < b->job->n_stock; i++)
        add_stock_row(b, &table, &b->job->stock[i]);
    add_stock_row(b, &table, NULL);
    if (table.as.table.n_rows == 0)
        return;
    block_append(b, list, table);
    block_note(b, list, b->units == UNITS_IN ? "build.stock_list.note.actual" : "build.stock_list.note");
}
