/* look_at FOLDER FILE.pdf…: says what finished_check finds in each; status 1 if anything. */
#include "pdf/finished.h"

#include <stdio.h>

int main(int argc, char **argv)
{
    size_t found = 0;
    for (int i = 2; i < argc; i++) {
        struct text problems = {0};
        size_t n = finished_check(argv[i], argv[1], &problems);
        if (n)
            fprintf(stderr, "%s:\n%s", argv[i], text_string(&problems));
        found += n;
        text_free(&problems);
    }
    return found || argc < 3;
}
