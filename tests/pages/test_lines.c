/* Line breaking. Widths are asked of the faces, so that the expectations hold for whatever font is built in. */
#include "kit.h"

#include "base/utf8.h"
#include "pages/lines.h"

static struct faces *faces;
static struct widths widths;
static struct pool pool;

static struct lines broken(const char *text, double measure)
{
    struct rich rich = rich_of(STYLE_BODY, 1);
    struct lines lines;
    lines_break(&widths, &pool, &rich, text, measure, &lines);
    return lines;
}

static double width_of(const char *s)
{
    return type_width(faces, FACE_CONDENSED, 0, s, strlen(s)) * 10;
}

/* A line's text, its runs joined. */
static const char *line_text(const struct lines *lines, size_t i)
{
    struct text t = {0};
    for (size_t r = 0; i < lines->n && r < lines->list[i].n; r++)
        text_add_n(&t, lines->list[i].runs[r].s, lines->list[i].runs[r].n);
    char *s = pool_string(&pool, text_string(&t));
    text_free(&t);
    return s;
}

static void test_lines_break_at_blanks_only(void **state)
{
    (void)state;
    struct lines l = broken("caliper-3 reads: 0.01" NBSP "mm", width_of("caliper-3 reads: ") + 0.1);
    assert_int_equal(l.n, 2);
    assert_string_equal(line_text(&l, 0), "caliper-3 reads:");
    assert_string_equal(line_text(&l, 1), "0.01" NBSP "mm");
}

/* First fit would set "aaa bb" / "cc" / "ddddd"; with the same three lines, "aaa" / "bb cc" / "ddddd" is less ragged
   (the worked comparison of first fit and minimum raggedness in textbooks on dynamic programming, width 6). */
static void test_lines_break_least_ragged(void **state)
{
    (void)state;
    struct rich mono = rich_of(STYLE_SOURCE, 1);
    double cell = type_width(faces, FACE_MONO, 0, "a", 1) * mono.size;
    struct lines l;
    lines_break(&widths, &pool, &mono, "aaa bb cc ddddd", 6 * cell, &l);
    assert_int_equal(l.n, 3);
    assert_string_equal(line_text(&l, 0), "aaa");
    assert_string_equal(line_text(&l, 1), "bb cc");
    assert_string_equal(line_text(&l, 2), "ddddd");
}

static void test_lines_break_hard_ends(void **state)
{
    (void)state;
    struct lines l = broken("one\n\ntwo", 200);
    assert_int_equal(l.n, 3);
    assert_string_equal(line_text(&l, 1), "");
    assert_string_equal(line_text(&l, 2), "two");
    assert_close(lines_height(&l), 3 * l.rich.leading, 1e-12);
}

static void test_lines_break_empty(void **state)
{
    (void)state;
    assert_int_equal(broken("", 100).n, 0);
    assert_int_equal(broken(NULL, 100).n, 0);
}

static void test_lines_break_bold_marks(void **state)
{
    (void)state;
    struct lines l = broken("Square to " BOLD("0.042 mm") "; allowed", 400);
    assert_int_equal(l.n, 1);
    assert_int_equal(l.list[0].n, 3);
    assert_false(l.list[0].runs[0].bold);
    assert_true(l.list[0].runs[1].bold);
    assert_memory_equal(l.list[0].runs[1].s, "0.042 mm", l.list[0].runs[1].n);
    assert_false(l.list[0].runs[2].bold);
}

/* A mixed number is one run, and of the size of its line: its numerator is no higher than the capitals beside it. */
static void test_lines_break_fraction_is_a_run_with_its_whole_number(void **state)
{
    (void)state;
    struct lines l = broken("cut 12" THIN "3\xE2\x81\x84"
                            "8 in, 12/5, 3\xE2\x81\x84"
                            "8",
                            400);
    assert_int_equal(l.list[0].n, 4);
    assert_true(l.list[0].runs[1].fraction);
    assert_int_equal(l.list[0].runs[1].n, 10);
    assert_memory_equal(l.list[0].runs[1].s,
                        "12" THIN "3\xE2\x81\x84"
                        "8",
                        10);
    assert_false(l.list[0].runs[2].fraction);
    assert_true(l.list[0].runs[3].fraction);
    struct inks inks = {.pool = &pool};
    lines_ink(&l, &widths, 0, l.n, 0, 0, 400, ALIGN_LEFT, &inks);
    for (size_t i = 0; i < inks.n; i++)
        assert_close(inks.list[i].as.text.size, inks.list[0].as.text.size, 0);
}

