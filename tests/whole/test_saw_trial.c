/* Trial at the saw by the printed page alone: its cutting tables are read back off the pages, text by text as it stands
   there, and followed with pieces of wood that know only how large they have become. Every piece that is asked for lies
   there and is as large as is printed, each keep is left, and in the end there are the parts of the list, none more.

   What printing rounds off adds up: a piece beside the fence is off by half a unit, what is left of a panel by half a unit
   more than the panel was. */
#include "whole/printed.h"
#include "whole/whole.h"

#include "stock/random_lists.h"

#include "base/file.h"

#include <glob.h>
#include <stdio.h>

enum { PARTS_MOST = 1000, PIECES_MOST = 900, LISTS = 100, COLUMNS = 7, CELL = 160 };
enum { CUT, SET_TO, HOW, SHEET, TAKE, GIVES, LEAVES }; /* no SHEET where there is one sheet */

/* ---- the page ---- */

struct line { /* one text of the dump */
    double x, y;
    char text[400];
};
struct row {
    char cell[COLUMNS][CELL];
};

/* A piece of wood; across 0: of a strip that keeps its width. */
struct wood {
    int from;  /* the cut it comes from */
    int sheet; /* and the sheet */
    double along, across, along_off, across_off;
};

struct trial {
    enum units units;
    double unit;               /* half of what sizes are printed to [mm] */
    double kerf;
    const struct plan *plan;
    struct wood lying[PIECES_MOST];
    int n;
    int parts[PARTS_MOST];     /* made, in the plan's order */
    uint64_t sheets, kept;     /* by number, those taken and those put aside: a bit each */
    int keeps_told, rows, tables;
    double worst;              /* how far a part is off [mm] */
    char problem[COLUMNS * CELL + 200];
};

static void fault(struct trial *t, const struct row *r, const char *what)
{
    if (!*t->problem)
        snprintf(t->problem, sizeof t->problem, "%s: %s | %s | %s | %s | %s | %s | %s", what, r->cell[0], r->cell[1], r->cell[2],
                 r->cell[3], r->cell[4], r->cell[5], r->cell[6]);
}

/* The next number in a cell, in mm; NAN: none. */
static double next_size(const struct trial *t, const char **p)
{
    struct printed n;
    if (!printed_next(p, &n))
        return NAN;
    return (isnan(n.beside) ? n.value : n.beside) * (t->units == UNITS_IN ? MM_PER_INCH : 1);
}

static int next_count(const char **p)
{
    struct printed n;
    return printed_next(p, &n) ? (int)n.value : -1;
}

static bool starts(const char *s, const char *with)
{
    return strncmp(s, with, strlen(with)) == 0;
}

/* ---- at the saw ---- */

static bool is_as_printed(const struct trial *t, const struct wood *w, const char *size)
{
    double along = next_size(t, &size), across = next_size(t, &size);
    if (isnan(along) || isnan(across) != (w->across == 0))
        return false;
    return fabs(along - w->along) < w->along_off + t->unit && (w->across == 0 || fabs(across - w->across) < w->across_off + t->unit);
}

static void take_number(struct trial *t, const struct row *r, uint64_t *taken, int number)
{
    if (number < 1 || number > 63 || (*taken >> number & 1))
        fault(t, r, "no such number, or once more");
    else
        *taken |= (uint64_t)1 << number;
}

static bool are_first_numbers(uint64_t taken)
{
    return ((taken >> 1) & ((taken >> 1) + 1)) == 0;
}

/* The k-th number, from 0, of a list like "1, 3–5" before a colon or the end; -1: there are not so many. */
static int listed(const char *cell, int k)
{
    int last = -1, number;
    for (const char *p = cell, *end = cell + strcspn(cell, ":"); p < end; p += strspn(p, "0123456789")) {
        p += strcspn(p, "0123456789:");
        bool run = last >= 0 && starts(p - 3, "\xE2\x80\x93");
        number = *p == ':' || !*p ? -1 : (int)strtol(p, NULL, 10);
        if (number < 0)
            return -1;
        for (int i = run ? last + 1 : number; i <= number; i++, k--)
            if (k == 0)
                return i;
        last = number;
    }
    return -1;
}

/* "sheets 1, 2: each 1220 × 610", "2 pieces from cut 4: 487 × 580" are as many panels, one after another. */
static int count_panels(const char *cell)
{
    int n = 0;
    if (strstr(cell, "pieces from cut "))
        return next_count(&cell);
    if (!strstr(cell, ": each "))
        return 1;
    while (listed(cell, n) >= 0)
        n++;
    return n;
}

