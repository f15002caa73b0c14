/* What must hold of a typeset job. */
#define _POSIX_C_SOURCE 200809L
#include "whole/typeset.h"

#include "pdf.h"
#include "pdf/finished.h"
#include "pdf/tools.h"

#include <stdio.h>
#include <unistd.h>

static void squeeze(const char *s, struct text *out)
{
    for (; *s; s++) {
        bool hard = strncmp(s, NBSP, 2) == 0;
        s += hard;
        if (!hard && *s != ' ' && *s != '\n')
            text_add_char(out, *s);
    }
}

/* All that is printed but the job's own text, which holds everything anyway, without blanks, page by page in the order in which it is set. */
static void gather_pages(const struct pages *pages, struct text *out)
{
    for (size_t p = 0; p < pages->n; p++)
        for (size_t i = 0; i < pages->list[p].n_inks; i++)
            if (pages->list[p].inks[i].kind == INK_TEXT && pages->list[p].inks[i].as.text.face != FACE_MONO)
                squeeze(pages->list[p].inks[i].as.text.s, out);
}

static bool stands_whole(const struct text *printed, const char *s)
{
    struct text plain = {0};
    if (s)
        squeeze(s, &plain);
    bool ok = !s || strstr(text_string(printed), text_string(&plain)) != NULL;
    if (!ok)
        print_error("not whole on any page: \"%s\"\n", s);
    text_free(&plain);
    return ok;
}

/* What the job calls things. Texts that only a record prints are looked for where there is one. */
static bool texts_stand_whole(const struct whole *w, const struct text *printed)
{
    const struct job *j = &w->job;
    bool ok = stands_whole(printed, j->number.s) && stands_whole(printed, j->title.s) && stands_whole(printed, j->shop.s);
    if (w->proof.n_tests == 0)
        return ok;
    ok = stands_whole(printed, j->made_by.s) && stands_whole(printed, j->saw.name.s) && ok;
    for (size_t i = 0; i < j->n_tests; i++)
        ok = stands_whole(printed, j->tests[i].by.s) && stands_whole(printed, j->tests[i].note.s) && ok;
    for (size_t i = 0; i < j->n_changes; i++)
        ok = stands_whole(printed, j->changes[i].what.s) && ok;
    for (size_t i = 0; i < j->n_instruments; i++)
        ok = stands_whole(printed, j->instruments[i].name) && stands_whole(printed, j->instruments[i].certificate.s) && ok;
    return ok;
}

/* The other unit's marks: a word "mm" or "cm"; or a fraction, marks of feet and inches, "in" tied to a number. (An "in" at the end of a line may be any.) */
static int set_up_marks(regex_t marks[2])
{
    return regcomp(&marks[UNITS_IN], "(^|[^A-Za-z])[mc]m[\xC2\xB2\xB3]*([^A-Za-z]|$)", REG_EXTENDED | REG_NOSUB) |
           regcomp(&marks[UNITS_MM], "\xE2\x81\x84|\xE2\x80[\xB2\xB3]|(^|[0-9])(\xC2\xA0|" THIN ")in([^A-Za-z]|$)",
                   REG_EXTENDED | REG_NOSUB);
}

static bool is_near(double a, double b)
{
    return fabs(a - b) < 1e-4;
}

/* A feeler leaf of the job, or what leaves come to that a test is to move by. */
static bool is_leaf(const struct whole *w, double mm)
{
    for (size_t i = 0; i < w->job.n_instruments; i++)
        for (size_t k = 0; k < w->job.instruments[i].n_leaves; k++)
            if (is_near(w->job.instruments[i].leaves[k], mm))
                return true;
    for (size_t i = 0; i < w->proof.n_tests; i++)
        if (w->proof.tests[i].move.n_leaves > 1 &&
            is_near(w->proof.tests[i].move.distance - w->proof.tests[i].move.left_over, mm))
            return true;
    return false;
}

/* Leaves are told in the unit that they are marked in: takes ".010 + .003 = .013 in" out of a text, where each number of the
   other unit is one. */
static void take_out_leaves(const struct whole *w, char *s)
{
    bool in = w->job.units == UNITS_MM; /* the other unit */
    const char *unit = in ? THIN "in" : THIN "mm";
    for (char *at; (at = strstr(s, unit)); s = at + strlen(unit)) {
        char *from = at;
        while (from > s && (strchr("0123456789.,+= ", from[-1]) || strchr(NBSP, from[-1])))
            from--;
        bool leaves = true;
        for (char *p = from, *end; p < at; p = end) {
            double number = strtod(p, &end);
            if (end == p)
                end = p + 1;
            else
                leaves = leaves && is_leaf(w, in ? number * MM_PER_INCH : number);
        }
        if (leaves)
            memset(from, '-', (size_t)(at - from) + strlen(unit));
    }
}

static bool tells_other_unit(const struct typeset_test *t, const struct whole *w, const char *s)
{
    struct pool pool = {0};
    char *plain = pool_string(&pool, s);
    take_out_leaves(w, plain);
    bool found = regexec(&t->marks[w->job.units], plain, 0, NULL, 0) == 0;
    pool_free(&pool);
    return found;
}

