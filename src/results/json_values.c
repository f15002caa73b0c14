/* Values of JSON objects: numbers, texts, dates, sayings. */
#include "results/json.h"

#include "base/utf8.h"
#include "results/words_of.h"
#include "words.h"

#include <math.h>

void json_number(cJSON *object, const char *key, double v)
{
    if (isfinite(v))
        cJSON_AddNumberToObject(object, key, v);
    else
        cJSON_AddNullToObject(object, key);
}

void json_num(cJSON *object, const char *key, const struct num *n)
{
    json_number(object, key, n->given ? n->v : NAN);
}

/* A file's name may hold any bytes, JSON only UTF-8 (RFC 8259, 8.1): what is none becomes U+FFFD. */
static void add_as_utf8(cJSON *object, const char *key, const char *s)
{
    struct text t = {0};
    while (*s) {
        unsigned c = utf8_next(&s);
        text_add_code(&t, c == UTF8_BAD ? 0xFFFD : c);
    }
    cJSON_AddStringToObject(object, key, text_string(&t));
    text_free(&t);
}

void json_string(cJSON *object, const char *key, const char *s)
{
    if (s)
        add_as_utf8(object, key, s);
    else
        cJSON_AddNullToObject(object, key);
}

void json_date(cJSON *object, const char *key, struct date d)
{
    char s[11];
    json_string(object, key, date_is_set(d) ? spell_date(d, s) : NULL);
}

void json_numbers(cJSON *object, const char *key, const double *v, size_t n)
{
    cJSON *array = cJSON_AddArrayToObject(object, key);
    for (size_t i = 0; i < n; i++)
        cJSON_AddItemToArray(array, cJSON_CreateNumber(v[i]));
}

void json_sentence(cJSON *object, const char *key, const struct saying *s, enum units units)
{
    struct text t = {0};
    if (s->key)
        words_put_plain(&t, s, units);
    json_string(object, key, s->key ? text_string(&t) : NULL);
    text_free(&t);
}

void json_said(cJSON *object, const char *key, const struct saying *s)
{
    if (!s->key) {
        cJSON_AddNullToObject(object, key);
        return;
    }
    cJSON *said = cJSON_AddObjectToObject(object, key);
    json_string(said, "key", s->key);
    cJSON *with = cJSON_AddObjectToObject(said, "with");
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++) {
        const struct say_arg *arg = &s->arg[i];
        if (arg->kind == SAY_TEXT || arg->kind == SAY_WORD)
            json_string(with, arg->name, arg->text);
        else
            json_number(with, arg->name, arg->number);
    }
}
