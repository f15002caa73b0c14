/* Growable text. */
#include "base/text.h"

#include "base/mem.h"
#include "base/utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void make_room(struct text *t, size_t more)
{
    size_t wanted = t->size + more + 1;
    if (wanted <= t->capacity)
        return;
    size_t capacity = t->capacity ? t->capacity : 64;
    while (capacity < wanted)
        capacity *= 2;
    t->bytes = mem_resize(t->bytes, capacity);
    t->capacity = capacity;
}

void text_add_n(struct text *t, const char *s, size_t n)
{
    make_room(t, n);
    if (n)
        memcpy(t->bytes + t->size, s, n);
    t->size += n;
    t->bytes[t->size] = '\0';
}

void text_add(struct text *t, const char *s)
{
    text_add_n(t, s, strlen(s));
}

void text_add_char(struct text *t, char c)
{
    text_add_n(t, &c, 1);
}

void text_add_code(struct text *t, unsigned code_point)
{
    char bytes[4];
    text_add_n(t, bytes, utf8_encode(code_point, bytes));
}

void text_vprintf(struct text *t, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    int n = vsnprintf(NULL, 0, format, args);
    if (n > 0) {
        make_room(t, (size_t)n);
        vsnprintf(t->bytes + t->size, (size_t)n + 1, format, again);
        t->size += (size_t)n;
    }
    va_end(again);
}

void text_printf(struct text *t, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    text_vprintf(t, format, args);
    va_end(args);
}

const char *text_string(const struct text *t)
{
    return t->bytes ? t->bytes : "";
}

void text_clear(struct text *t)
{
    t->size = 0;
    if (t->bytes)
        t->bytes[0] = '\0';
}

void text_free(struct text *t)
{
    free(t->bytes);
    *t = (struct text){0};
}
