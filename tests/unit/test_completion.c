/* test_completion.c - the completion and the manual page name every command, option, table and picture, and no others.
 * Runs in the project's folder, as all tests do.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "diagrams.h"
#include "options.h"
#include "sensitivity.h"
#include "tables.h"

#define TEXT_LIMIT 65536

static char *read_file(const char *path)
{
    FILE *in = fopen(path, "r");
    assert_non_null(in);
    char *text = calloc(TEXT_LIMIT, 1);
    assert_non_null(text);
    const size_t size = fread(text, 1, TEXT_LIMIT - 1, in);
    assert_true(size > 0 && size < TEXT_LIMIT - 1);
    fclose(in);
    return text;
}

/* The list that is assigned to `name` in the completion: words between single spaces. */
static void read_list(const char *text, const char *name, char list[1024])
{
    char start[64];
    snprintf(start, sizeof start, "\n%s=\"", name);
    const char *at = strstr(text, start);
    assert_non_null(at);
    at += strlen(start);
    size_t n = 0;
    for (; *at != '"'; ++at) {
        if (*at == '\\') { /* the line goes on */
            ++at;
            continue;
        }
        list[n++] = *at;
        assert_true(n < 1000);
    }
    list[n] = '\0';
}

/* Add a word to a list of words. */
static void add_word(char list[1024], const char *word)
{
    const size_t n = strlen(list);
    snprintf(list + n, 1024 - n, "%s%s", n > 0 ? " " : "", word);
}

static void completion_commands_are_the_programs(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    char wanted[1024] = "", found[1024];
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        add_word(wanted, options_command((command_id)i)->name);
    }
    read_list(text, "_kernline_commands", found);
    assert_string_equal(found, wanted);
    free(text);
}

static void completion_options_are_each_commands_own(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    for (int command = 0; command < COMMAND_COUNT; ++command) {
        char wanted[1024] = "", found[1024], name[64];
        for (size_t i = 0; i < OPTION_COUNT; ++i) {
            if ((options_row(i)->commands & (1U << command)) != 0) {
                add_word(wanted, options_row(i)->name);
            }
        }
        snprintf(name, sizeof name, "_kernline_options_%s",
                 options_command((command_id)command)->name);
        read_list(text, name, found);
        assert_string_equal(found, wanted);
    }
    free(text);
}

static void completion_values_follow_options_that_take_one(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    char wanted[1024] = "";
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        if (options_row(i)->argument != NULL) {
            const size_t n = strlen(wanted);
            snprintf(wanted + n, sizeof wanted - n, "%s%s", n > 0 ? " | " : "",
                     options_row(i)->name);
        }
    }
    strcat(wanted, ")"); /* the pattern that skips an option's value */
    assert_non_null(strstr(text, wanted));
    free(text);
}

static void completion_tables_are_the_programs(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    char wanted[1024] = "", found[1024];
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        add_word(wanted, recipes[i].name);
    }
    read_list(text, "_kernline_tables", found);
    assert_string_equal(found, wanted);
    free(text);
}

static void completion_pictures_are_the_programs(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    char *page = read_file("docs/kernline.1");
    char wanted[1024] = "", found[1024];
    kl_index count = 0;
    const diagram_recipe *recipes = diagram_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        char entry[64];
        snprintf(entry, sizeof entry, ".TP\n.B %s\n", recipes[i].name);
        assert_non_null(strstr(strstr(page, ".SH PICTURES"), entry));
        add_word(wanted, recipes[i].name);
    }
    read_list(text, "_kernline_pictures", found);
    assert_string_equal(found, wanted);
    free(page);
    free(text);
}

static void completion_tables_of_sensitivity_are_the_programs(void **state)
{
    (void)state;
    char *text = read_file("docs/completion/kernline.bash");
    char *page = read_file("docs/kernline.1");
    char wanted[1024] = "", found[1024];
    for (int i = 0; i < SENSITIVITY_TABLES; ++i) {
        char entry[64];
        snprintf(entry, sizeof entry, "\n.B %s\n", sensitivity_tables[i].name);
        assert_non_null(strstr(strstr(page, "\n.B sensitivity\n"), entry));
        assert_non_null(
            strstr(options_command(COMMAND_SENSITIVITY)->about, sensitivity_tables[i].name));
        add_word(wanted, sensitivity_tables[i].name);
    }
    read_list(text, "_kernline_sensitivities", found);
    assert_string_equal(found, wanted);
    free(page);
    free(text);
}

/* In troff source a hyphen that is to be copied is written \-. */
static void assert_in_page(const char *page, const char *word)
{
    char escaped[128];
    size_t n = 0;
    for (const char *c = word; *c != '\0' && n < sizeof escaped - 3; ++c) {
        if (*c == '-') {
            escaped[n++] = '\\';
        }
        escaped[n++] = *c;
    }
    escaped[n] = '\0';
    if (strstr(page, escaped) == NULL) {
        fail_msg("the manual page lacks %s", word);
    }
}

static void manual_names_every_command_option_and_table(void **state)
{
    (void)state;
    char *page = read_file("docs/kernline.1");
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        assert_in_page(page, options_command((command_id)i)->name);
    }
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        assert_in_page(page, options_row(i)->name);
    }
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        char entry[64];
        snprintf(entry, sizeof entry, ".TP\n.B %s\n", recipes[i].name);
        assert_non_null(strstr(page, entry));
    }
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(completion_commands_are_the_programs),
        cmocka_unit_test(completion_options_are_each_commands_own),
        cmocka_unit_test(completion_values_follow_options_that_take_one),
        cmocka_unit_test(completion_tables_are_the_programs),
        cmocka_unit_test(completion_pictures_are_the_programs),
        cmocka_unit_test(completion_tables_of_sensitivity_are_the_programs),
        cmocka_unit_test(manual_names_every_command_option_and_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
