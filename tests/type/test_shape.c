/* Shaping: kerning, figures, fractions, fall-back, coverage, metrics. Numbers of the faces were read with HarfBuzz's own
   hb-shape from the uncut font files (Roboto 2.137 of Debian's fonts-roboto-unhinted, 2048 units to the em). */
#include "type.h"

#include "base/utf8.h"
#include "close.h"

#include <hb-ot.h>
#include <hb.h>
#include <string.h>

static const char signs[] = "× ÷ ± ° ′ ″ ≤ ≥ − – — ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ µ Δ ε Ø Ł Č ő ș … € ™ № ⌀ → ☐ ☑ ⚠ √ ≈ ≠ ² ³ ‘ ’ “ ” „ « » ß ẞ þ Ħ ŵ ỳ Ω ώ Ж ґ";

static double width_of(const struct faces *f, enum face face, unsigned features, const char *s)
{
    return type_width(f, face, features, s, strlen(s));
}

static int open_faces(void **state)
{
    *state = type_open();
    return 0;
}

static int close_faces(void **state)
{
    type_close(*state);
    type_close(NULL);
    return 0;
}

static void test_type_width_kerns_letters(void **state)
{
    const struct faces *f = *state;
    /* hb-shape Roboto-Regular: A 1336 alone, 1249 before V; V 1304 */
    assert_close(width_of(f, FACE_REGULAR, 0, "AV"), (1249 + 1304) / 2048.0, 1e-12);
    assert_close(width_of(f, FACE_REGULAR, 0, "A") + width_of(f, FACE_REGULAR, 0, "V"), (1336 + 1304) / 2048.0, 1e-12);
    for (enum face face = FACE_REGULAR; face <= FACE_CONDENSED_BOLD; face++)
        assert_true(width_of(f, face, 0, "AV") < width_of(f, face, 0, "A") + width_of(f, face, 0, "V"));
}

static void test_type_width_of_figures_is_tabular_and_adds_up(void **state)
{
    const struct faces *f = *state;
    static const char figures[] = "0123456789.,+ ";
    for (enum face face = 0; face < FACES; face++) {
        double digit = width_of(f, face, TYPE_TABULAR, "0");
        for (size_t i = 0; figures[i]; i++) {
            double one = type_width(f, face, TYPE_TABULAR, figures + i, 1);
            if (i < 10)
                assert_close(one, digit, 1e-12);
            for (size_t k = 0; figures[k]; k++) {
                char pair[2] = {figures[i], figures[k]};
                assert_close(type_width(f, face, TYPE_TABULAR, pair, 2),
                             one + type_width(f, face, TYPE_TABULAR, figures + k, 1), 1e-12);
            }
        }
    }
}

static void test_type_width_of_mono_is_one_pitch(void **state)
{
    const struct faces *f = *state;
    double pitch = 1233 / 2048.0; /* hb-shape DejaVuSansMono */
    assert_close(width_of(f, FACE_MONO, 0, "  fence: 1 3/8 in"), 17 * pitch, 1e-12);
    assert_close(width_of(f, FACE_MONO, TYPE_FRACTIONS | TYPE_TABULAR, "  fence: 1 3/8 in"), 17 * pitch, 1e-12);
}

static void test_type_covers_repertoire(void **state)
{
    const struct faces *f = *state;
    for (const char *p = signs; *p;) {
        unsigned code = utf8_next(&p);
        if (!type_covers(f, code))
            fail_msg("U+%04X is not covered", code);
    }
    for (unsigned code = 0xA0; code <= 0x17F; code++)
        assert_true(type_covers(f, code));
    for (unsigned code = 0x400; code <= 0x45F; code++)
        assert_true(type_covers(f, code));
    assert_false(type_covers(f, 0x4E00)); /* CJK */
    assert_false(type_covers(f, '\t'));
    assert_false(type_covers(f, 0x200B));
    assert_false(type_covers(f, UTF8_BAD));
}

static void test_type_shape_gives_every_sign_a_glyph_in_every_face(void **state)
{
    const struct faces *f = *state;
    struct pool pool = {0};
    for (enum face face = 0; face < FACES; face++) {
        struct shaped shaped;
        type_shape(f, face, 0, signs, strlen(signs), &pool, &shaped);
        assert_int_equal(shaped.n, utf8_length(signs));
        for (size_t i = 0; i < shaped.n; i++)
            assert_true(shaped.glyphs[i].id > 0 && shaped.glyphs[i].advance > 0);
        assert_close(shaped.width, width_of(f, face, 0, signs), 1e-9);
    }
    pool_free(&pool);
}

