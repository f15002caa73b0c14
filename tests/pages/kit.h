/* kit.h: making blocks and sheets for tests of pages, and looking things up in what comes out. */
#ifndef FETTLE_TESTS_PAGES_KIT_H
#define FETTLE_TESTS_PAGES_KIT_H

#include "close.h"

#include "pages.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

#define BOLD(s) "\x0E" s "\x0F"
#define COUNT(a) ((int)(sizeof(a) / sizeof *(a)))

static inline void add_block(struct block_list *list, struct block b)
{
    list->blocks = mem_grow(list->blocks, list->n, &list->capacity, sizeof *list->blocks);
    list->blocks[list->n++] = b;
}

/* The array of a list and of the columns in it; what blocks point at is the test's own. */
static inline void free_list(struct block_list *list)
{
    for (size_t i = 0; i < list->n; i++)
        for (int c = 0; list->blocks[i].kind == BLOCK_COLUMNS && c < list->blocks[i].as.columns.n; c++)
            free_list(&list->blocks[i].as.columns.list[c]);
    free(list->blocks);
    *list = (struct block_list){0};
}

static inline void add_heading(struct block_list *list, int level, const char *text, const char *aside)
{
    add_block(list,
              (struct block){.kind = BLOCK_HEADING, .as.heading = {.level = level, .text = text, .aside = aside}});
}

static inline void add_paragraph(struct block_list *list, enum text_style style, const char *text)
{
    add_block(list, (struct block){.kind = BLOCK_PARAGRAPH, .as.paragraph = {.style = style, .text = text}});
}

static inline struct block table_block(const char *caption, struct table_column *columns, int n_columns,
                                       struct table_row *rows, int n_rows)
{
    struct block b = {.kind = BLOCK_TABLE};
    b.as.table.caption = caption;
    b.as.table.columns = columns;
    b.as.table.n_columns = n_columns;
    b.as.table.rows = rows;
    b.as.table.n_rows = n_rows;
    b.as.table.style = STYLE_BODY;
    return b;
}

static inline struct sheet plain_sheet(enum sheet_kind kind, struct block_list body)
{
    return (struct sheet){
        .kind = kind,
        .title = "Build sheet",
        .head_left = BOLD("TS-07") NBSP NBSP " Build sheet",
        .head_right = "Crosscut sled, bay 2\n2026-11-02",
        .foot_left =
            "The saw maker's manual, local codes and a licensed or competent supervisor stand above this sheet.",
        .foot_right = "TS-07",
        .bookmark = "Build sheet",
        .body = body,
    };
}

/* Pages of one sheet; what it complains of is put in problem. */
static inline bool build_one(const struct faces *faces, const struct sheet *sheet, struct pages *out,
                             struct text *problem)
{
    struct sheets sheets = {.paper = PAPER_A4, .list = (struct sheet *)sheet, .n = 1};
    return pages_build(&sheets, faces, out, problem);
}

static inline void assert_no_problems(const struct pages *pages, const struct faces *faces)
{
    struct text problems = {0};
    size_t n = pages_check(pages, faces, &problems);
    if (n)
        print_error("%s", text_string(&problems));
    text_free(&problems);
    assert_int_equal(n, 0);
}

/* The first text on a page that holds s; NULL. */
static inline const struct ink_text *find_text(const struct page *page, const char *s)
{
    for (size_t i = 0; i < page->n_inks; i++)
        if (page->inks[i].kind == INK_TEXT && strstr(page->inks[i].as.text.s, s))
            return &page->inks[i].as.text;
    return NULL;
}

static inline size_t count_texts(const struct page *page, const char *s)
{
    size_t n = 0;
    for (size_t i = 0; i < page->n_inks; i++)
        n += page->inks[i].kind == INK_TEXT && strstr(page->inks[i].as.text.s, s);
    return n;
}

#endif
