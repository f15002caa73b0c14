/* kit.h: sheets made from the text of a job, and walking over all that stands on them. */
#ifndef FETTLE_TESTS_SHEET_KIT_H
#define FETTLE_TESTS_SHEET_KIT_H

#include "close.h"

#include "base/file.h"
#include "base/utf8.h"
#include "sheet.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

struct made {
    struct job job;
    struct plan plan;
    struct cutting cutting;
    struct proof proof;
    struct outcome outcome;
    struct sheets sheets;
};

static inline void print_problems(struct diags *diags)
{
    struct text text = {0};
    for (size_t i = 0; i < diags->count; i++)
        diag_print(diags, &diags->list[i], &text);
    print_error("%s\n", text_string(&text));
    text_free(&text);
}

static inline struct made *make_sheets(const char *text, const bool *wanted)
{
    struct made *m = mem_alloc(sizeof *m);
    struct diags diags = {0};
    bool ok = job_read_text("job.yaml", text, strlen(text), &diags, &m->job) && plan_build(&m->job, &diags, &m->plan) &&
              proof_build(&m->job, &m->plan.setting, &diags, &m->proof);
    if (!ok)
        print_problems(&diags);
    assert_true(ok);
    cutting_build(&m->job, &m->plan, &m->cutting);
    outcome_build(&m->plan, &m->cutting, &m->proof, &m->outcome);
    sheets_build(&m->job, &m->plan, &m->cutting, &m->proof, &m->outcome, wanted, &m->sheets);
    diags_free(&diags);
    return m;
}

static inline void free_made(struct made *m)
{
    sheets_free(&m->sheets);
    outcome_free(&m->outcome);
    proof_free(&m->proof);
    cutting_free(&m->cutting);
    plan_free(&m->plan);
    job_free(&m->job);
    free(m);
}

static inline const struct sheet *find_sheet(const struct made *m, enum sheet_kind kind)
{
    for (size_t i = 0; i < m->sheets.n; i++)
        if (m->sheets.list[i].kind == kind)
            return &m->sheets.list[i];
    return NULL;
}

/* Calls visit for every block, those in columns included. */
static inline void visit_blocks(const struct block_list *list, void (*visit)(const struct block *, void *), void *arg)
{
    for (size_t i = 0; i < list->n; i++) {
        const struct block *b = &list->blocks[i];
        visit(b, arg);
        for (int c = 0; b->kind == BLOCK_COLUMNS && c < b->as.columns.n; c++)
            visit_blocks(&b->as.columns.list[c], visit, arg);
    }
}

/* All texts of a block, a line each; bold marks left in. */
static inline void gather_block(const struct block *b, void *arg)
{
    struct text *out = arg;
    switch (b->kind) {
    case BLOCK_HEADING:
        text_printf(out, "%s\n%s\n", b->as.heading.text, b->as.heading.aside);
        break;
    case BLOCK_PARAGRAPH:
        text_printf(out, "%s\n", b->as.paragraph.text);
        break;
    case BLOCK_TABLE:
        text_printf(out, "%s\n", b->as.table.caption);
        for (int c = 0; c < b->as.table.n_columns; c++)
            text_printf(out, "%s\n", b->as.table.columns[c].head);
        for (int r = 0; r < b->as.table.n_rows; r++)
            for (int c = 0; c < b->as.table.n_columns; c++)
                text_printf(out, "%s\n", b->as.table.rows[r].cells[c]);
        break;
    case BLOCK_STEPS:
        for (int i = 0; i < b->as.steps.n; i++)
            text_printf(out, "%s\n%s\n%s\n%s\n", b->as.steps.items[i].number, b->as.steps.items[i].caution, b->as.steps.items[i].what, b->as.steps.items[i].aside);
        break;
    case BLOCK_CAUTIONS:
        for (int i = 0; i < b->as.cautions.n; i++)
            text_printf(out, "%s\n", b->as.cautions.items[i].text);
        break;
    case BLOCK_BANNER:
        text_printf(out, "%s\n%s\n", b->as.banner.words, b->as.banner.right);
        break;
    case BLOCK_FIGURES:
        for (int i = 0; i < b->as.figures.n; i++)
            text_printf(out, "%s\n%s\n%s\n", b->as.figures.items[i].number, b->as.figures.items[i].unit, b->as.figures.items[i].label);
        break;
    case BLOCK_BOXES:
        for (int i = 0; i < b->as.boxes.n; i++)
            text_printf(out, "%s\n%s\n", b->as.boxes.items[i].text, b->as.boxes.items[i].caption);
        break;
    case BLOCK_SIGNATURES:
        for (int i = 0; i < b->as.signatures.n; i++)
            text_printf(out, "%s\n", b->as.signatures.labels[i]);
        break;
    case BLOCK_DRAWING:
        for (size_t i = 0; i < b->as.drawing.drawing->n_labels; i++)
            text_printf(out, "%s\n", b->as.drawing.drawing->labels[i].text);
        break;
    case BLOCK_BAR:
        text_printf(out, "%s\n", b->as.bar.label);
        break;
    case BLOCK_SOURCE:
    case BLOCK_COLUMNS:
    case BLOCK_RULE:
        break;
    }
}