static void test_type_shape_falls_back_by_character(void **state)
{
    const struct faces *f = *state;
    struct pool pool = {0};
    struct shaped shaped;
    const char *s = "a☐b"; /* Roboto has no ballot box */
    type_shape(f, FACE_CONDENSED, 0, s, strlen(s), &pool, &shaped);
    assert_int_equal(shaped.n, 3);
    assert_int_equal(shaped.glyphs[0].face, FACE_CONDENSED);
    assert_int_equal(shaped.glyphs[1].face, FACE_FALLBACK);
    assert_int_equal(shaped.glyphs[2].face, FACE_CONDENSED);
    assert_int_equal(shaped.glyphs[1].cluster, 1);
    assert_int_equal(shaped.glyphs[2].cluster, 4);
    s = "→\u0301"; /* the accent, which Roboto has, goes with its arrow, which Roboto has not */
    type_shape(f, FACE_CONDENSED, 0, s, strlen(s), &pool, &shaped);
    assert_int_equal(shaped.n, 2);
    assert_int_equal(shaped.glyphs[1].face, FACE_FALLBACK);
    pool_free(&pool);
}

static void test_type_shape_missing_character_is_glyph_0(void **state)
{
    struct pool pool = {0};
    struct shaped shaped;
    type_shape(*state, FACE_BOLD, 0, "x\xE4\xB8\x80y", 5, &pool, &shaped);
    assert_int_equal(shaped.n, 3);
    assert_int_equal(shaped.glyphs[1].id, 0);
    assert_int_equal(shaped.glyphs[1].face, FACE_BOLD);
    type_shape(*state, FACE_BOLD, 0, "x\ty", 3, &pool, &shaped);
    assert_int_equal(shaped.glyphs[1].id, 0);
    type_shape(*state, FACE_BOLD, 0, "x\xC3", 2, &pool, &shaped); /* cut within a character */
    assert_int_equal(shaped.glyphs[1].id, 0);
    type_shape(*state, FACE_BOLD, 0, "", 0, &pool, &shaped);
    assert_int_equal(shaped.n, 0);
    pool_free(&pool);
}

static void test_type_shape_composes_accents(void **state)
{
    const struct faces *f = *state;
    struct pool pool = {0};
    struct shaped shaped, composed;
    type_shape(f, FACE_REGULAR, 0, "e\xCC\x81", 3, &pool, &shaped); /* e, combining acute */
    type_shape(f, FACE_REGULAR, 0, "é", 2, &pool, &composed);
    assert_int_equal(shaped.n, 1);
    assert_int_equal(shaped.glyphs[0].id, composed.glyphs[0].id);
    pool_free(&pool);
}

struct fraction_row {
    const char *text;
    bool changes; /* set smaller than the plain figures */
};

