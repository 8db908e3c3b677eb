/* test_parser.c - phrases from text: values, marks, blocks, recovery, limits; and the table the parser is driven by.
 *
 * tests/text/language.kline is the whole language in one model, language_rest.kline the remaining words.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "complain.h"
#include "fault.h"
#include "grammar.h"
#include "text_case.h"
#include "unit_text.h"

static const char *const language_files[] = {"tests/text/language.kline",
                                             "tests/text/language_rest.kline"};

static void read_ok(text_case *c, const char *text)
{
    text_case_read(c, text);
    if (c->status != KL_OK) {
        text_case_print(c);
    }
    assert_int_equal(c->status, KL_OK);
}

static const phrase *top(const text_case *c, kl_index i)
{
    assert_true(i < c->document.phrase_count);
    return &c->document.phrases[i];
}

/* ---- the whole language ------------------------------------------------------------------------------ */

static void parse_whole_language_has_no_errors(void **state)
{
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        text_case c = {.diags = kl_diags_create()};
        c.status = text_parse(&c.sources, language_files[i], &c.memory, c.diags, &c.document);
        text_case_print(&c);
        assert_int_equal(c.status, KL_OK);
        assert_int_equal(kl_diags_count(c.diags), 0);
        text_case_free(&c);
    }
}

static void parse_reads_the_tendon_of_the_language_page(void **state)
{
    (void)state;
    text_case c = {.diags = kl_diags_create()};
    c.status = text_parse(&c.sources, language_files[0], &c.memory, c.diags, &c.document);
    assert_int_equal(c.status, KL_OK);
    assert_true(c.document.has_skew);
    assert_close(c.document.skew, 32.0 * acos(-1.0) / 180.0, 1e-15, 0.0);
    const phrase *tendon = NULL;
    for (kl_index i = 0; i < c.document.phrase_count && tendon == NULL; i++) {
        tendon = strcmp(c.document.phrases[i].word, "tendon") == 0 ? &c.document.phrases[i] : NULL;
    }
    assert_non_null(tendon);
    assert_string_equal(phrase_own(tendon, 0)->names[0].text, "T1");
    assert_string_equal(phrase_name(tendon, "in"), "cap");
    assert_close(phrase_number(tendon, "wobble", 0.0), 0.0002 / 0.3048, 1e-14, 0.0);
    assert_close(phrase_number(tendon, "duct", 0.0), 4.5 * 0.0254, 1e-14, 0.0);
    assert_close(phrase_number(phrase_child(tendon, "duct", NULL), "offset", 0.0), 0.75 * 0.0254,
                 1e-14, 0.0);
    const phrase *jack = phrase_child(tendon, "jack", NULL);
    assert_string_equal(phrase_own(jack, 0)->names[0].text, "start then end");
    assert_close(phrase_number(jack, "ratio", 0.0), 0.75, 1e-15, 0.0);
    const phrase *profile = phrase_child(tendon, "profile", NULL);
    assert_int_equal(profile->child_count, 7);
    const phrase *low = phrase_child(profile, "low", NULL);
    assert_close(phrase_value(low, "at")->station->quantity.value, 48 * 0.3048, 1e-15, 0.0);
    assert_null(phrase_child(profile, "low", low));
    text_case_free(&c);
}

/* ---- values ------------------------------------------------------------------------------------------ */

static void parse_choice_splits_words_and_year(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "concrete c1 { modulus en1992 2004; cement rapid }\nconcrete c2 { modulus 30 GPa; "
                "gain mc1990 }");
    const text_value *modulus = phrase_value(top(&c, 0), "modulus");
    assert_int_equal(modulus->kind, VALUE_CHOICE);
    assert_string_equal(modulus->names[0].text, "en1992");
    assert_int_equal(modulus->year, 2004);
    const text_value *number = phrase_value(top(&c, 1), "modulus");
    assert_int_equal(number->kind, VALUE_QUANTITY);
    assert_close(number->quantities[0].value, 30e9, 1e-15, 0.0);
    assert_int_equal(phrase_value(top(&c, 1), "gain")->year, 0);
    text_case_free(&c);
}

