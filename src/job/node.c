/* From bytes to nodes in two passes: the characters (UTF-8, nothing that cannot be printed), then libyaml's events.
   Aliases become copies of their anchor's node that share its entries, so that an exploding file costs a counter, no
   memory: every node knows how many nodes hang below it, and the sum is checked before the copy is made. */
#include "job/node.h"

#include "base/utf8.h"

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

struct anchor {
    const char *name;
    const struct node *node;
};

struct parse {
    yaml_parser_t yaml;
    const char *text; /* what libyaml reads */
    int file;
    struct pool *pool;
    struct diags *diags;
    struct anchor *anchors;
    size_t n_anchors, anchor_capacity;
    size_t total;
    bool stopped;
};

/* libyaml's complaints in the words of someone who mends the file. */
static const struct complaint {
    const char *problem, *plain;
} complaints[] = {
    {"mapping values are not allowed in this context",
     "a colon and a blank inside a text: put the text in quotes; or a line above that is not indented as it should be"},
    {"did not find expected ',' or '}'", "a comma or the closing brace } is missing before this place"},
    {"did not find expected ',' or ']'", "a comma or the closing bracket ] is missing before this place"},
    {"did not find expected key",
     "this line is not indented as the keys above it, or a quotation mark stands too early"},
    {"did not find expected '-' indicator", "this line is not indented as the entries above it"},
    {"did not find expected node content", "a value is missing before this place"},
    {"could not find expected ':'", "a colon and a blank must stand after a key"},
    {"found unexpected end of stream", "a quotation mark is not closed"},
    {"found character that cannot start any token", "no text can begin with this character: put it in quotes"},
    {"block sequence entries are not allowed in this context",
     "a list entry cannot begin here: put it on a line of its own"},
    {"did not find expected <document start>", "this line belongs to nothing above it"},
};

/* ---- Characters ---- */

/* Why a character cannot be used; NULL if it can. */
static const char *character_fault(unsigned c)
{
    if (c >= 0x80 && c <= 0x9F)
        return "a control character";
    if (c == 0x2028 || c == 0x2029)
        return "a line break that editors do not show";
    if (c == 0xFEFF)
        return "a byte order mark inside the text";
    if ((c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069))
        return "a mark that turns the direction of a text";
    if ((c >= 0xE000 && c <= 0xF8FF) || c >= 0xF0000)
        return "a character of the private use area";
    if ((c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF))
        return "no character of Unicode";
    return NULL;
}

static bool is_plain_control(unsigned c)
{
    return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F;
}

/* Copies the text to `clean`, each character that cannot be used as a question mark, so that the rest is still checked.
   False where it is no text at all, or has so many of them that it is none that was meant for here. */
