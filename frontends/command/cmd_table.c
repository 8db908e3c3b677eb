/* cmd_table.c - `kernline table`: one table of results, in print, as CSV or as JSON.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <string.h>

#include "asked.h"
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

/* Does every option apply to the table? Otherwise what was asked would silently not be shown. */
static bool table_takes_options(const table_recipe *recipe, const options *o)
{
    static const option_id moments[] = {OPTION_STAGE, OPTION_STEPS, OPTION_CASE, OPTION_COMBINATION,
                                        OPTION_DAY};
    static const option_id causes[] = {OPTION_CAUSE, OPTION_BY_CAUSE};
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; ++i) {
        if (o->given[moments[i]] && recipe->span == SELECTION_NONE) {
            work_complain("`%s` does not apply to `%s`, which is not of one moment",
                          options_row(moments[i])->name, recipe->name);
            return false;
        }
    }
    if (o->given[OPTION_AT] && !recipe->has_stations) {
        work_complain("`--at` does not apply to `%s`, which does not go along members",
                      recipe->name);
        return false;
    }
    if (o->given[OPTION_DAY] && recipe->span == SELECTION_HISTORY) {
        work_complain("`--day` does not apply to `%s`, which shows all days", recipe->name);
        return false;
    }
    const bool has_case = o->given[OPTION_CASE];
    if ((has_case || o->given[OPTION_COMBINATION]) && recipe->span == SELECTION_HISTORY) {
        work_complain("`%s` does not apply to `%s`, which follows the stages",
                      options_row(has_case ? OPTION_CASE : OPTION_COMBINATION)->name, recipe->name);
        return false;
    }
    for (size_t i = 0; i < sizeof causes / sizeof causes[0]; ++i) {
        if (o->given[causes[i]] && !recipe->has_causes) {
            work_complain("`%s` does not apply to `%s`, which always takes all causes",
                          options_row(causes[i])->name, recipe->name);
            return false;
        }
    }
    return true;
}

kl_status command_write_table(const table *t, const options *o)
{
    if (o->given[OPTION_CSV]) {
        return csv_write(t, stdout);
    }
    return o->given[OPTION_JSON] ? json_write_table(t, stdout) : table_write_text(t, stdout);
}

static kl_status
table_print(work *w, const table_recipe *recipe, const selection *s, const options *o)
{
    table t;
    kl_status status = table_build(&t, recipe, w->results, s);
    if (status == KL_OK) {
        status = command_write_table(&t, o);
    }
    table_free(&t);
    return status;
}

exit_status cmd_table(const options *o)
{
    const table_recipe *recipe = table_find(o->operands[1]);
    if (recipe == NULL || !table_takes_options(recipe, o)) {
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
