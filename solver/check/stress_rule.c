/* stress_rule.c - see stress_rule.h.
 * SPDX-License-Identifier: MIT */
#include "stress_rule.h"

static void stress_rule_mark_grouted(const kl_model *model, bool *grouted)
{
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            const kl_operation *op = &model->stages[s].operations[o];
            for (kl_index i = 0; op->kind == KL_OP_GROUT && i < op->items.count; i++) {
                grouted[op->items.items[i]] = true;
            }
        }
    }
}

kl_status stress_rule_prestress(const kl_model *model, arena *a, const rule_tendons **of_member)
{
    rule_tendons *kinds = arena_array(a, (size_t)model->member_count, sizeof *kinds);
    bool *grouted = arena_array(a, (size_t)model->tendon_count, sizeof *grouted);
    if (kinds == NULL || grouted == NULL) {
        return KL_NO_MEMORY;
    }
    stress_rule_mark_grouted(model, grouted);
    for (kl_index m = 0; m < model->member_count; m++) {
        kinds[m] = RULE_TENDONS_NONE;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const kl_tendon *tendon = &model->tendons[t];
        const bool bonds = tendon->bond == KL_BOND_UNSET ? grouted[t] : tendon->bond == KL_GROUTED;
        for (kl_index i = 0; i < tendon->member_count; i++) {
            rule_tendons *kind = &kinds[tendon->members[i]];
            *kind = bonds && *kind != RULE_TENDONS_UNBONDED ? RULE_TENDONS_BONDED
                                                            : RULE_TENDONS_UNBONDED;
        }
    }
    *of_member = kinds;
    return KL_OK;
}

const rule_row *stress_rule_of(const kl_check *check, rule_tendons prestress, rule_side side)
{
    const rule_circumstances c = {
        .condition = check->condition,
        .tendons = prestress,
        .bonded_steel = check->bonded_steel,
        .severe = check->has_exposure ? check->exposure_severe : true,
        .quasi_permanent = check->quasi_permanent,
        .uncracked_class = check->uncracked_class == 't' ? 't' : 'u',
    };
    return rule_find(check->rules, side, &c);
}
