/* The PDF writer against readers that know nothing of it: Apache PDFBox preflight (PDF/A-1b), qpdf, poppler and mupdf. */
#define _POSIX_C_SOURCE 200809L
#include "pdf/sample.h"
#include "pdf/tools.h"

#include "close.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define JAVA "/usr/share/java/"
static const char preflight[] = "java -cp " JAVA "preflight.jar:" JAVA "pdfbox2.jar:" JAVA "fontbox2.jar:" JAVA "xmpbox.jar:" JAVA
                                "commons-logging.jar:" JAVA "javax.activation.jar:" JAVA "jaxb-api.jar "
                                "org.apache.pdfbox.preflight.Validator_A1b";

static const struct tool_row {
    const char *check, *package;
} tools[] = {
    {"command -v pdftotext", "poppler-utils"},
    {"command -v qpdf", "qpdf"},
    {"command -v mutool", "mupdf-tools"},
    {"command -v java", "default-jre-headless"},
    {"test -e " JAVA "preflight.jar", "libpdfbox2-java"},
    {"test -e " JAVA "fontbox2.jar", "libfontbox2-java"},
    {"test -e " JAVA "commons-logging.jar", "libcommons-logging-java"},
    {"test -e " JAVA "javax.activation.jar", "libactivation-java"},
    {"test -e " JAVA "jaxb-api.jar", "libjaxb-api-java"},
};

struct fixture {
    char folder[64];
    char path[80]; /* the sample, written */
    struct faces *faces;
    struct pages pages;
    struct text bytes;
};

/* Runs "command path arguments". */
static int run_tool(const char *command, const char *path, const char *arguments, struct text *out)
{
    struct text line = {0};
    text_printf(&line, "%s %s %s", command, path, arguments);
    int status = tool_run(text_string(&line), out);
    text_free(&line);
    return status;
}

static void write_file(const char *path, const struct text *bytes)
{
    assert_true(tool_write(path, bytes->bytes, bytes->size));
}

static void build(const struct pages *pages, const struct faces *faces, const struct pdf_info *info, struct text *bytes)
{
    struct text problem = {0};
    if (!pdf_build(pages, faces, info, bytes, &problem))
        fail_msg("%s", text_string(&problem));
    assert_int_equal(problem.size, 0);
}

static int open_fixture(void **state)
{
    struct text out = {0};
    for (size_t i = 0; i < sizeof tools / sizeof *tools; i++)
        if (run_tool(tools[i].check, "", "", &out) != 0) {
            print_error("missing: install the Debian package %s\n", tools[i].package);
            return -1;
        }
    text_free(&out);
    struct fixture *f = calloc(1, sizeof *f);
    strcpy(f->folder, "/tmp/fettle-pdf-XXXXXX");
    if (!mkdtemp(f->folder))
        return -1;
    snprintf(f->path, sizeof f->path, "%s/sample.pdf", f->folder);
    f->faces = type_open();
    sample_build(f->faces, &f->pages);
    build(&f->pages, f->faces, &sample_info, &f->bytes);
    write_file(f->path, &f->bytes);
    *state = f;
    return 0;
}

static int close_fixture(void **state)
{
    struct fixture *f = *state;
    remove(f->path);
    rmdir(f->folder);
    text_free(&f->bytes);
    pool_free(&f->pages.pool);
    type_close(f->faces);
    free(f);
    return 0;
}

static void assert_contains(const struct text *t, const char *wanted)
{
    if (!strstr(text_string(t), wanted))
        fail_msg("\"%s\" is not in:\n%s", wanted, text_string(t));
}

static void assert_lacks(const struct text *t, const char *unwanted)
{
    if (strstr(text_string(t), unwanted))
        fail_msg("\"%s\" is in:\n%s", unwanted, text_string(t));
}

static void assert_is_pdfa(const char *path)
{
    struct text out = {0};
    if (run_tool(preflight, path, "", &out) != 0)
        fail_msg("preflight: %s", text_string(&out));
    assert_contains(&out, "is a valid PDF/A-1b file");
    text_free(&out);
}

