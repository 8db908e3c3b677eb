/* cmd_sensitivity.c - `kernline sensitivity`: how far checks, elongations and camber move with what nobody knows well.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <string.h>

#include "asked.h"
#include "sensitivity.h"

/* Without a name all in print; for programs, who read one table, the first. */
static bool sensitivity_is_asked(const options *o, int i)
{
    if (o->operand_count > 1) {
        return strcmp(o->operands[1], sensitivity_tables[i].name) == 0;
    }
    return i == 0 || !(o->given[OPTION_CSV] || o->given[OPTION_JSON]);
}

static bool sensitivity_is_known(const options *o)
{
    bool known = o->operand_count < 2;
    nearest near = nearest_start(o->operands[1], known ? 0 : strlen(o->operands[1]));
    for (int i = 0; i < SENSITIVITY_TABLES && !known; ++i) {
        known = sensitivity_is_asked(o, i);
        nearest_try(&near, sensitivity_tables[i].name);
    }
    if (!known) {
        asked_unknown("table of sensitivity", "sensitivity", &near);
    }
    return known;
}

/* A table that was not asked for by name and has nothing to say is left out, but for the first. */
static kl_status sensitivity_write(const work *w, const sensitivity *s, int i, const options *o)
{
    table t;
    table_start(&t, "sensitivity", &w->model->display);
    sensitivity_tables[i].build(&t, s);
    kl_status status = t.status;
    if (status == KL_OK && (i == 0 || o->operand_count > 1 || table_row_count(&t) > 0)) {
        if (i > 0 && o->operand_count < 2) {
            putchar('\n');
        }
        status = command_write_table(&t, o);
    }
    table_free(&t);
    return status;
}

static kl_status sensitivity_print(const work *w, const options *o)
{
    sensitivity s;
    kl_status status = sensitivity_make(&s, w->results, w->report);
    for (int i = 0; i < SENSITIVITY_TABLES && status == KL_OK; ++i) {
        if (sensitivity_is_asked(o, i)) {
            status = sensitivity_write(w, &s, i, o);
        }
    }
    sensitivity_free(&s);
    return status;
}

exit_status cmd_sensitivity(const options *o)
{
    if (!sensitivity_is_known(o)) {
        return EXIT_WRONG_USE;
    }
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    exit_status result = work_tell(&w, status, status != KL_OK);
    if (status == KL_OK) {
        result = asked_close(&w, sensitivity_print(&w, o)); /* main tells of standard output */
    }
    work_close(&w);
    return result;
}
