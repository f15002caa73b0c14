/* Paths into the results of one job. */
#include "whole/results_path.h"

#include "base/mem.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool is_named(const cJSON *element, const char *name)
{
    const cJSON *id = cJSON_GetObjectItemCaseSensitive(element, "id"), *own = cJSON_GetObjectItemCaseSensitive(element, "name");
    return name && ((cJSON_IsString(id) && strcmp(id->valuestring, name) == 0) ||
                    (cJSON_IsString(own) && strcmp(own->valuestring, name) == 0));
}

static const char *method_of(const cJSON *element)
{
    const cJSON *method = cJSON_GetObjectItemCaseSensitive(element, "method");
    return cJSON_IsString(method) ? method->valuestring : NULL;
}

static bool is_of_another_method(const cJSON *element, const struct place *place)
{
    const char *method = place->method ? method_of(element) : NULL;
    return method && strcmp(method, place->method) != 0;
}

static const cJSON *latest(const cJSON *tests, const struct place *place)
{
    const cJSON *found = NULL;
    for (const cJSON *t = tests->child; t; t = t->next)
        if (!is_of_another_method(t, place) && !cJSON_IsTrue(cJSON_GetObjectItemCaseSensitive(t, "practice")))
            found = t;
    return found;
}

static void add_candidate(const cJSON *value, double factor, struct candidates *out)
{
    if (cJSON_IsNumber(value) && out->n_numbers < CANDIDATES_MOST)
        out->number[out->n_numbers++] = factor * value->valuedouble;
    else if (cJSON_IsString(value) && out->n_texts < CANDIDATES_MOST)
        out->text[out->n_texts++] = value->valuestring;
}

/* Walks one path from `from`; `p` ends at '\0'. */
static void walk(const cJSON *from, const char *p, double factor, const struct place *place, struct candidates *out)
{
    if (!from)
        return;
    if (!*p) {
        add_candidate(from, factor, out);
        return;
    }
    if (*p == '.')
        p++;
    if (*p != '[') {
        char key[64];
        size_t n = strcspn(p, ".[");
        snprintf(key, sizeof key, "%.*s", (int)n, p);
        walk(cJSON_GetObjectItemCaseSensitive(from, key), p + n, factor, place, out);
        return;
    }
    const char *end = strchr(p, ']') + 1;
    size_t n = (size_t)(end - p);
    int index = 0;
    if (strncmp(p, "[latest]", n) == 0) {
        walk(latest(from, place), end, factor, place, out);
        return;
    }
    for (const cJSON *e = from->child; e; e = e->next) {
        if (is_of_another_method(e, place))
            continue;
        if (p[1] == '*' || (strncmp(p, "[row]", n) == 0 && index == place->row) ||
            (strncmp(p, "[id]", n) == 0 && is_named(e, place->id)) || (p[1] >= '0' && p[1] <= '9' && atoi(p + 1) == index))
            walk(e, end, factor, place, out);
        index++;
    }
}

/* A plain number, or a path. */
static void walk_or_read(const cJSON *job, const char *text, double factor, const struct place *place, struct candidates *out)
{
    char *end;
    double number = strtod(text, &end);
    if (*text && !*end)
        out->number[out->n_numbers++] = factor * number;
    else
        walk(job, text, factor, place, out);
}

/* The product of factors, all but the last single numbers; " + 40" at the end is added to it. */
static void find_product(const cJSON *job, char *text, const struct place *place, struct candidates *out)
{
    double factor = 1, more = 0;
    char *plus = strstr(text, " + ");
    size_t first = out->n_numbers;
    if (plus) {
        more = strtod(plus + 3, NULL);
        *plus = '\0';
    }
    for (char *next; (next = strstr(text, " x ")) != NULL; text = next + 3) {
        *next = '\0';
        char *end;
        double number = strtod(text, &end);
        if (*end) {
            struct candidates *found = mem_resize(NULL, sizeof *found);
            found->n_numbers = found->n_texts = 0;
            walk(job, text, 1, place, found);
            number = found->n_numbers == 1 ? found->number[0] : NAN;
            free(found);
        }
        factor *= number;
    }
    if (!isnan(factor))
        walk_or_read(job, text, factor, place, out);
    for (size_t i = first; i < out->n_numbers; i++)
        out->number[i] += more;
}

static void find_all(const cJSON *job, const char *path, const struct place *place, struct candidates *out)
{
    char text[1024];
    while (*path) {
        const char *bar = strstr(path, " | ");
        size_t n = bar ? (size_t)(bar - path) : strlen(path);
        snprintf(text, sizeof text, "%.*s", (int)n, path);
        find_product(job, text, place, out);
        path += n + (bar ? 3 : 0);
    }
}

static bool is_earlier_method(const cJSON *tests, const cJSON *test)
{
    for (const cJSON *t = tests->child; t != test; t = t->next)
        if (strcmp(method_of(t), method_of(test)) == 0)
            return true;
    return false;
}

void results_find(const cJSON *job, const char *path, const struct place *place, struct candidates *out)
{
    const cJSON *tests = cJSON_GetObjectItemCaseSensitive(job, "tests");
    out->n_numbers = out->n_texts = 0;
    if (place->method || !strstr(path, "[latest]") || !tests || !tests->child) {
        find_all(job, path, place, out);
        return;
    }
    for (const cJSON *t = tests->child; t; t = t->next) {
        struct place of_method = *place;
        of_method.method = method_of(t);
        if (!is_earlier_method(tests, t))
            find_all(job, path, &of_method, out);
    }
}

void results_list_said(const cJSON *from, struct said_list *out)
{
    const cJSON *key = cJSON_GetObjectItemCaseSensitive(from, "key"), *with = cJSON_GetObjectItemCaseSensitive(from, "with");
    if (cJSON_IsObject(from) && cJSON_IsString(key) && with) {
        out->list = mem_grow(out->list, out->n, &out->capacity, sizeof *out->list);
        out->list[out->n++] = (struct said){key->valuestring, with};
        return;
    }
    for (const cJSON *e = from->child; e; e = e->next)
        if (cJSON_IsObject(e) || cJSON_IsArray(e))
            results_list_said(e, out);
}
