/* Random jobs on all four papers: every page keeps its rules, no word is missing, no text of the job is lost, the same job
   makes the same bytes. Then the hard ones: forty tests, the longest texts, the smallest and the largest saws. */
#include "whole/random_job.h"
#include "whole/whole.h"

#include "pdf.h"

#include <regex.h>
#include <stdio.h>

enum { JOBS = 8, JOBS_LONG = 208 }; /* FETTLE_TESTS_LONG=1, as tests/run --long sets it, makes it the larger */

static const char *const papers[] = {"A4", "A3", "Letter", "Tabloid"};

struct papers_test {
    struct faces *faces;
    regex_t missing;
    int planned, failed;
};

/* ---- what must hold of one job ---- */

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

static bool pages_hold(struct papers_test *t, struct whole *w)
{
    struct text problem = {0}, printed = {0};
    bool ok = whole_typeset(w, t->faces, &problem);
    ok = ok && pages_check(&w->pages, t->faces, &problem) == 0;
    gather_pages(&w->pages, &printed);
    ok = ok && texts_stand_whole(w, &printed);
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
static bool makes_the_same_bytes(struct papers_test *t, const struct whole *w, const char *yaml)
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

static void check_job(struct papers_test *t, const char *yaml, bool twice)
{
    struct whole *w = whole_calculate(yaml);
    if (w->planned) {
        t->planned++;
        if (!pages_hold(t, w) || (twice && !makes_the_same_bytes(t, w, yaml))) {
            t->failed++;
            print_error("in %s on %d:\n%s\n", w->job.number.s, (int)w->job.paper, getenv("FETTLE_SHOW") ? yaml : "");
        }
    } else if (!w->read) {
        print_problems(&w->diags);
        t->failed++;
    }
    whole_free(w);
}

/* ---- tests ---- */

static int set_up(void **state)
{
    struct papers_test *t = mem_alloc(sizeof *t);
    t->faces = type_open();
    *state = t;
    return regcomp(&t->missing, "\\?[a-z_.#-]+\\?", REG_EXTENDED | REG_NOSUB);
}

static int tear_down(void **state)
{
    struct papers_test *t = *state;
    type_close(t->faces);
    regfree(&t->missing);
    free(t);
    return 0;
}

static void test_all_papers_random_jobs(void **state)
{
    struct papers_test *t = *state;
    const char *is_long = getenv("FETTLE_TESTS_LONG");
    int jobs = is_long && *is_long == '1' ? JOBS_LONG : JOBS;
    struct random_job g = {.state = 77, .n_tests = -1};
    struct text yaml = {0};
    t->planned = t->failed = 0;
    for (int i = 0; i < jobs; i++) {
        g.paper = papers[i % 4];
        random_job_write(&g, &yaml);
        check_job(t, text_string(&yaml), i % 4 == 0);
    }
    assert_int_equal(t->failed, 0);
    assert_true(t->planned > jobs * 3 / 4);
    text_free(&yaml);
}

static void check_some(struct papers_test *t, struct random_job g, int n)
{
    struct text yaml = {0};
    t->planned = t->failed = 0;
    for (int i = 0; i < n; i++) {
        g.paper = papers[i % 4];
        random_job_write(&g, &yaml);
        check_job(t, text_string(&yaml), false);
    }
    assert_int_equal(t->failed, 0);
    assert_true(t->planned > 0);
    text_free(&yaml);
}

static void test_all_papers_forty_tests(void **state)
{
    check_some(*state, (struct random_job){.state = 5, .n_tests = 40}, 1);
}

static void test_all_papers_longest_texts(void **state)
{
    check_some(*state, (struct random_job){.state = 9, .n_tests = 3, .long_texts = true}, 4);
}

/* The smallest and the largest saw of the job format's ranges that get a sled. */
static void test_all_papers_smallest_and_largest_saw(void **state)
{
    static const char *const saws[] = {
        "  blade: {diameter: 160, kerf: 1.2, highest: 45}\n  table: {front_edge: 170, depth: 330}\n"
        "  slots: {width: 8, depth: 5, left: 70}\n",
        "  blade: {diameter: 600, kerf: 5.2, highest: 220}\n  table: {front_edge: 900, depth: 1500}\n"
        "  slots: {width: 30, depth: 15, left: 250, right: 300}\n",
    };
    struct papers_test *t = *state;
    t->planned = t->failed = 0;
    for (size_t i = 0; i < 8; i++) {
        struct text yaml = {0};
        text_printf(&yaml, "fettle: 1\njob: {number: X-%zu, title: Range}\nunits: %s\npaper: %s\nsaw:\n%s"
                    "stock:\n  ply: {material: birch-plywood, thickness: 12, sheet: [2500, 1250]}\n"
                    "  ply24: {material: birch-plywood, thickness: %d, sheet: [2500, 1250]}\n"
                    "  maple: {material: hard-maple, strip: [40, 60], length: 2500, rings: quarter}\n"
                    "jig: {kind: crosscut-sled%s}\n",
                    i, "mm", papers[i / 2], saws[i % 2], i % 2 ? 24 : 9, i % 2 ? "" : ", capacity: {width: 100}");
        int before = t->planned;
        check_job(t, text_string(&yaml), false);
        if (t->planned == before) {
            struct whole *w = whole_calculate(text_string(&yaml));
            print_problems(&w->diags);
            whole_free(w);
        }
        assert_int_equal(t->planned, before + 1);
        text_free(&yaml);
    }
    assert_int_equal(t->failed, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_papers_random_jobs),
        cmocka_unit_test(test_all_papers_forty_tests),
        cmocka_unit_test(test_all_papers_longest_texts),
        cmocka_unit_test(test_all_papers_smallest_and_largest_saw),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
