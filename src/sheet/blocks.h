/* sheet/blocks.h: adding blocks to a sheet. Private to src/sheet.
   A block is made as a value, filled, and appended last: a list may move when it grows. */
#ifndef FETTLE_SHEET_BLOCKS_H
#define FETTLE_SHEET_BLOCKS_H

#include "sheet/print.h"

#define COUNT_OF(array) ((int)(sizeof(array) / sizeof *(array)))

void block_append(const struct sheet_builder *, struct block_list *, struct block);
void block_heading(const struct sheet_builder *, struct block_list *, int level, struct saying);
void block_paragraph(const struct sheet_builder *, struct block_list *, enum text_style, struct saying);
/* The same with words already printed. */
void block_text(const struct sheet_builder *, struct block_list *, enum text_style, const char *);
void block_boxed(const struct sheet_builder *, struct block_list *, enum text_style, const char *);
/* Small print, kept with what stands before it; `key`: without numbers. */
void block_note(const struct sheet_builder *, struct block_list *, const char *key);
void block_note_text(const struct sheet_builder *, struct block_list *, const char *text);
void block_keep_with_next(struct block_list *); /* the last block so far; nothing in an empty list */
void block_keep_from(struct block_list *, size_t first); /* the blocks from `first` to the last one */
void block_let_float(struct block_list *); /* the last one: what follows may come before it */
/* A drawing of `style` text, heights in mm. */
void block_drawing(const struct sheet_builder *, struct block_list *, struct drawing, enum text_style,
                   double least, double most);
/* 100 mm or 4 in, to hold a rule against: a print may be scaled, in one direction or both. The level one says so. */
void block_bar(const struct sheet_builder *, struct block_list *, bool upright);
void block_columns(const struct sheet_builder *, struct block_list *, int n, const struct block_list *lists,
                   const double *weights);

/* Short texts, each behind a bullet, in one to three columns that are read down. */
void block_items(const struct sheet_builder *, struct block_list *, enum text_style, const char *const *texts,
                 size_t n, int columns);

/* Columns of a table as their words keys; columns of sheets are const tables of these. */
struct column_row {
    const char *head_key; /* NULL: none */
    enum align align;
    double weight;        /* as in struct table_column */
};
struct block table_begin(const struct sheet_builder *, const char *caption_key, const struct column_row *,
                         int n_columns);
struct table_row *table_add_row(const struct sheet_builder *, struct block *table, const char *const *cells);

struct block steps_begin(void);
void steps_add(const struct sheet_builder *, struct block *steps, struct step_item);

/* A line of words and boxes to fill in by pencil. */
struct block boxes_begin(void);
void boxes_add_text(const struct sheet_builder *, struct block *boxes, struct saying);
void boxes_add_word(const struct sheet_builder *, struct block *boxes, const char *text); /* as it is: "=" */
void boxes_add_box(const struct sheet_builder *, struct block *boxes, const char *caption_key, double width_mm);

void boxes_add_filled(const struct sheet_builder *, struct block *boxes, const char *inside, double width_mm);

struct block cautions_begin(enum text_style);
void cautions_add(const struct sheet_builder *, struct block *cautions, enum signal, const char *text);

#endif
