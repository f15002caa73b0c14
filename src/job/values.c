/* One function a kind of value, all with the same shape: the node may be NULL, and then the value becomes "not given".
   An error leaves the value given but without a number, so that nothing is reported twice. */
#include "job/values.h"

#include "base/utf8.h"
#include "job/guess.h"
#include "job/tables.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

_Static_assert(sizeof(enum side) == sizeof(int) && sizeof(enum jig_kind) == sizeof(int) &&
                   sizeof(enum knife_kind) == sizeof(int),
               "words are stored as int");

/* ---- Numbers ---- */

static const char *show_number(struct reader *r, enum quantity q, struct mark m, double v)
{
    static const char *const units[] = {
        [QUANTITY_LENGTH] = "",    [QUANTITY_ANGLE] = " degrees", [QUANTITY_TEMPERATURE] = " °C",
        [QUANTITY_PERCENT] = " %", [QUANTITY_MASS] = " kg",       [QUANTITY_NUMBER] = "",
    };
    if (q == QUANTITY_LENGTH)
        return reader_length(r, m, v);
    return pool_printf(&r->diags->pool, "%.6g%s", q == QUANTITY_ANGLE ? unit_degrees(v) : v, units[q]);
}

static void report_number(struct reader *r, const struct field *f, const struct node *n, enum quantity_fault fault)
{
    static const char *const units[] = {
        [QUANTITY_LENGTH] = "mm, cm, m, in, \" or ft",
        [QUANTITY_ANGLE] = "deg or °",
        [QUANTITY_TEMPERATURE] = "C or F",
        [QUANTITY_PERCENT] = "%",
        [QUANTITY_MASS] = "kg, g or lb",
        [QUANTITY_NUMBER] = "no unit",
    };
    static const char *const faults[] = {
        [QUANTITY_NOT_A_NUMBER] = "write it as 18, 18.5 or 3/4 in, with a unit or without",
        [QUANTITY_COMMA] = "the decimal sign is a decimal point, not a comma",
        [QUANTITY_EXPONENT] = "write the number out, without an exponent",
        [QUANTITY_METRIC_FRACTION] = "fractions are for inches: write a decimal number, or add \"in\"",
        [QUANTITY_ZERO_DENOMINATOR] = "a fraction cannot have 0 below the line",
    };
    const char *shown = reader_show(r, n);
    assert(fault != QUANTITY_OK);
    if (fault == QUANTITY_WRONG_UNIT)
        diag_at(r->diags, DIAG_WRONG_UNIT, n->mark, reader_path(r), "found %s; accepted: %s", shown,
                units[f->quantity]);
    else
        diag_at(r->diags, DIAG_BAD_NUMBER, n->mark, reader_path(r), "found %s; %s", shown, faults[fault]);
}

static bool has_range(double low, double high)
{
    return low != 0 || high != 0;
}

static bool check_range(struct reader *r, const struct field *f, struct mark m, double v)
{
    double slack = 1e-9; /* an inch size that stands for a limit in mm */
    if (has_range(f->low, f->high) && !(v >= f->low - slack && v <= f->high + slack)) {
        enum diag_code code = f->out_of_range ? f->out_of_range : DIAG_OUT_OF_RANGE;
        return diag_at(r->diags, code, m, reader_path(r), "found %s; accepted: %s to %s%s%s",
                       show_number(r, f->quantity, m, v), show_number(r, f->quantity, m, f->low),
                       show_number(r, f->quantity, m, f->high), f->hint ? "; " : "", f->hint ? f->hint : "");
    }
    if (f->whole && v != floor(v))
        return diag_at(r->diags, DIAG_BAD_NUMBER, m, reader_path(r), "found %.6g; a whole number belongs here", v);
    if (has_range(f->usual_low, f->usual_high) && (v < f->usual_low || v > f->usual_high))
        diag_at(r->diags, DIAG_UNUSUAL, m, reader_path(r), "%s; usual: %s to %s", show_number(r, f->quantity, m, v),
                show_number(r, f->quantity, m, f->usual_low), show_number(r, f->quantity, m, f->usual_high));
    return true;
}

