/* stress_rule.c - see stress_rule.h.
 * SPDX-License-Identifier: MIT */
#include "stress_rule.h"

#include <math.h>

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

/* ---- bars that nobody speaks of ------------------------------------------------------------------------- */

static bool stress_rule_has_bars(const kl_model *model, kl_index member)
{
    for (kl_index i = 0; i < model->members[member].section_count; i++) {
        if (model->sections[model->members[member].sections[i].section].rebar_count > 0) {
            return true;
        }
    }
    return false;
}

void stress_rule_warn(const kl_model *model,
                      const kl_check *check,
                      const rule_tendons *of_member,
                      kl_diags *diags)
{
    kl_check with_steel = *check;
    with_steel.bonded_steel = true;
    if (check->has_bonded_steel || !isnan(check->tension)) {
        return;
    }
    for (kl_index i = 0; i < check->members.count; i++) {
        const kl_index member = check->members.items[i];
        const rule_row *strict = stress_rule_of(check, of_member[member], RULE_TENSION);
        const rule_row *other = stress_rule_of(&with_steel, of_member[member], RULE_TENSION);
        if (strict != NULL && other != NULL && strict != other &&
            stress_rule_has_bars(model, member)) {
            kl_diags_add(diags, KL_WARNING, "bonded-steel-unsaid", check->origin,
                         "Check %s holds the tension in %s to what its rules allow without bonded "
                         "steel (%s). Its section has bars; `bonded_steel yes` would allow %s.",
                         check->name, model->members[member].name, strict->formula, other->formula);
            kl_diags_hint(diags, "say `bonded_steel yes` where the bars can carry all of the "
                                 "tension in the concrete, `bonded_steel no` where they cannot");
            return;
        }
    }
}
