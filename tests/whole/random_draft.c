/* Numbers, lengths and texts as a user writes them into a job. */
#include "whole/random_draft.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- numbers ---- */

/* The multiplier and increment are those of Knuth's MMIX generator. */
double random_job_number(struct random_job *g, double low, double high)
{
    g->state = g->state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(g->state >> 11) / 9007199254740992.0;
}

int below(struct random_job *g, int n)
{
    int i = (int)random_job_number(g, 0, n);
    return i < n ? i : n - 1;
}

bool chance(struct random_job *g, double p)
{
    return random_job_number(g, 0, 1) < p;
}

/* Does an optional size stand in the job? Draws in any case, so that the rest of the job stays the same. */
bool is_given(struct random_job *g, double p)
{
    return chance(g, p) || g->all_given;
}

/* ---- lengths as they are written ---- */

double in_steps(double v, double step)
{
    return round(v / step) * step;
}

static void write_trimmed(struct text *out, double v, int places)
{
    char digits[64];
    snprintf(digits, sizeof digits, "%.*f", places, v);
    size_t n = strlen(digits);
    while (strchr(digits, '.') && (digits[n - 1] == '0' || digits[n - 1] == '.') && strchr(digits, '.') < digits + n)
        digits[--n] = '\0';
    text_add(out, digits);
}

/* "1 3/8" */
static void write_fraction(struct text *out, long sixty_fourths)
{
    long whole = sixty_fourths / 64, over = sixty_fourths % 64, under = 64;
    for (; over && over % 2 == 0; under /= 2)
        over /= 2;
    if (whole || !over)
        text_printf(out, "%ld", whole);
    if (over)
        text_printf(out, "%s%ld/%ld", whole ? " " : "", over, under);
}

/* A length to the step of its unit; inches as fractions where the step is one. */
double length_as_written(const struct draft *d, double mm, double step_mm, double step_in)
{
    return d->inches || d->g->exact ? in_steps(mm / 25.4, step_in) * 25.4 : in_steps(mm, step_mm);
}

void write_length(struct draft *d, double mm, double step_mm, double step_in)
{
    bool fraction = step_in >= 1.0 / 64;
    long n = lround(mm / 25.4 / step_in);
    if (d->inches && fraction)
        write_fraction(d->out, lround((double)n * step_in * 64));
    else if (d->inches)
        write_trimmed(d->out, (double)n * step_in, 4);
    else if (d->g->exact)
        write_trimmed(d->out, (double)n * step_in * 25.4, 6);
    else
        write_trimmed(d->out, in_steps(mm, step_mm), 4);
}

void write_size(struct draft *d, const char *before, double mm)
{
    text_add(d->out, before);
    write_length(d, mm, 0.5, 1.0 / 16);
}

void write_thickness(struct draft *d, const char *before, double mm)
{
    text_add(d->out, before);
    write_length(d, mm, 0.1, 0.001);
}

void write_fit(struct draft *d, const char *before, double mm)
{
    text_add(d->out, before);
    write_length(d, mm, 0.01, 0.001);
}

void write_reading(struct draft *d, const char *before, double mm)
{
    text_add(d->out, before);
    write_length(d, mm, 0.01, 0.0005);
}

const char *side_word(bool right)
{
    return right ? "right" : "left";
}

/* ---- texts ---- */

static const char *const words[] = {
    "sled", "bay 2", "Kreissäge", "Łódź", "Čapek", "Ørsted", "naïve", "Straße", "½ in", "oak", "No. 7", "15° off",
    "the long one", "Åse & Sons", "für Türen", "kerf − 0.2", "crème", "left-hand", "x", "mitre: 45°", "#3", "a, b",
    "Żółw", "100 %", "façade", "workshop", "\\\"old\\\"", "Ostrava", "3/4 ply",
};

/* A quoted text of some words; of exactly `most` characters where long texts are wanted. */
void write_text(struct draft *d, const char *key, int most_words, int most)
{
    struct random_job *g = d->g;
    text_printf(d->out, "%s\"", key);
    int n = 1 + below(g, most_words), used = 0;
    for (int i = 0; g->long_texts || i < n; i++) {
        const char *word = words[below(g, COUNT(words))];
        int characters = (i > 0) + 0;
        for (const char *p = word; *p; p++)
            characters += ((unsigned char)*p & 0xC0) != 0x80 && *p != '\\';
        if (used + characters > most)
            break;
        text_printf(d->out, "%s%s", i ? " " : "", word);
        used += characters;
    }
    for (; g->long_texts && used < most; used++)
        text_add(d->out, used % 2 ? "n" : "Ł");
    text_add_char(d->out, '"');
}
