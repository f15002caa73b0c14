/* How a mapping is read by its table, and what all messages share: the path of the value, and how values are shown. */
#include "job/reader.h"

#include "base/utf8.h"
#include "job/guess.h"
#include "job/values.h"

#include <ctype.h>
#include <string.h>

/* ---- The path of the value being read, and how it is shown ---- */

const char *reader_path(const struct reader *r)
{
    return text_string(&r->path);
}

const char *reader_key(const struct reader *r, const char *key)
{
    const char *path = reader_path(r);
    return pool_printf(&r->diags->pool, "%s%s%s", path, *path ? "." : "", key);
}

size_t reader_push(struct reader *r, const char *key)
{
    size_t before = r->path.size;
    if (before)
        text_add_char(&r->path, '.');
    text_add(&r->path, key);
    return before;
}

size_t reader_push_index(struct reader *r, size_t index)
{
    size_t before = r->path.size;
    text_printf(&r->path, "[%zu]", index);
    return before;
}

void reader_pop(struct reader *r, size_t before)
{
    r->path.size = before;
    r->path.bytes[before] = '\0';
}

enum units reader_units(const struct reader *r, struct mark m)
{
    return r->units_of[m.file - r->first_file];
}

const char *reader_show(struct reader *r, const struct node *n)
{
    enum { SHOWN = 40 };
    if (n->kind != NODE_SCALAR || n->is_nothing)
        return node_kind_name(n);
    const char *end = n->text;
    for (int i = 0; i < SHOWN && *end; i++)
        utf8_next(&end);
    return pool_printf(&r->diags->pool, "\"%.*s%s\"", (int)(end - n->text), n->text, *end ? "…" : "");
}

const char *reader_length(struct reader *r, struct mark m, double mm)
{
    if (reader_units(r, m) == UNITS_IN)
        return pool_printf(&r->diags->pool, "%.4g in", unit_inches(mm));
    return pool_printf(&r->diags->pool, "%.6g mm", mm);
}

const char *reader_num(struct reader *r, const struct num *n)
{
    return reader_length(r, n->mark, n->v);
}

void reader_miss(struct reader *r, struct mark home, const char *path, const char *what)
{
    if (!r->excuse_absent)
        diag_at(r->diags, DIAG_MISSING_KEY, home, path, "%s", what);
}

void reader_report_word(struct reader *r, const struct node *n, const struct guess *g, const char *accepted)
{
    if (g->best)
        diag_at(r->diags, DIAG_BAD_WORD, n->mark, reader_path(r), "found %s; did you mean \"%s\"? accepted: %s",
                reader_show(r, n), g->best, accepted);
    else
        diag_at(r->diags, DIAG_BAD_WORD, n->mark, reader_path(r), "found %s; accepted: %s", reader_show(r, n),
                accepted);
}

const char *reader_join(struct reader *r, const char *list, const char *name)
{
    return pool_printf(&r->diags->pool, "%s%s%s", list, *list ? ", " : "", name);
}

bool reader_is_kind(struct reader *r, const struct node *n, enum node_kind kind, const char *wanted)
{
    if (n->is_reported)
        return false;
    if (n->kind == kind && !n->is_nothing)
        return true;
    return diag_at(r->diags, DIAG_WRONG_TYPE, n->mark, reader_path(r), "found %s; %s belongs here", reader_show(r, n),
                   wanted);
}

/* ---- Mappings ---- */

const struct field *table_find(const struct table *t, const char *key)
{
    for (; t; t = t->extends)
        for (size_t i = 0; i < t->n; i++)
            if (t->fields[i].key && strcmp(t->fields[i].key, key) == 0)
                return &t->fields[i];
    return NULL;
}

/* `title: Sled, bay 2` inside braces is three entries to YAML: title, and a key "bay 2" without a value. */
static const struct node *value_cut_by_comma(const struct node *map, const struct node *stray)
{
    const struct node *before = NULL;
    for (const struct node *n = map->first; n != stray; n = n->next)
        before = n;
    return map->is_flow && stray->is_nothing && before && before->kind == NODE_SCALAR && !before->is_nothing ? before
                                                                                                             : NULL;
}

static bool is_digit_last(const char *s)
{
    return *s && isdigit((unsigned char)s[strlen(s) - 1]);
}

static void report_comma(struct reader *r, const struct node *cut, const struct node *stray)
{
    if (is_digit_last(cut->text) && isdigit((unsigned char)*stray->key))
        diag_at(r->diags, DIAG_BAD_NUMBER, cut->mark, reader_key(r, cut->key),
                "found \"%s,%s\"; the decimal sign is a decimal point, not a comma", cut->text, stray->key);
    else
        diag_at(r->diags, DIAG_UNKNOWN_KEY, stray->key_mark, reader_key(r, stray->key),
                "a comma inside braces ends a value: put the text in quotes, %s: \"%s, %s\"", cut->key, cut->text,
                stray->key);
}

static const char *list_keys(struct reader *r, const struct table *table)
{
    const char *all = "";
    for (const struct table *t = table; t; t = t->extends)
        for (size_t i = 0; i < t->n; i++)
            all = t->fields[i].key ? reader_join(r, all, t->fields[i].key) : all;
    return all;
}

static void report_unknown_key(struct reader *r, const struct table *table, const struct node *map,
                               const struct node *n)
{
    struct guess g = {.wanted = n->key};
    const struct node *cut = value_cut_by_comma(map, n);
    for (const struct table *t = table; t; t = t->extends)
        for (size_t i = 0; i < t->n; i++)
            if (t->fields[i].key)
                guess_offer(&g, t->fields[i].key);
    if (cut)
        report_comma(r, cut, n);
    else if (g.best)
        diag_at(r->diags, DIAG_UNKNOWN_KEY, n->key_mark, reader_key(r, n->key), "did you mean \"%s\"?", g.best);
    else
        diag_at(r->diags, DIAG_UNKNOWN_KEY, n->key_mark, reader_key(r, n->key), "accepted here: %s",
                list_keys(r, table));
}

static void read_field(struct reader *r, const struct field *f, const struct node *map, struct mark home, char *out)
{
    if (f->kind == VALUE_GIVEN)
        *(bool *)(out + f->at) = map || r->excuse_absent;
    if (f->kind == VALUE_MARK)
        *(struct mark *)(out + f->at) = home;
    if (!f->key)
        return;
    const struct node *n = node_find(map, f->key);
    size_t before = reader_push(r, f->key);
    if (!n && f->required && map)
        reader_miss(r, home, reader_path(r), f->about ? f->about : "");
    read_value[f->kind](r, f, n, home, out);
    if (f->given_at)
        *(bool *)(out + f->given_at) = n != NULL;
    if (f->mark_at)
        *(struct mark *)(out + f->mark_at) = n ? n->mark : home;
    reader_pop(r, before);
}

void read_table(struct reader *r, const struct table *table, const struct node *map, struct mark home, void *out)
{
    bool excused = r->excuse_absent;
    if (map && !reader_is_kind(r, map, NODE_MAP, "a mapping of keys")) {
        map = NULL;
        r->excuse_absent = true; /* said once; not again for each key inside */
    }
    for (const struct table *t = table; t; t = t->extends)
        for (size_t i = 0; i < t->n; i++)
            read_field(r, &t->fields[i], map, home, out);
    for (const struct node *n = map ? map->first : NULL; n; n = n->next)
        if (!table_find(table, n->key))
            report_unknown_key(r, table, map, n);
    for (const struct table *t = table; t; t = t->extends)
        if (map && t->check)
            t->check(r, map, out);
    r->excuse_absent = excused;
}
