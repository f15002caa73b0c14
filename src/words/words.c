/* The table of sentences and the putting of sayings into words. */
#include "words.h"

#include "words/number.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct word_row {
    const char *key, *text;
} rows[] = {
#define WORD(key, text) {key, text},
#include "words/state.inc"
#include "words/plan.inc"
#include "words/steps.inc"
#include "words/proof.inc"
#include "words/general.inc"
#include "words/flip.inc"
#include "words/square_gap.inc"
#include "words/slot_parallel.inc"
#include "words/stop.inc"
#include "words/fence_straight.inc"
#include "words/frame.inc"
#include "words/diagonals.inc"
#include "words/side_play.inc"
#include "words/box_joint.inc"
#include "words/draw.inc"
#include "words/sheet.inc"
#include "words/pages.inc"
#include "words/cutting.inc"
#undef WORD
    {"", ""},
};

const char *words_find(const char *key)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].key, key) == 0)
            return rows[i].text;
    return NULL;
}

const char *words_key(size_t index)
{
    return index + 1 < sizeof rows / sizeof *rows ? rows[index].key : NULL;
}

const char *words_get(const char *key)
{
    const char *text = words_find(key);
    return text ? text : "?no words?";
}

const char *words_unit(enum units u)
{
    return u == UNITS_IN ? "in" : "mm";
}

