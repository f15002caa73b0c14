/* The job's own text: what is printed, read again, is the same YAML. The judge is libyaml: both texts must give the
   same events with the same values. */
#define _POSIX_C_SOURCE 200809L
#include "kit.h"

#include "base/file.h"
#include "pages/blocks.h"
#include "pdf.h"
#include "faces.h"

#include <stdio.h>
#include <unistd.h>
#include <yaml.h>

/* Events and values in one string; "error" where it is no YAML. */
static char *events_of(const char *yaml, size_t n)
{
    yaml_parser_t parser;
    struct text out = {0};
    yaml_parser_initialize(&parser);
    yaml_parser_set_input_string(&parser, (const unsigned char *)yaml, n);
    for (bool more = true; more;) {
        yaml_event_t event;
        if (!yaml_parser_parse(&parser, &event)) {
            text_clear(&out);
            text_printf(&out, "error: %s, line %zu", parser.problem, parser.problem_mark.line + 1);
            break;
        }
        text_printf(&out, "%d", (int)event.type);
        if (event.type == YAML_SCALAR_EVENT)
            text_printf(&out, "<%.*s>", (int)event.data.scalar.length, (const char *)event.data.scalar.value);
        text_add(&out, "\n");
        more = event.type != YAML_STREAM_END_EVENT;
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    char *s = mem_copy_string(text_string(&out));
    text_free(&out);
    return s;
}

/* The lines as they are printed in a column of that width; sizes met are put in least. */
static void print_source(const char *yaml, double width, struct text *out, double *least)
{
    struct pool pool = {0};
    struct widths widths = {.faces = faces};
    struct placings placings = {NULL};
    struct setter setter = {.widths = &widths, .placings = &placings, .pool = &pool, .scale = 1, .page_height = 700};
    struct block block = {.kind = BLOCK_SOURCE, .as.source = {"", yaml}};
    struct slabs slabs = {.pool = &pool};
    set_source(&setter, &block, width, &slabs);
    for (size_t i = 0; i < slabs.n; i++) {
        const struct inks *inks = &slabs.list[i].inks;
        if (inks->n) {
            *least = fmin(*least, inks->list[0].as.text.size);
            assert_true(inks->list[0].as.text.width <= width + 1e-6);
            text_add(out, inks->list[0].as.text.s);
        }
        text_add(out, "\n");
    }
    widths_free(&widths);
    pool_free(&pool);
}

static void assert_same_yaml(const char *yaml, double width)
{
    struct text printed = {0};
    double least = 10;
    print_source(yaml, width, &printed, &least);
    char *want = events_of(yaml, strlen(yaml)), *got = events_of(text_string(&printed), printed.size);
    if (strcmp(want, got) != 0 || strncmp(want, "error", 5) == 0)
        fail_msg("width %.0f:\n%s\nprinted:\n%s\nwant:\n%s\ngot:\n%s", width, yaml, text_string(&printed), want, got);
    free(want);
    free(got);
    text_free(&printed);
}

static const char *const samples[] = {
    "a: 1\n",
    "job: {number: SLED-1, title: First crosscut sled for the new bay, shop: Joinery training shop}\n",
    "title: A crosscut sled that has a very long title of many words in it   # and a comment that is longer still\n",
    "leaves: [0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.00]  # the thin ones are "
    "worn\n",
    "strips:\n  - {fence_end: [21.47, 21.46, 21.48], far_end: [21.26, 21.26, 21.25]}\n  - {fence_end: [22.13, 22.12, "
    "22.14], far_end: [21.93, 21.92, 21.92]}\n",
    "note: \"two  blanks stay, \\\" and: this # is text, and {braces, too} as it was written here\"\nnext: 'it''s  a: "
    "quoted # text of some length that has to wrap somewhere'\n",
    "# a comment of its own line that is much longer than the narrow column it is printed in, word after word\na: 1\n",
    "- - deep: sequence of words that go on for a while\n    more: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, "
    "16]\n",
    "a long key of several words: and a value of several words behind it\n\"quoted key of words\": {another long key: "
    "value of words, x: y}\n",
    "map: {a b c d e f g h: 1, \"k l m n o p q\": 2, r: {s: t, u: [v w x y z, aa bb cc dd]}}\n",
    "flow: [one, two,\n  three and four and five and six and seven and eight, nine,\n  ten]\nb: 2\n",
    "plain: words - with dashes ? and marks that are:no key#no comment # comment after it, long enough to wrap\n",
};

static void test_set_source_keeps_the_meaning_at_any_width(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT(samples); i++)
        for (double width = 90; width < 420; width += 23.7)
            assert_same_yaml(samples[i], width);
}

