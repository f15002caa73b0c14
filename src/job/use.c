/* A job and the files that it uses, put together: a section that the job lacks is taken whole from a used file. */
#define _POSIX_C_SOURCE 200809L
#include "job/use.h"

#include "base/file.h"
#include "job/guess.h"
#include "job/tables.h"

#include <errno.h>
#include <sha256.h>
#include <string.h>

static const char *const sections[] = {"units",  "paper",       "saw",        "air",   "stock",
                                       "screws", "instruments", "tolerances", "retest"};

static bool is_section(const char *key)
{
    for (size_t i = 0; i < sizeof sections / sizeof *sections; i++)
        if (strcmp(sections[i], key) == 0)
            return true;
    return false;
}

/* ---- Texts ---- */

static void add_source(struct reader *r, const char *name, const char *text, size_t size)
{
    struct job *job = r->job;
    struct pool *pool = &job->pool;
    if (!job->sources)
        job->sources = pool_alloc(pool, (1 + USE_MOST) * sizeof *job->sources);
    job->sources[job->n_sources++] =
        (struct job_source){pool_string(pool, name), pool_string_n(pool, text, size), size};
}

static void make_fingerprint(struct job *job)
{
    unsigned char digest[SHA256_DIGEST_LENGTH];
    SHA256_CTX sha;
    SHA256_Init(&sha);
    for (size_t i = 0; i < job->n_sources; i++)
        SHA256_Update(&sha, (const uint8_t *)job->sources[i].text, job->sources[i].size);
    SHA256_Final(digest, &sha);
    for (size_t i = 0; i < sizeof digest; i++) {
        static const char hex[] = "0123456789abcdef";
        job->fingerprint[2 * i] = hex[digest[i] >> 4];
        job->fingerprint[2 * i + 1] = hex[digest[i] & 15];
    }
}

static const struct node *parse(struct reader *r, const char *name, const char *text, size_t size)
{
    int file = diags_add_source(r->diags, name, text, size);
    bool complete = true;
    const struct node *root = NULL;
    if (r->job->n_sources == 0)
        r->first_file = file;
    add_source(r, name, text, size);
    if (size == 0)
        diag_at(r->diags, DIAG_EMPTY, (struct mark){.file = file}, NULL, "it has no bytes");
    else
        root = node_read(text, size, file, &r->job->pool, r->diags, &complete);
    if (!complete || !root)
        r->excuse_absent = true;
    if (root && root->kind != NODE_MAP) {
        diag_at(r->diags, DIAG_WRONG_TYPE, root->mark, NULL,
                "found %s; a job is a mapping of keys that begins with `fettle: 1`", reader_show(r, root));
        return NULL;
    }
    return root;
}

/* ---- What a file says of itself ---- */

/* False where a newer program is needed: nothing else of the file can be judged then. */
static bool check_version(struct reader *r, const struct node *root)
{
    const struct node *n = node_find(root, "fettle");
    double v = 0;
    if (!n)
        return true;
    if (n->kind != NODE_SCALAR || unit_parse(n->text, QUANTITY_NUMBER, UNITS_MM, &v) != QUANTITY_OK)
        diag_at(r->diags, DIAG_BAD_NUMBER, n->mark, "fettle", "found %s; the version of this format is 1",
                reader_show(r, n));
    else if (v > 1)
        return diag_at(r->diags, DIAG_NEWER, n->mark, "fettle",
                       "found version %.6g of the format; this program knows version 1", v);
    else if (v != 1)
        diag_at(r->diags, DIAG_OUT_OF_RANGE, n->mark, "fettle", "found %.6g; the version of this format is 1", v);
    return true;
}

/* The section `units` of a file, or what it is where the file has none. Errors about the word come with the section. */
static enum units units_in(const struct node *root, enum units otherwise)
{
    const struct node *n = node_find(root, "units");
    return n && n->kind == NODE_SCALAR ? (strcmp(n->text, "in") == 0 ? UNITS_IN : UNITS_MM) : otherwise;
}

/* Bare numbers of a file are read by its own units, else by the job's. */
static void settle_units(struct reader *r, const struct node *whole, const struct node *const roots[])
{
    enum units job_units = units_in(whole, UNITS_MM);
    for (size_t i = 0; i < r->job->n_sources; i++)
        r->units_of[i] = units_in(roots[i], job_units);
}

/* ---- Used files ---- */

static bool is_allowed_path(const char *path)
{
    const char *p = strncmp(path, "../", 3) == 0 ? path + 3 : path;
    if (*p == '/' || !*p)
        return false;
    for (; p; p = strchr(p, '/') ? strchr(p, '/') + 1 : NULL)
        if (strcmp(p, "..") == 0 || strncmp(p, "../", 3) == 0)
            return false;
    return true;
}

static const char *beside(struct reader *r, const char *job_name, const char *path)
{
    const char *slash = strrchr(job_name, '/');
    return pool_printf(&r->job->pool, "%.*s%s", slash ? (int)(slash - job_name + 1) : 0, job_name, path);
}

