/* Checked allocation and pools. */
#include "base/mem.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LEAST_CHUNK = 512, MOST_CHUNK = 65536 }; /* bytes; each chunk of a pool is twice as large as the one before */

struct pool_chunk {
    struct pool_chunk *next;
    size_t used, size;
    max_align_t data[];
};

_Noreturn void mem_failed(void)
{
    fputs("fettle: out of memory\n", stderr);
    exit(EXIT_MACHINE_FAILED);
}

void *mem_alloc(size_t n)
{
    void *p = calloc(1, n ? n : 1);
    if (!p)
        mem_failed();
    return p;
}

void *mem_resize(void *p, size_t n)
{
    void *q = realloc(p, n ? n : 1);
    if (!q)
        mem_failed();
    return q;
}

char *mem_copy_string(const char *s)
{
    size_t n = strlen(s) + 1;
    return memcpy(mem_alloc(n), s, n);
}

void *mem_grow(void *items, size_t count, size_t *capacity, size_t element)
{
    if (count < *capacity)
        return items;
    size_t wanted = *capacity ? 2 * *capacity : 8;
    if (wanted > SIZE_MAX / element)
        mem_failed();
    *capacity = wanted;
    return mem_resize(items, wanted * element);
}

static size_t round_up_to_alignment(size_t n)
{
    size_t a = _Alignof(max_align_t);
    return (n + a - 1) / a * a;
}

void *pool_alloc(struct pool *pool, size_t n)
{
    if (n > SIZE_MAX / 2)
        mem_failed();
    n = round_up_to_alignment(n ? n : 1);
    struct pool_chunk *c = pool->chunks;
    if (!c || c->size - c->used < n) {
        size_t size = !c ? LEAST_CHUNK : c->size < MOST_CHUNK ? 2 * c->size : MOST_CHUNK;
        size = n > size ? n : size;
        c = mem_alloc(sizeof *c + size);
        c->size = size;
        c->next = pool->chunks;
        pool->chunks = c;
    }
    void *p = (char *)c->data + c->used;
    c->used += n;
    return p;
}

void *pool_copy(struct pool *pool, const void *p, size_t n)
{
    void *q = pool_alloc(pool, n);
    if (n)
        memcpy(q, p, n);
    return q;
}

char *pool_string_n(struct pool *pool, const char *s, size_t n)
{
    char *q = pool_alloc(pool, n + 1);
    memcpy(q, s, n);
    return q;
}

char *pool_string(struct pool *pool, const char *s)
{
    return s ? pool_string_n(pool, s, strlen(s)) : NULL;
}

char *pool_printf(struct pool *pool, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int n = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (n < 0)
        mem_failed();
    char *s = pool_alloc(pool, (size_t)n + 1);
    vsnprintf(s, (size_t)n + 1, format, again);
    va_end(again);
    return s;
}

void pool_free(struct pool *pool)
{
    for (struct pool_chunk *c = pool->chunks, *next; c; c = next) {
        next = c->next;
        free(c);
    }
    pool->chunks = NULL;
}
