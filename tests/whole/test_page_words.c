/* What hangs in the shop or lies on the bench is read by someone who has not seen the job file: no page of a wall, build or
   bench sheet holds one of its keys, a word with an underscore, a backtick, or a material as the job file spells it. */
#define _POSIX_C_SOURCE 200809L
#include "whole/typeset.h"

#include "base/file.h"
#include "job/material.h"

#include <glob.h>
#include <regex.h>
#include <stdio.h>

/* The main example spoiled, so that every kind of remedy is told. */
static const struct {
    const char *from, *to;
} spoiled[] = {
    {"exit_guard: {stock: ply18, layers: 5}", "exit_guard: {stock: ply18, layers: 2}"},
    {"exit_guard: {stock: ply18, layers: 5}", "exit_guard: {stock: ply18, layers: 5, height: 40}"},
    {"from_edge: 90", "from_edge: 40"},
    {"height: 100\n", "height: 60\n"},
    {"capacity: {width: 420, thickness: 60}", "capacity: {width: 470, thickness: 70}"},
    {"width: 19.00, thickness: 9.0", "width: 19.08, thickness: 9.5"},
    {"knife: {kind: riving, thickness: 2.2, below_top: 2}", "knife: {kind: riving, thickness: 2.9, below_top: -3}"},
    {"  knife: {kind: riving, thickness: 2.2, below_top: 2}", "  # not stated"},
    {"from_blade: 330", "from_blade: 42"},
    {"from_blade: 280", "from_blade: 42"},
    {"sheet: [1250, 1250]", "sheet: [700, 500]"},
    {"sheet: [1250, 625]", "sheet: [700, 80]"},
    {"have: 1", "have: 0"},
    {"left_of_blade: 470", "left_of_blade: 180"},
    {"depth: 800", "depth: 700"},
    {"rings: quarter", "rings: flat"},
    {"humidity: 58", "humidity: 80"},
    {"squareness: {error: 0.10, over: 300}", "squareness: {error: 0.01, over: 300}"},
};

struct look {
    struct typeset_test *t;
    regex_t key; /* of a job file */
    int faults;
};

static void look_at_text(struct look *l, const char *name, size_t page, const char *s)
{
    bool bad = regexec(&l->key, s, 0, NULL, 0) == 0;
    for (size_t i = 0; !bad && material_name(i); i++)
        bad = strchr(material_name(i), '-') && strstr(s, material_name(i));
    if (!bad)
        return;
    print_error("%s, page %zu: \"%s\"\n", name, page + 1, s);
    l->faults++;
}

static void look_at_job(struct look *l, const char *name, const char *yaml)
{
    struct text problem = {0};
    struct whole *w = whole_calculate(yaml);
    bool ok = w->planned && whole_typeset(w, l->t->faces, &problem);
    if (!ok) {
        print_problems(&w->diags);
        fail_msg("%s: %s", name, text_string(&problem));
    }
    for (size_t p = 0; p < w->pages.n; p++)
        for (size_t i = 0; w->pages.list[p].kind != SHEET_RECORD && i < w->pages.list[p].n_inks; i++)
            if (w->pages.list[p].inks[i].kind == INK_TEXT)
                look_at_text(l, name, p, w->pages.list[p].inks[i].as.text.s);
    whole_free(w);
    text_free(&problem);
}

static void begin_look(struct look *l, struct typeset_test *t)
{
    *l = (struct look){.t = t};
    assert_int_equal(regcomp(&l->key, "[[:lower:]_]{2}\\.[[:lower:]]{2}|[[:alpha:]]_[[:alpha:]]|`", REG_EXTENDED | REG_NOSUB), 0);
}

static void test_pages_of_examples_hold_no_job_key(void **state)
{
    struct look l;
    glob_t files;
    begin_look(&l, *state);
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &files), 0);
    assert_int_equal(glob(SOURCE_FOLDER "/tests/golden/*.yaml", GLOB_APPEND, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++) {
        struct text yaml = {0};
        assert_int_equal(file_read(files.gl_pathv[i], 1 << 20, &yaml), FILE_READ);
        look_at_job(&l, files.gl_pathv[i], text_string(&yaml));
        text_free(&yaml);
    }
    globfree(&files);
    regfree(&l.key);
    assert_int_equal(l.faults, 0);
}

static void test_pages_of_spoiled_sleds_hold_no_job_key(void **state)
{
    struct text sound = {0};
    struct look l;
    begin_look(&l, *state);
    assert_int_equal(file_read(SOURCE_FOLDER "/jobs/bay-2-sled.yaml", 1 << 20, &sound), FILE_READ);
    for (size_t i = 0; i < sizeof spoiled / sizeof *spoiled; i++) {
        const char *at = strstr(text_string(&sound), spoiled[i].from);
        struct text yaml = {0};
        if (!at)
            fail_msg("the example has no \"%s\"", spoiled[i].from);
        text_add_n(&yaml, text_string(&sound), (size_t)(at - text_string(&sound)));
        text_add(&yaml, spoiled[i].to);
        text_add(&yaml, at + strlen(spoiled[i].from));
        look_at_job(&l, spoiled[i].to, text_string(&yaml));
        text_free(&yaml);
    }
    regfree(&l.key);
    text_free(&sound);
    assert_int_equal(l.faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pages_of_examples_hold_no_job_key),
        cmocka_unit_test(test_pages_of_spoiled_sleds_hold_no_job_key),
    };
    return cmocka_run_group_tests(tests, typeset_set_up, typeset_tear_down);
}