/* NAN after an error. */
static double parse_number(struct reader *r, const struct field *f, const struct node *n)
{
    double v = NAN;
    if (!reader_is_kind(r, n, NODE_SCALAR, "a number"))
        return NAN;
    enum quantity_fault fault = unit_parse(n->text, f->quantity, reader_units(r, n->mark), &v);
    if (fault != QUANTITY_OK)
        report_number(r, f, n, fault);
    return fault == QUANTITY_OK && check_range(r, f, n->mark, v) ? v : NAN;
}

static struct num make_num(struct reader *r, const struct field *f, const struct node *n, struct mark home)
{
    if (!n)
        return (struct num){f->fallback != 0 ? f->fallback : NAN, r->excuse_absent, home};
    return (struct num){parse_number(r, f, n), true, n->mark};
}

static void read_quantity(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    *(struct num *)(base + f->at) = make_num(r, f, n, home);
}

static void read_double(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    *(double *)(base + f->at) = make_num(r, f, n, home).v;
}

static bool check_count(struct reader *r, const struct node *list, size_t least, size_t most)
{
    if (list->n > most)
        return diag_at(r->diags, DIAG_TOO_MANY, list->mark, reader_path(r), "%zu; at most %zu", list->n, most);
    if (list->n < least)
        return diag_at(r->diags, DIAG_WRONG_TYPE, list->mark, reader_path(r), "%zu in the list; at least %zu", list->n,
                       least);
    return true;
}

static void read_pair(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    const struct node *a = NULL, *b = NULL;
    bool excused = r->excuse_absent;
    if (n && reader_is_kind(r, n, NODE_LIST, "a list of two numbers")) {
        if (n->n != 2)
            diag_at(r->diags, DIAG_WRONG_TYPE, n->mark, reader_path(r), "found %zu numbers; two belong here%s", n->n,
                    n->n > 2 ? ": a decimal comma?" : "");
        a = n->n == 2 ? n->first : NULL;
        b = a ? a->next : NULL;
    }
    r->excuse_absent = excused || n;
    *(struct num *)(base + f->at) = make_num(r, f, a, home);
    *(struct num *)(base + f->more_at) = make_num(r, f, b, home);
    r->excuse_absent = excused;
}

/* False after an error. */
static bool parse_pair(struct reader *r, const struct field *f, const struct node *n, struct job_pair *out)
{
    if (!reader_is_kind(r, n, NODE_LIST, "a list of two numbers"))
        return false;
    if (n->n != 2)
        return diag_at(r->diags, DIAG_WRONG_TYPE, n->mark, reader_path(r), "found %zu numbers; two belong here%s", n->n,
                       n->n > 2 ? ": a decimal comma?" : "");
    *out = (struct job_pair){parse_number(r, f, n->first), parse_number(r, f, n->first->next), n->mark};
    return !isnan(out->first) && !isnan(out->second);
}

static void read_pairs(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_LIST, "a list of pairs, [[1, 2], [3, 4]]") ||
        !check_count(r, n, 1, f->most ? f->most : LIST_MOST))
        return;
    struct job_pair *pairs = pool_alloc(&r->job->pool, n->n * sizeof *pairs);
    size_t i = 0;
    bool ok = true;
    for (const struct node *one = n->first; one; one = one->next, i++) {
        size_t before = reader_push_index(r, i);
        ok = parse_pair(r, f, one, &pairs[i]) && ok;
        reader_pop(r, before);
    }
    *(const struct job_pair **)(base + f->at) = ok ? pairs : NULL;
    *(size_t *)(base + f->more_at) = ok ? i : 0;
}

