/* usage.c - what a program takes: seconds of the processor and the most memory it had.
 * Usage: usage TIMES PROGRAM [ARGUMENT…]
 *
 * Runs the program so many times with nothing to read and nowhere to write, and prints the least processor seconds (its own
 * and the system's for it) and the least peak memory in KiB. @return 1 when the program cannot be run, or when it fails.
 * SPDX-License-Identifier: MIT */
#define _DEFAULT_SOURCE /* wait4 */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static double seconds(struct timeval t)
{
    return (double)t.tv_sec + 1e-6 * (double)t.tv_usec;
}

static void become(char **arguments)
{
    const int nothing = open("/dev/null", O_RDWR);
    for (int stream = 0; stream < 3; stream++) {
        dup2(nothing, stream);
    }
    execvp(arguments[0], arguments);
    _exit(127);
}

static int run(char **arguments, struct rusage *usage)
{
    const pid_t child = fork();
    if (child == 0) {
        become(arguments);
    }
    int status = -1;
    return child > 0 && wait4(child, &status, 0, usage) == child ? status : -1;
}

int main(int count, char **arguments)
{
    double least = 1e9;
    long peak = 0;
    const long times = count > 2 ? strtol(arguments[1], NULL, 10) : 0;
    for (long i = 0; i < times; i++) {
        struct rusage usage;
        if (run(arguments + 2, &usage) != 0) {
            return 1;
        }
        const double taken = seconds(usage.ru_utime) + seconds(usage.ru_stime);
        least = taken < least ? taken : least;
        peak = peak == 0 || usage.ru_maxrss < peak ? usage.ru_maxrss : peak;
    }
    printf("%.6f %ld\n", least, peak);
    return times > 0 ? 0 : 1;
}
