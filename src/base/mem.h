/* Memory: checked allocation, and pools that free all they gave out at once. Owns: the out-of-memory policy.
   May be included by every stage. */
#ifndef FETTLE_BASE_MEM_H
#define FETTLE_BASE_MEM_H

#include <stddef.h>

/* Out of memory ends the program with this exit status (the contract's "the machine failed"), so no caller has a
   branch for it and no output is half-written: files are written whole, last. */
#define EXIT_MACHINE_FAILED 3

_Noreturn void mem_failed(void);       /* for libraries that report a failed allocation themselves */
void *mem_alloc(size_t n);             /* n zeroed bytes, to be freed; never NULL */
void *mem_resize(void *p, size_t n);   /* p may be NULL; the added bytes are not zeroed; never NULL */
char *mem_copy_string(const char *s);  /* to be freed */

/* Makes room for one more element in an array that grows by doubling: *items has *capacity places, count in use. */
void *mem_grow(void *items, size_t count, size_t *capacity, size_t element);

/* A pool owns everything taken from it; pool_free releases all at once. {0} is an empty pool. */
struct pool {
    struct pool_chunk *chunks; /* newest first */
};
void *pool_alloc(struct pool *, size_t n); /* n zeroed bytes, aligned for any type */
void *pool_copy(struct pool *, const void *p, size_t n);
char *pool_string(struct pool *, const char *s);            /* NULL stays NULL */
char *pool_string_n(struct pool *, const char *s, size_t n); /* n bytes and a NUL */
char *pool_printf(struct pool *, const char *format, ...) __attribute__((format(printf, 2, 3)));
void pool_free(struct pool *); /* leaves an empty pool */

#endif
