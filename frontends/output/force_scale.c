/* force_scale.c - see force_scale.h.
 * SPDX-License-Identifier: MIT */
#include "force_scale.h"

#include <math.h>

#include "load_sum.h"

static kl_status scale_of_model(const kl_results *results, double *scale)
{
    const kl_model *model = kl_results_model(results);
    *scale = 0.0;
    for (kl_index i = 0; i < model->tendon_count; i++) {
        const kl_tendon *tendon = &model->tendons[i];
        *scale = fmax(*scale, tendon->jack_force * (double)tendon->count);
    }
    for (kl_index i = 0; i < model->case_count; i++) {
        load_sum sum = {0};
        KL_TRY(load_sum_add(&sum, results, &(load_share){i, 1.0}));
        *scale = fmax(*scale, fmax(fmax(sum.size[0], sum.size[1]), fabs(sum.moment)));
    }
    return KL_OK;
}

kl_status force_scale_widen(const kl_results *results, kl_state state, double *scale)
{
    const kl_model *model = kl_results_model(results);
    for (kl_index i = 0; i < model->support_count; i++) {
        for (int k = KL_X; k <= KL_Y; k++) {
            double force;
            const kl_status status =
                kl_reaction(results, state, model->supports[i].node, (kl_direction)k, &force);
            if (status == KL_OK) {
                *scale = fmax(*scale, fabs(force));
            } else if (status != KL_NOT_THERE) {
                return status;
            }
        }
    }
    return KL_OK;
}

kl_status force_scale_of_state(const kl_results *results, kl_state state, double *scale)
{
    KL_TRY(scale_of_model(results, scale));
    return force_scale_widen(results, state, scale);
}

kl_status force_scale_of(const kl_results *results, const selection *s, double *scale)
{
    KL_TRY(scale_of_model(results, scale));
    for (kl_index i = 0; i < s->state_count; i++) {
        KL_TRY(force_scale_widen(results, s->states[i], scale));
    }
    return KL_OK;
}
