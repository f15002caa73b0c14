/* Reading a build sheet as a builder does. */
#include "whole/rebuild.h"

#include "whole/printed.h"
#include "whole/sentences.h"

#include "words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    struct paper_sled *sled;
    void (*see)(struct block *, void *);
    void *data;
};

/* ---- cells ---- */

static double in_mm(const struct paper_sled *s, const struct printed *p)
{
    double value = isnan(p->beside) ? p->value : p->beside;
    return s->units == UNITS_IN ? value * 25.4 : value;
}

static double length_in(const struct paper_sled *s, const char *text)
{
    struct printed p;
    return printed_next(&text, &p) ? in_mm(s, &p) : NAN;
}

static void plain_cell(const char *marked, char *out, size_t room)
{
    struct text plain = {0};
    strip_bold(marked, &plain);
    snprintf(out, room, "%s", text_string(&plain));
    text_free(&plain);
}

/* The column under a head; -1: there is none. */
static int column_of(const struct block *table, const char *head_key)
{
    for (int c = 0; c < table->as.table.n_columns; c++)
        if (strcmp(table->as.table.columns[c].head, words_get(head_key)) == 0)
            return c;
    return -1;
}

static const char *cell(const struct block *table, int row, const char *head_key)
{
    int c = column_of(table, head_key);
    return c < 0 ? "" : table->as.table.rows[row].cells[c];
}

static bool is_table(const struct block *b, const char *caption_key)
{
    struct text plain = {0};
    bool is = false;
    if (b->kind == BLOCK_TABLE && b->as.table.caption) {
        strip_bold(b->as.table.caption, &plain);
        is = strcmp(text_string(&plain), words_get(caption_key)) == 0;
    }
    text_free(&plain);
    return is;
}

static struct paper_part *part_of_letter(struct paper_sled *s, char letter)
{
    for (int i = 0; i < s->n_parts; i++)
        if (s->parts[i].letter == letter)
            return &s->parts[i];
    return NULL;
}

/* ---- tables ---- */

static void read_parts(struct paper_sled *s, const struct block *b)
{
    for (int r = 0; r < b->as.table.n_rows && s->n_parts < PAPER_PARTS; r++) {
        struct paper_part *p = &s->parts[s->n_parts++];
        char letter[8];
        plain_cell(b->as.table.rows[r].cells[0], letter, sizeof letter);
        p->letter = letter[0]; /* a sled has no more than a score of parts */
        plain_cell(cell(b, r, "build.part"), p->name, sizeof p->name);
        p->pieces = atoi(cell(b, r, "build.number"));
        p->length = length_in(s, cell(b, r, "build.length"));
        p->width = length_in(s, cell(b, r, "build.width"));
        p->thickness = length_in(s, cell(b, r, "build.thickness"));
    }
}

static void read_places(struct paper_sled *s, const struct block *b)
{
    for (int r = 0; r < b->as.table.n_rows; r++) {
        char letter[8];
        plain_cell(b->as.table.rows[r].cells[0], letter, sizeof letter);
        struct paper_part *p = part_of_letter(s, letter[0]);
        if (!p)
            continue;
        p->sits = true;
        p->x0 = length_in(s, cell(b, r, "build.left"));
        p->x1 = length_in(s, cell(b, r, "build.right"));
        p->v0 = length_in(s, cell(b, r, "build.near"));
        p->v1 = length_in(s, cell(b, r, "build.far"));
        p->z0 = length_in(s, cell(b, r, "build.bottom"));
        p->z1 = length_in(s, cell(b, r, "build.top"));
    }
}

/* "4 × 40 mm", "No. 8 × 1 1/2 in": ASME B18.6.1 gives the shank of a number as 0.060 in + 0.013 in for each. */
static void read_screw(struct paper_hole *h)
{
    const char *number = strstr(h->text, "No."), *colon = strstr(h->text, ": "), *p = number ? number : colon ? colon : h->text;
    struct printed n;
    if (!printed_next(&p, &n))
        return;
    h->diameter = number ? (0.060 + 0.013 * n.value) * 25.4 : n.value;
    if (!printed_next(&p, &n))
        return;
    h->length = number ? n.value * 25.4 : n.value;
    if (number && !n.is_fraction && strncmp(p, NBSP, strlen(NBSP)) == 0 && printed_next(&p, &n) && n.is_fraction)
        h->length += n.value * 25.4; /* "1 3/4" */
}

