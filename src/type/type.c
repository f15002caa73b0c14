/* Faces: opening, coverage, metrics, subsets. After opening nothing changes, so threads share them. */
#include "type.h"

#include "fonts.h"
#include "type/faces.h"

#include <hb-ot.h>
#include <hb-subset.h>
#include <stdlib.h>

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

unsigned faces_glyph(const struct faces *f, enum face face, unsigned code)
{
    hb_codepoint_t glyph = 0;
    return hb_font_get_nominal_glyph(f->font[face], code, &glyph) ? glyph : 0;
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

bool type_covers(const struct faces *f, unsigned code_point)
{
    if (faces_glyph(f, FACE_FALLBACK, code_point))
        return true;
    for (enum face face = 0; face < FACE_FALLBACK; face++)
        if (!faces_glyph(f, face, code_point))
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