static void test_pdf_build_gives_pdfa_1b(void **state)
{
    const struct fixture *f = *state;
    assert_is_pdfa(f->path);
}

static void test_pdf_build_gives_pdfa_1b_with_least_metadata(void **state)
{
    const struct fixture *f = *state;
    struct pages pages = {.list = f->pages.list, .n = 1};
    struct text bytes = {0};
    build(&pages, f->faces, &(struct pdf_info){.title = "x", .author = ""}, &bytes);
    char path[100];
    snprintf(path, sizeof path, "%s/least.pdf", f->folder);
    write_file(path, &bytes);
    assert_is_pdfa(path);
    struct text out = {0};
    assert_int_equal(run_tool("pdfinfo", path, "", &out), 0);
    assert_contains(&out, "Title:");
    assert_lacks(&out, "Author:");
    text_free(&out);
    remove(path);
    text_free(&bytes);
}

static void test_pdf_build_passes_qpdf(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("qpdf --check", f->path, "", &out), 0);
    assert_contains(&out, "PDF Version: 1.4");
    assert_contains(&out, "No syntax or stream encoding errors found");
    assert_lacks(&out, "WARNING");
    text_free(&out);
}

static void test_pdf_build_embeds_subsets(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("pdffonts", f->path, "", &out), 0);
    for (enum face face = 0; face < FACES; face++) {
        const char *row = strstr(text_string(&out), type_postscript_name(face));
        assert_non_null(row);
        assert_true(row[-1] == '+');
        if (!strstr(row, "CID TrueType      Identity-H       yes yes yes"))
            fail_msg("%s", row);
    }
    assert_lacks(&out, "Error");
    assert_lacks(&out, "Warning");
    text_free(&out);
    assert_true(f->bytes.size < 60000);
}

/* The text as one line, every run of blanks one blank. */
static void flatten(struct text *t)
{
    size_t to = 0;
    for (size_t i = 0; i < t->size; i++) {
        char c = strchr(" \n\f", t->bytes[i]) ? ' ' : t->bytes[i];
        if (c != ' ' || (to > 0 && t->bytes[to - 1] != ' '))
            t->bytes[to++] = c;
    }
    t->size = to;
    t->bytes[to] = '\0';
}

static void assert_has_sample_words(struct text *out)
{
    flatten(out);
    for (int i = 0; i < SAMPLE_WORDS; i++) {
        const char *at = text_string(out);
        for (int face = 0; face < 4; face++) {
            at = strstr(at, sample_words[i]);
            if (!at)
                fail_msg("\"%s\" is not there %d times in:\n%s", sample_words[i], face + 1, text_string(out));
            at++;
        }
    }
    assert_lacks(out, "arning");
    assert_lacks(out, "rror");
}

static void test_pdf_build_text_comes_out_by_poppler(void **state)
{
    const struct fixture *f = *state;
    static const char *const ways[] = {"pdftotext -f 1 -l 1", "pdftotext -layout -f 1 -l 1", "pdftotext -raw -f 1 -l 1"};
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        struct text out = {0};
        assert_int_equal(run_tool(ways[i], f->path, "-", &out), 0);
        assert_has_sample_words(&out);
        assert_contains(&out, "upward AVAT");
        text_free(&out);
    }
}

static void test_pdf_build_text_comes_out_by_mupdf(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("mutool draw -N -F text", f->path, "1", &out), 0);
    assert_has_sample_words(&out);
    assert_contains(&out, "upward AVAT");
    text_free(&out);
}

static void test_pdf_build_source_comes_out_as_it_was(void **state)
{
    const struct fixture *f = *state;
    static const char *const readers[][2] = {
        {"pdftotext -layout -f 2 -l 2", "-"},
        {"pdftotext -f 2 -l 2", "-"},
        {"mutool draw -N -q -F text", "2"},
    };
    for (size_t i = 0; i < sizeof readers / sizeof *readers; i++) {
        struct text out = {0};
        assert_int_equal(run_tool(readers[i][0], f->path, readers[i][1], &out), 0);
        size_t end = out.size;
        while (end > 0 && strchr("\f\n", out.bytes[end - 1]))
            end--;
        out.bytes[end] = '\0';
        assert_int_equal(end + 1, strlen(sample_source));
        assert_memory_equal(out.bytes, sample_source, end);
        text_free(&out);
    }
}

