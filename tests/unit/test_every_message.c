/* test_every_message.c - each malformed model draws its message, and each message has a model.
 *
 * tests/cli/bad/NAME.kline begins with `# expect: MESSAGE`. Every model goes the whole way - reading, binding, the
 * model's check, the analysis - and must fail with that message, at a place of the file, and with the status that
 * belongs to it. Messages are gathered from the sources: every name with a hyphen in quotation marks, and every name
 * of one word where it is told. Those that no text can draw are listed here with the reason and the test that has them.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <ctype.h>
#include <dirent.h>

#include "bind.h"
#include "kernline/analysis.h"
#include "kernline/check.h"
#include "text_case.h"

#define BAD_FOLDER  "tests/cli/bad"
#define TEST_FOLDER "tests"

enum { NAMES = 500, NAME_LENGTH = 64, PATH_LENGTH = 512, MODELS = 280 };

/* ---- what has no model, or no place, or another status --------------------------------------------------------- */

typedef struct without_model {
    const char *name;
    const char *test; /* of TEST_FOLDER, which tells the name */
    const char *why;
} without_model;

#define READER                                                                                     \
    "the reader asks for it, or has no words for it: only callers of the library get there"
#define LONG    "a text longer than a test model"
#define WRONGED "unit/test_build_wrong.c"

static const without_model withouts[] = {
    {"bad-direction", WRONGED, READER},
    {"bad-reference", WRONGED, READER},
    {"checks-nothing", WRONGED, READER},
    {"free-nothing", WRONGED, READER},
    {"half-a-stringer", WRONGED, READER},
    {"load-frame", WRONGED, READER},
    {"load-place", WRONGED, READER},
    {"no-factor", WRONGED, READER},
    {"no-load", WRONGED, READER},
    {"no-member", WRONGED, READER},
    {"no-name", WRONGED, READER},
    {"no-ordinate", WRONGED, READER},
    {"no-points", WRONGED, READER},
    {"no-rows", WRONGED, READER},
    {"no-section", WRONGED, READER},
    {"not-finite", WRONGED, READER},
    {"not-given", WRONGED, READER},
    {"operation-items", WRONGED, READER},
    {"push-turn", WRONGED, READER},
    {"no-modulus", "unit/test_consistency.c", READER},
    {"no-ultimate", "unit/test_consistency.c", READER},
    {"no-yield", "unit/test_consistency.c", READER},
    {"support-stands", "unit/test_consistency_stages.c",
     "every `support` of a stage is one of its own"},
    {"file-too-large", "unit/test_source.c", LONG},
    {"list-too-long", "unit/test_parser.c", LONG},
    {"too-many-files", "unit/test_parser.c", LONG},
    {"too-many-lets", "unit/test_parser.c", LONG},
    {"too-many-phrases", "unit/test_parser.c", LONG},
    {"too-many-names", "unit/test_bind.c", LONG},
    {"too-many-elements", "unit/test_too_large.c", "two million elements"},
    {"results-too-large", "unit/test_too_large.c", "gigabytes of results"},
    {"audit-failed", "laws/test_audit.c", "our own mistake, not the model's"},
    {"nesting-too-deep", "unit/test_format.c",
     "the language's own blocks are not that deep; a guard of the stack"},
    {"uneven-stiffness", "unit/test_mechanism.c", "which model draws it is a matter of rounding"},
};

/* Names in quotation marks that are no messages. */
static const char *const no_messages[] = {"kip-ft", "kip-in", "lb-ft", "lb-in", "quasi-permanent"};

/* About the model as a whole. */
static const char *const placeless[] = {"no-members"};

/* Beside an error, with the place that it refers to. */
static const char *const notes[] = {"hangs-from-fresh", "in-case", "in-stage", "name-taken-here",
                                    "too-many-errors"};

static const struct {
    const char *name;
    kl_status status;
} statuses[] = {
    {"mechanism", KL_MECHANISM},
    {"no-contact", KL_NO_CONTACT},
    {"arithmetic", KL_NUMERIC},
    {"piece-too-short", KL_NUMERIC},
};

/* ---- lists of names -------------------------------------------------------------------------------------------- */

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

static bool is_among(const char *name, const char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(names[i], name) == 0) {
            return true;
        }
    }
    return false;
}

#define IS_AMONG(name, names) is_among((name), (names), sizeof(names) / sizeof(names)[0])