static int compare_doubles(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* A single quantity counts as a list of one. Gives the number of values, 0 after an error. */
static size_t parse_numbers(struct reader *r, const struct field *f, const struct node *n, double **out)
{
    if (n->kind != NODE_LIST) {
        *out = pool_alloc(&r->job->pool, sizeof **out);
        **out = parse_number(r, f, n);
        if (isnan(**out))
            return 0;
        return 1;
    }
    if (!check_count(r, n, 1, f->most ? f->most : LIST_MOST))
        return 0;
    size_t i = 0;
    bool ok = true;
    *out = pool_alloc(&r->job->pool, n->n * sizeof **out);
    for (const struct node *one = n->first; one; one = one->next, i++) {
        size_t before = reader_push_index(r, i);
        (*out)[i] = parse_number(r, f, one);
        ok = ok && !isnan((*out)[i]);
        reader_pop(r, before);
    }
    return ok ? i : 0;
}

static void read_numbers(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    double *v = NULL;
    size_t count = n ? parse_numbers(r, f, n, &v) : 0;
    if (f->sorted && count)
        qsort(v, count, sizeof *v, compare_doubles);
    *(const double **)(base + f->at) = count ? v : NULL;
    *(size_t *)(base + f->more_at) = count;
}

static void read_span(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    double *v = NULL;
    size_t count = n ? parse_numbers(r, f, n, &v) : 0;
    struct num least = {NAN, n || r->excuse_absent, n ? n->mark : home}, most = least;
    for (size_t i = 0; i < count; i++) {
        least.v = i && least.v < v[i] ? least.v : v[i];
        most.v = i && most.v > v[i] ? most.v : v[i];
    }
    *(struct num *)(base + f->at) = least;
    *(struct num *)(base + f->more_at) = most;
}

static void read_layers(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    static const struct field count = {NUMBER(1, 20), .whole = true};
    struct job_layers *out = (struct job_layers *)(base + f->at);
    *out = (struct job_layers){.given = n || r->excuse_absent, .mark = n ? n->mark : home};
    double *heights = NULL;
    if (n && n->kind == NODE_LIST) {
        out->count = (int)parse_numbers(r, f, n, &heights);
        out->heights = heights;
    } else if (n) {
        double v = parse_number(r, &count, n);
        out->count = isnan(v) ? 0 : (int)v;
    }
}

/* ---- Texts, words, dates, names ---- */

/* NULL after an error or where there is none. */
static const char *parse_text(struct reader *r, const struct field *f, const struct node *n, const char *wanted)
{
    if (!n || !reader_is_kind(r, n, NODE_SCALAR, wanted))
        return NULL;
    size_t length = utf8_length(n->text);
    if (length == 0) {
        diag_at(r->diags, DIAG_WRONG_TYPE, n->mark, reader_path(r), "found an empty text; %s belongs here", wanted);
        return NULL;
    }
    if (f->high > 0 && (double)length > f->high) {
        diag_at(r->diags, DIAG_TOO_LONG, n->mark, reader_path(r), "%zu characters; at most %.0f", length, f->high);
        return NULL;
    }
    return n->text;
}

static void read_text(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    *(struct str *)(base + f->at) = (struct str){parse_text(r, f, n, "a text"), n ? n->mark : home};
}

static void read_name(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    *(const char **)(base + f->at) = parse_text(r, f, n, "a text");
}

static int find_word(const struct words *words, const char *s)
{
    for (size_t i = 0; i < words->n; i++)
        if (words->name[i] && strcmp(words->name[i], s) == 0)
            return (int)i;
    return -1;
}

static const char *list_words(struct reader *r, const struct words *words)
{
    const char *all = "";
    for (size_t i = 0; i < words->n; i++)
        if (words->name[i])
            all = reader_join(r, all, words->name[i]);
    return all;
}

/* The word's number, -1 after an error. */
static int parse_word(struct reader *r, const struct words *words, const struct node *n)
{
    if (!reader_is_kind(r, n, NODE_SCALAR, "a word"))
        return -1;
    int found = find_word(words, n->text);
    if (found >= 0)
        return found;
    struct guess g = {.wanted = n->text};
    for (size_t i = 0; i < words->n; i++)
        if (words->name[i])
            guess_offer(&g, words->name[i]);
    reader_report_word(r, n, &g, list_words(r, words));
    return -1;
}

static void read_word(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    int word = n ? parse_word(r, f->words, n) : -1;
    if (word >= 0)
        memcpy(base + f->at, &word, sizeof word);
}

static void read_words(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_LIST, "a list of words") || !check_count(r, n, f->low > 0, LIST_MOST))
        return;
    size_t i = 0;
    for (const struct node *one = n->first; one; one = one->next, i++) {
        size_t before = reader_push_index(r, i);
        int word = parse_word(r, f->words, one);
        if (word >= 0)
            ((bool *)(base + f->at))[word] = true;
        reader_pop(r, before);
    }
}