/* All texts of a sheet but the job's own; to be freed with text_free. */
static inline struct text gather_sheet(const struct sheet *sheet)
{
    struct text out = {0};
    text_printf(&out, "%s\n%s\n%s\n%s\n%s\n", sheet->title, sheet->head_left, sheet->head_right, sheet->foot_left, sheet->foot_right);
    visit_blocks(&sheet->body, gather_block, &out);
    return out;
}

static inline void assert_says(const struct sheet *sheet, const char *words, bool expected)
{
    struct text text = gather_sheet(sheet);
    bool says = strstr(text_string(&text), words) != NULL;
    if (says != expected)
        print_error("%s \"%s\" on the %s:\n%s\n", expected ? "missing" : "unwanted", words, sheet->title, text_string(&text));
    text_free(&text);
    assert_true(says == expected);
}

/* ---- jobs ---- */


/* The contract's complete job, in mm. */
#define JOB_IN_MM \
    "fettle: 1\n" \
    "job: {number: TS-07, title: \"Crosscut sled, bay 2\", shop: Joinery training shop, made_by: bench class B}\n" \
    "units: mm\n" \
    "saw:\n" \
    "  blade: {diameter: 254, kerf: 2.8, plate: 1.8, highest: 80}\n" \
    "  knife: {kind: riving, thickness: 2.2, below_top: 2}\n" \
    "  table: {front_edge: 500, depth: 800, width: 940, left_of_blade: 470}\n" \
    "  slots: {width: 19.1, depth: 9.6, left: 142, right: 178}\n" \
    "air:\n" \
    "  at_fitting: {temperature: 18, humidity: 50}\n" \
    "  driest: {temperature: 20, humidity: 45}\n" \
    "  dampest: {temperature: 17, humidity: 58}\n" \
    "stock:\n" \
    "  ply12: {material: birch-plywood, thickness: 12.0, sheet: [1250, 1250], have: 1}\n" \
    "  ply18: {material: birch-plywood, thickness: 18.0, sheet: [1250, 625], have: 1}\n" \
    "  maple: {material: hard-maple, strip: [25, 50], length: 1200, rings: quarter}\n" \
    "jig:\n" \
    "  kind: crosscut-sled\n" \
    "  capacity: {width: 420, thickness: 60}\n" \
    "  blade_above_work: 5\n" \
    "  base: {stock: ply12, width: 760, depth: 580, left_of_blade: 400}\n" \
    "  reference_fence: {side: near, stock: ply18, from_edge: 90, layers: 2, height: 100, length: 760,\n" \
    "    pivot: {side: left, from_blade: 330}, moving: {side: right, from_blade: 280}}\n" \
    "  other_fence: {stock: ply18, layers: 1, height: 100, length: 600}\n" \
    "  runners: {stock: maple, width: 19.00, thickness: 9.0, guide: left, free_width: 18.85}\n" \
    "  travel_stop: {stock: maple, in: right}\n" \
    "  exit_guard: {stock: ply18, layers: %s}\n" \
    "tolerances: {squareness: {error: %s, over: 300}}\n" \
    "retest: {months: 3}\n" \
    "instruments:\n" \
    "  caliper-3: {kind: caliper, resolution: 0.01, error_limit: 0.03, checked: 2026-01-15}\n" \
    "  leaves-1: {kind: feeler, leaves: [0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50]}\n" \
    "%s%s"

