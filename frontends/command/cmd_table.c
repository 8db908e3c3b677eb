/* cmd_table.c - `kernline table`: one table of results, in print, as CSV or as JSON.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <string.h>

#include "asked.h"
#include "choose.h"
#include "csv.h"
#include "json.h"
#include "table_text.h"
#include "tables.h"

static const table_recipe *table_find(const char *name)
{
    const table_recipe *recipe = table_recipe_find(name);
    if (recipe != NULL) {
        return recipe;
    }
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    nearest near = nearest_start(name, strlen(name));
    for (kl_index i = 0; i < count; ++i) {
        nearest_try(&near, recipes[i].name);
    }
    asked_unknown("table", "table", &near);
    return NULL;
}

kl_status command_write_table(const table *t, const options *o)
{
    if (o->given[OPTION_CSV]) {
        return csv_write(t, stdout);
    }
    return o->given[OPTION_JSON] ? json_write_table(t, stdout) : table_write_text(t, stdout);
}

/* A case or a combination that the table has nothing of; told. */
static bool table_lacks(const table *t, const table_recipe *recipe, const options *o)
{
    static const option_id states[] = {OPTION_CASE, OPTION_COMBINATION};
    for (size_t i = 0; i < sizeof states / sizeof states[0]; ++i) {
        if (o->given[states[i]] && table_row_count(t) == 0) {
            work_complain("`%s` does not apply to `%s`, which has nothing to list under `%s`",
                          options_row(states[i])->name, recipe->name, o->values[states[i]]);
            return true;
        }
    }
    return false;
}

static kl_status
table_print(work *w, const table_recipe *recipe, const selection *s, const options *o)
{
    table t;
    kl_status status = table_build(&t, recipe, w->results, s);
    if (status == KL_OK && table_lacks(&t, recipe, o)) {
        status = KL_NOT_THERE;
    }
    if (status == KL_OK) {
        status = command_write_table(&t, o);
    }
    table_free(&t);
    if (status == KL_TOO_LARGE && o->given[OPTION_EVERY]) {
        choose_refuse(o, OPTION_EVERY,
                      "that makes more rows than a table holds; a larger length "
                      "is expected, or one `--member`");
        return KL_NOT_THERE;
    }
    return status;
}

exit_status cmd_table(const options *o)
{
    const table_recipe *recipe = table_find(o->operands[1]);
    if (recipe == NULL) {
        return EXIT_WRONG_USE;
    }
    const asked_thing thing = {.name = recipe->name,
                               .span = recipe->span,
                               .has_causes = recipe->has_causes,
                               .has_stations = recipe->has_stations};
    if (!asked_applies(o, &thing)) {
        return EXIT_WRONG_USE;
    }
    work w = {0};
    selection s;
    exit_status result;
    if (asked_open(&w, o, recipe->span, &s, &result)) {
        result =
            asked_close(&w, table_print(&w, recipe, &s, o)); /* main tells of standard output */
        selection_free(&s);
    }
    work_close(&w);
    return result;
}
