/* The JSON Schema (draft 2020-12) of the job file, from the reader's own field tables. What a schema cannot say (ranges
   of quantities that may carry a unit, rules between values) stands in the descriptions. */
#include "job/material.h"
#include "job/tables.h"

#include "base/text.h"

#include <cJSON.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NUMBER_PATTERN "^ *[+-]?([0-9]+\\.?[0-9]*|\\.[0-9]+|([0-9]+[ -])?[0-9]+/[0-9]+) *"

static const struct quantity_row {
    const char *name, *units, *pattern;
} quantity_rows[] = {
    [QUANTITY_LENGTH] = {"length", "mm", NUMBER_PATTERN "(mm|cm|m|in|\"|ft)? *$"},
    [QUANTITY_ANGLE] = {"angle", "degrees", NUMBER_PATTERN "(deg|\u00B0)? *$"},
    [QUANTITY_TEMPERATURE] = {"temperature", "\u00B0C", NUMBER_PATTERN "\u00B0?(C|F)? *$"},
    [QUANTITY_PERCENT] = {"percent", "%", NUMBER_PATTERN "%? *$"},
    [QUANTITY_MASS] = {"mass", "kg", NUMBER_PATTERN "(kg|g|lb)? *$"},
    [QUANTITY_NUMBER] = {"number", "", NUMBER_PATTERN "$"},
};

static cJSON *schema_of_table(const struct table *t);

static cJSON *object_of_type(const char *type)
{
    cJSON *o = cJSON_CreateObject();
    cJSON_AddStringToObject(o, "type", type);
    return o;
}

static cJSON *reference_to(const char *definition)
{
    char path[64];
    cJSON *o = cJSON_CreateObject();
    snprintf(path, sizeof path, "#/$defs/%s", definition);
    cJSON_AddStringToObject(o, "$ref", path);
    return o;
}

static cJSON *one_or_list(cJSON *one, cJSON *item, size_t most)
{
    cJSON *o = cJSON_CreateObject(), *any = cJSON_AddArrayToObject(o, "anyOf"), *list = object_of_type("array");
    cJSON_AddItemToObject(list, "items", item);
    cJSON_AddNumberToObject(list, "minItems", 1);
    cJSON_AddNumberToObject(list, "maxItems", (double)most);
    cJSON_AddItemToArray(any, one);
    cJSON_AddItemToArray(any, list);
    return o;
}

static cJSON *list_of(cJSON *item, double least, double most)
{
    cJSON *o = object_of_type("array");
    cJSON_AddItemToObject(o, "items", item);
    cJSON_AddNumberToObject(o, "minItems", least);
    cJSON_AddNumberToObject(o, "maxItems", most);
    return o;
}

static cJSON *named(cJSON *item)
{
    cJSON *o = object_of_type("object"), *names = cJSON_AddObjectToObject(o, "propertyNames");
    cJSON_AddNumberToObject(names, "maxLength", 40);
    cJSON_AddItemToObject(o, "additionalProperties", item);
    return o;
}

static cJSON *text_of(const struct field *f)
{
    cJSON *o = cJSON_CreateObject(), *types = cJSON_AddArrayToObject(o, "type");
    cJSON_AddItemToArray(types, cJSON_CreateString("string"));
    cJSON_AddItemToArray(types, cJSON_CreateString("number")); /* `number: 7`: what YAML takes for a number */
    cJSON_AddStringToObject(o, "pattern", "\\S"); /* not empty */
    cJSON_AddNumberToObject(o, "maxLength", f->high);
    return o;
}

static cJSON *words_of(const struct words *words)
{
    cJSON *o = cJSON_CreateObject(), *list = cJSON_AddArrayToObject(o, "enum");
    for (size_t i = 0; i < words->n; i++)
        if (words->name[i])
            cJSON_AddItemToArray(list, cJSON_CreateString(words->name[i]));
    return o;
}

