/* moments.c - see moments.h.
 * SPDX-License-Identifier: MIT */
#include "moments.h"

#include <math.h>
#include <stdlib.h>

#include "mem.h"

#define NEAR_MOMENT  1.0 /* s: closer than this it is the same moment */
#define FIRST_MOMENT (0.1 * KL_DAY)
#define MOST_MOMENTS 1000000

typedef struct time_list {
    double *items;
    size_t count, capacity;
} time_list;

static kl_status add_time(time_list *list, double time)
{
    void *items = list->items;
    KL_TRY(mem_grow(&items, &list->capacity, list->count + 1, sizeof(double), MOST_MOMENTS));
    list->items = items;
    list->items[list->count++] = time;
    return KL_OK;
}

static int compare_times(const void *a, const void *b)
{
    const double p = *(const double *)a;
    const double q = *(const double *)b;
    return (p > q) - (p < q);
}

/* Those between two neighbouring days. */
static kl_status add_between(const kl_settings *settings, double from, double to, time_list *list)
{
    for (kl_index i = 0; i < settings->moment_count; i++) {
        const double time = settings->moments[i];
        if (time > from + NEAR_MOMENT && time < to - NEAR_MOMENT) {
            KL_TRY(add_time(list, time));
        }
    }
    const double share = 1.0 / settings->moments_per_decade;
    for (int i = 0; settings->moments_per_decade > 0; i++) {
        const double time = from + FIRST_MOMENT * pow(10.0, i * share);
        if (!(time < to - NEAR_MOMENT)) {
            break;
        }
        KL_TRY(add_time(list, time));
    }
    return KL_OK;
}

static kl_status collect(const kl_settings *settings, const kl_model *model, time_list *list)
{
    for (kl_index s = 1; s < model->stage_count; s++) {
        const size_t before = list->count;
        KL_TRY(add_between(settings, model->stages[s - 1].time, model->stages[s].time, list));
        if (list->count > before) {
            qsort(list->items + before, list->count - before, sizeof(double), compare_times);
        }
    }
    return KL_OK;
}

kl_status moments_list(const kl_settings *settings,
                       const kl_model *model,
                       arena *a,
                       const double **times,
                       kl_index *count)
{
    time_list list = {0};
    kl_status status = collect(settings, model, &list);
    double *out = status == KL_OK ? arena_array(a, list.count, sizeof(double)) : NULL;
    *count = 0;
    for (size_t i = 0; out && i < list.count; i++) {
        if (*count == 0 || list.items[i] > out[*count - 1] + NEAR_MOMENT) {
            out[(*count)++] = list.items[i];
        }
    }
    *times = out;
    mem_free(list.items);
    return status == KL_OK && !out ? KL_NO_MEMORY : status;
}
