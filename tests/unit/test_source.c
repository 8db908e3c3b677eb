/* test_source.c - files, places, rendering, and the checks of bytes and includes.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "source.h"
#include "text_case.h"

static int32_t add(text_sources *sources, const char *text)
{
    int32_t file;
    assert_int_equal(source_add(sources, "bent.kline", text, strlen(text), NULL, &file), KL_OK);
    return file;
}

static void find_counts_lines_and_characters(void **state)
{
    (void)state;
    text_sources sources = {0};
    const int32_t file = add(&sources, "one\n\tt\xC3\xA9xt x\r\nend");
    const text_source *source = source_at(&sources, file);
    const struct {
        int32_t byte, line, column;
    } cases[] = {{0, 1, 1}, {3, 1, 4}, {4, 2, 1}, {5, 2, 2}, {8, 2, 4}, {15, 3, 2}, {14, 3, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const source_place place = source_find(source, cases[i].byte);
        assert_int_equal(place.line, cases[i].line);
        assert_int_equal(place.column, cases[i].column);
    }
    source_free(&sources);
}

typedef struct render_case {
    const char *name, *text;
    int32_t begin, end;
    const char *rendered;
} render_case;

static const render_case render_cases[] = {
    {"render_puts_carets_under_the_span", "a\n  widht 7 ft\n", 4, 9,
     "bent.kline:2:3: error: no such word\n      widht 7 ft\n      ^^^^^\n    hint: look\n"},
    {"render_shows_a_tab_as_blanks", "\twidht 7 ft", 1, 6,
     "bent.kline:1:2: error: no such word\n        widht 7 ft\n        ^^^^^\n    hint: look\n"},
    {"render_counts_characters_not_bytes", "\xC3\xA9\xC3\xA9 x", 5, 6,
     "bent.kline:1:4: error: no such word\n    \xC3\xA9\xC3\xA9 x\n       ^\n    hint: look\n"},
    {"render_points_behind_the_end", "abc", 3, 3,
     "bent.kline:1:4: error: no such word\n    abc\n       ^\n    hint: look\n"},
    {"render_cuts_a_span_at_the_line_end", "abc\ndef", 1, 6,
     "bent.kline:1:2: error: no such word\n    abc\n     ^^\n    hint: look\n"},
};

static void check_render(void **state)
{
    const render_case *row = *state;
    text_sources sources = {0};
    arena memory = {0};
    const int32_t file = add(&sources, row->text);
    const kl_diag diag = {.severity = KL_ERROR,
                          .name = "x",
                          .origin = {file, row->begin, row->end},
                          .message = "no such word",
                          .hint = "look"};
    assert_string_equal(source_render(&sources, &diag, &memory), row->rendered);
    arena_free(&memory);
    source_free(&sources);
}

static void render_without_place_gives_the_message(void **state)
{
    (void)state;
    text_sources sources = {0};
    arena memory = {0};
    const kl_diag diag = {
        .severity = KL_WARNING, .name = "x", .origin = KL_NOWHERE, .message = "all wet"};
    assert_string_equal(source_render(&sources, &diag, &memory), "warning: all wet\n");
    arena_free(&memory);
}

static void render_cuts_a_long_line_around_the_span(void **state)
{
    (void)state;
    char text[2001];
    memset(text, 'x', 2000);
    text[2000] = '\0';
    text[1000] = '!';
    text_sources sources = {0};
    arena memory = {0};
    const int32_t file = add(&sources, text);
    const kl_diag diag = {
        .severity = KL_NOTE, .name = "x", .origin = {file, 1000, 1001}, .message = "m"};
    const char *rendered = source_render(&sources, &diag, &memory);
    assert_true(strlen(rendered) < 300);
    const char *line = strchr(rendered, '\n') + 1;
    const char *carets = strchr(line, '\n') + 1;
    const ptrdiff_t mark = strchr(line, '!') - line;
    assert_int_equal(strchr(carets, '^') - carets, mark);
    arena_free(&memory);
    source_free(&sources);
}

typedef struct bytes_case {
    const char *name, *text;
    size_t length;
    const char *expect; /* name of the diagnostic, or NULL */
    int32_t begin;
} bytes_case;