static bool is_warning(const char *name)
{
    size_t count;
    const kl_warning_name *warnings = kl_warning_names(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(warnings[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static char *load(const char *folder, const char *name)
{
    char path[PATH_LENGTH];
    size_t length;
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    char *text = text_case_load(path, &length);
    if (text == NULL) {
        fail_msg("cannot read %s", path);
    }
    return text;
}

static bool ends_with(const char *text, const char *end)
{
    const size_t length = strlen(text);
    return length >= strlen(end) && strcmp(text + length - strlen(end), end) == 0;
}

/* ---- one model ------------------------------------------------------------------------------------------------- */

typedef struct whole_way {
    text_case text;
    kl_model *model;
    kl_results *results;
    kl_status status;
} whole_way;

static void go(whole_way *w, const char *path)
{
    *w = (whole_way){.text = {.diags = kl_diags_create()}};
    text_case *c = &w->text;
    assert_non_null(c->diags);
    w->status = text_parse(&c->sources, path, &c->memory, c->diags, &c->document);
    if (w->status == KL_OK) {
        w->status = bind_document(&c->document, c->diags, &w->model);
    }
    if (w->status == KL_OK) {
        w->status = kl_model_check(w->model);
    }
    if (w->status == KL_OK) {
        w->status = kl_analyze(w->model, NULL, c->diags, &w->results);
    }
}

static void leave(whole_way *w)
{
    kl_results_destroy(w->results);
    kl_model_destroy(w->model);
    text_case_free(&w->text);
}

static kl_status status_of(const char *name)
{
    for (size_t i = 0; i < sizeof statuses / sizeof statuses[0]; i++) {
        if (strcmp(statuses[i].name, name) == 0) {
            return statuses[i].status;
        }
    }
    return KL_BAD_MODEL;
}

/* Everything that is told has its place in a file of the model, and can be shown there. */
static bool all_are_placed(whole_way *w)
{
    for (kl_index i = 0; i < kl_diags_count(w->text.diags); i++) {
        const kl_diag *diag = kl_diags_get(w->text.diags, i);
        const bool placed = diag->origin.file >= 0 && diag->origin.begin <= diag->origin.end;
        if (placed == IS_AMONG(diag->name, placeless) ||
            source_render(&w->text.sources, diag, &w->text.memory) == NULL) {
            print_error("%s has %s place\n", diag->name, placed ? "a" : "no");
            return false;
        }
    }
    return true;
}

/* One mistake a model: one error, but where the reader's own recovery is the matter. */
static bool draws(whole_way *w, const char *expected, bool alone)
{
    const kl_diag *diag = text_case_find(&w->text, expected);
    if (diag == NULL) {
        print_error("it is not told\n");
        return false;
    }
    if (w->status != status_of(expected) || w->results != NULL) {
        print_error("the status is: %s\n", kl_status_text(w->status));
        return false;
    }
    if (alone && (diag->severity != KL_ERROR || kl_diags_count_of(w->text.diags, KL_ERROR) != 1)) {
        print_error("it is not the only error\n");
        return false;
    }
    return all_are_placed(w);
}

/* The model's file for its message; what it draws goes to `drawn`. */
static bool try_model(const char *file, name_list *drawn)
{
    static const char mark[] = "# expect: ";
    char path[PATH_LENGTH];
    char expected[NAME_LENGTH] = "";
    char *text = load(BAD_FOLDER, file);
    assert_memory_equal(text, mark, sizeof mark - 1);
    assert_int_equal(sscanf(text + sizeof mark - 1, "%63[a-z0-9-]", expected), 1);
    free(text);
    add_name(drawn, expected, strlen(expected));
    (void)snprintf(path, sizeof path, "%s/%s", BAD_FOLDER, file);
    whole_way w;
    go(&w, path);
    const bool good = draws(&w, expected, strncmp(file, "text_", 5) != 0);
    if (!good) {
        print_error("^ %s: %s was expected. All messages:\n", file, expected);
        text_case_print(&w.text);
    }
    for (kl_index i = 0; i < kl_diags_count(w.text.diags); i++) {
        const kl_diag *diag = kl_diags_get(w.text.diags, i);
        if (diag->severity == KL_NOTE) {
            add_name(drawn, diag->name, strlen(diag->name));
        }
    }
    leave(&w);
    return good;
}

static size_t try_models(name_list *drawn)
{
    DIR *folder = opendir(BAD_FOLDER);
    assert_non_null(folder);
    const struct dirent *entry;
    size_t models = 0;
    size_t wrong = 0;
    while ((entry = readdir(folder)) != NULL) {
        if (ends_with(entry->d_name, ".kline")) {
            wrong += try_model(entry->d_name, drawn) ? 0 : 1;
            models++;
        }
    }
    (void)closedir(folder);
    assert_true(models > MODELS);
    return wrong;
}

/* ---- all messages ---------------------------------------------------------------------------------------------- */

/* Letters, digits and hyphens up to a quotation mark. @return their number; 0 for anything else. */
static size_t name_length(const char *at, bool *hyphen)
{
    size_t n = 0;
    *hyphen = false;
    while (islower((unsigned char)at[n]) ||
           (n > 0 && (isdigit((unsigned char)at[n]) || at[n] == '-'))) {
        *hyphen = *hyphen || at[n] == '-';
        n++;
    }
    return at[n] == '"' ? n : 0;
}

/* Is this the name of a call that tells an error? Between the two there are only the call's first arguments. */
static bool is_told(const char *text, const char *quote)
{
    static const char *const before[] = {"KL_ERROR,", "build_error(item,", "build_error(&item,",
                                         "bind_error(b,"};
    const char *end = quote;
    while (end > text && isspace((unsigned char)end[-1])) {
        end--;
    }
    for (size_t i = 0; i < sizeof before / sizeof before[0]; i++) {
        const size_t n = strlen(before[i]);
        if ((size_t)(end - text) >= n && memcmp(end - n, before[i], n) == 0) {
            return true;
        }
    }
    return false;
}

static void gather_from_text(const char *text, name_list *names)
{
    for (const char *at = strchr(text, '"'); at != NULL; at = strchr(at + 1, '"')) {
        bool hyphen;
        const size_t n = name_length(at + 1, &hyphen);
        if (n > 0 && (hyphen || is_told(text, at))) {
            add_name(names, at + 1, n);
        }
    }
}

static void gather_from_folder(const char *path, name_list *names)
{
    DIR *folder = opendir(path);
    assert_non_null(folder);
    const struct dirent *entry;
    while ((entry = readdir(folder)) != NULL) {
        if (ends_with(entry->d_name, ".c")) {
            char *text = load(path, entry->d_name);
            gather_from_text(text, names);
            free(text);
        }
    }
    (void)closedir(folder);
}

static void gather_from_solver(name_list *names)
{
    DIR *folder = opendir("solver");
    assert_non_null(folder);
    const struct dirent *entry;
    while ((entry = readdir(folder)) != NULL) {
        char path[PATH_LENGTH];
        (void)snprintf(path, sizeof path, "solver/%s", entry->d_name);
        if (strchr(entry->d_name, '.') == NULL) { /* a layer's folder */
            gather_from_folder(path, names);
        }
    }
    (void)closedir(folder);
}

static const without_model *find_without(const char *name)
{
    for (size_t i = 0; i < sizeof withouts / sizeof withouts[0]; i++) {
        if (strcmp(withouts[i].name, name) == 0) {
            return &withouts[i];
        }
    }
    return NULL;
}

/* ---- the tests ------------------------------------------------------------------------------------------------- */

typedef struct told {
    name_list drawn; /* by the models */
    name_list names; /* in the sources */
    size_t wrong;    /* models that do not draw theirs */
} told;

static int tell_all(void **state)
{
    told *t = calloc(1, sizeof *t);
    if (t == NULL) {
        return -1;
    }
    t->wrong = try_models(&t->drawn);
    gather_from_folder("frontends/text", &t->names);
    gather_from_solver(&t->names);
    *state = t;
    return 0;
}

static int forget_all(void **state)
{
    free(*state);
    return 0;
}

static void bad_models_draw_their_message(void **state)
{
    const told *t = *state;
    assert_int_equal(t->wrong, 0);
}

static void every_message_has_a_model(void **state)
{
    const told *t = *state;
    assert_true(t->names.count > 250);
    size_t missing = 0;
    for (size_t i = 0; i < t->names.count; i++) {
        const char *name = t->names.names[i];
        const bool other = is_warning(name) || IS_AMONG(name, no_messages);
        if (!other && !has_name(&t->drawn, name) && find_without(name) == NULL) {
            print_error("no model in " BAD_FOLDER " draws %s\n", name);
            missing++;
        }
    }
    assert_int_equal(missing, 0);
}

static bool is_quoted_in(const char *test, const char *name)
{
    char quoted[NAME_LENGTH + 2];
    char *text = load(TEST_FOLDER, test);
    (void)snprintf(quoted, sizeof quoted, "\"%s\"", name);
    const bool found = strstr(text, quoted) != NULL;
    free(text);
    return found;
}

/* The lists above stay true: what is listed is told somewhere, has no model, and its test names it. */
static void messages_without_a_model_are_tested_where_it_is_said(void **state)
{
    const told *t = *state;
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof withouts / sizeof withouts[0]; i++) {
        const without_model *w = &withouts[i];
        const bool tested = is_quoted_in(w->test, w->name);
        if (!has_name(&t->names, w->name) || has_name(&t->drawn, w->name) || !tested) {
            print_error("%s (%s): it is not told, has a model, or is not in %s\n", w->name, w->why,
                        w->test);
            wrong++;
        }
    }
    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++) {
        assert_true(has_name(&t->drawn, notes[i]));
    }
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_models_draw_their_message),
        cmocka_unit_test(every_message_has_a_model),
        cmocka_unit_test(messages_without_a_model_are_tested_where_it_is_said),
    };
    return cmocka_run_group_tests(tests, tell_all, forget_all);
}
