/* UTF-8. Ill-formed rows after the Unicode Standard, table 3-7 (well-formed byte sequences). */
#include "base/utf8.h"

#include "close.h"

#include <string.h>

static void test_utf8_every_code_point_there_and_back(void **state)
{
    (void)state;
    for (unsigned c = 1; c <= 0x10FFFF; c++) {
        char bytes[5] = {0};
        const char *p = bytes;
        if (c == 0xD800)
            c = 0xE000;
        size_t n = utf8_encode(c, bytes);
        size_t expected = c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
        if (n != expected || utf8_next(&p) != c || p != bytes + n || utf8_first_bad(bytes, n) != n)
            fail_msg("U+%04X", c);
    }
}

static void test_utf8_first_bad_ill_formed(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t bad;
    } rows[] = {
        {"\x80", 0}, /* a continuation byte alone */
        {"ab\xBF", 2},
        {"\xC0\xAF", 0}, /* overlong "/" */
        {"\xC1\xBF", 0},
        {"\xC2", 0}, /* cut off */
        {"\xC2\x41", 0},
        {"\xE0\x9F\xBF", 0}, /* overlong */
        {"\xE0\xA0", 0},
        {"\xED\xA0\x80", 0},     /* surrogate U+D800 */
        {"\xED\xBF\xBF", 0},     /* surrogate U+DFFF */
        {"\xF0\x8F\xBF\xBF", 0}, /* overlong */
        {"\xF0\x9F\x98", 0},
        {"\xF4\x90\x80\x80", 0}, /* above U+10FFFF */
        {"\xF5\x80\x80\x80", 0},
        {"\xFF", 0},
        {"x\xC3\xA4y\xE4z", 4}, /* Latin-1 after good text */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (utf8_first_bad(rows[i].bytes, strlen(rows[i].bytes)) != rows[i].bad)
            fail_msg("row %zu", i);
    assert_int_equal(utf8_first_bad("a\0b\xFF", 4), 3); /* a NUL does not end it */
    assert_int_equal(utf8_first_bad("\xC3\xA4", 1), 0); /* nothing past n is read */
    assert_int_equal(utf8_first_bad("", 0), 0);
}

static void test_utf8_next_steps_over_one_bad_byte(void **state)
{
    (void)state;
    const char *p = "\xE2\x82"
                    "a";
    assert_int_equal(utf8_next(&p), UTF8_BAD);
    assert_int_equal(utf8_next(&p), UTF8_BAD);
    assert_int_equal(utf8_next(&p), 'a');
    assert_int_equal(utf8_next(&p), 0);
    assert_int_equal(utf8_next(&p), 0);
}

static void test_utf8_length_counts_characters(void **state)
{
    (void)state;
    assert_int_equal(utf8_length(""), 0);
    assert_int_equal(utf8_length("a\xC3\xA4\xE2\x88\x92\xF0\x9F\x98\x80"), 4);
    assert_int_equal(utf8_length("\xFF\xFF"), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_utf8_every_code_point_there_and_back),
        cmocka_unit_test(test_utf8_first_bad_ill_formed),
        cmocka_unit_test(test_utf8_next_steps_over_one_bad_byte),
        cmocka_unit_test(test_utf8_length_counts_characters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
