/* UTF-8 by RFC 3629: at most four bytes, no overlong forms, no surrogates. */
#include "base/utf8.h"

/* Length of the valid sequence at p, of which at most n bytes may be read; 0 if there is none. */
static size_t sequence_length(const unsigned char *p, size_t n, unsigned *code)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    unsigned c = p[0];
    size_t len = c < 0x80 ? 1 : c >= 0xC2 && c <= 0xDF ? 2 : (c & 0xF0) == 0xE0 ? 3 : c >= 0xF0 && c <= 0xF4 ? 4 : 0;
    if (len == 0 || len > n)
        return 0;
    unsigned v = len == 1 ? c : c & (0x7Fu >> len);
    for (size_t i = 1; i < len; i++) {
        if ((p[i] & 0xC0) != 0x80)
            return 0;
        v = v << 6 | (p[i] & 0x3Fu);
    }
    if (v < least[len] || v > 0x10FFFF || (v >= 0xD800 && v <= 0xDFFF))
        return 0;
    *code = v;
    return len;
}

unsigned utf8_next(const char **s)
{
    const unsigned char *p = (const unsigned char *)*s;
    if (!*p)
        return 0;
    unsigned code = UTF8_BAD;
    size_t len = sequence_length(p, 4, &code); /* the NUL is no continuation byte, so it is never passed */
    *s += len ? len : 1;
    return len ? code : UTF8_BAD;
}

size_t utf8_encode(unsigned c, char b[4])
{
    if (c < 0x80) {
        b[0] = (char)c;
        return 1;
    }
    size_t n = c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
    for (size_t i = n - 1; i > 0; i--, c >>= 6)
        b[i] = (char)(0x80 | (c & 0x3F));
    b[0] = (char)((0xF00u >> n & 0xFF) | c);
    return n;
}

size_t utf8_length(const char *s)
{
    size_t n = 0;
    while (utf8_next(&s))
        n++;
    return n;
}

size_t utf8_first_bad(const char *bytes, size_t n)
{
    size_t i = 0;
    while (i < n) {
        unsigned code;
        size_t len = sequence_length((const unsigned char *)bytes + i, n - i, &code);
        if (!len)
            return i;
        i += len;
    }
    return n;
}
