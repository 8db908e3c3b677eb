/* test_lexer.c - text as tokens: kinds, spans, units, line ends that end nothing, limits.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "lexer.h"
#include "text_case.h"

typedef struct kinds_case {
    const char *name, *text, *kinds; /* one letter a token */
} kinds_case;

/* W word, N number, U number with unit, S string, n line end, c line end that goes on, # comment, marks themselves. */
static const kinds_case kinds_cases[] = {
    {"empty_text_is_the_end", "", "."},
    {"byte_order_mark_is_passed_over", "\xEF\xBB\xBFshow us", "WW."},
    {"crlf_is_one_line_end", "a\r\nb", "WnW."},
    {"tabs_are_blanks", "a\t12\tft", "WU."},
    {"in_is_a_unit_behind_a_number", "5 in in cap", "UWW."},
    {"in_is_a_word_behind_a_name", "T1 in cap", "WWW."},
    {"line_goes_on_after_a_comma", "4 ft, # c\n\n 5 ft\nx", "U,#ccUnW."},
    {"line_goes_on_inside_parentheses", "(1 +\n 2)\nx", "(N+cN)nW."},
    {"open_parenthesis_does_not_swallow_lines", "(1 +\n x = 2\ny", "(N+nW=NnW."},
    {"open_parenthesis_then_a_whole_one", "a (1\nb (2)\n", "W(NnW(N)n."},
    {"comment_ends_with_its_line", "a # b { c\nd", "W#nW."},
    {"string_holds_a_hash", "\"a # b\" c", "SW."},
    {"marks_are_tokens", "{};(),=+-*/^%", "{};(),=+-*/^%."},
    {"hyphen_joins_moments_only", "3 kip-ft - 4 m-x", "U-U-W."},
    {"number_without_unit_stays_integer", "count 2", "WN."},
    {"exponent_is_part_of_the_number", "1e6 kip-ft/rad", "U."},
};

static char letter_of(const token *t)
{
    switch ((token_kind)t->kind) {
    case TOKEN_WORD:
        return 'W';
    case TOKEN_NUMBER:
        return t->unit_begin > 0 ? 'U' : 'N';
    case TOKEN_STRING:
        return 'S';
    case TOKEN_NEWLINE:
        return 'n';
    case TOKEN_CONTINUED:
        return 'c';
    case TOKEN_COMMENT:
        return '#';
    case TOKEN_END:
        return '.';
    case TOKEN_OPEN:
    case TOKEN_CLOSE:
    case TOKEN_LEFT:
    case TOKEN_RIGHT:
    case TOKEN_COMMA:
    case TOKEN_SEMICOLON:
    case TOKEN_PLUS:
    case TOKEN_MINUS:
    case TOKEN_TIMES:
    case TOKEN_DIVIDE:
    case TOKEN_POWER:
    case TOKEN_EQUALS:
    case TOKEN_PERCENT:
        break;
    }
    return "{}(),;+-*/^=%"[t->kind - TOKEN_OPEN];
}

static void check_kinds(void **state)
{
    const kinds_case *row = *state;
    text_sources sources = {0};
    lexer_tokens tokens = {0};
    int32_t file;
    char kinds[64] = "";
    assert_int_equal(source_add(&sources, "t", row->text, strlen(row->text), NULL, &file), KL_OK);
    assert_int_equal(lexer_read(&sources, file, NULL, &tokens), KL_OK);
    for (size_t i = 0; i < tokens.count && i + 1 < sizeof kinds; i++) {
        kinds[i] = letter_of(&tokens.items[i]);
        assert_true(i == 0 || tokens.items[i].begin >= tokens.items[i - 1].end);
    }
    assert_string_equal(kinds, row->kinds);
    lexer_free(&tokens);
    source_free(&sources);
}

static void read_marks_a_bad_number_once(void **state)
{
    (void)state;
    text_case c;
    text_case_read(&c, "node L at (1,200 ft, 12'-6\")");
    assert_int_equal(kl_diags_count_of(c.diags, KL_ERROR), 2);
    assert_string_equal(text_case_find(&c, "feet-inches-marks")->hint, "write `12 ft 6 in`");
    assert_non_null(strstr(text_case_find(&c, "thousands-comma")->hint, "`1200`"));
    text_case_free(&c);
}

enum { KINDS_CASES = sizeof kinds_cases / sizeof kinds_cases[0], OTHER_CASES = 1 };

int main(void)
{
    struct CMUnitTest tests[KINDS_CASES + OTHER_CASES] = {
        cmocka_unit_test(read_marks_a_bad_number_once)};
    for (size_t i = 0; i < KINDS_CASES; i++) {
        union {
            const kinds_case *from;
            void *to;
        } state = {.from = &kinds_cases[i]};
        tests[OTHER_CASES + i] = (struct CMUnitTest){
            .name = kinds_cases[i].name, .test_func = check_kinds, .initial_state = state.to};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
