/* methods.h: what a test method is to the rest of the proof: a row of functions, and what they are given. Owns nothing.
   May be included by src/proof. */
#ifndef FETTLE_PROOF_METHODS_H
#define FETTLE_PROOF_METHODS_H

#include "proof.h"

/* What the readings of one test are judged with. All borrowed; what is made lives in the pool. */
struct proving {
    const struct job *job;
    const struct setting *setting;
    const struct proof_test *earlier; /* tests before this one, of every method, oldest first */
    size_t n_earlier;
    struct pool *pool;
};

struct method_row {
    /* From job and method to all that the readings say: error, budget, verdict, move, what would decide. */
    void (*prove)(const struct proving *, const struct job_test *, struct proof_test *out);
    /* What an error becomes by a move as it was noted; NAN where that cannot be told. NULL: what is put right is no end of
       a fence, so a noted move tells nothing. */
    double (*after_move)(const struct proof_test *, double error, const struct job_moved *);
    /* What its bench page's table is made for, by the latest test that counts (NULL: none): at, over, factor (0: no move is known,
       so no rows), error_per_mm, last, reads_gap. False: none. NULL: its sum is no shorter in a table. */
    bool (*reckon)(const struct proving *, const struct proof_test *latest, struct reading_table *out);
    /* With `reckon`: the readings of a test that comes out with *read at `at`, which are then proven like any other; the
       test is a copy of the latest, or all 0. `read` must outlive the test. */
    void (*read)(double at, const double *read, struct job_test *out);
    /* The error is that of the reference fence to the cut: a move noted with one such method overtakes the others. */
    bool is_of_fence;
    /* The error is never below 0: no sign is printed, as it would tell no direction. */
    bool error_is_a_size;
};
#define METHOD(id, prefix, name) extern const struct method_row prefix##_method;
#include "job/methods.inc"
#undef METHOD
/* The tests judged, their history and the reckoner: all of a proof but what its bench pages add, the reading tables and
   zones. */
void proof_judge(const struct job *, const struct setting *, struct proof *out);
/* A row of a method; never NULL. */
const struct method_row *method_row(enum method);
/* What one method moves the other one measures. */
bool methods_share_a_move(enum method, enum method);

#endif
