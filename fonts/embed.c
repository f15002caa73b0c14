/* embed NAME FONT.ttf OUT.c: cuts a font down to the characters and features that the sheets use, and writes it as a C
   source that defines `const struct font_file NAME`. A build tool: it runs while the program is built, never after. */
#include <hb-subset.h>

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

/* What a job may be written in: Latin of the European languages, Greek, Cyrillic of the Slavic languages, signs. */
static const struct range {
    hb_codepoint_t first, last;
} repertoire[] = {
    {0x0020, 0x007E}, /* ASCII */
    {0x00A0, 0x017F}, /* Latin-1 Supplement, Latin Extended-A */
    {0x018F, 0x018F}, /* Azerbaijani schwa */
    {0x0192, 0x0192}, /* florin */
    {0x01C4, 0x01CC}, /* Croatian digraphs */
    {0x01E4, 0x01EF}, /* Skolt Sami */
    {0x01FA, 0x01FF}, /* Danish with acutes */
    {0x0218, 0x021B}, /* Romanian */
    {0x021E, 0x021F}, /* Finnish Romani */
    {0x0259, 0x0259}, /* schwa */
    {0x0292, 0x0292}, /* ezh */
    {0x02C6, 0x02C7}, {0x02D8, 0x02DD}, /* spacing accents */
    {0x0300, 0x0304}, {0x0306, 0x030C}, {0x0326, 0x0328}, {0x0331, 0x0331}, /* combining accents */
    {0x0384, 0x03CE}, /* Greek */
    {0x0400, 0x045F}, {0x0490, 0x0491}, /* Cyrillic */
    {0x1E02, 0x1E6B}, {0x1E80, 0x1E85}, {0x1E9E, 0x1E9E}, {0x1EF2, 0x1EF3}, /* Irish, Welsh, German capital sharp s */
    {0x2000, 0x200A}, {0x202F, 0x202F}, /* spaces */
    {0x2010, 0x2015}, {0x2018, 0x201E}, {0x2020, 0x2022}, {0x2026, 0x2026}, {0x2030, 0x2030}, /* dashes, quotes */
    {0x2032, 0x2033}, {0x2039, 0x203A}, {0x2044, 0x2044}, /* primes, angle quotes, fraction slash */
    {0x2070, 0x2071}, {0x2074, 0x208E}, /* superscripts, subscripts */
    {0x20AC, 0x20AC}, {0x2116, 0x2116}, {0x2122, 0x2122}, {0x2126, 0x2126}, /* euro, numero, trade mark, ohm */
    {0x2150, 0x215E}, /* vulgar fractions */
    {0x2190, 0x2195}, /* arrows */
    {0x2202, 0x2202}, {0x2205, 0x2206}, {0x220F, 0x220F}, {0x2211, 0x2212}, {0x2215, 0x2215}, {0x2219, 0x221A},
    {0x221E, 0x2220}, {0x222B, 0x222B}, {0x2248, 0x2248}, {0x2260, 0x2261}, {0x2264, 0x2265}, /* sums */
    {0x2300, 0x2300}, /* diameter */
    {0x25A0, 0x25A1}, {0x25B2, 0x25B3}, {0x25BC, 0x25BD}, {0x25CB, 0x25CB}, {0x25CF, 0x25CF}, /* shapes */
    {0x2610, 0x2612}, {0x26A0, 0x26A0}, {0x2713, 0x2713}, {0x2717, 0x2717}, /* boxes, warning, ticks */
};

/* No ligatures (liga): text taken out of the PDF stays letter by letter. No fractions (frac): src/type makes them. */
static const hb_tag_t features[] = {
    HB_TAG('c', 'c', 'm', 'p'), HB_TAG('l', 'o', 'c', 'l'), HB_TAG('m', 'a', 'r', 'k'), HB_TAG('m', 'k', 'm', 'k'),
    HB_TAG('k', 'e', 'r', 'n'), HB_TAG('t', 'n', 'u', 'm'),
};

static hb_face_t *cut_down(hb_face_t *whole)
{
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (!input)
        return NULL;
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    hb_set_t *characters = hb_subset_input_unicode_set(input);
    for (size_t i = 0; i < sizeof repertoire / sizeof *repertoire; i++)
        hb_set_add_range(characters, repertoire[i].first, repertoire[i].last);
    hb_set_t *kept = hb_subset_input_set(input, HB_SUBSET_SETS_LAYOUT_FEATURE_TAG);
    hb_set_clear(kept);
    for (size_t i = 0; i < sizeof features / sizeof *features; i++)
        hb_set_add(kept, features[i]);
    hb_face_t *part = hb_set_allocation_successful(characters) && hb_set_allocation_successful(kept)
                          ? hb_subset_or_fail(whole, input)
                          : NULL;
    hb_subset_input_destroy(input);
    return part;
}

static bool write_source(FILE *out, const char *name, const unsigned char *bytes, unsigned size)
{
    fprintf(out, "#include \"fonts.h\"\n\nstatic const unsigned char bytes[%u] = {", size);
    for (unsigned i = 0; i < size; i++)
        fprintf(out, "%s%u,", i % 32 ? "" : "\n", (unsigned)bytes[i]);
    fprintf(out, "\n};\nconst struct font_file %s = {bytes, sizeof bytes};\n", name);
    return !ferror(out);
}

static bool embed(const char *name, hb_face_t *whole, const char *path)
{
    hb_face_t *part = cut_down(whole);
    if (!part)
        return false;
    hb_blob_t *blob = hb_face_reference_blob(part);
    unsigned size;
    const char *bytes = hb_blob_get_data(blob, &size);
    FILE *out = size ? fopen(path, "w") : NULL;
    bool good = out && write_source(out, name, (const unsigned char *)bytes, size);
    if (out && fclose(out) != 0)
        good = false;
    hb_blob_destroy(blob);
    hb_face_destroy(part);
    return good;
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fputs("usage: embed NAME FONT.ttf OUT.c\n", stderr);
        return EXIT_FAILURE;
    }
    hb_blob_t *file = hb_blob_create_from_file(argv[2]); /* empty on failure, and then the face has no glyphs */
    hb_face_t *whole = hb_face_create(file, 0);
    bool good = hb_face_get_glyph_count(whole) > 0 && embed(argv[1], whole, argv[3]);
    hb_face_destroy(whole);
    hb_blob_destroy(file);
    if (!good) {
        fprintf(stderr, "embed: cannot make %s from %s\n", argv[3], argv[2]);
        remove(argv[3]);
        return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
