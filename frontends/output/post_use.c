/* post_use.c - see post_use.h.
 * SPDX-License-Identifier: MIT */
#include "post_use.h"

#include <math.h>

double post_use_force(const kl_falsework *set, const kl_post_row *row)
{
    return row->stands ? row->force / (double)set->posts : 0.0;
}

kl_status post_use_of(const kl_results *results, kl_index falsework, kl_index row, post_use *out)
{
    const kl_falsework *set = &kl_results_model(results)->falsework[falsework];
    *out = (post_use){.falsework = falsework, .row = row, .step = KL_NONE};
    for (kl_index step = 0; step < kl_step_count(results); step++) {
        kl_post_row post;
        KL_TRY(kl_row_state(results, kl_state_step(step), falsework, row, &post));
        const double force = post_use_force(set, &post);
        if (force > out->force * (1.0 + POST_USE_ROUNDING)) {
            out->force = force;
            out->step = step;
        }
    }
    out->share = out->force / set->capacity;
    return KL_OK;
}

bool post_use_is_over(double share)
{
    return share > 1.0 + POST_USE_ROUNDING;
}

bool post_use_is_near(double share)
{
    return share > POST_USE_NEAR && !post_use_is_over(share);
}

kl_status post_use_tally(const kl_results *results, post_tally *out)
{
    const kl_model *model = kl_results_model(results);
    *out = (post_tally){0};
    for (kl_index f = 0; f < model->falsework_count; f++) {
        const bool is_rated = !isnan(model->falsework[f].capacity);
        for (kl_index row = 0; is_rated && row < model->falsework[f].row_count; row++) {
            post_use use;
            KL_TRY(post_use_of(results, f, row, &use));
            out->rated++;
            out->over += post_use_is_over(use.share);
            out->worst = fmax(out->worst, use.share);
        }
    }
    return KL_OK;
}
