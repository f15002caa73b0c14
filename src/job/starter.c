/* Commented jobs to begin from. */
#include "job.h"

#include "base/text.h"

#include <string.h>

static const struct starter {
    const char *kind;
    enum units units;
    const char *text;
} starters[] = {
#define STARTER(kind, units, text) {kind, units, text},
#include "job/starter.inc"
#undef STARTER
};

bool job_print_starter(const char *kind, enum units units, struct text *out)
{
    for (size_t i = 0; i < sizeof starters / sizeof *starters; i++) {
        if (strcmp(starters[i].kind, kind) == 0 && starters[i].units == units) {
            text_add(out, starters[i].text);
            return true;
        }
    }
    return false;
}
