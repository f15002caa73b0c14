/* Diagnostics with source line and caret. */
#include "base/diag.h"

#include "base/utf8.h"

#include <stdlib.h>
#include <string.h>

static const struct diag_fixed {
    const char *id, *text;
    enum diag_level level;
} fixed[DIAG_CODES] = {
#define DIAG(code, level, id, text) [DIAG_##code] = {id, text, DIAG_##level},
#include "base/diag_codes.inc"
#undef DIAG
};

static void find_lines(struct diag_source *source, size_t size, struct pool *pool)
{
    const char *end = source->text + size;
    size_t n = 1;
    for (const char *p = source->text; p < end; p++)
        n += *p == '\n';
    source->lines = pool_alloc(pool, n * sizeof *source->lines);
    source->lines[source->n_lines++] = source->text;
    for (const char *p = source->text; p < end; p++)
        if (*p == '\n')
            source->lines[source->n_lines++] = p + 1;
}

int diags_add_source(struct diags *d, const char *name, const char *text, size_t size)
{
    d->sources = mem_grow(d->sources, d->n_sources, &d->source_capacity, sizeof *d->sources);
    d->sources[d->n_sources] =
        (struct diag_source){.name = pool_string(&d->pool, name), .text = pool_string_n(&d->pool, text, size)};
    find_lines(&d->sources[d->n_sources], size, &d->pool);
    return (int)d->n_sources++;
}

bool diag_at(struct diags *d, enum diag_code code, struct mark mark, const char *path, const char *format, ...)
{
    struct text detail = {0};
    va_list args;
    va_start(args, format);
    text_vprintf(&detail, format, args);
    va_end(args);
    d->list = mem_grow(d->list, d->count, &d->capacity, sizeof *d->list);
    d->list[d->count++] = (struct diag){
        .code = code,
        .mark = mark,
        .path = pool_string(&d->pool, path ? path : ""),
        .detail = pool_string(&d->pool, text_string(&detail)),
    };
    text_free(&detail);
    return false;
}

enum diag_level diag_level_of(enum diag_code code)
{
    return fixed[code].level;
}

const char *diag_id(enum diag_code code)
{
    return fixed[code].id;
}

const char *diag_fixed_text(enum diag_code code)
{
    return fixed[code].text;
}

size_t diags_count_errors(const struct diags *d)
{
    size_t n = 0;
    for (size_t i = 0; i < d->count; i++)
        n += diag_level_of(d->list[i].code) == DIAG_ERROR;
    return n;
}

bool diags_have_errors(const struct diags *d)
{
    return diags_count_errors(d) > 0;
}

static bool stands_after(const struct diag *a, const struct diag *b)
{
    const struct mark *m = &a->mark, *n = &b->mark;
    if (m->file != n->file)
        return m->file > n->file;
    if (m->line != n->line)
        return m->line > n->line;
    return m->column > n->column;
}

void diags_sort(struct diags *d)
{
    for (size_t i = 1; i < d->count; i++) { /* insertion: stable, and lists are short */
        struct diag moved = d->list[i];
        size_t k = i;
        for (; k > 0 && stands_after(&d->list[k - 1], &moved); k--)
            d->list[k] = d->list[k - 1];
        d->list[k] = moved;
    }
}

void diag_message(const struct diag *one, struct text *out)
{
    text_add(out, diag_fixed_text(one->code));
    if (*one->detail)
        text_printf(out, ": %s", one->detail);
}

/* A character that a terminal may show as it is; anything else of a broken file becomes U+FFFD. */
static unsigned showable(unsigned c)
{
    bool control = (c < 0x20 && c != '\t') || (c >= 0x7F && c <= 0x9F) || c == UTF8_BAD;
    return control ? 0xFFFD : c;
}

/* The line as it stands, of a long one the part about the place; then blanks (tabs kept, so that the caret falls right)
   and carets. */
static void print_line_and_caret(const char *line, const struct mark *m, struct text *out)
{
    enum { SHOWN = 160, BEFORE = 60 };
    const char *p = line, *end = line + strcspn(line, "\r\n");
    int first = m->column > SHOWN - BEFORE ? m->column - BEFORE : 1, i = 1;
    int after = m->column + (m->length > 1 ? m->length : 1);
    struct text under = {0};
    for (; p < end && i < first + SHOWN; i++) {
        unsigned c = showable(utf8_next(&p));
        if (i < first)
            continue;
        text_add_code(out, c);
        text_add_char(&under, i >= m->column && i < after ? '^' : c == '\t' ? '\t' : ' ');
    }
    for (; i <= m->column; i++)
        text_add_char(&under, i == m->column ? '^' : ' ');
    while (under.size && under.bytes[under.size - 1] == ' ')
        under.bytes[--under.size] = '\0';
    text_printf(out, "\n    %s\n", text_string(&under));
    text_free(&under);
}

void diag_print(const struct diags *d, const struct diag *one, struct text *out)
{
    static const char *const names[] = {[DIAG_ERROR] = "error", [DIAG_CAUTION] = "caution"};
    const struct mark *m = &one->mark;
    const struct diag_source *source = (size_t)m->file < d->n_sources ? &d->sources[m->file] : NULL;
    text_add(out, source ? source->name : "fettle");
    if (m->line > 0)
        text_printf(out, ":%d:%d", m->line, m->column);
    text_printf(out, ": %s: ", names[diag_level_of(one->code)]);
    if (*one->path)
        text_printf(out, "%s: ", one->path);
    diag_message(one, out);
    text_add_char(out, '\n');
    if (m->line > 0 && source) {
        text_add(out, "    ");
        print_line_and_caret((size_t)m->line <= source->n_lines ? source->lines[m->line - 1] : "", m, out);
    }
}

void diags_free(struct diags *d)
{
    free(d->list);
    free(d->sources);
    pool_free(&d->pool);
    *d = (struct diags){0};
}
