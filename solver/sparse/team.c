/* team.c - see team.h.
 * SPDX-License-Identifier: MIT */
#include "team.h"

/* Looks at a number before the member lies down to sleep: some microseconds, about what it costs to be woken. */
#define TEAM_LOOKS 4000

static void *team_help(void *given)
{
    const team_helper *self = given;
    team *t = self->team;
    int64_t heard = 0;
    pthread_mutex_lock(&t->lock);
    while (!t->closed) {
        if (t->job == NULL || heard == t->calls) {
            pthread_cond_wait(&t->called, &t->lock);
            continue;
        }
        heard = t->calls;
        team_job *job = t->job;
        void *context = t->context;
        t->busy++;
        pthread_mutex_unlock(&t->lock);
        job(context, self->member);
        pthread_mutex_lock(&t->lock);
        t->busy--;
        pthread_cond_broadcast(&t->changed);
    }
    pthread_mutex_unlock(&t->lock);
    return NULL;
}

static void team_destroy(team *t)
{
    pthread_cond_destroy(&t->changed);
    pthread_cond_destroy(&t->called);
    pthread_mutex_destroy(&t->lock);
}

bool team_open(team *t, int members)
{
    *t = (team){.job = NULL};
    /* With default attributes these do not fail where threads are to be had at all. */
    if (pthread_mutex_init(&t->lock, NULL) != 0) {
        return false;
    }
    if (pthread_cond_init(&t->called, NULL) != 0) {
        pthread_mutex_destroy(&t->lock);
        return false;
    }
    if (pthread_cond_init(&t->changed, NULL) != 0) {
        pthread_cond_destroy(&t->called);
        pthread_mutex_destroy(&t->lock);
        return false;
    }
    while (t->helpers + 1 < members && t->helpers < TEAM_MOST - 1) {
        team_helper *next = &t->helper[t->helpers];
        *next = (team_helper){.team = t, .member = t->helpers + 1};
        if (pthread_create(&next->thread, NULL, team_help, next) != 0) {
            break;
        }
        t->helpers++;
    }
    if (t->helpers == 0) {
        team_destroy(t);
        return false;
    }
    return true;
}

void team_close(team *t)
{
    pthread_mutex_lock(&t->lock);
    t->closed = true;
    pthread_cond_broadcast(&t->called);
    pthread_mutex_unlock(&t->lock);
    for (int i = 0; i < t->helpers; i++) {
        pthread_join(t->helper[i].thread, NULL);
    }
    team_destroy(t);
}

void team_run(team *t, team_job *job, void *context)
{
    pthread_mutex_lock(&t->lock);
    t->job = job;
    t->context = context;
    t->calls++;
    pthread_cond_broadcast(&t->called);
    pthread_mutex_unlock(&t->lock);
    job(context, 0);
    pthread_mutex_lock(&t->lock);
    t->job = NULL;
    while (t->busy > 0) {
        pthread_cond_wait(&t->changed, &t->lock);
    }
    pthread_mutex_unlock(&t->lock);
}

void team_reach(team *t, _Atomic int64_t *at, int64_t value)
{
    pthread_mutex_lock(&t->lock);
    atomic_store(at, value);
    pthread_cond_broadcast(&t->changed);
    pthread_mutex_unlock(&t->lock);
}

void team_wait(team *t, _Atomic int64_t *at, int64_t value)
{
    for (int i = 0; i < TEAM_LOOKS; i++) {
        if (atomic_load(at) >= value) {
            return;
        }
    }
    pthread_mutex_lock(&t->lock);
    while (atomic_load(at) < value) {
        pthread_cond_wait(&t->changed, &t->lock);
    }
    pthread_mutex_unlock(&t->lock);
}
