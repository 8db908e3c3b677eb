/* watch.h - how long a piece of work took on a machine that is not ours alone.
 *
 * A thread that waits while others have the processor is not slow. Of work on one thread the smaller of two times counts: that
 * of the clock on the wall and that of the thread. The first has the cheaper clock, which matters for microseconds; the second
 * does not run while the thread waits. Work on several threads is timed on the wall.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WATCH_H
#define KERNLINE_WATCH_H

#include <stdlib.h>
#include <time.h>

typedef struct watch {
    double wall;
    double own;
} watch;

static inline double watch_read(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline watch watch_start(void)
{
    watch w;
    w.own = watch_read(CLOCK_THREAD_CPUTIME_ID);
    w.wall = watch_read(CLOCK_MONOTONIC);
    return w;
}

/* Seconds since the start. */
static inline double watch_stop(const watch *w, int threads)
{
    const double wall = watch_read(CLOCK_MONOTONIC) - w->wall;
    const double own = watch_read(CLOCK_THREAD_CPUTIME_ID) - w->own;
    return threads == 1 && own < wall ? own : wall;
}

static inline int watch_compare(const void *a, const void *b)
{
    const double *x = a;
    const double *y = b;
    return (*x > *y) - (*x < *y);
}

/* The values are sorted. */
static inline double watch_median(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, watch_compare);
    return values[count / 2];
}

#endif
