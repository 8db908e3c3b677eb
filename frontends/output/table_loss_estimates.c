/* table_loss_estimates.c - computed long-term losses beside what the codes' one-line formulas give.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "tendon_places.h"

/* Less than this share of the loss is rounding. */
#define ESTIMATE_NOTHING 1e-9

static const char *const estimate_codes[KL_LOSS_CODE_COUNT] = {
    [KL_LOSS_AASHTO_2020] = "aashto 2020",
    [KL_LOSS_EN1992_2004] = "en1992 2004",
};

static void estimate_add_inputs(table *t)
{
    table_add(t, COLUMN_FIGURE, "concrete_stress", "concrete\nat steel", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "creep_coefficient", "creep\ncoefficient", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_EACH, "shrinkage_strain", "shrinkage\nstrain", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_FIGURE, "factor", "K", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_EACH, "later_creep", "creep of\nlater loads", KL_MEASURE_NUMBER, 4);
    table_detail(t);
    table_add(t, COLUMN_EACH, "duration", "time since\nstressing", KL_MEASURE_TIME, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "area", "gross\narea", KL_MEASURE_AREA, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "inertia", "gross\ninertia", KL_MEASURE_INERTIA, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "steel_area", "steel\narea", KL_MEASURE_STEEL_AREA, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "eccentricity", "steel above\ncentroid", KL_MEASURE_SIZE, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "concrete_modulus", "modulus of\nconcrete", KL_MEASURE_STRESS, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "initial_stress", "tendon after\nstressing", KL_MEASURE_STRESS, 5);
    table_detail(t);
}

static void estimate_add_columns(table *t)
{
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "tendon", "tendon");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 2);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add_words(t, COLUMN_WORD, "code", "code");
    table_add(t, COLUMN_FIGURE, "creep", "creep\ncomputed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "creep_code", "\nby code", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "shrinkage", "shrinkage\ncomputed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "shrinkage_code", "\nby code", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "relaxation", "relaxation\ncomputed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "relaxation_code", "\nby code", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "all", "all three\ncomputed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "all_code", "\nby code", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "difference", "code less\ncomputed", KL_MEASURE_STRESS, 3);
    table_add(t, COLUMN_FIGURE, "difference_ratio", "\n", KL_MEASURE_RATIO, 3);
    estimate_add_inputs(t);
}

static void estimate_put_inputs(table *t, const kl_loss_estimate *e)
{
    table_put(t, e->concrete_stress);
    table_put(t, e->creep_coefficient);
    table_put(t, e->shrinkage_strain);
    table_put(t, e->factor);
    table_put(t, e->later_creep);
    table_put(t, e->duration);
    table_put(t, e->area);
    table_put(t, e->inertia);
    table_put(t, e->steel_area);
    table_put(t, e->eccentricity);
    table_put(t, e->concrete_modulus);
    table_put(t, e->stress);
}

/* Of what was computed; rounding is nothing. */
static double estimate_ratio(double difference, double all)
{
    if (!(all > 0.0)) {
        return NAN;
    }
    return fabs(difference) > ESTIMATE_NOTHING * all ? difference / all : 0.0;
}

static void estimate_put(table *t, const kl_tendon_losses *computed, const kl_loss_estimate *e)
{
    const double creep = computed->lost[KL_LOSS_CREEP];
    const double shrinkage = computed->lost[KL_LOSS_SHRINKAGE];
    const double relaxation = computed->lost[KL_LOSS_RELAXATION];
    const double all = creep + shrinkage + relaxation;
    const bool no_law = isnan(e->relaxation) && !(relaxation > 0.0);
    const double by_code = e->creep + e->shrinkage + (no_law ? 0.0 : e->relaxation);
    table_put(t, creep);
    table_put(t, e->creep);
    table_put(t, shrinkage);
    table_put(t, e->shrinkage);
    table_put(t, relaxation);
    table_put(t, e->relaxation);
    table_put(t, all);
    table_put(t, by_code);
    table_put(t, by_code - all);
    table_put(t, estimate_ratio(by_code - all, all));
    estimate_put_inputs(t, e);
}

static void estimate_put_place(
    table *t, const kl_results *results, kl_state state, kl_index tendon, const tendon_place *at)
{
    kl_tendon_losses computed;
    kl_loss_estimate e;
    for (int code = 0; code < KL_LOSS_CODE_COUNT; ++code) {
        if (table_accepts(t, kl_losses_at_station(results, state, tendon, at->station, at->side,
                                                  &computed)) &&
            table_accepts(t, kl_estimate_losses(results, state, tendon, at->station, at->side,
                                                (kl_loss_code)code, &e))) {
            table_put_state(t, results, state);
            table_put_text(t, kl_results_model(results)->tendons[tendon].name);
            table_put(t, at->station);
            table_put_text(t, at->label);
            table_put_text(t, estimate_codes[code]);
            estimate_put(t, &computed, &e);
        }
    }
}

static void estimate_note(table *t)
{
    table_note(t,
               "These formulas stand beside the computed losses, never instead of them. They see "
               "one place alone: all steel there as one bonded layer, the gross section "
               "uncracked, no restraint by the rest of the frame, one step of time. Creep and "
               "shrinkage are those of the model's own laws since the tendon was stressed.");
    table_note(
        t,
        "Both: K = 1 / (1 + n k (1 + chi phi)), k = steel / area (1 + area e^2 / inertia), "
        "n = E_p / E_c; shrinkage = strain E_p K; creep = n (concrete at steel) phi K. K lets the "
        "concrete creep under what each loss gives back; computed, that is creep: compare all "
        "three together. CSV and JSON have all that the formulas were given.");
    table_note(
        t, "aashto 2020 (5.9.3.4 for post-tensioned members, recalled): chi 0.7, E_c on the day "
           "of stressing; a load that comes later creeps by its own age; relaxation "
           "f_pt / K_L (f_pt / f_py - 0.55), K_L 30 for low relaxation, else 7, the final "
           "value on any day.");
    table_note(
        t, "en1992 2004 ((5.46), recalled): chi 0.8, E_c at 28 days; all loads as if put on when "
           "the tendon was stressed; relaxation 0.8 K of what the steel would lose at "
           "constant length.");
    if (table_row_count(t) == 0) {
        table_note(t,
                   "No row: an estimate needs a bonded tendon, days between its stressing and the "
                   "moment shown, and a section that tells its faces.");
    }
}

void table_build_loss_estimates(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Long-term losses beside the codes' one-line formulas");
    estimate_add_columns(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index tendon = 0; tendon < model->tendon_count; ++tendon) {
            if (!selection_takes_tendon(s, model, tendon)) {
                continue;
            }
            const tendon_places places = tendon_places_find(t, results, s, s->states[i], tendon);
            for (kl_index k = 0; k < places.count && t->status == KL_OK; ++k) {
                estimate_put_place(t, results, s->states[i], tendon, &places.items[k]);
            }
        }
    }
    estimate_note(t);
}
