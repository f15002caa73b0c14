/* pdf.h: PDF/A-1b bytes of pages. Made by src/pdf, the only stage that knows libharu. May be included by run. */
#ifndef FETTLE_PDF_H
#define FETTLE_PDF_H

#include "pages.h"

struct pdf_info {
    const char *title, *author, *subject, *keywords, *creator, *language;
    struct date date;        /* of the document; {0}: 1970-01-01 */
    const char *identity;    /* whatever identifies the job, its version and the program: hashed into the file's ID */
};
/* The same pages and info give the same bytes. False with a message if libharu failed. */
bool pdf_build(const struct pages *, const struct faces *, const struct pdf_info *, struct text *bytes, struct text *problem);

#endif
