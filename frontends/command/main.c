/* main.c - the program: read the command line, do the command, see that its output arrived.
 * SPDX-License-Identifier: MIT */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "commands.h"
#include "kernline/analysis.h"
#include "kernline/version.h"
#include "work.h"

/* A stream that was closed by whoever started us would be taken by the next file opened: standard error then goes
 * nowhere, and results without a standard output are refused. */
static bool main_streams_are_open(void)
{
    if (fcntl(STDERR_FILENO, F_GETFD) < 0 && open("/dev/null", O_WRONLY) != STDERR_FILENO) {
        return false;
    }
    return fcntl(STDOUT_FILENO, F_GETFD) >= 0;
}

static exit_status main_command(const options *o)
{
    switch (o->command) {
    case COMMAND_RUN:
        return cmd_run(o);
    case COMMAND_TABLE:
        return cmd_table(o);
    case COMMAND_PLOT:
        return cmd_plot(o);
    case COMMAND_REPORT:
        return cmd_report(o);
    case COMMAND_SENSITIVITY:
        return cmd_sensitivity(o);
    case COMMAND_VALIDATE:
        return cmd_validate(o);
    case COMMAND_WORDS:
        return cmd_words(o);
    case COMMAND_FORMAT:
        return cmd_format(o);
    case COMMAND_COUNT:
        break;
    }
    return EXIT_WRONG_USE;
}

static exit_status main_options(int count, char **arguments)
{
    options o;
    char message[OPTIONS_MESSAGE];
    if (!options_read(count, arguments, &o, message)) {
        work_complain("%s", message);
        fputs("`kernline --help` tells more.\n", stderr);
        return EXIT_WRONG_USE;
    }
    if (o.given[OPTION_HELP]) {
        options_write_help(o.command, stdout);
        return EXIT_ALL_WELL;
    }
    if (o.given[OPTION_VERSION]) {
        printf("kernline %s, model language %d\n", KL_VERSION_TEXT, KL_LANGUAGE_VERSION);
        return EXIT_ALL_WELL;
    }
    return main_command(&o);
}

/* A full disk shows only here. */
static exit_status main_flush(exit_status result)
{
    const bool failed_before = ferror(stdout) != 0;
    errno = 0;
    if (fflush(stdout) != 0 || failed_before || fclose(stdout) != 0) {
        work_complain("standard output cannot be written%s%s", errno != 0 ? ": " : "",
                      errno != 0 ? strerror(errno) : "");
        return EXIT_FILE_TROUBLE;
    }
    return result;
}

int main(int argc, char **argv)
{
    kl_use_one_thread();
    if (!main_streams_are_open()) {
        work_complain("standard output is closed");
        return EXIT_FILE_TROUBLE;
    }
    return (int)main_flush(main_options(argc > 0 ? argc - 1 : 0, argv + (argc > 0 ? 1 : 0)));
}
