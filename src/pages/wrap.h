/* wrap.h: where a line of YAML may be broken so that its meaning stays: for printing a job so that the text taken from
   the page is the same job. Knows just enough of YAML 1.2: quotes, flow collections, keys, comments, block scalars.
   Private to src/pages. */
#ifndef FETTLE_PAGES_WRAP_H
#define FETTLE_PAGES_WRAP_H

#include <stdbool.h>
#include <stddef.h>

/* What goes on from line to line. {0, .block_column = -1} before the first. */
struct wrap_state {
    char quote;       /* open quotation mark; 0: none */
    int flow;         /* depth of [ and { */
    int block_column; /* column of what a block scalar belongs to: deeper lines are its text; -1: none */
};

/* How good a break at a blank is; WRAP_NEVER changes the meaning. */
enum wrap_rank { WRAP_NEVER, WRAP_IN_QUOTES, WRAP_IN_SCALAR, WRAP_AFTER_KEY, WRAP_AFTER_COMMA };

/* Ranks every byte of a line (of n bytes, without its end): a break there replaces the blank by a line end and an
   indent of at least `indent` blanks. comment is where a comment begins, n if there is none: a rest of it needs its own
   "# ". */
void wrap_rank_line(struct wrap_state *, const char *line, size_t n, unsigned char *ranks, size_t *indent,
                    size_t *comment);

#endif
