/* results_path.h: numbers and texts of a results file by their path. */
#ifndef FETTLE_TESTS_RESULTS_PATH_H
#define FETTLE_TESTS_RESULTS_PATH_H

#include <cjson/cJSON.h>
#include <stdbool.h>
#include <stddef.h>

/* Where in the results a text stands: [row] of a path is this row, [id] the element whose "id" or "name" is this. */
struct place {
    int row;
    const char *id;
    const char *method; /* of the tests that are told of: of another one's is nothing taken; NULL: any */
};
enum { CANDIDATES_MOST = 4000 };
struct candidates {
    double number[CANDIDATES_MOST];
    size_t n_numbers;
    const char *text[CANDIDATES_MOST]; /* borrowed from the results */
    size_t n_texts;
};
/* Everything that a path names. Paths: "settings.y_stop", "parts[row].length", "checks[id].low", "tests[latest].date" (the
   last of the method that is no practice; with no method the last of each in turn), "holes[*].x"; alternatives with " | "; a product "tests[latest].error x
   tests[latest].error_over.length", whose factors may be numbers. */
void results_find(const cJSON *job, const char *path, const struct place *, struct candidates *out);
/* Every saying of the results: its words key and its "with" object. */
struct said {
    const char *key;
    const cJSON *with;
};
struct said_list {
    struct said *list; /* to be freed */
    size_t n, capacity;
};
void results_list_said(const cJSON *from, struct said_list *out);

#endif
