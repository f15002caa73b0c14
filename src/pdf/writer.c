/* libharu's objects. What it does with them in case of failure is to call the error handler, so nothing is returned here. */
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

static void add_unit(struct text *t, unsigned unit)
{
    text_add_char(t, (char)(unit >> 8));
    text_add_char(t, (char)(unit & 0xFF));
}

HPDF_Binary writer_utf16(struct writer *w, const char *utf8)
{
    struct text t = {0};
    add_unit(&t, 0xFEFF);
    for (unsigned c; (c = utf8_next(&utf8)) != 0;) {
        if (c > 0xFFFF) {
            add_unit(&t, 0xD800 + ((c - 0x10000) >> 10));
            add_unit(&t, 0xDC00 + (c & 0x3FF));
        } else {
            add_unit(&t, c);
        }
    }
    HPDF_Binary binary = HPDF_Binary_New(w->doc->mmgr, (HPDF_BYTE *)t.bytes, (HPDF_UINT)t.size);
    text_free(&t);
    return binary;
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
