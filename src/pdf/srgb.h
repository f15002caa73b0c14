/* srgb.h: an ICC profile of the sRGB colour space, made here so that none is copied. May be included by src/pdf. */
#ifndef FETTLE_PDF_SRGB_H
#define FETTLE_PDF_SRGB_H

#include <stddef.h>

enum { SRGB_PROFILE_ROOM = 1024 };
size_t srgb_profile(unsigned char bytes[SRGB_PROFILE_ROOM]); /* gives the size */

#endif
