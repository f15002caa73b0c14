/* tools.h: running programs that are not ours on a file, and writing the file. */
#ifndef FETTLE_TESTS_PDF_TOOLS_H
#define FETTLE_TESTS_PDF_TOOLS_H

#include "base/text.h"

#include <stdbool.h>
#include <stdio.h>
#include <sys/wait.h>

/* Runs a shell command and gives its exit status, -1 if it has none; what it says is added to out. */
static inline int tool_run(const char *command, struct text *out)
{
    struct text line = {0};
    text_printf(&line, "export LC_ALL=C.UTF-8; %s 2>&1", command);
    FILE *pipe = popen(text_string(&line), "r");
    text_free(&line);
    if (!pipe)
        return -1;
    char block[4096];
    for (size_t n; (n = fread(block, 1, sizeof block, pipe)) > 0;)
        text_add_n(out, block, n);
    int status = pclose(pipe);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static inline bool tool_write(const char *path, const char *bytes, size_t n)
{
    FILE *file = fopen(path, "wb");
    if (!file)
        return false;
    bool whole = fwrite(bytes, 1, n, file) == n;
    return fclose(file) == 0 && whole;
}

#endif
