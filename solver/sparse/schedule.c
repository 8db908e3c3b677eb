/* schedule.c - see schedule.h.
 * SPDX-License-Identifier: MIT */
#include "schedule.h"

#include <stdlib.h>

#include "mem.h"
#include "numeric.h"
#include "team.h"

/* A subtree of more than this share of a thread's work is divided. */
#define SCHEDULE_SHARE 0.25

/* Products from which a second thread pays: some milliseconds. Measured, docs/performance.md. */
#define SCHEDULE_LEAST 4e7

/* An entry of a front is cleared, gathered and stored, which takes as long as so many products. */
#define SCHEDULE_ENTRY 20.0

static double schedule_own_work(const supernode *s)
{
    const double p = 3.0 * s->width;
    const double r = 3.0 * s->rows;
    return p * p * p / 3.0 + p * p * r + p * r * r + SCHEDULE_ENTRY * (p + r) * (p + r);
}

static bool schedule_is_wide(const supernode *s)
{
    return 3 * s->width >= NUMERIC_WIDE;
}

/* ---- tasks ------------------------------------------------------------------------------------------------------- */

/* What is needed only while the object is made, of each supernode. */
typedef struct schedule_making {
    double *work;    /* of its subtree */
    kl_index *first; /* of its subtree */
    unsigned char *place;
} schedule_making;

/* Places: a local supernode has none of these. */
enum { SCHEDULE_ROOT = 1, SCHEDULE_TOP = 2, SCHEDULE_ODD = 4 };

static void schedule_sum_up(const sparse_symbolic *symbolic, schedule_making *making)
{
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        making->work[i] = schedule_own_work(s);
        making->first[i] = i;
        making->place[i] = SCHEDULE_ROOT; /* until a parent comes */
        for (kl_index c = s->child_at; c < s[1].child_at; c++) {
            const kl_index child = symbolic->children[c];
            making->work[i] += making->work[child];
            making->place[child] = 0;
        }
        if (s->child_at < s[1].child_at) {
            making->first[i] = making->first[symbolic->children[s->child_at]];
        }
    }
}

/* Supernodes with more than `most` below and in them are the top; their other children are the roots of tasks. */
static void schedule_divide(const sparse_symbolic *symbolic,
                            schedule_making *making,
                            double most,
                            elimination_schedule *out)
{
    for (kl_index i = symbolic->count - 1; i >= 0; i--) {
        const supernode *s = &symbolic->supernodes[i];
        if (making->work[i] > most) {
            making->place[i] = SCHEDULE_TOP;
            out->top_count++;
            for (kl_index c = s->child_at; c < s[1].child_at; c++) {
                making->place[symbolic->children[c]] = SCHEDULE_ROOT;
            }
        } else if (making->place[i] == SCHEDULE_ROOT) {
            out->task_count++;
        }
    }
}

static int schedule_compare(const void *a, const void *b)
{
    const schedule_task *x = a;
    const schedule_task *y = b;
    if (x->work < y->work || x->work > y->work) {
        return x->work < y->work ? 1 : -1;
    }
    return x->first < y->first ? -1 : x->first > y->first;
}

static kl_status
schedule_list(const sparse_symbolic *symbolic, schedule_making *making, elimination_schedule *out)
{
    out->tasks = mem_array((size_t)out->task_count, sizeof *out->tasks);
    out->top = mem_array((size_t)out->top_count, sizeof *out->top);
    if (!out->tasks || !out->top) {
        return KL_NO_MEMORY;
    }
    kl_index tasks = 0;
    kl_index top = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        if (making->place[i] == SCHEDULE_TOP) {
            out->top[top++] = i;
        } else if (making->place[i] == SCHEDULE_ROOT) {
            out->tasks[tasks++] = (schedule_task){making->first[i], i, making->work[i]};
        }
    }
    qsort(out->tasks, (size_t)tasks, sizeof *out->tasks, schedule_compare);
    return KL_OK;
}

/* Everything is the top, and is done in order. */
static void schedule_for_one(const sparse_symbolic *symbolic,
                             schedule_making *making,
                             elimination_schedule *out)
{
    out->threads = 1;
    out->task_count = 0;
    out->top_count = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        making->place[i] = SCHEDULE_TOP;
    }
}

/* Threads help with tasks and with the wide fronts of the top; they do not pay where most is neither. */
static kl_status schedule_for_threads(const sparse_symbolic *symbolic,
                                      schedule_making *making,
                                      elimination_schedule *out)
{
    schedule_sum_up(symbolic, making);
    double total = 0.0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        total += making->place[i] == SCHEDULE_ROOT ? making->work[i] : 0.0;
    }
    if (total < SCHEDULE_LEAST) {
        schedule_for_one(symbolic, making, out);
        return KL_OK;
    }
    schedule_divide(symbolic, making, SCHEDULE_SHARE * total / out->threads, out);
    double alone = 0.0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        alone +=
            making->place[i] == SCHEDULE_TOP && !schedule_is_wide(s) ? schedule_own_work(s) : 0.0;
    }
    if (2.0 * alone > total) {
        schedule_for_one(symbolic, making, out);
        return KL_OK;
    }
    return schedule_list(symbolic, making, out);
}

/* ---- memory ------------------------------------------------------------------------------------------------------ */

static int64_t schedule_size(const supernode *s)
{
    return supernode_round(3 * (int64_t)s->rows * supernode_contribution_stride(s));
}

/* Two stacks that grow in one piece of memory; which is the upper one's begin is known at the end. */
typedef struct schedule_stacks {
    int64_t height[2];
    int64_t highest[2];
} schedule_stacks;

