/* The table of sentences and the putting of sayings into words. */
#include "words.h"

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
#include "words/draw.inc"
#include "words/sheet.inc"
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
