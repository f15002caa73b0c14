/* finished.h: a finished PDF looked at by readers that know nothing of the program. MuPDF draws each page twice, as it is
   and without its text operators (qpdf lays them open), and says where each letter stands. */
#ifndef FETTLE_TESTS_PDF_FINISHED_H
#define FETTLE_TESTS_PDF_FINISHED_H

#include "base/text.h"

#include <stdbool.h>

/* What every printed page must keep: nothing on the margins; no word over another; each word is seen, and what it stands
   on is of one tone, be that paper, a tint or a dark band: no line goes through it; capitals of 2.1 mm, letters
   of the job's own text of 4.5 pt at least; every letter can be read back; no page nearly empty unless it is the
   only one. The readers' files go into `folder`. Problems are added a line each; gives their number. */
size_t finished_check(const char *pdf, const char *folder, struct text *problems);

/* After it: all letters of that PDF but those of the job's own text, which is set in the face of fixed pitch, in the order
   in which they were written, without blanks. False where there are none. */
bool finished_letters(const char *folder, struct text *out);

#endif
