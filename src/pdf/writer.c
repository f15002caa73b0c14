/* libharu's objects. Where one fails the error handler is called, so nothing is returned here. */
#include "pdf/writer.h"

#include "base/utf8.h"

HPDF_Dict writer_dict(struct writer *w)
{
    return HPDF_Dict_New(w->doc->mmgr);
}

HPDF_Dict writer_indirect_dict(struct writer *w)
{
    HPDF_Dict dict = writer_dict(w);
    HPDF_Xref_Add(w->doc->xref, dict);
    return dict;
}

HPDF_Dict writer_stream(struct writer *w, const void *bytes, size_t n, bool compress)
{
    HPDF_Dict dict = HPDF_DictStream_New(w->doc->mmgr, w->doc->xref);
    dict->filter = compress ? HPDF_STREAM_FILTER_FLATE_DECODE : HPDF_STREAM_FILTER_NONE;
    HPDF_Stream_Write(dict->stream, bytes, (HPDF_UINT)n);
    return dict;
}

/* Gives the number of 16-bit units, 1 or 2. */
static int split_units(unsigned code, unsigned units[2])
{
    if (code <= 0xFFFF) {
        units[0] = code;
        return 1;
    }
    units[0] = 0xD800 + ((code - 0x10000) >> 10);
    units[1] = 0xDC00 + (code & 0x3FF);
    return 2;
}

HPDF_Binary writer_utf16(struct writer *w, const char *utf8)
{
    struct text t = {0};
    text_add(&t, "\xFE\xFF");
    for (unsigned code, units[2]; (code = utf8_next(&utf8)) != 0;) {
        int n = split_units(code, units);
        for (int i = 0; i < n; i++) {
            text_add_char(&t, (char)(units[i] >> 8));
            text_add_char(&t, (char)(units[i] & 0xFF));
        }
    }
    HPDF_Binary binary = HPDF_Binary_New(w->doc->mmgr, (HPDF_BYTE *)t.bytes, (HPDF_UINT)t.size);
    text_free(&t);
    return binary;
}

void writer_utf16_hex(struct text *t, const char *utf8, size_t n)
{
    for (const char *p = utf8; p < utf8 + n;) {
        unsigned units[2];
        int count = split_units(utf8_next(&p), units);
        for (int i = 0; i < count; i++)
            text_printf(t, "%04X", units[i]);
    }
}

void writer_put(HPDF_Dict dict, const char *key, void *object)
{
    HPDF_Dict_Add(dict, key, object);
}

void writer_put_name(HPDF_Dict dict, const char *key, const char *name)
{
    HPDF_Dict_AddName(dict, key, name);
}

void writer_put_number(HPDF_Dict dict, const char *key, long number)
{
    HPDF_Dict_AddNumber(dict, key, (HPDF_INT32)number);
}

void writer_put_ascii(struct writer *w, HPDF_Dict dict, const char *key, const char *ascii)
{
    HPDF_Dict_Add(dict, key, HPDF_String_New(w->doc->mmgr, ascii, NULL));
}
