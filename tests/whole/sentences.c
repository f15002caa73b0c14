/* Sentences recognised by the table of words, read backward: text to key and numbers. */
#include "whole/sentences.h"

#include "base/mem.h"
#include "base/saying.h"
#include "words.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CAPTURES_MOST = 12, MEMO = 1 << 14, POSSIBLE_MOST = 256, TRIES_MOST = 3000000 };

/* What a sheet puts together without the table of words. */
static const struct {
    const char *key, *text;
} own_rows[] = {
    {"test.times_factor", "× {factor} ="},
    {"test.by_three", "÷ 3 ="},
    {"test.by_six", "÷ 6 ="},
    {"test.by_two", "÷ 2 ÷"},
};
enum { OWN_ROWS = sizeof own_rows / sizeof *own_rows };

static const struct number_rule rules[] = {
#define RULE(where, slot, kind, path) {where, slot, kind, path},
#define FREE(where, slot, reason) {where, slot, PRINTED_FREE, reason},
#include "whole/number_rules_methods.inc"
#include "whole/number_rules.inc"
#undef RULE
#undef FREE
};
/* Sentences with figures of their own. */
static const struct {
    const char *where, *reason;
} constants[] = {
#define CONSTANT(where, reason) {where, reason},
#include "whole/number_constants.inc"
#undef CONSTANT
};

static const char *const check_names[] = {
#define CHECK(id, name, unit, say) name,
#include "plan/checks.inc"
#undef CHECK
};
enum { CHECK_NAMES = sizeof check_names / sizeof *check_names };

struct sentence_table {
    const char *titles[CHECK_NAMES];
    size_t n;
    struct sentence_row {
        const char *key;
        char *text;        /* without bold marks */
        bool is_vague;     /* could be almost any text: only looked for by its key */
        size_t lead;       /* bytes before the first slot */
        const char *fixed; /* the longest piece of it between slots */
        size_t fixed_n;
    } *rows;
    unsigned now;
    struct memo { /* texts that were no sentence, of the text being read */
        const char *at, *id;
        size_t n;
        unsigned when;
    } memo[MEMO];
};

/* ---- the tables ---- */

static char *without_tags(const char *s)
{
    struct text t = {0};
    for (; *s; s++) {
        if (strncmp(s, "<b>", 3) == 0)
            s += 2;
        else if (strncmp(s, "</b>", 4) == 0)
            s += 3;
        else
            text_add_char(&t, *s);
    }
    char *copy = mem_copy_string(text_string(&t));
    text_free(&t);
    return copy;
}

