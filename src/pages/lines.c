/* Line breaking.

   A text is cut into atoms (letters in one face, blanks, hard ends); atoms between blanks are words. For each stretch
   between hard ends, best[j] = min over i of best[i] + cost(line of words i..j), where a line costs a fixed sum (so
   that lines stay few) and the square of its share of white (so that they are even). */
#include "pages/lines.h"

#include "base/utf8.h"
#include "pages/metrics.h"
#include "words.h"

#include <math.h>
#include <string.h>

#define LINE_COST 10.0                /* of a line more */
#define CUT_COST 3.0                  /* of a break inside a word */
#define AFTER_SIGN_COST 12.0          /* of a break after an operator: equations are broken before them (ISO 80000-2) */
#define PARTED_COST 2.0               /* of a break between a word and its letter or number: "fence / C", "about / 0.5" */
#define RUNT_COST 0.6                 /* of a last line that is hardly there */
#define RUNT_SHARE 0.14               /* of the measure */
#define FRACTION_SLASH "\xE2\x81\x84" /* U+2044 */
#define BULLET "\xE2\x80\xA2"
#define MEASURE_SLACK 0.01   /* [pt]: sums of widths are not exact */

enum atom_kind { ATOM_LETTERS, ATOM_BLANK, ATOM_HARD_END };
struct atom {
    enum atom_kind kind;
    const char *s;
    size_t n;
    bool bold, fraction;
};
/* Atoms from up to before end; `blank` is the width of what separates it from the word before. */
struct word {
    size_t from, end;
    double width, blank;
    bool cut;    /* goes on a word that was too wide */
    double part; /* cost of a line that begins with it, beside its own */
};
struct breaker {
    struct widths *widths;
    struct pool *pool; /* of what is made */
    struct pool scratch;
    const struct rich *rich;
    struct atom *atoms;
    size_t n_atoms, atom_capacity;
    struct word *words;
    size_t n_words, word_capacity;
};

static double size_of(const struct rich *rich, bool bold)
{
    return bold ? rich->bold_size : rich->size;
}

static double width_of(struct widths *widths, const struct rich *rich, const char *s, size_t n, bool bold,
                       bool fraction)
{
    unsigned features = rich->features | (fraction ? (unsigned)TYPE_FRACTIONS : 0);
    return widths_of(widths, bold ? rich->bold : rich->face, features, s, n) * size_of(rich, bold);
}

static double atom_width(const struct breaker *b, const struct atom *a)
{
    return width_of(b->widths, b->rich, a->s, a->n, a->bold, a->fraction);
}

static void add_atom(struct breaker *b, struct atom atom)
{
    if (b->n_atoms == b->atom_capacity) {
        size_t capacity = b->atom_capacity ? 2 * b->atom_capacity : 32;
        struct atom *atoms = pool_alloc(&b->scratch, capacity * sizeof *atoms);
        if (b->n_atoms)
            memcpy(atoms, b->atoms, b->n_atoms * sizeof *atoms);
        b->atoms = atoms;
        b->atom_capacity = capacity;
    }
    b->atoms[b->n_atoms++] = atom;
}

static void add_word(struct breaker *b, struct word word)
{
    if (b->n_words == b->word_capacity) {
        size_t capacity = b->word_capacity ? 2 * b->word_capacity : 32;
        struct word *words = pool_alloc(&b->scratch, capacity * sizeof *words);
        if (b->n_words)
            memcpy(words, b->words, b->n_words * sizeof *words);
        b->words = words;
        b->word_capacity = capacity;
    }
    b->words[b->n_words++] = word;
}

static size_t count_digits(const char *s)
{
    return strspn(s, "0123456789");
}

/* Bytes of a fraction at s, "15" U+2044 "32", or of the whole number, thin space and fraction of a mixed one, which are
   shaped together: the face says how near they stand. 0: none. */
static size_t fraction_length(const char *s)
{
    size_t whole = count_digits(s);
    if (whole && strncmp(s + whole, THIN, strlen(THIN)) == 0 && count_digits(s + whole + strlen(THIN))) {
        size_t start = whole + strlen(THIN), rest = fraction_length(s + start);
        return rest ? start + rest : 0;
    }
    size_t above = whole;
    if (!above || strncmp(s + above, FRACTION_SLASH, strlen(FRACTION_SLASH)) != 0)
        return 0;
    size_t below = count_digits(s + above + strlen(FRACTION_SLASH));
    return below ? above + strlen(FRACTION_SLASH) + below : 0;
}

