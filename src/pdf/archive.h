/* archive.h: what makes a PDF a PDF/A-1b beside its fonts: metadata twice, output intent, identifier.
   May be included by src/pdf. */
#ifndef FETTLE_PDF_ARCHIVE_H
#define FETTLE_PDF_ARCHIVE_H

#include "pdf.h"
#include "pdf/writer.h"

void archive_finish(struct writer *, const struct pdf_info *); /* last before saving: sets the version */

#endif