/* "{why} {remedy}" would fit any text; a title of a check, a bullet or a word must stand in a sentence. */
static bool has_words(const char *text)
{
    if (strncmp(text, "{title}", 7) == 0 || strncmp(text, "•", 3) == 0)
        return true;
    for (; *text; text++) {
        if (*text == '{')
            text = strchr(text, '}');
        else if ((*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z'))
            return true;
    }
    return false;
}

static void find_fixed(struct sentence_row *row)
{
    row->lead = strcspn(row->text, "{");
    row->is_vague = !has_words(row->text) && strncmp(row->key, "test.", 5) != 0;
    for (const char *p = row->text; *p;) {
        size_t n = strcspn(p, "{");
        if (n > row->fixed_n) {
            row->fixed = p;
            row->fixed_n = n;
        }
        p += n;
        if (*p)
            p = strchr(p, '}') + 1;
    }
}

struct sentence_table *sentences_begin(void)
{
    struct sentence_table *t = mem_alloc(sizeof *t);
    t->now = 1;
    while (words_key(t->n))
        t->n++;
    t->rows = mem_alloc((t->n + OWN_ROWS) * sizeof *t->rows);
    for (size_t i = 0; i < t->n; i++)
        t->rows[i] = (struct sentence_row){words_key(i), without_tags(words_find(words_key(i))), false, 0, NULL, 0};
    for (size_t i = 0; i < OWN_ROWS; i++)
        t->rows[t->n++] = (struct sentence_row){own_rows[i].key, without_tags(own_rows[i].text), false, 0, NULL, 0};
    for (size_t i = 0; i < t->n; i++)
        find_fixed(&t->rows[i]);
    for (size_t i = 0; i < CHECK_NAMES; i++) {
        char key[96];
        snprintf(key, sizeof key, "check.%s.title", check_names[i]);
        t->titles[i] = words_get(key);
    }
    return t;
}

void sentences_end(struct sentence_table *t)
{
    for (size_t i = 0; i < t->n; i++)
        free(t->rows[i].text);
    free(t->rows);
    free(t);
}

void strip_bold(const char *marked, struct text *plain)
{
    text_clear(plain);
    for (; *marked; marked++)
        if (*marked != TEXT_BOLD_ON && *marked != TEXT_BOLD_OFF)
            text_add_char(plain, *marked);
}

static bool glob_matches(const char *glob, const char *key)
{
    size_t n = strlen(glob);
    if (n > 0 && glob[n - 1] == '*')
        return strncmp(glob, key, n - 1) == 0;
    return strcmp(glob, key) == 0;
}

const struct number_rule *rule_find(const char *where, const char *slot)
{
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        if (rules[i].slot[0] == slot[0] && strcmp(rules[i].slot, slot) == 0 && glob_matches(rules[i].where, where))
            return &rules[i];
    return NULL;
}

static bool is_constant(const char *key)
{
    for (size_t i = 0; i < sizeof constants / sizeof *constants; i++)
        if (glob_matches(constants[i].where, key))
            return true;
    return false;
}

/* ---- numbers against paths ---- */

static const struct {
    char letter;
    int kind;
} kind_letters[] = {
    {'p', PRINTED_PLACES}, {'r', PRINTED_RESULT}, {'u', PRINTED_UP}, {'e', PRINTED_EXACT}, {'f', PRINTED_FIGURE},
    {'c', SAY_COUNT}, {'z', SAY_SIZE}, {'t', SAY_THICKNESS}, {'w', SAY_FIT}, {'n', SAY_NUMBER}, {'d', PRINTED_DATE},
    {'v', SAY_ERROR}, {'m', SAY_MOVE},
};

/* How the numbers of a check are printed, by its id. */
static int kind_of_check(const char *id)
{
    static const struct {
        const char *id;
        int kind;
    } checks[] = {
#define CHECK(id, name, unit, say) {name, say},
#include "plan/checks.inc"
#undef CHECK
    };
    for (size_t i = 0; id && i < sizeof checks / sizeof *checks; i++)
        if (strcmp(checks[i].id, id) == 0)
            return checks[i].kind;
    return SAY_NOTHING;
}

static int resolve_kind(const struct reading *r, int kind, const struct printed *p)
{
    if (kind == PRINTED_CHECK) { /* a limit that is no whole 64th of an inch stands as a decimal, and its row with it */
        int own = kind_of_check(r->place.id);
        return own == SAY_SIZE && r->units == UNITS_IN && p->places > 0 ? SAY_THICKNESS : own;
    }
    if (kind == PRINTED_SIZE_OR_FIT)
        return p->places >= 2 ? SAY_FIT : SAY_SIZE;
    return kind;
}

static bool agrees_with_any(const struct reading *r, const struct printed *p, int kind, const struct candidates *c)
{
    for (size_t i = 0; p->is_date && i < c->n_texts; i++)
        if (strlen(c->text[i]) == p->n && strncmp(c->text[i], p->at, p->n) == 0)
            return true;
    for (size_t i = 0; !p->is_date && i < c->n_numbers; i++)
        if (printed_agrees(p, resolve_kind(r, kind, p), c->number[i], r->units))
            return true;
    return false;
}

/* One number against "p:path | c:path | path". */
static bool number_holds(const struct reading *r, const struct printed *p, int kind, const char *alternatives, size_t n)
{
    struct candidates *found = mem_resize(NULL, sizeof *found);
    bool ok = false;
    for (size_t at = 0; at < n && !ok;) {
        char one[512];
        size_t length = 0;
        while (at + length < n && strncmp(alternatives + at + length, " | ", 3) != 0)
            length++;
        snprintf(one, sizeof one, "%.*s", (int)length, alternatives + at);
        int own = kind;
        const char *path = one;
        if (one[0] && one[1] == ':') {
            for (size_t i = 0; i < sizeof kind_letters / sizeof *kind_letters; i++)
                if (kind_letters[i].letter == one[0])
                    own = kind_letters[i].kind;
            path += 2;
        }
        results_find(r->job, path, &r->place, found);
        ok = agrees_with_any(r, p, own, found);
        at += length + 3;
    }
    free(found);
    return ok;
}

/* Each number of the text against the path's elements in turn, over again from the first. */
static bool numbers_hold(const struct reading *r, int kind, const char *path, const char *text, size_t n)
{
    char *copy = mem_alloc(n + 1);
    memcpy(copy, text, n);
    const char *p = copy, *element = path;
    bool ok = true;
    for (struct printed one; ok && printed_next(&p, &one);) {
        const char *end = strstr(element, " ; ");
        size_t length = end ? (size_t)(end - element) : strlen(element);
        ok = number_holds(r, &one, kind, element, length);
        element = end ? end + 3 : path;
    }
    free(copy);
    return ok;
}

static bool is_text_of(const struct reading *r, const char *path, const char *text, size_t n)
{
    struct candidates *found = mem_resize(NULL, sizeof *found);
    bool ok = false;
    results_find(r->job, path, &r->place, found);
    for (size_t i = 0; i < found->n_texts && !ok; i++)
        ok = strlen(found->text[i]) == n && memcmp(found->text[i], text, n) == 0;
    free(found);
    return ok;
}

bool rule_holds(struct reading *r, const struct number_rule *rule, const char *text, size_t n)
{
    switch (rule->kind) {
    case PRINTED_FREE:
        return true;
    case PRINTED_WORDS:
        return sentence_explained(r, text, n);
    case PRINTED_NAME:
        return is_text_of(r, rule->path, text, n);
    default:
        return !rule->path || numbers_hold(r, rule->kind, rule->path, text, n);
    }
}

/* ---- a sentence and its captures ---- */

struct capture {
    const char *name, *at;
    size_t name_n, n;
};
struct match {
    const char *key;
    struct capture captures[CAPTURES_MOST];
    int n;
    size_t fixed; /* bytes of fixed text */
};

static bool is_likelier_fault(struct reading *r, const struct match *m)
{
    bool likelier = m->fixed + 1 > r->fault_fixed;
    if (likelier) {
        r->fault_fixed = m->fixed + 1;
        text_clear(r->fault);
    }
    return likelier;
}

static void note_fault(struct reading *r, const struct match *m, const struct capture *c, const char *why)
{
    if (is_likelier_fault(r, m))
        text_printf(r->fault, "%s {%.*s} \"%.*s\": %s", m->key, (int)c->name_n, c->name, (int)c->n, c->at, why);
}

static const struct number_rule *rule_of(const struct match *m, const struct capture *c)
{
    char slot[64];
    snprintf(slot, sizeof slot, "%.*s", (int)c->name_n, c->name);
    return rule_find(m->key, slot);
}

/* A text that a saying holds: as it is, or the words that it names. */
static bool is_said_text(struct reading *r, const char *text, const char *at, size_t n)
{
    const char *words = words_find(text);
    struct text plain = {0};
    if (words)
        strip_bold(words, &plain);
    bool ok = (strlen(text) == n && memcmp(text, at, n) == 0) ||
              (words && plain.size == n && memcmp(text_string(&plain), at, n) == 0);
    text_free(&plain);
    return ok || (words && sentence_explained(r, at, n));
}

static bool is_said_by(struct reading *r, const struct match *m, const cJSON *with)
{
    for (int i = 0; i < m->n; i++) {
        const struct capture *c = &m->captures[i];
        if (!has_digit(c->at, c->n))
            continue;
        char name[64], copy[512];
        snprintf(name, sizeof name, "%.*s", (int)c->name_n, c->name);
        snprintf(copy, sizeof copy, "%.*s", (int)c->n, c->at);
        const cJSON *value = cJSON_GetObjectItemCaseSensitive(with, name);
        const struct number_rule *rule = rule_of(m, c);
        const char *p = copy;
        struct printed one;
        bool ok = false;
        if (cJSON_IsString(value))
            ok = is_said_text(r, value->valuestring, c->at, c->n);
        else if (cJSON_IsNumber(value) && printed_next(&p, &one))
            ok = printed_agrees(&one, rule ? resolve_kind(r, rule->kind, &one) : PRINTED_SAID, value->valuedouble, r->units) &&
                 !has_digit(p, strlen(p));
        if (!ok) {
            note_fault(r, m, c, "not what the saying in the results holds");
            return false;
        }
    }
    return true;
}

/* A sentence that the results hold as a saying must be one of them, number for number. */
static bool is_said(struct reading *r, const struct match *m, bool *any)
{
    *any = false;
    size_t low = 0, high = r->said.n; /* sorted by key */
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (strcmp(r->said.list[middle].key, m->key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (size_t i = low; i < r->said.n && strcmp(r->said.list[i].key, m->key) == 0; i++) {
        *any = true;
        if (is_said_by(r, m, r->said.list[i].with))
            return true;
    }
    return false;
}

/* "not above": the sum of two printed numbers must be the third, as the reader will check. */
static bool adds_up(const struct match *m)
{
    double e = NAN, u = NAN, sum = NAN, difference = NAN, sign = 1;
    for (int i = 0; i < m->n; i++) {
        const struct capture *c = &m->captures[i];
        struct printed one = {0};
        char copy[64];
        snprintf(copy, sizeof copy, "%.*s", (int)c->n, c->at);
        const char *p = copy;
        if (strncmp(c->name, "sign", c->name_n) == 0)
            sign = strncmp(c->at, MINUS, strlen(MINUS)) == 0 ? -1 : 1;
        if (!printed_next(&p, &one))
            continue;
        double *to = c->name_n == 1 && *c->name == 'e' ? &e : c->name_n == 1 && *c->name == 'u' ? &u : c->name_n == 3 ? &sum : c->name_n == 10 ? &difference : NULL;
        if (to)
            *to = one.value;
    }
    return fabs(e + sign * u - sum) < 1e-9 && (isnan(difference) || fabs(e - u - difference) < 1e-9);
}

bool title_fits(const char *pattern, const char *title, size_t n)
{
    size_t fixed = strcspn(pattern, "{");
    if (fixed > n || memcmp(pattern, title, fixed) != 0)
        return false;
    if (!pattern[fixed])
        return fixed == n;
    const char *rest = strchr(pattern + fixed, '}') + 1;
    for (size_t k = fixed + 1; k <= n; k++)
        if (title_fits(rest, title + k, n - k))
            return true;
    return false;
}

/* Titles of checks name the check that a sentence speaks of. */
static const char *check_id_of_title(const struct sentence_table *table, const char *title, size_t n)
{
    for (size_t i = 0; i < CHECK_NAMES; i++)
        if (title_fits(table->titles[i], title, n))
            return check_names[i];
    return NULL;
}

static const char *check_id_of_key(const char *key)
{
    for (size_t i = 0; strncmp(key, "check.", 6) == 0 && i < CHECK_NAMES; i++)
        if (strncmp(key + 6, check_names[i], strlen(check_names[i])) == 0 && key[6 + strlen(check_names[i])] == '.')
            return check_names[i];
    return NULL;
}

static void find_place(struct reading *r, const struct match *m)
{
    const char *id = check_id_of_key(m->key);
    for (int i = 0; i < m->n && !id; i++)
        if (m->captures[i].name_n == 5 && strncmp(m->captures[i].name, "title", 5) == 0)
            id = check_id_of_title(r->table, m->captures[i].at, m->captures[i].n);
    if (id)
        r->place.id = id;
}

static bool captures_hold(struct reading *r, const struct match *m, bool said)
{
    for (int i = 0; i < m->n; i++) {
        const struct capture *c = &m->captures[i];
        if (!has_digit(c->at, c->n))
            continue;
        const struct number_rule *rule = rule_of(m, c);
        bool ok = rule ? (said || rule->path || rule->kind == PRINTED_WORDS) && rule_holds(r, rule, c->at, c->n)
                       : said || sentence_explained(r, c->at, c->n);
        if (!ok) {
            note_fault(r, m, c, rule ? "not what the results hold" : "no rule for it");
            return false;
        }
    }
    return true;
}

static bool match_holds(struct reading *r, const struct match *m, const char *pattern)
{
    struct reading here = *r;
    find_place(&here, m);
    bool literal = false;
    for (const char *p = pattern; *p; p++) {
        if (*p == '{')
            p = strchr(p, '}');
        else if (has_digit(p, 1))
            literal = true;
    }
    if (literal && !is_constant(m->key)) {
        if (is_likelier_fault(r, m))
            text_printf(r->fault, "%s has a figure of its own that is not in the list of constants", m->key);
        return false;
    }
    bool any = false, said = is_said(&here, m, &any), ok = (!any || said) && captures_hold(&here, m, said);
    r->tries = here.tries;
    r->fault_fixed = here.fault_fixed;
    if (!ok)
        return false;
    bool is_sum = strncmp(m->key, "five_cut.not_above", 18) == 0 || strncmp(m->key, "five_cut.above", 14) == 0 ||
                  strncmp(m->key, "five_cut.between", 16) == 0;
    return !is_sum || adds_up(m);
}

/* Tries every way in which the pattern can be the text; r NULL: the first way is enough. */
static bool match_rest(struct reading *r, struct match *m, const char *pattern, const char *p, const char *t, const char *end)
{
    if (r && ++r->tries > TRIES_MOST)
        return false;
    while (*p && *p != '{') {
        if (t == end || *t != *p)
            return false;
        p++;
        t++;
        m->fixed++;
    }
    if (!*p)
        return t == end && (!r || match_holds(r, m, pattern));
    const char *close = strchr(p, '}');
    struct capture *c = &m->captures[m->n++];
    size_t fixed = m->fixed, n = (size_t)(close - p - 1);
    *c = (struct capture){.name = p + 1, .at = t, .name_n = n && p[n] == '#' ? n - 1 : n};
    for (const char *to = t + (close[1] ? 0 : end - t); to <= end; to++) {
        if (close[1] && close[1] != '{' && (to == end || *to != close[1]))
            continue;
        c->n = (size_t)(to - t);
        m->fixed = fixed;
        int n_captures = m->n;
        if (r && c->name_n == 5 && strncmp(c->name, "title", 5) == 0 && !check_id_of_title(r->table, c->at, c->n))
            continue;
        if (match_rest(r, m, pattern, close + 1, to, end))
            return true;
        m->n = n_captures;
    }
    m->n--;
    return false;
}

static bool holds_piece(const char *text, size_t n, const struct sentence_row *row)
{
    for (size_t i = 0; row->fixed && i + row->fixed_n <= n; i++)
        if (text[i] == *row->fixed && memcmp(text + i, row->fixed, row->fixed_n) == 0)
            return true;
    return false; /* a sentence without a word of its own tells nothing */
}

/* Sentences that a text may be or begin with. */
struct possible {
    const struct sentence_row *rows[POSSIBLE_MOST];
    size_t n;
};
static void list_possible(const struct sentence_table *table, const char *text, size_t n, struct possible *out)
{
    out->n = 0;
    for (size_t i = 0; i < table->n && out->n < POSSIBLE_MOST; i++) {
        const struct sentence_row *row = &table->rows[i];
        if (!row->is_vague && *row->text && (*row->text == *text || !row->lead) && row->lead <= n && memcmp(row->text, text, row->lead) == 0 &&
            holds_piece(text, n, row))
            out->rows[out->n++] = row;
    }
}

static bool whole_explained(struct reading *r, const struct possible *possible, const char *text, size_t n)
{
    for (size_t i = 0; i < possible->n; i++) {
        struct match m = {.key = possible->rows[i]->key};
        const char *pattern = possible->rows[i]->text;
        if (match_rest(r, &m, pattern, pattern, text, text + n))
            return true;
    }
    return false;
}

static int compare_keys(const void *a, const void *b)
{
    const struct said *x = a, *y = b;
    return strcmp(x->key, y->key);
}

void reading_begin(struct reading *r)
{
    r->said = (struct said_list){0};
    results_list_said(r->job, &r->said);
    qsort(r->said.list, r->said.n, sizeof *r->said.list, compare_keys);
    r->texts = mem_resize(NULL, sizeof *r->texts);
    results_find(r->job,
                 "number | title | shop | made_by | saw.name | stock[*].name | stock[*].material | instruments[*].name | "
                 "instruments[*].certificate | tests[*].by | tests[*].note | changes[*].what | fingerprint | record_id | "
                 "program | parts[*].name",
                 &r->place, r->texts);
}

void reading_end(struct reading *r)
{
    free(r->said.list);
    free(r->texts);
}

/* What the job calls things stands on the sheets as it is. */
static bool is_text_of_job(const struct reading *r, const char *text, size_t n)
{
    for (size_t i = 0; i < r->texts->n_texts; i++)
        if (strncmp(r->texts->text[i], text, n) == 0 && r->texts->text[i][n] == '\0')
            return true;
    return false;
}

static size_t separator_at(const char *p, size_t n)
{
    static const char *const separators[] = {"; ", ", ", "\n", " "};
    for (size_t i = 0; i < sizeof separators / sizeof *separators; i++)
        if (strlen(separators[i]) <= n && strncmp(p, separators[i], strlen(separators[i])) == 0)
            return strlen(separators[i]);
    return 0;
}

static struct memo *memo_of(const struct reading *r, const char *text, size_t n)
{
    return &r->table->memo[((size_t)(uintptr_t)text * 31 + n * 2654435761u) % MEMO];
}

static bool text_explained(struct reading *r, const char *text, size_t n)
{
    struct possible possible;
    if (!has_digit(text, n) || is_text_of_job(r, text, n))
        return true;
    list_possible(r->table, text, n, &possible);
    if (whole_explained(r, &possible, text, n))
        return true;
    for (size_t i = 1; i < n; i++) {
        size_t between = separator_at(text + i, n - i);
        if (text[i] == ' ' && !strchr(".:;!?)", text[i - 1])) /* a sentence ends so, or not at a blank */
            continue;
        if (between && i + between < n && (is_text_of_job(r, text, i) || whole_explained(r, &possible, text, i)) &&
            sentence_explained(r, text + i + between, n - i - between))
            return true;
    }
    return false;
}

bool sentence_explained(struct reading *r, const char *text, size_t n)
{
    struct memo *m = memo_of(r, text, n);
    if (m->when == r->table->now && m->at == text && m->n == n && m->id == r->place.id)
        return false;
    if (text_explained(r, text, n))
        return true;
    *m = (struct memo){text, r->place.id, n, r->table->now};
    return false;
}

bool vague_explained(struct reading *r, const char *text, size_t n)
{
    for (size_t i = 0; i < r->table->n; i++) {
        struct match m = {.key = r->table->rows[i].key};
        const char *pattern = r->table->rows[i].text;
        if (r->table->rows[i].is_vague && *pattern && match_rest(r, &m, pattern, pattern, text, text + n))
            return true;
    }
    return false;
}

void sentences_forget(struct sentence_table *table)
{
    table->now++;
}

const char *sentence_key(const struct sentence_table *table, const char *prefix, const char *text)
{
    const char *best = NULL;
    size_t most = 0, n = strlen(text);
    for (size_t i = 0; i < table->n; i++) {
        const char *pattern = table->rows[i].text;
        struct match m = {.key = table->rows[i].key};
        bool vague = table->rows[i].is_vague && strcmp(prefix, "draw.") != 0;
        if (*pattern && !vague && strncmp(m.key, prefix, strlen(prefix)) == 0 && holds_piece(text, n, &table->rows[i]) && match_rest(NULL, &m, pattern, pattern, text, text + n) && m.fixed + 1 > most) {
            best = table->rows[i].key;
            most = m.fixed + 1;
        }
    }
    return best;
}