static cJSON *methods_of(const struct variants *v)
{
    cJSON *o = cJSON_CreateObject(), *list = cJSON_AddArrayToObject(o, "enum");
    for (size_t i = 0; i < v->n; i++)
        cJSON_AddItemToArray(list, cJSON_CreateString(v->list[i].name));
    return o;
}

/* One of the tables, told apart by the constant word. */
static cJSON *variants_of(const struct variants *v)
{
    cJSON *o = cJSON_CreateObject(), *one = cJSON_AddArrayToObject(o, "oneOf");
    for (size_t i = 0; i < v->n; i++) {
        if (!v->list[i].table)
            continue;
        cJSON *s = schema_of_table(v->list[i].table), *key = cJSON_CreateObject();
        cJSON_AddStringToObject(key, "const", v->list[i].name);
        cJSON_ReplaceItemInObject(cJSON_GetObjectItem(s, "properties"), v->key, key);
        cJSON_AddItemToArray(one, s);
    }
    return o;
}

static cJSON *elements_of(const struct field *f)
{
    return f->variants ? variants_of(f->variants) : schema_of_table(f->table);
}

static cJSON *schema_of_value(const struct field *f)
{
    const char *quantity = quantity_rows[f->quantity].name;
    size_t most = f->most ? f->most : LIST_MOST;
    switch (f->kind) {
    case VALUE_QUANTITY:
    case VALUE_DOUBLE:
        return reference_to(quantity);
    case VALUE_PAIR:
        return list_of(reference_to(quantity), 2, 2);
    case VALUE_PAIRS:
        return list_of(list_of(reference_to(quantity), 2, 2), 1, (double)most);
    case VALUE_SPAN:
    case VALUE_NUMBERS:
        return one_or_list(reference_to(quantity), reference_to(quantity), most);
    case VALUE_LAYERS:
        return one_or_list(reference_to("number"), reference_to("length"), most);
    case VALUE_TEXT:
    case VALUE_NAME:
        return text_of(f);
    case VALUE_STOCK:
    case VALUE_INSTRUMENT:
        return object_of_type("string");
    case VALUE_WORD:
        return words_of(f->words);
    case VALUE_WORDS:
        return list_of(words_of(f->words), f->low, LIST_MOST);
    case VALUE_ENDS:
        return list_of(methods_of(&test_variants), 0, LIST_MOST);
    case VALUE_FLAG:
        return object_of_type("boolean");
    case VALUE_DATE: {
        cJSON *o = object_of_type("string");
        cJSON_AddStringToObject(o, "format", "date");
        cJSON_AddStringToObject(o, "pattern", "^(19|20|21)[0-9][0-9]-");
        return o;
    }
    case VALUE_MAP:
        return schema_of_table(f->table);
    case VALUE_VARIANT:
        return variants_of(f->variants);
    case VALUE_LIST:
        return list_of(elements_of(f), f->low > 0, (double)most);
    case VALUE_NAMED:
        return named(elements_of(f));
    case VALUE_ELSEWHERE:
    case VALUE_GIVEN:
    case VALUE_MARK:
        break;
    }
    return cJSON_CreateObject();
}

static void describe(cJSON *value, const struct field *f)
{
    struct text t = {0};
    bool is_number = f->kind == VALUE_QUANTITY || f->kind == VALUE_DOUBLE || f->kind == VALUE_PAIR ||
                     f->kind == VALUE_SPAN || f->kind == VALUE_NUMBERS || f->kind == VALUE_PAIRS || f->kind == VALUE_LAYERS;
    text_add(&t, f->about ? f->about : "");
    if (is_number && (f->low != 0 || f->high != 0))
        text_printf(&t, "%s%s%.6g to %.6g %s", t.size ? "; " : "", f->whole ? "whole number, " : "", f->low, f->high,
                    quantity_rows[f->quantity].units);
    if (f->fallback != 0)
        text_printf(&t, "; left out: %.6g %s", f->fallback, quantity_rows[f->quantity].units);
    while (t.size && t.bytes[t.size - 1] == ' ')
        t.bytes[--t.size] = '\0';
    if (t.size)
        cJSON_AddStringToObject(value, "description", text_string(&t));
    text_free(&t);
}

