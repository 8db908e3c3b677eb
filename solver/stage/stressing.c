/* stressing.c - see stressing.h.
 * SPDX-License-Identifier: MIT */
#include "stressing.h"

#include "near.h"

static kl_status
work_out(analysis_run *run, kl_index t, const force_curve *locked, kl_diags *diags, stressing *out)
{
    return force_stress(run->model, t, &run->paths[t], out->share, locked, run->a, diags,
                        &out->before, &out->after, &out->record);
}

kl_status stressing_find(analysis_run *run,
                         kl_index t,
                         double share,
                         const force_curve *locked,
                         kl_diags *diags,
                         stressing *out)
{
    stressing *const kept = &run->from_slack[t];
    if (locked == NULL && kept->share > 0.0 && is_exact_zero(kept->share - share)) {
        *out = *kept;
        return KL_OK;
    }
    *out = (stressing){.share = share};
    KL_TRY(work_out(run, t, locked, diags, out));
    if (locked == NULL) {
        *kept = *out;
    }
    return KL_OK;
}
