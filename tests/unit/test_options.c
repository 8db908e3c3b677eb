/* test_options.c - the command line: what is taken, what is refused, what is proposed.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "length_text.h"
#include "options.h"

#define WORDS 6

typedef struct refused_case {
    const char *words[WORDS];
    const char *message; /* a part of it */
} refused_case;

/* getopt-like interfaces take char *const *: the words are only read. */
static bool read_words(const char *const words[WORDS], options *out, char *message)
{
    char room[WORDS][64];
    char *arguments[WORDS];
    int count = 0;
    while (count < WORDS && words[count] != NULL) {
        snprintf(room[count], sizeof room[count], "%s", words[count]);
        arguments[count] = room[count];
        ++count;
    }
    const bool fine = options_read(count, arguments, out, message);
    for (int i = 0; i < OPTION_COUNT; ++i) {
        out->values[i] = NULL; /* they point into room */
    }
    return fine;
}

static void options_read_wrong_line_is_refused_in_words(void **state)
{
    (void)state;
    static const refused_case cases[] = {
        {{NULL}, "A command comes first"},
        {{"runn", "m.kline"}, "did you mean `run`?"},
        {{"zzzzzzzz"}, "unknown command `zzzzzzzz`"},
        {{"table", "m.kline", "posts", "--stagee", "s"}, "did you mean `--stage`?"},
        {{"table", "m.kline", "posts", "--quux=3"}, "unknown option `--quux`"},
        {{"table", "m.kline", "posts", "--stage"}, "`--stage` needs a value"},
        {{"table", "m.kline", "posts", "--csv=1"}, "`--csv` takes no value"},
        {{"table", "m.kline", "posts", "--csv", "--csv"}, "given twice"},
        {{"table", "m.kline", "posts", "--csv", "--json"}, "exclude each other"},
        {{"table", "m.kline"}, "kernline table MODEL WHAT"},
        {{"run", "m.kline", "more"}, "one thing too many"},
        {{"run", "m.kline", "--stage", "s"}, "does not belong to run"},
        {{"--stage", "s"}, "the command comes first"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; ++i) {
        options o;
        char message[OPTIONS_MESSAGE];
        assert_false(read_words(cases[i].words, &o, message));
        if (strstr(message, cases[i].message) == NULL) {
            fail_msg("case %d: \"%s\" lacks \"%s\"", (int)i, message, cases[i].message);
        }
    }
}

static void options_read_values_come_from_either_form(void **state)
{
    (void)state;
    char a[] = "table", b[] = "m.kline", c[] = "--stage=cap=1", d[] = "--every", e[] = "2 ft",
         f[] = "posts";
    char *const arguments[] = {a, b, c, d, e, f};
    options o;
    char message[OPTIONS_MESSAGE];
    assert_true(options_read(6, arguments, &o, message));
    assert_int_equal(o.command, COMMAND_TABLE);
    assert_string_equal(o.values[OPTION_STAGE], "cap=1");
    assert_string_equal(o.values[OPTION_EVERY], "2 ft");
    assert_int_equal(o.operand_count, 2);
    assert_string_equal(o.operands[1], "posts");
    assert_false(o.given[OPTION_CSV]);
}

static void options_read_dash_and_double_dash_are_operands(void **state)
{
    (void)state;
    char a[] = "table", b[] = "-", c[] = "--", d[] = "--odd";
    char *const arguments[] = {a, b, c, d};
    options o;
    char message[OPTIONS_MESSAGE];
    assert_true(options_read(4, arguments, &o, message));
    assert_string_equal(o.operands[0], "-");
    assert_string_equal(o.operands[1], "--odd");
}

static void options_read_help_needs_no_operands(void **state)
{
    (void)state;
    static const char *const words[WORDS] = {"table", "--help"};
    options o;
    char message[OPTIONS_MESSAGE];
    assert_true(read_words(words, &o, message));
    assert_true(o.given[OPTION_HELP]);
    assert_int_equal(o.command, COMMAND_TABLE);
}

/* ORDER option_id, command_id: the enums index the tables. */
static void options_row_order_follows_the_enums(void **state)
{
    (void)state;
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        assert_int_equal(options_row(i)->id, i);
        assert_true(options_row(i)->commands != 0);
    }
    assert_string_equal(options_command(COMMAND_FORMAT)->name, "format");
    assert_null(options_command(COMMAND_NONE));
}

typedef struct length_case {
    const char *text;
    double metres; /* below 0: refused */
} length_case;

static void length_read_takes_lengths_as_in_a_model(void **state)
{
    (void)state;
    static const length_case cases[] = {
        {"2 ft", 0.6096},  {"2ft", 0.6096},    {"500 mm", 0.5},  {"12 ft 6 in", 3.81},
        {"1/2 m", 0.5},    {" 0.5 m ", 0.5},   {"2", -1.0},      {"2 kip", -1.0},
        {"-2 ft", -1.0},   {"0 ft", 0.0},      {"nan ft", -1.0}, {"0x10 ft", -1.0},
        {"2 ft ft", -1.0}, {"2 m 3 in", -1.0}, {"1/0 m", -1.0},  {"1e400 m", -1.0},
        {"", -1.0},        {"ft", -1.0},       {"inf m", -1.0},  {".5 m", 0.5}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; ++i) {
        double metres = -1.0;
        const bool wanted = cases[i].metres >= 0.0;
        if (length_read(cases[i].text, &metres) != wanted) {
            fail_msg("\"%s\"", cases[i].text);
        }
        assert_close(metres, cases[i].metres, 1e-15, 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(options_read_wrong_line_is_refused_in_words),
        cmocka_unit_test(options_read_values_come_from_either_form),
        cmocka_unit_test(options_read_dash_and_double_dash_are_operands),
        cmocka_unit_test(options_read_help_needs_no_operands),
        cmocka_unit_test(options_row_order_follows_the_enums),
        cmocka_unit_test(length_read_takes_lengths_as_in_a_model),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