/* Sums are broken before an operator (ISO 80000-2), a part's letter or a number stays with the word it belongs to. */
static void test_lines_break_keeps_together_what_is_read_together(void **state)
{
    (void)state;
    static const struct {
        const char *text, *room, *first, *second;
    } rows[] = {
        {"the ends differ = .0070 above", "the ends differ = ", "the ends differ", "= .0070 above"},
        {"so .0043 \xC3\xB7 3.20 or", "so .0043 \xC3\xB7 ", "so .0043", "\xC3\xB7 3.20 or"},
        {"clamp block on fence C, then wait", "clamp block on fence ", "clamp block on", "fence C, then wait"},
        {"drill it through hole 1; wait", "drill it through hole ", "drill it through", "hole 1; wait"},
        {"from the base. A block or", "from the base. ", "from the base.", "A block or"},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        struct lines l = broken(rows[i].text, width_of(rows[i].room));
        if (l.n != 2)
            fail_msg("\"%s\": %zu lines", rows[i].text, l.n);
        assert_string_equal(line_text(&l, 0), rows[i].first);
        assert_string_equal(line_text(&l, 1), rows[i].second);
    }
}

/* An item's further lines stand under its words, not under its bullet. */
static void test_lines_break_item(void **state)
{
    (void)state;
    struct lines l =
        broken("\xE2\x80\xA2  Unplug before touching\nplain", width_of("\xE2\x80\xA2  Unplug before ") + 0.1);
    assert_int_equal(l.n, 3);
    assert_string_equal(line_text(&l, 0), "\xE2\x80\xA2  Unplug before");
    assert_string_equal(line_text(&l, 1), "touching");
    assert_close(l.list[0].indent, 0, 0);
    assert_within(l.list[1].indent, width_of("\xE2\x80\xA2  "), 0.2);
    assert_close(l.list[2].indent, 0, 0);
    struct inks inks = {.pool = &pool};
    lines_ink(&l, &widths, 0, l.n, 10, 20, 100, ALIGN_LEFT, &inks);
    assert_within(inks.list[inks.n - 2].as.text.x, 10 + l.list[1].indent, 1e-9);
    assert_within(inks.list[inks.n - 1].as.text.x, 10, 1e-9);
}

/* A word wider than the measure goes on in the next lines, cut after the last character that fits, whole characters
 * only. */
static void test_lines_break_long_word(void **state)
{
    (void)state;
    const char *word = "Überlangesführungsschienenholz_aus_amerikanischem_Zuckerahorn";
    double measure = width_of("Überlangesführ") + 0.01;
    struct lines l = broken(word, measure);
    struct text joined = {0};
    assert_true(l.n > 2);
    for (size_t i = 0; i < l.n; i++) {
        assert_true(l.list[i].width <= measure + 0.02);
        assert_int_equal(utf8_first_bad(line_text(&l, i), strlen(line_text(&l, i))), strlen(line_text(&l, i)));
        text_add(&joined, line_text(&l, i));
    }
    assert_string_equal(text_string(&joined), word);
    assert_string_equal(line_text(&l, 0), "Überlangesführ");
    text_free(&joined);
}

static void test_lines_break_narrower_than_a_character(void **state)
{
    (void)state;
    struct lines l = broken("abc", 0.5);
    assert_int_equal(l.n, 3);
    assert_string_equal(line_text(&l, 2), "c");
}

/* Whatever the measure, nothing but blanks at line ends is lost, and no line is too long. */
static void test_lines_break_loses_nothing(void **state)
{
    (void)state;
    const char *text =
        BOLD("Fix the travel stop E") " in the right-hand slot, saw unplugged: 1" THIN "3\xE2\x81\x84"
                                      "8 in from "
                                      "Kreissägeblattführungsnut, where the end of the free runner stands.";
    for (double measure = 20; measure < 400; measure += 7.3) {
        struct lines l = broken(text, measure);
        struct text got = {0}, want = {0};
        for (size_t i = 0; i < l.n; i++) {
            assert_true(l.list[i].width <= measure + 0.5);
            for (const char *s = line_text(&l, i); *s; s++)
                if (*s != ' ')
                    text_add_char(&got, *s);
        }
        for (const char *s = text; *s; s++)
            if (!strchr(" \x0E\x0F", *s))
                text_add_char(&want, *s);
        assert_string_equal(text_string(&got), text_string(&want));
        text_free(&got);
        text_free(&want);
    }
}

