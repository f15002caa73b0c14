/* sheet.h: what stands on each sheet, as blocks; nothing in points. Made by src/sheet from outcome, plan, cutting, proof and words.
   May be included by pages, run. Strings hold bold marks (words.h) and live in the pool of struct sheets. */
#ifndef FETTLE_SHEET_H
#define FETTLE_SHEET_H

#include "draw.h"
#include "job.h"
#include "outcome.h"

/* Reading tiers: capital heights by the reading distance (distance/200: aviation display rule quoted in the handbook). */
enum text_style {
    STYLE_SOURCE, /* the job's own text: monospaced, 7.5 pt, smaller where its lines ask for it */
    STYLE_SMALL,  /* 8.5 pt: foot notes of build and record sheets, never on the wall */
    STYLE_BODY,   /* 10 pt condensed: hand distance, capitals 2.5 mm */
    STYLE_LEAD,   /* 12 pt */
    STYLE_ARM,    /* capitals at least 5 mm: read at 1 m */
    STYLE_FAR     /* capitals at least 7.5 mm: read at 1.5 m */
};

enum block_kind {
    BLOCK_HEADING, BLOCK_PARAGRAPH, BLOCK_TABLE, BLOCK_STEPS, BLOCK_CAUTIONS, BLOCK_BANNER, BLOCK_FIGURES, BLOCK_DRAWING,
    BLOCK_BOXES, BLOCK_SIGNATURES, BLOCK_COLUMNS, BLOCK_SOURCE, BLOCK_BAR, BLOCK_RULE
};

enum align { ALIGN_LEFT, ALIGN_RIGHT, ALIGN_POINT, ALIGN_CENTRE }; /* POINT: decimal points under each other */
struct table_column {
    const char *head;   /* "" : none */
    enum align align;
    double weight;      /* 0: as wide as its widest cell; else takes a share of what is left and wraps */
};
struct table_row {
    const char **cells; /* as many as columns */
    bool bold, ruled_above;
};

enum mark_shape { MARK_CROSS, MARK_HALF_SQUARE, MARK_EMPTY_SQUARE, MARK_FILLED_SQUARE };

struct block_list {
    struct block *blocks;
    size_t n, capacity;
};

struct block {
    enum block_kind kind;
    bool keep_with_next;
    bool new_page;           /* starts a page */
    bool whole;              /* never broken */
    bool floats;             /* what follows may come before it, up to the next heading of a section */
    bool joins_last;         /* better on the page of the block before it */
    double space_before;     /* in lines of body text beside the kind's own */
    union {
        struct { int level; const char *text, *aside; } heading;    /* 1 page part, 2 section, 3 run-in */
        struct { enum text_style style; const char *text; enum align align; bool boxed; } paragraph;
        struct { const char *caption; struct table_column *columns; int n_columns; struct table_row *rows; int n_rows; enum text_style style;
                 bool whole; /* on one page where it fits one */
                 bool drop_empty; /* columns in which no row has a text are not set */
                 const char *note; /* small, over the heads on each page; NULL: none */ } table;
        struct {
            struct step_item {
                const char *number;  /* "14" */
                const char *what;    /* may start bold */
                const char *aside;   /* how to know it is right, why: set beside, a little smaller */
                bool tick;
                enum signal signal;  /* SIGNAL_NONE: no caution */
                const char *caution; /* stands before the step */
            } *items;
            int n;
        } steps;
        struct { struct caution_item { enum signal signal; const char *text; } *items; int n; enum text_style style; } cautions;
        struct { enum mark_shape mark; const char *words, *right; } banner;
        struct { struct figure_item { const char *number, *unit, *label; } *items; int n; } figures;
        struct { const struct drawing *drawing; double least_height, most_height; /* [mm] */ enum text_style style; } drawing;
        struct {             /* a sum with boxes to fill in by pencil */
            struct box_item {
                const char *text, *caption;
                double width;       /* of the box [mm]; 0: text only */
                double text_width;  /* of the text [mm], so that rows stand in columns; 0: its own */
                const char *inside; /* what the box is filled with; NULL: nothing */
            } *items;
            int n;
        } boxes;
        struct { const char **labels; int n; } signatures;
        struct { struct block_list list[3]; double weight[3]; int n; } columns; /* of the 12-column grid: weights sum to 12 */
        struct { const char *name, *text; } source; /* printed so that its extracted text is the same job */
        struct { double length; int parts; bool upright; const char *label; } bar; /* "measure me", [mm], true scale; upright: no label */
    } as;
};

struct sheet {
    enum sheet_kind kind;
    bool one_page;            /* wall: must fit, drawing heights give way */
    const struct sheet *shorter; /* what is printed instead where it does not fit its one page; NULL: nothing shorter */
    const char *title;        /* "Build sheet" */
    const char *head_left;    /* number, bold, and title */
    const char *head_right;   /* small, at the right: the state where no banner has it, shop and date; "" none */
    const char *foot_left;    /* what stands above the sheet */
    const char *foot_right;   /* record id; page n of N is added by pages */
    const char *bookmark;
    struct block_list body;
};

/* Everything reachable is owned by the pool, but drawings' borrowed plan and proof data. Freed by sheets_free. */
struct sheets {
    struct pool pool;
    enum paper paper;
    enum units units;
    struct sheet *list;
    size_t n;
    const char *document_title, *author, *number, *fingerprint, *subject;
    struct date date;         /* of issue; {0}: none */
    bool has_data[SHEET_KINDS]; /* what the job has data for, wanted or not */
};

/* cutting NULL: no stock layouts. False: the job has no data for any of the wanted ones. */
bool sheets_build(const struct job *, const struct plan *, const struct cutting *, const struct proof *, const struct outcome *, const bool wanted[SHEET_KINDS], struct sheets *out);
void sheets_free(struct sheets *);

#endif
