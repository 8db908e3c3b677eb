/* history.c - see history.h.
 * SPDX-License-Identifier: MIT */
#include "history.h"

#include "mem.h"

#define MOST_STEPS 1000000

kl_status history_add(history *h, double from, double to, const double *stress)
{
    const size_t n = (size_t)h->n;
    void *spans = h->spans, *values = h->stress;
    kl_status status = mem_grow(&spans, &h->capacity, h->count + 1, sizeof h->spans[0], MOST_STEPS);
    h->spans = spans;
    KL_TRY(status);
    status = mem_grow(&values, &h->stress_capacity, (h->count + 1) * n, sizeof h->stress[0],
                      MOST_STEPS * n);
    h->stress = values;
    KL_TRY(status);
    h->spans[h->count][0] = from;
    h->spans[h->count][1] = to;
    for (size_t j = 0; j < n; j++) {
        h->stress[h->count * n + j] = stress[j];
    }
    h->count++;
    return KL_OK;
}

void history_strain(const history *h, const creep_function *law, double age, double *strain)
{
    const size_t n = (size_t)h->n;
    for (size_t j = 0; j < n; j++) {
        strain[j] = 0.0;
    }
    for (size_t i = 0; i < h->count; i++) {
        const double *span = h->spans[i];
        if (span[1] > age) {
            continue;
        }
        const double j_mean = 0.5 * (creep_function_compliance(law, age, span[0]) +
                                     creep_function_compliance(law, age, span[1]));
        for (size_t j = 0; j < n; j++) {
            strain[j] += j_mean * h->stress[i * n + j];
        }
    }
}

void history_free(history *h)
{
    mem_free(h->spans);
    mem_free(h->stress);
    *h = (history){.n = h->n};
}
