/* test_summary.c - the summary and every table on solved models: complete, readable by programs, told when memory
 * or disk is short; figures against statics worked out here.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "csv.h"
#include "fault.h"
#include "json.h"
#include "sample_model.h"
#include "sample_table.h"
#include "summary.h"
#include "tables.h"

static const summary_message warnings[] = {
    {"a-warning", "sample:1:1", "Something is unusual.", NULL}};

static summary_input input_of(sample_model *s)
{
    return (summary_input){"sample", s->results, s->report, warnings, 1};
}

static char *written(const summary_input *input,
                     kl_status (*write)(const summary_input *, FILE *),
                     kl_status *status)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    *status = write(input, out);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void summary_write_staged_model_has_every_part(void **state)
{
    static const char *const parts[] = {"Sample cap\n",
                                        "Checks",
                                        "Expectations  1 of 1 MISSED",
                                        "[a-warning]",
                                        "The construction",
                                        "Members",
                                        "Tendons as stressed",
                                        "secondary actions",
                                        "Falsework bents",
                                        "FAILS",
                                        "Camber",
                                        "engineer of record",
                                        "Never stand"};
    sample_model *models = *state;
    const summary_input input = input_of(&models[0]);
    kl_status status = KL_OK;
    char *text = written(&input, summary_write, &status);
    assert_int_equal(status, KL_OK);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; ++i) {
        if (strstr(text, parts[i]) == NULL) {
            fail_msg("the summary lacks \"%s\"", parts[i]);
        }
    }
    assert_null(strstr(text, " \n")); /* no line ends in a blank */
    assert_null(strstr(text, "-0 "));
    assert_null(strstr(text, "nan"));
    free(text);
}

static void summary_write_portal_fits_a_screen(void **state)
{
    sample_model *models = *state;
    summary_input input = input_of(&models[1]);
    input.warning_count = 0;
    kl_status status = KL_OK;
    char *text = written(&input, summary_write, &status);
    assert_int_equal(status, KL_OK);
    int lines = 0;
    for (const char *c = text; *c != '\0'; ++c) {
        lines += *c == '\n';
    }
    assert_true(lines < 60); /* two cases and a combination */
    free(text);
}

static void summary_write_short_memory_is_told(void **state)
{
    sample_model *models = *state;
    for (int m = 0; m < 2; ++m) {
        const summary_input input = input_of(&models[m]);
        FILE *out = fopen("/dev/null", "w");
        assert_non_null(out);
        kl_status status = KL_NO_MEMORY;
        for (long k = 0; status != KL_OK; ++k) {
            assert_true(k < 5000);
            fault_after(k);
            status = summary_write(&input, out);
            const int struck = fault_struck();
            fault_after(-1);
            assert_int_equal(status, struck != 0 ? KL_NO_MEMORY : KL_OK);
        }
        fclose(out);
    }
}

static void summary_write_json_tables_agree_with_the_schema(void **state)
{
    sample_model *models = *state;
    for (int m = 0; m < 2; ++m) {
        const summary_input input = input_of(&models[m]);
        kl_status status = KL_OK;
        char *text = written(&input, summary_write_json, &status);
        assert_int_equal(status, KL_OK);
        json_t *document = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
        free(text);
        assert_non_null(document);
        const json_t *tables = json_object_get(document, "tables");
        static const char *const always[] = {"model", "verdict", "warnings", "audit"};
        for (size_t i = 0; i < sizeof always / sizeof always[0]; ++i) {
            assert_non_null(json_object_get(tables, always[i]));
        }
        static const char *const own[2] = {"courses", "members"};
        assert_non_null(json_object_get(tables, own[m]));
        assert_null(json_object_get(tables, own[1 - m]));
        json_decref(document);
    }
}

/* Fields of the first line of CSV, and of every other: the quoted ones may hold commas. */
static int count_fields(const char **at)
{
    int fields = 1;
    bool quoted = false;
    for (; **at != '\0' && (quoted || **at != '\n'); ++*at) {
        quoted = quoted != (**at == '"');
        fields += !quoted && **at == ',';
    }
    *at += **at == '\n';
    return fields;
}

static void build(table *t, sample_model *s, const char *name, bool by_cause)
{
    const table_recipe *recipe = table_recipe_find(name);
    assert_non_null(recipe);
    selection_wish wish = selection_wish_none();
    wish.by_cause = by_cause;
    selection chosen;
    assert_int_equal(selection_make(s->results, &wish, recipe->span, &chosen), KL_OK);
    chosen.report = s->report;
    assert_int_equal(table_build(t, recipe, s->results, &chosen), KL_OK);
    selection_free(&chosen);
}