#define JOB_IN_INCHES \
    "fettle: 1\n" \
    "job: {number: GAR-3, title: Sled for the garage saw}\n" \
    "units: in\n" \
    "saw:\n" \
    "  blade: {diameter: 10, kerf: 1/8, plate: 0.087, highest: 3 1/8}\n" \
    "  table: {front_edge: 18, depth: 27, width: 40, left_of_blade: 20}\n" \
    "  slots: {width: 0.752, depth: 3/8, left: 5 1/2, right: 5 1/2}\n" \
    "stock:\n" \
    "  half: {material: birch-plywood, thickness: 0.472, sheet: [60, 60]}\n" \
    "  three-q: {material: birch-plywood, thickness: 0.709, sheet: [60, 30]}\n" \
    "  maple: {material: hard-maple, strip: [1, 2], length: 48, rings: quarter}\n" \
    "jig: {kind: crosscut-sled, capacity: {width: 14}, exit_guard: {stock: three-q, layers: %s}}\n" \
    "tolerances: {squareness: {error: %s, over: 12}}\n" \
    "instruments:\n" \
    "  dial: {kind: caliper, resolution: 0.0005, error_limit: 0.001}\n" \
    "%s%s"

#define THREE_STRIPS \
    "tests:\n" \
    "  - method: five-cut\n" \
    "    date: 2026-11-02\n" \
    "    by: bench class B\n" \
    "    instrument: caliper-3\n" \
    "    offcut: right\n" \
    "    length: 388\n" \
    "    strips:\n" \
    "      - {fence_end: [21.47, 21.46, 21.48], far_end: [21.26, 21.26, 21.25]}\n" \
    "      - {fence_end: [22.13, 22.12, 22.14], far_end: [21.93, 21.92, 21.92]}\n" \
    "      - {fence_end: [20.88, 20.89, 20.88], far_end: [20.65, 20.65, 20.66]}\n"
#define ONE_STRIP \
    "tests:\n" \
    "  - {method: five-cut, date: 2026-11-02, instrument: caliper-3, offcut: right, length: 388,\n" \
    "     strips: [{fence_end: [21.47, 21.46, 21.48], far_end: [21.26, 21.26, 21.25]}]}\n"
#define LEAST_JOB \
    "fettle: 1\n" \
    "job: {number: SLED-1, title: First crosscut sled}\n" \
    "units: mm\n" \
    "saw:\n" \
    "  blade: {diameter: 210, kerf: 2.4, highest: 63}\n" \
    "  table: {front_edge: 300, depth: 560}\n" \
    "  slots: {width: 16.2, depth: 9.0, left: 118}\n" \
    "stock:\n" \
    "  ply12: {material: birch-plywood, thickness: 11.8, sheet: [1220, 610]}\n" \
    "  maple: {material: hard-maple, strip: [20, 40], length: 1000}\n" \
    "jig: {kind: crosscut-sled, capacity: {width: 200}}\n"

static inline struct made *make_job(bool inches, const char *layers, const char *tolerance, const char *tests, const char *rest)
{
    struct text text = {0};
    if (inches)
        text_printf(&text, JOB_IN_INCHES, layers, tolerance, tests, rest);
    else
        text_printf(&text, JOB_IN_MM, layers, tolerance, tests, rest);
    struct made *m = make_sheets(text_string(&text), NULL);
    text_free(&text);
    return m;
}

#endif
