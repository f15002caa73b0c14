/* fonts.h: the font files that the program carries, cut down at build time by embed.c. Owns: constant bytes.
   May be included by src/type. */
#ifndef FETTLE_FONTS_H
#define FETTLE_FONTS_H

#include <stddef.h>

struct font_file { /* a TrueType file */
    const unsigned char *bytes;
    size_t size;
};
extern const struct font_file font_regular, font_bold, font_condensed, font_condensed_bold, font_mono, font_fallback;

#endif
