/* stress_bond.c - see stress_bond.h.
 * SPDX-License-Identifier: MIT */
#include "stress_bond.h"

kl_status stress_bond_list(const kl_model *model, arena *a, stress_bond *out)
{
    size_t total = 0;
    kl_index *first = arena_array(a, (size_t)model->member_count + 2, sizeof *first);
    if (first == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        for (kl_index i = 0; i < model->tendons[t].member_count; i++) {
            first[model->tendons[t].members[i] + 2]++;
            total++;
        }
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        first[m + 2] += first[m + 1];
    }
    kl_index *tendons = arena_array(a, total, sizeof *tendons);
    if (tendons == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count;
         t++) { /* first[m + 1] runs on to where it belongs */
        for (kl_index i = 0; i < model->tendons[t].member_count; i++) {
            tendons[first[model->tendons[t].members[i] + 1]++] = t;
        }
    }
    *out = (stress_bond){first, tendons};
    return KL_OK;
}

bool stress_bond_waits(const stress_bond *bond,
                       const kl_results *results,
                       kl_state state,
                       kl_index member)
{
    if (kl_results_model(results)->stage_count == 0) {
        return false;
    }
    for (kl_index i = bond->first[member]; i < bond->first[member + 1]; i++) {
        if (kl_tendon_state(results, state, bond->tendons[i]) == KL_TENDON_STRESSED) {
            return true;
        }
    }
    return false;
}