/* "sheet 2: 1220 × 610" is fetched from the rack, "from cut 4: 487 × 580" must lie there; the k-th of those that the row
   saws. */
static struct wood pick_up(struct trial *t, const struct row *r, int k)
{
    const char *from = strstr(r->cell[TAKE], "from cut "), *cell = from ? from : r->cell[TAKE], *size = strchr(cell, ':');
    const char *sheets = *r->cell[SHEET] ? r->cell[SHEET] : "1";
    struct wood w = {0, listed(sheets, k), NAN, NAN, t->unit, t->unit};
    int number = from ? next_count(&cell) : listed(cell, k);
    if (w.sheet < 0 || listed(sheets, count_panels(r->cell[TAKE])) >= 0 || (!from && number != w.sheet))
        fault(t, r, "not the sheets of the pieces");
    if (!size) {
        fault(t, r, "nothing to saw");
    } else if (from) {
        for (int i = 0; i < t->n; i++)
            if (t->lying[i].from == number && t->lying[i].sheet == w.sheet && is_as_printed(t, &t->lying[i], size)) {
                w = t->lying[i];
                t->lying[i] = t->lying[--t->n];
                return w;
            }
        fault(t, r, "no such piece lies there");
    } else {
        w.along = next_size(t, &size);
        w.across = next_size(t, &size);
        w.across = isnan(w.across) ? 0 : w.across;
        take_number(t, r, &t->sheets, number);
    }
    return w;
}