static void parse_names_end_at_a_mark(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "load a { point 12 kip on m1 m2 left at 0.4 of length; stress T1 T2 }\nstage s { "
                "stress T1 T2 to 50 % }");
    const phrase *point = phrase_child(top(&c, 0), "point", NULL);
    assert_int_equal(phrase_value(point, "on")->count, 2);
    assert_true(phrase_has(point, "left"));
    assert_int_equal(phrase_value(point, "at")->station->base, STATION_SHARE);
    const phrase *stress = phrase_child(top(&c, 1), "stress", NULL);
    assert_int_equal(phrase_own(stress, 0)->count, 2);
    assert_close(phrase_number(stress, "to", 0.0), 0.5, 1e-15, 0.0);
    text_case_free(&c);
}

static void parse_station_knows_every_form(void **state)
{
    (void)state;
    const struct {
        const char *text;
        station_base base;
    } cases[] = {{"start", STATION_START},
                 {"mid", STATION_MID},
                 {"end", STATION_END},
                 {"12 ft", STATION_LENGTH},
                 {"A", STATION_NODE},
                 {"half", STATION_LENGTH},
                 {"40 % of length", STATION_SHARE},
                 {"(half + 1 ft)", STATION_LENGTH}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[100];
        text_case c;
        snprintf(text, sizeof text, "let half = 3 ft\nnode C on cap at %s", cases[i].text);
        read_ok(&c, text);
        assert_int_equal(phrase_value(top(&c, 0), "at")->station->base, cases[i].base);
        text_case_free(&c);
    }
}

static void parse_square_divides_by_the_cosine_wherever_skew_stands(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "node A at (square 3 m, 1 m)\nlet q = square 2 m\nnode B at (q, 1 m)\nnode C at (q "
                "* 2, 1 m)\n"
                "skew 60 deg\n");
    const double cosine = 0.5;
    const text_quantity *a = &phrase_value(top(&c, 0), "at")->points[0].x;
    assert_true(a->square);
    assert_close(a->value, 3.0 / cosine, 1e-15, 0.0);
    assert_close(phrase_value(top(&c, 1), "at")->points[0].x.value, 2.0 / cosine, 1e-15, 0.0);
    assert_close(phrase_value(top(&c, 2), "at")->points[0].x.value, 4.0 / cosine, 1e-15, 0.0);
    text_case_free(&c);
}

static void parse_mass_density_becomes_unit_weight(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "material oak { modulus 11 GPa; unit_weight 560 kg/m^3 }");
    assert_close(phrase_number(top(&c, 0), "unit_weight", 0.0), 560 * 9.80665, 1e-14, 0.0);
    text_case_free(&c);
}

/* ---- where marks stand ------------------------------------------------------------------------------- */

static void parse_mark_is_found_inline_and_as_a_line(void **state)
{
    (void)state;
    const char *texts[] = {"section s { rectangle width 2 m depth 3 m }",
                           "section s { rectangle { depth 3 m\nwidth 2 m } }",
                           "section s { rectangle depth 3 m { width 2 m } }"};
    for (size_t i = 0; i < 3; i++) {
        text_case c;
        read_ok(&c, texts[i]);
        assert_true(phrase_has(top(&c, 0), "rectangle"));
        const phrase *rectangle = phrase_child(top(&c, 0), "rectangle", NULL);
        assert_close(phrase_number(rectangle, "width", 0.0), 2.0, 0.0, 0.0);
        assert_close(phrase_number(rectangle, "depth", 0.0), 3.0, 0.0, 0.0);
        text_case_free(&c);
    }
}

