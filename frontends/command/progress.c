/* progress.c - see progress.h.
 *
 * A thread waits until a part has lasted a second. Clocks other than the one of the day cannot be given to a condition with
 * pthread_cond_timedwait alone, hence the attribute.
 * SPDX-License-Identifier: MIT */
#include "progress.h"

#include <time.h>

#include "work.h"

#define PROGRESS_PATIENCE 1 /* s */

/* Tell of a part once it has lasted; return when everything has ended. */
static void *progress_watch(void *of)
{
    progress *p = of;
    pthread_mutex_lock(&p->lock);
    while (p->what) {
        const int part = p->part;
        struct timespec until;
        clock_gettime(CLOCK_MONOTONIC, &until);
        until.tv_sec += PROGRESS_PATIENCE;
        int waited = 0;
        while (p->what && p->part == part && waited == 0) {
            waited = pthread_cond_timedwait(&p->changed, &p->lock, &until);
        }
        if (p->what && p->part == part) {
            work_complain("%d of %d: %s \xE2\x80\xA6", p->part, p->parts, p->what);
        }
        while (p->what && p->part == part) {
            pthread_cond_wait(&p->changed, &p->lock);
        }
    }
    pthread_mutex_unlock(&p->lock);
    return NULL;
}

void progress_start(progress *p, int parts, const char *what)
{
    *p = (progress){.what = what, .part = 1, .parts = parts};
    pthread_condattr_t steady;
    if (pthread_condattr_init(&steady) != 0) {
        return;
    }
    if (pthread_condattr_setclock(&steady, CLOCK_MONOTONIC) == 0 &&
        pthread_mutex_init(&p->lock, NULL) == 0) {
        p->runs = pthread_cond_init(&p->changed, &steady) == 0;
        if (p->runs && pthread_create(&p->watcher, NULL, progress_watch, p) != 0) {
            pthread_cond_destroy(&p->changed);
            p->runs = false;
        }
        if (!p->runs) {
            pthread_mutex_destroy(&p->lock);
        }
    }
    pthread_condattr_destroy(&steady);
}

static void progress_set(progress *p, const char *what)
{
    pthread_mutex_lock(&p->lock);
    p->what = what;
    p->part++;
    pthread_cond_signal(&p->changed);
    pthread_mutex_unlock(&p->lock);
}

void progress_next(progress *p, const char *what)
{
    if (p->runs) {
        progress_set(p, what);
    }
}

void progress_end(progress *p)
{
    if (p->runs) {
        progress_set(p, NULL);
        pthread_join(p->watcher, NULL);
        pthread_cond_destroy(&p->changed);
        pthread_mutex_destroy(&p->lock);
        p->runs = false;
    }
}
