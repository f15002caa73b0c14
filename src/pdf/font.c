/* Composite fonts (ISO 32000-1 9.7; PDF 1.4 5.6): Type0 over CIDFontType2, Identity-H. A code is the number of a pair
   (glyph, text) in order of first use; CIDToGIDMap leads from it to the glyph, ToUnicode to the text. */
#include "pdf/font.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

enum { MOST_CHARS_IN_A_BLOCK = 100 }; /* of a ToUnicode map: Adobe Technical Note 5014 */

/* Flags of a font descriptor: PDF 1.4 table 5.20. */
enum { FLAG_FIXED_PITCH = 1, FLAG_SYMBOLIC = 4 };

HPDF_Dict font_dict(struct writer *w, enum face face)
{
    struct used_face *u = &w->used[face];
    if (!u->dict) {
        u->dict = writer_indirect_dict(w);
        u->glyphs = mem_grow(u->glyphs, u->n, &u->capacity, sizeof *u->glyphs);
        u->glyphs[u->n++] = (struct shown_glyph){.text = ""};
    }
    return u->dict;
}

unsigned font_code(struct writer *w, enum face face, unsigned glyph, const char *text, size_t n)
{
    font_dict(w, face);
    struct used_face *u = &w->used[face];
    unsigned *bucket = &u->first[glyph % GLYPH_BUCKETS];
    for (unsigned code = *bucket; code; code = u->glyphs[code].next) {
        const struct shown_glyph *g = &u->glyphs[code];
        if (g->id == glyph && g->n == n && memcmp(g->text, text, n) == 0)
            return code;
    }
    assert(u->n < 0xFFFF && "codes have two bytes");
    u->glyphs = mem_grow(u->glyphs, u->n, &u->capacity, sizeof *u->glyphs);
    const char *copy = pool_string_n(&w->pool, text, n);
    u->glyphs[u->n] = (struct shown_glyph){.id = glyph, .text = copy, .n = n, .next = *bucket};
    return *bucket = (unsigned)u->n++;
}

double font_advance(const struct writer *w, enum face face, unsigned glyph)
{
    return type_units_advance(w->faces, face, glyph);
}

/* "ABCDEF+Roboto-Bold": the tag differs between different subsets of one face; it is a hash (FNV-1a) of the glyphs. */
static const char *subset_name(struct writer *w, enum face face)
{
    const struct used_face *u = &w->used[face];
    uint64_t hash = 14695981039346656037u;
    for (size_t i = 1; i < u->n; i++)
        hash = (hash ^ u->glyphs[i].id) * 1099511628211u;
    char tag[7] = {0};
    for (int i = 0; i < 6; i++, hash /= 26)
        tag[i] = (char)('A' + hash % 26);
    return pool_printf(&w->pool, "%s+%s", tag, type_postscript_name(face));
}

static HPDF_Dict font_file(struct writer *w, enum face face)
{
    const struct used_face *u = &w->used[face];
    unsigned *ids = pool_alloc(&w->pool, u->n * sizeof *ids);
    for (size_t i = 0; i < u->n; i++)
        ids[i] = u->glyphs[i].id;
    const unsigned char *bytes;
    size_t size;
    type_subset(w->faces, face, ids, u->n, &w->pool, &bytes, &size);
    HPDF_Dict file = writer_stream(w, bytes, size, true);
    writer_put_number(file, "Length1", (long)size);
    return file;
}

/* PDF/A-1 6.3.5: a bit for each code in the file, highest bit first. Codes have no gaps. */
static HPDF_Dict code_set(struct writer *w, size_t n)
{
    size_t size = (n + 7) / 8;
    unsigned char *bits = pool_alloc(&w->pool, size);
    for (size_t i = 0; i < n; i++)
        bits[i / 8] |= (unsigned char)(0x80u >> i % 8);
    return writer_stream(w, bits, size, true);
}

static HPDF_Dict descriptor(struct writer *w, enum face face, const char *name)
{
    bool bold = face == FACE_BOLD || face == FACE_CONDENSED_BOLD;
    double box[4];
    type_bounds(w->faces, face, box);
    HPDF_Array bounds = HPDF_Array_New(w->doc->mmgr);
    for (int i = 0; i < 4; i++)
        HPDF_Array_AddNumber(bounds, (HPDF_INT32)(i < 2 ? floor(1000 * box[i]) : ceil(1000 * box[i])));
    HPDF_Dict d = writer_indirect_dict(w);
    writer_put_name(d, "Type", "FontDescriptor");
    writer_put_name(d, "FontName", name);
    writer_put_number(d, "Flags", FLAG_SYMBOLIC | (face == FACE_MONO ? FLAG_FIXED_PITCH : 0));
    writer_put(d, "FontBBox", bounds);
    writer_put_number(d, "ItalicAngle", 0);
    writer_put_number(d, "Ascent", lround(1000 * type_ascent(w->faces, face)));
    writer_put_number(d, "Descent", -lround(1000 * type_descent(w->faces, face)));
    writer_put_number(d, "CapHeight", lround(1000 * type_cap_height(w->faces, face)));
    writer_put_number(d, "StemV", bold ? 140 : 80); /* required, but used only where a font is replaced by another */
    writer_put(d, "FontFile2", font_file(w, face));
    writer_put(d, "CIDSet", code_set(w, w->used[face].n));
    return d;
}