static void parse_from_and_to_may_share_a_line_of_a_block(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "check c stress { members cap; from s1 to s2; tension 0 ksi }");
    assert_string_equal(phrase_name(top(&c, 0), "from"), "s1");
    assert_string_equal(phrase_name(top(&c, 0), "to"), "s2");
    text_case_free(&c);
}

static void parse_prefix_of_an_intensity_is_a_flag(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "load a { uniform level 2 kN/m on m; uniform 2 kN/m on m level }");
    for (kl_index i = 0; i < 2; i++) {
        const phrase *uniform = &top(&c, 0)->children[i];
        assert_true(phrase_has(uniform, "level"));
        assert_close(phrase_own(uniform, 0)->quantities[0].value, 2000.0, 1e-15, 0.0);
    }
    text_case_free(&c);
}

static void parse_like_needs_nothing_else(void **state)
{
    (void)state;
    text_case c;
    read_ok(&c, "tendon T2 like T1 { raise 9 in }\nfalsework f like g\nsection s like t\n");
    assert_int_equal(c.document.phrase_count, 3);
    text_case_free(&c);
}

/* ---- recovery ---------------------------------------------------------------------------------------- */

static void parse_tells_all_errors_of_a_file(void **state)
{
    (void)state;
    text_case c;
    text_case_read(&c,
                   "titel \"a\"\nsection s { circle diameter 6 }\nnode A at (0 ft, 0 kip)\nset all "
                   "m1, m2\nshow metric\n"
                   "node B at (1 ft, 2 ft)\n");
    assert_int_equal(kl_diags_count_of(c.diags, KL_ERROR), 5);
    assert_int_equal(c.document.phrase_count, 1);
    assert_int_equal(c.status, KL_BAD_MODEL);
    text_case_free(&c);
}

static void parse_goes_on_behind_a_balanced_block(void **state)
{
    (void)state;
    text_case c;
    text_case_read(&c, "tendno T1 in cap {\n profile { anchor at 0 ft }\n nonsense\n}\nshow us\n");
    assert_int_equal(kl_diags_count_of(c.diags, KL_ERROR), 1);
    assert_int_equal(c.document.phrase_count, 1);
    text_case_free(&c);
}

static void parse_missing_brace_names_the_block_and_goes_on(void **state)
{
    (void)state;
    text_case c;
    text_case_read(&c, "show us\nsection deck {\n circle diameter 6 ft\nmember beam from A to B "
                       "section deck of mix\n"
                       "node A at (0 ft, 0 ft)\nnode B at 7\n");
    const kl_diag *missing = text_case_find(&c, "missing-brace");
    assert_non_null(missing);
    assert_non_null(strstr(missing->message, "`section deck`, opened on line 2"));
    assert_non_null(text_case_find(&c, "missing-unit")); /* and what follows is read */
    assert_int_equal(kl_diags_count_of(c.diags, KL_ERROR), 2);
    text_case_free(&c);
}

static void parse_stops_after_twenty_errors(void **state)
{
    (void)state;
    char text[4000] = "";
    for (int i = 0; i < 100; i++) {
        strcat(text, "let a = b\n");
    }
    text_case c;
    text_case_read(&c, text);
    assert_int_equal(kl_diags_count_of(c.diags, KL_ERROR), COMPLAIN_ERRORS);
    assert_non_null(text_case_find(&c, "too-many-errors"));
    text_case_free(&c);
}

/* ---- limits ------------------------------------------------------------------------------------------ */

/* `before`, then `count` times `line` with the number in place of its `$`; to be freed. */
static char *repeat(const char *before, const char *line, int count)
{
    const size_t room = strlen(line) + 12;
    char *text = malloc(strlen(before) + (size_t)count * room + 1);
    if (text == NULL) {
        return NULL;
    }
    char *at = text + snprintf(text, strlen(before) + 1, "%s", before);
    const char *hole = strchr(line, '$');
    const int first = hole != NULL ? (int)(hole - line) : (int)strlen(line);
    for (int i = 0; i < count; i++) {
        at += snprintf(at, room, "%.*s", first, line);
        at += hole != NULL ? snprintf(at, room, "%d%s", i, hole + 1) : 0;
    }
    return text;
}

