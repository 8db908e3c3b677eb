/* help.c - help texts from the tables of options.c and of the output layer.
 * SPDX-License-Identifier: MIT */
#include "options.h"

#include <string.h>

#include "diagrams.h"
#include "kernline/version.h"
#include "table_text.h"
#include "tables.h"

#define HELP_WIDTH  80
#define HELP_COLUMN 28 /* where explanations begin */

/* "  --stage STAGE           the end of this stage" */
static void help_line(FILE *out, const char *name, const char *argument, const char *text)
{
    char lead[128];
    snprintf(lead, sizeof lead, "  %s%s%s", name, argument != NULL ? " " : "",
             argument != NULL ? argument : "");
    char padded[160];
    snprintf(padded, sizeof padded, "%-*s", HELP_COLUMN, lead);
    text_write_wrapped(out, padded, HELP_COLUMN, HELP_WIDTH, text);
}

static bool help_takes(const option_row *row, command_id command)
{
    return command == COMMAND_NONE ? row->id == OPTION_HELP || row->id == OPTION_VERSION
                                   : (row->commands & (1U << command)) != 0;
}

static void help_options(command_id command, FILE *out)
{
    const char *group = "";
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        const option_row *row = options_row(i);
        if (!help_takes(row, command)) {
            continue;
        }
        if (strcmp(group, row->group) != 0) {
            group = row->group;
            fprintf(out, "\n%s:\n", group);
        }
        help_line(out, row->name, row->argument, row->help);
    }
}

static void help_tables(FILE *out)
{
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    fputs("\nWHAT is one of:\n", out);
    for (kl_index i = 0; i < count; ++i) {
        help_line(out, recipes[i].name, NULL, recipes[i].help);
    }
}

static void help_pictures(FILE *out)
{
    kl_index count = 0;
    const diagram_recipe *recipes = diagram_recipes(&count);
    fputs("\nWHAT is one of:\n", out);
    for (kl_index i = 0; i < count; ++i) {
        help_line(out, recipes[i].name, NULL, recipes[i].help);
    }
}

static void help_program(FILE *out)
{
    fprintf(out,
            "kernline %s analyses plane frames of post-tensioned concrete, stage by stage.\n\n"
            "Usage: kernline COMMAND [OPTIONS] …\n\nCommands:\n",
            KL_VERSION_TEXT);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        const command_row *row = options_command((command_id)i);
        help_line(out, row->name, row->operands, row->help);
    }
    help_options(COMMAND_NONE, out);
    fputs("\nMODEL is a file, or - for standard input. Results go to standard output, messages to\n"
          "standard error. `kernline COMMAND --help` tells a command's options.\n"
          "\nExit status:\n",
          out);
    help_line(out, "0", NULL, "all well");
    help_line(out, "1", NULL, "a check or an expectation of the model fails");
    help_line(out, "2", NULL, "wrong use");
    help_line(out, "3", NULL, "errors in the model");
    help_line(out, "4", NULL,
              "it cannot be analysed: it can move, or no set of contacts carries it");
    help_line(out, "5", NULL, "trouble with a file, memory or the output");
}

void options_write_help(command_id command, FILE *out)
{
    const command_row *row = options_command(command);
    if (row == NULL) {
        help_program(out);
        return;
    }
    fprintf(out, "Usage: kernline %s [OPTIONS] %s\n\n", row->name, row->operands);
    text_write_wrapped(out, "", 0, HELP_WIDTH, row->about);
    if (command == COMMAND_TABLE) {
        help_tables(out);
    }
    if (command == COMMAND_PLOT) {
        help_pictures(out);
    }
    help_options(command, out);
}
