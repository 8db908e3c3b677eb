/* fuzz_bind.c - any text: a model that is whole, or messages with a place.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include <math.h>

/* What a checked model promises to those who read it. */
static void check_model(const kl_model *model)
{
    for (kl_index i = 0; i < model->node_count; ++i) {
        try_law(isfinite(model->nodes[i].x) && isfinite(model->nodes[i].y), "the place of node %s",
                model->nodes[i].name);
        try_law(kl_model_find(model, KL_KIND_NODE, model->nodes[i].name) == i,
                "node %s is found by its name", model->nodes[i].name);
    }
    for (kl_index i = 0; i < model->member_count; ++i) {
        const double length = kl_member_length(model, i);
        try_law(length > 0.0 && isfinite(length), "member %s is %g m long", model->members[i].name,
                length);
    }
}

int fuzz_bind(const uint8_t *data, size_t size)
{
    try_text t = {0};
    if (try_bind(&t, data, size) == KL_OK) {
        check_model(t.model);
    }
    try_free(&t);
    return 0;
}

FUZZ_ENTRY(fuzz_bind)
