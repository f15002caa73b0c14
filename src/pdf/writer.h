/* writer.h: one PDF under way, and libharu's objects in the few forms that are needed here. Owns: the document and the
   glyphs shown so far. May be included by src/pdf. */
#ifndef FETTLE_PDF_WRITER_H
#define FETTLE_PDF_WRITER_H

#include "base/mem.h"
#include "base/text.h"
#include "type.h"

#include <hpdf.h>

/* A glyph together with the text it stood for: that pair has one code in the file, so that "3" as a numerator and the
   superscript three, one glyph, are still two texts. */
struct shown_glyph {
    unsigned id;
    const char *text; /* UTF-8, in the writer's pool; n 0: part of the text of the glyph before it */
    size_t n;
    unsigned next;    /* code of the next pair in the same bucket, 0: last */
};
enum { GLYPH_BUCKETS = 256 };
struct used_face {
    HPDF_Dict dict;               /* NULL: not used yet */
    struct shown_glyph *glyphs;   /* by code, from 1; to be freed */
    size_t n, capacity;           /* n counts code 0, the missing glyph, once the face is in use */
    unsigned first[GLYPH_BUCKETS];
};

struct writer {
    HPDF_Doc doc;
    const struct faces *faces;
    struct pool pool;
    struct used_face used[FACES];
    HPDF_STATUS error, error_detail; /* libharu's first error; it repeats itself after that */
};

/* New objects. Memory never runs out here (mem.h), so none is NULL. Indirect ones stand in the file by themselves. */
HPDF_Dict writer_dict(struct writer *);
HPDF_Dict writer_indirect_dict(struct writer *);
HPDF_Dict writer_stream(struct writer *, const void *bytes, size_t n, bool compress);
HPDF_Binary writer_utf16(struct writer *, const char *utf8); /* text string with byte order mark */
void writer_utf16_hex(struct text *, const char *utf8, size_t n); /* n bytes as hexadecimal digits, without a mark */
void writer_put(HPDF_Dict, const char *key, void *object);
void writer_put_name(HPDF_Dict, const char *key, const char *name);
void writer_put_number(HPDF_Dict, const char *key, long);
void writer_put_ascii(struct writer *, HPDF_Dict, const char *key, const char *ascii);

#endif