static void put_count_word(struct text *out, double number)
{
    static const char *const names[] = {"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    long n = lround(number);
    if (n >= 0 && n < (long)(sizeof names / sizeof *names))
        text_add(out, names[n]);
    else
        text_printf(out, "%ld", n);
}

/* Lengths. Metric: sizes to 0.5, rules of thumb to 1, thicknesses to 0.1, fits to 0.01, errors and moves to 0.001.
   Inches: sizes in 64ths, rules of thumb in eighths, fits and moves to .001, errors to .0001. */
static void put_length(struct text *out, enum say_kind kind, double mm, enum units units)
{
    bool in = units == UNITS_IN;
    double v = in ? unit_inches(mm) : mm;
    switch ((int)kind) {
    case SAY_SIZE:
        if (in)
            number_inch_size(out, v);
        else
            number_trimmed(out, round(v * 2) / 2, 1, 0, false);
        break;
    case SAY_ABOUT:
        if (in)
            number_inch_size(out, round(v * 8) / 8);
        else
            number_decimal(out, v, 0, false, false);
        break;
    case SAY_THICKNESS:
        number_trimmed(out, v, in ? 3 : 1, 0, in);
        break;
    case SAY_FIT:
        number_decimal(out, v, in ? 3 : 2, false, in);
        break;
    case SAY_MOVE:
        number_decimal(out, v, 3, false, in);
        break;
    case SAY_ERROR:
        number_decimal(out, v, in ? 4 : 3, true, in);
        break;
    case SAY_UNSIGNED:
        number_decimal(out, fabs(v), in ? 4 : 3, false, in);
        break;
    case SAY_LIMIT:
        number_trimmed(out, v, in ? 4 : 3, in ? 3 : 2, in);
        break;
    case SAY_UNCERTAINTY: {
        int places = number_places_for_u(v, in ? 4 : 3);
        number_decimal(out, number_round_up(v, places), places, false, in);
        break;
    }
    default:
        text_add(out, "?kind?");
    }
}

/* Exact, from the international pound and yard of 1959 and standard gravity. */
#define POUND 0.45359237            /* kg */
#define POUND_FORCE 4.4482216152605 /* N */
#define CUBIC_FOOT 0.028316846592   /* m3 */

static bool is_length(enum say_kind kind)
{
    return kind >= SAY_SIZE && kind <= SAY_UNCERTAINTY;
}

void words_number(struct text *out, enum say_kind kind, double number, enum units units)
{
    bool in = units == UNITS_IN;
    if (!isfinite(number)) {
        text_add(out, isnan(number) ? "\xE2\x80\x93" : number > 0 ? "\xE2\x88\x9E" : MINUS "\xE2\x88\x9E"); /* en dash, infinity */
        return;
    }
    if (is_length(kind)) {
        put_length(out, kind, number, units);
        return;
    }
    switch ((int)kind) {
    case SAY_RADIANS:
        number_grouped(out, number);
        break;
    case SAY_DEGREES:
        number_decimal(out, unit_degrees(number), 3, false, false);
        break;
    case SAY_COUNT:
        number_decimal(out, number, 0, false, false);
        break;
    case SAY_COUNT_WORD:
        put_count_word(out, number);
        break;
    case SAY_NUMBER: {
        double size = fabs(number);
        number_trimmed(out, number, size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3, 0, false);
        break;
    }
    case SAY_PERCENT:
        number_decimal(out, number, 0, false, false);
        break;
    case SAY_RATIO:
        number_decimal(out, number * 100, 0, false, false);
        break;
    case SAY_FORCE:
        number_decimal(out, in ? number / POUND_FORCE : number, in, false, false);
        break;
    case SAY_DENSITY:
        number_decimal(out, in ? number / POUND * CUBIC_FOOT : number, in, false, false);
        break;
    case SAY_GROWTH:
        if (in)
            number_decimal(out, number * 12 / 1000, 4, false, true);
        else
            words_number(out, SAY_NUMBER, number, units);
        break;
    case SAY_MASS:
        number_decimal(out, in ? number / POUND : number, 1, false, false);
        break;
    case SAY_TEMPERATURE:
        number_decimal(out, in ? number * 9 / 5 + 32 : number, 0, false, false);
        break;
    default:
        text_add(out, "?kind?");
    }
}

/* What stands behind the number, the blank before it included. */
static const char *unit_after(enum say_kind kind, enum units units)
{
    bool in = units == UNITS_IN;
    if (is_length(kind))
        return in ? THIN "in" : THIN "mm";
    switch ((int)kind) {
    case SAY_DEGREES:
        return "\xC2\xB0";
    case SAY_PERCENT:
    case SAY_RATIO:
        return THIN "%";
    case SAY_FORCE:
        return in ? THIN "lbf" : THIN "N";
    case SAY_DENSITY:
        return in ? THIN "lb/ft\xC2\xB3" : THIN "kg/m\xC2\xB3";
    case SAY_GROWTH:
        return in ? " in" NBSP "12" : " in" NBSP "1000";
    case SAY_MASS:
        return in ? THIN "lb" : THIN "kg";
    case SAY_TEMPERATURE:
        return in ? THIN "\xC2\xB0" "F" : THIN "\xC2\xB0" "C";
    default:
        return "";
    }
}

void words_quantity(struct text *out, enum say_kind kind, double number, enum units units)
{
    words_number(out, kind, number, units);
    text_add(out, unit_after(kind, units));
}

static const struct say_arg *find_arg(const struct saying *s, const char *name, size_t n)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strlen(s->arg[i].name) == n && memcmp(s->arg[i].name, name, n) == 0)
            return &s->arg[i];
    return NULL;
}

static void put_arg(struct text *out, const struct say_arg *arg, bool with_unit, enum units units)
{
    if (arg->kind == SAY_TEXT) {
        text_add(out, arg->text ? arg->text : "");
    } else if (arg->kind == SAY_WORD) {
        const char *word = arg->text ? words_find(arg->text) : NULL;
        if (word)
            text_add(out, word);
        else
            text_printf(out, "?%s?", arg->text ? arg->text : "");
    } else if (with_unit) {
        words_quantity(out, arg->kind, arg->number, units);
    } else {
        words_number(out, arg->kind, arg->number, units);
    }
}