/* Place of the first word in `pdftotext -bbox`: xMin yMin xMax yMax [pt], y down. */
static void find_word(const struct text *bbox, const char *word, double box[4])
{
    char wanted[64];
    snprintf(wanted, sizeof wanted, ">%s</word>", word);
    const char *p = strstr(text_string(bbox), wanted);
    assert_non_null(p);
    while (strncmp(p, "<word", 5) != 0)
        p--;
    assert_int_equal(sscanf(p, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &box[0], &box[1], &box[2], &box[3]), 4);
}

static void test_pdf_build_text_is_where_it_was_put_and_as_wide(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("pdftotext -bbox -f 1 -l 1", f->path, "-", &out), 0);
    double first[4], last[4], up[4];
    find_word(&out, "AVATAR", first); /* the first text, at x 60, baseline y 60, 11 pt, kerned */
    assert_within(first[0], 60, 0.002);
    assert_within(first[2], 60 + 11 * type_width(f->faces, FACE_REGULAR, 0, "AVATAR", 6), 0.01);
    assert_true(first[1] > 60 - 12 && first[1] < 60 - 7 && first[3] > 60 && first[3] < 64);
    find_word(&out, "kerned", last);
    assert_within(last[2], 60 + 11 * type_width(f->faces, FACE_REGULAR, 0, sample_words[0], strlen(sample_words[0])), 0.01);
    find_word(&out, "upward", up); /* from (40, 700) up */
    assert_within(up[3], 700, 0.01);
    assert_within(up[1], 700 - 14 * type_width(f->faces, FACE_BOLD, 0, "upward", 6), 0.01);
    assert_true(up[0] > 40 - 15 && up[0] < 40 - 9 && up[2] > 40 && up[2] < 45);
    text_free(&out);
}

/* Grey level at a point in points, from a 72 dpi rendering. */
static int grey_at(const struct text *pgm, int x, int y)
{
    int width, height, most, used;
    assert_int_equal(sscanf(pgm->bytes, "P5 %d %d %d%n", &width, &height, &most, &used), 3);
    assert_true(x < width && y < height);
    return (unsigned char)pgm->bytes[used + 1 + y * width + x];
}

static int darkest(const struct text *pgm, int x0, int y0, int x1, int y1)
{
    int least = 255;
    for (int y = y0; y <= y1; y++)
        for (int x = x0; x <= x1; x++)
            if (grey_at(pgm, x, y) < least)
                least = grey_at(pgm, x, y);
    return least;
}

/* "1/1" at 60 pt bold from (430, 690). Figures are 0.74 of 60 × 1456/2048 = 42.7 pt high: 31.6 pt. The upper one ends at
   690 − 42.7 + 31.6 = 678.9, the lower one begins at 690 − 31.6 = 658.4 and at x = 430 + 25.5 + 12.6 = 468. */
static void test_pdf_build_raises_the_upper_figures_of_a_fraction(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("pdftoppm -r 72 -gray -f 1 -l 1", f->path, "", &out), 0);
    assert_int_equal(darkest(&out, 430, 649, 450, 674), 0);
    assert_int_equal(darkest(&out, 430, 681, 443, 692), 255);
    assert_int_equal(darkest(&out, 475, 664, 491, 688), 0);
    assert_int_equal(darkest(&out, 477, 640, 491, 656), 255);
    text_free(&out);
}