static void test_lines_natural_and_least_width(void **state)
{
    (void)state;
    struct rich rich = rich_of(STYLE_BODY, 1);
    assert_within(lines_natural_width(&widths, &rich, "a longer\nb"), width_of("a longer"), 1e-9);
    assert_within(lines_least_width(&widths, &rich, "a longer\nb"), width_of("longer"), 1e-9);
}

static void test_lines_ink_aligns_right(void **state)
{
    (void)state;
    struct lines l = broken("one\nthree", 100);
    struct inks inks = {.pool = &pool};
    lines_ink(&l, &widths, 0, l.n, 10, 20, 100, ALIGN_RIGHT, &inks);
    assert_int_equal(inks.n, 2);
    for (size_t i = 0; i < inks.n; i++)
        assert_within(inks.list[i].as.text.x + inks.list[i].as.text.width, 110, 1e-9);
    assert_within(inks.list[1].as.text.y - inks.list[0].as.text.y, l.rich.leading, 1e-9);
}

/* The memory of widths says what the faces say, for the same text in other faces and features, too. */
static void test_widths_of_remembers_face_and_features(void **state)
{
    (void)state;
    const char *s = "11\xE2\x81\x84"
                    "16";
    for (int round = 0; round < 2; round++)
        for (enum face face = FACE_REGULAR; face <= FACE_MONO; face++)
            for (unsigned features = 0; features < 4; features++)
                assert_close(widths_of(&widths, face, features, s, strlen(s)),
                             type_width(faces, face, features, s, strlen(s)), 0);
    assert_true(widths_of(&widths, FACE_CONDENSED, TYPE_FRACTIONS, s, strlen(s)) <
                widths_of(&widths, FACE_CONDENSED, 0, s, strlen(s)));
    assert_true(widths_of(&widths, FACE_CONDENSED, 0, s, strlen(s)) <
                widths_of(&widths, FACE_REGULAR, 0, s, strlen(s)));
}

/* Capital heights that the reading tiers ask for: distance/200 for 0.5, 1 and 1.5 m. */
static void test_styles_reach_their_tiers(void **state)
{
    (void)state;
    const struct {
        enum text_style style;
        double mm;
    } tiers[] = {{STYLE_BODY, 2.5}, {STYLE_ARM, 5}, {STYLE_FAR, 7.5}};
    for (int i = 0; i < COUNT(tiers); i++) {
        struct rich rich = rich_of(tiers[i].style, 1);
        assert_true(type_cap_height(faces, rich.face) * rich.size / 72 * 25.4 >= tiers[i].mm);
        assert_true(type_cap_height(faces, rich.bold) * rich.bold_size / 72 * 25.4 >= tiers[i].mm);
    }
}

static int open_faces(void **state)
{
    (void)state;
    faces = type_open();
    widths = (struct widths){.faces = faces};
    return 0;
}

static int close_faces(void **state)
{
    (void)state;
    pool_free(&pool);
    widths_free(&widths);
    type_close(faces);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lines_break_at_blanks_only),
        cmocka_unit_test(test_lines_break_least_ragged),
        cmocka_unit_test(test_lines_break_hard_ends),
        cmocka_unit_test(test_lines_break_empty),
        cmocka_unit_test(test_lines_break_bold_marks),
        cmocka_unit_test(test_lines_break_fraction_is_a_run_with_its_whole_number),
        cmocka_unit_test(test_lines_break_keeps_together_what_is_read_together),
        cmocka_unit_test(test_lines_break_item),
        cmocka_unit_test(test_lines_break_long_word),
        cmocka_unit_test(test_lines_break_narrower_than_a_character),
        cmocka_unit_test(test_lines_break_loses_nothing),
        cmocka_unit_test(test_lines_natural_and_least_width),
        cmocka_unit_test(test_lines_ink_aligns_right),
        cmocka_unit_test(test_widths_of_remembers_face_and_features),
        cmocka_unit_test(test_styles_reach_their_tiers),
    };
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