static size_t letters_length(const char *s)
{
    size_t n = 0;
    while (s[n] && !strchr(" \n\x0E\x0F", s[n]) && !(count_digits(s + n) && fraction_length(s + n)))
        n += count_digits(s + n) ? count_digits(s + n) : 1;
    return n;
}

/* NULL is taken as "". */
static void cut_into_atoms(struct breaker *b, const char *s)
{
    bool bold = false;
    while (s && *s) {
        struct atom a = {.s = s, .n = 1, .bold = bold};
        if (*s == TEXT_BOLD_ON || *s == TEXT_BOLD_OFF) {
            bold = *s++ == TEXT_BOLD_ON;
            continue;
        }
        if (*s == '\n') {
            a.kind = ATOM_HARD_END;
        } else if (*s == ' ') {
            a.kind = ATOM_BLANK;
            a.n = strspn(s, " ");
        } else if (fraction_length(s)) {
            a.n = fraction_length(s);
            a.fraction = true;
        } else {
            a.n = letters_length(s);
        }
        add_atom(b, a);
        s += a.n;
    }
}

/* Bytes of the atom that fit, whole characters, at least one. */
static size_t fitting_bytes(const struct breaker *b, const struct atom *a, double room)
{
    size_t fit = 0;
    for (const char *s = a->s; s < a->s + a->n;) {
        utf8_next(&s);
        size_t n = (size_t)(s - a->s);
        if (fit && width_of(b->widths, b->rich, a->s, n, a->bold, a->fraction) > room)
            break;
        fit = n;
    }
    return fit;
}

/* Splits the atom at `index` after `n` bytes. */
static void split_atom(struct breaker *b, size_t index, size_t n)
{
    struct atom rest = b->atoms[index];
    rest.s += n;
    rest.n -= n;
    add_atom(b, rest);
    memmove(&b->atoms[index + 2], &b->atoms[index + 1], (b->n_atoms - index - 2) * sizeof *b->atoms);
    b->atoms[index].n = n;
    b->atoms[index + 1] = rest;
}

/* Gathers one word from atom `from` and gives the atom after it; what is wider than the measure becomes several words.
 */
static size_t gather_word(struct breaker *b, size_t from, double blank, double measure)
{
    struct word w = {.from = from, .end = from, .blank = blank};
    while (w.end < b->n_atoms && b->atoms[w.end].kind == ATOM_LETTERS) {
        double width = atom_width(b, &b->atoms[w.end]);
        if (w.width + width <= measure + MEASURE_SLACK) {
            w.width += width;
            w.end++;
            continue;
        }
        if (w.end == w.from) {
            size_t n = fitting_bytes(b, &b->atoms[w.end], measure);
            if (n < b->atoms[w.end].n)
                split_atom(b, w.end, n);
            w.width = atom_width(b, &b->atoms[w.end]);
            w.end++;
        }
        add_word(b, w);
        w = (struct word){.from = w.end, .end = w.end, .cut = true};
    }
    if (w.end > w.from)
        add_word(b, w);
    return w.end;
}