static void
check_limit(const char *before, const char *line, int count, const char *name, kl_status status)
{
    char *text = repeat(before, line, count);
    assert_non_null(text);
    text_case c;
    text_case_read(&c, text);
    free(text);
    assert_non_null(text_case_find(&c, name));
    assert_int_equal(c.status, status);
    text_case_free(&c);
}

static void parse_limits_have_messages(void **state)
{
    (void)state;
    check_limit("", "let a$=1\n", 10001, "too-many-lets", KL_BAD_MODEL);
    check_limit("set s", " n", PARSER_LIST + 1, "list-too-long", KL_BAD_MODEL);
    check_limit("", "node a at(0 m,0 m)\n", PARSER_PHRASES + 1, "too-many-phrases", KL_TOO_LARGE);
    check_limit("load l ", "{ point 1 kip ", 20, "missing-brace", KL_BAD_MODEL);
}

static void parse_too_many_files_has_a_message(void **state)
{
    (void)state;
    check_limit("", "include \"tests/cli/bad/include/deep_17.kline\"\n", 257, "too-many-files",
                KL_BAD_MODEL);
}

/* ---- nothing half-parsed crashes --------------------------------------------------------------------- */

static void parse_survives_every_truncation(void **state)
{
    (void)state;
    for (size_t f = 0; f < 2; f++) {
        size_t length;
        char *text = text_case_load(language_files[f], &length);
        assert_non_null(text);
        for (size_t n = 0; n < length; n += 3) {
            const char kept = text[n];
            text[n] = '\0';
            text_case c;
            text_case_read(&c, text);
            assert_true(c.status == KL_OK || c.status == KL_BAD_MODEL);
            assert_int_equal(c.status == KL_OK, kl_diags_count_of(c.diags, KL_ERROR) == 0);
            text_case_free(&c);
            text[n] = kept;
        }
        free(text);
    }
}

static void parse_survives_changed_bytes(void **state)
{
    (void)state;
    size_t length;
    char *text = text_case_load(language_files[1], &length);
    assert_non_null(text);
    uint64_t seed = 1;
    for (int i = 0; i < 1500; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        const size_t at = (size_t)(seed >> 33) % length;
        const char kept = text[at];
        text[at] = "{}(),;\n\"#-^/=% 19ains.\t"[(seed >> 20) % 23];
        text_case c;
        text_case_read(&c, text);
        assert_true(c.status == KL_OK || c.status == KL_BAD_MODEL);
        text_case_free(&c);
        text[at] = kept;
    }
    free(text);
}

static void parse_gives_all_memory_back_when_it_is_short(void **state)
{
    (void)state;
    size_t length;
    char *text = text_case_load(language_files[0], &length);
    assert_non_null(text);
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status == KL_NO_MEMORY; k++) {
        text_case c = {.diags = kl_diags_create()};
        fault_after(k);
        status =
            text_parse_text(&c.sources, "model", text, length, &c.memory, c.diags, &c.document);
        const int struck = fault_struck();
        fault_after(-1);
        assert_true(struck ? status == KL_NO_MEMORY : status == KL_OK);
        text_case_free(&c);
        assert_true(k < 100000);
    }
    free(text);
}

/* ---- the table --------------------------------------------------------------------------------------- */