/* Methods that this version cannot do are words of the format all the same: there is no proof that they could end. */
static void read_ends(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    const char *names[TEST_METHODS_MOST] = {NULL};
    const struct words words = {names, test_variants.n};
    bool ends[TEST_METHODS_MOST] = {false};
    struct field as_words = *f;
    assert(words.n <= TEST_METHODS_MOST && words.n >= METHODS);
    for (size_t i = 0; i < words.n; i++)
        names[i] = test_variants.list[i].name;
    as_words.words = &words;
    as_words.at = 0;
    read_words(r, &as_words, n, home, (char *)ends);
    for (size_t i = 0; i < METHODS; i++)
        ((bool *)(base + f->at))[i] = !n || ends[i];
}

static void read_flag(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    static const char *const names[] = {"false", "true"};
    static const struct words words = WORDS(names);
    (void)home;
    *(bool *)(base + f->at) = n && parse_word(r, &words, n) == 1;
}

/* No shop keeps records outside these years: a figure was mistyped. */
enum { FIRST_YEAR = 1900, LAST_YEAR = 2199 };

static void read_date(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    struct date d = {0};
    if (!n || !reader_is_kind(r, n, NODE_SCALAR, "a date"))
        return;
    if (!date_parse(n->text, &d)) {
        diag_at(r->diags, DIAG_BAD_DATE, n->mark, reader_path(r),
                "found %s; write a day that exists as year-month-day, 2026-11-02", reader_show(r, n));
        return;
    }
    if (d.year < FIRST_YEAR || d.year > LAST_YEAR) {
        diag_at(r->diags, DIAG_BAD_DATE, n->mark, reader_path(r), "found %s; accepted: a year from %d to %d",
                reader_show(r, n), FIRST_YEAR, LAST_YEAR);
        return;
    }
    *(struct date *)(base + f->at) = d;
    if (n->mark.file == r->first_file && (!date_is_set(r->newest) || date_compare(d, r->newest) > 0))
        r->newest = d;
}

static void report_undefined(struct reader *r, const struct node *n, const char *section, const struct guess *g)
{
    const char *shown = reader_show(r, n);
    if (r->excuse_absent)
        return;
    if (g->best)
        diag_at(r->diags, DIAG_NOT_DEFINED, n->mark, reader_path(r),
                "%s is not in the section `%s`; did you mean \"%s\"?", shown, section, g->best);
    else
        diag_at(r->diags, DIAG_NOT_DEFINED, n->mark, reader_path(r), "%s is not in the section `%s`", shown, section);
}

static void read_stock(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_SCALAR, "the name of a stock"))
        return;
    struct guess g = {.wanted = n->text};
    for (size_t i = 0; i < r->job->n_stock; i++) {
        if (strcmp(r->job->stock[i].name, n->text) == 0) {
            *(const struct job_stock **)(base + f->at) = &r->job->stock[i];
            return;
        }
        guess_offer(&g, r->job->stock[i].name);
    }
    report_undefined(r, n, "stock", &g);
}

static void read_instrument(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_SCALAR, "the name of an instrument"))
        return;
    struct guess g = {.wanted = n->text};
    for (size_t i = 0; i < r->job->n_instruments; i++) {
        if (strcmp(r->job->instruments[i].name, n->text) == 0) {
            *(const struct job_instrument **)(base + f->at) = &r->job->instruments[i];
            return;
        }
        guess_offer(&g, r->job->instruments[i].name);
    }
    report_undefined(r, n, "instruments", &g);
}

/* ---- Mappings ---- */

/* The names of the variants, or of those that this version can do. */
static const char *list_variants(struct reader *r, const struct variants *v, bool can)
{
    const char *all = "";
    for (size_t i = 0; i < v->n; i++)
        all = !can || v->list[i].table ? reader_join(r, all, v->list[i].name) : all;
    return all;
}

/* NULL after an error. */
static const struct variant *find_variant(struct reader *r, const struct variants *v, const struct node *word)
{
    struct guess g = {.wanted = word->text};
    for (size_t i = 0; i < v->n; i++) {
        if (strcmp(v->list[i].name, word->text) == 0)
            return &v->list[i];
        guess_offer(&g, v->list[i].name);
    }
    reader_report_word(r, word, &g, list_variants(r, v, false));
    return NULL;
}

