/* typeset.h: jobs typeset and looked at, from their text to the finished PDF. */
#ifndef FETTLE_TESTS_WHOLE_TYPESET_H
#define FETTLE_TESTS_WHOLE_TYPESET_H

#include "whole/whole.h"

#include <regex.h>

struct typeset_test {
    struct faces *faces;
    regex_t missing;
    regex_t marks[2]; /* by enum units: of the other one */
    char folder[64]; /* the readers' files */
    int planned, failed; /* jobs */
};

int typeset_set_up(void **state);
int typeset_tear_down(void **state);

enum typeset_look {
    TYPESET_PAGES,    /* every page keeps its rules, no word is missing, no text of the job is lost,
                         nothing is told in the other unit */
    TYPESET_TWICE,    /* and the same job makes the same bytes */
    TYPESET_FINISHED, /* and readers that know nothing of the program find the same in the PDF */
};
/* Counts the job among the planned, if it is one, and among the failed, saying why. A job that cannot be read has failed. */
void typeset_check(struct typeset_test *, const char *yaml, enum typeset_look);
void typeset_check_in(struct typeset_test *, const char *yaml, const enum units *, enum typeset_look); /* printed in those */

#endif