/* Nothing is printed in a unit that the job is not printed in, but the job's own text. */
static bool speaks_one_unit(const struct typeset_test *t, const struct whole *w)
{
    bool ok = true;
    for (size_t p = 0; p < w->pages.n; p++)
        for (size_t i = 0; i < w->pages.list[p].n_inks; i++) {
            const struct ink *ink = &w->pages.list[p].inks[i];
            if (ink->kind != INK_TEXT || ink->as.text.face == FACE_MONO || !tells_other_unit(t, w, ink->as.text.s))
                continue;
            print_error("page %zu: the other unit: \"%s\"\n", p + 1, ink->as.text.s);
            ok = false;
        }
    return ok;
}

static bool make_pdf(const struct whole *w, const struct faces *faces, struct text *pdf)
{
    struct text problem = {0};
    const struct pdf_info info = {.title = w->sheets.document_title, .author = w->sheets.author, .subject = w->sheets.subject,
                                  .keywords = w->sheets.fingerprint, .creator = "fettle", .language = "en-GB",
                                  .date = w->sheets.date, .identity = w->sheets.fingerprint};
    bool ok = pdf_build(&w->pages, faces, &info, pdf, &problem);
    if (!ok)
        print_error("%s\n", text_string(&problem));
    text_free(&problem);
    return ok;
}

static bool pages_hold(struct typeset_test *t, struct whole *w)
{
    struct text problem = {0}, printed = {0};
    bool ok = whole_typeset(w, t->faces, &problem);
    ok = ok && pages_check(&w->pages, t->faces, &problem) == 0;
    gather_pages(&w->pages, &printed);
    ok = ok && texts_stand_whole(w, &printed) && speaks_one_unit(t, w);
    if (regexec(&t->missing, text_string(&printed), 0, NULL, 0) == 0) {
        print_error("a sentence or a number is missing: \"?...?\" stands on a page\n");
        ok = false;
    }
    if (problem.size)
        print_error("%s\n", text_string(&problem));
    text_free(&problem);
    text_free(&printed);
    return ok;
}

/* Made twice from the text, byte for byte the same. */
static bool makes_the_same_bytes(struct typeset_test *t, const struct whole *w, const char *yaml)
{
    struct text first = {0}, again = {0}, problem = {0};
    struct whole *other = whole_calculate(yaml);
    bool ok = whole_typeset(other, t->faces, &problem) && make_pdf(w, t->faces, &first) && make_pdf(other, t->faces, &again);
    ok = ok && first.size == again.size && memcmp(first.bytes, again.bytes, first.size) == 0 && first.size > 1000;
    if (!ok)
        print_error("the same job made other bytes\n");
    text_free(&first);
    text_free(&again);
    text_free(&problem);
    whole_free(other);
    return ok;
}

/* The PDF as its readers find it. */
static bool finished_holds(struct typeset_test *t, const struct whole *w)
{
    struct text pdf = {0}, problems = {0}, letters = {0};
    char path[100];
    snprintf(path, sizeof path, "%s/sheet.pdf", t->folder);
    bool ok = make_pdf(w, t->faces, &pdf) && tool_write(path, pdf.bytes, pdf.size) &&
              finished_check(path, t->folder, &problems) == 0 && finished_letters(t->folder, &letters);
    if (problems.size)
        print_error("%s\n", text_string(&problems));
    ok = ok && texts_stand_whole(w, &letters);
    text_free(&pdf);
    text_free(&problems);
    text_free(&letters);
    return ok;
}

static bool holds(struct typeset_test *t, struct whole *w, const char *yaml, enum typeset_look look)
{
    switch (look) {
    case TYPESET_PAGES:
        return pages_hold(t, w);
    case TYPESET_TWICE:
        return pages_hold(t, w) && makes_the_same_bytes(t, w, yaml);
    case TYPESET_FINISHED:
        return pages_hold(t, w) && finished_holds(t, w);
    }
    return false;
}

void typeset_check(struct typeset_test *t, const char *yaml, enum typeset_look look)
{
    typeset_check_in(t, yaml, NULL, look);
}

void typeset_check_in(struct typeset_test *t, const char *yaml, const enum units *units, enum typeset_look look)
{
    struct whole *w = whole_calculate_in(yaml, units);
    if (w->planned) {
        t->planned++;
        if (!holds(t, w, yaml, look)) {
            t->failed++;
            print_error("in %s on %d:\n%s\n", w->job.number.s, (int)w->job.paper, getenv("FETTLE_SHOW") ? yaml : "");
        }
    } else if (!w->read) {
        print_problems(&w->diags);
        t->failed++;
    }
    whole_free(w);
}

int typeset_set_up(void **state)
{
    struct typeset_test *t = mem_alloc(sizeof *t);
    strcpy(t->folder, "/tmp/fettle-typeset-XXXXXX");
    t->faces = type_open();
    *state = t;
    if (!mkdtemp(t->folder) || set_up_marks(t->marks) != 0)
        return -1;
    return regcomp(&t->missing, "\\?[a-z_.#-]+\\?", REG_EXTENDED | REG_NOSUB);
}

int typeset_tear_down(void **state)
{
    struct typeset_test *t = *state;
    struct text command = {0}, said = {0};
    text_printf(&command, "rm -r '%s'", t->folder);
    int status = tool_run(text_string(&command), &said);
    text_free(&command);
    text_free(&said);
    type_close(t->faces);
    regfree(&t->missing);
    regfree(&t->marks[UNITS_MM]);
    regfree(&t->marks[UNITS_IN]);
    free(t);
    return status;
}
