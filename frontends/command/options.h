/* options.h - the command line: one table of commands, one of options.
 *
 * Reading, the help texts, the suggestions for a misspelt word, and (through a test) the completion and the manual
 * page all follow the two tables.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_OPTIONS_H
#define KERNLINE_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#define OPTIONS_OPERANDS 2 /* the most a command takes */
#define OPTIONS_MESSAGE  256

typedef enum command_id {
    COMMAND_RUN,
    COMMAND_TABLE,
    COMMAND_PLOT,
    COMMAND_REPORT,
    COMMAND_SENSITIVITY,
    COMMAND_VALIDATE,
    COMMAND_WORDS,
    COMMAND_FORMAT,
    COMMAND_COUNT,
    COMMAND_NONE = COMMAND_COUNT /* --help or --version alone */
} command_id;

typedef enum option_id {
    OPTION_STAGE,
    OPTION_STEPS,
    OPTION_CASE,
    OPTION_COMBINATION,
    OPTION_DAY,
    OPTION_CAUSE,
    OPTION_BY_CAUSE,
    OPTION_MEMBER,
    OPTION_TENDON,
    OPTION_EVERY,
    OPTION_AT,
    OPTION_CSV,
    OPTION_JSON,
    OPTION_WRITE,
    OPTION_OUTPUT,
    OPTION_PAPER,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_COUNT
} option_id;

typedef struct command_row {
    const char *name;     /* "table" */
    const char *operands; /* "MODEL WHAT" */
    int least, most;      /* operands */
    const char *help;     /* one line */
    const char *about;    /* a paragraph for the command's own help */
} command_row;

typedef struct option_row {
    option_id id;
    unsigned commands;    /* bit 1 << command_id of each that takes it */
    const char *name;     /* "--stage" */
    const char *argument; /* "STAGE", or NULL: takes none */
    const char *group;    /* heading in the help */
    const char *help;     /* one line */
} option_row;

typedef struct options {
    command_id command;
    const char *operands[OPTIONS_OPERANDS];
    int operand_count;
    bool given[OPTION_COUNT];
    const char *values[OPTION_COUNT]; /* of those that take one */
} options;

const command_row *options_command(command_id command); /* NULL for COMMAND_NONE */
const option_row *options_row(size_t i); /* i < OPTION_COUNT, in the order of the table */

/* Read the arguments after the program's name. `--option VALUE` and `--option=VALUE`; `--` ends the options.
 * @return false when something is wrong: `message` says what, in one or two sentences. */
bool options_read(int count, char *const *arguments, options *out, char message[OPTIONS_MESSAGE]);

/* Write the help of a command, or of the program (COMMAND_NONE). */
void options_write_help(command_id command, FILE *out);

#endif
