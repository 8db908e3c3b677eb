/* schedule.h - which fronts are eliminated by whom, and where their contributions live until the parent takes them up.
 *
 * With one thread everything is done in order. With more, subtrees of the elimination tree are tasks that threads take one
 * after the other, and what is above them, the top, follows in order, several threads to a front. A number of the factor is the
 * same sum in the same order in every case.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SCHEDULE_H
#define KERNLINE_SCHEDULE_H

#include "supernode.h"

/* The supernodes `first` … `root`: a whole subtree. */
typedef struct schedule_task {
    kl_index first;
    kl_index root;
    double work;
} schedule_task;

/* Entries are numbered from the begin of the stacks. Those before `shared` are common to all; there the contributions of the
 * roots of tasks and of the top live. After them each thread has `local` entries of its own, for what lives within a task. */
typedef struct elimination_schedule {
    int threads;
    int64_t
        *contribution; /* of each supernode: its first entry, in the stacks of the first thread */
    int64_t shared;
    int64_t local;
    int64_t slivers;       /* numbers a front takes when it is cut into slivers, at most */
    int64_t local_slivers; /* the same within tasks */
    schedule_task *tasks;  /* by falling work */
    kl_index task_count;
    kl_index *top; /* ascending */
    kl_index top_count;
} elimination_schedule;

/* @param threads wanted; one does when there is too little to do for more.
 * @return KL_NO_MEMORY, KL_TOO_LARGE; there is something to destroy in any case. */
kl_status schedule_create(const sparse_symbolic *symbolic, int threads, elimination_schedule *out);
void schedule_destroy(elimination_schedule *schedule);

#endif
