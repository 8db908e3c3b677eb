/* test_format.c - the canonical writer: layouts, nothing lost, nothing changed by a second run, the same model.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "fault.h"
#include "format.h"
#include "text_case.h"

typedef struct layout_case {
    const char *name, *text, *wanted;
} layout_case;

static const layout_case layout_cases[] = {
    {"blanks_become_one", "node   L\tat ( 0 ft ,24ft )", "node L at (0 ft, 24 ft)\n"},
    {"block_on_one_line_stays", "site{humidity 70%}", "site { humidity 70 % }\n"},
    {"block_over_lines_is_indented", "section s {\ncircle diameter 6 ft }",
     "section s {\n    circle diameter 6 ft\n}\n"},
    {"empty_block_closes", "site { }", "site { }\n"},
    {"phrases_get_lines_of_their_own", "show us; sections gross", "show us\nsections gross\n"},
    {"values_of_neighbours_align", "concrete c {\nstrength 6 ksi\ncreep none\n}",
     "concrete c {\n    strength 6 ksi\n    creep    none\n}\n"},
    {"flags_get_no_padding", "member a {\naxial_only\nof x\n}",
     "member a {\n    axial_only\n    of         x\n}\n"},
    {"comments_of_neighbours_align", "show us # a\nsections gross # b",
     "show us         # a\nsections gross  # b\n"},
    {"comment_stays_behind_a_brace", "site { # air\nhumidity 70 %\n} # end",
     "site {  # air\n    humidity 70 %\n}  # end\n"},
    {"comment_of_its_own_line_is_indented", "site {\n# air\nhumidity 70 %\n}",
     "site {\n    # air\n    humidity 70 %\n}\n"},
    {"empty_lines_become_one", "show us\n\n\n\nsections gross\n\n", "show us\n\nsections gross\n"},
    {"no_empty_line_inside_braces", "site {\n\nhumidity 70 %\n\n}",
     "site {\n    humidity 70 %\n}\n"},
    {"operators_get_blanks", "let a=2*(half-3 ft)/4+1 ft",
     "let a = 2 * (half - 3 ft) / 4 + 1 ft\n"},
    {"signs_stay_with_their_number", "let a = -2 * (-3 ft)", "let a = -2 * (-3 ft)\n"},
    {"sign_behind_a_mark_stays", "anchor at 0 ft height -3 in", "anchor at 0 ft height -3 in\n"},
    {"fraction_stays_literal", "seating 1/4in", "seating 1/4 in\n"},
    {"units_of_show_stay_whole", "show si { moment kN-m; turn_stiffness kip-ft/rad; inertia in^4 }",
     "show si { moment kN-m; turn_stiffness kip-ft/rad; inertia in^4 }\n"},
    {"power_is_tight", "let a = (3 ft) ^ 2", "let a = (3 ft)^2\n"},
    {"function_call_is_tight", "let a = max( 3 ft,4 ft )", "let a = max(3 ft, 4 ft)\n"},
    {"list_keeps_its_line_breaks", "falsework f under c at 4 ft, # one\n   5 ft { posts 2 }",
     "falsework f under c at 4 ft,  # one\n        5 ft { posts 2 }\n"},
    {"per_keeps_one_blank", "wobble 0.0002 per   ft", "wobble 0.0002 per ft\n"},
    {"nested_blocks_on_one_line", "member a { rigid { end 3 ft }; of x }",
     "member a { rigid { end 3 ft }; of x }\n"},
    {"crlf_becomes_a_newline", "show us\r\nsections gross\r\n", "show us\nsections gross\n"},
};

static char *format_text(text_sources *sources, arena *memory, const char *text)
{
    int32_t file;
    char *out = NULL;
    kl_diags *diags = kl_diags_create();
    assert_int_equal(source_add(sources, "t", text, strlen(text), NULL, &file), KL_OK);
    assert_int_equal(format_source(sources, file, memory, diags, &out), KL_OK);
    kl_diags_destroy(diags);
    return out;
}

static void check_layout(void **state)
{
    const layout_case *row = *state;
    text_sources sources = {0};
    arena memory = {0};
    const char *once = format_text(&sources, &memory, row->text);
    assert_string_equal(once, row->wanted);
    assert_string_equal(format_text(&sources, &memory, once), once);
    arena_free(&memory);
    source_free(&sources);
}

static const char *const model_files[] = {"tests/text/language.kline",
                                          "tests/text/language_rest.kline"};

/* ---- the same model ---------------------------------------------------------------------------------- */

static void assert_same_values(const text_value *a, const text_value *b)
{
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->count, b->count);
    assert_int_equal(a->year, b->year);
    for (kl_index i = 0; a->names != NULL && i < a->count; i++) {
        assert_string_equal(a->names[i].text, b->names[i].text);
    }
    for (kl_index i = 0; a->quantities != NULL && i < a->count; i++) {
        assert_close(a->quantities[i].value, b->quantities[i].value, 0.0, 0.0);
    }
    if (a->string != NULL) {
        assert_string_equal(a->string, b->string);
    }
    if (a->station != NULL) {
        assert_int_equal(a->station->base, b->station->base);
        assert_close(a->station->quantity.value, b->station->quantity.value, 0.0, 0.0);
    }
}