static void test_pdf_build_paths_are_where_they_were_put(void **state)
{
    const struct fixture *f = *state;
    static const char *const readers[] = {"pdftoppm -r 72 -gray -f 1 -l 1", "mutool draw -N -q -r 72 -F pgm -c gray -o -"};
    for (int i = 0; i < 2; i++) {
        struct text out = {0};
        assert_int_equal(run_tool(readers[i], f->path, i == 0 ? "" : "1", &out), 0);
        assert_int_equal(grey_at(&out, 150, 760), 0);   /* within the black rectangle */
        assert_int_equal(grey_at(&out, 101, 741), 0);   /* its corners, half a point or more inside */
        assert_int_equal(grey_at(&out, 198, 778), 0);
        assert_int_equal(grey_at(&out, 98, 760), 255);  /* just outside */
        assert_int_equal(grey_at(&out, 150, 782), 255);
        assert_int_equal(grey_at(&out, 300, 760), 255); /* within the open rectangle */
        assert_true(grey_at(&out, 249, 760) < 128 && grey_at(&out, 250, 760) < 128); /* its line, 2 pt wide */
        for (int y = 745; y < 775; y++)
            assert_true(grey_at(&out, 249, y) < 128); /* not dashed, though drawn after dashed lines */
        static const struct { int x, y, grey; } dashes[] = {
            {66, 730, 0}, {75, 730, 255}, {80, 730, 0}, {85, 730, 255}, {94, 730, 0}, {103, 730, 255},
            {65, 800, 0}, {75, 800, 255}, {85, 800, 0}, {95, 800, 255},
        };
        for (size_t k = 0; k < sizeof dashes / sizeof *dashes; k++)
            assert_int_equal(grey_at(&out, dashes[k].x, dashes[k].y), dashes[k].grey);
        assert_true(grey_at(&out, 350, 640) > 200 && grey_at(&out, 350, 640) < 255); /* the light fill */
        text_free(&out);
    }
}

static void test_pdf_build_metadata_labels_bookmarks(void **state)
{
    const struct fixture *f = *state;
    struct text out = {0};
    assert_int_equal(run_tool("pdfinfo -isodates", f->path, "", &out), 0);
    assert_contains(&out, sample_info.title);
    assert_contains(&out, sample_info.author);
    assert_contains(&out, sample_info.subject);
    assert_contains(&out, sample_info.keywords);
    assert_contains(&out, sample_info.creator);
    assert_contains(&out, "2026-11-02T00:00:00Z");
    assert_contains(&out, "595.276 x 841.89 pts (A4)");
    text_clear(&out);
    assert_int_equal(run_tool("mutool show", f->path, "outline", &out), 0);
    assert_contains(&out, "Wall sheet ≤ 1");
    assert_contains(&out, "Record Łódź");
    assert_contains(&out, "#page=2");
    text_clear(&out);
    assert_int_equal(run_tool("mutool show", f->path, "trailer/Root trailer/Root/OutputIntents/1 trailer/ID", &out), 0);
    assert_contains(&out, "/PrintScaling /None");
    assert_contains(&out, "/DisplayDocTitle true");
    assert_contains(&out, "/Lang (en-GB)");
    assert_contains(&out, "/GTS_PDFA1");
    assert_contains(&out, "/Nums");
    text_clear(&out);
    assert_int_equal(run_tool("qpdf --json --json-key=pagelabels", f->path, "", &out), 0);
    assert_contains(&out, "R 1");
    text_free(&out);
}

static void test_pdf_build_same_input_same_bytes(void **state)
{
    const struct fixture *f = *state;
    struct text again = {0}, other = {0};
    build(&f->pages, f->faces, &sample_info, &again);
    assert_int_equal(again.size, f->bytes.size);
    assert_memory_equal(again.bytes, f->bytes.bytes, again.size);
    struct pdf_info info = sample_info;
    info.identity = "another job";
    build(&f->pages, f->faces, &info, &other);
    assert_true(other.size == again.size && memcmp(other.bytes, again.bytes, again.size) != 0);
    text_free(&again);
    text_free(&other);
}

