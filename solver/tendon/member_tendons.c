/* member_tendons.c - see member_tendons.h.
 * SPDX-License-Identifier: MIT */
#include "member_tendons.h"

/* Counted, then filled: `next` runs up to where the next member begins. */
kl_status member_tendons_make(const kl_model *model, arena *a, member_tendons *out)
{
    size_t count = 0;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        count += (size_t)model->tendons[t].member_count;
    }
    kl_index *const first = arena_array(a, (size_t)model->member_count + 2, sizeof *first);
    member_tendon *const items = arena_array(a, count, sizeof *items);
    if (first == NULL || items == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index *const next = first + 1;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        for (kl_index i = 0; i < model->tendons[t].member_count; i++) {
            next[model->tendons[t].members[i] + 1]++;
        }
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        next[m + 1] += next[m];
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        double start = 0.0;
        for (kl_index i = 0; i < model->tendons[t].member_count; i++) {
            const kl_index member = model->tendons[t].members[i];
            items[next[member]++] = (member_tendon){t, start};
            start += kl_member_length(model, member);
        }
    }
    *out = (member_tendons){first, items};
    return KL_OK;
}
