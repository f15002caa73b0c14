/* Faces and shaping. A text is cut into runs of one face and one set of features; HarfBuzz shapes each run, and what it
   says is the only measure of text in the program. After opening nothing changes, so threads share the faces. */
#include "type.h"

#include "base/utf8.h"
#include "fonts.h"

#include <assert.h>
#include <ctype.h>
#include <hb-ot.h>
#include <hb-subset.h>
#include <hb.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

struct faces {
    hb_face_t *face[FACES];
    hb_font_t *font[FACES];
    hb_language_t language; /* set, so that the machine's locale never chooses */
};

/* A stretch of text shaped in one go: bytes start to end. */
struct run {
    enum face face;
    bool fraction;
    size_t start, end;
};

typedef void glyph_taker(void *arg, const struct glyph *);

static const struct face_row {
    const struct font_file *file;
    const char *postscript_name;
} face_rows[FACES] = {
    [FACE_REGULAR] = {&font_regular, "Roboto-Regular"},
    [FACE_BOLD] = {&font_bold, "Roboto-Bold"},
    [FACE_CONDENSED] = {&font_condensed, "RobotoCondensed-Regular"},
    [FACE_CONDENSED_BOLD] = {&font_condensed_bold, "RobotoCondensed-Bold"},
    [FACE_MONO] = {&font_mono, "DejaVuSansMono"},
    [FACE_FALLBACK] = {&font_fallback, "DejaVuSans"},
};

