/* summary_reactions.c - forces of supports: all of them, or, where there are many, the first and those with the extremes.
 * SPDX-License-Identifier: MIT */
#include "summary_tables.h"

#include <math.h>

#include "label.h"

void summary_note_left_out(table *t, kl_index left_out, const char *where)
{
    if (left_out > 0) {
        table_note(t, "%d more rows: see %s.", (int)left_out, where);
    }
}

/* The nodes that hold a component's largest and smallest value: [KL_X … KL_TURN][0 largest, 1 smallest]. */
typedef struct reaction_extremes {
    kl_index node[3][2];
    double value[3][2];
} reaction_extremes;

/* What is never anything but zero has no extremes. */
static const reaction_extremes reaction_no_extremes = {
    {{KL_NONE, KL_NONE}, {KL_NONE, KL_NONE}, {KL_NONE, KL_NONE}}, {{0.0}}};

static reaction_extremes reaction_governing(table *t, const kl_results *results, kl_state state)
{
    reaction_extremes e = reaction_no_extremes;
    for (kl_index node = 0; node < kl_results_model(results)->node_count; ++node) {
        for (int d = 0; d < 3; ++d) {
            double force = 0.0;
            if (!table_accepts(t, kl_reaction(results, state, node, (kl_direction)d, &force))) {
                break;
            }
            /* Rounding must not choose between equals. */
            if (force > e.value[d][0] * (1.0 + 1e-9)) {
                e.value[d][0] = force;
                e.node[d][0] = node;
            } else if (force < e.value[d][1] * (1.0 + 1e-9)) {
                e.value[d][1] = force;
                e.node[d][1] = node;
            }
        }
    }
    return e;
}

static bool reaction_governs(const reaction_extremes *e, kl_index node)
{
    for (int d = 0; d < 3; ++d) {
        if (e->node[d][0] == node || e->node[d][1] == node) {
            return true;
        }
    }
    return false;
}

void summary_build_reactions(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const bool is_large = (double)model->support_count * s->state_count > SUMMARY_ROW_LIMIT;
    kl_index left_out = 0;
    table_add_reactions(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        const reaction_extremes e =
            is_large ? reaction_governing(t, results, s->states[i]) : reaction_no_extremes;
        for (kl_index node = 0; node < model->node_count; ++node) {
            double force = 0.0;
            if (table_row_count(t) < SUMMARY_ROW_LIMIT || reaction_governs(&e, node)) {
                table_put_reaction(t, results, s->states[i], node);
            } else if (table_accepts(t, kl_reaction(results, s->states[i], node, KL_Y, &force))) {
                ++left_out;
            }
        }
    }
    if (left_out > 0) {
        table_note(t, "%d more rows, whose forces lie between these: see `table reactions`.",
                   (int)left_out);
    }
}
