/* The faces that a test of pages sets with, opened before its group and closed after it:
   cmocka_run_group_tests(tests, open_faces, close_faces). Owns them. */
#ifndef FETTLE_TESTS_FACES_H
#define FETTLE_TESTS_FACES_H

#include "type.h"

static struct faces *faces;

static inline int open_faces(void **state)
{
    (void)state;
    faces = type_open();
    return 0;
}

static inline int close_faces(void **state)
{
    (void)state;
    type_close(faces);
    return 0;
}

#endif