static void read_holes(struct paper_sled *s, const struct block *b)
{
    for (int r = 0; r < b->as.table.n_rows; r++) {
        const char *across = cell(b, r, "build.from_blade"), *along = cell(b, r, "build.from_edge");
        double xs[64], vs[64];
        int n_x = 0, n_v = 0;
        for (struct printed p; n_x < 64 && printed_next(&across, &p);)
            xs[n_x++] = in_mm(s, &p);
        for (struct printed p; n_v < 64 && printed_next(&along, &p);)
            vs[n_v++] = in_mm(s, &p);
        for (int i = 0; i < n_x * n_v && s->n_holes < PAPER_HOLES; i++) {
            struct paper_hole *h = &s->holes[s->n_holes++];
            char into[8];
            plain_cell(cell(b, r, "build.into"), into, sizeof into);
            plain_cell(cell(b, r, "build.screw"), h->text, sizeof h->text);
            h->into = into[0];
            h->x = xs[i % n_x];
            h->v = vs[i / n_x];
            h->from_above = strstr(h->text, "from above") != NULL;
            h->said = atoi(cell(b, r, "build.number"));
            h->driven = h->said > 0;
            h->places = n_x * n_v;
            read_screw(h);
        }
    }
}

static void read_settings(struct paper_sled *s, const struct block *b)
{
    for (int r = 0; r < b->as.table.n_rows && s->n_settings < PAPER_SETTINGS; r++) {
        struct paper_setting *t = &s->settings[s->n_settings++];
        plain_cell(b->as.table.rows[r].cells[0], t->name, sizeof t->name);
        t->value = length_in(s, b->as.table.rows[r].cells[1]);
    }
}

static const struct {
    const char *caption;
    void (*read)(struct paper_sled *, const struct block *);
} tables[] = {
    {"build.parts", read_parts},       {"build.bodies", read_places},        {"build.screws", read_holes},
    {"build.settings", read_settings}, {"build.saw_settings", read_settings}, {"build.sled_and_air", read_settings},
};

static void read_steps(struct paper_sled *s, const struct block *b)
{
    for (int i = 0; i < b->as.steps.n; i++) {
        struct text plain = {0};
        strip_bold(b->as.steps.items[i].what, &plain);
        text_printf(&s->steps, "%s\n", text_string(&plain));
        text_free(&plain);
    }
}

static void walk(const struct reader *r, const struct block_list *list)
{
    for (size_t i = 0; i < list->n; i++) {
        struct block *b = &list->blocks[i];
        for (int c = 0; b->kind == BLOCK_COLUMNS && c < b->as.columns.n; c++)
            walk(r, &b->as.columns.list[c]);
        for (size_t t = 0; t < sizeof tables / sizeof *tables; t++) {
            if (!is_table(b, tables[t].caption))
                continue;
            if (r->see)
                r->see(b, r->data);
            else
                tables[t].read(r->sled, b);
        }
        if (b->kind == BLOCK_STEPS && !r->see)
            read_steps(r->sled, b);
    }
}

void paper_read(const struct sheet *sheet, enum units units, struct paper_sled *out)
{
    struct reader r = {.sled = out};
    *out = (struct paper_sled){.units = units};
    walk(&r, &sheet->body);
}

void paper_free(struct paper_sled *s)
{
    text_free(&s->steps);
}

void paper_tables(const struct sheet *sheet, void (*see)(struct block *, void *), void *data)
{
    struct reader r = {.see = see, .data = data};
    walk(&r, &sheet->body);
}

const struct paper_part *paper_part(const struct paper_sled *s, const char *name)
{
    for (int i = 0; i < s->n_parts; i++)
        if (strcmp(s->parts[i].name, name) == 0)
            return &s->parts[i];
    return NULL;
}

double paper_setting(const struct paper_sled *s, const char *name_begins)
{
    for (int i = 0; i < s->n_settings; i++)
        if (strncmp(s->settings[i].name, name_begins, strlen(name_begins)) == 0)
            return s->settings[i].value;
    return NAN;
}

double paper_after(const struct paper_sled *s, const char *phrase)
{
    const char *at = strstr(text_string(&s->steps), phrase);
    return at ? length_in(s, at + strlen(phrase)) : NAN;
}
