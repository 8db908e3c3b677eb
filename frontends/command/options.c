/* options.c - the tables of commands and options, and how arguments are read by them.
 * SPDX-License-Identifier: MIT */
#include "options.h"

#include <string.h>

#include "nearest.h"

#define IN_RUN         (1U << COMMAND_RUN)
#define IN_TABLE       (1U << COMMAND_TABLE)
#define IN_PLOT        (1U << COMMAND_PLOT)
#define IN_REPORT      (1U << COMMAND_REPORT)
#define IN_SENSITIVITY (1U << COMMAND_SENSITIVITY)
#define IN_VALIDATE    (1U << COMMAND_VALIDATE)
#define IN_WORDS       (1U << COMMAND_WORDS)
#define IN_FORMAT      (1U << COMMAND_FORMAT)
#define IN_ALL                                                                                     \
    (IN_RUN | IN_TABLE | IN_PLOT | IN_REPORT | IN_SENSITIVITY | IN_VALIDATE | IN_WORDS | IN_FORMAT)

static const char GROUP_WHEN[] = "Which moment";
static const char GROUP_WHERE[] = "Which place";
static const char GROUP_FORM[] = "Which form";
static const char GROUP_GENERAL[] = "In general";

/* ORDER command_id */
static const command_row option_commands[COMMAND_COUNT] = {
    {"run", "MODEL", 1, 1, "analyse a model and print the summary",
     "Reads, checks and analyses the model, holds its checks and expectations against the results "
     "and prints "
     "the summary: what the model is, warnings, the balance of every step, the extremes of each "
     "member, tendons, "
     "posts, checks, camber, expectations."},
    {"table", "MODEL WHAT", 2, 2, "print one table of results in full",
     "Without a choice of moment a table shows the end of the last stage (models with stages) or "
     "every load case; "
     "the tables of steps, posts and the audit show every step, that of losses the end of each "
     "stage."},
    {"plot", "MODEL WHAT -o FILE", 2, 2, "draw one picture of the model or its results",
     "Writes SVG, PNG or PDF, by the name of the file. Without a choice of moment a picture shows "
     "the end of the last "
     "stage (models with stages) or every load case."},
    {"report", "MODEL -o FILE", 1, 1, "make the calculation package of a model",
     "Analyses the model and writes all its numbers and pictures, sheet by sheet, its failing "
     "checks "
     "first: as one page that needs no network, as a PDF of numbered pages, or as a folder with "
     "the page and its tables as CSV."},
    {"sensitivity", "MODEL [WHAT]", 1, 2, "how far checks, elongations and camber may move",
     "Analyses the model as it is and with less and with more of what nobody knows well, one at a "
     "time: 0.7 and 1.3 of creep and of shrinkage, 0.75 and 1.25 of friction, 0.5 and 2 of wobble, "
     "0.8 and 1.2 of the concrete's modulus, 0.95 and 1.05 of the tendons'. WHAT is `checks` "
     "(their "
     "ratios), `elongations` (at each jack) or `camber` (where it is largest); without it all are "
     "printed, and CSV and JSON hold the checks."},
    {"validate", "MODEL", 1, 1, "read and check a model without solving it",
     "Says nothing but warnings and errors: a model without either prints one line."},
    {"words", "[WORD]", 0, 1, "the words of the model language, or one of them",
     "Without a WORD lists every word by the block it lives in; with one tells its values, units, "
     "default, usual "
     "range and an example."},
    {"format", "MODEL", 1, 1, "write a model in its canonical layout",
     "Prints the model with its phrases indented and aligned; numbers, units, comments and order "
     "stay as they are."},
};

