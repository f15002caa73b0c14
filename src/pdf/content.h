/* content.h: ink as PDF page operators. May be included by src/pdf. */
#ifndef FETTLE_PDF_CONTENT_H
#define FETTLE_PDF_CONTENT_H

#include "pages.h"
#include "pdf/writer.h"

/* The operators of one page. Sets used[] of each face on it. False with a message if the page holds what no PDF/A may:
   a number that is not finite or too great, a character without a glyph. */
bool content_build(struct writer *, const struct page *, bool used[FACES], struct text *out, struct text *problem);

#endif