bool use_read_bytes(struct diags *diags, const char *name, struct mark m, const char *path, struct text *out)
{
    enum file_read_result result = file_read(name, FILE_LIMIT, out);
    switch (result) {
    case FILE_READ:
        return true;
    case FILE_NOT_PLAIN:
        return diag_at(diags, DIAG_NOT_A_FILE, m, path, "%s", name);
    case FILE_TOO_LARGE:
        return diag_at(diags, DIAG_TOO_LARGE, m, path, "%s: at most 1 MiB", name);
    case FILE_NOT_READABLE:
        break;
    }
    const char *why = errno == ENOENT   ? "there is no such file"
                      : errno == EACCES ? "permission denied"
                                        : "the system refuses it";
    return diag_at(diags, DIAG_CANNOT_READ, m, path, "%s: %s", name, why);
}

static const char *section_fault(const struct node *n)
{
    if (strcmp(n->key, "use") == 0)
        return "a used file uses no other";
    return table_find(&root_table, n->key) ? "this section belongs in the job itself" : NULL;
}

static void refuse_section(struct reader *r, const struct node *n)
{
    const char *fault = section_fault(n);
    struct guess g = {.wanted = n->key};
    for (size_t i = 0; i < sizeof sections / sizeof *sections; i++)
        guess_offer(&g, sections[i]);
    if (fault)
        diag_at(r->diags, DIAG_BAD_USE, n->key_mark, n->key, "%s", fault);
    else if (g.best)
        diag_at(r->diags, DIAG_UNKNOWN_KEY, n->key_mark, n->key, "did you mean \"%s\"?", g.best);
    else
        diag_at(r->diags, DIAG_UNKNOWN_KEY, n->key_mark, n->key,
                "a used file holds units, paper, saw, air, stock, screws, instruments, tolerances, retest");
}

static void add_entry(struct pool *pool, struct node *map, const struct node *entry)
{
    struct node *copy = pool_copy(pool, entry, sizeof *entry);
    copy->next = map->first;
    map->first = copy;
    map->n++;
}

/* `whole` is the job with the sections taken so far; `own` the job alone. */
static void take_sections(struct reader *r, const struct node *used, const struct node *own, struct node *whole)
{
    for (const struct node *n = used->first; n; n = n->next) {
        const struct node *there = node_find(whole, n->key);
        if (strcmp(n->key, "fettle") == 0)
            continue;
        if (!is_section(n->key))
            refuse_section(r, n);
        else if (!there)
            add_entry(&r->job->pool, whole, n);
        else if (!node_find(own, n->key))
            diag_at(r->diags, DIAG_BAD_USE, n->key_mark, n->key,
                    "another used file holds this section too: keep one, or put the section in the job");
    }
}

/* Gives the file's own mapping; NULL after an error. */
static const struct node *use_one(struct reader *r, const char *job_name, const struct node *entry, size_t index)
{
    const char *path = pool_printf(&r->job->pool, "use[%zu]", index);
    const struct node *used = NULL;
    if (entry->kind != NODE_SCALAR || entry->is_nothing || !is_allowed_path(entry->text)) {
        diag_at(r->diags, DIAG_BAD_USE, entry->mark, path, "found %s; a relative path with at most one ../ at its head",
                reader_show(r, entry));
        return NULL;
    }
    struct text text = {0};
    const char *name = beside(r, job_name, entry->text);
    if (use_read_bytes(r->diags, name, entry->mark, path, &text))
        used = parse(r, name, text_string(&text), text.size);
    text_free(&text);
    return used && check_version(r, used) ? used : NULL;
}

static const struct node *use_all(struct reader *r, const char *job_name, const struct node *own,
                                  const struct node *roots[])
{
    const struct node *list = node_find(own, "use");
    struct node *whole = pool_copy(&r->job->pool, own, sizeof *own);
    size_t i = 0;
    r->excuse_absent = r->excuse_absent || (list && (list->kind != NODE_LIST || list->n > USE_MOST));
    if (list && list->kind != NODE_LIST)
        diag_at(r->diags, DIAG_WRONG_TYPE, list->mark, "use", "found %s; a list of files belongs here, [shop.yaml]",
                reader_show(r, list));
    else if (list && list->n > USE_MOST)
        diag_at(r->diags, DIAG_TOO_MANY, list->mark, "use", "%zu; at most %d", list->n, USE_MOST);
    else
        for (const struct node *entry = list ? list->first : NULL; entry; entry = entry->next, i++) {
            const struct node *used = use_one(r, job_name, entry, i);
            if (used) {
                roots[r->job->n_sources - 1] = used;
                take_sections(r, used, own, whole);
            } else {
                r->excuse_absent = true;
            }
        }
    return whole;
}

const struct node *use_read(struct reader *r, const char *name, const char *text, size_t size)
{
    const struct node *roots[1 + USE_MOST] = {parse(r, name, text, size)};
    const struct node *whole = NULL;
    if (roots[0] && check_version(r, roots[0])) {
        whole = use_all(r, name, roots[0], roots);
        settle_units(r, whole, roots);
    }
    make_fingerprint(r->job);
    return whole;
}
