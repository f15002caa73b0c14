/* The JSON Schema and the jobs to begin from. The schema is checked here for its shape, that it is closed, and that it
   knows every key of the fixtures. */
#include "base/file.h"
#include "job.h"
#include "job/node.h"

#include "close.h"

#include <cJSON.h>
#include <string.h>

static cJSON *schema;

static int print_schema(void **state)
{
    (void)state;
    struct text t = {0};
    job_print_schema(&t);
    schema = cJSON_ParseWithOpts(text_string(&t), NULL, true);
    text_free(&t);
    return schema ? 0 : -1;
}

static int free_schema(void **state)
{
    (void)state;
    cJSON_Delete(schema);
    return 0;
}

static const char *string_at(const cJSON *o, const char *key)
{
    return cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(o, key));
}

static void test_schema_says_what_it_is(void **state)
{
    (void)state;
    assert_string_equal(string_at(schema, "$schema"), "https://json-schema.org/draft/2020-12/schema");
    assert_string_equal(string_at(schema, "type"), "object");
    assert_non_null(cJSON_GetObjectItem(schema, "properties"));
}

/* Every object with properties refuses others, and every reference leads to a definition. */
static int walk(const cJSON *o)
{
    int seen = 0;
    const char *reference = cJSON_IsObject(o) ? string_at(o, "$ref") : NULL;
    if (reference) {
        assert_int_equal(strncmp(reference, "#/$defs/", 8), 0);
        assert_non_null(cJSON_GetObjectItem(cJSON_GetObjectItem(schema, "$defs"), reference + 8));
    }
    const cJSON *properties = cJSON_GetObjectItemCaseSensitive(o, "properties");
    if (properties && string_at(o, "type")) {
        assert_true(cJSON_IsFalse(cJSON_GetObjectItem(o, "additionalProperties")));
        seen++;
    }
    for (const cJSON *c = o->child; c; c = c->next)
        seen += walk(c);
    return seen;
}

static void test_schema_is_closed_and_complete(void **state)
{
    (void)state;
    assert_true(walk(schema) > 25);
}

static const char *pattern_of(const char *section, const char *key)
{
    const cJSON *o = cJSON_GetObjectItem(cJSON_GetObjectItem(schema, "properties"), section);
    const cJSON *value = cJSON_GetObjectItem(cJSON_GetObjectItem(o, "properties"), key);
    return cJSON_GetStringValue(cJSON_GetObjectItem(value, "pattern"));
}

/* As the reader has it: no text is empty, no year is outside 1900 to 2199. */
static void test_schema_refuses_empty_texts_and_mistyped_years(void **state)
{
    (void)state;
    assert_string_equal(pattern_of("job", "title"), "\\S");
    assert_string_equal(pattern_of("job", "date"), "^(19|20|21)[0-9][0-9]-");
}

/* The part of a schema that holds for an element of the node. */
static const cJSON *inside(const cJSON *s, const struct node *n)
{
    const cJSON *found = cJSON_GetObjectItemCaseSensitive(cJSON_GetObjectItem(s, "properties"), n->key ? n->key : "");
    if (!found && n->key && cJSON_IsObject(cJSON_GetObjectItem(s, "additionalProperties")))
        found = cJSON_GetObjectItem(s, "additionalProperties");
    if (!found && !n->key)
        found = cJSON_GetObjectItem(s, "items");
    for (const cJSON *one = cJSON_GetObjectItem(s, "oneOf") ? cJSON_GetObjectItem(s, "oneOf")->child : NULL;
         one && !found; one = one->next)
        found = inside(one, n);
    for (const cJSON *one = cJSON_GetObjectItem(s, "anyOf") ? cJSON_GetObjectItem(s, "anyOf")->child : NULL;
         one && !found; one = one->next)
        found = inside(one, n);
    return found;
}

static void assert_known(const cJSON *s, const struct node *n)
{
    for (const struct node *entry = n->first; entry; entry = entry->next) {
        const cJSON *part = inside(s, entry);
        if (!part)
            fail_msg("the schema has nothing for line %d, %s", entry->mark.line,
                     entry->key ? entry->key : "a list entry");
        assert_known(part, entry);
    }
}

