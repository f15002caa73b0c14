/* Shaping. A text is cut into runs of one face; HarfBuzz shapes each run, and what it says is the only measure of text
   in the program. Fractions are made here. */
#include "type.h"

#include "base/utf8.h"
#include "type/faces.h"

#include <assert.h>
#include <ctype.h>
#include <limits.h>
#include <string.h>

/* What is to be shaped: n bytes of UTF-8. */
struct passage {
    const struct faces *faces;
    enum face face; /* asked for */
    unsigned features;
    const char *s;
    size_t n;
};

/* A stretch of it shaped in one go: bytes start to end. */
struct run {
    enum face face;
    bool fraction;
    size_t start, end;
};

/* Who gets the glyphs, one by one. */
struct taker {
    void (*take)(void *arg, const struct glyph *);
    void *arg;
};

struct collected {
    struct pool *pool;
    struct shaped *out;
    size_t capacity;
};

enum {
    MOST_FRACTION_DIGITS = 3, /* above and below: 127/128; more is no fraction of an inch */
    NO_BREAK_SPACE = 0xA0,
    FIRST_COMBINING = 0x300,
    THIN_SPACE = 0x2009,
    NARROW_NO_BREAK_SPACE = 0x202F,
    FRACTION_SLASH = 0x2044
};

/* A fraction is made of the face's own figures, made smaller, the upper ones raised until they are as high as capitals,
   and its solidus, under and over which they are tucked: Roboto's ready-made fraction figures are two fifths of an em
   high, too small for the bench, and stand wide apart. Sizes by eye. */
static const double fraction_scale = 0.74, fraction_tuck = 0.22; /* tuck: of the solidus's advance, on each side */
/* Widths of two spaces [em], by eye: the gap of "1 3/8", wide enough that nobody and no reader of the file takes it for
   13/8, and U+202F, which Roboto makes as wide as a whole space. */
static const double mixed_number_gap = 0.16, narrow_space_width = 0.2;

/* The character at *i, of which no byte after the passage is looked at; steps over it. */
static unsigned next_code(const struct passage *p, size_t *i)
{
    char bytes[5] = {0};
    memcpy(bytes, p->s + *i, p->n - *i < 4 ? p->n - *i : 4);
    const char *after = bytes;
    unsigned code = utf8_next(&after);
    *i += after == bytes ? 1 : (size_t)(after - bytes); /* a NUL in the text: one byte, no character */
    return code;
}

static bool is_mark(unsigned code)
{
    if (code < FIRST_COMBINING)
        return false;
    hb_unicode_general_category_t c = hb_unicode_general_category(hb_unicode_funcs_get_default(), code);
    return c == HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK || c == HB_UNICODE_GENERAL_CATEGORY_ENCLOSING_MARK;
}

/* End of the character at i with the accents that follow it; all_there: `face` has every one of them. */
static size_t skip_accented(const struct passage *p, enum face face, size_t i, bool *all_there)
{
    *all_there = faces_glyph(p->faces, face, next_code(p, &i)) != 0;
    while (i < p->n) {
        size_t after = i;
        unsigned code = next_code(p, &after);
        if (!is_mark(code))
            break;
        *all_there = *all_there && faces_glyph(p->faces, face, code) != 0;
        i = after;
    }
    return i;
}

/* A character that neither face has stays with the asked face, as its glyph 0. */
static enum face face_at(const struct passage *p, size_t i, size_t *end)
{
    bool has, fallback_has;
    *end = skip_accented(p, p->face, i, &has);
    if (has)
        return p->face;
    skip_accented(p, FACE_FALLBACK, i, &fallback_has);
    return fallback_has ? FACE_FALLBACK : p->face;
}

static bool digit_at(const struct passage *p, size_t i)
{
    return i < p->n && isdigit((unsigned char)p->s[i]);
}

static size_t count_digits(const struct passage *p, size_t i)
{
    size_t k = 0;
    while (digit_at(p, i + k))
        k++;
    return k;
}

/* Bytes of the slash at i, 0 if none stands there. */
static size_t slash_length(const struct passage *p, size_t i)
{
    size_t end = i;
    unsigned code = i < p->n ? next_code(p, &end) : 0;
    return code == '/' || code == FRACTION_SLASH ? end - i : 0;
}

static bool is_part_of_number(char c)
{
    return isdigit((unsigned char)c) || c == '/' || c == '.' || c == ',';
}

/* Bytes of the fraction "11/64" that starts at i, 0 if none does: a date (3/4/2026), a decimal (1.5/2) or part of a
   longer number is no fraction. */
static size_t fraction_length(const struct passage *p, size_t i)
{
    if (i > 0 && is_part_of_number(p->s[i - 1]))
        return 0;
    size_t above = count_digits(p, i), slash = slash_length(p, i + above);
    if (above == 0 || above > MOST_FRACTION_DIGITS || slash == 0)
        return 0;
    size_t start = i + above + slash, below = count_digits(p, start), end = start + below;
    if (below == 0 || below > MOST_FRACTION_DIGITS || slash_length(p, end))
        return 0;
    bool decimal = digit_at(p, end + 1) && (p->s[end] == '.' || p->s[end] == ',');
    return decimal ? 0 : end - i;
}

/* The same, 0 where the face or the features want none. */
static size_t wanted_fraction(const struct passage *p, size_t i)
{
    return p->features & TYPE_FRACTIONS && p->face != FACE_MONO ? fraction_length(p, i) : 0;
}