static size_t letters_of(const char *cell)
{
    return strspn(cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
}

static const struct plan_part *part_of_letter(const struct plan *p, const char *cell)
{
    size_t n = letters_of(cell);
    for (size_t i = 0; i < p->n_parts; i++)
        if (strlen(p->parts[i].letter) == n && strncmp(p->parts[i].letter, cell, n) == 0)
            return &p->parts[i];
    return NULL;
}

/* How far a piece is from a part, lying one way; strips are planed to their section. */
static double off_by(const struct plan_part *p, double length, double width)
{
    double off = fabs(length - p->sawn_length);
    return p->stock->is_strip ? off : fmax(off, fabs(width - p->width));
}

static void finish_part(struct trial *t, const struct row *r, const char *letter, const struct wood *w)
{
    const struct plan_part *p = part_of_letter(t->plan, letter);
    if (!p || !p->stock) {
        fault(t, r, "no such part");
        return;
    }
    double off = off_by(p, w->along, w->across);
    if (!p->grain_matters && !p->stock->is_strip)
        off = fmin(off, off_by(p, w->across, w->along));
    if (off > fmax(w->along_off, w->across_off) + t->unit)
        fault(t, r, "not the part");
    t->worst = fmax(t->worst, off);
    t->parts[p - t->plan->parts]++;
}

static void put_down(struct trial *t, const struct row *r, int column, int k, struct wood w)
{
    const char *cell = r->cell[column];
    bool nothing = w.along <= w.along_off || (w.across != 0 && w.across <= w.across_off);
    if (strcmp(cell, "nothing") == 0) {
        if (!nothing)
            fault(t, r, "a piece is left that is not told");
        return;
    }
    if (strcmp(cell, "waste") == 0)
        return;
    if (starts(cell, "sliver, ")) {
        if (!is_as_printed(t, &w, cell) || fmin(w.along, w.across) > 10)
            fault(t, r, "no sliver");
    } else if (starts(cell, "keep ")) {
        const char *size = strchr(cell, ':');
        take_number(t, r, &t->kept, listed(cell, k));
        if (!size || !is_as_printed(t, &w, size))
            fault(t, r, "the piece to keep is another");
    } else if (letters_of(cell) > 0) {
        if (!is_as_printed(t, &w, cell + letters_of(cell)))
            fault(t, r, "the part is printed with another size");
        finish_part(t, r, cell, &w);
    } else if (!is_as_printed(t, &w, cell)) {
        fault(t, r, "the cut makes another size");
    } else if (t->n < PIECES_MOST) {
        t->lying[t->n++] = w;
    }
}

/* By hand it is marked; the fence guides what needs no gauge; else a stop is set. */
static bool can_be_set_so(const struct row *r)
{
    const char *how = r->cell[HOW];
    bool stop = strstr(how, "gauge");
    return starts(r->cell[SET_TO], strstr(how, "hand") ? "mark\xC2\xA0" : stop ? "stop\xC2\xA0" : "fence\xC2\xA0");
}

/* "trim about 5 off both ends": nothing is set, and the rough ends are waste. */
static void trim_panel(struct trial *t, const struct row *r, int k, struct wood w)
{
    const char *how = r->cell[HOW];
    bool ends = strstr(how, "both ends");
    *(ends ? &w.along : &w.across) -= 2 * next_size(t, &how);
    *(ends ? &w.along_off : &w.across_off) += 2 * t->unit;
    if (strcmp(r->cell[SET_TO], "\xE2\x80\x93") != 0 || strcmp(r->cell[LEAVES], "waste") != 0)
        fault(t, r, "not a trim");
    put_down(t, r, GIVES, k, w);
}

static void saw_panel(struct trial *t, const struct row *r, int k)
{
    const char *cut = r->cell[CUT], *set_to = r->cell[SET_TO];
    struct wood w = pick_up(t, r, k), gives, leaves;
    double fence = next_size(t, &set_to);
    bool rip = starts(r->cell[HOW], "rip");
    w.from = next_count(&cut);
    if (w.from != t->rows + 1)
        fault(t, r, "cuts do not count up");
    if (starts(r->cell[HOW], "trim ")) {
        trim_panel(t, r, k, w);
        return;
    }
    gives = leaves = w;
    double *given = rip ? &gives.across : &gives.along, *left = rip ? &leaves.across : &leaves.along;
    if (!can_be_set_so(r) || isnan(fence) || (!rip && !starts(r->cell[HOW], "crosscut")) || fence > *given)
        fault(t, r, "not a cut");
    *given = fence;
    *(rip ? &gives.across_off : &gives.along_off) = t->unit;
    *left -= fence + t->kerf;
    *(rip ? &leaves.across_off : &leaves.along_off) += t->unit;
    if (*left <= 0 && *left > -t->kerf - 3 * t->unit)
        *left = 1e-9; /* the blade took the rest */
    put_down(t, r, GIVES, k, gives);
    put_down(t, r, LEAVES, k, leaves);
}

static void saw_row(struct trial *t, const struct row *r)
{
    for (int k = 0, n = count_panels(r->cell[TAKE]); k < n; k++)
        saw_panel(t, r, k);
    t->rows++;
}

static void end_table(struct trial *t)
{
    struct row none = {{""}};
    if (t->rows == 0)
        return;
    if (t->n > 0)
        fault(t, &none, "pieces are left unsawn");
    if (t->kept != ((uint64_t)2 << t->keeps_told) - 2)
        fault(t, &none, "not all pieces to keep are left");
    if (!are_first_numbers(t->sheets))
        fault(t, &none, "a sheet is not sawn");
    t->n = t->rows = t->keeps_told = 0;
    t->sheets = t->kept = 0;
    t->tables++;
}

/* ---- reading the dump ---- */

static bool read_line(const char **p, struct line *out)
{
    int read = 0;
    const char *end = strchr(*p, '\n');
    char face[64];
    double size;
    if (!end)
        return false;
    *out = (struct line){NAN, NAN, ""};
    if (sscanf(*p, " %lf %lf %lf %63s%n", &out->x, &out->y, &size, face, &read) == 4 && (*p)[read] == ' ')
        snprintf(out->text, sizeof out->text, "%.*s", (int)(end - *p - read - 1), *p + read + 1);
    else
        out->x = NAN; /* a new page */
    *p = end + 1;
    return true;
}

struct reader {
    double header_y, column[COLUMNS], row_y;
    bool in_table, open;
    struct row row;
    char before[400]; /* the text before this one */
};

static void flush_row(struct reader *r, struct trial *t)
{
    if (r->open)
        saw_row(t, &r->row);
    r->open = false;
    r->row = (struct row){{""}};
}

static void add_text(struct reader *r, int column, const char *text)
{
    char *cell = r->row.cell[column];
    size_t n = strlen(cell);
    if (n == 0)
        text += strspn(text, " ");
    snprintf(cell + n, CELL - n, "%s", text);
}

static int header_of(const char *text)
{
    static const char *const headers[COLUMNS] = {"cutting.cut", "cutting.set", "cutting.way", "cutting.column.sheet",
                                                 "cutting.take", "cutting.gives", "cutting.leaves"};
    if (strcmp(text, words_get("cutting.column.strip")) == 0)
        return SHEET;
    for (int i = 0; i < COLUMNS; i++)
        if (strcmp(text, words_get(headers[i])) == 0)
            return i;
    return -1;
}

static bool is_number(const char *s)
{
    return *s && strspn(s, "0123456789") == strlen(s);
}

static void read_row_text(struct reader *r, struct trial *t, const struct line *l)
{
    int column = LEAVES;
    while (column > SET_TO && !(l->x >= r->column[column] - 0.5)) /* NAN: there is no such column */
        column--;
    if (l->y != r->row_y) {
        bool first = column == SET_TO && is_number(l->text);
        if (!first && column == SET_TO) { /* a foot or a heading */
            flush_row(r, t);
            r->in_table = false;
            return;
        }
        if (first) {
            flush_row(r, t);
            r->open = true;
            column = CUT;
        } else if (*r->row.cell[column]) {
            add_text(r, column, " "); /* goes on in a line below */
        }
        r->row_y = l->y;
    }
    add_text(r, column, l->text);
}

/* "Keep piece 1:", "Keep pieces 1 to 3:", broken over two lines or not. */
static void read_keeps(struct reader *r, struct trial *t, const char *text)
{
    char joined[900];
    int n = 0;
    snprintf(joined, sizeof joined, "%s %s", r->before, text);
    const char *keep = strstr(joined, "Keep piece");
    if (keep && (sscanf(keep, "Keep pieces 1 to %d:", &n) == 1 || sscanf(keep, "Keep pieces 1 and %d:", &n) == 1 || sscanf(keep, "Keep piece %d:", &n) == 1)) {
        if (t->rows > 0)
            end_table(t);
        t->keeps_told = n;
    }
    snprintf(r->before, sizeof r->before, "%s", text);
}

static void read_text(struct reader *r, struct trial *t, const struct line *l)
{
    int header = header_of(l->text);
    const char *p = l->text;
    if (header == CUT) {
        flush_row(r, t);
        r->header_y = l->y;
        r->column[SHEET] = NAN;
        r->in_table = false;
    }
    if (header >= 0 && l->y == r->header_y) {
        r->column[header] = l->x;
        r->in_table |= header == LEAVES;
        r->row_y = NAN;
    } else if (r->in_table) {
        read_row_text(r, t, l);
    }
    if (r->in_table)
        return;
    if (starts(p, "Saw in this order"))
        end_table(t);
    if (strstr(p, "Kerf ")) {
        p = strstr(p, "Kerf ");
        t->kerf = next_size(t, &p);
    }
    read_keeps(r, t, l->text);
}

static void follow_dump(const char *dump, struct trial *t)
{
    struct reader r = {.header_y = NAN, .row_y = NAN};
    struct line l;
    while (read_line(&dump, &l)) {
        if (isnan(l.x)) {
            flush_row(&r, t);
            r.in_table = false;
        } else {
            read_text(&r, t, &l);
        }
    }
    flush_row(&r, t);
    end_table(t);
}

/* ---- jobs ---- */

static bool is_misfit(const struct cutting *c, const struct plan_part *p)
{
    for (size_t i = 0; i < c->n_misfits; i++)
        if (c->misfits[i].part == p)
            return true;
    return false;
}

static void count_parts(struct trial *t, const struct whole *w)
{
    for (size_t i = 0; i < w->plan.n_parts; i++) {
        const struct plan_part *p = &w->plan.parts[i];
        bool can = p->stock && !is_misfit(&w->cutting, p) && !(p->stock->is_strip && !p->stock->length.given);
        if (t->parts[i] != (can ? p->quantity : 0) && !*t->problem)
            snprintf(t->problem, sizeof t->problem, "%s: %d made, %d wanted", p->letter, t->parts[i], p->quantity);
    }
}

static void start_trial(struct trial *t, const struct whole *w)
{
    *t = (struct trial){.units = w->job.units, .kerf = NAN, .plan = &w->plan};
    t->unit = t->units == UNITS_IN ? MM_PER_INCH / 128 + 1e-3 : 0.25 + 1e-3;
}

static struct whole *typeset(const char *yaml, const struct faces *faces, struct text *dump)
{
    struct text problem = {0};
    struct whole *w = whole_calculate(yaml);
    if (!w->planned)
        print_problems(&w->diags);
    assert_true(w->planned);
    if (!whole_typeset(w, faces, &problem))
        fail_msg("%s", text_string(&problem));
    pages_dump(&w->pages, dump);
    text_free(&problem);
    return w;
}

static int follow_job(const char *name, const char *yaml, const struct faces *faces, double *worst)
{
    static struct trial t;
    struct text dump = {0};
    struct whole *w = typeset(yaml, faces, &dump);
    start_trial(&t, w);
    follow_dump(text_string(&dump), &t);
    count_parts(&t, w);
    if (*t.problem)
        fail_msg("%s: %s", name, t.problem);
    *worst = fmax(*worst, t.worst);
    text_free(&dump);
    whole_free(w);
    return t.tables;
}

static struct faces *open_faces(void)
{
    struct faces *faces = type_open();
    assert_non_null(faces);
    return faces;
}

static void test_tables_of_the_example_jobs_make_their_parts(void **state)
{
    (void)state;
    struct faces *faces = open_faces();
    glob_t jobs;
    int tables = 0;
    double worst = 0;
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &jobs), 0);
    for (size_t i = 0; i < jobs.gl_pathc; i++) {
        struct text yaml = {0};
        assert_int_equal(file_read(jobs.gl_pathv[i], 1 << 20, &yaml), FILE_READ);
        tables += follow_job(jobs.gl_pathv[i], text_string(&yaml), faces, &worst);
        text_free(&yaml);
    }
    print_message("%d tables, a part at most %.2f mm off by rounding\n", tables, worst);
    assert_true(tables >= 25);
    globfree(&jobs);
    type_close(faces);
}