static void test_set_source_keeps_leading_blanks_and_lines(void **state)
{
    (void)state;
    const char *yaml = "a:\n  b:\n    c: 1\n\n  d: 2\n";
    struct text printed = {0};
    double least = 10;
    print_source(yaml, 500, &printed, &least);
    assert_string_equal(text_string(&printed), yaml);
    assert_close(least, 7.5, 1e-12);
    text_free(&printed);
}

/* A block scalar's lines cannot be broken, so the text is set smaller instead: 150 characters in 505 pt. */
static void test_set_source_prints_tabs_as_blanks(void **state)
{
    (void)state;
    struct text printed = {0};
    double least = 10;
    print_source("\xEF\xBB\xBFunits:\tmm\t# metric\t\r\npaper: A4\n", 400, &printed, &least);
    assert_string_equal(text_string(&printed), "units: mm # metric\npaper: A4\n");
    text_free(&printed);
}

static void test_set_source_shrinks_where_it_cannot_break(void **state)
{
    (void)state;
    struct text yaml = {0}, printed = {0};
    double least = 10;
    text_add(&yaml, "note: |\n  ");
    for (int i = 0; i < 30; i++)
        text_printf(&yaml, "word%s", i < 29 ? " " : "");
    text_add(&yaml, "\nb: 1\n");
    print_source(text_string(&yaml), 505, &printed, &least);
    assert_true(least < 6.5 && least >= 4.5);
    assert_same_yaml(text_string(&yaml), 505);
    text_free(&yaml);
    text_free(&printed);
}

/* Two blanks in quotes are two blanks: the only place is the single one in the middle. */
static void test_set_source_never_breaks_at_two_blanks(void **state)
{
    (void)state;
    const char *yaml = "q: \"aaaaa  bbbbb  ccccc  ddddd eeeee  fffff  ggggg  hhhhh\"\n";
    struct text printed = {0};
    double least = 10;
    print_source(yaml, 176, &printed, &least);
    assert_string_equal(text_string(&printed), "q: \"aaaaa  bbbbb  ccccc  ddddd\n    eeeee  fffff  ggggg  hhhhh\"\n");
    assert_same_yaml(yaml, 176);
    text_free(&printed);
}

static void test_set_source_breaks_after_commas_first(void **state)
{
    (void)state;
    struct text printed = {0};
    double least = 10;
    print_source("table: {front edge of it: 500 mm, the depth of it: 800 mm}\n", 190, &printed, &least);
    assert_string_equal(text_string(&printed), "table: {front edge of it: 500 mm,\n    the depth of it: 800 mm}\n");
    text_free(&printed);
}

