/* whole_process.c - two programs as whole processes, from start to end, in turns: medians and their ratio.
 * Usage: whole_process YARDSTICK PROGRAM [ARGUMENT…]
 *
 * In turns, so that what else the machine does falls on both alike. Their output goes nowhere. Seconds on the clock say
 * what waiting there is, seconds of the processor (all threads) what is used.
 * SPDX-License-Identifier: MIT */
#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define RUNS   51
#define WARMUP 3 /* not counted: files come into memory */

extern char **environ;

typedef struct seconds {
    double clock, processor;
} seconds;

static double of_timeval(struct timeval t)
{
    return (double)t.tv_sec + 1e-6 * (double)t.tv_usec;
}

/* On the clock, and what children have used that ended. */
static seconds now(void)
{
    struct timespec t;
    struct rusage used;
    clock_gettime(CLOCK_MONOTONIC, &t);
    getrusage(RUSAGE_CHILDREN, &used);
    return (seconds){(double)t.tv_sec + 1e-9 * (double)t.tv_nsec,
                     of_timeval(used.ru_utime) + of_timeval(used.ru_stime)};
}

static bool spawn_quietly(char **command, pid_t *child)
{
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    const bool done = posix_spawn(child, command[0], &actions, NULL, command, environ) == 0;
    posix_spawn_file_actions_destroy(&actions);
    return done;
}

static seconds run(char **command)
{
    pid_t child;
    int status = 0;
    const seconds before = now();
    if (!spawn_quietly(command, &child) || waitpid(child, &status, 0) != child || status != 0) {
        fprintf(stderr, "whole_process: %s does not run to a good end\n", command[0]);
        exit(1);
    }
    const seconds after = now();
    return (seconds){after.clock - before.clock, after.processor - before.processor};
}

static int compare(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double values[RUNS])
{
    qsort(values, RUNS, sizeof(double), compare);
    return values[RUNS / 2];
}

static void print_row(const char *name, const double value[2], const char *unit)
{
    printf("%-24s %10.2f %s %10.2f %s\n", name, value[0], unit, value[1], unit);
}

int main(int count, char **arguments)
{
    static double spent[2][2][RUNS]; /* which program, which seconds */
    double ms[2][2];
    if (count < 3) {
        fputs("Usage: whole_process YARDSTICK PROGRAM [ARGUMENT...]\n", stderr);
        return 2;
    }
    char *yardstick[] = {arguments[1], NULL};
    char **const commands[2] = {arguments + 2, yardstick};
    for (int i = -WARMUP; i < RUNS; i++) {
        for (int c = 0; c < 2; c++) {
            const seconds s = run(commands[c]);
            if (i >= 0) {
                spent[c][0][i] = s.clock;
                spent[c][1][i] = s.processor;
            }
        }
    }
    for (int c = 0; c < 2; c++) {
        for (int k = 0; k < 2; k++) {
            ms[c][k] = 1e3 * median(spent[c][k]);
        }
    }
    const double ratio[2] = {ms[0][0] / ms[1][0], ms[0][1] / ms[1][1]};
    printf("%-24s %13s %13s   medians of %d runs in turns\n", "whole process", "clock", "processor",
           RUNS);
    print_row("the program", ms[0], "ms");
    print_row("same libraries, empty", ms[1], "ms");
    print_row("ratio", ratio, "  ");
    return 0;
}