static void follow_lists(bool inches)
{
    struct faces *faces = open_faces();
    int tables = 0;
    double worst = 0;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        char name[32];
        struct text yaml = {0};
        snprintf(name, sizeof name, "list %u", seed);
        random_list_in(seed, inches, &yaml);
        tables += follow_job(name, text_string(&yaml), faces, &worst);
        text_free(&yaml);
    }
    print_message("%d tables, a part at most %.2f mm off by rounding\n", tables, worst);
    assert_true(tables > LISTS);
    type_close(faces);
}

static void test_tables_of_random_lists_in_millimetres_make_their_parts(void **state)
{
    (void)state;
    follow_lists(false);
}

static void test_tables_of_random_lists_in_inches_make_their_parts(void **state)
{
    (void)state;
    follow_lists(true);
}

/* ---- the trial itself ---- */

/* The dump with the n-th figure of the first table changed by four, more than rounding can hide. False: it has not
   so many. */
static bool spoil(const struct text *dump, int n, struct text *out)
{
    const char *all = text_string(dump), *p = strstr(strstr(all, "in this order"), "leaves");
    struct line l;
    int found = 0;
    p = strchr(p, '\n') + 1;
    while (read_line(&p, &l) && !isnan(l.x) && l.y < 780 && strcmp(l.text, words_get("build.checks")) != 0)
        for (size_t i = 0; l.text[i]; i++) {
            if (l.text[i] < '0' || l.text[i] > '9' || found++ < n)
                continue;
            size_t at = (size_t)(p - all) - 1 - strlen(l.text) + i;
            text_printf(out, "%.*s%c%s", (int)at, all, (char)(l.text[i] + (l.text[i] > '5' ? -4 : 4)), all + at + 1);
            return true;
        }
    return false;
}