static const option_row option_rows[OPTION_COUNT] = {
    {OPTION_STAGE, IN_TABLE | IN_PLOT, "--stage", "STAGE", GROUP_WHEN, "the end of this stage"},
    {OPTION_STEPS, IN_TABLE | IN_PLOT, "--steps", NULL, GROUP_WHEN,
     "every step: of the stage, or of all stages"},
    {OPTION_CASE, IN_TABLE | IN_PLOT, "--case", "CASE", GROUP_WHEN, "under this load case"},
    {OPTION_COMBINATION, IN_TABLE | IN_PLOT, "--combination", "NAME", GROUP_WHEN,
     "under this combination"},
    {OPTION_DAY, IN_TABLE, "--day", "DAY", GROUP_WHEN, "this day, also between stages: 365"},
    {OPTION_CAUSE, IN_TABLE | IN_PLOT, "--cause", "CAUSE", GROUP_WHEN,
     "only the share of weight, prestress, a load case …"},
    {OPTION_BY_CAUSE, IN_TABLE | IN_PLOT, "--by-cause", NULL, GROUP_WHEN,
     "the share of each cause, one after the other"},
    {OPTION_MEMBER, IN_TABLE | IN_PLOT, "--member", "MEMBER", GROUP_WHERE, "only this member"},
    {OPTION_TENDON, IN_PLOT, "--tendon", "TENDON", GROUP_WHERE, "only this tendon"},
    {OPTION_EVERY, IN_TABLE, "--every", "LENGTH", GROUP_WHERE,
     "stations no further apart than this: '2 ft', '500 mm'"},
    {OPTION_AT, IN_TABLE | IN_PLOT, "--at", "LENGTH", GROUP_WHERE,
     "only this station of members: '12 ft 6 in'"},
    {OPTION_CSV, IN_TABLE | IN_SENSITIVITY, "--csv", NULL, GROUP_FORM,
     "comma-separated values, in full precision"},
    {OPTION_JSON, IN_TABLE | IN_SENSITIVITY | IN_RUN, "--json", NULL, GROUP_FORM,
     "JSON, with units stated"},
    {OPTION_WRITE, IN_FORMAT, "--write", NULL, GROUP_FORM, "replace the file instead of printing"},
    {OPTION_OUTPUT, IN_PLOT | IN_REPORT, "-o", "FILE", GROUP_FORM,
     "where it goes: FILE.svg, .png or .pdf; of a report FILE.html, FILE.pdf or a folder"},
    {OPTION_PAPER, IN_REPORT, "--paper", "SIZE", GROUP_FORM,
     "of a PDF: letter (with US units) or a4 (with metric ones)"},
    {OPTION_HELP, IN_ALL, "--help", NULL, GROUP_GENERAL,
     "this help; after a command, the command's"},
    {OPTION_VERSION, IN_ALL, "--version", NULL, GROUP_GENERAL, "the program's version"},
};

const command_row *options_command(command_id command)
{
    return command < COMMAND_COUNT ? &option_commands[command] : NULL;
}

const option_row *options_row(size_t i)
{
    return &option_rows[i];
}

/* ---- finding --------------------------------------------------------------------------------------------- */

static command_id option_find_command(const char *name)
{
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        if (strcmp(option_commands[i].name, name) == 0) {
            return (command_id)i;
        }
    }
    return COMMAND_NONE;
}

/* `length` bytes of `text` are the option's name. */
static const option_row *option_find(const char *text, size_t length)
{
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        if (strlen(option_rows[i].name) == length &&
            memcmp(option_rows[i].name, text, length) == 0) {
            return &option_rows[i];
        }
    }
    return NULL;
}

static bool option_belongs(const option_row *row, command_id command)
{
    return command == COMMAND_NONE ? row->id == OPTION_HELP || row->id == OPTION_VERSION
                                   : (row->commands & (1U << command)) != 0;
}

/* ---- reading --------------------------------------------------------------------------------------------- */

static bool option_unknown(const char *text, int length, command_id command, char *message)
{
    nearest near = nearest_start(text, (size_t)length);
    for (size_t i = 0; i < OPTION_COUNT; ++i) {
        if (option_belongs(&option_rows[i], command)) {
            nearest_try(&near, option_rows[i].name);
        }
    }
    snprintf(message, OPTIONS_MESSAGE, "unknown option `%.*s`%s%s%s", length > 60 ? 60 : length,
             text, near.best != NULL ? "; did you mean `" : "", near.best != NULL ? near.best : "",
             near.best != NULL ? "`?" : "");
    return false;
}

/* The value after `=`, or the next argument, which is then used up. */
static bool option_take_value(const option_row *row,
                              const char *equals,
                              int count,
                              char *const *arguments,
                              int *at,
                              options *out,
                              char *message)
{
    if (row->argument == NULL) {
        if (equals != NULL) {
            snprintf(message, OPTIONS_MESSAGE, "`%s=%.60s`: `%s` takes no value", row->name,
                     equals + 1, row->name);
        }
        return equals == NULL;
    }
    if (equals == NULL && *at + 1 >= count) {
        snprintf(message, OPTIONS_MESSAGE, "`%s` needs a value: %s %s", row->name, row->name,
                 row->argument);
        return false;
    }
    out->values[row->id] = equals != NULL ? equals + 1 : arguments[++*at];
    return true;
}

