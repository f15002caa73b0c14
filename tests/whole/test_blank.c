/* The blank part of pages, measured on their ink: no band from margin to margin is empty over more than a share of the
   text area, on any page but the last of its sheet (the next sheet begins a page of its own). The examples on A4 and on
   Letter, and random jobs on all papers. */
#define _POSIX_C_SOURCE 200809L
#include "whole/random_job.h"
#include "whole/whole.h"

#include "base/file.h"

#include <glob.h>
#include <stdio.h>

#define BLANK_MOST 0.35
enum { JOBS = 40 };

static struct faces *faces;

struct span {
    double from, to;
};

static int by_start(const void *a, const void *b)
{
    double d = ((const struct span *)a)->from - ((const struct span *)b)->from;
    return (d > 0) - (d < 0);
}

/* Where the foot's rule is: the lowest line from margin to margin. */
static double foot_of(const struct page *page)
{
    double foot = 0, box[4];
    for (size_t i = 0; i < page->n_inks; i++) {
        ink_box(&page->inks[i], faces, box);
        if (page->inks[i].kind == INK_PATH && box[2] - box[0] > 0.8 * page->width && box[3] - box[1] < 3)
            foot = fmax(foot, box[1]);
    }
    return foot;
}

/* The highest band without ink above the foot, as a share of what lies between head and foot. */
static double blank_share(const struct page *page)
{
    struct span *spans = mem_alloc(page->n_inks * sizeof *spans);
    double foot = foot_of(page), box[4], most = 0;
    for (size_t i = 0; i < page->n_inks; i++) {
        ink_box(&page->inks[i], faces, box);
        spans[i] = (struct span){box[1], box[3]};
    }
    qsort(spans, page->n_inks, sizeof *spans, by_start);
    double end = spans[0].to, top = spans[0].from;
    for (size_t i = 1; i < page->n_inks; i++) {
        if (spans[i].from <= foot + 0.1)
            most = fmax(most, spans[i].from - end);
        end = fmax(end, spans[i].to);
    }
    free(spans);
    return most / (foot - top);
}

/* Counts the pages with more blank than `most`, and says which. */
static int count_blank(const char *name, const struct pages *pages, double most)
{
    int found = 0;
    for (size_t p = 0; p + 1 < pages->n; p++) {
        if (pages->list[p].kind == SHEET_WALL || pages->list[p + 1].kind != pages->list[p].kind)
            continue;
        double blank = blank_share(&pages->list[p]);
        if (blank > most) {
            print_error("%s: page %zu: %.0f %% of it blank in one band\n", name, p + 1, 100 * blank);
            found++;
        }
    }
    return found;
}

static int check_job(const char *name, const char *yaml, const enum paper *paper, double most)
{
    struct whole *w = whole_calculate(yaml);
    struct text problem = {0};
    int found = 0;
    if (w->planned) {
        if (paper)
            w->job.paper = *paper;
        assert_true(whole_typeset(w, faces, &problem));
        found = count_blank(name, &w->pages, most);
    }
    text_free(&problem);
    whole_free(w);
    return found;
}

static void test_blank_examples(void **state)
{
    (void)state;
    static const enum paper sizes[] = {PAPER_A4, PAPER_LETTER};
    glob_t files;
    int found = 0;
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &files), 0);
    for (size_t i = 0; i < 2 * files.gl_pathc; i++) {
        struct text yaml = {0};
        assert_int_equal(file_read(files.gl_pathv[i / 2], 1 << 20, &yaml), FILE_READ);
        found += check_job(strrchr(files.gl_pathv[i / 2], '/') + 1, text_string(&yaml), &sizes[i % 2], BLANK_MOST);
        text_free(&yaml);
    }
    assert_int_equal(found, 0);
    globfree(&files);
}

static void test_blank_random_jobs(void **state)
{
    (void)state;
    static const char *const papers[] = {"A4", "Letter", "A3", "Tabloid"};
    struct random_job g = {.state = 4021, .n_tests = -1};
    struct text yaml = {0};
    int found = 0;
    for (int i = 0; i < JOBS; i++) {
        char name[32];
        g.paper = papers[i % 4];
        random_job_write(&g, &yaml);
        snprintf(name, sizeof name, "random job %d", i);
        found += check_job(name, text_string(&yaml), NULL, BLANK_MOST);
    }
    assert_int_equal(found, 0);
    text_free(&yaml);
}

static int open_faces(void **state)
{
    (void)state;
    faces = type_open();
    return 0;
}

static int close_faces(void **state)
{
    (void)state;
    type_close(faces);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_blank_examples),
        cmocka_unit_test(test_blank_random_jobs),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
