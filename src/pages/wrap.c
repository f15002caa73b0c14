/* Break places in YAML.

   A single blank between two words may become a line end with deeper indent where YAML folds it back to one blank:
   between the entries of a flow collection, after a key's colon, inside a plain or quoted scalar. Not inside a key,
   which must stand on one line, not beside another blank, and not in the text of a block scalar. In a comment,
   anywhere. */
#include "pages/wrap.h"

#include <string.h>

struct scan {
    struct wrap_state *state;
    const char *line;
    size_t n, at;
    unsigned char *ranks;
    size_t token; /* where the scalar under way began */
    size_t key;   /* column of the line's first key or entry */
    bool fresh;   /* nothing of a scalar seen since the last indicator */
    bool key_seen;
};

static char char_at(const struct scan *s, size_t i)
{
    return i < s->n ? s->line[i] : '\0';
}

static bool is_blank_or_end(char c)
{
    return c == ' ' || c == '\0';
}

static void forbid_since_token(struct scan *s)
{
    memset(s->ranks + s->token, WRAP_NEVER, s->at - s->token);
}

static bool is_single_blank(const struct scan *s)
{
    return s->at > 0 && char_at(s, s->at) == ' ' && char_at(s, s->at - 1) != ' ' &&
           !is_blank_or_end(char_at(s, s->at + 1));
}

/* Indicators that would be read as such at the head of a line. */
static bool begins_badly(char c)
{
    return strchr("-?:#|>%@`", c) != NULL;
}

static void start_token(struct scan *s)
{
    s->token = s->at + 1;
    s->fresh = true;
}

static void scan_quoted(struct scan *s)
{
    char c = char_at(s, s->at), quote = s->state->quote;
    if (quote == '"' && c == '\\') {
        s->at++; /* whatever follows is part of it */
    } else if (c == quote && quote == '\'' && char_at(s, s->at + 1) == '\'') {
        s->at++;
    } else if (c == quote) {
        s->state->quote = 0;
        size_t after = s->at + 1;
        while (char_at(s, after) == ' ')
            after++;
        if (char_at(s, after) == ':')
            forbid_since_token(s);
    } else if (is_single_blank(s) && char_at(s, s->at + 1) != quote && s->at > s->token + 1) {
        s->ranks[s->at] = WRAP_IN_QUOTES;
    }
}

static void scan_blank(struct scan *s)
{
    char before = s->at ? char_at(s, s->at - 1) : '\0', next = char_at(s, s->at + 1);
    if (!is_single_blank(s) || (begins_badly(next) && next != '#'))
        return;
    if (next == '#' || (before == ',' && s->state->flow))
        s->ranks[s->at] = WRAP_AFTER_COMMA;
    else if (s->fresh)
        s->ranks[s->at] = before == ':' ? WRAP_AFTER_KEY : WRAP_NEVER;
    else
        s->ranks[s->at] = WRAP_IN_SCALAR;
}

/* A colon that ends a key. */
static bool ends_key(const struct scan *s)
{
    char next = char_at(s, s->at + 1);
    return is_blank_or_end(next) || (s->state->flow && strchr(",[]{}", next)) ||
           (s->at && strchr("\"'", char_at(s, s->at - 1)) && s->state->flow);
}

static void scan_plain(struct scan *s)
{
    char c = char_at(s, s->at);
    if (c == ' ') {
        scan_blank(s);
        return;
    }
    if (s->fresh && (c == '"' || c == '\'')) {
        s->state->quote = c;
        s->token = s->at;
        s->fresh = false;
    } else if (c == ':' && ends_key(s)) {
        forbid_since_token(s);
        s->key_seen = true;
        start_token(s);
    } else if ((s->fresh || s->state->flow) && strchr("[{", c)) {
        s->state->flow++;
        start_token(s);
    } else if (s->state->flow && strchr("]},", c)) {
        s->state->flow -= c != ',';
        start_token(s);
        s->fresh = c == ',';
    } else if (s->fresh && (c == '|' || c == '>') && !s->state->flow) {
        s->state->block_column = (int)s->key - !s->key_seen;
        s->fresh = false;
    } else if (s->fresh) {
        s->token = s->at;
        s->fresh = false;
    }
}

/* The dashes of block sequences before the first token; each is one column deeper. */
static void skip_dashes(struct scan *s)
{
    while (!s->state->flow && !s->state->quote && char_at(s, s->at) == '-' && char_at(s, s->at + 1) == ' ') {
        s->at++;
        while (char_at(s, s->at) == ' ')
            s->at++;
    }
}

void wrap_rank_line(struct wrap_state *state, const char *line, size_t n, unsigned char *ranks, size_t *indent,
                    size_t *comment)
{
    struct scan s = {.state = state, .line = line, .n = n, .ranks = ranks, .fresh = !state->quote};
    memset(ranks, WRAP_NEVER, n);
    *comment = n;
    while (char_at(&s, s.at) == ' ')
        s.at++;
    *indent = s.at + 4;
    if (s.at == n || (state->block_column >= 0 && (int)s.at > state->block_column))
        return;
    state->block_column = -1;
    skip_dashes(&s);
    s.key = s.token = s.at;
    *indent = s.at + 4;
    for (; s.at < n; s.at++) {
        if (state->quote) {
            scan_quoted(&s);
        } else if (line[s.at] == '#' && (s.at == 0 || line[s.at - 1] == ' ')) {
            *comment = s.at;
            break;
        } else {
            scan_plain(&s);
        }
    }
    for (s.at = *comment; s.at < n; s.at++)
        if (is_single_blank(&s) && s.at > *comment + 1)
            ranks[s.at] = WRAP_AFTER_COMMA;
}