static const bytes_case bytes_cases[] = {
    {"bytes_plain_text_is_fine", "a\r\nb", 4, NULL, 0},
    {"bytes_four_byte_character_is_fine", "\xF0\x9F\x98\x80", 4, NULL, 0},
    {"bytes_zero_is_refused", "a\0b", 3, "zero-byte", 1},
    {"bytes_lone_carriage_return_is_refused", "ab\rc", 4, "lone-carriage-return", 2},
    {"bytes_carriage_return_at_the_end_is_refused", "ab\r", 3, "lone-carriage-return", 2},
    {"bytes_stray_continuation_is_refused", "a\x80", 2, "invalid-utf8", 1},
    {"bytes_cut_character_is_refused", "a\xE2\x88", 3, "invalid-utf8", 1},
    {"bytes_overlong_form_is_refused", "\xC0\xAF", 2, "invalid-utf8", 0},
    {"bytes_overlong_three_is_refused", "\xE0\x80\xAF", 3, "invalid-utf8", 0},
    {"bytes_surrogate_is_refused", "\xED\xA0\x80", 3, "invalid-utf8", 0},
    {"bytes_beyond_unicode_is_refused", "\xF4\x90\x80\x80", 4, "invalid-utf8", 0},
};

static void check_bytes(void **state)
{
    const bytes_case *row = *state;
    text_sources sources = {0};
    kl_diags *diags = kl_diags_create();
    int32_t file;
    const kl_status status = source_add(&sources, "t", row->text, row->length, diags, &file);
    assert_int_equal(status, row->expect != NULL ? KL_BAD_MODEL : KL_OK);
    if (row->expect != NULL) {
        assert_string_equal(kl_diags_get(diags, 0)->name, row->expect);
        assert_int_equal(kl_diags_get(diags, 0)->origin.begin, row->begin);
    }
    kl_diags_destroy(diags);
    source_free(&sources);
}

static void add_refuses_a_text_that_is_too_large(void **state)
{
    (void)state;
    const size_t length = SOURCE_FILE_BYTES + 1;
    char *text = calloc(1, length);
    assert_non_null(text);
    memset(text, ' ', length);
    text_sources sources = {0};
    kl_diags *diags = kl_diags_create();
    int32_t file;
    assert_int_equal(source_add(&sources, "t", text, length, diags, &file), KL_TOO_LARGE);
    assert_string_equal(kl_diags_get(diags, 0)->name, "file-too-large");
    free(text);
    kl_diags_destroy(diags);
    source_free(&sources);
}

static void open_refuses_a_directory_and_what_is_not_there(void **state)
{
    (void)state;
    const char *paths[] = {"tests", "tests/cli/bad/no such file"};
    for (size_t i = 0; i < 2; i++) {
        text_sources sources = {0};
        kl_diags *diags = kl_diags_create();
        int32_t file;
        assert_int_equal(source_open(&sources, paths[i], KL_NOWHERE, diags, &file),
                         KL_FILE_TROUBLE);
        assert_string_equal(kl_diags_get(diags, 0)->name, "file-trouble");
        kl_diags_destroy(diags);
        source_free(&sources);
    }
}

#define ROWS(cases) (sizeof(cases) / sizeof((cases)[0]))
enum { OTHER_CASES = 5 };

static struct CMUnitTest row_test(const char *name, CMUnitTestFunction test, const void *row)
{
    union {
        const void *from;
        void *to;
    } state = {.from = row};
    return (struct CMUnitTest){.name = name, .test_func = test, .initial_state = state.to};
}

int main(void)
{
    struct CMUnitTest tests[OTHER_CASES + ROWS(render_cases) + ROWS(bytes_cases)] = {
        cmocka_unit_test(find_counts_lines_and_characters),
        cmocka_unit_test(render_without_place_gives_the_message),
        cmocka_unit_test(render_cuts_a_long_line_around_the_span),
        cmocka_unit_test(add_refuses_a_text_that_is_too_large),
        cmocka_unit_test(open_refuses_a_directory_and_what_is_not_there),
    };
    size_t n = OTHER_CASES;
    for (size_t i = 0; i < ROWS(render_cases); i++) {
        tests[n++] = row_test(render_cases[i].name, check_render, &render_cases[i]);
    }
    for (size_t i = 0; i < ROWS(bytes_cases); i++) {
        tests[n++] = row_test(bytes_cases[i].name, check_bytes, &bytes_cases[i]);
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
