/* test_utf8.c - every letter there and back, by the general converter of the C library's iconv; what is unseen by the standard.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <iconv.h>
#include <string.h>

#include "utf8.h"

static bool is_surrogate(uint32_t letter)
{
    return letter >= 0xD800 && letter < 0xE000;
}

static void utf8_write_and_next_agree_with_the_general_converter(void **state)
{
    (void)state;
    iconv_t to_utf8 = iconv_open("UTF-8", "UCS-4LE");
    assert_true(to_utf8 != (iconv_t)-1);
    for (uint32_t letter = 1; letter < 0x110000; letter++) {
        if (is_surrogate(letter)) {
            continue;
        }
        char want[8] = "";
        char bytes[4] = {(char)(letter & 0xFF), (char)(letter >> 8 & 0xFF),
                         (char)(letter >> 16 & 0xFF), 0};
        char *in = bytes;
        char *out = want;
        size_t in_left = sizeof bytes;
        size_t out_left = sizeof want - 1;
        assert_true(iconv(to_utf8, &in, &in_left, &out, &out_left) == 0);
        char got[UTF8_ROOM];
        utf8_write(letter, got);
        assert_string_equal(got, want);
        const char *at = got;
        assert_int_equal(utf8_next(&at), letter);
        assert_int_equal(*at, '\0');
    }
    iconv_close(to_utf8);
}

static void utf8_next_reads_wrong_bytes_one_by_one(void **state)
{
    (void)state;
    /* no beginning, cut short, overlong, half of a pair, beyond U+10FFFF */
    static const char *const wrong[] = {"\xFF",
                                        "\x80",
                                        "\xC3",
                                        "\xE2\x80",
                                        "\xC0\xAF",
                                        "\xE0\x80\xAF",
                                        "\xF0\x80\x80\x80",
                                        "\xED\xA0\x80",
                                        "\xF4\x90\x80\x80"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        size_t count = 0;
        for (const char *at = wrong[i]; *at != '\0'; count++) {
            assert_int_equal(utf8_next(&at), UTF8_WRONG);
        }
        assert_int_equal(count, strlen(wrong[i]));
    }
    const char *end = "";
    assert_int_equal(utf8_next(&end), 0);
    assert_int_equal(utf8_next(&end), 0);
}

/* Bidi_Control of Unicode, spaces without width, controls; and letters of scripts that are written from the right, accents that stand
 * on others and wide spaces, which are seen. */
static void utf8_is_unseen_knows_what_turns_and_hides(void **state)
{
    (void)state;
    static const uint32_t unseen[] = {0x061C, 0x200E, 0x200F, 0x202A, 0x202B, 0x202C, 0x202D,
                                      0x202E, 0x2066, 0x2067, 0x2068, 0x2069, 0x200B, 0x2060,
                                      0xFEFF, 0x00AD, 0x2028, 0x2029, 0x1B,   0x07,   0x0A,
                                      0x7F,   0x85,   0x9B,   0xE0041};
    static const uint32_t seen[] = {' ',    'a',    '~',    0xA0,   0xE9,    0x5D0,   0x627,
                                    0x301,  0x2003, 0x2010, 0x202F, 0x2264,  0x3000,  0x4E2D,
                                    0xFFFD, 0xAC,   0xAE,   0x2027, 0x1F309, 0x10FFFD};
    for (size_t i = 0; i < sizeof unseen / sizeof unseen[0]; i++) {
        assert_true(utf8_is_unseen(unseen[i]));
    }
    for (size_t i = 0; i < sizeof seen / sizeof seen[0]; i++) {
        assert_false(utf8_is_unseen(seen[i]));
    }
}

static void utf8_show_has_nothing_unseen(void **state)
{
    (void)state;
    char shown[UTF8_ROOM];
    for (uint32_t letter = 1; letter < 0x110000; letter++) {
        utf8_show(letter, shown);
        assert_true(strlen(shown) < UTF8_ROOM);
        for (const char *at = shown; *at != '\0';) {
            assert_false(utf8_is_unseen(utf8_next(&at)));
        }
        letter += letter == 0xD7FF ? 0x800 : 0;
    }
    utf8_show(0x202E, shown);
    assert_string_equal(shown, "\xE2\x9F\xA8U+202E\xE2\x9F\xA9");
    utf8_show(0x1B, shown);
    assert_string_equal(shown, "\xE2\x90\x9B");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(utf8_write_and_next_agree_with_the_general_converter),
        cmocka_unit_test(utf8_next_reads_wrong_bytes_one_by_one),
        cmocka_unit_test(utf8_is_unseen_knows_what_turns_and_hides),
        cmocka_unit_test(utf8_show_has_nothing_unseen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
