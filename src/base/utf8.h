/* UTF-8: strict decoding, encoding, validation. Owns nothing. May be included by every stage. */
#ifndef FETTLE_BASE_UTF8_H
#define FETTLE_BASE_UTF8_H

#include <stddef.h>

#define UTF8_BAD 0xFFFFFFFFu

/* Decodes the character at *s (NUL-terminated) and steps over it. Overlong forms, surrogates, stray or missing bytes
   give UTF8_BAD and step over one byte. At the NUL: 0, without a step. */
unsigned utf8_next(const char **s);
size_t utf8_encode(unsigned code_point, char bytes[4]); /* number of bytes, 1 to 4 */
size_t utf8_length(const char *s);                      /* in characters; a bad byte counts as one */
/* Offset of the first byte that is not part of valid UTF-8, or n if all is valid. Looks at n bytes, NULs included. */
size_t utf8_first_bad(const char *bytes, size_t n);

#endif
