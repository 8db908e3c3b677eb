/* team.h - threads that do one job together: the caller and, while the team is open, some helpers that wait for it to call.
 *
 * A job is a function that every member runs once; it hands out its parts itself, by an atomic counter, so that a member who
 * comes late finds nothing left and nobody waits for him.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TEAM_H
#define KERNLINE_TEAM_H

#include <pthread.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

#define TEAM_MOST 64

/* @param member 0 for the caller, 1 … for the helpers. */
typedef void team_job(void *context, int member);

typedef struct team team;

typedef struct team_helper {
    team *team;
    int member;
    pthread_t thread;
} team_helper;

struct team {
    pthread_mutex_t lock; /* of all that follows */
    pthread_cond_t called;
    pthread_cond_t changed; /* a helper is through, or a number was reached */
    team_job *job;          /* NULL: none to join */
    void *context;
    int64_t calls;
    int busy; /* helpers at work */
    bool closed;
    int helpers;
    team_helper helper[TEAM_MOST - 1];
};

/* A team of up to `members`, as many as the system gives; close it.
 * @return false when there is nobody but the caller; then there is nothing to close. */
bool team_open(team *t, int members);
void team_close(team *t);

/* Every member who is there in time runs the job; back when all of them are through. */
void team_run(team *t, team_job *job, void *context);

/* Say within a job that `at` is now `value`; wait until it is `value` at least. What was written before is then seen. */
void team_reach(team *t, _Atomic int64_t *at, int64_t value);
void team_wait(team *t, _Atomic int64_t *at, int64_t value);

#endif