static void
assert_same_phrases(const phrase *a, kl_index count_a, const phrase *b, kl_index count_b)
{
    assert_int_equal(count_a, count_b);
    for (kl_index i = 0; i < count_a; i++) {
        assert_ptr_equal(a[i].word, b[i].word);
        assert_int_equal(a[i].slot_count, b[i].slot_count);
        for (kl_index k = 0; k < a[i].slot_count; k++) {
            assert_ptr_equal(a[i].slots[k].mark, b[i].slots[k].mark);
            assert_same_values(&a[i].slots[k].value, &b[i].slots[k].value);
        }
        assert_same_phrases(a[i].children, a[i].child_count, b[i].children, b[i].child_count);
    }
}

static void format_keeps_the_model_and_every_comment(void **state)
{
    (void)state;
    for (size_t f = 0; f < 2; f++) {
        size_t length;
        char *text = text_case_load(model_files[f], &length);
        assert_non_null(text);
        text_case before;
        text_case after;
        arena memory = {0};
        text_case_read(&before, text);
        char *once = format_text(&before.sources, &memory, text);
        text_case_read(&after, once);
        assert_int_equal(after.status, KL_OK);
        assert_same_phrases(before.document.phrases, before.document.phrase_count,
                            after.document.phrases, after.document.phrase_count);
        assert_string_equal(format_text(&after.sources, &memory, once), once);
        size_t hashes = 0;
        for (const char *c = text; *c != '\0'; c++) {
            hashes += *c == '#' ? 1 : 0;
        }
        for (const char *c = once; *c != '\0'; c++) {
            hashes -= *c == '#' ? 1 : 0;
        }
        assert_int_equal(hashes, 0);
        text_case_free(&before);
        text_case_free(&after);
        arena_free(&memory);
        free(text);
    }
}

static void format_refuses_what_does_not_close(void **state)
{
    (void)state;
    const char *cases[][2] = {{"site {", "missing-brace"},
                              {"site { } }", "stray-brace"},
                              {"let a = (3", "parenthesis-not-closed"},
                              {"falsework f at 3 ft,", "expected-value"},
                              {"a {\nb {\nc {\nd {\ne {\nf {\ng {\nh {\ni {\n", "nesting-too-deep"},
                              {"let a = 3 \xE2\x88\x92 2", "typographic-minus"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        text_case c = {.diags = kl_diags_create()};
        int32_t file;
        char *out = NULL;
        assert_int_equal(
            source_add(&c.sources, "t", cases[i][0], strlen(cases[i][0]), c.diags, &file), KL_OK);
        assert_int_equal(format_source(&c.sources, file, &c.memory, c.diags, &out), KL_BAD_MODEL);
        assert_non_null(text_case_find(&c, cases[i][1]));
        assert_null(out);
        text_case_free(&c);
    }
}

/* Whatever the bytes: what is written once is written the same again. */
static void format_is_stable_for_changed_bytes(void **state)
{
    (void)state;
    size_t length;
    char *text = text_case_load(model_files[1], &length);
    assert_non_null(text);
    uint64_t seed = 7;
    for (int i = 0; i < 1000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        const size_t at = (size_t)(seed >> 33) % length;
        const char kept = text[at];
        text[at] = "{}(),;\n\"#-^/=% 19ains.\t"[(seed >> 20) % 23];
        text_case c = {.diags = kl_diags_create()};
        int32_t file;
        char *once = NULL;
        assert_int_equal(source_add(&c.sources, "t", text, length, NULL, &file), KL_OK);
        if (format_source(&c.sources, file, &c.memory, c.diags, &once) == KL_OK) {
            assert_string_equal(format_text(&c.sources, &c.memory, once), once);
        }
        text_case_free(&c);
        text[at] = kept;
    }
    free(text);
}

static void format_gives_all_memory_back_when_it_is_short(void **state)
{
    (void)state;
    const char *text = "site { # a\nhumidity 70 %\n}\nnode L at (0 ft,\n 3 ft)\n";
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status == KL_NO_MEMORY; k++) {
        text_case c = {.diags = kl_diags_create()};
        int32_t file;
        char *out = NULL;
        fault_after(k);
        status = source_add(&c.sources, "t", text, strlen(text), c.diags, &file);
        status =
            status == KL_OK ? format_source(&c.sources, file, &c.memory, c.diags, &out) : status;
        const int struck = fault_struck();
        fault_after(-1);
        assert_true(struck ? status == KL_NO_MEMORY : status == KL_OK);
        text_case_free(&c);
    }
}

enum { LAYOUT_CASES = sizeof layout_cases / sizeof layout_cases[0], OTHER_CASES = 4 };

int main(void)
{
    struct CMUnitTest tests[LAYOUT_CASES + OTHER_CASES] = {
        cmocka_unit_test(format_keeps_the_model_and_every_comment),
        cmocka_unit_test(format_refuses_what_does_not_close),
        cmocka_unit_test(format_is_stable_for_changed_bytes),
        cmocka_unit_test(format_gives_all_memory_back_when_it_is_short),
    };
    for (size_t i = 0; i < LAYOUT_CASES; i++) {
        union {
            const layout_case *from;
            void *to;
        } state = {.from = &layout_cases[i]};
        tests[OTHER_CASES + i] = (struct CMUnitTest){
            .name = layout_cases[i].name, .test_func = check_layout, .initial_state = state.to};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