/* "{name}" or "{name#}" at p; gives the place after the closing brace. */
static const char *put_slot(struct text *out, const char *p, const struct saying *s, enum units units)
{
    const char *end = strchr(p, '}');
    if (!end) {
        text_add(out, "?brace?");
        return p + strlen(p);
    }
    size_t n = (size_t)(end - p - 1);
    bool bare = n > 0 && p[n] == '#';
    const struct say_arg *arg = find_arg(s, p + 1, bare ? n - 1 : n);
    if (arg) {
        put_arg(out, arg, !bare, units);
    } else {
        text_add(out, "?");
        text_add_n(out, p + 1, n);
        text_add(out, "?");
    }
    return end + 1;
}

static void put_words(struct text *out, const struct saying *s, enum units units, bool bold_marks)
{
    const char *p = s->key ? words_find(s->key) : "";
    if (!p) {
        text_printf(out, "?%s?", s->key);
        return;
    }
    while (*p) {
        size_t n = strcspn(p, "{<");
        text_add_n(out, p, n);
        p += n;
        bool on = strncmp(p, "<b>", 3) == 0, off = strncmp(p, "</b>", 4) == 0;
        if (*p == '{') {
            p = put_slot(out, p, s, units);
        } else if (on || off) {
            if (bold_marks)
                text_add_char(out, on ? TEXT_BOLD_ON : TEXT_BOLD_OFF);
            p += on ? 3 : 4;
        } else if (*p) {
            text_add_char(out, *p++);
        }
    }
}

void words_put(struct text *out, const struct saying *s, enum units units)
{
    put_words(out, s, units, true);
}

void words_put_plain(struct text *out, const struct saying *s, enum units units)
{
    put_words(out, s, units, false);
}

/* A sheet's number as one types it. The decimal beside a fraction is for the eye. */
static void put_as_typed(struct text *out, const char *s)
{
    static const struct {
        const char *printed, *typed;
    } signs[] = {{MINUS, "-"}, {THIN, " "}, {"\xE2\x81\x84", "/"}};

    while (*s) {
        size_t i = 0;
        while (i < 3 && strncmp(s, signs[i].printed, strlen(signs[i].printed)) != 0)
            i++;
        if (i < 3) {
            text_add(out, signs[i].typed);
            s += strlen(signs[i].printed);
        } else if (strncmp(s, NBSP "(", 3) == 0) {
            s = strchr(s, ')') + 1;
        } else {
            text_add_char(out, *s++);
        }
    }
}

bool words_put_job_change(struct text *out, const struct saying *remedy, enum units units)
{
    struct saying change = *remedy;
    struct text printed = {0};
    char key[96];

    snprintf(key, sizeof key, "%s.job", remedy->key ? remedy->key : "");
    change.key = key;
    if (!words_find(key))
        return false;
    words_put_plain(&printed, &change, units);
    put_as_typed(out, text_string(&printed));
    text_free(&printed);
    return true;
}

static bool is_inside(double v, double u, double limit)
{
    return fabs(v) + u <= limit;
}

static bool is_outside(double v, double u, double limit)
{
    return fabs(v) - u > limit;
}

/* Would a reader who recomputes the verdict from the printed figures find another one? */
static bool tells_another_verdict(double v, double u, double limit, int places)
{
    double scale = pow(10, places), rv = round(v * scale) / scale, ru = number_round_up(u, places), slack = 1e-9 / scale;
    return is_inside(v, u, limit) != is_inside(rv, ru - slack, limit) || is_outside(v, u, limit) != is_outside(rv, ru + slack, limit);
}

void words_value_and_u(struct text *value, struct text *u_out, double v, bool sign, double u, double limit, enum units units)
{
    bool in = units == UNITS_IN;
    if (in) {
        v = unit_inches(v);
        u = unit_inches(u);
        limit = unit_inches(limit);
    }
    int places = number_places_for_u(u, in ? 4 : 3);
    for (int more = 0; more < 4 && isfinite(limit) && tells_another_verdict(v, u, limit, places); more++)
        places++;
    number_decimal(value, v, places, sign, in);
    number_decimal(u_out, number_round_up(u, places), places, false, in);
}