static bool option_read_one(int count, char *const *arguments, int *at, options *out, char *message)
{
    const char *text = arguments[*at];
    const char *equals = strchr(text, '=');
    const size_t length = equals != NULL ? (size_t)(equals - text) : strlen(text);
    const option_row *row = option_find(text, length);
    if (row == NULL) {
        return option_unknown(text, length > 1000 ? 1000 : (int)length, out->command, message);
    }
    if (!option_belongs(row, out->command)) {
        snprintf(message, OPTIONS_MESSAGE, "`%s` does not belong to %s%s", row->name,
                 out->command == COMMAND_NONE ? "the start of the line: the command comes first"
                                              : "",
                 out->command == COMMAND_NONE ? "" : option_commands[out->command].name);
        return false;
    }
    if (out->given[row->id]) {
        snprintf(message, OPTIONS_MESSAGE, "`%s` is given twice", row->name);
        return false;
    }
    out->given[row->id] = true;
    return option_take_value(row, equals, count, arguments, at, out, message);
}

static bool option_read_operand(const char *text, options *out, char *message)
{
    const command_row *command = options_command(out->command);
    if (out->operand_count < command->most) {
        out->operands[out->operand_count++] = text;
        return true;
    }
    snprintf(message, OPTIONS_MESSAGE, "`%.60s` is one thing too many: kernline %s %s", text,
             command->name, command->operands);
    return false;
}

static bool option_read_command(const char *text, options *out, char *message)
{
    out->command = option_find_command(text);
    if (out->command != COMMAND_NONE) {
        return true;
    }
    nearest near = nearest_start(text, strlen(text));
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        nearest_try(&near, option_commands[i].name);
    }
    if (near.best != NULL) {
        snprintf(message, OPTIONS_MESSAGE, "unknown command `%.60s`; did you mean `%s`?", text,
                 near.best);
    } else {
        snprintf(message, OPTIONS_MESSAGE,
                 "unknown command `%.60s`; a command comes first: run, table, plot, report, "
                 "sensitivity, "
                 "validate, words, format",
                 text);
    }
    return false;
}

static bool option_none_excludes(const options *out, char *message)
{
    static const option_id pairs[][2] = {{OPTION_CSV, OPTION_JSON},
                                         {OPTION_CAUSE, OPTION_BY_CAUSE},
                                         {OPTION_EVERY, OPTION_AT},
                                         {OPTION_STAGE, OPTION_DAY},
                                         {OPTION_STEPS, OPTION_DAY}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; ++i) {
        if (out->given[pairs[i][0]] && out->given[pairs[i][1]]) {
            snprintf(message, OPTIONS_MESSAGE, "`%s` and `%s` exclude each other",
                     option_rows[pairs[i][0]].name, option_rows[pairs[i][1]].name);
            return false;
        }
    }
    return true;
}

/* Help and version need nothing else to be there. */
static bool option_is_complete(const options *out, char *message)
{
    if (out->given[OPTION_HELP] || out->given[OPTION_VERSION]) {
        return true;
    }
    if (out->command == COMMAND_NONE) {
        snprintf(message, OPTIONS_MESSAGE,
                 "what is to be done? A command comes first: kernline run MODEL");
        return false;
    }
    const command_row *command = options_command(out->command);
    if (out->operand_count < command->least) {
        snprintf(message, OPTIONS_MESSAGE, "something is missing: kernline %s %s", command->name,
                 command->operands);
        return false;
    }
    return option_none_excludes(out, message);
}

bool options_read(int count, char *const *arguments, options *out, char message[OPTIONS_MESSAGE])
{
    memset(out, 0, sizeof *out);
    out->command = COMMAND_NONE;
    message[0] = '\0';
    bool options_ended = false;
    for (int at = 0; at < count; ++at) {
        const char *text = arguments[at];
        bool fine = true;
        if (!options_ended && strcmp(text, "--") == 0) {
            options_ended = true;
        } else if (!options_ended && text[0] == '-' && text[1] != '\0') {
            fine = option_read_one(count, arguments, &at, out, message);
        } else if (out->command == COMMAND_NONE) {
            fine = option_read_command(text, out, message);
        } else {
            fine = option_read_operand(text, out, message);
        }
        if (!fine) {
            return false;
        }
    }
    return option_is_complete(out, message);
}
