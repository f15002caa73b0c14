/* The blank part of pages, measured on their ink: the highest band that is empty from margin to margin, as a share of what
   lies between head and foot, on every page but the last of its sheet (the next sheet begins a page of its own). The examples
   on A4 and on Letter, and random jobs on all papers: no page is half blank, hardly one a third, few a quarter. */
#define _POSIX_C_SOURCE 200809L
#include "whole/random_job.h"
#include "whole/whole.h"

#include "base/file.h"
#include "faces.h"

#include <glob.h>
#include <stdio.h>

#define BLANK_MOST 0.5
#define OVER_A_THIRD_MOST 0.01    /* of the pages */
#define OVER_A_QUARTER_MOST 0.04
#define BLANK_MEAN_MOST 0.11
enum { JOBS = 40 };

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

struct tally {
    int pages, over_a_third, over_a_quarter, over_most;
    double sum;
};

static void add_page(struct tally *t, const char *name, size_t number, double blank)
{
    t->pages++;
    t->sum += blank;
    t->over_a_third += blank > 1.0 / 3;
    t->over_a_quarter += blank > 0.25;
    t->over_most += blank > BLANK_MOST;
    if (blank > 0.25)
        print_message("%s: page %zu: %.0f %% of it blank in one band\n", name, number, 100 * blank);
}

static void add_job(struct tally *t, const char *name, const char *yaml, const enum paper *paper)
{
    struct whole *w = whole_calculate(yaml);
    struct text problem = {0};
    if (w->planned) {
        if (paper)
            w->job.paper = *paper;
        assert_true(whole_typeset(w, faces, &problem));
        for (size_t p = 0; p + 1 < w->pages.n; p++)
            if (w->pages.list[p].kind != SHEET_WALL && w->pages.list[p + 1].kind == w->pages.list[p].kind)
                add_page(t, name, p + 1, blank_share(&w->pages.list[p]));
    }
    text_free(&problem);
    whole_free(w);
}

static void check_tally(const struct tally *t)
{
    print_message("%d pages: %d over a quarter, %d over a third, the mean %.3f\n", t->pages, t->over_a_quarter,
                  t->over_a_third, t->sum / t->pages);
    assert_int_equal(t->over_most, 0);
    assert_true(t->over_a_third <= OVER_A_THIRD_MOST * t->pages);
    assert_true(t->over_a_quarter <= OVER_A_QUARTER_MOST * t->pages);
    assert_true(t->sum <= BLANK_MEAN_MOST * t->pages);
}

static void test_blank_examples(void **state)
{
    (void)state;
    static const enum paper sizes[] = {PAPER_A4, PAPER_LETTER};
    struct tally tally = {0};
    glob_t files;
    assert_int_equal(glob(SOURCE_FOLDER "/jobs/*.yaml", 0, NULL, &files), 0);
    for (size_t i = 0; i < 2 * files.gl_pathc; i++) {
        struct text yaml = {0};
        assert_int_equal(file_read(files.gl_pathv[i / 2], 1 << 20, &yaml), FILE_READ);
        add_job(&tally, strrchr(files.gl_pathv[i / 2], '/') + 1, text_string(&yaml), &sizes[i % 2]);
        text_free(&yaml);
    }
    check_tally(&tally);
    globfree(&files);
}

static void test_blank_random_jobs(void **state)
{
    (void)state;
    static const char *const papers[] = {"A4", "Letter", "A3", "Tabloid"};
    struct random_job g = {.state = 4021, .n_tests = -1};
    struct tally tally = {0};
    struct text yaml = {0};
    for (int i = 0; i < JOBS; i++) {
        char name[32];
        g.paper = papers[i % 4];
        random_job_write(&g, &yaml);
        snprintf(name, sizeof name, "random job %d", i);
        add_job(&tally, name, text_string(&yaml), NULL);
    }
    check_tally(&tally);
    text_free(&yaml);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_blank_examples),
        cmocka_unit_test(test_blank_random_jobs),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
