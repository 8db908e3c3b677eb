/* table_reactions.c - forces of supports, with their sum.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

void table_put_reaction(table *t, const kl_results *results, kl_state state, kl_index node)
{
    double force[3] = {NAN, NAN, NAN};
    bool any = false;
    for (int i = 0; i < 3; ++i) {
        if (table_accepts(t, kl_reaction(results, state, node, (kl_direction)i, &force[i]))) {
            any = true;
        } else {
            force[i] = NAN;
        }
    }
    if (any) {
        table_put_state(t, results, state);
        table_put_text(t, kl_results_model(results)->nodes[node].name);
        table_put(t, force[KL_X]);
        table_put(t, force[KL_Y]);
        table_put(t, force[KL_TURN]);
    }
}

void table_add_reactions(table *t)
{
    table_title(t, "Reactions");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "node", "node");
    table_add(t, COLUMN_FIGURE, "x", "x", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "y", "y", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "turn", "turn", KL_MEASURE_MOMENT, 5);
}

void table_build_reactions(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_add_reactions(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index node = 0; node < model->node_count; ++node) {
            table_put_reaction(t, results, s->states[i], node);
        }
    }
    table_note(t, "%s", LABEL_SIGNS_REACTION);
    table_note(t, "The sums, with the feet of falsework on the ground, are in `table audit`.");
}
