/* progress.h - a line on standard error for each part of the work that takes more than a second, so that nobody wonders whether
 * the program still runs. Quick work says nothing.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PROGRESS_H
#define KERNLINE_PROGRESS_H

#include <pthread.h>
#include <stdbool.h>

typedef struct progress {
    pthread_t watcher;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    const char *what; /* NULL: ended */
    int part, parts;
    bool
        runs; /* without a thread to be had there is no progress to be seen, and nothing else is lost */
} progress;

/* Begin with the first of so many parts; `what` is static: "analysing". */
void progress_start(progress *p, int parts, const char *what);
/* The next part. */
void progress_next(progress *p, const char *what);
void progress_end(progress *p);

#endif