/* [1 [w1 w2 …]] in thousandths of an em. */
static HPDF_Array widths(struct writer *w, enum face face)
{
    const struct used_face *u = &w->used[face];
    HPDF_Array all = HPDF_Array_New(w->doc->mmgr), run = HPDF_Array_New(w->doc->mmgr);
    HPDF_Array_AddNumber(all, 1);
    HPDF_Array_Add(all, run);
    for (size_t i = 1; i < u->n; i++)
        HPDF_Array_AddReal(run, (HPDF_REAL)(1000 * font_advance(w, face, u->glyphs[i].id)));
    return all;
}

static HPDF_Dict glyph_map(struct writer *w, const struct used_face *u)
{
    unsigned char *map = pool_alloc(&w->pool, 2 * u->n);
    for (size_t i = 0; i < u->n; i++) {
        map[2 * i] = (unsigned char)(u->glyphs[i].id >> 8);
        map[2 * i + 1] = (unsigned char)u->glyphs[i].id;
    }
    return writer_stream(w, map, 2 * u->n, true);
}

static HPDF_Dict descendant(struct writer *w, enum face face, const char *name)
{
    HPDF_Dict system = writer_dict(w);
    writer_put_ascii(w, system, "Registry", "Adobe");
    writer_put_ascii(w, system, "Ordering", "Identity");
    writer_put_number(system, "Supplement", 0);
    HPDF_Dict d = writer_indirect_dict(w);
    writer_put_name(d, "Type", "Font");
    writer_put_name(d, "Subtype", "CIDFontType2");
    writer_put_name(d, "BaseFont", name);
    writer_put(d, "CIDSystemInfo", system);
    writer_put(d, "FontDescriptor", descriptor(w, face, name));
    writer_put(d, "W", widths(w, face));
    writer_put(d, "CIDToGIDMap", glyph_map(w, &w->used[face]));
    return d;
}

/* One bfchar a code: ranges of several bytes are misread by some readers. */
static void add_unicode_blocks(struct text *t, const struct used_face *u)
{
    size_t left = 0, in_block = 0;
    for (size_t i = 1; i < u->n; i++)
        left += u->glyphs[i].n > 0;
    for (size_t i = 1; i < u->n; i++) {
        if (u->glyphs[i].n == 0)
            continue;
        if (in_block == 0) {
            in_block = left < MOST_CHARS_IN_A_BLOCK ? left : MOST_CHARS_IN_A_BLOCK;
            left -= in_block;
            text_printf(t, "%zu beginbfchar\n", in_block);
        }
        text_printf(t, "<%04zX> <", i);
        writer_utf16_hex(t, u->glyphs[i].text, u->glyphs[i].n);
        text_add(t, ">\n");
        if (--in_block == 0)
            text_add(t, "endbfchar\n");
    }
}

static HPDF_Dict unicode_map(struct writer *w, const struct used_face *u)
{
    struct text t = {0};
    text_add(&t, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                 "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
                 "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                 "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n");
    add_unicode_blocks(&t, u);
    text_add(&t, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    HPDF_Dict map = writer_stream(w, t.bytes, t.size, true);
    text_free(&t);
    return map;
}

static void finish_face(struct writer *w, enum face face)
{
    const struct used_face *u = &w->used[face];
    const char *name = subset_name(w, face);
    HPDF_Array descendants = HPDF_Array_New(w->doc->mmgr);
    HPDF_Array_Add(descendants, descendant(w, face, name));
    writer_put_name(u->dict, "Type", "Font");
    writer_put_name(u->dict, "Subtype", "Type0");
    writer_put_name(u->dict, "BaseFont", name);
    writer_put_name(u->dict, "Encoding", "Identity-H");
    writer_put(u->dict, "DescendantFonts", descendants);
    writer_put(u->dict, "ToUnicode", unicode_map(w, u));
}

void font_finish(struct writer *w)
{
    for (enum face face = 0; face < FACES; face++)
        if (w->used[face].dict)
            finish_face(w, face);
}