/* Numerical Recipes' generator; documents of nested maps, lists, quoted and plain words, comments. */
static unsigned next_random(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

static void add_words(struct text *t, unsigned *seed)
{
    static const char *const words[] = {"sled", "0.05",  "maple 2", "fence", "bay-2", "x#y",
                                        "it's", "12:30", "plain",   "née",   "ε"};
    for (unsigned n = 1 + next_random(seed) % 9; n-- > 0;)
        text_printf(t, "%s%s", words[next_random(seed) % 11], n ? " " : "");
}

static void add_value(struct text *t, unsigned *seed, int depth)
{
    unsigned kind = depth > 3 ? next_random(seed) % 3 : next_random(seed) % 6;
    if (kind == 1) {
        text_add(t, "\"in quotes  ");
        add_words(t, seed);
        text_add(t, ": [x], # \\\"\"");
    } else if (kind < 3) {
        text_add(t, "w ");
        add_words(t, seed);
    } else {
        text_add(t, kind == 3 ? "[" : "{");
        for (unsigned n = 1 + next_random(seed) % 6; n-- > 0;) {
            if (kind != 3)
                text_printf(t, "k%u %u: ", n, next_random(seed) % 7);
            add_value(t, seed, depth + 1);
            text_add(t, n ? ", " : "");
        }
        text_add(t, kind == 3 ? "]" : "}");
    }
}

static void test_set_source_keeps_the_meaning_of_random_jobs(void **state)
{
    (void)state;
    unsigned seed = 7;
    for (int round = 0; round < 150; round++) {
        struct text yaml = {0};
        for (int i = 0; i < 4; i++) {
            text_printf(&yaml, "key%d:", i);
            for (unsigned n = next_random(&seed) % 4; n-- > 0;)
                text_add(&yaml, n % 2 ? "\n  - " : "\n  - sub: ");
            text_add(&yaml, yaml.bytes[yaml.size - 1] == ':' ? " " : "");
            add_value(&yaml, &seed, 0);
            text_add(&yaml, next_random(&seed) % 2 ? "\n" : "   # a comment, as long as it may be: and so on\n");
        }
        char *want = events_of(text_string(&yaml), yaml.size);
        bool good = strncmp(want, "error", 5) != 0;
        free(want);
        if (good)
            assert_same_yaml(text_string(&yaml), 200 + next_random(&seed) % 320);
        text_free(&yaml);
    }
}

/* Everything between the line with the block's name and the foot's line of a page. */
static void take_block(const char *page_text, struct text *out)
{
    const char *at = strstr(page_text, "ts-07.yaml\n"), *foot = at ? strstr(at, "The saw maker") : NULL;
    assert_non_null(foot);
    at += strlen("ts-07.yaml\n");
    text_add_n(out, at, (size_t)(foot - at));
}

/* The same through a PDF and poppler's pdftotext -layout. */
static void test_set_source_survives_extraction(void **state)
{
    (void)state;
    struct text yaml = {0}, bytes = {0}, problem = {0}, extracted = {0}, block = {0};
    for (int i = 0; i < COUNT(samples); i++) {
        if (strncmp(samples[i], "- ", 2) == 0)
            continue;
        const char *s = samples[i];
        text_printf(&yaml, "s%d:\n", i); /* each sample one level down */
        for (; *s; s += strcspn(s, "\n") + 1)
            text_printf(&yaml, "  %.*s\n", (int)strcspn(s, "\n"), s);
    }
    struct block_list body = {0};
    add_block(&body, (struct block){.kind = BLOCK_SOURCE, .as.source = {"ts-07.yaml", text_string(&yaml)}});
    struct sheet sheet = plain_sheet(SHEET_RECORD, body);
    struct pages pages;
    assert_true(build_one(faces, &sheet, &pages, &problem));
    assert_no_problems(&pages, faces);
    struct pdf_info info = {.title = "t",
                            .author = "",
                            .subject = "",
                            .keywords = "",
                            .creator = "fettle",
                            .language = "en-GB",
                            .identity = "source"};
    assert_true(pdf_build(&pages, faces, &info, &bytes, &problem));
    char path[] = "/tmp/fettle-source-XXXXXX", command[128];
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, bytes.bytes, bytes.size), (long)bytes.size);
    close(fd);
    snprintf(command, sizeof command, "pdftotext -layout %s -", path);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    for (int c; (c = getc(pipe)) != EOF;)
        text_add_char(&extracted, (char)c);
    assert_int_equal(pclose(pipe), 0);
    unlink(path);
    take_block(text_string(&extracted), &block);
    char *want = events_of(text_string(&yaml), yaml.size), *got = events_of(text_string(&block), block.size);
    assert_true(strncmp(want, "error", 5) != 0);
    assert_string_equal(got, want);
    free(want);
    free(got);
    text_free(&yaml);
    text_free(&bytes);
    text_free(&problem);
    text_free(&extracted);
    text_free(&block);
    pages_free(&pages);
    free_list(&body);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_set_source_keeps_the_meaning_at_any_width),
        cmocka_unit_test(test_set_source_keeps_leading_blanks_and_lines),
        cmocka_unit_test(test_set_source_shrinks_where_it_cannot_break),
        cmocka_unit_test(test_set_source_prints_tabs_as_blanks),
        cmocka_unit_test(test_set_source_never_breaks_at_two_blanks),
        cmocka_unit_test(test_set_source_breaks_after_commas_first),
        cmocka_unit_test(test_set_source_keeps_the_meaning_of_random_jobs),
        cmocka_unit_test(test_set_source_survives_extraction),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
