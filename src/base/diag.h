/* Diagnostics: what is wrong with a job, with its place in the source. Owns: messages and the source texts they quote.
   May be included by every stage. */
#ifndef FETTLE_BASE_DIAG_H
#define FETTLE_BASE_DIAG_H

#include "base/mem.h"
#include "base/text.h"

#include <stdbool.h>

/* A place in a source text. Every value of a job carries one, so that a check made late still names its line. */
struct mark {
    int file;   /* index given by diags_add_source */
    int line;   /* from 1; 0: no place */
    int column; /* from 1, in characters */
    int length; /* characters to underline, at least 1 */
};

enum diag_level { DIAG_ERROR, DIAG_CAUTION };

enum diag_code {
#define DIAG(code, level, id, text) DIAG_##code,
#include "base/diag_codes.inc"
#undef DIAG
    DIAG_CODES
};

struct diag {
    enum diag_code code;
    struct mark mark;
    const char *path;   /* key path, "saw.blade.kerf"; "" where there is none */
    const char *detail; /* what was found and what is accepted; "" where the fixed text says all */
};

struct diag_source {
    const char *name; /* as it is to be printed */
    const char *text; /* whole, NUL-terminated */
    const char **lines; /* where each begins */
    size_t n_lines;
};

/* Everything reachable from a struct diags is freed by diags_free. {0} is empty. */
struct diags {
    struct pool pool;
    struct diag *list; /* in order of report */
    size_t count, capacity;
    struct diag_source *sources;
    size_t n_sources, source_capacity;
};

int diags_add_source(struct diags *, const char *name, const char *text, size_t size); /* copies both; gives the file index */
/* Records one diagnostic. Returns false, so that a check can end with `return diag_at(...)`. */
bool diag_at(struct diags *, enum diag_code, struct mark, const char *path, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
bool diags_have_errors(const struct diags *);
size_t diags_count_errors(const struct diags *);
enum diag_level diag_level_of(enum diag_code);
const char *diag_id(enum diag_code);         /* "unknown-key": stable, for results */
const char *diag_fixed_text(enum diag_code); /* "unknown key" */
/* Sorts by file, line, column, keeping the order of report among equals. */
void diags_sort(struct diags *);
/* "file:line:col: error: path: fixed text: detail", then the source line and a caret under the place. */
void diag_print(const struct diags *, const struct diag *, struct text *out);
void diag_message(const struct diag *, struct text *out); /* "fixed text: detail" alone */
void diags_free(struct diags *);

#endif