static void table_rows_are_whole(void **state)
{
    (void)state;
    for (size_t i = 0; i < grammar_count(); i++) {
        const grammar_row *row = grammar_at(i);
        assert_true(row->context > IN_NOTHING && row->context < GRAMMAR_CONTEXT_COUNT);
        assert_true(row->help != NULL && row->example != NULL);
        assert_ptr_equal(grammar_find(row->context, row->word, strlen(row->word)),
                         row); /* unique, contiguous */
        kl_unit unit;
        assert_true(row->range_unit == NULL ||
                    (unit_text_read(row->range_unit, strlen(row->range_unit), &unit) &&
                     row->low < row->high));
        assert_true(row->range_unit == NULL || row->own[0].measure == GRAMMAR_ANY ||
                    (row->own[0].kinds & GRAMMAR_INTEGER) != 0 || row->own[1].kinds != 0 ||
                    kl_dimension_equal(unit.dimension, kl_measure_dimension(row->own[0].measure)));
        assert_true((row->flags & GRAMMAR_LATER) == 0 || row->later != NULL);
        size_t marks;
        grammar_rows_of(row->inner, &marks);
        assert_true(row->inner == IN_NOTHING || marks > 0);
    }
}

static void table_examples_hold_their_word(void **state)
{
    (void)state;
    for (size_t i = 0; i < grammar_count(); i++) {
        assert_non_null(strstr(grammar_at(i)->example, grammar_at(i)->word));
    }
}

/* An example reads without a mistake, though it may leave out what stands elsewhere. */
static void check_example(const grammar_row *row)
{
    text_case c;
    char text[400];
    const bool is_skewed = strcmp(row->word, "lanes") == 0;
    snprintf(text, sizeof text, "%s%s", is_skewed ? "skew 3 deg\n" : "", row->example);
    text_case_read(&c, text);
    for (kl_index k = 0; k < kl_diags_count(c.diags); k++) {
        const char *name = kl_diags_get(c.diags, k)->name;
        const bool is_part = strcmp(name, "missing-word") == 0 ||
                             strcmp(name, "not-computed-yet") == 0 ||
                             strcmp(name, "file-trouble") == 0;
        if (!is_part) {
            text_case_print(&c);
        }
        assert_true(is_part);
    }
    text_case_free(&c);
}

static void table_examples_of_whole_phrases_are_read(void **state)
{
    (void)state;
    size_t read = 0;
    for (size_t i = 0; i < grammar_count(); i++) {
        const grammar_row *row = grammar_at(i);
        const bool is_expect = strncmp(row->example, "expect ", 7) == 0;
        if (row->context == IN_TOP || is_expect) {
            check_example(row);
            read++;
        }
    }
    assert_true(read > 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parse_whole_language_has_no_errors),
        cmocka_unit_test(parse_reads_the_tendon_of_the_language_page),
        cmocka_unit_test(parse_choice_splits_words_and_year),
        cmocka_unit_test(parse_names_end_at_a_mark),
        cmocka_unit_test(parse_station_knows_every_form),
        cmocka_unit_test(parse_square_divides_by_the_cosine_wherever_skew_stands),
        cmocka_unit_test(parse_mass_density_becomes_unit_weight),
        cmocka_unit_test(parse_mark_is_found_inline_and_as_a_line),
        cmocka_unit_test(parse_from_and_to_may_share_a_line_of_a_block),
        cmocka_unit_test(parse_prefix_of_an_intensity_is_a_flag),
        cmocka_unit_test(parse_like_needs_nothing_else),
        cmocka_unit_test(parse_tells_all_errors_of_a_file),
        cmocka_unit_test(parse_goes_on_behind_a_balanced_block),
        cmocka_unit_test(parse_missing_brace_names_the_block_and_goes_on),
        cmocka_unit_test(parse_stops_after_twenty_errors),
        cmocka_unit_test(parse_limits_have_messages),
        cmocka_unit_test(parse_too_many_files_has_a_message),
        cmocka_unit_test(parse_survives_every_truncation),
        cmocka_unit_test(parse_survives_changed_bytes),
        cmocka_unit_test(parse_gives_all_memory_back_when_it_is_short),
        cmocka_unit_test(table_rows_are_whole),
        cmocka_unit_test(table_examples_hold_their_word),
        cmocka_unit_test(table_examples_of_whole_phrases_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