static int64_t schedule_push(schedule_stacks *stacks, int odd, int64_t size)
{
    const int64_t at = stacks->height[odd];
    stacks->height[odd] += size;
    if (stacks->height[odd] > stacks->highest[odd]) {
        stacks->highest[odd] = stacks->height[odd];
    }
    return at;
}

/* Supernodes of even and of odd depth have a stack each: children are on the other stack than their parent, on top, so all of
 * them can be taken up while the parent's own is being made. The roots of tasks wait for each other and stay where they are.
 * @param in_tasks the stacks within tasks, else those of the top. */
static schedule_stacks schedule_stack(const sparse_symbolic *symbolic,
                                      const schedule_making *making,
                                      bool in_tasks,
                                      elimination_schedule *out)
{
    schedule_stacks stacks = {{0, 0}, {0, 0}};
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        const int odd = (making->place[i] & SCHEDULE_ODD) != 0;
        const bool top = (making->place[i] & SCHEDULE_TOP) != 0;
        const bool root = (making->place[i] & SCHEDULE_ROOT) != 0;
        if (top == in_tasks) {
            continue;
        }
        if (!root) {
            out->contribution[i] = schedule_push(&stacks, odd, schedule_size(s));
        }
        for (kl_index c = s->child_at; c < s[1].child_at; c++) {
            const kl_index child = symbolic->children[c];
            if ((making->place[child] & SCHEDULE_ROOT) == 0) {
                stacks.height[1 - odd] -= schedule_size(&symbolic->supernodes[child]);
            }
        }
    }
    return stacks;
}

/* Begin of the shared part: the roots of tasks. */
static int64_t schedule_stack_roots(const sparse_symbolic *symbolic,
                                    const schedule_making *making,
                                    elimination_schedule *out)
{
    int64_t at = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        if ((making->place[i] & SCHEDULE_ROOT) != 0) {
            out->contribution[i] = at;
            at += schedule_size(&symbolic->supernodes[i]);
        }
    }
    return at;
}

static kl_status schedule_stack_all(const sparse_symbolic *symbolic,
                                    schedule_making *making,
                                    elimination_schedule *out)
{
    unsigned char *place = making->place;
    for (kl_index i = symbolic->count - 1; i >= 0; i--) {
        const supernode *s = &symbolic->supernodes[i];
        for (kl_index c = s->child_at; (place[i] & SCHEDULE_ODD) == 0 && c < s[1].child_at; c++) {
            place[symbolic->children[c]] |= SCHEDULE_ODD;
        }
    }
    const int64_t roots = schedule_stack_roots(symbolic, making, out);
    const schedule_stacks top = schedule_stack(symbolic, making, false, out);
    const schedule_stacks tasks = schedule_stack(symbolic, making, true, out);
    out->shared = roots + top.highest[0] + top.highest[1];
    out->local = tasks.highest[0] + tasks.highest[1];
    for (kl_index i = 0; i < symbolic->count; i++) {
        const bool odd = (place[i] & SCHEDULE_ODD) != 0;
        if ((place[i] & SCHEDULE_TOP) != 0) {
            out->contribution[i] += roots + (odd ? top.highest[0] : 0);
        } else if ((place[i] & SCHEDULE_ROOT) == 0) {
            out->contribution[i] += out->shared + (odd ? tasks.highest[0] : 0);
        }
    }
    const int64_t most = SUPERNODE_ENTRY_LIMIT;
    return out->shared > most || out->local > most / out->threads ? KL_TOO_LARGE : KL_OK;
}

static void schedule_measure_slivers(const sparse_symbolic *symbolic,
                                     const schedule_making *making,
                                     elimination_schedule *out)
{
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        const int64_t pivots = 3 * (int64_t)s->width;
        const int64_t rows = pivots + 3 * (int64_t)s->rows + 2 * NUMERIC_SLIVER;
        int64_t *most =
            (making->place[i] & SCHEDULE_TOP) != 0 ? &out->slivers : &out->local_slivers;
        if (schedule_is_wide(s) && pivots * rows > *most) {
            *most = supernode_round(pivots * rows);
        }
    }
}

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static kl_status
schedule_fill(const sparse_symbolic *symbolic, schedule_making *making, elimination_schedule *out)
{
    const size_t count = (size_t)symbolic->count;
    out->contribution = mem_room(count, sizeof *out->contribution);
    making->place = mem_room(count, sizeof *making->place);
    if (!out->contribution || !making->place) {
        return KL_NO_MEMORY;
    }
    if (out->threads == 1) {
        schedule_for_one(symbolic, making, out);
    } else {
        making->work = mem_room(count, sizeof *making->work);
        making->first = mem_room(count, sizeof *making->first);
        KL_TRY(making->work && making->first ? KL_OK : KL_NO_MEMORY);
        KL_TRY(schedule_for_threads(symbolic, making, out));
    }
    schedule_measure_slivers(symbolic, making, out);
    return schedule_stack_all(symbolic, making, out);
}

kl_status schedule_create(const sparse_symbolic *symbolic, int threads, elimination_schedule *out)
{
    *out = (elimination_schedule){.threads = threads < 1           ? 1
                                             : threads > TEAM_MOST ? TEAM_MOST
                                                                   : threads};
    schedule_making making = {0};
    const kl_status status = schedule_fill(symbolic, &making, out);
    mem_free(making.work);
    mem_free(making.first);
    mem_free(making.place);
    return status;
}

void schedule_destroy(elimination_schedule *schedule)
{
    mem_free(schedule->contribution);
    mem_free(schedule->tasks);
    mem_free(schedule->top);
}