static void assert_known_text(const char *text, size_t size)
{
    struct pool pool = {0};
    struct diags diags = {0};
    bool complete;
    const struct node *root = node_read(text, size, 0, &pool, &diags, &complete);
    assert_true(complete);
    assert_known(schema, root);
    pool_free(&pool);
    diags_free(&diags);
}

static void test_schema_knows_every_key_of_the_fixtures(void **state)
{
    (void)state;
    static const char *const names[] = {"full.yaml", "least.yaml", "bay/job.yaml"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct text path = {0}, t = {0};
        text_printf(&path, "%s/tests/job/jobs/%s", SOURCE_FOLDER, names[i]);
        assert_int_equal(file_read(text_string(&path), 1 << 20, &t), FILE_READ);
        assert_known_text(text_string(&t), t.size);
        text_free(&path);
        text_free(&t);
    }
}

/* Takes the notes' "# " away where an example follows, so that the examples are read too. */
static void uncomment(const struct text *from, struct text *to)
{
    for (const char *line = text_string(from); *line;) {
        size_t n = strcspn(line, "\n") + 1;
        bool is_example = strncmp(line, "#   ", 4) == 0 || strncmp(line, "# air:", 6) == 0 ||
                          strncmp(line, "# instruments:", 14) == 0 || strncmp(line, "# tests:", 8) == 0;
        const char *inner = strstr(line, "  # ");
        bool is_inner = inner && inner < line + n && strspn(line, " ") == (size_t)(inner - line) + 2;
        if (is_example)
            text_add_n(to, line + 2, n - 2);
        else if (is_inner) {
            text_add_n(to, line, (size_t)(inner - line) + 2);
            text_add_n(to, inner + 4, n - (size_t)(inner - line) - 4);
        } else
            text_add_n(to, line, n);
        line += n;
    }
}

static void assert_reads(const struct text *t, size_t tests)
{
    struct diags diags = {0};
    struct job job;
    struct text said = {0};
    bool ok = job_read_text("starter.yaml", text_string(t), t->size, &diags, &job);
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &said);
    if (!ok || diags.count)
        fail_msg("%s", text_string(&said));
    assert_int_equal(job.n_tests, tests);
    assert_known_text(text_string(t), t->size);
    text_free(&said);
    job_free(&job);
    diags_free(&diags);
}

static void test_starter_reads_with_and_without_its_examples(void **state)
{
    (void)state;
    for (int kind = 0; kind < JIG_KINDS; kind++)
        for (int units = UNITS_MM; units <= UNITS_IN; units++) {
            struct text t = {0}, all = {0};
            assert_true(job_print_starter(job_kind_name((enum jig_kind)kind), (enum units)units, &t));
            assert_reads(&t, 0);
            uncomment(&t, &all);
            assert_reads(&all, kind == JIG_CROSSCUT_SLED ? 1 : 0);
            text_free(&t);
            text_free(&all);
        }
}

static void test_starter_of_unknown_kind(void **state)
{
    (void)state;
    struct text t = {0};
    assert_false(job_print_starter("bench", UNITS_MM, &t));
    assert_int_equal(t.size, 0);
    text_free(&t);
}

static void test_names_of_kinds_and_methods(void **state)
{
    (void)state;
#define KIND(id, name) assert_string_equal(job_kind_name(JIG_##id), name);
#include "job/kinds.inc"
#undef KIND
#define METHOD(id, prefix, name) assert_string_equal(job_method_name(METHOD_##id), name);
#include "job/methods.inc"
#undef METHOD
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_schema_says_what_it_is),
        cmocka_unit_test(test_schema_is_closed_and_complete),
        cmocka_unit_test(test_schema_refuses_empty_texts_and_mistyped_years),
        cmocka_unit_test(test_schema_knows_every_key_of_the_fixtures),
        cmocka_unit_test(test_starter_reads_with_and_without_its_examples),
        cmocka_unit_test(test_starter_of_unknown_kind),
        cmocka_unit_test(test_names_of_kinds_and_methods),
    };
    return cmocka_run_group_tests(tests, print_schema, free_schema);
}
