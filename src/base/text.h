/* Growable text: a NUL-terminated byte string that grows as it is written. Owns: its bytes.
   May be included by every stage. */
#ifndef FETTLE_BASE_TEXT_H
#define FETTLE_BASE_TEXT_H

#include <stdarg.h>
#include <stddef.h>

/* {0} is an empty text; bytes is NULL until the first write, text_string gives "" then. */
struct text {
    char *bytes; /* NUL-terminated */
    size_t size; /* without the NUL */
    size_t capacity;
};
void text_add(struct text *, const char *s);
void text_add_n(struct text *, const char *s, size_t n);
void text_add_char(struct text *, char c);
void text_add_code(struct text *, unsigned code_point); /* as UTF-8 */
void text_printf(struct text *, const char *format, ...) __attribute__((format(printf, 2, 3)));
void text_vprintf(struct text *, const char *format, va_list);
const char *text_string(const struct text *); /* valid until the next write */
void text_clear(struct text *);
void text_free(struct text *);

#endif
