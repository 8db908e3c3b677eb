/* cmd_table.c - `kernline table`: one table of results, in print, as CSV or as JSON.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <math.h>
#include <string.h>

#include "choose.h"
#include "csv.h"
#include "json.h"
#include "nearest.h"
#include "table_text.h"
#include "tables.h"
#include "work.h"

#define TABLE_MOMENTS                                                                              \
    8 /* in each decade of days since the last stage: a curve through them looks smooth */

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
    if (near.best != NULL) {
        work_complain("there is no table `%s`; did you mean `%s`?", name, near.best);
    } else {
        work_complain("there is no table `%s`; `kernline table --help` lists them", name);
    }
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
            work_complain("`%s` does not apply to `%s`, which is not split by cause",
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
table_print(work *w, const table_recipe *recipe, const selection_wish *wish, const options *o)
{
    selection s;
    const kl_status made = selection_make(w->results, wish, recipe->span, &s);
    if (made == KL_NOT_THERE) {
        work_complain("the case `%s` is loaded by a stage and has no state of its own: ask for the "
                      "stage, or for "
                      "`--cause %s`",
                      o->values[OPTION_CASE], o->values[OPTION_CASE]);
    }
    KL_TRY(made);
    s.report = w->report;
    table t;
    kl_status status = table_build(&t, recipe, w->results, &s);
    if (status == KL_OK) {
        status = command_write_table(&t, o);
    }
    table_free(&t);
    selection_free(&s);
    return status;
}

/* The summary tells the warnings; a table, made again and again, only says that there are some. */
static void table_count_warnings(const work *w)
{
    const kl_index count = kl_diags_count_of(w->diags, KL_WARNING);
    if (count > 0) {
        work_complain("%d warning%s: `kernline run` tells %s", (int)count, count > 1 ? "s" : "",
                      count > 1 ? "them" : "it");
    }
}

/* A table of what time does needs moments between the stages, a day asked for that moment. `wish` is borrowed. */
static kl_settings table_settings(const table_recipe *recipe, const selection_wish *wish)
{
    kl_settings settings = kl_settings_default();
    settings.moments_per_decade = recipe->span == SELECTION_HISTORY ? TABLE_MOMENTS : 0;
    settings.moments = &wish->day;
    settings.moment_count = isnan(wish->day) ? 0 : 1;
    return settings;
}

/* Read, choose, solve, print; errors are told on the way. */
static exit_status table_solve(work *w, const table_recipe *recipe, const options *o)
{
    selection_wish wish;
    kl_status status = work_read(w, o->operands[0]);
    if (status == KL_OK && !choose_wish(o, w->model, &wish)) {
        return EXIT_WRONG_USE;
    }
    if (status == KL_OK) {
        const kl_settings settings = table_settings(recipe, &wish);
        status = work_solve(w, &settings);
    }
    const exit_status told = work_tell(w, status, status != KL_OK);
    if (status != KL_OK) {
        return told;
    }
    table_count_warnings(w);
    status = table_print(w, recipe, &wish, o);
    if (status != KL_OK && status != KL_NOT_THERE &&
        status != KL_FILE_TROUBLE) { /* main tells the last */
        work_complain("%s: %s", w->path, kl_status_text(status));
    }
    if (status != KL_OK) {
        return exit_status_of(status);
    }
    return kl_failed_count(w->report) > 0 ? EXIT_CHECK_FAILS : EXIT_ALL_WELL;
}

exit_status cmd_table(const options *o)
{
    const table_recipe *recipe = table_find(o->operands[1]);
    if (recipe == NULL || !table_takes_options(recipe, o)) {
        return EXIT_WRONG_USE;
    }
    work w = {0};
    const exit_status result = table_solve(&w, recipe, o);
    work_close(&w);
    return result;
}
