/* test_html.c - texts on a page: markup, marks that turn the writing, control characters, broken UTF-8, JSON that no script
 * element ends.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "html.h"

typedef void html_writer(FILE *out, const char *text);

/* The caller frees it. */
static char *written(html_writer *write, const char *text)
{
    char *bytes = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&bytes, &length);
    assert_non_null(out);
    write(out, text);
    assert_int_equal(fclose(out), 0);
    return bytes;
}

typedef struct html_case {
    const char *text, *want;
} html_case;

static void all_are_written(html_writer *write, const html_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char *got = written(write, cases[i].text);
        assert_string_equal(got, cases[i].want);
        free(got);
    }
}

#define COUNT(cases) (sizeof(cases) / sizeof(cases)[0])

static void html_text_shows_whatever_a_text_holds(void **state)
{
    (void)state;
    static const html_case cases[] = {
        {"", ""},
        {"plain, 5 ft", "plain, 5 ft"},
        {"<b>&\"'</b>", "&lt;b&gt;&amp;&quot;&#39;&lt;/b&gt;"},
        {"\xC3\xA9\xE2\x89\xA4\xF0\x9F\x8C\x89", "\xC3\xA9\xE2\x89\xA4\xF0\x9F\x8C\x89"},
        {"a\tb\nc\x01\x7F", "a\xE2\x90\x89"
                            "b\xE2\x90\x8A"
                            "c\xE2\x90\x81\xE2\x90\xA1"},
        {"\xE2\x80\xAE"
         "x",
         "\xE2\x9F\xA8U+202E\xE2\x9F\xA9"
         "x"}, /* right-to-left override */
        {"\xE2\x81\xA6\xEF\xBB\xBF",
         "\xE2\x9F\xA8U+2066\xE2\x9F\xA9\xE2\x9F\xA8U+FEFF\xE2\x9F\xA9"},
        {"\xC2\x85", "\xE2\x9F\xA8U+0085\xE2\x9F\xA9"},
        {"\xFF\xC3", "\xEF\xBF\xBD\xEF\xBF\xBD"},                 /* no beginning; cut short */
        {"\xC0\xAF", "\xEF\xBF\xBD\xEF\xBF\xBD"},                 /* overlong */
        {"\xED\xA0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"}, /* half of a pair */
        {"\xF4\x90\x80\x80",
         "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"}, /* beyond U+10FFFF */
    };
    all_are_written(html_text, cases, COUNT(cases));
}

static void html_listing_keeps_lines_and_tabs(void **state)
{
    (void)state;
    static const html_case cases[] = {
        {"a\n\tb < c\r\nd\re\n", "a\n\tb &lt; c\nd\xE2\x90\x8D"
                                 "e\n"},
        {"x\xE2\x80\xA8y", "x\xE2\x9F\xA8U+2028\xE2\x9F\xA9y"},
    };
    all_are_written(html_listing, cases, COUNT(cases));
}

static void html_lines_breaks_at_line_feeds(void **state)
{
    (void)state;
    static const html_case cases[] = {{"stress\n<top>", "stress<br/>&lt;top&gt;"}};
    all_are_written(html_lines, cases, COUNT(cases));
}

static void html_css_text_ends_no_string_and_no_element(void **state)
{
    (void)state;
    static const html_case cases[] = {
        {"a\"b\\c</style>\n", "\"a\\000022b\\00005Cc\\00003C/style\\00003E\\00000A\""},
        {"]]>", "\"]]\\00003E\""},
    };
    all_are_written(html_css_text, cases, COUNT(cases));
}

/* Read back by another program's reader of JSON. */
static void html_json_text_reads_back_and_ends_no_element(void **state)
{
    (void)state;
    static const char *const texts[] = {"",
                                        "</script><!--",
                                        "\"\\\n\t\x01\x7F",
                                        "a & b > c",
                                        "\xE2\x80\xA8\xE2\x80\xAE\xC3\xA9\xF0\x9F\x8C\x89",
                                        "]]>"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        char *got = written(html_json_text, texts[i]);
        assert_null(strpbrk(got, "<>&"));
        assert_null(strstr(got, "\xE2\x80\xA8"));
        json_t *back = json_loads(got, JSON_DECODE_ANY, NULL);
        assert_non_null(back);
        assert_string_equal(json_string_value(back), texts[i]);
        json_decref(back);
        free(got);
    }
}

static void html_json_number_is_a_number_or_null(void **state)
{
    (void)state;
    static const struct {
        double value;
        const char *want;
    } cases[] = {{1234.5678, "1234.57"},     {-0.0, "0"}, {1e-9, "1e-09"}, {(double)NAN, "null"},
                 {(double)INFINITY, "null"}, {-3.0, "-3"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        char *bytes = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&bytes, &length);
        assert_non_null(out);
        html_json_number(out, cases[i].value, 6);
        assert_int_equal(fclose(out), 0);
        assert_string_equal(bytes, cases[i].want);
        free(bytes);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(html_text_shows_whatever_a_text_holds),
        cmocka_unit_test(html_listing_keeps_lines_and_tabs),
        cmocka_unit_test(html_lines_breaks_at_line_feeds),
        cmocka_unit_test(html_css_text_ends_no_string_and_no_element),
        cmocka_unit_test(html_json_text_reads_back_and_ends_no_element),
        cmocka_unit_test(html_json_number_is_a_number_or_null),
    };
    return cmocka_run_group_tests_name("html", tests, NULL, NULL);
}
