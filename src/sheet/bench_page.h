/* sheet/bench_page.h: what the bench pages of all methods are made of. Private to src/sheet. */
#ifndef FETTLE_SHEET_BENCH_PAGE_H
#define FETTLE_SHEET_BENCH_PAGE_H

#include "sheet/methods.h"

/* An action: what, how to know that it is right or why, and the caution that stands before it; one whose key ends in "hands"
   begins with how far they stay from the blade. */
struct action_row {
    const char *what, *aside, *caution; /* caution NULL: none */
    enum signal signal;
};
/* The sayings of a page take the same numbers; NULL: they take none. Any key may have a second wording: KEY.leaves where gaps
   are read with leaves, and that, or KEY, one with .plain where the job has no sled. */
typedef struct saying page_say(const struct sheet_builder *, const char *key);
struct action_list {
    const char *heading;
    const struct action_row *rows;
    int n;
    page_say *say;
};
/* Numbers run on from one block of actions to the next. */
void bench_add_actions(const struct sheet_builder *, struct block_list *, const struct action_list *, bool by_leaves, int *number);

enum { PICTURES_MOST = 9 };
int bench_draw_pictures(const struct sheet_builder *, enum method, struct drawing out[PICTURES_MOST]);
/* Up to three beside each other. */
void bench_add_pictures(const struct sheet_builder *, struct block_list *, const struct drawing *, int n);
/* Under a small heading, each behind a bullet. */
void bench_add_items(const struct sheet_builder *, struct block_list *, const char *heading_key,
                     const struct saying *items, size_t n, int columns);
/* "words [box] words [box] …": a row to fill in by pencil. */
struct blank {
    const char *words_key;   /* before the box; NULL: none */
    const char *sign;        /* before the box as it is: "÷ 2 ="; NULL: none */
    const char *caption_key; /* under the box; NULL: none */
    double width;            /* of the box [mm]; 0: no box; GAP_BOX: of a gap, and by leaves boxes for the leaf that goes and the
                                next come first, and this one is halfway */
};
#define GAP_BOX(width) (-(width))

/* A whole page: heading, idea, actions, pictures, readings, sum, what the signs mean, what to do, usual mistakes. */
struct bench_page {
    enum method method;
    const char *heading_key, *idea_key;
    struct action_list actions;
    const struct blank *const *blanks; /* rows */
    const int *blank_counts;
    int n_blanks;
    /* Boxed: how much is allowed; what the zones are of, NULL: none; what length they hold for, NULL: any; which way by which sign. */
    const char *allowed_key, *of_key, *length_key, *signs_key;
    /* Own zones in words, in their place. */
    const char *(*say_zones)(const struct sheet_builder *);
    /* The proof's table for the method: what stands over it, and the head of its column of moves; NULL: none. Both take at
       and over. */
    const char *table_key, *move_head_key;
    enum say_kind at_kind;             /* SAY_NOTHING: a size */
    bool tells_angle;                  /* a column of degrees */
    struct action_list moving;         /* n 0: none */
    const char *const *mistake_keys;
    int n_mistakes;
    page_say *say;
};
void bench_add_page(const struct sheet_builder *, struct block_list *, const struct bench_page *);
/* Of most methods: the sum is shown before, and the test made again after, what is put right. */
#define BENCH_SHOW_ROW {"bench.show", "bench.show.why", NULL, SIGNAL_NONE}
#define BENCH_AGAIN_ROW {"bench.again", "bench.again.why", NULL, SIGNAL_NONE}

/* A page is printed where the job has a test of the method, if only for practice, and for a saw on its own before there is any test. */
/* Are gaps read with leaves? As in the latest test; before any, where the job has a set. */
bool bench_reads_leaves(const struct sheet_builder *, enum method);
bool bench_has_test_of(const struct sheet_builder *, enum method);

#endif