/* Any figure of the tables that is another than it should be is found out. */
static void test_trial_finds_each_spoiled_number(void **state)
{
    (void)state;
    struct faces *faces = open_faces();
    static struct trial t;
    struct text dump = {0};
    int spoiled = 0;
    struct whole *w = typeset("fettle: 1\njob: {number: T, title: Two rails and a panel}\nunits: mm\nsaw: {blade: {diameter: 250, kerf: 3}}\n"
                              "stock: {ply: {material: birch-plywood, thickness: 12, sheet: [1220, 610]}}\n"
                              "jig: {kind: parts, parts: [{name: panel, stock: ply, length: 500, width: 400}, "
                              "{name: rail, stock: ply, length: 640, width: 90, quantity: 2}]}\n", faces, &dump);
    for (int n = 0;; n++) {
        struct text bad = {0};
        bool more = spoil(&dump, n, &bad);
        if (!more)
            break;
        start_trial(&t, w);
        follow_dump(text_string(&bad), &t);
        count_parts(&t, w);
        if (!*t.problem)
            fail_msg("figure %d spoiled, and nothing found", n);
        spoiled++;
        text_free(&bad);
    }
    print_message("%d numbers spoiled\n", spoiled);
    assert_true(spoiled >= 100);
    text_free(&dump);
    whole_free(w);
    type_close(faces);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tables_of_the_example_jobs_make_their_parts),
        cmocka_unit_test(test_tables_of_random_lists_in_millimetres_make_their_parts),
        cmocka_unit_test(test_tables_of_random_lists_in_inches_make_their_parts),
        cmocka_unit_test(test_trial_finds_each_spoiled_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