static void test_type_width_of_fractions(void **state)
{
    const struct faces *f = *state;
    static const struct fraction_row rows[] = {
        {"3/8", true},       {"11/64", true},     {"1 3/8 in", true}, {"(3/8)", true},    {"3/8.", true}, {"127/128", true},
        {"3⁄8", true},       {"1\u20095⁄16 in", true}, {"−3/8", true},
        {"3/4/2026", false}, {"0.5/2", false},    {"1/2.5", false},   {"1234/5", false},  {"/8", false},  {"3/", false},
        {"a/b", false},      {"3 / 8", false},    {"12", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (enum face face = FACE_REGULAR; face <= FACE_CONDENSED_BOLD; face++) {
            double plain = width_of(f, face, 0, rows[i].text), set = width_of(f, face, TYPE_FRACTIONS, rows[i].text);
            if (rows[i].changes != (set < plain - 0.1))
                fail_msg("%s: %g em, as a fraction %g em", rows[i].text, plain, set);
        }
    /* Roboto-Regular: a figure is 1151 wide, the solidus 845; figures at 0.74, the solidus tucked in by 0.22 on each side */
    double three_eighths = (2 * 0.74 * 1151 + (1 - 2 * 0.22) * 845) / 2048;
    assert_close(width_of(f, FACE_REGULAR, TYPE_FRACTIONS, "3/8"), three_eighths, 1e-12);
    assert_close(width_of(f, FACE_REGULAR, TYPE_FRACTIONS, "3⁄8"), three_eighths, 1e-12);
    /* the whole number stays a full figure; the gap is 0.16 em, a thin space, whatever the space */
    static const char *const mixed[] = {"1 3/8", "1\u20093/8", "1\u00A03/8", "1\u202F3⁄8"};
    for (int i = 0; i < 4; i++)
        assert_close(width_of(f, FACE_REGULAR, TYPE_FRACTIONS, mixed[i]), 1151 / 2048.0 + 0.16 + three_eighths, 1e-12);
    assert_close(width_of(f, FACE_REGULAR, TYPE_FRACTIONS, "at 3/8"), width_of(f, FACE_REGULAR, 0, "at ") + three_eighths, 1e-12);
}

static void test_type_shape_fraction_is_as_high_as_capitals(void **state)
{
    const struct faces *f = *state;
    struct pool pool = {0};
    struct shaped shaped;
    type_shape(f, FACE_BOLD, TYPE_FRACTIONS, "2 11⁄64", 9, &pool, &shaped);
    assert_int_equal(shaped.n, 7);
    static const struct { int cluster; bool small, raised; } expected[] = {
        {0, false, false}, {1, false, false}, {2, true, true}, {3, true, true}, {4, false, false}, {7, true, false}, {8, true, false}};
    for (size_t i = 0; i < shaped.n; i++) {
        const struct glyph *g = &shaped.glyphs[i];
        assert_int_equal(g->cluster, expected[i].cluster);
        assert_true((g->scale < 1) == expected[i].small && (g->dy > 0) == expected[i].raised);
        if (expected[i].raised) /* figures are as high as capitals */
            assert_close(g->dy + g->scale * type_cap_height(f, FACE_BOLD), type_cap_height(f, FACE_BOLD), 1e-12);
    }
    pool_free(&pool);
}

static void test_type_width_of_narrow_space(void **state)
{
    assert_close(width_of(*state, FACE_REGULAR, 0, "\xE2\x80\xAF"), 0.2, 1e-12);
    assert_true(width_of(*state, FACE_REGULAR, 0, " ") > 0.22);
}

static void test_type_metrics_are_those_of_the_file(void **state)
{
    const struct faces *f = *state;
    for (enum face face = FACE_REGULAR; face <= FACE_CONDENSED_BOLD; face++) { /* OS/2 and hhea tables of Roboto 2.137 */
        assert_close(type_cap_height(f, face), 1456 / 2048.0, 1e-12);
        assert_close(type_x_height(f, face), 1082 / 2048.0, 0.01);
        assert_close(type_ascent(f, face), 1900 / 2048.0, 1e-12);
        assert_close(type_descent(f, face), 500 / 2048.0, 1e-12);
    }
    for (enum face face = 0; face < FACES; face++) {
        double box[4];
        type_bounds(f, face, box);
        assert_true(box[0] < 0 && box[1] < -type_descent(f, face) / 2 && box[2] > 0.5 && box[3] > type_cap_height(f, face));
        assert_true(type_cap_height(f, face) > type_x_height(f, face));
    }
}

/* One glyph's box in font units, by HarfBuzz from the bytes given. */
static hb_glyph_extents_t extents_of(hb_face_t *face, unsigned id)
{
    hb_font_t *font = hb_font_create(face);
    hb_glyph_extents_t e = {0};
    assert_true(hb_font_get_glyph_extents(font, id, &e));
    hb_font_destroy(font);
    return e;
}

static void test_type_subset_has_the_glyphs_and_no_others(void **state)
{
    const struct faces *f = *state;
    struct pool pool = {0};
    const char *s = "Łő 3⅜g"; /* composites among them */
    for (enum face face = 0; face < FACE_FALLBACK; face++) {
        struct shaped shaped;
        type_shape(f, face, 0, s, strlen(s), &pool, &shaped);
        unsigned ids[16];
        for (size_t i = 0; i < shaped.n; i++)
            ids[i] = shaped.glyphs[i].id;
        const unsigned char *bytes, *whole;
        size_t size, whole_size;
        type_subset(f, face, ids, shaped.n, &pool, &bytes, &size);
        unsigned all[4000];
        for (unsigned i = 0; i < 4000; i++)
            all[i] = i;
        type_subset(f, face, all, 4000, &pool, &whole, &whole_size);
        assert_true(size < whole_size / 3);
        hb_blob_t *blob = hb_blob_create((const char *)bytes, (unsigned)size, HB_MEMORY_MODE_READONLY, NULL, NULL);
        hb_blob_t *whole_blob = hb_blob_create((const char *)whole, (unsigned)whole_size, HB_MEMORY_MODE_READONLY, NULL, NULL);
        hb_face_t *part = hb_face_create(blob, 0), *full = hb_face_create(whole_blob, 0);
        for (size_t i = 0; i < shaped.n; i++) {
            hb_glyph_extents_t a = extents_of(part, ids[i]), b = extents_of(full, ids[i]);
            assert_memory_equal(&a, &b, sizeof a);
            assert_true(s[shaped.glyphs[i].cluster] == ' ' || (a.width > 0 && a.height < 0));
        }
        type_shape(f, face, 0, "W", 1, &pool, &shaped);
        assert_int_equal(extents_of(part, shaped.glyphs[0].id).width, 0);
        assert_true(extents_of(full, shaped.glyphs[0].id).width > 0);
        hb_face_destroy(part);
        hb_face_destroy(full);
        hb_blob_destroy(blob);
        hb_blob_destroy(whole_blob);
    }
    pool_free(&pool);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_type_width_kerns_letters),
        cmocka_unit_test(test_type_width_of_figures_is_tabular_and_adds_up),
        cmocka_unit_test(test_type_width_of_mono_is_one_pitch),
        cmocka_unit_test(test_type_covers_repertoire),
        cmocka_unit_test(test_type_shape_gives_every_sign_a_glyph_in_every_face),
        cmocka_unit_test(test_type_shape_falls_back_by_character),
        cmocka_unit_test(test_type_shape_missing_character_is_glyph_0),
        cmocka_unit_test(test_type_shape_composes_accents),
        cmocka_unit_test(test_type_width_of_fractions),
        cmocka_unit_test(test_type_shape_fraction_is_as_high_as_capitals),
        cmocka_unit_test(test_type_width_of_narrow_space),
        cmocka_unit_test(test_type_metrics_are_those_of_the_file),
        cmocka_unit_test(test_type_subset_has_the_glyphs_and_no_others),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