static void *build_often(void *arg)
{
    const struct fixture *f = arg;
    size_t different = 0;
    for (int i = 0; i < 5; i++) {
        struct text bytes = {0}, problem = {0};
        bool good = pdf_build(&f->pages, f->faces, &sample_info, &bytes, &problem);
        different += !good || bytes.size != f->bytes.size || memcmp(bytes.bytes, f->bytes.bytes, bytes.size) != 0;
        text_free(&bytes);
        text_free(&problem);
    }
    return (void *)(uintptr_t)different;
}

static void test_pdf_build_threads_share_faces(void **state)
{
    pthread_t threads[4];
    for (int i = 0; i < 4; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, build_often, *state), 0);
    for (int i = 0; i < 4; i++) {
        void *different;
        pthread_join(threads[i], &different);
        assert_null(different);
    }
}

struct refused_row {
    struct ink ink;
    double width;
    const char *problem;
};

static void test_pdf_build_refuses_what_no_page_may_hold(void **state)
{
    const struct fixture *f = *state;
    static const struct path_op nowhere[] = {{.verb = PATH_MOVE, .x = 0, .y = NAN}, {.verb = PATH_LINE, .x = 1, .y = 1}};
    static const struct path_op far_away[] = {{.verb = PATH_MOVE, .x = 0, .y = 0}, {.verb = PATH_LINE, .x = 40000, .y = 1}};
    const struct refused_row rows[] = {
        {{.kind = INK_PATH, .as.path = {.ops = nowhere, .n = 2, .stroke = true, .width = 1}}, 600, "page 1: a coordinate is not finite or too great"},
        {{.kind = INK_PATH, .as.path = {.ops = far_away, .n = 2, .stroke = true, .width = 1}}, 600, "page 1: a coordinate is not finite or too great"},
        {{.kind = INK_TEXT, .as.text = {.x = INFINITY, .size = 10, .s = "far"}}, 600, "page 1: a coordinate is not finite or too great: far"},
        {{.kind = INK_TEXT, .as.text = {.size = NAN, .s = "big"}}, 600, "page 1: a coordinate is not finite or too great: big"},
        {{.kind = INK_TEXT, .as.text = {.size = 10, .s = "一"}}, 600, "page 1: no glyph for a character of \"一\""},
        {{.kind = INK_TEXT, .as.text = {.size = 10, .s = "x"}}, NAN, "page 1: its size is not finite"},
        {{.kind = INK_TEXT, .as.text = {.size = 10, .s = "x"}}, 20000, "libharu failed (error 0x"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct ink ink = rows[i].ink;
        struct page page = {.width = rows[i].width, .height = 800, .inks = &ink, .n_inks = 1};
        struct pages pages = {.list = &page, .n = 1};
        struct text bytes = {0}, problem = {0};
        assert_false(pdf_build(&pages, f->faces, &sample_info, &bytes, &problem));
        assert_contains(&problem, rows[i].problem);
        assert_int_equal(bytes.size, 0);
        text_free(&bytes);
        text_free(&problem);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pdf_build_gives_pdfa_1b),
        cmocka_unit_test(test_pdf_build_gives_pdfa_1b_with_least_metadata),
        cmocka_unit_test(test_pdf_build_passes_qpdf),
        cmocka_unit_test(test_pdf_build_embeds_subsets),
        cmocka_unit_test(test_pdf_build_text_comes_out_by_poppler),
        cmocka_unit_test(test_pdf_build_text_comes_out_by_mupdf),
        cmocka_unit_test(test_pdf_build_source_comes_out_as_it_was),
        cmocka_unit_test(test_pdf_build_text_is_where_it_was_put_and_as_wide),
        cmocka_unit_test(test_pdf_build_raises_the_upper_figures_of_a_fraction),
        cmocka_unit_test(test_pdf_build_paths_are_where_they_were_put),
        cmocka_unit_test(test_pdf_build_metadata_labels_bookmarks),
        cmocka_unit_test(test_pdf_build_same_input_same_bytes),
        cmocka_unit_test(test_pdf_build_threads_share_faces),
        cmocka_unit_test(test_pdf_build_refuses_what_no_page_may_hold),
    };
    return cmocka_run_group_tests(tests, open_fixture, close_fixture);
}
