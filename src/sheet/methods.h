/* sheet/methods.h: what each test method contributes to the sheets; the table is in methods.c. Private to src/sheet. */
#ifndef FETTLE_SHEET_METHODS_H
#define FETTLE_SHEET_METHODS_H

#include "sheet/blocks.h"

struct sheet_method {
    const char *name_key;
    const char *subject_key;  /* what it is that is off: "Blade to sled base" */
    const char *until_then_key; /* what a sled is no good for while this is open: "No mitres till then."; NULL: nothing told */
    const char *count_key;    /* head of the history's column of strips; NULL: no strips */
    bool needs_no_standard;   /* found by closure or reversal: the record says so (wording C) */
    bool moved_by_play;       /* what carries the fence ran on the runner: read with a runner that does not fit, it tells no move */
    bool tells_remark;        /* wall: the first remark belongs to it: what the move does not cure, what was not tested */
    /* Wall: how far off, in one sentence or two. NULL: as all say it (general.h). */
    const char *(*error_line)(const struct sheet_builder *, const struct proof_test *);
    /* Wall and bench: what to move for what is read, in at most so many rows; nothing where D or L is unknown. NULL: none. */
    void (*add_reckoner)(const struct sheet_builder *, struct block_list *, int most_rows);
    /* Record: readings as taken, the sum, what the uncertainty is made of, the verdict. Budget and verdict NULL: as all. */
    void (*add_readings)(const struct sheet_builder *, struct block_list *, const struct proof_test *);
    void (*add_sum)(const struct sheet_builder *, struct block_list *, const struct proof_test *);
    void (*add_budget)(const struct sheet_builder *, struct block_list *, const struct proof_test *);
    void (*add_verdict)(const struct sheet_builder *, struct block_list *, const struct proof_test *);
    /* Record: numbered actions that make the move, safest first. NULL: those of moving an end of the fence where the move
       is one, else the move's own sentence says all. */
    void (*add_move_steps)(const struct sheet_builder *, struct block_list *, const struct proof_test *);
    /* Bench: the whole test, for someone who does it for the first time. */
    bool (*has_bench)(const struct sheet_builder *);
    void (*add_bench)(const struct sheet_builder *, struct block_list *);
};
/* method_PREFIX.c each */
#define METHOD(id, prefix, name) extern const struct sheet_method sheet_method_##prefix;
#include "job/methods.inc"
#undef METHOD

const struct sheet_method *sheet_method(enum method);

#endif
