/* font.h: faces inside the PDF: composite fonts with just the glyphs shown, and the way back from glyph to text.
   May be included by src/pdf. */
#ifndef FETTLE_PDF_FONT_H
#define FETTLE_PDF_FONT_H

#include "pdf/writer.h"

/* The face's dictionary, made on first use and completed by font_finish. */
HPDF_Dict font_dict(struct writer *, enum face);
/* The two-byte code under which a glyph that stands for these n bytes of text is shown. */
unsigned font_code(struct writer *, enum face, unsigned glyph, const char *text, size_t n);
double font_advance(const struct writer *, enum face, unsigned glyph); /* in em, as the file's W array has it */
void font_finish(struct writer *); /* after the last page */

#endif