static bool is_operator(const char *s, size_t n)
{
    static const char *const signs[] = {"=", "+", MINUS, "\xC3\x97", "\xC3\xB7", "\xC2\xB1", "\xE2\x89\xA4", "\xE2\x89\xA5"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (n == strlen(signs[i]) && memcmp(s, signs[i], n) == 0)
            return true;
    return false;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* "C", "C," and "12": a part's letter or a number. */
static bool is_name_or_number(const char *s, size_t n)
{
    return (s[0] >= '0' && s[0] <= '9') || (s[0] == '.' && n > 1) || (s[0] >= 'A' && s[0] <= 'Z' && (n == 1 || (n == 2 && !is_letter(s[1]))));
}

/* What a line end between two words parts. */
static double cost_of_parting(const struct breaker *b, const struct word *before, const struct word *after)
{
    const struct atom *last = &b->atoms[before->end - 1], *first = &b->atoms[after->from];
    if (before->end == before->from + 1 && is_operator(last->s, last->n))
        return AFTER_SIGN_COST;
    return is_letter(last->s[last->n - 1]) && is_name_or_number(first->s, first->n) ? PARTED_COST : 0;
}

/* Words up to the next hard end, which is left standing; gives its index. */
static size_t gather_words(struct breaker *b, size_t from, double measure)
{
    double blank = 0;
    b->n_words = 0;
    while (from < b->n_atoms && b->atoms[from].kind != ATOM_HARD_END) {
        if (b->atoms[from].kind == ATOM_BLANK) {
            blank = atom_width(b, &b->atoms[from++]);
            continue;
        }
        size_t word = b->n_words;
        from = gather_word(b, from, blank, measure);
        if (word > 0 && word < b->n_words)
            b->words[word].part = cost_of_parting(b, &b->words[word - 1], &b->words[word]);
        blank = 0;
    }
    return from;
}

static void add_run(struct line *line, const struct atom *a)
{
    struct run *last = line->n ? &line->runs[line->n - 1] : NULL;
    if (last && last->bold == a->bold && !last->fraction && !a->fraction && last->s + last->n == a->s) {
        last->n += a->n;
        return;
    }
    line->runs[line->n++] = (struct run){.s = a->s, .n = a->n, .bold = a->bold, .fraction = a->fraction};
}

static struct line make_line(struct breaker *b, size_t from_atom, size_t end_atom)
{
    struct line line = {.runs = pool_alloc(b->pool, (end_atom - from_atom) * sizeof *line.runs)};
    for (size_t i = from_atom; i < end_atom; i++)
        add_run(&line, &b->atoms[i]);
    for (size_t i = 0; i < line.n; i++) {
        struct run *r = &line.runs[i];
        r->width = width_of(b->widths, b->rich, r->s, r->n, r->bold, r->fraction);
        line.width += r->width;
    }
    return line;
}

static double line_cost(double width, double measure, bool first, bool last, bool cut)
{
    double white = measure > 0 ? fmax(0, (measure - width) / measure) : 0;
    double cost = LINE_COST + (cut ? CUT_COST : 0);
    if (last)
        return cost + (!first && width < RUNT_SHARE * measure ? RUNT_COST : 0);
    return cost + white * white;
}

/* before[j] is the word with which the line that ends before word j begins. */
static void find_breaks(const struct breaker *b, double measure, double *best, size_t *before)
{
    best[0] = 0;
    for (size_t end = 1; end <= b->n_words; end++) {
        double width = 0;
        best[end] = INFINITY;
        for (size_t from = end; from-- > 0;) {
            width += b->words[from].width + (from + 1 < end ? b->words[from + 1].blank : 0);
            if (width > measure + MEASURE_SLACK && from + 1 < end)
                break;
            bool last = end == b->n_words;
            double cost = best[from] + b->words[from].part + line_cost(width, measure, from == 0, last, !last && b->words[end].cut);
            if (cost < best[end]) {
                best[end] = cost;
                before[end] = from;
            }
        }
    }
}

static void add_line(struct lines *out, size_t *capacity, struct pool *pool, struct line line)
{
    if (out->n == *capacity) {
        *capacity = *capacity ? 2 * *capacity : 8;
        struct line *list = pool_alloc(pool, *capacity * sizeof *list);
        if (out->n)
            memcpy(list, out->list, out->n * sizeof *list);
        out->list = list;
    }
    out->list[out->n++] = line;
    out->widest = fmax(out->widest, line.width);
}

/* Atoms of the bullet and blank at the head of a stretch; 0: no item. */
static size_t count_bullet(const struct breaker *b, size_t at)
{
    const struct atom *a = &b->atoms[at];
    bool bullet =
        at + 1 < b->n_atoms && a->kind == ATOM_LETTERS && a->n == strlen(BULLET) && memcmp(a->s, BULLET, a->n) == 0;
    return bullet && a[1].kind == ATOM_BLANK ? 2 : 0;
}

/* The gathered words in lines; without words, one empty line. What stands before them from atom `first` is the first
   line's. */
static void break_words(struct breaker *b, size_t first, double indent, double measure, struct lines *out,
                        size_t *capacity)
{
    size_t n = b->n_words;
    if (!n) {
        add_line(out, capacity, b->pool, (struct line){0});
        return;
    }
    double *best = pool_alloc(&b->scratch, (n + 1) * sizeof *best);
    size_t *before = pool_alloc(&b->scratch, (n + 1) * sizeof *before);
    find_breaks(b, measure, best, before);
    size_t n_lines = 0;
    for (size_t end = n; end > 0; end = before[end])
        n_lines++;
    size_t *ends = pool_alloc(&b->scratch, n_lines * sizeof *ends);
    for (size_t end = n, i = n_lines; end > 0; end = before[end])
        ends[--i] = end;
    for (size_t i = 0, from = 0; i < n_lines; from = ends[i++]) {
        struct line line = make_line(b, i || indent <= 0 ? b->words[from].from : first, b->words[ends[i] - 1].end);
        line.indent = i ? indent : 0;
        line.width += line.indent;
        add_line(out, capacity, b->pool, line);
    }
}

void lines_break(struct widths *widths, struct pool *pool, const struct rich *rich, const char *text, double measure,
                 struct lines *out)
{
    *out = (struct lines){.rich = *rich};
    struct breaker b = {.widths = widths, .pool = pool, .rich = rich};
    size_t capacity = 0;
    cut_into_atoms(&b, text);
    for (size_t at = 0; at < b.n_atoms; at++) {
        size_t first = at, bullet = count_bullet(&b, at);
        double indent = 0;
        for (; bullet > 0; bullet--)
            indent += atom_width(&b, &b.atoms[at++]);
        at = gather_words(&b, at, measure - indent);
        break_words(&b, first, indent, measure - indent, out, &capacity);
    }
    pool_free(&b.scratch);
}

double lines_natural_width(struct widths *widths, const struct rich *rich, const char *text)
{
    struct pool pool = {0};
    struct lines lines;
    lines_break(widths, &pool, rich, text, HUGE_VAL, &lines);
    pool_free(&pool);
    return lines.widest;
}

double lines_least_width(struct widths *widths, const struct rich *rich, const char *text)
{
    struct breaker b = {.widths = widths, .rich = rich};
    double widest = 0;
    cut_into_atoms(&b, text);
    for (size_t at = 0; at < b.n_atoms; at++) {
        at = gather_words(&b, at, HUGE_VAL);
        for (size_t i = 0; i < b.n_words; i++)
            widest = fmax(widest, b.words[i].width);
    }
    pool_free(&b.scratch);
    return widest;
}

double lines_height(const struct lines *lines)
{
    return (double)lines->n * lines->rich.leading;
}

double lines_baseline(struct widths *widths, const struct rich *rich)
{
    double size = fmax(rich->size, rich->bold_size);
    return (rich->leading + type_cap_height(widths->faces, rich->face) * size) / 2;
}

static void line_ink(const struct lines *lines, const struct line *line, double x, double y, struct inks *into)
{
    const struct rich *r = &lines->rich;
    for (size_t i = 0; i < line->n; i++) {
        const struct run *run = &line->runs[i];
        struct ink ink = {.kind = INK_TEXT};
        ink.as.text = (struct ink_text){
            .x = x,
            .y = y,
            .size = size_of(r, run->bold),
            .width = run->width,
            .face = run->bold ? r->bold : r->face,
            .features = r->features | (run->fraction ? (unsigned)TYPE_FRACTIONS : 0),
            .color = r->color,
            .s = pool_string_n(into->pool, run->s, run->n),
        };
        ink_add(into, ink);
        x += run->width;
    }
}

void lines_ink(const struct lines *lines, struct widths *widths, size_t from, size_t end, double x, double y,
               double measure, enum align align, struct inks *into)
{
    y += lines_baseline(widths, &lines->rich);
    for (size_t i = from; i < end; i++) {
        const struct line *line = &lines->list[i];
        double shift = align == ALIGN_RIGHT    ? measure - line->width
                       : align == ALIGN_CENTRE ? (measure - line->width) / 2
                                               : 0;
        line_ink(lines, line, x + shift + line->indent, y, into);
        y += lines->rich.leading;
    }
}

struct rich rich_of(enum text_style style, double type_scale)
{
    const struct style *s = style_of(style);
    return (struct rich){
        .face = s->face,
        .bold = s->bold,
        .size = s->size * type_scale,
        .bold_size = s->size * type_scale,
        .leading = s->leading * type_scale,
        .color = COLOR_BLACK,
    };
}

struct rich rich_bolder(struct rich rich)
{
    rich.face = rich.bold;
    return rich;
}