/* Tables that a font inside a PDF has no use for: text is shown there by glyph id. */
static const hb_tag_t tables_left_out[] = {
    HB_TAG('G', 'S', 'U', 'B'), HB_TAG('G', 'P', 'O', 'S'), HB_TAG('G', 'D', 'E', 'F'), HB_TAG('c', 'm', 'a', 'p'),
    HB_TAG('n', 'a', 'm', 'e'), HB_TAG('p', 'o', 's', 't'), HB_TAG('O', 'S', '/', '2'), HB_TAG('k', 'e', 'r', 'n'),
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
static const double fraction_scale = 0.66, fraction_tuck = 0.22; /* tuck: of the solidus's advance, on each side */
/* Widths of two spaces [em], by eye: the gap of "1 3/8", wide enough that nobody and no reader of the file takes it for
   13/8, and U+202F, which Roboto makes as wide as a whole space. */
static const double mixed_number_gap = 0.17, narrow_space_width = 0.2;

/* The character at *i, of which no byte at or after n is looked at; steps over it. */
static unsigned next_code(const char *s, size_t n, size_t *i)
{
    char bytes[5] = {0};
    memcpy(bytes, s + *i, n - *i < 4 ? n - *i : 4);
    const char *p = bytes;
    unsigned code = utf8_next(&p);
    *i += p == bytes ? 1 : (size_t)(p - bytes); /* a NUL in the text: one byte, no character */
    return code;
}

static bool is_mark(unsigned code)
{
    if (code < FIRST_COMBINING)
        return false;
    hb_unicode_general_category_t c = hb_unicode_general_category(hb_unicode_funcs_get_default(), code);
    return c == HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK || c == HB_UNICODE_GENERAL_CATEGORY_ENCLOSING_MARK;
}

/* 0: the face does not have it. */
static unsigned nominal_glyph(const struct faces *f, enum face face, unsigned code)
{
    hb_codepoint_t glyph = 0;
    return hb_font_get_nominal_glyph(f->font[face], code, &glyph) ? glyph : 0;
}

static bool has_glyph(const struct faces *f, enum face face, unsigned code)
{
    return nominal_glyph(f, face, code) != 0;
}

/* End of the character at i with the accents that follow it; all_there: `face` has every one of them. */
static size_t skip_accented(const struct faces *f, enum face face, const char *s, size_t n, size_t i, bool *all_there)
{
    *all_there = has_glyph(f, face, next_code(s, n, &i));
    while (i < n) {
        size_t after = i;
        unsigned code = next_code(s, n, &after);
        if (!is_mark(code))
            break;
        *all_there = *all_there && has_glyph(f, face, code);
        i = after;
    }
    return i;
}

/* A character that neither face has stays with the asked face, as its glyph 0. */
static enum face face_at(const struct faces *f, enum face asked, const char *s, size_t n, size_t i, size_t *end)
{
    bool has, fallback_has;
    *end = skip_accented(f, asked, s, n, i, &has);
    if (has)
        return asked;
    skip_accented(f, FACE_FALLBACK, s, n, i, &fallback_has);
    return fallback_has ? FACE_FALLBACK : asked;
}

static size_t count_digits(const char *s, size_t n, size_t i)
{
    size_t k = 0;
    while (i + k < n && isdigit((unsigned char)s[i + k]))
        k++;
    return k;
}

/* Bytes of the slash at i, 0 if none stands there. */
static size_t slash_length(const char *s, size_t n, size_t i)
{
    size_t end = i;
    unsigned code = i < n ? next_code(s, n, &end) : 0;
    return code == '/' || code == FRACTION_SLASH ? end - i : 0;
}

static bool is_part_of_number(char c)
{
    return isdigit((unsigned char)c) || c == '/' || c == '.' || c == ',';
}

/* Bytes of the fraction "11/64" that starts at i, 0 if none does: a date (3/4/2026), a decimal (1.5/2) or part of a
   longer number is no fraction. */
static size_t fraction_length(const char *s, size_t n, size_t i)
{
    if (i > 0 && is_part_of_number(s[i - 1]))
        return 0;
    size_t above = count_digits(s, n, i), slash = slash_length(s, n, i + above);
    if (above == 0 || above > MOST_FRACTION_DIGITS || slash == 0)
        return 0;
    size_t start = i + above + slash, below = count_digits(s, n, start), end = start + below;
    if (below == 0 || below > MOST_FRACTION_DIGITS || slash_length(s, n, end))
        return 0;
    bool decimal = end + 1 < n && (s[end] == '.' || s[end] == ',') && isdigit((unsigned char)s[end + 1]);
    return decimal ? 0 : end - i;
}

/* Of the run that starts at `start`; 0 where the face or the features want none. */
static size_t wanted_fraction(enum face asked, unsigned features, const char *s, size_t n, size_t start)
{
    return features & TYPE_FRACTIONS && asked != FACE_MONO ? fraction_length(s, n, start) : 0;
}

static struct run next_run(const struct faces *f, enum face asked, unsigned features, const char *s, size_t n,
                           size_t start)
{
    size_t fraction = wanted_fraction(asked, features, s, n, start);
    if (fraction)
        return (struct run){.face = asked, .fraction = true, .start = start, .end = start + fraction};
    struct run run = {.start = start};
    run.face = face_at(f, asked, s, n, start, &run.end);
    while (run.end < n && !wanted_fraction(asked, features, s, n, run.end)) {
        size_t end;
        if (face_at(f, asked, s, n, run.end, &end) != run.face)
            break;
        run.end = end;
    }
    return run;
}

static void shape_run(const struct faces *f, struct run run, unsigned features, const char *s, size_t n,
                      hb_buffer_t *buffer)
{
    hb_buffer_clear_contents(buffer);
    hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
    hb_buffer_set_language(buffer, f->language);
    hb_buffer_add_utf8(buffer, s, (int)n, (unsigned)run.start, (int)(run.end - run.start));
    hb_buffer_guess_segment_properties(buffer); /* only the script is still open */
    bool tabular = (features & TYPE_TABULAR) != 0;
    hb_feature_t wanted = {HB_TAG('t', 'n', 'u', 'm'), tabular, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END};
    hb_shape(f->font[run.face], buffer, &wanted, 1);
    if (!hb_buffer_allocation_successful(buffer))
        mem_failed();
}

static double metric(const struct faces *f, enum face face, hb_ot_metrics_tag_t tag)
{
    hb_position_t v = 0;
    hb_ot_metrics_get_position_with_fallback(f->font[face], tag, &v);
    return (double)v / hb_face_get_upem(f->face[face]);
}

double type_cap_height(const struct faces *f, enum face face)
{
    return metric(f, face, HB_OT_METRICS_TAG_CAP_HEIGHT);
}

double type_x_height(const struct faces *f, enum face face)
{
    return metric(f, face, HB_OT_METRICS_TAG_X_HEIGHT);
}

double type_ascent(const struct faces *f, enum face face)
{
    return metric(f, face, HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER);
}

double type_descent(const struct faces *f, enum face face)
{
    return -metric(f, face, HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER);
}

const char *type_postscript_name(enum face face)
{
    return face_rows[face].postscript_name;
}

double type_units_advance(const struct faces *f, enum face face, unsigned id)
{
    return (double)hb_font_get_glyph_h_advance(f->font[face], id) / hb_face_get_upem(f->face[face]);
}

/* Widths that are ours to say: see mixed_number_gap above. */
static double set_width(const struct run *run, unsigned features, const char *s, size_t n, const struct glyph *g)
{
    size_t i = (size_t)g->cluster, after = i;
    unsigned code = next_code(s, n, &after);
    if (run->face == FACE_MONO)
        return g->advance;
    bool narrow = code == NARROW_NO_BREAK_SPACE;
    bool blank = narrow || code == ' ' || code == NO_BREAK_SPACE || code == THIN_SPACE;
    if (features & TYPE_FRACTIONS && blank && i > 0 && isdigit((unsigned char)s[i - 1]) && fraction_length(s, n, after))
        return mixed_number_gap;
    return narrow && g->advance > narrow_space_width ? narrow_space_width : g->advance;
}

static void take_plain(const struct faces *f, const struct run *run, unsigned features, const char *s, size_t n,
                       hb_buffer_t *buffer, glyph_taker *take, void *arg)
{
    shape_run(f, *run, features, s, n, buffer);
    unsigned count;
    const hb_glyph_info_t *infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(buffer, &count);
    double em = hb_face_get_upem(f->face[run->face]);
    for (unsigned i = 0; i < count; i++) {
        struct glyph g = {
            .face = run->face, .id = infos[i].codepoint, .advance = places[i].x_advance / em, .scale = 1,
            .dx = places[i].x_offset / em, .dy = places[i].y_offset / em, .cluster = (int)infos[i].cluster,
        };
        g.advance = set_width(run, features, s, n, &g);
        take(arg, &g);
    }
}

/* Digits of one byte and one glyph each: no shaper is needed, as no face has one digit depend on another. */
static void take_figures(const struct faces *f, enum face face, const char *s, size_t from, size_t end, double rise,
                         glyph_taker *take, void *arg)
{
    for (size_t i = from; i < end; i++) {
        struct glyph g = {.face = face, .id = nominal_glyph(f, face, (unsigned char)s[i]), .dy = rise,
                          .scale = fraction_scale, .cluster = (int)i};
        g.advance = fraction_scale * type_units_advance(f, face, g.id);
        take(arg, &g);
    }
}

static void take_fraction(const struct faces *f, const struct run *run, const char *s, glyph_taker *take, void *arg)
{
    size_t slash = run->start + count_digits(s, run->end, run->start);
    size_t below = slash + slash_length(s, run->end, slash);
    double rise = (1 - fraction_scale) * type_cap_height(f, run->face);
    struct glyph g = {.face = run->face, .id = nominal_glyph(f, run->face, '/'), .scale = 1, .cluster = (int)slash};
    double solidus = type_units_advance(f, run->face, g.id), tuck = fraction_tuck * solidus;
    g.advance = solidus - 2 * tuck;
    g.dx = -tuck;
    take_figures(f, run->face, s, run->start, slash, rise, take, arg);
    take(arg, &g);
    take_figures(f, run->face, s, below, run->end, 0, take, arg);
}

static void each_glyph(const struct faces *f, enum face face, unsigned features, const char *s, size_t n,
                       glyph_taker *take, void *arg)
{
    assert(n <= INT_MAX / 2 && "a text that long is no line");
    hb_buffer_t *buffer = hb_buffer_create();
    for (size_t at = 0; at < n;) {
        struct run run = next_run(f, face, features, s, n, at);
        if (run.fraction)
            take_fraction(f, &run, s, take, arg);
        else
            take_plain(f, &run, features, s, n, buffer, take, arg);
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
    each_glyph(f, face, features, s, n, add_width, &width);
    return width;
}

struct collected {
    struct pool *pool;
    struct shaped *out;
    size_t capacity;
};

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
    each_glyph(f, face, features, s, n, collect_glyph, &c);
}

bool type_covers(const struct faces *f, unsigned code_point)
{
    if (has_glyph(f, FACE_FALLBACK, code_point))
        return true;
    for (enum face face = 0; face < FACE_FALLBACK; face++)
        if (!has_glyph(f, face, code_point))
            return false;
    return true;
}

/* OpenType's head table holds xMin, yMin, xMax, yMax as 16-bit numbers from byte 36 on. */
void type_bounds(const struct faces *f, enum face face, double box[4])
{
    hb_blob_t *head = hb_face_reference_table(f->face[face], HB_TAG('h', 'e', 'a', 'd'));
    unsigned size;
    const unsigned char *bytes = (const unsigned char *)hb_blob_get_data(head, &size);
    if (size < 44)
        mem_failed();
    for (int i = 0; i < 4; i++) {
        int v = bytes[36 + 2 * i] << 8 | bytes[37 + 2 * i];
        box[i] = (double)(v < 0x8000 ? v : v - 0x10000) / hb_face_get_upem(f->face[face]);
    }
    hb_blob_destroy(head);
}

static hb_face_t *make_subset(hb_face_t *face, const unsigned *ids, size_t n)
{
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (!input)
        return NULL;
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_RETAIN_GIDS | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    hb_set_t *glyphs = hb_subset_input_glyph_set(input);
    hb_set_add(glyphs, 0);
    for (size_t i = 0; i < n; i++)
        hb_set_add(glyphs, ids[i]);
    hb_set_t *dropped = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (size_t i = 0; i < sizeof tables_left_out / sizeof *tables_left_out; i++)
        hb_set_add(dropped, tables_left_out[i]);
    bool good = hb_set_allocation_successful(glyphs) && hb_set_allocation_successful(dropped);
    hb_face_t *subset = good ? hb_subset_or_fail(face, input) : NULL;
    hb_subset_input_destroy(input);
    return subset;
}

void type_subset(const struct faces *f, enum face face, const unsigned *ids, size_t n, struct pool *pool,
                 const unsigned char **bytes, size_t *size)
{
    hb_face_t *subset = make_subset(f->face[face], ids, n);
    if (!subset)
        mem_failed();
    hb_blob_t *blob = hb_face_reference_blob(subset);
    unsigned length;
    const char *data = hb_blob_get_data(blob, &length);
    if (length == 0)
        mem_failed();
    *bytes = pool_copy(pool, data, length);
    *size = length;
    hb_blob_destroy(blob);
    hb_face_destroy(subset);
}

/* HarfBuzz answers a failed allocation with an empty face. */
static void open_face(struct faces *f, enum face face)
{
    const struct font_file *file = face_rows[face].file;
    const char *bytes = (const char *)file->bytes;
    hb_blob_t *blob = hb_blob_create(bytes, (unsigned)file->size, HB_MEMORY_MODE_READONLY, NULL, NULL);
    f->face[face] = hb_face_create(blob, 0);
    hb_blob_destroy(blob);
    f->font[face] = hb_font_create(f->face[face]);
    if (hb_face_get_glyph_count(f->face[face]) == 0 || f->font[face] == hb_font_get_empty())
        mem_failed();
    hb_face_make_immutable(f->face[face]);
    hb_font_make_immutable(f->font[face]);
}

struct faces *type_open(void)
{
    struct faces *f = mem_alloc(sizeof *f);
    f->language = hb_language_from_string("en", -1);
    for (enum face face = 0; face < FACES; face++)
        open_face(f, face);
    return f;
}

void type_close(struct faces *f)
{
    if (!f)
        return;
    for (enum face face = 0; face < FACES; face++) {
        hb_font_destroy(f->font[face]);
        hb_face_destroy(f->face[face]);
    }
    free(f);
}