static void add_fields(const struct table *t, cJSON *properties, cJSON *required)
{
    for (size_t i = 0; i < t->n; i++) {
        const struct field *f = &t->fields[i];
        if (!f->key)
            continue;
        cJSON *value = schema_of_value(f);
        describe(value, f);
        cJSON_AddItemToObject(properties, f->key, value);
        if (f->required)
            cJSON_AddItemToArray(required, cJSON_CreateString(f->key));
    }
}

static cJSON *schema_of_table(const struct table *table)
{
    cJSON *o = object_of_type("object"), *properties, *required = cJSON_CreateArray();
    if (table->about)
        cJSON_AddStringToObject(o, "description", table->about);
    properties = cJSON_AddObjectToObject(o, "properties");
    for (const struct table *t = table; t; t = t->extends)
        add_fields(t, properties, required);
    if (cJSON_GetArraySize(required))
        cJSON_AddItemToObject(o, "required", required);
    else
        cJSON_Delete(required);
    cJSON_AddFalseToObject(o, "additionalProperties");
    return o;
}

static cJSON *definitions(void)
{
    cJSON *all = cJSON_CreateObject();
    for (size_t i = 0; i < sizeof quantity_rows / sizeof *quantity_rows; i++) {
        cJSON *o = cJSON_AddObjectToObject(all, quantity_rows[i].name), *types = cJSON_AddArrayToObject(o, "type");
        cJSON_AddItemToArray(types, cJSON_CreateString("number"));
        cJSON_AddItemToArray(types, cJSON_CreateString("string"));
        cJSON_AddStringToObject(o, "pattern", quantity_rows[i].pattern);
    }
    return all;
}

/* Sections that a used file may bring in are asked for by the reader, once all files are together. */
static void complete_root(cJSON *root)
{
    cJSON *properties = cJSON_GetObjectItem(root, "properties"), *version = cJSON_GetObjectItem(properties, "fettle");
    cJSON *use = cJSON_GetObjectItem(properties, "use"), *required = cJSON_GetObjectItem(root, "required"), *material,
          *names;
    cJSON_AddNumberToObject(version, "const", 1);
    cJSON_AddStringToObject(use, "type", "array");
    cJSON_AddItemToObject(use, "items", object_of_type("string"));
    cJSON_AddNumberToObject(use, "maxItems", USE_MOST);
    for (int i = cJSON_GetArraySize(required) - 1; i >= 0; i--)
        if (strcmp(cJSON_GetArrayItem(required, i)->valuestring, "units") == 0)
            cJSON_DeleteItemFromArray(required, i);
    material = cJSON_GetObjectItem(properties, "stock");
    material = cJSON_GetObjectItem(
        cJSON_GetObjectItem(cJSON_GetObjectItem(material, "additionalProperties"), "properties"), "material");
    cJSON_DeleteItemFromObject(material, "type");
    cJSON_DeleteItemFromObject(material, "maxLength");
    names = cJSON_AddArrayToObject(material, "enum");
    for (size_t i = 0; material_name(i); i++)
        cJSON_AddItemToArray(names, cJSON_CreateString(material_name(i)));
}

void job_print_schema(struct text *out)
{
    cJSON *root = schema_of_table(&root_table);
    cJSON *schema = cJSON_CreateObject();
    cJSON_AddStringToObject(schema, "$schema", "https://json-schema.org/draft/2020-12/schema");
    cJSON_AddStringToObject(schema, "title", "fettle job file, version 1");
    complete_root(root);
    while (root->child) {
        cJSON *one = cJSON_DetachItemViaPointer(root, root->child);
        char *name = one->string;
        one->string = NULL;
        cJSON_AddItemToObject(schema, name, one);
        free(name);
    }
    cJSON_AddItemToObject(schema, "$defs", definitions());
    char *printed = cJSON_Print(schema);
    text_add(out, printed);
    text_add_char(out, '\n');
    cJSON_free(printed);
    cJSON_Delete(root);
    cJSON_Delete(schema);
}
