/* One job through all stages, in the order of the folders. Read task_run first: it is the map of the program. */
#include "run/task.h"

#include "base/utf8.h"
#include "pages.h"
#include "pdf.h"
#include "sheet.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

/* After a backslash: steps over another one, or over the number of a character, \u00E4, and gives that; else 0. */
static unsigned read_escape(const char **p)
{
    const char *s = *p;
    *p += *s == '\\';
    size_t digits = *s == 'x' ? 2 : *s == 'u' ? 4 : *s == 'U' ? 8 : 0;
    if (digits == 0 || strspn(s + 1, "0123456789abcdefABCDEF") < digits)
        return 0;
    char number[9] = "";
    memcpy(number, s + 1, digits);
    *p = s + 1 + digits;
    return (unsigned)strtoul(number, NULL, 16);
}

static void check_glyph(unsigned code, struct mark mark, const struct faces *faces, struct diags *diags)
{
    if (code != '\r' && code != '\n' && code != '\t' && code != UTF8_BAD && !type_covers(faces, code))
        diag_at(diags, DIAG_BAD_CHARACTER, mark, "", "U+%04X is in none of the fonts", code);
}

/* The record prints the job's own text, so whatever stands in it, comments included, must have a glyph. */
static void check_characters(const struct job *job, const struct faces *faces, struct diags *diags)
{
    for (size_t i = 0; i < job->n_sources; i++) {
        struct mark mark = {.file = (int)i, .line = 1, .column = 1, .length = 1};
        const char *p = job->sources[i].text;
        p += strncmp(p, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; /* a byte order mark is no character of the text */
        for (unsigned code; (code = utf8_next(&p)) != 0; mark.column++) {
            const char *before = p;
            unsigned escaped = code == '\\' ? read_escape(&p) : 0;
            check_glyph(code, mark, faces, diags);
            if (escaped)
                check_glyph(escaped, mark, faces, diags);
            mark.column += (int)(p - before);
            if (code == '\n') {
                mark.line++;
                mark.column = 0;
            }
        }
    }
}

/* The record prints the names of the files too; a question mark stands for what the fonts lack. */
static void make_names_printable(struct job *job, const struct faces *faces)
{
    for (size_t i = 0; i < job->n_sources; i++) {
        struct text t = {0};
        for (const char *p = job->sources[i].name; *p;) {
            unsigned code = utf8_next(&p);
            text_add_code(&t, code >= ' ' && code != UTF8_BAD && type_covers(faces, code) ? code : '?');
        }
        job->sources[i].name = pool_string(&job->pool, text_string(&t));
        text_free(&t);
    }
}

static void apply_options(struct job *job, const struct options *o)
{
    if (o->units_given)
        job->units = o->units;
    if (o->paper_given)
        job->paper = o->paper;
    if (o->sheets_given) {
        job->sheets_given = true;
        memcpy(job->sheets, o->sheets, sizeof job->sheets);
    }
}

static struct pdf_info describe_document(const struct sheets *s, const char *identity)
{
    return (struct pdf_info){
        .title = s->document_title,
        .author = s->author,
        .subject = s->subject,
        .keywords = s->fingerprint,
        .creator = "fettle " FETTLE_VERSION,
        .language = "en-GB",
        .date = s->date,
        .identity = identity,
    };
}

static const char *print_kinds(struct pool *pool, const bool kinds[SHEET_KINDS])
{
    static const char *const keys[SHEET_KINDS] = {[SHEET_WALL] = "sheet.name.wall", [SHEET_BUILD] = "sheet.name.build",
                                                  [SHEET_RECORD] = "sheet.name.record", [SHEET_BENCH] = "sheet.name.bench"};
    const char *list = "";
    for (int k = 0; k < SHEET_KINDS; k++)
        if (kinds[k])
            list = pool_printf(pool, "%s%s%s", list, *list ? ", " : "", words_get(keys[k]));
    return list;
}

/* The sheets that are wanted are none of those that the job has data for. */
static void tell_no_sheets(struct task *t, struct sheets *sheets)
{
    struct saying s = SAYING("sheet.none", SAY_STR("asked", print_kinds(&sheets->pool, t->job.sheets)),
                             SAY_STR("has", print_kinds(&sheets->pool, sheets->has_data)));
    words_put_plain(&t->problem, &s, t->job.units);
}

static void typeset(struct task *t, const struct faces *faces)
{
    struct sheets sheets = {0};
    struct pages pages = {0};
    struct text identity = {0}, why = {0};
    text_printf(&identity, "fettle " FETTLE_VERSION " %s %d %d", t->job.fingerprint, (int)t->job.units, (int)t->job.paper);
    for (int k = 0; k < SHEET_KINDS; k++)
        text_printf(&identity, " %d", t->job.sheets[k]);
    const bool *wanted = t->job.sheets_given ? t->job.sheets : NULL;
    if (!sheets_build(&t->job, &t->plan, &t->cutting, &t->proof, &t->outcome, wanted, &sheets))
        tell_no_sheets(t, &sheets);
    struct pdf_info info = describe_document(&sheets, text_string(&identity));
    if (sheets.n > 0 && pages_build(&sheets, faces, &pages, &why))
        pdf_build(&pages, faces, &info, &t->pdf, &why);
    if (why.size)
        text_printf(&t->problem, "the sheets could not be typeset: %s", text_string(&why));
    t->pages = (int)pages.n;
    text_free(&identity);
    text_free(&why);
    pages_free(&pages);
    sheets_free(&sheets);
}

static void name_output(struct task *t, const struct options *o)
{
    const char *slash = strrchr(t->file, '/');
    struct text folder = {0}, name = {0};
    if (o->out)
        text_add(&folder, o->out);
    else if (slash)
        text_add_n(&folder, t->file, slash == t->file ? 1 : (size_t)(slash - t->file));
    else
        text_add(&folder, ".");
    text_add(&name, t->job.number.s);
    if (o->dated && date_is_set(t->job.date)) {
        char date[11];
        date_print(t->job.date, date);
        text_printf(&name, "-%s", date);
    }
    text_add(&name, ".pdf");
    t->folder = folder.bytes;
    t->name = name.bytes;
}

void task_run(struct task *t, const struct options *o, const struct faces *faces)
{
    bool ok = job_read(t->file, &t->diags, &t->job);
    if (ok)
        check_characters(&t->job, faces, &t->diags);
    apply_options(&t->job, o);
    ok = ok && !diags_have_errors(&t->diags);
    ok = ok && plan_build(&t->job, &t->diags, &t->plan);
    ok = ok && proof_build(&t->job, &t->plan.setting, &t->diags, &t->proof);
    diags_sort(&t->diags);
    if (!ok)
        return;
    cutting_build(&t->job, &t->plan, &t->cutting);
    outcome_build(&t->plan, &t->cutting, &t->proof, &t->outcome);
    t->calculated = true;
    name_output(t, o);
    make_names_printable(&t->job, faces);
    if (!o->dry_run)
        typeset(t, faces);
}

void task_free(struct task *t)
{
    free(t->folder);
    free(t->name);
    text_free(&t->pdf);
    text_free(&t->problem);
    outcome_free(&t->outcome);
    proof_free(&t->proof);
    cutting_free(&t->cutting);
    plan_free(&t->plan);
    job_free(&t->job);
    diags_free(&t->diags);
}