/* Gives the variant's table; NULL after an error. The variant's number is stored in the element. */
static const struct table *choose_variant(struct reader *r, const struct variants *v, const struct node *map,
                                          char *element)
{
    const struct node *word = node_find(map, v->key);
    size_t before = reader_push(r, v->key);
    const struct variant *found = NULL;
    if (!word)
        reader_miss(r, map->mark, reader_path(r), v->what);
    else if (reader_is_kind(r, word, NODE_SCALAR, "a word"))
        found = find_variant(r, v, word);
    if (found && found->table)
        memcpy(element + v->at, &(int){(int)(found - v->list)}, sizeof(int));
    else if (found)
        diag_at(r->diags, DIAG_NOT_YET, word->mark, reader_path(r), "%s; it can do: %s", reader_show(r, word),
                list_variants(r, v, true));
    reader_pop(r, before);
    return found ? found->table : NULL;
}

static void read_element(struct reader *r, const struct field *f, const struct node *n, char *element)
{
    const struct table *table = f->table;
    if (f->variants)
        table = reader_is_kind(r, n, NODE_MAP, "a mapping") ? choose_variant(r, f->variants, n, element) : NULL;
    if (table)
        read_table(r, table, n, n->mark, element);
}

static void read_variant(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (n)
        read_element(r, f, n, base + f->at);
}

static void read_map(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    read_table(r, f->table, n, n ? n->mark : home, base + f->at);
}

static void read_list(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_LIST, "a list") ||
        !check_count(r, n, f->low > 0, f->most ? f->most : LIST_MOST))
        return;
    char *items = pool_alloc(&r->job->pool, n->n * f->size);
    size_t i = 0;
    for (const struct node *one = n->first; one; one = one->next, i++) {
        size_t before = reader_push_index(r, i);
        read_element(r, f, one, items + i * f->size);
        reader_pop(r, before);
    }
    *(void **)(base + f->at) = items;
    *(size_t *)(base + f->more_at) = i;
}

static void read_named(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)home;
    if (!n || !reader_is_kind(r, n, NODE_MAP, "a mapping of names") ||
        !check_count(r, n, 0, f->most ? f->most : LIST_MOST))
        return;
    char *items = pool_alloc(&r->job->pool, n->n * f->size);
    size_t i = 0;
    for (const struct node *one = n->first; one; one = one->next, i++) {
        enum { NAME_MOST = 40 };
        size_t before = reader_push(r, one->key);
        if (utf8_length(one->key) > NAME_MOST)
            diag_at(r->diags, DIAG_TOO_LONG, one->key_mark, reader_path(r), "%zu characters; a name has at most 40",
                    utf8_length(one->key));
        read_element(r, f, one, items + i * f->size);
        *(const char **)(items + i * f->size) = one->key;
        reader_pop(r, before);
    }
    *(void **)(base + f->at) = items;
    *(size_t *)(base + f->more_at) = i;
}

static void read_nothing(struct reader *r, const struct field *f, const struct node *n, struct mark home, char *base)
{
    (void)r, (void)f, (void)n, (void)home, (void)base;
}

value_reader *const read_value[] = {
    [VALUE_GIVEN] = read_nothing,     [VALUE_ELSEWHERE] = read_nothing, [VALUE_MARK] = read_nothing,
    [VALUE_QUANTITY] = read_quantity, [VALUE_DOUBLE] = read_double,     [VALUE_PAIR] = read_pair,
    [VALUE_SPAN] = read_span,         [VALUE_NUMBERS] = read_numbers,   [VALUE_LAYERS] = read_layers,
    [VALUE_TEXT] = read_text,         [VALUE_NAME] = read_name,         [VALUE_WORD] = read_word,
    [VALUE_WORDS] = read_words,       [VALUE_ENDS] = read_ends,         [VALUE_FLAG] = read_flag,
    [VALUE_DATE] = read_date,         [VALUE_STOCK] = read_stock,       [VALUE_INSTRUMENT] = read_instrument,
    [VALUE_MAP] = read_map,           [VALUE_VARIANT] = read_variant,   [VALUE_LIST] = read_list,
    [VALUE_NAMED] = read_named,       [VALUE_PAIRS] = read_pairs,
};