static bool check_characters(const char *text, size_t size, int file, struct diags *diags, struct text *clean)
{
    enum { FAULTS_MOST = 20 };
    size_t bad = utf8_first_bad(text, size), faults = 0;
    struct mark here = {file, 1, 1, 1};
    const char *p = text, *end = text + bad;
    if (bad >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        p += 3;
    while (p < end) {
        unsigned c = *p ? utf8_next(&p) : 0;
        if (is_plain_control(c))
            return diag_at(diags, DIAG_NOT_TEXT, here, NULL, "it holds the control character U+%04X", c);
        if (c == '\r' && (p == end || *p != '\n'))
            return diag_at(diags, DIAG_NOT_TEXT, here, NULL,
                           "a carriage return without a line feed: save it with LF or CR LF line ends");
        const char *fault = character_fault(c);
        if (fault)
            diag_at(diags, DIAG_BAD_CHARACTER, here, NULL, "U+%04X is %s", c, fault);
        faults += fault != NULL;
        if (faults == FAULTS_MOST)
            return false;
        text_add_code(clean, fault ? '?' : c);
        here.column++;
        if (c == '\n')
            here = (struct mark){file, here.line + 1, 1, 1};
    }
    if (bad < size)
        return diag_at(diags, DIAG_BAD_UTF8, here, NULL, "the byte 0x%02X; save the file as UTF-8",
                       (unsigned char)text[bad]);
    return true;
}

/* ---- Places and events ---- */

static struct mark mark_between(const struct parse *p, yaml_mark_t from, yaml_mark_t to)
{
    struct mark m = {p->file, (int)from.line + 1, (int)from.column + 1, 1};
    if (from.line == to.line && to.column > from.column)
        m.length = (int)(to.column - from.column);
    return m;
}

static void stop(struct parse *p, enum diag_code code, struct mark mark, const char *detail)
{
    if (!p->stopped)
        diag_at(p->diags, code, mark, NULL, "%s", detail);
    p->stopped = true;
}

static unsigned character_at(const char *text, size_t index)
{
    for (size_t i = 0; i < index && *text; i++)
        utf8_next(&text);
    return *text ? utf8_next(&text) : 0;
}

static void report_syntax(struct parse *p)
{
    const char *plain = p->yaml.problem ? p->yaml.problem : "nothing more is known";
    bool is_open_quote = strcmp(plain, "found unexpected end of stream") == 0;
    yaml_mark_t at = is_open_quote ? p->yaml.context_mark : p->yaml.problem_mark;
    for (size_t i = 0; i < sizeof complaints / sizeof *complaints; i++)
        if (strcmp(plain, complaints[i].problem) == 0)
            plain = complaints[i].plain;
    if (character_at(p->text, at.index) == '\t')
        plain = "a tab: indent with blanks";
    stop(p, DIAG_SYNTAX, mark_between(p, at, at), plain);
}

static bool next_event(struct parse *p, yaml_event_t *event)
{
    if (p->stopped)
        return false;
    if (yaml_parser_parse(&p->yaml, event))
        return true;
    report_syntax(p);
    return false;
}

/* ---- Nodes ---- */

/* Escapes of a quoted text can make what check_characters has refused. */
static bool check_scalar(struct parse *p, const char *s, size_t size, struct mark mark)
{
    if (strlen(s) < size)
        return diag_at(p->diags, DIAG_BAD_CHARACTER, mark, NULL, "U+0000 is a control character");
    for (const char *q = s; *q;) {
        unsigned c = utf8_next(&q);
        const char *fault = is_plain_control(c) ? "a control character" : character_fault(c);
        if (fault)
            return diag_at(p->diags, DIAG_BAD_CHARACTER, mark, NULL, "U+%04X is %s", c, fault);
    }
    if (utf8_length(s) > TEXT_LIMIT)
        return diag_at(p->diags, DIAG_TOO_LONG, mark, NULL, "%zu characters; at most %d", utf8_length(s), TEXT_LIMIT);
    return true;
}

static bool stands_for_nothing(const char *s)
{
    static const char *const names[] = {"", "~", "null", "Null", "NULL"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(s, names[i]) == 0)
            return true;
    return false;
}

/* Line breaks, tabs and blanks in a row become one blank; none at either end. */
static const char *as_one_line(struct pool *pool, const char *s)
{
    char *line = pool_alloc(pool, strlen(s) + 1);
    size_t n = 0;
    for (; *s; s++) {
        bool is_blank = strchr(" \t\r\n", *s) != NULL;
        if (!is_blank)
            line[n++] = *s;
        else if (n && line[n - 1] != ' ')
            line[n++] = ' ';
    }
    line[n && line[n - 1] == ' ' ? n - 1 : n] = '\0';
    return line;
}

static struct node *make_scalar(struct parse *p, const yaml_event_t *event)
{
    struct node *node = pool_alloc(p->pool, sizeof *node);
    const char *value = (const char *)event->data.scalar.value;
    size_t size = event->data.scalar.length;
    *node = (struct node){.kind = NODE_SCALAR, .mark = mark_between(p, event->start_mark, event->end_mark), .total = 1};
    node->is_reported = !check_scalar(p, value, size, node->mark);
    node->text = node->is_reported ? "" : as_one_line(p->pool, value);
    node->is_nothing = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE && stands_for_nothing(value);
    return node;
}

static const struct node *find_anchor(const struct parse *p, const char *name)
{
    for (size_t i = p->n_anchors; i > 0; i--) /* the newest: an anchor may be set anew */
        if (strcmp(p->anchors[i - 1].name, name) == 0)
            return p->anchors[i - 1].node;
    return NULL;
}

static void remember_anchor(struct parse *p, const yaml_char_t *name, const struct node *node)
{
    if (!name)
        return;
    if (p->n_anchors == ANCHOR_LIMIT) {
        stop(p, DIAG_TOO_MANY, node->mark, "more than 1000 anchors");
        return;
    }
    p->anchors = mem_grow(p->anchors, p->n_anchors, &p->anchor_capacity, sizeof *p->anchors);
    p->anchors[p->n_anchors++] = (struct anchor){pool_string(p->pool, (const char *)name), node};
}

static bool count_nodes(struct parse *p, size_t more, struct mark mark)
{
    p->total += more;
    if (p->total > NODE_LIMIT)
        stop(p, DIAG_TOO_MANY, mark, "more than 20000 values, aliases counted as copies");
    return !p->stopped;
}

static struct node *copy_of_anchor(struct parse *p, const yaml_event_t *event, int depth)
{
    struct mark mark = mark_between(p, event->start_mark, event->end_mark);
    const struct node *anchor = find_anchor(p, (const char *)event->data.alias.anchor);
    struct node *node = pool_alloc(p->pool, sizeof *node);
    *node = (struct node){.kind = NODE_SCALAR, .mark = mark, .text = "", .is_reported = true, .total = 1};
    if (!anchor) {
        diag_at(p->diags, DIAG_BAD_ALIAS, mark, NULL, "*%.40s", (const char *)event->data.alias.anchor);
    } else if (depth + anchor->height > DEPTH_LIMIT) {
        stop(p, DIAG_TOO_DEEP, mark, "at most 16 levels");
    } else if (count_nodes(p, anchor->total - 1, mark)) {
        *node = *anchor;
        node->next = NULL;
        node->key = NULL;
    }
    return node;
}

static void refuse_tag(struct parse *p, const yaml_char_t *tag, struct mark mark)
{
    if (tag)
        diag_at(p->diags, DIAG_NO_TAGS, mark, NULL, "\"%.40s\"; take it out", (const char *)tag);
}

/* Gives a key's text, or NULL after an error. */
static const char *check_key(struct parse *p, const struct node *map, const struct node *key)
{
    if (key->is_reported)
        return NULL;
    if (key->kind != NODE_SCALAR || key->is_nothing) {
        diag_at(p->diags, DIAG_WRONG_TYPE, key->mark, NULL, "a key must be a word");
        return NULL;
    }
    if (strcmp(key->text, "<<") == 0) {
        diag_at(p->diags, DIAG_NO_MERGE, key->mark, NULL, "write the keys out, or share a whole section with `use`");
        return NULL;
    }
    const struct node *before = node_find(map, key->text);
    if (before) {
        diag_at(p->diags, DIAG_DUPLICATE_KEY, key->mark, NULL, "\"%s\" stands in line %d too", key->text,
                before->key_mark.line);
        return NULL;
    }
    return key->text;
}

static struct node *read_node(struct parse *p, yaml_event_t *event, int depth);

static struct node *read_next(struct parse *p, int depth, yaml_event_type_t end)
{
    yaml_event_t event;
    if (!next_event(p, &event))
        return NULL;
    if (event.type != end)
        return read_node(p, &event, depth);
    yaml_event_delete(&event);
    return NULL;
}

static void append(struct node *collection, struct node **last, struct node *entry)
{
    if (*last)
        (*last)->next = entry;
    else
        collection->first = entry;
    *last = entry;
    collection->n++;
}

static void read_list(struct parse *p, struct node *list, int depth)
{
    struct node *last = NULL, *entry;
    while ((entry = read_next(p, depth, YAML_SEQUENCE_END_EVENT)) != NULL) {
        append(list, &last, entry);
        list->total += entry->total;
        list->height = entry->height >= list->height ? entry->height + 1 : list->height;
    }
}

static void read_map(struct parse *p, struct node *map, int depth)
{
    struct node *last = NULL, *key, *value;
    while ((key = read_next(p, depth, YAML_MAPPING_END_EVENT)) != NULL) {
        if ((value = read_next(p, depth, YAML_NO_EVENT)) == NULL)
            break;
        map->total += key->total + value->total;
        map->height = value->height >= map->height ? value->height + 1 : map->height;
        value->key = check_key(p, map, key);
        value->key_mark = key->mark;
        if (value->kind != NODE_SCALAR || value->is_nothing)
            value->mark = key->mark;
        if (value->key)
            append(map, &last, value);
    }
}

static struct node *read_collection(struct parse *p, const yaml_event_t *event, int depth)
{
    bool is_map = event->type == YAML_MAPPING_START_EVENT;
    struct node *node = pool_alloc(p->pool, sizeof *node);
    *node = (struct node){.kind = is_map ? NODE_MAP : NODE_LIST,
                          .mark = mark_between(p, event->start_mark, event->start_mark),
                          .total = 1,
                          .height = 1,
                          .is_flow = is_map ? event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE
                                            : event->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE};
    refuse_tag(p, is_map ? event->data.mapping_start.tag : event->data.sequence_start.tag, node->mark);
    if (depth >= DEPTH_LIMIT)
        stop(p, DIAG_TOO_DEEP, node->mark, "at most 16 levels");
    else if (is_map)
        read_map(p, node, depth + 1);
    else
        read_list(p, node, depth + 1);
    remember_anchor(p, is_map ? event->data.mapping_start.anchor : event->data.sequence_start.anchor, node);
    return node;
}

/* Takes over the event. Never NULL. Depth: how many collections stand around it. */
static struct node *read_node(struct parse *p, yaml_event_t *event, int depth)
{
    struct node *node;
    count_nodes(p, 1, mark_between(p, event->start_mark, event->end_mark));
    if (event->type == YAML_SCALAR_EVENT) {
        node = make_scalar(p, event);
        refuse_tag(p, event->data.scalar.tag, node->mark);
        remember_anchor(p, event->data.scalar.anchor, node);
    } else if (event->type == YAML_ALIAS_EVENT) {
        node = copy_of_anchor(p, event, depth);
    } else {
        node = read_collection(p, event, depth);
    }
    yaml_event_delete(event);
    return node;
}

/* Stream start, document start, the document, document end; then the stream must end. */
static const struct node *read_document(struct parse *p)
{
    yaml_event_t event;
    struct node *root = NULL;
    while (next_event(p, &event)) {
        yaml_event_type_t type = event.type;
        if (type == YAML_DOCUMENT_START_EVENT && root)
            stop(p, DIAG_ONE_DOCUMENT, mark_between(p, event.start_mark, event.end_mark), "a second one begins here");
        if (type == YAML_SCALAR_EVENT || type == YAML_ALIAS_EVENT || type == YAML_SEQUENCE_START_EVENT ||
            type == YAML_MAPPING_START_EVENT)
            root = read_node(p, &event, 0);
        else
            yaml_event_delete(&event);
        if (type == YAML_STREAM_END_EVENT)
            break;
    }
    return root;
}

const struct node *node_read(const char *text, size_t size, int file, struct pool *pool, struct diags *diags,
                             bool *complete)
{
    struct text clean = {0};
    struct parse p = {.file = file, .pool = pool, .diags = diags};
    const struct node *root = NULL;
    *complete = false;
    if (check_characters(text, size, file, diags, &clean)) {
        p.text = text_string(&clean);
        if (!yaml_parser_initialize(&p.yaml))
            abort(); /* out of memory: no way to go on */
        yaml_parser_set_encoding(&p.yaml, YAML_UTF8_ENCODING);
        yaml_parser_set_input_string(&p.yaml, (const unsigned char *)p.text, clean.size);
        root = read_document(&p);
        yaml_parser_delete(&p.yaml);
        *complete = !p.stopped;
        if (!p.stopped && (!root || root->is_nothing)) {
            diag_at(diags, DIAG_EMPTY, (struct mark){.file = file}, NULL, "it holds no keys");
            root = NULL;
        }
    }
    free(p.anchors);
    text_free(&clean);
    return root;
}

const struct node *node_find(const struct node *map, const char *key)
{
    for (const struct node *n = map && map->kind == NODE_MAP ? map->first : NULL; n; n = n->next)
        if (strcmp(n->key, key) == 0)
            return n;
    return NULL;
}

const char *node_kind_name(const struct node *n)
{
    if (n->kind == NODE_SCALAR)
        return n->is_nothing ? "nothing" : "a single value";
    return n->kind == NODE_LIST ? "a list" : "a mapping";
}
