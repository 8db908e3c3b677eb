/* test_bad_models.c - each malformed model draws its message, and each message of the reader has a model.
 *
 * tests/cli/bad/text_*.kline: the first line is `# expect: NAME`. The second test looks for the names in the sources
 * of frontends/text (those of the binder are tested with the binder).
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <ctype.h>
#include <dirent.h>

#include "text_case.h"

#define BAD_FOLDER    "tests/cli/bad"
#define SOURCE_FOLDER "frontends/text"

enum { NAMES = 200, NAME_LENGTH = 64 };

typedef struct name_list {
    char names[NAMES][NAME_LENGTH];
    size_t count;
} name_list;

static bool has_name(const name_list *list, const char *name)
{
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->names[i], name) == 0) {
            return true;
        }
    }
    return false;
}

static void add_name(name_list *list, const char *name, size_t length)
{
    assert_true(length < NAME_LENGTH && list->count < NAMES);
    char *to = list->names[list->count];
    memcpy(to, name, length);
    to[length] = '\0';
    list->count += has_name(list, to) ? 0 : 1;
}

/* The name behind `# expect: ` of a model. */
static void read_expected(const char *text, name_list *list)
{
    static const char mark[] = "# expect: ";
    assert_memory_equal(text, mark, sizeof mark - 1);
    const char *name = text + sizeof mark - 1;
    add_name(list, name, strcspn(name, "\r\n"));
}

static void check_model(const char *path, name_list *list)
{
    size_t length;
    char *text = text_case_load(path, &length);
    assert_non_null(text);
    name_list expected = {0};
    read_expected(text, &expected);
    read_expected(text, list);
    text_case c = {.diags = kl_diags_create()};
    c.status = text_parse(&c.sources, path, &c.memory, c.diags, &c.document);
    if (text_case_find(&c, expected.names[0]) == NULL) {
        print_error("%s does not draw %s\n", path, expected.names[0]);
        text_case_print(&c);
        fail();
    }
    const bool has_error = kl_diags_count_of(c.diags, KL_ERROR) > 0;
    assert_int_equal(c.status == KL_OK, !has_error);
    text_case_free(&c);
    free(text);
}

static void check_models(name_list *list)
{
    DIR *folder = opendir(BAD_FOLDER);
    assert_non_null(folder);
    const struct dirent *entry;
    size_t models = 0;
    while ((entry = readdir(folder)) != NULL) {
        if (strncmp(entry->d_name, "text_", 5) == 0) {
            char path[512];
            snprintf(path, sizeof path, BAD_FOLDER "/%s", entry->d_name);
            check_model(path, list);
            models++;
        }
    }
    closedir(folder);
    assert_true(models > 60);
}

static void bad_models_draw_their_message(void **state)
{
    (void)state;
    name_list list = {0};
    check_models(&list);
}

/* Drawn by texts too long for a file: test_parser.c and test_source.c. */
static const char *const made_in_tests[] = {"file-too-large", "too-many-files", "too-many-phrases",
                                            "too-many-lets",  "list-too-long",  "nesting-too-deep"};

/* A name of a diagnostic: small letters and at least one hyphen, in quotation marks. */
static size_t name_length(const char *at)
{
    size_t n = 0;
    bool hyphen = false;
    while (islower((unsigned char)at[n]) || isdigit((unsigned char)at[n]) || at[n] == '-') {
        hyphen = hyphen || at[n] == '-';
        n++;
    }
    return hyphen && at[n] == '"' ? n : 0;
}

/* Names behind `complain(` and in the list of odd characters. */
static void collect_names(const char *text, bool all, name_list *names)
{
    static const char *const calls[] = {"complain(", "complain_warn(", "refuse(", "kl_diags_add("};
    for (size_t k = 0; k < sizeof calls / sizeof calls[0]; k++) {
        for (const char *at = strstr(text, calls[k]); at != NULL; at = strstr(at + 1, calls[k])) {
            const char *quote = strchr(at, '"');
            const char *end = strchr(at, ';');
            const size_t n =
                quote != NULL && end != NULL && quote < end ? name_length(quote + 1) : 0;
            if (n > 0) {
                add_name(names, quote + 1, n);
            }
        }
    }
    for (const char *at = strchr(text, '"'); all && at != NULL; at = strchr(at + 1, '"')) {
        const size_t n = name_length(at + 1);
        if (n > 0 && at[n + 2] == ',') {
            add_name(names, at + 1, n);
        }
    }
}

static void collect_from_sources(name_list *names)
{
    DIR *folder = opendir(SOURCE_FOLDER);
    assert_non_null(folder);
    const struct dirent *entry;
    while ((entry = readdir(folder)) != NULL) {
        const size_t length = strlen(entry->d_name);
        const bool is_ours = length > 2 && strcmp(entry->d_name + length - 2, ".c") == 0 &&
                             strncmp(entry->d_name, "bind", 4) != 0;
        if (is_ours) {
            char path[512];
            size_t size;
            snprintf(path, sizeof path, SOURCE_FOLDER "/%s", entry->d_name);
            char *text = text_case_load(path, &size);
            assert_non_null(text);
            collect_names(text, strcmp(entry->d_name, "lexer_odd.c") == 0, names);
            free(text);
        }
    }
    closedir(folder);
}

static void every_message_has_a_model(void **state)
{
    (void)state;
    name_list drawn = {0};
    name_list names = {0};
    check_models(&drawn);
    for (size_t i = 0; i < sizeof made_in_tests / sizeof made_in_tests[0]; i++) {
        add_name(&drawn, made_in_tests[i], strlen(made_in_tests[i]));
    }
    collect_from_sources(&names);
    assert_true(names.count > 60);
    size_t missing = 0;
    for (size_t i = 0; i < names.count; i++) {
        if (!has_name(&drawn, names.names[i])) {
            print_error("no model in " BAD_FOLDER " draws %s\n", names.names[i]);
            missing++;
        }
    }
    assert_int_equal(missing, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_models_draw_their_message),
        cmocka_unit_test(every_message_has_a_model),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
