/* faces.h: the opened faces. Owns: HarfBuzz's objects, from type_open to type_close. May be included by src/type. */
#ifndef FETTLE_TYPE_FACES_H
#define FETTLE_TYPE_FACES_H

#include "type.h"

#include <hb.h>

struct faces {
    hb_face_t *face[FACES];
    hb_font_t *font[FACES];
    hb_language_t language; /* set, so that the machine's locale never chooses */
};

unsigned faces_glyph(const struct faces *, enum face, unsigned code_point); /* 0: the face does not have it */

#endif