static void table_build_each_table_is_complete(void **state)
{
    sample_model *models = *state;
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < 4 * count; ++i) {
        table t;
        build(&t, &models[i % 2], recipes[i / 4].name, i % 4 >= 2 && recipes[i / 4].has_causes);
        assert_int_equal(t.cell_count % (size_t)t.column_count, 0);
        char *text = sample_table_written(&t, csv_write);
        assert_non_null(text);
        const char *at = text;
        while (*at != '\0') {
            assert_int_equal(count_fields(&at), t.column_count);
        }
        free(text);
        text = sample_table_written(&t, json_write_table);
        assert_non_null(text);
        json_t *document = json_loads(text, JSON_REJECT_DUPLICATES, NULL); /* keys are unique */
        assert_non_null(document);
        assert_int_equal(json_array_size(json_object_get(document, "rows")), table_row_count(&t));
        json_decref(document);
        free(text);
        table_free(&t);
    }
}

static void table_build_each_table_short_memory_is_told(void **state)
{
    sample_model *models = *state;
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        const selection_wish wish = selection_wish_none();
        selection chosen;
        assert_int_equal(selection_make(models[0].results, &wish, recipes[i].span, &chosen), KL_OK);
        chosen.report = models[0].report;
        kl_status status = KL_NO_MEMORY;
        for (long k = 0; status != KL_OK;
             k = k + 1 + k / 16) { /* ever wider steps: tables have thousands */
            assert_true(k < 1000000);
            table t;
            fault_after(k);
            status = table_build(&t, &recipes[i], models[0].results, &chosen);
            const int struck = fault_struck();
            fault_after(-1);
            assert_int_equal(status, struck != 0 ? KL_NO_MEMORY : KL_OK);
            table_free(&t);
        }
        selection_free(&chosen);
    }
}

static double cell_of(const table *t, const char *key, kl_index row)
{
    for (kl_index column = 0; column < t->column_count; ++column) {
        if (strcmp(t->columns[column].key, key) == 0) {
            return table_shown(t, row, column);
        }
    }
    fail_msg("no column %s", key);
    return NAN;
}

/* Statics of the portal: 10 kN/m on 6 m is 60 kN, under `both` 72 kN; the push comes back as -12 kN and -18 kN. */
static void table_build_reactions_add_up_to_the_loads(void **state)
{
    static const double vertical[] = {60.0, 0.0, 72.0};
    static const double horizontal[] = {0.0, -12.0, -18.0};
    sample_model *models = *state;
    table t;
    build(&t, &models[1], "reactions", false);
    assert_int_equal(table_row_count(&t), 6); /* two supports, three states */
    for (kl_index i = 0; i < 3; ++i) {
        assert_close(cell_of(&t, "y", 2 * i) + cell_of(&t, "y", 2 * i + 1), vertical[i], 1e-10,
                     1e-9);
        assert_close(cell_of(&t, "x", 2 * i) + cell_of(&t, "x", 2 * i + 1), horizontal[i], 1e-10,
                     1e-9);
    }
    table_free(&t);
}

/* Total, primary and concrete: total less the tendons is the concrete's. At the ends of the cap nothing but the
 * anchors acts, so that the total vanishes and the concrete has the primary action. */
static void table_build_ends_parts_add_up(void **state)
{
    sample_model *models = *state;
    table t;
    build(&t, &models[0], "ends", false);
    assert_true(table_row_count(&t) >= 6);
    static const char *const keys[3][3] = {{"moment_total", "moment_primary", "moment_concrete"},
                                           {"shear_total", "shear_primary", "shear_concrete"},
                                           {"axial_total", "axial_primary", "axial_concrete"}};
    for (kl_index row = 0; row < 2; ++row) { /* the cap comes first */
        for (int k = 0; k < 3; ++k) {
            const double primary = cell_of(&t, keys[k][1], row);
            assert_close(cell_of(&t, keys[k][0], row), 0.0, 0.0, 1e-6);
            assert_true(fabs(primary) > 10.0);
            assert_close(cell_of(&t, keys[k][2], row), primary, 1e-9, 1e-6);
        }
    }
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(summary_write_staged_model_has_every_part),
        cmocka_unit_test(summary_write_portal_fits_a_screen),
        cmocka_unit_test(summary_write_short_memory_is_told),
        cmocka_unit_test(summary_write_json_tables_agree_with_the_schema),
        cmocka_unit_test(table_build_each_table_is_complete),
        cmocka_unit_test(table_build_each_table_short_memory_is_told),
        cmocka_unit_test(table_build_reactions_add_up_to_the_loads),
        cmocka_unit_test(table_build_ends_parts_add_up),
    };
    return cmocka_run_group_tests(tests, sample_models_solve, sample_models_free);
}