static struct run next_run(const struct passage *p, size_t start)
{
    size_t fraction = wanted_fraction(p, start);
    if (fraction)
        return (struct run){.face = p->face, .fraction = true, .start = start, .end = start + fraction};
    struct run run = {.start = start};
    run.face = face_at(p, start, &run.end);
    while (run.end < p->n && !wanted_fraction(p, run.end)) {
        size_t end;
        if (face_at(p, run.end, &end) != run.face)
            break;
        run.end = end;
    }
    return run;
}

static void shape_run(const struct passage *p, const struct run *run, hb_buffer_t *buffer)
{
    hb_buffer_clear_contents(buffer);
    hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
    hb_buffer_set_language(buffer, p->faces->language);
    hb_buffer_add_utf8(buffer, p->s, (int)p->n, (unsigned)run->start, (int)(run->end - run->start));
    hb_buffer_guess_segment_properties(buffer); /* only the script is still open */
    bool tabular = (p->features & TYPE_TABULAR) != 0;
    hb_feature_t wanted = {HB_TAG('t', 'n', 'u', 'm'), tabular, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END};
    hb_shape(p->faces->font[run->face], buffer, &wanted, 1);
    if (!hb_buffer_allocation_successful(buffer))
        mem_failed();
}

/* Widths that are ours to say: see mixed_number_gap above. */
static double set_width(const struct passage *p, const struct glyph *g)
{
    size_t i = (size_t)g->cluster, after = i;
    unsigned code = next_code(p, &after);
    if (g->face == FACE_MONO)
        return g->advance;
    bool narrow = code == NARROW_NO_BREAK_SPACE;
    bool blank = narrow || code == ' ' || code == NO_BREAK_SPACE || code == THIN_SPACE;
    if (blank && i > 0 && digit_at(p, i - 1) && wanted_fraction(p, after))
        return mixed_number_gap;
    return narrow && g->advance > narrow_space_width ? narrow_space_width : g->advance;
}

static void take_plain(const struct passage *p, const struct run *run, hb_buffer_t *buffer, const struct taker *taker)
{
    shape_run(p, run, buffer);
    unsigned count;
    const hb_glyph_info_t *infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(buffer, &count);
    double em = hb_face_get_upem(p->faces->face[run->face]);
    for (unsigned i = 0; i < count; i++) {
        struct glyph g = {
            .face = run->face, .id = infos[i].codepoint, .advance = places[i].x_advance / em, .scale = 1,
            .dx = places[i].x_offset / em, .dy = places[i].y_offset / em, .cluster = (int)infos[i].cluster,
        };
        g.advance = set_width(p, &g);
        taker->take(taker->arg, &g);
    }
}

/* Digits of one byte and one glyph each: no shaper is needed, as no face has one digit depend on another. */
static void take_figures(const struct passage *p, size_t from, size_t end, double rise, const struct taker *taker)
{
    for (size_t i = from; i < end; i++) {
        struct glyph g = {.face = p->face, .dy = rise, .scale = fraction_scale, .cluster = (int)i};
        g.id = faces_glyph(p->faces, p->face, (unsigned char)p->s[i]);
        g.advance = fraction_scale * type_units_advance(p->faces, p->face, g.id);
        taker->take(taker->arg, &g);
    }
}

static void take_fraction(const struct passage *p, const struct run *run, const struct taker *taker)
{
    size_t slash = run->start + count_digits(p, run->start), below = slash + slash_length(p, slash);
    double rise = (1 - fraction_scale) * type_cap_height(p->faces, p->face);
    struct glyph g = {.face = p->face, .scale = 1, .cluster = (int)slash};
    g.id = faces_glyph(p->faces, p->face, '/');
    double solidus = type_units_advance(p->faces, p->face, g.id), tuck = fraction_tuck * solidus;
    g.advance = solidus - 2 * tuck;
    g.dx = -tuck;
    take_figures(p, run->start, slash, rise, taker);
    taker->take(taker->arg, &g);
    take_figures(p, below, run->end, 0, taker);
}

static void each_glyph(const struct passage *p, const struct taker *taker)
{
    assert(p->n <= INT_MAX / 2 && "a text that long is no line");
    hb_buffer_t *buffer = hb_buffer_create();
    for (size_t at = 0; at < p->n;) {
        struct run run = next_run(p, at);
        if (run.fraction)
            take_fraction(p, &run, taker);
        else
            take_plain(p, &run, buffer, taker);
        at = run.end;
    }
    hb_buffer_destroy(buffer);
}

static void add_width(void *arg, const struct glyph *g)
{
    *(double *)arg += g->advance;
}

double type_width(const struct faces *f, enum face face, unsigned features, const char *s, size_t n)
{
    double width = 0;
    const struct passage passage = {.faces = f, .face = face, .features = features, .s = s, .n = n};
    each_glyph(&passage, &(const struct taker){add_width, &width});
    return width;
}

static void collect_glyph(void *arg, const struct glyph *g)
{
    struct collected *c = arg;
    if (c->out->n == c->capacity) {
        struct glyph *more = pool_alloc(c->pool, 2 * c->capacity * sizeof *more);
        memcpy(more, c->out->glyphs, c->out->n * sizeof *more);
        c->out->glyphs = more;
        c->capacity *= 2;
    }
    c->out->glyphs[c->out->n++] = *g;
    c->out->width += g->advance;
}

void type_shape(const struct faces *f, enum face face, unsigned features, const char *s, size_t n, struct pool *pool,
                struct shaped *out)
{
    struct collected c = {.pool = pool, .out = out, .capacity = n + 1};
    *out = (struct shaped){.glyphs = pool_alloc(pool, c.capacity * sizeof *out->glyphs)};
    const struct passage passage = {.faces = f, .face = face, .features = features, .s = s, .n = n};
    each_glyph(&passage, &(const struct taker){collect_glyph, &c});
}
