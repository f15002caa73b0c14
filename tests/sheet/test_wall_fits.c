/* The wall sheet fits its one page in every state, on every paper, however much there is to say. */
#include "kit.h"

#include "pages.h"

static const char outside_in_mm[] =
    "tests:\n  - {method: five-cut, date: 2026-11-02, instrument: caliper-3, offcut: right, length: 388, strips: ["
    "{fence_end: 21.90, far_end: 21.20}, {fence_end: 22.60, far_end: 21.91}, {fence_end: 21.35, far_end: 20.66}]}\n";
static const char outside_in_inches[] =
    "tests:\n  - {method: five-cut, date: 2026-11-02, instrument: dial, offcut: right, length: 12, strips: ["
    "{fence_end: 0.861, far_end: 0.889}, {fence_end: 0.912, far_end: 0.941}, {fence_end: 0.885, far_end: 0.914}]}\n";
static const char one_in_inches[] = "tests:\n  - {method: five-cut, date: 2026-11-02, offcut: right, length: 12, "
                                    "strips: [{fence_end: 0.861, far_end: 0.860}]}\n";
static const char changed[] = "changes: [{date: 2026-11-10, what: \"a new combination blade of another make, and both "
                              "runners waxed and planed because the "
                              "sled was stiff on a damp day; the fence was not touched but the stop was\"}]\n";
static const char *const papers[] = {"A4", "Letter", "A3", "Tabloid"};

static const struct fit_row {
    const char *name;
    bool inches;
    const char *layers, *tests, *rest;
} rows[] = {
    {"fit", false, "5", THREE_STRIPS, ""},
    {"not tested", false, "5", "", ""},
    {"undecided", false, "5", ONE_STRIP, ""},
    {"stale", false, "5", THREE_STRIPS, changed},
    {"outside", false, "5", outside_in_mm, ""},
    {"outside and unsafe", false, "1", outside_in_mm, ""},
    {"stale and unsafe", false, "1", THREE_STRIPS, changed},
    {"unsafe, not tested", false, "1", "", ""},
    {"inches, not tested", true, "6", "", ""},
    {"inches, undecided", true, "6", one_in_inches, ""},
    {"inches, outside", true, "6", outside_in_inches, ""},
    {"inches, stale", true, "6", one_in_inches, changed},
    {"inches, outside and unsafe", true, "1", outside_in_inches, ""},
};

/* The number and the title as long as a job may have them. */
static void lengthen_names(struct text *job)
{
    const char *from = strstr(text_string(job), "job: {"), *to = strchr(from, '\n');
    struct text longer = {0};
    text_add_n(&longer, text_string(job), (size_t)(from - text_string(job)));
    text_add(&longer, "job: {number: WORKSHOP-2-SLED-00000017, title: \"Crosscut sled with a very long name for the "
                      "wide boards of the second bay x\"}");
    text_add(&longer, to);
    text_free(job);
    *job = longer;
}

static bool fits_on(const struct faces *faces, const struct fit_row *row, const char *paper, bool long_names)
{
    static const bool wall_only[SHEET_KINDS] = {[SHEET_WALL] = true};
    struct text job = {0}, problem = {0};
    struct pages pages = {0};
    if (row->inches)
        text_printf(&job, JOB_IN_INCHES, row->layers, "0.004", row->tests, row->rest);
    else
        text_printf(&job, JOB_IN_MM, row->layers, "0.10", row->tests, row->rest);
    text_printf(&job, "paper: %s\n", paper);
    if (long_names)
        lengthen_names(&job);
    struct made *m = make_sheets(text_string(&job), wall_only);
    bool fits = pages_build(&m->sheets, faces, &pages, &problem);
    if (!fits || pages.n != 1)
        print_error("%s on %s%s: %s\n", row->name, paper, long_names ? ", long names" : "", text_string(&problem));
    fits = fits && pages.n == 1;
    pages_free(&pages);
    free_made(m);
    text_free(&problem);
    text_free(&job);
    return fits;
}

static void test_wall_fits_its_page(void **state)
{
    struct faces *faces = type_open();
    int failures = 0;
    (void)state;
    for (size_t r = 0; r < sizeof rows / sizeof *rows; r++)
        for (size_t p = 0; p < sizeof papers / sizeof *papers; p++)
            for (int names = 0; names < 2; names++)
                failures += !fits_on(faces, &rows[r], papers[p], names);
    type_close(faces);
    assert_int_equal(failures, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_wall_fits_its_page)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
